package cavity

import (
	"cmp"
	"math"
	"sort"
)

// Options sets the accuracy of Solve. The zero value is the default.
type Options struct {
	// Cut is the highest wavenumber of a mode that is kept, rad/m. 0 means
	// that of 300 Hz in air at 20 C, down to 240 Hz in large vans, whose modes
	// lie closer. Transfer is at its best up to three quarters of it.
	Cut float64
	// Degree is the polynomial degree over the height of the section (a tall
	// section and its width get one more), 0 means 5; XDegree is that along the
	// cavity, 0 means 4, and 3 in large vans of many steps, which would take
	// longer to solve than a reader waits.
	Degree, XDegree int
	// Longest is the longest element along the cavity, m. 0 means 0.9, up to
	// 1.1 in large vans.
	Longest float64
}

const defaultCut = 2 * math.Pi * 300 / 343.2

func (o Options) filled(volume float64) Options {
	wide := 1 / min(max(math.Cbrt(5/volume), 0.8), 1)
	if o.Cut <= 0 {
		o.Cut = defaultCut / wide
	}
	if o.Degree <= 0 {
		o.Degree = 5
	}
	if o.Longest <= 0 {
		o.Longest = 0.9 * wide
	}
	return o
}

// Modes holds the rigid-wall modes of a shape, and what the dropped ones add.
// It depends on nothing but the shape, and is never changed after Solve, so
// that it may be cached and shared.
type Modes struct {
	shape  Shape
	volume float64
	shift  float64
	cut    float64
	halves [2]half
	order  []modeRef
	wall   [NumRegions][]float64 // integrals over the surfaces, see surfaces
}

// half is the part of the solution with one parity about the centre plane.
type half struct {
	sp     *space
	mass   *sparse
	factor *envelope // of K + shift M
	lambda []float64 // squared wavenumbers
	vecs   [][]float64
}

// modeRef points to one mode, in rising order of frequency over both halves.
type modeRef struct {
	par   parity
	index int
}

// Solve finds the rigid-wall modes of a shape up to the cut-off of the
// options: the Galerkin solution of Helmholtz's equation on mapped elements
// along the car with polynomials over the section, split into the functions
// that are even and odd about the centre plane.
func Solve(s Shape, o Options) (*Modes, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	return solve(s, o.filled(s.Volume()))
}

// solve is Solve for a shape that is known to be sound.
func solve(s Shape, o Options) (*Modes, error) {
	md := &Modes{shape: s, volume: s.Volume(), cut: o.Cut}
	l := max(s.Length(), 1)
	md.shift = 5 / (l * l)
	dy, dz := degrees(s, o.Degree)
	mesh := newMesh(s, cmp.Or(o.XDegree, 4), o.Longest)
	if o.XDegree == 0 && o.Cut < defaultCut && newSpace(mesh, even, dy, dz).effort() > mostEffort {
		mesh = newMesh(s, 3, o.Longest)
	}
	for par := even; par <= odd; par++ {
		h := half{sp: newSpace(mesh, par, dy, dz)}
		k, m := h.sp.assemble()
		h.mass = h.sp.compress(m)
		// K becomes K + shift M, and M then K - cut^2 M.
		axpy(md.shift, m.a, k.a)
		for i, v := range k.a {
			m.a[i] = v - (md.shift+o.Cut*o.Cut)*m.a[i]
		}
		want := m.factor()
		k.factor()
		h.factor = k
		var err error
		h.lambda, h.vecs, err = lowest(h.mass, k, want, md.shift, o.Cut*o.Cut)
		if err != nil {
			return nil, err
		}
		for i := range h.vecs {
			normalise(h.vecs[i], math.Sqrt(md.volume))
			md.order = append(md.order, modeRef{par, i})
		}
		if par == even && len(h.lambda) > 0 {
			h.lambda[0] = 0 // the uniform mode, exactly
		}
		md.halves[par] = h
	}
	sort.SliceStable(md.order, func(i, j int) bool { return md.lambda(i) < md.lambda(j) })
	md.wall = md.surfaces()
	return md, nil
}

// normalise scales a mode to a mean square of one over the volume, largest
// coefficient positive so that its sign does not depend on the solver.
func normalise(v []float64, scale float64) {
	big := 0.0
	for _, x := range v {
		if math.Abs(x) > math.Abs(big)*(1+1e-6) {
			big = x
		}
	}
	if big < 0 {
		scale = -scale
	}
	for i := range v {
		v[i] *= scale
	}
}

func (m *Modes) lambda(n int) float64 {
	r := m.order[n]
	return m.halves[r.par].lambda[r.index]
}

// Len returns the number of modes kept, the uniform one included.
func (m *Modes) Len() int { return len(m.order) }

// Shape returns the shape that was solved.
func (m *Modes) Shape() Shape { return m.shape }

// Volume returns the volume of the shape, m3.
func (m *Modes) Volume() float64 { return m.volume }

// Wavenumber returns k_n, rad/m, of mode n in rising order; mode 0 is the
// uniform one with k = 0. The frequency is k c / (2 pi).
func (m *Modes) Wavenumber(n int) float64 { return math.Sqrt(m.lambda(n)) }

// Odd reports whether mode n changes sign across the centre plane.
func (m *Modes) Odd(n int) bool { return m.order[n].par == odd }

// Value returns phi_n at a point, scaled so that the mean of phi_n^2 over the
// volume is one. A point outside is moved onto the surface first.
func (m *Modes) Value(n int, p Point) float64 {
	r := m.order[n]
	h := &m.halves[r.par]
	l := h.sp.load(m.shape.Clamp(p))
	return l.dot(h.vecs[r.index])
}

// load is the vector of all functions of a space at one point, the few that
// are not zero.
type load struct {
	base int
	val  []float64
}

func (l load) dot(v []float64) float64 { return dot(l.val, v[l.base:l.base+len(l.val)]) }

// load evaluates the space at a point of the shape.
func (sp *space) load(p Point) load { return sp.slopes(p, nil) }

// slopes is load with the derivatives along x, y and z as well where grad holds
// three loads to put them in.
func (sp *space) slopes(p Point, grad []load) load {
	m := sp.mesh
	e, s := m.locate(p.X)
	na, nq := len(m.nodes[e]), sp.nq()
	nv, nd := make([]float64, na), make([]float64, na)
	lagrange(m.nodes[e], s, nv, nd)
	ky, ty := m.yLocate(e, s, math.Abs(p.Y))
	sign := 1.0
	if p.Y < 0 {
		if ky == 0 {
			ty = -ty
		} else if sp.par == odd {
			sign = -1
		}
	}
	kz, tz := m.zLocate(e, s, p.Z)
	u, du := make([]float64, sp.yb.n()), make([]float64, sp.yb.n())
	v, dv := make([]float64, sp.zb.n()), make([]float64, sp.zb.n())
	sp.yb.eval(ky, ty, u, du)
	sp.zb.eval(kz, tz, v, dv)
	l := load{base: m.first[e] * nq, val: make([]float64, na*nq)}
	for a := range na {
		for q := range nq {
			l.val[a*nq+q] = sign * nv[a] * u[sp.iy[q]] * v[sp.iz[q]]
		}
	}
	if grad == nil {
		return l
	}
	for i := range grad {
		grad[i] = load{base: l.base, val: make([]float64, na*nq)}
	}
	// The mapping of assemble; y and its slope turn round on the left-hand side.
	ys, zs := m.yStrip(e, ky, s), m.zStrip(e, kz, s)
	side := sign
	if p.Y < 0 && ky > 0 {
		side = -sign
	}
	along := 2 / (m.knots[e+1].x - m.knots[e].x)
	cy, cz := (ys.dmid+ty*ys.dhalf)/ys.half, (zs.dmid+tz*zs.dhalf)/zs.half
	for a := range na {
		for q := range nq {
			k, uq, vq, duq, dvq := a*nq+q, u[sp.iy[q]], v[sp.iz[q]], du[sp.iy[q]], dv[sp.iz[q]]
			grad[0].val[k] = sign * (along*nd[a]*uq*vq - nv[a]*(cy*duq*vq+cz*uq*dvq))
			grad[1].val[k] = side * nv[a] * duq * vq / ys.half
			grad[2].val[k] = sign * nv[a] * uq * dvq / zs.half
		}
	}
	return l
}
