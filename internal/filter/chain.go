package filter

import (
	"math"
)

// Chain is a row of sections with level, polarity and delay. The zero value
// passes the signal unchanged. A Chain is immutable once built and safe for
// use by several goroutines.
type Chain struct {
	sections []Section
	analogs  []analog
	gainDB   float64
	inverted bool
	delayS   float64
}

// New returns a chain of the given sections, level in dB, polarity and delay
// in seconds. It panics on a section whose frequency is not positive.
func New(sections []Section, gainDB float64, inverted bool, delayS float64) Chain {
	c := Chain{
		sections: append([]Section(nil), sections...),
		analogs:  make([]analog, len(sections)),
		gainDB:   gainDB, inverted: inverted, delayS: delayS,
	}
	for i, s := range sections {
		if !(s.FreqHz > 0) {
			panic("filter: section frequency must be positive")
		}
		c.analogs[i] = s.analog()
	}
	return c
}

// Crossover returns the sections of a low-pass or high-pass of the given
// shape, order and corner in hertz.
func Crossover(kind Kind, shape Shape, order int, cornerHz float64) ([]Section, error) {
	poles, err := Poles(shape, order)
	if err != nil {
		return nil, err
	}
	sections := make([]Section, len(poles))
	for i, p := range poles {
		f := p.F0 * cornerHz
		if kind == HighPass {
			f = cornerHz / p.F0
		}
		sections[i] = Section{Kind: kind, FreqHz: f, Q: p.Q, MatchHz: cornerHz}
	}
	return sections, nil
}

// Sections returns a copy of the chain's sections, in order.
func (c Chain) Sections() []Section { return append([]Section(nil), c.sections...) }

// GainDB returns the level of the chain, dB, its sections left out.
func (c Chain) GainDB() float64 { return c.gainDB }

// Inverted reports whether the polarity is reversed.
func (c Chain) Inverted() bool { return c.inverted }

// DelayS returns the delay in seconds.
func (c Chain) DelayS() float64 { return c.delayS }

// WithJoin returns the chain with another level, polarity and delay and the
// same sections: what a search for the best join varies.
func (c Chain) WithJoin(gainDB float64, inverted bool, delayS float64) Chain {
	c.gainDB, c.inverted, c.delayS = gainDB, inverted, delayS
	return c
}

// At returns the complex response at angular frequency w, rad/s.
func (c Chain) At(w float64) complex128 {
	h := complex(c.signedGain(), 0)
	for i := range c.analogs {
		h = c.analogs[i].times(h, w)
	}
	return c.delayed(h, w)
}

// Response returns the response at each angular frequency of omega, rad/s.
func (c Chain) Response(omega []float64) []complex128 {
	dst := make([]complex128, len(omega))
	c.ResponseTo(dst, omega)
	return dst
}

// ResponseTo is Response into a slice of the caller's. It panics if the
// lengths differ.
func (c Chain) ResponseTo(dst []complex128, omega []float64) {
	if len(dst) != len(omega) {
		panic("filter: dst and omega differ in length")
	}
	g := complex(c.signedGain(), 0)
	for k, w := range omega {
		h := g
		for i := range c.analogs {
			h = c.analogs[i].times(h, w)
		}
		dst[k] = c.delayed(h, w)
	}
}

// GroupDelay returns minus the slope of the phase at angular frequency w, s.
func (c Chain) GroupDelay(w float64) float64 {
	sum := c.delayS
	for i := range c.analogs {
		sum += c.analogs[i].groupDelay(w)
	}
	return sum
}

func (c Chain) signedGain() float64 {
	g := 1.0
	if c.gainDB != 0 {
		g = math.Pow(10, c.gainDB/20)
	}
	if c.inverted {
		g = -g
	}
	return g
}

// delayed turns h by exp(-j w delay).
func (c Chain) delayed(h complex128, w float64) complex128 {
	if c.delayS == 0 {
		return h
	}
	sin, cos := math.Sincos(w * c.delayS)
	return h * complex(cos, -sin)
}
