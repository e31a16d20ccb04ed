package filter

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"
)

func crossover(t testing.TB, kind Kind, shape Shape, order int, hz float64) Chain {
	t.Helper()
	s, err := Crossover(kind, shape, order, hz)
	if err != nil {
		t.Fatal(err)
	}
	return New(s, 0, false, 0)
}

func dB(h complex128) float64 { return 20 * math.Log10(cmplx.Abs(h)) }

func rad(hz float64) float64 { return 2 * math.Pi * hz }

var octaves = []float64{0.03, 0.25, 0.5, 0.9, 1, 1.3, 2, 4, 40}

// |H| of Butterworth order n is (1 + x^2n)^-1/2 (Butterworth 1930), so the
// powers of the two branches add up to one.
func TestButterworthMagnitude(t *testing.T) {
	for n := 1; n <= MaxOrder; n++ {
		lp := crossover(t, LowPass, Butterworth, n, 80)
		hp := crossover(t, HighPass, Butterworth, n, 80)
		for _, x := range octaves {
			l, h := cmplx.Abs(lp.At(rad(80*x))), cmplx.Abs(hp.At(rad(80*x)))
			near(t, "low-pass", l*math.Sqrt(1+math.Pow(x, float64(2*n))), 1, 1e-12)
			near(t, "power sum", l*l+h*h, 1, 1e-12)
		}
	}
}

// Voltage sums of the two branches: flat for odd orders in either polarity;
// order 2 cancels at the corner in phase and peaks 3.0103 dB reversed; order 4
// peaks 3.0103 dB in phase (Linkwitz 1976).
func TestButterworthSums(t *testing.T) {
	for n := 1; n <= MaxOrder; n++ {
		lp := crossover(t, LowPass, Butterworth, n, 80)
		hp := crossover(t, HighPass, Butterworth, n, 80)
		if n%2 == 1 {
			for _, x := range octaves {
				l, h := lp.At(rad(80*x)), hp.At(rad(80*x))
				near(t, "in phase", cmplx.Abs(l+h), 1, 1e-12)
				near(t, "reversed", cmplx.Abs(l-h), 1, 1e-12)
			}
		}
		l, h := lp.At(rad(80)), hp.At(rad(80))
		switch n {
		case 2:
			near(t, "null", cmplx.Abs(l+h), 0, 1e-12)
			near(t, "reversed", dB(l-h), 3.0103, 5e-5)
		case 4:
			near(t, "in phase", dB(l+h), 3.0103, 5e-5)
		}
	}
}

// Linkwitz (1976): both branches -6.0206 dB at the corner and an all-pass sum,
// with one polarity reversed where half the order is odd.
func TestLinkwitzRileySums(t *testing.T) {
	for _, n := range []int{2, 4, 6, 8} {
		lp := crossover(t, LowPass, LinkwitzRiley, n, 80)
		hp := crossover(t, HighPass, LinkwitzRiley, n, 80).WithJoin(0, n%4 == 2, 0)
		near(t, "corner", dB(lp.At(rad(80))), -6.0206, 5e-5)
		near(t, "corner", dB(hp.At(rad(80))), -6.0206, 5e-5)
		for _, x := range octaves {
			near(t, "sum", cmplx.Abs(lp.At(rad(80*x))+hp.At(rad(80*x))), 1, 1e-12)
			near(t, "slope", cmplx.Abs(lp.At(rad(80*x)))*(1+math.Pow(x, float64(n))), 1, 1e-12)
		}
	}
}

// Recomputed with numpy from the definitions.
func TestLinkwitzRileyLevels(t *testing.T) {
	for n, want := range map[int][5]float64{
		4: {-.03386, -.52658, -6.02060, -24.60898, -48.19866},
		2: {-.52658, -1.93820, -6.02060, -13.97940, -24.60898},
	} {
		lp := crossover(t, LowPass, LinkwitzRiley, n, 100)
		for i, x := range []float64{.25, .5, 1, 2, 4} {
			near(t, "level", dB(lp.At(rad(100*x))), want[i], 5e-6)
		}
	}
}

// Group delay of the summed Linkwitz-Riley 4 at 80 Hz toward DC: 5.62698 ms,
// recomputed; each branch of it has that delay at DC too.
func TestGroupDelay(t *testing.T) {
	lp := crossover(t, LowPass, LinkwitzRiley, 4, 80)
	near(t, "at DC", lp.GroupDelay(0)*1000, 5.62698, 5e-6)
	chain := New([]Section{
		{Kind: HighPass, FreqHz: 25, Q: 0.8}, {Kind: HighPass, FreqHz: 30},
		{Kind: Peak, FreqHz: 45, Q: 4, GainDB: -6}, {Kind: LowShelf, FreqHz: 60, Q: .7, GainDB: 6},
		{Kind: HighShelf, FreqHz: 90, Q: .7, GainDB: -4}, {Kind: LowPass, FreqHz: 80, Q: .5},
	}, -3, true, 0.004)
	for _, f := range []float64{5, 20, 45, 80, 200} {
		const d = 1e-3
		turn := cmplx.Phase(chain.At(rad(f)+d) / chain.At(rad(f)-d))
		near(t, "against the slope of the phase", chain.GroupDelay(rad(f)), -turn/(2*d), 1e-8)
	}
	if g := chain.GroupDelay(0); math.IsNaN(g) || math.IsInf(g, 0) {
		t.Errorf("group delay at DC is %g", g)
	}
}

func TestBesselCorner(t *testing.T) {
	for n := 1; n <= MaxOrder; n++ {
		for _, kind := range []Kind{LowPass, HighPass} {
			h := crossover(t, kind, Bessel, n, 63).At(rad(63))
			near(t, "corner", dB(h), -10*math.Log10(2), 1e-10)
		}
	}
	// A Bessel low-pass of order n is flat in delay: n derivatives of the
	// delay vanish at DC (Thomson 1949), so at a fifth of the corner an eighth
	// order is within one part in a million.
	lp := crossover(t, LowPass, Bessel, 8, 100)
	near(t, "flat delay", lp.GroupDelay(rad(20))/lp.GroupDelay(0), 1, 1e-6)
}

func TestDelayPolarityLevel(t *testing.T) {
	c := New(nil, -6, true, 0.0025)
	h := c.At(rad(100))
	near(t, "level", dB(h), -6, 1e-12)
	// 2.5 ms at 100 Hz is a quarter turn: -1 times -j is +j.
	near(t, "phase", cmplx.Phase(h), math.Pi/2, 1e-12)
	var zero Chain
	if zero.At(7) != 1 {
		t.Error("the zero chain is not transparent")
	}
}

func TestResponseEqualsAt(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	c := crossover(t, LowPass, Bessel, 7, 90).WithJoin(2, true, 0.003)
	omega := make([]float64, 50)
	for i := range omega {
		omega[i] = rad(5 + 500*rng.Float64())
	}
	got := c.Response(omega)
	for i, w := range omega {
		if got[i] != c.At(w) {
			t.Fatalf("at %g rad/s: %v and %v", w, got[i], c.At(w))
		}
	}
}

// A long chain far from its corners neither overflows nor turns to NaN.
func TestExtremes(t *testing.T) {
	var all []Section
	for range 40 {
		s, _ := Crossover(HighPass, Butterworth, 8, 1)
		all = append(all, s...)
	}
	c := New(all, 0, false, 0)
	near(t, "far above", cmplx.Abs(c.At(rad(40000))), 1, 1e-9)
	if h := c.At(rad(1e-3)); cmplx.IsNaN(h) || cmplx.IsInf(h) {
		t.Errorf("far below: %v", h)
	}
}

func BenchmarkResponse400(b *testing.B) {
	s, _ := Crossover(LowPass, LinkwitzRiley, 4, 80)
	h, _ := Crossover(HighPass, Butterworth, 4, 25)
	c := New(append(s, h...), -3, true, 0.004)
	omega, dst := make([]float64, 400), make([]complex128, 400)
	for i := range omega {
		omega[i] = rad(10 * math.Pow(50, float64(i)/399))
	}
	for b.Loop() {
		c.ResponseTo(dst, omega)
	}
}
