package cavity

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/lapack"
	lapackimpl "gonum.org/v1/gonum/lapack/gonum"
)

// lowest finds every eigenpair of K v = lambda M v below cut, with v'Mv = 1,
// in rising order. f is the factor of K + shift M and want their number, known
// beforehand from the signs of the pivots of K - cut M, so that none is missed.
//
// Krylov vectors of the shifted inverse with full
// orthogonalisation then find them (T. Ericsson and A. Ruhe, Mathematics of
// Computation 35, 1980). Equal eigenvalues, as of a cube, show as a shortfall,
// and another run with a block of start vectors resolves them.
func lowest(m *sparse, f *envelope, want int, shift, cut float64) (lambda []float64, vecs [][]float64, err error) {
	for _, block := range []int{1, 4, 8} {
		r := krylov{f: f, m: m, shift: shift, cut: cut, seed: 1}
		lambda, vecs = r.run(want, block)
		if len(lambda) == want {
			return lambda, vecs, nil
		}
	}
	return nil, nil, errors.New("the modes of this cavity did not settle; check its stations for slivers")
}

// krylov is a growing M-orthonormal basis q and the operator
// (K + shift M)^-1 M projected on it: column j of h is h[j][i], i <= j + block.
type krylov struct {
	f          *envelope
	m          *sparse
	shift, cut float64
	seed       uint64
	block      int
	q, mq      [][]float64
	h          [][]float64
}

// settled is the relative residual at which a vector is taken: an eigenvalue
// is then right to its square.
const settled = 1e-3

// run returns the converged eigenpairs below cut, at most want of them.
func (r *krylov) run(want, block int) ([]float64, [][]float64) {
	r.block = block
	for range block {
		r.push(r.random(), nil)
	}
	limit := min(r.f.n, 4*want+60*block)
	first, step := 11*want/4+4*block, 3*block+want/8
	if len(r.f.a) > 50_000 {
		// A step costs more here than to see whether it is needed.
		first, step = 9*want/4+2*block, 3*block
	}
	check := min(limit, first)
	for {
		for len(r.h) < len(r.q) && len(r.h) < check {
			j := len(r.h)
			v := append(make([]float64, 0, r.f.n), r.mq[j]...)
			r.f.solve(v)
			r.h = append(r.h, nil)
			r.push(v, &r.h[j])
		}
		done := len(r.h)
		lambda, vecs := r.ritz(want)
		if len(lambda) >= want || done >= limit || done == len(r.q) {
			return lambda, vecs
		}
		check = min(limit, check+step)
	}
}

// random returns a start vector, the same every time.
func (r *krylov) random() []float64 {
	v := make([]float64, r.f.n)
	for i := range v {
		r.seed = r.seed*6364136223846793005 + 1442695040888963407
		v[i] = float64(r.seed>>11)/(1<<53) - 0.5
	}
	return v
}

// push orthogonalises v against the basis and appends it unless nothing is
// left; the coefficients go to column. The first pass takes out the few last
// vectors, which are all that exact arithmetic would need, the second the rest
// of every one.
func (r *krylov) push(v []float64, column *[]float64) {
	c := make([]float64, len(r.q)+1) // the last stays zero if nothing is left
	var scale float64
	for pass := range 2 {
		from := 0
		if pass == 0 && column != nil {
			from = max(0, len(r.q)-2*r.block-1)
		}
		i := from
		for ; i+4 <= len(r.q); i += 4 {
			q, mq := r.q[i:i+4], r.mq[i:i+4]
			s, t, u, w := dot4(v, mq[0], mq[1], mq[2], mq[3])
			axpy4(-s, -t, -u, -w, q[0], q[1], q[2], q[3], v)
			c[i], c[i+1], c[i+2], c[i+3] = c[i]+s, c[i+1]+t, c[i+2]+u, c[i+3]+w
		}
		for ; i < len(r.q); i++ {
			d := dot(r.mq[i], v)
			axpy(-d, r.q[i], v)
			c[i] += d
		}
		if pass == 0 {
			scale = dot(c, c)
		}
	}
	w := make([]float64, len(v))
	r.m.mul(v, w)
	s := math.Sqrt(max(dot(v, w), 0))
	if column != nil {
		*column = c
	}
	if s <= 1e-12*math.Sqrt(scale) {
		return
	}
	c[len(r.q)] = s
	for i := range v {
		v[i] /= s
		w[i] /= s
	}
	r.q, r.mq = append(r.q, v), append(r.mq, w)
}

// projected returns the eigenvalues, in rising order, and the eigenvectors, in
// columns, of the operator on the basis. With a single start vector it is
// tridiagonal, as Lanczos has it.
func (r *krylov) projected() (theta, a []float64, ok bool) {
	n := len(r.h)
	a = make([]float64, n*n)
	if len(r.h[0]) == 2 {
		d, e := make([]float64, n), make([]float64, n)
		for j, c := range r.h {
			a[j*n+j] = 1
			d[j], e[j] = c[j], c[j+1]
		}
		ok = lapackimpl.Implementation{}.Dsteqr(lapack.EVTridiag, n, d, e[:n-1], a, n, make([]float64, max(1, 2*n-2)))
		return d, a, ok && !slices.ContainsFunc(d, math.IsNaN)
	}
	for j, c := range r.h {
		for i := range min(n, len(c)) {
			a[i*n+j] = c[i]
		}
	}
	for i := range n {
		for j := range i {
			if len(r.h[j]) > i {
				a[j*n+i] = (a[i*n+j] + a[j*n+i]) / 2
			}
			a[i*n+j] = a[j*n+i]
		}
	}
	theta, ok = symmetricEigen(a, n)
	return theta, a, ok
}

// ritz solves the projected problem and returns the pairs below cut whose
// residual is small, at most want of them.
func (r *krylov) ritz(want int) ([]float64, [][]float64) {
	n := len(r.h)
	theta, a, ok := r.projected()
	if !ok {
		return nil, nil
	}
	var lambda []float64
	var vecs [][]float64
	for c := n - 1; c >= 0 && theta[c] > 0 && len(lambda) < want; c-- {
		l := 1/theta[c] - r.shift
		if l >= r.cut {
			break
		}
		var res float64 // what the operator puts outside the basis
		for i := n; i < len(r.q); i++ {
			var s float64
			for j, col := range r.h {
				if i < len(col) {
					s += col[i] * a[j*n+c]
				}
			}
			res += s * s
		}
		if math.Sqrt(res) > settled*theta[c] {
			continue
		}
		v := make([]float64, r.f.n)
		for j := range n {
			axpy(a[j*n+c], r.q[j], v)
		}
		lambda, vecs = append(lambda, max(l, 0)), append(vecs, v)
	}
	return lambda, vecs
}

// symmetricEigen overwrites the n x n matrix a with its eigenvectors, in
// columns, and returns the eigenvalues in rising order.
func symmetricEigen(a []float64, n int) ([]float64, bool) {
	if n == 0 {
		return nil, true
	}
	impl := lapackimpl.Implementation{}
	w := make([]float64, n)
	var query [1]float64
	impl.Dsyev(lapack.EVCompute, blas.Upper, n, a, n, w, query[:], -1)
	work := make([]float64, int(query[0]))
	ok := impl.Dsyev(lapack.EVCompute, blas.Upper, n, a, n, w, work, len(work))
	return w, ok && !slices.ContainsFunc(w, math.IsNaN)
}
