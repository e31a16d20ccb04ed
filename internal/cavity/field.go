package cavity

import (
	"errors"
	"fmt"
	"math"

	"bootfloor/internal/air"
)

// Field is a cavity with its air, its losses and its doors: everything about
// it that does not depend on frequency.
type Field struct {
	modes *Modes
	air   air.Properties
	abs   Absorption
	doors []Patch

	phi []float64 // mode n at door i: phi[n*doors+i]
	// The projected operator on the kept modes, n x n, all over the volume.
	stiff, mass []float64
	give        []float64
	wall        [NumRegions][]float64
	body        [][]float64
	// rest are the moments sum over the dropped modes of
	// phi(i) phi(j) / (lambda + shift)^p, p = 1..4.
	rest [4][]float64
	// static holds, for each parity, F f and F M F f of every door's load f,
	// F the inverse of K + shift M.
	static [2][2][][]float64
}

// Field sets the cavity up for a set of doors.
func (m *Modes) Field(p air.Properties, a Absorption, doors []Patch) (*Field, error) {
	if !(p.Density > 0) || !(p.SpeedOfSound > 0) {
		return nil, errors.New("the air in the cavity has no density or speed of sound; give its temperature and pressure")
	}
	if err := a.validate(m.volume); err != nil {
		return nil, err
	}
	for i, d := range doors {
		for _, v := range []float64{d.Centre.X, d.Centre.Y, d.Centre.Z, d.Area, d.Size.X, d.Size.Y, d.Size.Z} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return nil, fmt.Errorf("door %d of the cavity has a place or size that is not a number", i+1)
			}
		}
		if d.Area < 0 || d.Size.X < 0 || d.Size.Y < 0 || d.Size.Z < 0 {
			return nil, fmt.Errorf("door %d of the cavity has a negative size; give zero for a point", i+1)
		}
	}
	f := &Field{modes: m, air: p, abs: a, doors: doors}
	f.project()
	f.spread()
	return f, nil
}

// Modes returns the modes that the field is made of.
func (f *Field) Modes() *Modes { return f.modes }

// Doors returns the number of doors.
func (f *Field) Doors() int { return len(f.doors) }

// DampingRatio returns the share of critical damping of mode n, from the
// diagonal of the projected losses at the mode's own frequency: Re beta
// integrated over the surfaces with phi_n^2, over 2 k V. Zero for mode 0.
func (f *Field) DampingRatio(n int) float64 {
	k := f.modes.Wavenumber(n)
	if k == 0 {
		return 0
	}
	omega := k * f.air.SpeedOfSound
	floor := wallLoss(f.air, omega)
	e := n * (f.modes.Len() + 1)
	var b float64
	for _, c := range f.covers() {
		b += c.at(omega, floor) * c.on[e]
	}
	return b / (2 * k)
}

// project puts bodies and surfaces onto the kept modes. A body of volume v is
// a small rigid obstacle: it takes v out of the compressible air and, because
// the flow must go round it, half as much again out of the moving air (the
// monopole and dipole terms of Rayleigh's scattering by a small rigid sphere,
// The Theory of Sound, 1896, section 335).
func (f *Field) project() {
	m, n := f.modes, f.modes.Len()
	f.stiff, f.mass = make([]float64, n*n), make([]float64, n*n)
	for i := range n {
		f.stiff[i*n+i], f.mass[i*n+i] = m.lambda(i), 1
	}
	f.wall = m.wall
	f.give = make([]float64, n*n)
	var total float64
	for _, a := range m.shape.Areas() {
		total += a
	}
	for r := range f.wall {
		axpy(f.abs.Give*m.volume/total, f.wall[r], f.give)
	}
	phi := make([]float64, n)
	grad := [3][]float64{make([]float64, n), make([]float64, n), make([]float64, n)}
	for _, b := range f.abs.Bodies {
		absorb := make([]float64, n*n)
		pts := m.shape.footprint(Patch{Centre: b.Centre, Size: b.Size})
		for _, p := range pts {
			m.gradients(p.Point, phi, grad[:])
			v, s := p.w*b.Volume/m.volume, p.w*b.Surface/m.volume
			for i := range n {
				for j := range n {
					k := i*n + j
					pp := phi[i] * phi[j]
					f.mass[k] -= v * pp
					f.stiff[k] -= 1.5 * v * (grad[0][i]*grad[0][j] + grad[1][i]*grad[1][j] + grad[2][i]*grad[2][j])
					absorb[k] += s * pp
				}
			}
		}
		f.body = append(f.body, absorb)
	}
}

// gradients fills the values of all modes at a point, and their derivatives along
// x, y and z.
func (m *Modes) gradients(p Point, phi []float64, grad [][]float64) {
	p = m.shape.Clamp(p)
	var at [2]load
	var slopes [2][3]load
	for par := range at {
		at[par] = m.halves[par].sp.slopes(p, slopes[par][:])
	}
	for i, r := range m.order {
		v := m.halves[r.par].vecs[r.index]
		phi[i] = at[r.par].dot(v)
		for axis := range grad {
			grad[axis][i] = slopes[r.par][axis].dot(v)
		}
	}
}

// spread lays the doors over the elements: the values of the kept modes there,
// and the moments of the dropped ones, from solutions of the static problem
// K + shift M less what the kept modes hold of them.
func (f *Field) spread() {
	m, nd := f.modes, len(f.doors)
	for p := range f.rest {
		f.rest[p] = make([]float64, nd*nd)
	}
	f.phi = make([]float64, m.Len()*nd)
	foot := make([]footing, nd)
	for i, d := range f.doors {
		foot[i] = m.shape.footing(d)
	}
	for par := range m.halves {
		h := &m.halves[par]
		n := h.sp.n()
		u1, u2 := make([][]float64, nd), make([][]float64, nd)
		m1, m2 := make([][]float64, nd), make([][]float64, nd)
		src := make([][]float64, nd)
		for i := range f.doors {
			b := make([]float64, n)
			for _, p := range foot[i].pts {
				l := h.sp.load(p.Point)
				axpy(p.w, l.val, b[l.base:l.base+len(l.val)])
			}
			src[i] = b
			u1[i] = append([]float64(nil), b...)
			h.factor.solve(u1[i])
			m1[i], m2[i] = make([]float64, n), make([]float64, n)
			h.mass.mul(u1[i], m1[i])
			u2[i] = append([]float64(nil), m1[i]...)
			h.factor.solve(u2[i])
			h.mass.mul(u2[i], m2[i])
		}
		for k, r := range m.order {
			if r.par == parity(par) {
				for i := range nd {
					f.phi[k*nd+i] = dot(src[i], h.vecs[r.index])
				}
			}
		}
		f.static[par] = [2][][]float64{u1, u2}
		for i := range nd {
			for j := range i + 1 {
				k := i*nd + j
				// times the volume: the modes are scaled to it
				f.rest[0][k] += m.volume * dot(src[i], u1[j])
				f.rest[1][k] += m.volume * dot(u1[i], m1[j])
				f.rest[2][k] += m.volume * dot(u1[i], m2[j])
				f.rest[3][k] += m.volume * dot(u2[i], m2[j])
			}
		}
	}
	for n := range m.Len() {
		q := 1 / (m.lambda(n) + m.shift)
		for i := range nd {
			for j := range i + 1 {
				v := f.phi[n*nd+i] * f.phi[n*nd+j]
				for p := range f.rest {
					v *= q
					f.rest[p][i*nd+j] -= v
				}
			}
		}
	}
	f.sharpen(foot)
	for p := range f.rest {
		for i := range nd {
			for j := range i {
				f.rest[p][j*nd+i] = f.rest[p][i*nd+j]
			}
		}
	}
}
