package cavity

import (
	"fmt"
	"math"
)

// Transfer is the matrix of transfer impedances between all doors: Z(f, i, j)
// is the pressure averaged over door i for unit volume velocity out of door j
// into the cavity, Pa s/m3. It is symmetric in i and j.
type Transfer struct {
	Omega []float64 // rad/s
	Doors int
	Z     []complex128 // Z[(f*Doors+i)*Doors+j]
}

// At returns Z between doors i and j at frequency number f.
func (t *Transfer) At(f, i, j int) complex128 { return t.Z[(f*t.Doors+i)*t.Doors+j] }

// Matrix returns the Doors x Doors matrix at frequency number f, row by row,
// shared with t.
func (t *Transfer) Matrix(f int) []complex128 {
	n := t.Doors * t.Doors
	return t.Z[f*n : (f+1)*n]
}

// Transfer computes the impedance matrix at angular frequencies omega, rad/s,
// each above zero, by solving
//
//	(Lambda - k^2 M + j k B) a = j omega rho / V phi(j)
//
// with the whole damping matrix B of the kept modes, and adding what the
// dropped modes contribute. It panics on a frequency that is not above zero.
func (f *Field) Transfer(omega []float64) *Transfer {
	nd := len(f.doors)
	t := &Transfer{Omega: omega, Doors: nd, Z: make([]complex128, len(omega)*nd*nd)}
	s := f.newSolver(nd)
	for i, w := range omega {
		if !(w > 0) || math.IsInf(w, 0) {
			panic(fmt.Sprintf("cavity: angular frequency %g", w))
		}
		s.impedance(w, t.Matrix(i))
	}
	return t
}

// restRange is how far, in k^2 over that of the cut-off, the power series for
// the dropped modes is trusted.
const restRange = 0.6

// cover is a kind of surface: its admittance, and the integral of phi_m phi_n
// over all surfaces of that kind, divided by the volume.
type cover struct {
	Admittance
	on []float64
}

// at returns the admittance, no less than a bare wall's.
func (c *cover) at(omega, floor float64) float64 { return max(c.Admittance.at(omega), floor) }

// covers gathers the surfaces and bodies by kind.
func (f *Field) covers() []cover {
	var out []cover
	add := func(a Admittance, on []float64) {
		for i := range out {
			if out[i].Admittance == a {
				axpy(1, on, out[i].on)
				return
			}
		}
		out = append(out, cover{a, append([]float64(nil), on...)})
	}
	for r, on := range f.wall {
		add(f.abs.Region[r], on)
	}
	for b, on := range f.body {
		add(f.abs.Bodies[b].Admittance, on)
	}
	return out
}

// blocks splits the modes into those even and odd about the centre plane
// where nothing couples them; bodies on one side only do.
func (f *Field) blocks() [][]int {
	var part [2][]int
	n := f.modes.Len()
	for i, r := range f.modes.order {
		part[r.par] = append(part[r.par], i)
	}
	for _, i := range part[even] {
		for _, j := range part[odd] {
			k := i*n + j
			c := math.Abs(f.stiff[k]) + math.Abs(f.mass[k])
			for _, b := range f.body {
				c += math.Abs(b[k])
			}
			if c > 1e-12 {
				all := make([]int, n)
				for q := range all {
					all[q] = q
				}
				return [][]int{all}
			}
		}
	}
	if len(part[odd]) == 0 {
		return [][]int{part[even]}
	}
	return [][]int{part[even], part[odd]}
}

// solver holds the work space of one run over frequency.
type solver struct {
	f      *Field
	kinds  []cover
	blocks []block
}

// block is the modes that couple with each other: the lower halves of their
// matrices, row after row, and the bordered matrix of one frequency.
type block struct {
	modes       []int
	stiff, mass []float64
	loss        [][]float64 // by kind of cover
	damp        []float64
	bordered
}

// newSolver makes ready for a number of right-hand sides.
func (f *Field) newSolver(sides int) *solver {
	s := &solver{f: f, kinds: f.covers()}
	n := f.modes.Len()
	for _, modes := range f.blocks() {
		pack := func(from ...[]float64) (out []float64) {
			for p, i := range modes {
				for _, j := range modes[:p+1] {
					var sum float64
					for _, m := range from {
						sum += m[i*n+j]
					}
					out = append(out, sum)
				}
			}
			return out
		}
		b := block{modes: modes, stiff: pack(f.stiff), mass: pack(f.mass, f.give), bordered: newBordered(len(modes), sides)}
		for _, c := range s.kinds {
			b.loss = append(b.loss, pack(c.on))
		}
		b.damp = make([]float64, len(b.stiff))
		s.blocks = append(s.blocks, b)
	}
	return s
}

// fill writes Lambda - k^2 M + j k B of every block.
func (s *solver) fill(omega float64) {
	k := omega / s.f.air.SpeedOfSound
	floor := wallLoss(s.f.air, omega)
	for i := range s.blocks {
		b := &s.blocks[i]
		clear(b.damp)
		for c := range s.kinds {
			axpy(k*s.kinds[c].at(omega, floor), b.loss[c], b.damp)
		}
		e := 0
		for p := range b.modes {
			re, im := b.row(p)
			for q := range re[:p+1] {
				re[q], im[q] = b.stiff[e]-k*k*b.mass[e], b.damp[e]
				e++
			}
		}
		b.tiny = 1e-12 * (1 + k*k)
	}
}

// impedance fills z for one frequency.
func (s *solver) impedance(omega float64, z []complex128) {
	f := s.f
	nd := len(f.doors)
	rho, c := f.air.Density, f.air.SpeedOfSound
	k := omega / c
	scale := omega * rho / f.modes.volume

	// The dropped modes: a power series in k^2, held constant where it would
	// leave its range.
	cut := f.modes.cut
	x := f.modes.shift + min(k*k, restRange*cut*cut)
	s.fill(omega)
	for n := range s.blocks {
		b := &s.blocks[n]
		for i := range nd {
			re, im := b.row(b.n + i)
			clear(im[:b.n])
			for p, m := range b.modes {
				re[p] = f.phi[m*nd+i]
			}
		}
		b.eliminate()
	}
	for i := range nd {
		from, to := i*nd, i*nd+i+1
		r0, r1, r2, r3 := f.rest[0][from:to], f.rest[1][from:to], f.rest[2][from:to], f.rest[3][from:to]
		for j := range r0 {
			z[from+j] = complex(0, scale*(((r3[j]*x+r2[j])*x+r1[j])*x+r0[j]))
		}
		for n := range s.blocks {
			b := &s.blocks[n]
			re, im := b.row(b.n + i)
			re, im = re[b.n:b.n+i+1], im[b.n:b.n+i+1]
			for j, v := range re {
				z[from+j] += complex(scale*im[j], -scale*v)
			}
		}
		for j := range i {
			z[j*nd+i] = z[from+j]
		}
	}
}

// amplitudes returns those of the kept modes for given door flows, without the
// common factor j omega rho / V.
func (f *Field) amplitudes(omega float64, flow []complex128) []complex128 {
	s, nd := f.newSolver(1), len(f.doors)
	s.fill(omega)
	out := make([]complex128, f.modes.Len())
	for n := range s.blocks {
		b := &s.blocks[n]
		re, im := b.row(b.n)
		for p, m := range b.modes {
			var v complex128
			for j := range nd {
				v += flow[j] * complex(f.phi[m*nd+j], 0)
			}
			re[p], im[p] = real(v), imag(v)
		}
		b.eliminate()
		for p := b.n - 1; p >= 0; p-- {
			v := b.lower(b.n, p)
			for i := p + 1; i < b.n; i++ {
				v -= b.lower(i, p) * out[b.modes[i]]
			}
			out[b.modes[p]] = v
		}
	}
	return out
}
