package network

import (
	"math/cmplx"
	"math/rand/v2"
	"testing"
)

// Complex symmetric systems with many zeros: what the sparse factors solve the
// dense ones, which are held to gonum's LU, solve alike; a pivot too small for
// them is refused, and right-hand sides may begin anywhere below.
func TestSparseAgainstDense(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	taken, refused := 0, 0
	for trial := range 600 {
		n := 1 + r.IntN(14)
		first := r.IntN(n)
		filled := make([]bool, n*n)
		a := make([]complex128, n*n)
		for i := range n {
			for j := range i + 1 {
				if i == j || r.IntN(3) == 0 {
					filled[i*n+j] = true
					a[i*n+j] = complex(r.NormFloat64(), r.NormFloat64())
				}
			}
			a[i*n+i] *= 3
		}
		if trial%10 == 0 {
			k := r.IntN(n)
			a[k*n+k] = 0
		}
		b := append([]complex128(nil), a...)
		var rhs, want [3][]complex128
		for c := range rhs {
			rhs[c] = make([]complex128, n)
			for i := first; i < n; i++ {
				rhs[c][i] = complex(r.NormFloat64(), r.NormFloat64())
			}
			want[c] = append([]complex128(nil), rhs[c]...)
		}
		s := newSparse(n, first, filled)
		if !s.factor(a) {
			refused++
			continue
		}
		taken++
		s.solve(a, rhs[0], rhs[1], rhs[2])
		dense := newSymmetric(n)
		dense.factor(b)
		dense.solve(b, want[0], want[1], want[2])
		for c := range want {
			for i, w := range want[c] {
				if e := cmplx.Abs(rhs[c][i] - w); !(e <= 1e-10*(1+cmplx.Abs(w))) {
					t.Fatalf("trial %d, %d rows, right-hand side %d, row %d: %v, dense %v", trial, n, c, i, rhs[c][i], w)
				}
			}
		}
	}
	if taken < 300 || refused < 25 {
		t.Errorf("%d systems were taken and %d refused", taken, refused)
	}
}

// A matrix of which only the last column is full keeps its zeros: one product
// for each row. In the other order everything fills.
func TestSparseKeepsZeros(t *testing.T) {
	const n = 9
	arrow := func(tip int) []bool {
		f := make([]bool, n*n)
		for i := range n {
			f[i*n+i] = true
			f[max(i, tip)*n+min(i, tip)] = true
		}
		return f
	}
	if got := len(newSparse(n, 0, arrow(n-1)).products); got != n-1 {
		t.Errorf("%d products with the full row last, %d expected", got, n-1)
	}
	// sum of k(k+1)/2 for k to n-1
	if got, want := len(newSparse(n, 0, arrow(0)).products), (n-1)*n*(n+1)/6; got != want {
		t.Errorf("%d products with the full row first, %d expected", got, want)
	}
}
