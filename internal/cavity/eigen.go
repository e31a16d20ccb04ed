package cavity

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/lapack"
	lapackimpl "gonum.org/v1/gonum/lapack/gonum"
)

// shifted returns K + shift M in the pattern of K.
func shifted(k *envelope, m *sparse, shift float64) *envelope {
	c := k.clone()
	for i := range c.n {
		for p := m.ptr[i]; p < m.ptr[i+1] && m.col[p] <= i; p++ {
			c.a[c.ptr[i]+m.col[p]] += shift * m.val[p]
		}
	}
	return c
}

// lowest finds every eigenpair of K v = lambda M v below cut, with v'Mv = 1,
// in rising order. f is the factor of K + shift M.
//
// The number of them is known beforehand, from the signs of the pivots of
// K - cut M, so none is missed; Krylov vectors of the shifted inverse with full
// orthogonalisation then find them (T. Ericsson and A. Ruhe, Mathematics of
// Computation 35, 1980). Equal eigenvalues, as of a cube, show as a shortfall,
// and a second run with a block of start vectors resolves them.
func lowest(k *envelope, m *sparse, f *envelope, shift, cut float64) (lambda []float64, vecs [][]float64, err error) {
	want := shifted(k, m, -cut).factor()
	for _, block := range []int{1, 4, 8} {
		lambda, vecs = krylov(f, m, shift, cut, want, block)
		if len(lambda) == want {
			return lambda, vecs, nil
		}
	}
	return nil, nil, errors.New("the modes of this cavity did not settle; check its stations for slivers")
}

// krylov returns the converged eigenpairs below cut, at most want of them.
func krylov(f *envelope, m *sparse, shift, cut float64, want, block int) ([]float64, [][]float64) {
	n := f.n
	var q, mq [][]float64 // the basis and M times it
	seed := uint64(1)
	start := func() []float64 {
		v := make([]float64, n)
		for i := range v {
			seed = seed*6364136223846793005 + 1442695040888963407
			v[i] = float64(seed>>11)/(1<<53) - 0.5
		}
		return v
	}
	h := map[int]float64{}
	key := func(i, j int) int { return i*n + j }
	// push orthogonalises v against the basis, twice, and appends it;
	// coefficients go to column from of the projected operator.
	push := func(v []float64, from int) bool {
		w := make([]float64, n)
		m.mul(v, w)
		scale := math.Sqrt(max(dot(v, w), 0))
		for pass := range 2 {
			for i := range q {
				c := dot(mq[i], v)
				axpy(-c, q[i], v)
				if from >= 0 && (pass == 0 || c != 0) {
					h[key(i, from)] += c
				}
			}
		}
		m.mul(v, w)
		r := math.Sqrt(max(dot(v, w), 0))
		if r <= 1e-12*scale {
			return false
		}
		for i := range v {
			v[i] /= r
			w[i] /= r
		}
		if from >= 0 {
			h[key(len(q), from)] += r
		}
		q, mq = append(q, v), append(mq, w)
		return true
	}
	for range block {
		push(start(), -1)
	}
	limit := min(n, 3*want+40*block)
	check := min(limit, 2*want+8*block)
	done := 0 // columns of the projected operator that are known
	for {
		for ; done < len(q) && done < check; done++ {
			v := append([]float64(nil), mq[done]...)
			f.solve(v)
			push(v, done)
		}
		lambda, vecs := ritz(q, h, key, done, shift, cut)
		if len(lambda) >= want || done >= limit || done == len(q) {
			if len(lambda) > want {
				lambda, vecs = lambda[:want], vecs[:want]
			}
			return lambda, vecs
		}
		check = min(limit, check+6*block)
	}
}

// ritz solves the projected problem of the first done basis vectors and
// returns the pairs below cut whose residual is small.
func ritz(q [][]float64, h map[int]float64, key func(i, j int) int, done int, shift, cut float64) ([]float64, [][]float64) {
	a := make([]float64, done*done)
	for i := range done {
		for j := range i + 1 {
			a[i*done+j] = h[key(i, j)]
			if v, ok := h[key(j, i)]; ok && j < i {
				a[i*done+j] = (a[i*done+j] + v) / 2
			}
			a[j*done+i] = a[i*done+j]
		}
	}
	theta, ok := symmetricEigen(a, done)
	if !ok {
		return nil, nil
	}
	var lambda []float64
	var vecs [][]float64
	for c := done - 1; c >= 0; c-- {
		if theta[c] <= 0 {
			break
		}
		l := 1/theta[c] - shift
		if l >= cut {
			break
		}
		// What the operator puts outside the basis.
		var res float64
		for i := done; i < len(q); i++ {
			var r float64
			for j := range done {
				r += h[key(i, j)] * a[j*done+c]
			}
			res += r * r
		}
		if math.Sqrt(res) > 1e-7*theta[c] {
			continue
		}
		v := make([]float64, len(q[0]))
		for j := range done {
			axpy(a[j*done+c], q[j], v)
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
