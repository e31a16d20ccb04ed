package cavity

import (
	"fmt"
	"math"
)

// Grid is a rectangular set of points in one plane of a cavity, row by row
// from the front and, within the plane, from the floor up or from left to
// right. Points outside the cavity are marked.
type Grid struct {
	Columns, Rows int // along x; along z or y
	Points        []Point
	Inside        []bool
}

// SideGrid returns a grid over the vertical plane at distance y from the
// centre line, over the bounding rectangle of the shape.
func (s Shape) SideGrid(y float64, columns, rows int) Grid {
	lo, hi := s.bounds()
	return s.grid(columns, rows, func(u, v float64) Point {
		return Point{lo.X + u*(hi.X-lo.X), y, lo.Z + v*(hi.Z-lo.Z)}
	})
}

// PlanGrid returns a grid over the horizontal plane at height z.
func (s Shape) PlanGrid(z float64, columns, rows int) Grid {
	lo, hi := s.bounds()
	return s.grid(columns, rows, func(u, v float64) Point {
		return Point{lo.X + u*(hi.X-lo.X), lo.Y + v*(hi.Y-lo.Y), z}
	})
}

// grid takes the centres of columns x rows cells of the unit square.
func (s Shape) grid(columns, rows int, at func(u, v float64) Point) Grid {
	g := Grid{Columns: max(columns, 1), Rows: max(rows, 1)}
	for r := range g.Rows {
		for c := range g.Columns {
			p := at((float64(c)+0.5)/float64(g.Columns), (float64(r)+0.5)/float64(g.Rows))
			g.Points = append(g.Points, p)
			g.Inside = append(g.Inside, s.Contains(p))
		}
	}
	return g
}

// bounds returns the corners of the box around the shape.
func (s Shape) bounds() (lo, hi Point) {
	first := s.Stations[0]
	lo = Point{first.X, -first.Width / 2, first.Floor}
	hi = Point{s.Stations[len(s.Stations)-1].X, first.Width / 2, first.Roof}
	for _, st := range s.Stations {
		lo.Y, hi.Y = min(lo.Y, -st.Width/2), max(hi.Y, st.Width/2)
		lo.Z, hi.Z = min(lo.Z, st.Floor), max(hi.Z, st.Roof)
	}
	return lo, hi
}

// ModeShape returns phi_n over a grid, zero outside the cavity.
func (m *Modes) ModeShape(n int, g Grid) []float64 {
	out := make([]float64, len(g.Points))
	for i, p := range g.Points {
		if g.Inside[i] {
			out[i] = m.Value(n, p)
		}
	}
	return out
}

// Pressure returns the complex pressure over a grid, Pa, at angular frequency
// omega, for given volume velocities out of the doors, m3/s; zero outside the
// cavity. Within half a metre of a door it shows the field of the elements, which
// levels the peak right at the cone.
func (f *Field) Pressure(omega float64, flow []complex128, g Grid) ([]complex128, error) {
	if len(flow) != len(f.doors) {
		return nil, fmt.Errorf("the map was given %d flows for %d doors; give one for each", len(flow), len(f.doors))
	}
	if !(omega > 0) || math.IsInf(omega, 0) {
		return nil, fmt.Errorf("the map was asked for at %g rad/s; any frequency above zero would do", omega)
	}
	m, n, nd := f.modes, f.modes.Len(), len(f.doors)
	// Amplitudes of the kept modes: the same elimination as for Transfer, then
	// back through L^T.
	amp := f.amplitudes(omega, flow)
	x := m.shift + min(omega*omega/(f.air.SpeedOfSound*f.air.SpeedOfSound), restRange*m.cut*m.cut)
	scale := complex(0, omega*f.air.Density/m.volume)
	// The dropped modes: the power series in k^2 of all modes, with the kept
	// ones taken out.
	var rest [2][2][]float64 // parity; real, imaginary
	for par := range rest {
		h := &m.halves[par]
		for part := range rest[par] {
			v, term := make([]float64, h.sp.n()), make([]float64, h.sp.n())
			for j := range nd {
				u := real(flow[j])
				if part == 1 {
					u = imag(flow[j])
				}
				axpy(u*m.volume, f.static[par][0][j], v)
				axpy(u*m.volume*x, f.static[par][1][j], term)
			}
			axpy(1, term, v)
			for range 2 {
				next := make([]float64, len(term))
				h.mass.mul(term, next)
				h.factor.solve(next)
				for i := range next {
					next[i] *= x
				}
				axpy(1, next, v)
				term = next
			}
			rest[par][part] = v
		}
	}
	for i := range n {
		q := 1 / (m.lambda(i) + m.shift)
		var s complex128
		for j := range nd {
			s += flow[j] * complex(f.phi[i*nd+j], 0)
		}
		y := x * q
		amp[i] -= s * complex(q*(1+y*(1+y*(1+y))), 0)
	}
	// Fold the modal part into the element coefficients and evaluate once.
	for i, r := range m.order {
		v := m.halves[r.par].vecs[r.index]
		axpy(real(amp[i]), v, rest[r.par][0])
		axpy(imag(amp[i]), v, rest[r.par][1])
	}
	out := make([]complex128, len(g.Points))
	for i, p := range g.Points {
		if !g.Inside[i] {
			continue
		}
		var re, im float64
		for par := range rest {
			l := m.halves[par].sp.load(p)
			re += l.dot(rest[par][0])
			im += l.dot(rest[par][1])
		}
		out[i] = scale * complex(re, im)
	}
	return out, nil
}
