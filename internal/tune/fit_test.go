package tune

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

// A straight prediction has a closed form, that of ridge regression (A. E.
// Hoerl and R. W. Kennard, Technometrics 12 (1970) 55) with unit priors:
// x = (A'A/s^2 + 1)^-1 A'b/s^2, with that inverse as covariance. For one
// parameter both can be written down.
func TestFitIsRidgeRegression(t *testing.T) {
	a := []float64{1, 2, 3, -1}
	data := []float64{1.1, 1.9, 3.2, -0.8}
	const noise = 0.5
	var aa, ab float64
	for i := range a {
		aa += a[i] * a[i] / noise / noise
		ab += a[i] * data[i] / noise / noise
	}
	f := fit{
		predict: func(x []float64) ([]float64, error) {
			y := make([]float64, len(a))
			for i := range a {
				y[i] = a[i] * x[0]
			}
			return y, nil
		},
		data: data, weight: []float64{1, 1, 1, 1}, noise: noise,
		low: []float64{-10}, high: []float64{10}, free: []bool{true},
	}
	out, err := f.solve(context.Background(), []float64{0})
	if err != nil {
		t.Fatal(err)
	}
	if want := ab / (aa + 1); math.Abs(out.x[0]-want) > 1e-6 {
		t.Errorf("x %.9f, closed form %.9f", out.x[0], want)
	}
	if want := 1 / (aa + 1); math.Abs(out.covariance.At(0, 0)/want-1) > 1e-6 {
		t.Errorf("variance %.9f, closed form %.9f", out.covariance.At(0, 0), want)
	}
	f.high[0] = 0.25
	if out, err = f.solve(context.Background(), []float64{0}); err != nil || out.x[0] != 0.25 {
		t.Errorf("%v beyond its bound, %v", out.x, err)
	}
	f.free[0] = false
	if out, err = f.solve(context.Background(), []float64{0}); err != nil || out.x[0] != 0 {
		t.Errorf("%v moved though held, %v", out.x, err)
	}
}

// White noise is found as large as it is; noise whose neighbours agree, an
// autoregressive series with r = 0.6, counts as sqrt(1.6/0.4) = 2 times itself.
func TestNoise(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	white, red := make([]float64, 20000), make([]float64, 20000)
	last := 0.0
	for i := range white {
		white[i] = 1.5 * r.NormFloat64()
		last = 0.6*last + 0.8*r.NormFloat64() // of unit variance
		red[i] = 1.5 * last
	}
	if s := noiseOf(white); math.Abs(s-1.5) > 0.05 {
		t.Errorf("white noise of 1.5 dB found as %.3f", s)
	}
	if s := noiseOf(red); math.Abs(s-3) > 0.2 {
		t.Errorf("correlated noise found as %.3f, want 3", s)
	}
}

// Smoothing in power leaves a constant as it is and spreads one band of a
// power of n over n.
func TestSmoothPower(t *testing.T) {
	hz, db := make([]float64, 61), make([]float64, 61)
	for i := range hz {
		hz[i] = 20 * math.Exp2(float64(i)/24)
		db[i] = 70
	}
	for _, v := range smoothPower(hz, db, 1.0/3) {
		if math.Abs(v-70) > 1e-9 {
			t.Fatal(v)
		}
	}
	for i := range db {
		db[i] = -100
	}
	db[30] = 90
	// A third of an octave is nine points of 1/24, four on each side.
	for i, v := range smoothPower(hz, db, 1.0/3) {
		if want := 90 - 10*math.Log10(9); (i >= 26 && i <= 34) != (math.Abs(v-want) < 1e-6) {
			t.Errorf("%d: %g", i, v)
		}
	}
}
