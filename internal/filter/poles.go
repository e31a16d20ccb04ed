// Package filter gives the complex response of the electrical chain before an
// amplifier: crossovers, equaliser bands, level, polarity and delay. Phasors
// are exp(+jwt).
package filter

import (
	"fmt"
	"math"
	"math/cmplx"
	"sort"
	"sync"
)

// Shape names a family of crossover responses.
type Shape string

// The shapes, as the job document spells them.
const (
	Butterworth   Shape = "butterworth"
	LinkwitzRiley Shape = "linkwitz_riley"
	Bessel        Shape = "bessel"
)

// MaxOrder is the steepest crossover on offer, 48 dB per octave.
const MaxOrder = 8

// Pole is one section of a low-pass normalised to a corner of 1: a pair of
// conjugate poles of natural frequency F0 and quality Q, or a single real
// pole at -F0 where Q is zero.
type Pole struct {
	F0, Q float64
}

// Poles returns the sections of a low-pass of the given shape and order whose
// corner is 1; lowest Q first. The corner is where the response is down 3.01
// dB, for Linkwitz-Riley 6.02 dB. The high-pass has F0 inverted.
//
// Butterworth (Wireless Engineer 7 (1930) 536) has its poles evenly spread on
// the unit circle. Linkwitz-Riley (Linkwitz, J. Audio Eng. Soc. 24 (1976) 2)
// of order n is Butterworth n/2 twice, so n is even. Bessel (Thomson, Proc.
// IEE 96 III (1949) 487) has the roots of the reverse Bessel polynomial,
// scaled to the 3.01 dB corner.
func Poles(shape Shape, order int) ([]Pole, error) {
	if order < 1 || order > MaxOrder {
		return nil, fmt.Errorf("order %d; use 1 to %d (6 dB per octave each)", order, MaxOrder)
	}
	switch shape {
	case Butterworth:
		return butterworth(order), nil
	case LinkwitzRiley:
		if order%2 != 0 {
			return nil, fmt.Errorf("order %d; Linkwitz-Riley exists in orders 2, 4, 6 and 8", order)
		}
		half := butterworth(order / 2)
		if order == 2 {
			// Two equal real poles make one section of Q 1/2.
			return []Pole{{F0: 1, Q: 0.5}}, nil
		}
		all := make([]Pole, 0, order/2+1)
		for _, p := range half {
			if p.Q == 0 {
				all = append(all, Pole{F0: 1, Q: 0.5})
			} else {
				all = append(all, p, p)
			}
		}
		return all, nil
	case Bessel:
		return append([]Pole(nil), besselTable()[order]...), nil
	}
	return nil, fmt.Errorf("shape %q; use %s, %s or %s", shape, Butterworth, LinkwitzRiley, Bessel)
}

func butterworth(order int) []Pole {
	var poles []Pole
	if order%2 == 1 {
		poles = append(poles, Pole{F0: 1})
	}
	for k := order / 2; k >= 1; k-- {
		// The pair nearest the real axis has the lowest Q.
		angle := math.Pi * float64(2*k-1) / float64(2*order)
		poles = append(poles, Pole{F0: 1, Q: 1 / (2 * math.Sin(angle))})
	}
	return poles
}

// besselTable holds the Bessel sections by order. They depend on nothing, so
// they are found once.
var besselTable = sync.OnceValue(func() [][]Pole {
	table := make([][]Pole, MaxOrder+1)
	for n := 1; n <= MaxOrder; n++ {
		table[n] = bessel(n)
	}
	return table
})

func bessel(order int) []Pole {
	poly := reverseBessel(order)
	corner := halfPower(poly)
	var poles []Pole
	for _, r := range roots(poly) {
		size := cmplx.Abs(r)
		switch {
		case imag(r) > 1e-6*size:
			poles = append(poles, Pole{F0: size / corner, Q: size / (-2 * real(r))})
		case imag(r) >= -1e-6*size:
			poles = append(poles, Pole{F0: size / corner})
		}
	}
	sort.Slice(poles, func(i, j int) bool { return poles[i].Q < poles[j].Q })
	return poles
}

// reverseBessel returns the coefficients, lowest power first, of the reverse
// Bessel polynomial theta_n: a_k = (2n-k)! / (2^(n-k) k! (n-k)!).
func reverseBessel(n int) []float64 {
	a := make([]float64, n+1)
	for k := range a {
		a[k] = math.Gamma(float64(2*n-k+1)) /
			(math.Pow(2, float64(n-k)) * math.Gamma(float64(k+1)) * math.Gamma(float64(n-k+1)))
	}
	return a
}

// halfPower returns the frequency at which |p(0)/p(jw)|^2 is one half.
func halfPower(poly []float64) float64 {
	excess := func(w float64) float64 {
		v := horner(poly, complex(0, w))
		return real(v)*real(v) + imag(v)*imag(v) - 2*poly[0]*poly[0]
	}
	lo, hi := 0.0, float64(len(poly)) // the corner of order n lies below n+1
	for range 100 {
		if mid := (lo + hi) / 2; excess(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// roots returns all roots of a polynomial with leading coefficient one, by
// the Durand-Kerner iteration (Kerner, Numer. Math. 8 (1966) 290).
func roots(poly []float64) []complex128 {
	n := len(poly) - 1
	z := make([]complex128, n)
	for i := range z {
		// Any start off the real axis with distinct points will do.
		z[i] = complex(float64(n), 0) * cmplx.Pow(0.4+0.9i, complex(float64(i), 0))
	}
	for range 500 {
		moved := 0.0
		for i := range z {
			den := complex(1, 0)
			for j := range z {
				if j != i {
					den *= z[i] - z[j]
				}
			}
			step := horner(poly, z[i]) / den
			z[i] -= step
			moved = math.Max(moved, cmplx.Abs(step)/cmplx.Abs(z[i]))
		}
		if moved < 1e-15 {
			break
		}
	}
	return z
}

func horner(poly []float64, z complex128) complex128 {
	var v complex128
	for k := len(poly) - 1; k >= 0; k-- {
		v = v*z + complex(poly[k], 0)
	}
	return v
}
