package tune

import (
	"context"
	"math"

	"gonum.org/v1/gonum/mat"
)

// A fit finds the parameters x of a prediction that lie where the data and
// what was believed before agree best. The parameters are whitened: before the
// data, each is zero give or take one. The cost is Huber's (Annals of
// Mathematical Statistics 35 (1964) 73) of the residuals over the noise, whose
// long reach does less than a square's, and the square of x.
type fit struct {
	predict func(x []float64) ([]float64, error)
	data    []float64
	weight  []float64
	noise   float64 // standard deviation of a reading, in the unit of the data
	low     []float64
	high    []float64
	free    []bool // a parameter that is not free stays where it starts
	// trust says how much of what a reading tells of a parameter is believed
	// when it comes to the confidence, 0 to 1; nil is all of it.
	trust func(parameter, reading int) float64
}

// huberK is where Huber's cost turns from square to straight, in standard
// deviations; 1.345 keeps 95 per cent of the efficiency on normal noise.
const huberK = 1.345

// outcome is the end of a fit.
type outcome struct {
	x          []float64
	residual   []float64     // data less prediction
	covariance *mat.SymDense // of x after the data, held parameters included as free
}

// solve walks from x to the minimum by the method of Levenberg (Q. Appl. Math.
// 2 (1944) 164) and Marquardt (J. SIAM 11 (1963) 431), with Huber's weights
// renewed at each step. gonum's optimisers do not know a sum of squares, and
// would need several times the predictions, each of which is a solved car.
func (f *fit) solve(ctx context.Context, x []float64) (outcome, error) {
	const rounds = 25
	x = append([]float64(nil), x...)
	y, err := f.predict(x)
	if err != nil {
		return outcome{}, err
	}
	cost := f.cost(x, y)
	damping := 1e-3
	var jacobian [][]float64
	for range rounds {
		if err := ctx.Err(); err != nil {
			return outcome{}, err
		}
		if jacobian, err = f.jacobian(x, y); err != nil {
			return outcome{}, err
		}
		step, gained := 0.0, false
		for try := 0; try < 8 && !gained; try++ {
			next := f.step(x, y, jacobian, damping)
			z, err := f.predict(next)
			if err != nil {
				return outcome{}, err
			}
			if c := f.cost(next, z); c <= cost {
				gained = true
				step = distance(next, x)
				x, y, cost = next, z, c
				damping = math.Max(damping/10, 1e-9)
			} else {
				damping = math.Max(damping, 1e-4) * 10
			}
		}
		if !gained || step < 3e-3 {
			break
		}
	}
	if jacobian, err = f.jacobian(x, y); err != nil {
		return outcome{}, err
	}
	out := outcome{x: x, residual: make([]float64, len(y))}
	for i := range y {
		out.residual[i] = f.data[i] - y[i]
	}
	if f.trust != nil {
		for j := range jacobian {
			for i := range y {
				jacobian[j][i] *= f.trust(j, i)
			}
		}
	}
	var chol mat.Cholesky
	if normal, _ := f.normal(x, y, jacobian); chol.Factorize(normal) {
		out.covariance = mat.NewSymDense(len(x), nil)
		if chol.InverseTo(out.covariance) != nil {
			out.covariance = nil
		}
	}
	return out, nil
}

// cost is half the squares of x and Huber's cost of the residuals.
func (f *fit) cost(x, y []float64) float64 {
	var sum float64
	for i := range y {
		r := math.Abs(f.data[i]-y[i]) / f.noise
		if r <= huberK {
			sum += f.weight[i] * r * r / 2
		} else {
			sum += f.weight[i] * huberK * (r - huberK/2)
		}
	}
	for _, v := range x {
		sum += v * v / 2
	}
	if math.IsNaN(sum) {
		return math.Inf(1)
	}
	return sum
}

// jacobian returns the derivative of the prediction for each parameter, by
// forward differences; the prediction is smooth to many digits.
func (f *fit) jacobian(x, y []float64) ([][]float64, error) {
	const h = 1e-3
	out := make([][]float64, len(x))
	p := append([]float64(nil), x...)
	for j := range x {
		p[j] = x[j] + h
		z, err := f.predict(p)
		if err != nil {
			return nil, err
		}
		p[j] = x[j]
		for i := range z {
			z[i] = (z[i] - y[i]) / h
		}
		out[j] = z
	}
	return out, nil
}

// normal returns the matrix and the downhill gradient of the weighted problem.
func (f *fit) normal(x, y []float64, jacobian [][]float64) (*mat.SymDense, []float64) {
	n := len(x)
	h := mat.NewSymDense(n, nil)
	g := make([]float64, n)
	for j := range n {
		h.SetSym(j, j, 1)
		g[j] = -x[j]
	}
	for i := range y {
		r := (f.data[i] - y[i]) / f.noise
		w := f.weight[i]
		if a := math.Abs(r); a > huberK {
			w *= huberK / a
		}
		for j := range n {
			d := jacobian[j][i] / f.noise
			g[j] += w * d * r
			for k := range j + 1 {
				h.SetSym(j, k, h.At(j, k)+w*d*jacobian[k][i]/f.noise)
			}
		}
	}
	return h, g
}

// step returns where a damped step from x leads, within the bounds.
func (f *fit) step(x, y []float64, jacobian [][]float64, damping float64) []float64 {
	h, g := f.normal(x, y, jacobian)
	n := len(x)
	for j := range n {
		h.SetSym(j, j, h.At(j, j)*(1+damping))
		if f.free[j] {
			continue
		}
		for k := range n {
			h.SetSym(j, k, 0)
		}
		h.SetSym(j, j, 1)
		g[j] = 0
	}
	next := append([]float64(nil), x...)
	var chol mat.Cholesky
	move := mat.NewVecDense(n, nil)
	if !chol.Factorize(h) || chol.SolveVecTo(move, mat.NewVecDense(n, g)) != nil {
		return next
	}
	for j := range next {
		next[j] = math.Max(f.low[j], math.Min(f.high[j], next[j]+move.AtVec(j)))
	}
	return next
}

// distance returns the largest change of a parameter.
func distance(a, b []float64) float64 {
	d := 0.0
	for i := range a {
		d = math.Max(d, math.Abs(a[i]-b[i]))
	}
	return d
}
