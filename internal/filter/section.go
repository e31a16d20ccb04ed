package filter

import "math"

// Kind is what one section does.
type Kind string

// Sections of first and second order. The last three are those of the W3C
// Working Group Note "Audio EQ Cookbook" (8 June 2021), analog prototypes.
const (
	LowPass   Kind = "lowpass"
	HighPass  Kind = "highpass"
	Peak      Kind = "peak"
	LowShelf  Kind = "low_shelf"
	HighShelf Kind = "high_shelf"
)

// Section is one first- or second-order block.
type Section struct {
	Kind   Kind
	FreqHz float64 // natural frequency; the mid-gain point of a shelf
	Q      float64 // zero: first order (low-pass and high-pass only)
	GainDB float64 // peak and shelves
	// MatchHz is where a digital copy is made exact: the corner of the
	// crossover that the section belongs to, or FreqHz.
	MatchHz float64
}

// prototype holds the coefficients of (b2 s^2 + b1 s + b0)/(a2 s^2 + a1 s +
// a0) with s in units of the section's own natural frequency.
type prototype struct {
	b0, b1, b2, a0, a1, a2 float64
}

func (s Section) prototype() prototype {
	if s.Q == 0 {
		if s.Kind == HighPass {
			return prototype{b1: 1, a0: 1, a1: 1}
		}
		return prototype{b0: 1, a0: 1, a1: 1}
	}
	a := math.Pow(10, s.GainDB/40)
	slope := math.Sqrt(a) / s.Q
	switch s.Kind {
	case LowPass:
		return prototype{b0: 1, a0: 1, a1: 1 / s.Q, a2: 1}
	case HighPass:
		return prototype{b2: 1, a0: 1, a1: 1 / s.Q, a2: 1}
	case Peak:
		return prototype{1, a / s.Q, 1, 1, 1 / (a * s.Q), 1}
	case LowShelf:
		return prototype{a * a, a * slope, a, 1, slope, a}
	case HighShelf:
		return prototype{a, a * slope, a * a, a, slope, 1}
	}
	panic("filter: unknown section kind " + string(s.Kind))
}

// analog is a prototype rescaled to angular frequency, rad/s, with the signs
// of s = jw already taken: numerator (b0 - b2 w^2) + j b1 w.
type analog struct {
	b0, b1, b2, a0, a1, a2 float64
}

func (s Section) analog() analog {
	p := s.prototype()
	k := 1 / (2 * math.Pi * s.FreqHz)
	return analog{p.b0, p.b1 * k, p.b2 * k * k, p.a0, p.a1 * k, p.a2 * k * k}
}

// times returns h multiplied by the section's response at angular frequency w.
func (a *analog) times(h complex128, w float64) complex128 {
	w2 := w * w
	nr, ni := a.b0-a.b2*w2, a.b1*w
	dr, di := a.a0-a.a2*w2, a.a1*w
	r := 1 / (dr*dr + di*di)
	return h * complex((nr*dr+ni*di)*r, (ni*dr-nr*di)*r)
}

// groupDelay returns the section's group delay at w, s: the real part of
// D'/D - N'/N at s = jw.
func (a *analog) groupDelay(w float64) float64 {
	part := func(c0, c1, c2 float64) float64 {
		re, im := c0-c2*w*w, c1*w
		size := re*re + im*im
		if size == 0 {
			return 0 // a zero at the origin turns the phase by a constant
		}
		// c1 + 2 c2 jw over the polynomial.
		return (c1*re + 2*c2*w*im) / size
	}
	return part(a.a0, a.a1, a.a2) - part(a.b0, a.b1, a.b2)
}
