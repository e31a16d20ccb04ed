package network

import (
	"math"

	"bootfloor/internal/air"
)

// Section is one piece of a line, straight or a cone: the root of the area
// changes evenly from Start to End. Its walls are those of a square section.
type Section struct {
	Length     float64 // m, along the centre line
	Start, End float64 // areas, m2
	Fibre      Fibre
}

// Line is a chain of ducts with a door 0 somewhere along it, where a cone
// feeds it, and a door 1 at its mouth. Toward lists the pieces from the cone
// to the mouth, at least one, Behind those from the cone to the closed end,
// each in the order and the direction in which one meets them from the cone.
type Line struct {
	Air    air.Properties
	Toward []Section
	Behind []Section
}

// Doors is two.
func (l *Line) Doors() int { return 2 }

// Impedance implements Body. Pieces are joined as impedances, not as chain
// matrices, so that a long line full of fibre cannot overflow.
func (l *Line) Impedance(_ int, w float64, z []complex128) {
	m := medium{air: l.Air, w: w}
	t := m.section(l.Toward[0])
	for _, s := range l.Toward[1:] {
		t = t.join(m.section(s))
	}
	if len(l.Behind) > 0 {
		// The stub's far end is rigid: its last piece shows its open-circuit
		// impedance, and the stub lies beside the way to the mouth.
		last := len(l.Behind) - 1
		stub := m.section(l.Behind[last]).z11
		for i := last - 1; i >= 0; i-- {
			p := m.section(l.Behind[i])
			stub = p.z11 - p.z12*p.z12*reciprocal(p.z22+stub)
		}
		share := stub * reciprocal(stub+t.z11)
		t = twoPort{t.z11 * share, t.z12 * share, t.z22 - t.z12*t.z12*reciprocal(stub+t.z11)}
	}
	z[0], z[1], z[2], z[3] = t.z11, t.z12, t.z12, t.z22
}

// twoPort holds the open-circuit impedances of a reciprocal two-port, both
// flows entering.
type twoPort struct{ z11, z12, z22 complex128 }

// join returns two two-ports one after the other.
func (a twoPort) join(b twoPort) twoPort {
	s := reciprocal(a.z22 + b.z11)
	return twoPort{a.z11 - a.z12*a.z12*s, a.z12 * b.z12 * s, b.z22 - b.z12*b.z12*s}
}

// medium is the air of a line at one frequency; it remembers the fibre it met
// last, for the pieces of a line are often stuffed alike.
type medium struct {
	air                      air.Properties
	w                        float64
	fibre                    Fibre
	known                    bool
	density, compressibility complex128
	viscous, thermal         float64 // thickness of the boundary layers, m
}

// section returns the exact two-port of a cone: spherical waves of complex
// wavenumber, written with t = sqrt(End/Start) - 1 so that the straight duct
// is no special case (after N. H. Fletcher and T. D. Rossing, The Physics of
// Musical Instruments, 8.17, without their losses). With x = zeta eta L^2 from
// the density zeta = jw rho and the compressibility eta = jw/K of the air in
// it, and p1, u1 at Start and p2, u2 leaving at End,
//
//	p1 = ((1+t) cosh - t S) p2 + (1+t) (zeta L/End) S u2
//	u1 = (Start/(zeta L)) ((1+t) x S + t^2 (cosh - S)) p2 + (cosh + t S)/(1+t) u2
//
// where S = sinh/sqrt x. The boundary layer is that of the mean section.
func (m *medium) section(s Section) twoPort {
	if !m.known {
		m.viscous = math.Sqrt(2 * m.air.Viscosity / (m.air.Density * m.w))
		m.thermal = m.viscous / math.Sqrt(m.air.Prandtl)
	}
	if !m.known || m.fibre != s.Fibre {
		m.density, m.compressibility = s.Fibre.In(m.air, m.w)
		m.fibre, m.known = s.Fibre, true
	}
	// Half the side of the square of the mean area: 2 S/perimeter.
	radius := math.Sqrt(math.Sqrt(s.Start*s.End)) / 2
	drag := m.viscous / radius
	heat := (m.air.Gamma - 1) * m.thermal / radius
	d := m.density + complex(drag, -drag)
	c := m.compressibility + complex(heat, -heat)
	series := m.w * m.air.Density * s.Length // zeta L = j series d
	shunt := m.w * s.Length / m.air.BulkModulus()
	zeta := complex(-series*imag(d), series*real(d))
	x := zeta * complex(-shunt*imag(c), shunt*real(c))
	f := hyperbolic(x)
	t := math.Sqrt(s.End/s.Start) - 1
	bend := complex(t, 0)
	wide := complex(1+t, 0)
	across := zeta * complex(1/s.Start, 0) * reciprocal(wide*x*f.sinh+bend*bend*(f.cosh-f.sinh))
	return twoPort{
		z11: across * (wide*f.cosh - bend*f.sinh),
		z12: across * f.scale,
		z22: across * (f.cosh + bend*f.sinh) * complex(1/(1+t), 0),
	}
}
