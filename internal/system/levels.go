package system

import (
	"math"
	"math/cmplx"
)

// Reference is the reference sound pressure, Pa (ISO 1683).
const Reference = 20e-6

// floorDB keeps the logarithm of nothing finite.
const floorDB = -60

// decibels returns 20 lg |z|, never below floorDB.
func decibels(z complex128, reference float64) float64 {
	re, im := real(z)/reference, imag(z)/reference
	m := re*re + im*im
	if !(m > 1e-6) {
		return floorDB
	}
	return 10 * math.Log10(m)
}

// levels writes the level (dB re 20 uPa) of an rms pressure.
func levels(p []complex128) []float64 {
	out := make([]float64, len(p))
	for i, z := range p {
		out[i] = decibels(z, Reference)
	}
	return out
}

// groupDelay returns -d(phase)/d(omega) in seconds by central differences of
// the phase between neighbours, which needs no unwrapping while the phase
// turns less than half a circle from one point to the next but one.
func groupDelay(p []complex128, omega []float64) []float64 {
	n := len(p)
	out := make([]float64, n)
	for i := range out {
		a, b := max(i-1, 0), min(i+1, n-1)
		if p[a] == 0 || p[b] == 0 {
			continue
		}
		out[i] = -cmplx.Phase(p[b]*cmplx.Conj(p[a])) / (omega[b] - omega[a])
	}
	return out
}
