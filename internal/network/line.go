package network

import (
	"math"
	"slices"

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
// feeds it, and a door 1 at its mouth.
type Line struct {
	air            air.Properties
	toward, behind []piece
	fibres         []Fibre // that differ
	states         []state // of the air in each of them at one frequency
	known          []known // by place in the grid
}

// known is what a line answered at one frequency.
type known struct {
	w float64
	z twoPort
}

// piece is a section with what does not change with frequency.
type piece struct {
	mass, give float64 // rho L and L/K
	start      float64 // area, m2
	curvature  float64 // perimeter/(2 S) of the mean section, 1/m
	taper      float64 // sqrt(End/Start) - 1
	fibre      int
}

// state is the air in some fibre: its density and compressibility over those
// of free air.
type state struct{ density, compressibility complex128 }

// NewLine makes a line of pieces. toward lists those from the cone to the
// mouth, at least one, behind those from the cone to the closed end, each in
// the order and the direction in which one meets them from the cone. It
// remembers its answers over the latest grid, so one line that stands in two
// networks is worked out once. It must not be solved in two places at once.
func NewLine(a air.Properties, toward, behind []Section) *Line {
	if len(toward) == 0 {
		panic("network: a line without a piece at its mouth")
	}
	l := &Line{air: a}
	l.toward, l.behind = l.pieces(toward), l.pieces(behind)
	l.states = make([]state, len(l.fibres))
	return l
}

func (l *Line) pieces(sections []Section) []piece {
	out := make([]piece, len(sections))
	for i, s := range sections {
		out[i] = piece{
			mass: l.air.Density * s.Length, give: s.Length / l.air.BulkModulus(), start: s.Start,
			// 4 sides over twice the side squared.
			curvature: 2 / math.Sqrt(math.Sqrt(s.Start*s.End)),
			taper:     math.Sqrt(s.End/s.Start) - 1,
			fibre:     slices.Index(l.fibres, s.Fibre),
		}
		if out[i].fibre < 0 {
			out[i].fibre = len(l.fibres)
			l.fibres = append(l.fibres, s.Fibre)
		}
	}
	return out
}

// Doors is two.
func (l *Line) Doors() int { return 2 }

// Impedance implements Body. Pieces are joined as impedances, not as chain
// matrices, so that a long line full of fibre cannot overflow.
func (l *Line) Impedance(k int, w float64, z []complex128) {
	for len(l.known) <= k {
		l.known = append(l.known, known{})
	}
	at := &l.known[k]
	if at.w != w {
		at.w, at.z = w, l.through(w)
	}
	z[0], z[1], z[2], z[3] = at.z.z11, at.z.z12, at.z.z12, at.z.z22
}

// through returns the two-port between the doors.
func (l *Line) through(w float64) twoPort {
	for i, f := range l.fibres {
		l.states[i].density, l.states[i].compressibility = f.In(l.air, w)
	}
	drag := math.Sqrt(2 * l.air.Viscosity / (l.air.Density * w))
	heat := (l.air.Gamma - 1) * drag / math.Sqrt(l.air.Prandtl)
	var t, p twoPort
	t.of(&l.toward[0], l.states, w, drag, heat)
	for i := range l.toward[1:] {
		p.of(&l.toward[1+i], l.states, w, drag, heat)
		t.join(&p)
	}
	if len(l.behind) > 0 {
		// The stub's far end is rigid: its last piece shows its open-circuit
		// impedance, and the stub lies beside the way to the mouth.
		last := len(l.behind) - 1
		p.of(&l.behind[last], l.states, w, drag, heat)
		stub := p.z11
		for i := last - 1; i >= 0; i-- {
			p.of(&l.behind[i], l.states, w, drag, heat)
			stub = p.z11 - p.z12*p.z12*reciprocal(p.z22+stub)
		}
		s := reciprocal(stub + t.z11)
		share := stub * s
		t = twoPort{t.z11 * share, t.z12 * share, t.z22 - t.z12*t.z12*s}
	}
	return t
}

// twoPort holds the open-circuit impedances of a reciprocal two-port, both
// flows entering.
type twoPort struct{ z11, z12, z22 complex128 }

// join puts another two-port behind.
func (t *twoPort) join(b *twoPort) {
	s := reciprocal(t.z22 + b.z11)
	z12 := t.z12 * s
	t.z11 -= z12 * t.z12
	t.z22 = b.z22 - b.z12*b.z12*s
	t.z12 = z12 * b.z12
}

// of becomes the exact two-port of a cone: spherical waves of complex
// wavenumber, written with t = sqrt(End/Start) - 1 so that the straight duct
// is no special case (after N. H. Fletcher and T. D. Rossing, The Physics of
// Musical Instruments, 8.17, without their losses). With x = zeta eta L^2 from
// the density zeta = jw rho and the compressibility eta = jw/K of the air in
// it, and p1, u1 at Start and p2, u2 leaving at End,
//
//	p1 = ((1+t) cosh - t S) p2 + (1+t) (zeta L/End) S u2
//	u1 = (Start/(zeta L)) ((1+t) x S + t^2 (cosh - S)) p2 + (cosh + t S)/(1+t) u2
//
// where S = sinh/sqrt x. The boundary layer, of thickness drag, is that of the
// mean section.
func (t *twoPort) of(p *piece, air []state, w, drag, heat float64) {
	in := &air[p.fibre]
	drag *= p.curvature
	heat *= p.curvature
	series, shunt := w*p.mass, w*p.give
	zeta := complex(-series*(imag(in.density)-drag), series*(real(in.density)+drag))
	eta := complex(-shunt*(imag(in.compressibility)-heat), shunt*(real(in.compressibility)+heat))
	x := zeta * eta
	f := hyperbolic(x)
	if p.taper == 0 {
		across := scaled(reciprocal(eta*f.sinh), 1/p.start)
		t.z11 = across * f.cosh
		t.z12 = across * f.scale
		t.z22 = t.z11
		return
	}
	// Products with real numbers, written out: of is what a long line costs.
	wide, bend := 1+p.taper, p.taper
	below := scaled(x*f.sinh, wide) + scaled(f.cosh-f.sinh, bend*bend)
	across := scaled(zeta*reciprocal(below), 1/p.start)
	t.z11 = across * (scaled(f.cosh, wide) - scaled(f.sinh, bend))
	t.z12 = across * f.scale
	t.z22 = across * (scaled(f.cosh, 1/wide) + scaled(f.sinh, bend/wide))
}

// scaled returns z times a real factor.
func scaled(z complex128, by float64) complex128 { return complex(real(z)*by, imag(z)*by) }
