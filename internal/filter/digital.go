package filter

import (
	"fmt"
	"math"
	"math/cmplx"
)

// Biquad is a digital section with a0 = 1:
// y[n] = B0 x[n] + B1 x[n-1] + B2 x[n-2] - A1 y[n-1] - A2 y[n-2].
// Some processors want A1 and A2 with the opposite sign.
type Biquad struct {
	B0, B1, B2, A1, A2 float64
}

// Digital returns the section for a processor of the given sample rate, Hz:
// the bilinear transform of the analog prototype, made exact at MatchHz. With
// MatchHz equal to FreqHz it is the section of the W3C Working Group Note
// "Audio EQ Cookbook" (8 June 2021). A frequency at or above half of the
// sample rate is an error.
func (s Section) Digital(sampleRate float64) (Biquad, error) {
	match := s.MatchHz
	if match == 0 {
		match = s.FreqHz
	}
	if !(sampleRate > 0) || math.IsInf(sampleRate, 1) || 2*math.Max(match, s.FreqHz) >= sampleRate {
		return Biquad{}, fmt.Errorf("a filter at %g Hz needs a sample rate above %g Hz, not %g Hz",
			s.FreqHz, 2*math.Max(match, s.FreqHz), sampleRate)
	}
	p := s.prototype()
	// s = (1 - z^-1)/(k (1 + z^-1)) in units of the natural frequency.
	k := math.Tan(math.Pi*match/sampleRate) * s.FreqHz / match
	if s.Q == 0 {
		// First order in both: keep it so, or a pole and zero would meet at z = -1.
		a := 1 / (p.a0*k + p.a1)
		return Biquad{
			B0: (p.b0*k + p.b1) * a, B1: (p.b0*k - p.b1) * a,
			A1: (p.a0*k - p.a1) * a,
		}, nil
	}
	expand := func(c0, c1, c2 float64) (z0, z1, z2 float64) {
		c0 *= k * k
		c1 *= k
		return c2 + c1 + c0, 2 * (c0 - c2), c2 - c1 + c0
	}
	b0, b1, b2 := expand(p.b0, p.b1, p.b2)
	a0, a1, a2 := expand(p.a0, p.a1, p.a2)
	return Biquad{b0 / a0, b1 / a0, b2 / a0, a1 / a0, a2 / a0}, nil
}

// At returns the biquad's response at a frequency and sample rate in hertz.
func (b Biquad) At(freqHz, sampleRate float64) complex128 {
	z := cmplx.Exp(complex(0, -2*math.Pi*freqHz/sampleRate)) // z^-1
	num := complex(b.B0, 0) + z*(complex(b.B1, 0)+z*complex(b.B2, 0))
	den := 1 + z*(complex(b.A1, 0)+z*complex(b.A2, 0))
	return num / den
}

// Digital returns all sections of the chain for a sample rate in hertz.
// Level, polarity and delay are settings of their own on every processor and
// are left out.
func (c Chain) Digital(sampleRate float64) ([]Biquad, error) {
	out := make([]Biquad, len(c.sections))
	for i, s := range c.sections {
		b, err := s.Digital(sampleRate)
		if err != nil {
			return nil, err
		}
		out[i] = b
	}
	return out, nil
}
