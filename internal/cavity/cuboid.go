package cavity

import (
	"math"
	"sort"
)

// BoxMode is one mode of a rigid cuboid.
type BoxMode struct {
	Order [3]int // half waves along length, width and height
	K     float64
}

// BoxModes returns the modes of a rigid cuboid with wavenumbers up to cut,
// rad/m, in rising order, the uniform one first: k^2 = sum (pi n_i / l_i)^2
// (Rayleigh, The Theory of Sound, 1896, section 267).
func BoxModes(length, width, height, cut float64) []BoxMode {
	var out []BoxMode
	count := func(l float64) int { return int(cut * l / math.Pi) }
	for i := range count(length) + 1 {
		for j := range count(width) + 1 {
			for k := range count(height) + 1 {
				a, b, c := float64(i)/length, float64(j)/width, float64(k)/height
				if q := math.Pi * math.Sqrt(a*a+b*b+c*c); q <= cut {
					out = append(out, BoxMode{Order: [3]int{i, j, k}, K: q})
				}
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].K < out[j].K })
	return out
}

// UnityFrequency returns where a cavity of the given volume starts to help: the
// frequency at which the pressure of a small source in the closed volume,
// rho c^2 U/(omega V), equals its pressure at the distance in a half space,
// omega rho U/(2 pi r): (c/2 pi) sqrt(2 pi r/V), Hz.
func UnityFrequency(c, volume, distance float64) float64 {
	return c / (2 * math.Pi) * math.Sqrt(2*math.Pi*distance/volume)
}

// HalfWave returns c/2L, Hz, the lowest mode of a straight cavity of that
// length; used as the corner of cabin gain by common practice.
func HalfWave(c, length float64) float64 { return c / (2 * length) }

// PressureZoneGain returns the asymptote of cabin gain below the first mode,
// 2 pi r c^2/(omega^2 V), as a ratio of pressures: 12 dB per octave.
func PressureZoneGain(c, volume, distance, omega float64) float64 {
	return 2 * math.Pi * distance * c * c / (omega * omega * volume)
}
