package driver

import (
	"math"
	"testing"
)

func nearTo(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s = %.9g, want %.9g (within %g)", what, got, want, tol)
	}
}

// Leach (JAES 50, 2002) writes the coil as K w^n (cos(n pi/2) + j sin(n pi/2))
// and as a resistance beside an inductance that both move with frequency. The
// figures for K = 0.04, n = 0.65 were computed outside this project (Python)
// from that form.
func TestSemiInductance(t *testing.T) {
	c := Coil{K: 0.04, N: 0.65}
	for _, row := range []struct{ f, re, im, r, l float64 }{
		{20, 0.483762, 0.789427, 1.77199, 8.64113e-3},
		{100, 1.377089, 2.247205, 5.04419, 4.91962e-3},
		{1000, 6.151231, 10.037896, 22.53159, 2.19751e-3},
		{10000, 27.476538, 44.837634, 100.64491, 0.98159e-3},
	} {
		w := twoPi * row.f
		z := c.Impedance(w)
		nearTo(t, "resistance", real(z), row.re, 1e-5)
		nearTo(t, "reactance", imag(z), row.im, 1e-5)
		r, l := c.Parallel(w)
		near(t, "parallel resistance", r, row.r, 1e-5)
		near(t, "parallel inductance", l, row.l, 1e-5)
	}
}

// The forms meet where they should: n = 1 is an inductor, n = 1/2 has equal
// resistance and reactance (Vanderkooy 1989), and equal exponents with the
// right parts make the two power laws (Wright 1990) one semi-inductance.
func TestCoilLimits(t *testing.T) {
	w := twoPi * 123.0
	one := Coil{K: 2e-3, N: 1}.Impedance(w)
	nearTo(t, "n = 1 resistance", real(one), 0, 1e-12)
	near(t, "n = 1 reactance", imag(one), imag(Coil{Le: 2e-3}.Impedance(w)), 1e-12)
	half := Coil{K: 0.1, N: 0.5}.Impedance(w)
	near(t, "n = 1/2", real(half), imag(half), 1e-12)
	semi := Coil{K: 0.04, N: 0.65}
	laws := Coil{Kr: 0.04 * math.Cos(0.65*math.Pi/2), Xr: 0.65, Ki: 0.04 * math.Sin(0.65*math.Pi/2), Xi: 0.65}
	near(t, "laws resistance", real(laws.Impedance(w)), real(semi.Impedance(w)), 1e-12)
	near(t, "laws reactance", imag(laws.Impedance(w)), imag(semi.Impedance(w)), 1e-12)
	wright := Coil{Kr: 0.006, Xr: 0.70, Ki: 0.02, Xi: 0.72}.Impedance(twoPi * 1000)
	nearTo(t, "Wright resistance", real(wright), 2.734495, 1e-5)
	nearTo(t, "Wright reactance", imag(wright), 10.857242, 1e-5)
	if z := semi.Impedance(0); z != 0 {
		t.Errorf("at rest %v", z)
	}
}

// 0.5 mH and (1 mH beside 4 ohm): the figures are plain circuit theory, computed
// outside this project (Python).
func TestLossyCoil(t *testing.T) {
	c := Coil{Le: 0.5e-3, L2: 1e-3, R2: 4}
	for _, row := range []struct{ f, re, im float64 }{
		{50, 0.024523, 0.469313}, {200, 0.359321, 1.772072},
		{1000, 2.846398, 4.953666}, {5000, 3.936189, 16.209134},
	} {
		z := c.Impedance(twoPi * row.f)
		nearTo(t, "resistance", real(z), row.re, 1e-5)
		nearTo(t, "reactance", imag(z), row.im, 1e-5)
	}
}

func TestCoilNeverGivesEnergy(t *testing.T) {
	for _, c := range []Coil{{}, {Le: 1e-3}, {Le: 1e-3, L2: 1e-3, R2: 3}, {K: 0.1, N: 0.6}, {Kr: 0.01, Xr: 0.7, Ki: 0.02, Xi: 0.7}} {
		for f := 1.0; f < 20000; f *= 1.7 {
			if real(c.Impedance(twoPi*f)) < -1e-12 {
				t.Errorf("%+v is a source at %g Hz", c, f)
			}
		}
	}
}
