package network

import (
	"math"

	"bootfloor/internal/air"
)

// Duct is a straight pipe of constant section as an exact two-port: standing
// waves, and the drag and heat loss of the boundary layer at its wall. Door 0
// and door 1 are its ends; both flows count as entering.
//
// With the wide-tube layer (Kirchhoff 1868; Pierce, Acoustics, 10-5), valid
// while the layer, about 0.4 mm at 30 Hz, is thin against the section,
//
//	z' = jw rho/S (1 + (1-j) dv/a)             series impedance per metre
//	y' = jw S/(rho c^2) (1 + (gamma-1)(1-j) dt/a)  shunt admittance per metre
//
// where dv = sqrt(2 mu/(rho w)), dt = dv/sqrt(Pr) and a = 2 S/perimeter is the
// hydraulic radius. For a short pipe the pair tends to the inertance
// rho L/S and its friction. Fibre in the pipe adds its flow resistance to z'.
type Duct struct {
	Air       air.Properties
	Length    float64 // m
	Area      float64 // m2
	Perimeter float64 // m
	// FlowResistivity of fibre in the duct, Pa s/m2; 0 for an empty pipe.
	FlowResistivity float64
	// Isothermal is the share (0 to 1) of the isothermal compliance that the
	// fibre brings about.
	Isothermal float64
}

// Doors is two.
func (d Duct) Doors() int { return 2 }

// Impedance implements Body.
func (d Duct) Impedance(_ int, w float64, z []complex128) {
	zs, ys := d.PerMetre(w)
	shunt := ys * complex(d.Length, 0)
	p := hyperbolic(zs * shunt * complex(d.Length, 0))
	z12 := p.scale * reciprocal(shunt*p.sinh)
	z11 := p.cosh * reciprocal(shunt*p.sinh)
	z[0], z[1], z[2], z[3] = z11, z12, z12, z11
}

// PerMetre returns the series impedance (Pa s/m4) and shunt admittance
// (m2/(Pa s)) of a metre of the duct.
func (d Duct) PerMetre(w float64) (zs, ys complex128) {
	a := 2 * d.Area / d.Perimeter
	dv := math.Sqrt(2 * d.Air.Viscosity / (d.Air.Density * w))
	dt := dv / math.Sqrt(d.Air.Prandtl)
	zs = complex(0, w*d.Air.Density/d.Area)*complex(1+dv/a, -dv/a) +
		complex(d.FlowResistivity/d.Area, 0)
	iso := 1 + (d.Air.Gamma-1)*d.Isothermal
	h := (d.Air.Gamma - 1) * dt / a
	ys = complex(0, w*d.Area/d.Air.BulkModulus()) * complex(iso+h, -h)
	return zs, ys
}

// FlangedEnd and FreeEnd are end corrections in radii of a round mouth at low
// frequency: in a wide wall (8/(3 pi), the piston of Rayleigh, Theory of Sound
// II, 302, that the trade uses for a pipe too; the true field gives 0.8217)
// and in free air (Levine and Schwinger, Phys. Rev. 73 (1948) 383).
const (
	FlangedEnd = 8 / (3 * math.Pi)
	FreeEnd    = 0.6127
)

// RectangularEnd returns the end correction (m) of a rectangular mouth of
// sides a and b in a wide wall, moving as a piston. It is the mean over the
// rectangle of the potential of a uniform sheet,
//
//	delta = 1/(2 pi S) double integral dS dS'/r
//
// in the closed form of the self-potential of a rectangle (Maxwell's mean
// distance integral; for a square 0.4732 sqrt(S), for a circle of the same
// area 0.4789 sqrt(S)). A thin slot has less than the equal circle.
func RectangularEnd(a, b float64) float64 {
	d := math.Hypot(a, b)
	// Integral of 1/r over all pairs of points of an a x b rectangle.
	i := 2*a*a*b*math.Asinh(b/a) + 2*a*b*b*math.Asinh(a/b) +
		2.0/3*(a*a*a+b*b*b-d*d*d)
	return i / (2 * math.Pi * a * b)
}
