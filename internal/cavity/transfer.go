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
	s := f.newSolver()
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

// solver holds the work space of one run over frequency.
type solver struct {
	f      *Field
	blocks [][]int // modes that couple with each other
	a      []complex128
	d      []complex128
	y      []complex128
	beta   [NumRegions]float64 // admittances at the present frequency
	loss   []float64
}

func (f *Field) newSolver() *solver {
	n, nd := f.modes.Len(), len(f.doors)
	return &solver{
		f: f, blocks: f.blocks(),
		a: make([]complex128, n*n), d: make([]complex128, n),
		y: make([]complex128, n*nd), loss: make([]float64, len(f.body)),
	}
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

// losses sets the admittances at omega, none less than a bare wall's.
func (s *solver) losses(omega float64) {
	f := s.f
	floor := wallLoss(f.air, omega)
	for r := range s.beta {
		s.beta[r] = max(f.abs.Region[r].at(omega), floor)
	}
	for b := range s.loss {
		s.loss[b] = max(f.abs.Bodies[b].at(omega), floor)
	}
}

// fill writes the lower half of Lambda - k^2 M + j k B of one block of modes.
func (s *solver) fill(modes []int, k float64) {
	f, n, nb := s.f, s.f.modes.Len(), len(modes)
	for p, i := range modes {
		for q, j := range modes[:p+1] {
			e := i*n + j
			b := 0.0
			for r := range s.beta {
				b += s.beta[r] * f.wall[r][e]
			}
			for r := range f.body {
				b += s.loss[r] * f.body[r][e]
			}
			s.a[p*nb+q] = complex(f.stiff[e]-k*k*(f.mass[e]+f.give[e]), k*b)
		}
	}
}

// impedance fills z for one frequency.
func (s *solver) impedance(omega float64, z []complex128) {
	f := s.f
	nd := len(f.doors)
	rho, c := f.air.Density, f.air.SpeedOfSound
	k := omega / c
	k2 := k * k
	s.losses(omega)
	scale := complex(0, omega*rho/f.modes.volume)

	// The dropped modes: a power series in k^2, held constant where it would
	// leave its range.
	cut := f.modes.cut
	x := f.modes.shift + min(k2, restRange*cut*cut)
	for i := range z {
		r := ((f.rest[3][i]*x+f.rest[2][i])*x+f.rest[1][i])*x + f.rest[0][i]
		z[i] = scale * complex(r, 0)
	}
	for _, modes := range s.blocks {
		nb := len(modes)
		y := s.y
		s.fill(modes, k)
		for p, i := range modes {
			for j := range nd {
				y[p*nd+j] = complex(f.phi[i*nd+j], 0)
			}
		}
		s.eliminate(nb, nd, k2)
		for i := range nd {
			for j := range i + 1 {
				var sum complex128
				for p := range nb {
					sum += y[p*nd+i] * y[p*nd+j] * s.d[p]
				}
				z[i*nd+j] += scale * sum
			}
		}
	}
	for i := range nd {
		for j := range i {
			z[j*nd+i] = z[i*nd+j]
		}
	}
}

// amplitudes returns those of the kept modes for given door flows, without the
// common factor j omega rho / V.
func (f *Field) amplitudes(omega float64, flow []complex128) []complex128 {
	n, nd := f.modes.Len(), len(f.doors)
	s := f.newSolver()
	s.y = make([]complex128, n)
	s.losses(omega)
	k := omega / f.air.SpeedOfSound
	out := make([]complex128, n)
	for _, modes := range s.blocks {
		nb := len(modes)
		s.fill(modes, k)
		for p, i := range modes {
			s.y[p] = 0
			for j := range nd {
				s.y[p] += flow[j] * complex(f.phi[i*nd+j], 0)
			}
		}
		s.eliminate(nb, 1, k*k)
		for p := nb - 1; p >= 0; p-- {
			v := s.y[p] * s.d[p]
			for i := p + 1; i < nb; i++ {
				v -= s.a[i*nb+p] * s.d[p] * out[modes[i]]
			}
			out[modes[p]] = v
		}
	}
	return out
}

// eliminate factors the complex symmetric matrix a = L D L^T, n x n, in its
// lower half, without pivoting: its imaginary part is positive definite, so no
// pivot vanishes (N. J. Higham, Mathematics of Computation 67, 1998). It
// leaves 1/D in d and L^-1 y in y.
func (s *solver) eliminate(n, nd int, k2 float64) {
	a, y := s.a, s.y
	for p := range n {
		piv := a[p*n+p]
		if tiny := 1e-12 * (1 + k2); math.Abs(real(piv))+math.Abs(imag(piv)) < tiny {
			piv = complex(0, tiny) // a lossless cavity exactly on a mode
		}
		inv := 1 / piv
		s.d[p] = inv
		for i := p + 1; i < n; i++ {
			l := a[i*n+p] * inv
			if l == 0 {
				continue
			}
			for j := p + 1; j <= i; j++ {
				a[i*n+j] -= l * a[j*n+p]
			}
			for j := range nd {
				y[i*nd+j] -= l * y[p*nd+j]
			}
		}
	}
}
