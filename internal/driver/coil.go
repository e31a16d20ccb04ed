package driver

import (
	"math"
	"math/cmplx"
)

// CoilModel names the shape of a coil's impedance.
type CoilModel string

// The coil models, from the plainest to the most lifelike.
const (
	CoilNone  CoilModel = "none"       // Re alone
	CoilPlain CoilModel = "inductor"   // jw Le
	CoilLossy CoilModel = "two_part"   // jw Le + (jw L2 parallel R2)
	CoilSemi  CoilModel = "semi"       // K (jw)^N
	CoilPower CoilModel = "power_laws" // Kr w^Xr + j Ki w^Xi
)

// Coil is what a voice coil adds to its DC resistance while it is held still.
// The eddy currents in the pole make it less than an inductor and more than a
// resistor. Exactly one form is used: the two power laws when Ki is set, else
// the semi-inductance when K is set, else Le with or without L2 and R2.
type Coil struct {
	Le float64 // H
	L2 float64 // H, shunted by R2; both or neither
	R2 float64 // ohm

	K float64 // ohm s^N
	N float64 // 0.5 (deep eddy currents) to 1 (an inductor)

	Kr, Xr, Ki, Xi float64 // resistance Kr w^Xr and reactance Ki w^Xi, ohm
}

// Model tells which form the coil takes.
func (c Coil) Model() CoilModel {
	switch {
	case c.Ki > 0:
		return CoilPower
	case c.K > 0:
		return CoilSemi
	case c.L2 > 0 && c.R2 > 0:
		return CoilLossy
	case c.Le > 0:
		return CoilPlain
	}
	return CoilNone
}

// Impedance returns the coil's impedance without Re, ohm, at the angular
// frequency w >= 0, rad/s.
//
// The semi-inductance is K (jw)^N = K w^N (cos(N pi/2) + j sin(N pi/2)):
// W. M. Leach, "Loudspeaker Voice-Coil Inductance Losses", JAES 50 (2002) 442;
// N = 1/2 is J. Vanderkooy's, JAES 37 (1989) 119. The two power laws are those
// of J. R. Wright, JAES 38 (1990) 749.
func (c Coil) Impedance(w float64) complex128 {
	if w <= 0 {
		return 0
	}
	switch c.Model() {
	case CoilPower:
		return complex(c.Kr*math.Pow(w, c.Xr), c.Ki*math.Pow(w, c.Xi))
	case CoilSemi:
		return cmplx.Rect(c.K*math.Pow(w, c.N), c.N*math.Pi/2)
	case CoilLossy:
		x := complex(0, w*c.L2)
		return complex(0, w*c.Le) + x*complex(c.R2, 0)/(complex(c.R2, 0)+x)
	}
	return complex(0, w*c.Le)
}

// Scale returns the coil with its impedance multiplied by ratio at every
// frequency, as for like coils in series or parallel that do not share a core.
func (c Coil) Scale(ratio float64) Coil {
	c.Le *= ratio
	c.L2 *= ratio
	c.R2 *= ratio
	c.K *= ratio
	c.Kr *= ratio
	c.Ki *= ratio
	return c
}

// Parallel returns the resistance, ohm, and inductance, H, that side by side
// make the coil's impedance at the one angular frequency w > 0. A resistance
// of zero stands for none (the coil is a pure inductor).
func (c Coil) Parallel(w float64) (r, l float64) {
	z := c.Impedance(w)
	if z == 0 {
		return 0, 0
	}
	y := 1 / z
	if real(y) > 1e-12*cmplx.Abs(y) {
		r = 1 / real(y)
	}
	if imag(y) < 0 {
		l = -1 / (w * imag(y))
	}
	return r, l
}
