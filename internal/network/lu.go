package network

// lu factorises a small dense complex matrix with partial pivoting. gonum has
// no complex factorisation, and the matrices here have 3 to 20 rows, so plain
// loops over one flat slice are all that is needed.
type lu struct {
	n     int
	pivot []int
	inv   []complex128 // reciprocals of the diagonal of U
}

func newLU(n int) *lu {
	return &lu{n: n, pivot: make([]int, n), inv: make([]complex128, n)}
}

// abs1 is a cheap magnitude, good enough to choose a pivot with.
func abs1(z complex128) float64 {
	re, im := real(z), imag(z)
	if re < 0 {
		re = -re
	}
	if im < 0 {
		im = -im
	}
	return re + im
}

// factor overwrites a (n x n, by rows) with its factors. An exactly singular
// pivot, which only a network with a lossless loop at its own resonance can
// show, is nudged so that the answer is large but finite.
func (w *lu) factor(a []complex128) {
	n := w.n
	for k := range n {
		p, best := k, abs1(a[k*n+k])
		for i := k + 1; i < n; i++ {
			if v := abs1(a[i*n+k]); v > best {
				p, best = i, v
			}
		}
		w.pivot[k] = p
		if p != k {
			rk, rp := a[k*n:(k+1)*n], a[p*n:(p+1)*n]
			for j := range rk {
				rk[j], rp[j] = rp[j], rk[j]
			}
		}
		if best < 1e-30 {
			a[k*n+k] = 1e-30
		}
		inv := 1 / a[k*n+k]
		w.inv[k] = inv
		rk := a[k*n+k+1 : (k+1)*n]
		for i := k + 1; i < n; i++ {
			f := a[i*n+k]
			if f == 0 {
				continue
			}
			f *= inv
			a[i*n+k] = f
			ri := a[i*n+k+1 : (i+1)*n]
			for j, v := range rk {
				ri[j] -= f * v
			}
		}
	}
}

// solve overwrites x with the solution for right-hand side x.
func (w *lu) solve(a, x []complex128) {
	n := w.n
	for k := range n {
		if p := w.pivot[k]; p != k {
			x[k], x[p] = x[p], x[k]
		}
	}
	for i := 1; i < n; i++ {
		s := x[i]
		for j, v := range a[i*n : i*n+i] {
			s -= v * x[j]
		}
		x[i] = s
	}
	for i := n - 1; i >= 0; i-- {
		s := x[i]
		for j := i + 1; j < n; j++ {
			s -= a[i*n+j] * x[j]
		}
		x[i] = s * w.inv[i]
	}
}
