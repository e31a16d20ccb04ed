package driver

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// minimum is the outcome of a least-squares fit.
type minimum struct {
	p          []float64
	sum        float64       // of the squared residuals
	covariance *mat.SymDense // of p, for residuals of unit variance; nil where a parameter is free
}

// leastSquares minimises the sum of the squares of n residuals by the method
// of Levenberg (Q. Appl. Math. 2, 1944) and Marquardt (J. SIAM 11, 1963), with
// the Jacobian by central differences. The parameters should be of order one
// apart in scale, as logarithms are. gonum's optimisers do not know that the
// function is a sum of squares, and need many times the evaluations.
func leastSquares(residuals func(p, r []float64), n int, start []float64) minimum {
	const (
		step    = 1e-6
		longest = 0.7 // a factor of two per iteration in a logarithm
		rounds  = 100
	)
	k := len(start)
	p := append([]float64(nil), start...)
	r, trial, up, down := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	jacobian := mat.NewDense(n, k, nil)
	differentiate := func() {
		for j := 0; j < k; j++ {
			x := p[j]
			p[j] = x + step
			residuals(p, up)
			p[j] = x - step
			residuals(p, down)
			p[j] = x
			for i := range up {
				jacobian.Set(i, j, (up[i]-down[i])/(2*step))
			}
		}
	}
	residuals(p, r)
	sum := square(r)
	damping := 1e-3
	var normal mat.SymDense
	for round := 0; round < rounds; round++ {
		differentiate()
		normal.Reset()
		normal.SymOuterK(1, jacobian.T())
		gradient := mat.NewVecDense(k, nil)
		gradient.MulVec(jacobian.T(), mat.NewVecDense(n, r))
		settled := true
		for try := 0; try < 12; try++ {
			damped := mat.NewSymDense(k, nil)
			damped.CopySym(&normal)
			for j := 0; j < k; j++ {
				damped.SetSym(j, j, damped.At(j, j)*(1+damping)+1e-12)
			}
			var chol mat.Cholesky
			move := mat.NewVecDense(k, nil)
			if !chol.Factorize(damped) || chol.SolveVecTo(move, gradient) != nil {
				damping *= 10
				continue
			}
			q := append([]float64(nil), p...)
			for j := range q {
				q[j] -= math.Max(-longest, math.Min(longest, move.AtVec(j)))
				q[j] = math.Max(-40, math.Min(40, q[j]))
			}
			residuals(q, trial)
			if s := square(trial); s < sum {
				settled = sum-s < 1e-12*sum
				p, sum = q, s
				copy(r, trial)
				damping = math.Max(damping/10, 1e-12)
				break
			}
			damping *= 5
		}
		if settled {
			break
		}
	}
	differentiate()
	out := minimum{p: p, sum: sum}
	normal.Reset()
	normal.SymOuterK(1, jacobian.T())
	var chol mat.Cholesky
	if chol.Factorize(&normal) && chol.Cond() < 1e14 {
		out.covariance = mat.NewSymDense(k, nil)
		if chol.InverseTo(out.covariance) != nil {
			out.covariance = nil
		}
	}
	return out
}

func square(r []float64) float64 {
	s := 0.0
	for _, x := range r {
		s += x * x
	}
	if math.IsNaN(s) {
		return math.Inf(1)
	}
	return s
}
