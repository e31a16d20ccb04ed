package cavity

import (
	"fmt"
	"math"

	"bootfloor/internal/air"
)

// Admittance is the real part of the specific acoustic admittance of a
// surface, beta = rho c / Z, dimensionless, with a power-law trend:
// beta(f) = At100 (f / 100 Hz)^Slope.
type Admittance struct {
	At100 float64
	Slope float64
}

// at returns beta at the angular frequency omega.
func (a Admittance) at(omega float64) float64 {
	if a.Slope == 0 || a.At100 == 0 {
		return a.At100
	}
	return a.At100 * math.Pow(omega/(2*math.Pi*100), a.Slope)
}

// Mix returns the area-weighted mean of two surfaces at 100 Hz, share of b; the
// slope is weighted by what each part absorbs.
func (a Admittance) Mix(b Admittance, share float64) Admittance {
	x, y := a.At100*(1-share), b.At100*share
	if x+y <= 0 {
		return Admittance{}
	}
	return Admittance{At100: x + y, Slope: (a.Slope*x + b.Slope*y) / (x + y)}
}

// Body is something that stands in the cavity, a seat, a person or a box: it
// takes its volume out of the air and absorbs at its surface.
type Body struct {
	Centre Point
	// Size is its length, width and height along x, y and z, m; only the
	// spread of its effect depends on it.
	Size Point
	// Volume of air displaced, m3.
	Volume float64
	// Surface that absorbs, m2, and its admittance.
	Surface float64
	Admittance
}

// Absorption is what the cavity is made of and filled with.
type Absorption struct {
	// Region gives each surface's admittance.
	Region [NumRegions]Admittance
	// Bodies stand inside.
	Bodies []Body
	// Give is the compliance of panels that breathe as a share of the
	// compliance of the air, spread over all surfaces.
	Give float64
}

// Uniform returns the absorption of bare walls of one admittance everywhere.
func Uniform(beta float64) Absorption {
	var a Absorption
	for r := range a.Region {
		a.Region[r].At100 = beta
	}
	return a
}

// Scaled returns the absorption with every loss multiplied by factor; volumes
// and panel compliance stay.
func (a Absorption) Scaled(factor float64) Absorption {
	for r := range a.Region {
		a.Region[r].At100 *= factor
	}
	b := make([]Body, len(a.Bodies))
	copy(b, a.Bodies)
	for i := range b {
		b[i].At100 *= factor
	}
	a.Bodies = b
	return a
}

// Displaced returns the volume the bodies take out of the air, m3.
func (a Absorption) Displaced() float64 {
	var v float64
	for _, b := range a.Bodies {
		v += b.Volume
	}
	return v
}

// maxFilled is the largest share of the shape that bodies may take: beyond it
// they are no longer small obstacles in an open space.
const maxFilled = 0.6

// validate reports the first value that cannot be.
func (a Absorption) validate(volume float64) error {
	bad := func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }
	for r, s := range a.Region {
		if bad(s.At100) || s.At100 < 0 || s.At100 > 1 || bad(s.Slope) || math.Abs(s.Slope) > 3 {
			return fmt.Errorf("the admittance of the %s is %g with slope %g; between 0 and 1, slope between -3 and 3, would do", Region(r), s.At100, s.Slope)
		}
	}
	for i, b := range a.Bodies {
		if bad(b.Volume) || b.Volume < 0 || bad(b.Surface) || b.Surface < 0 || bad(b.At100) || b.At100 < 0 || b.At100 > 1 || bad(b.Slope) || math.Abs(b.Slope) > 3 {
			return fmt.Errorf("body %d in the cavity has volume %g m3, surface %g m2, admittance %g; none may be negative, and the admittance at most 1", i+1, b.Volume, b.Surface, b.At100)
		}
		for _, v := range []float64{b.Centre.X, b.Centre.Y, b.Centre.Z, b.Size.X, b.Size.Y, b.Size.Z} {
			if bad(v) {
				return fmt.Errorf("body %d in the cavity has a place or size that is not a number", i+1)
			}
		}
	}
	if d := a.Displaced(); d > maxFilled*volume {
		return fmt.Errorf("what stands in the cavity takes %.2f m3 of its %.2f m3; at most %.0f %% would do", d, volume, maxFilled*100)
	}
	if bad(a.Give) || a.Give < -0.9 || a.Give > 10 {
		return fmt.Errorf("the give of the panels is %g of the air's compliance; between -0.9 and 10 would do", a.Give)
	}
	return nil
}

// wallLoss returns the admittance of the thermal boundary layer on any rigid
// wall, the least a surface can absorb: Re beta = (gamma-1) k delta_t / 2 with
// delta_t = sqrt(2 mu / (rho omega Pr)) (L. Cremer, Akustische Zeitschrift 3,
// 1948; P. M. Morse and K. U. Ingard, Theoretical Acoustics, 1968, 6.4).
func wallLoss(p air.Properties, omega float64) float64 {
	if p.Viscosity <= 0 || p.Prandtl <= 0 {
		return 0
	}
	delta := math.Sqrt(2 * p.Viscosity / (p.Density * omega * p.Prandtl))
	return (p.Gamma - 1) * omega / p.SpeedOfSound * delta / 2
}
