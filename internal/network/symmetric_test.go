package network

import (
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// Complex symmetric systems, among them singular leading blocks that no order
// of single pivots survives, against gonum's real LU of the doubled system
// [Re -Im; Im Re].
func TestSymmetricAgainstRealLU(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	pairs := 0
	for trial := range 400 {
		n := 1 + r.IntN(14)
		full := make([]complex128, n*n)
		for i := range n {
			for j := range i + 1 {
				v := complex(r.NormFloat64(), r.NormFloat64())
				if i == j && trial%2 == 0 {
					v = 0 // all of the diagonal: single pivots alone fail
				}
				if i != j && r.IntN(3) == 0 {
					v = 0
				}
				full[i*n+j], full[j*n+i] = v, v
			}
		}
		real2 := mat.NewDense(2*n, 2*n, nil)
		rhs := mat.NewVecDense(2*n, nil)
		x := make([]complex128, n)
		for i := range n {
			x[i] = complex(r.NormFloat64(), r.NormFloat64())
			rhs.SetVec(i, real(x[i]))
			rhs.SetVec(n+i, imag(x[i]))
			for j := range n {
				v := full[i*n+j]
				real2.Set(i, j, real(v))
				real2.Set(n+i, n+j, real(v))
				real2.Set(i, n+j, -imag(v))
				real2.Set(n+i, j, imag(v))
			}
		}
		var lu mat.LU
		lu.Factorize(real2)
		if lu.Cond() > 1e8 {
			continue
		}
		var want mat.VecDense
		if err := lu.SolveVecTo(&want, false, rhs); err != nil {
			t.Fatal(err)
		}
		s := newSymmetric(n)
		s.factor(full)
		other, third := make([]complex128, n), append([]complex128(nil), x...)
		s.solve(full, x, other, third)
		for i, p := range s.pair {
			if third[i] != x[i] || other[i] != 0 {
				t.Fatal("right-hand sides get in each other's way")
			}
			if p {
				pairs++
			}
			if e := cmplx.Abs(x[i] - complex(want.AtVec(i), want.AtVec(n+i))); e > 1e-12*lu.Cond()*(1+cmplx.Abs(x[i])) {
				t.Fatalf("trial %d, size %d, row %d: off by %.2g", trial, n, i, e)
			}
		}
	}
	if pairs < 100 {
		t.Errorf("only %d pivots of two rows were met", pairs)
	}
}
