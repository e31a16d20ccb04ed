package alignment

import (
	"math"
	"strings"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.9g, want %.9g within %g", what, got, want, tol)
	}
}

// Closed-box figures after Small (J. Audio Eng. Soc. 20 (1972) 798; 21 (1973)
// 11), the formulas from memory, every number recomputed with numpy; c 345 m/s
// as Small has it.
func TestSealedTable(t *testing.T) {
	for _, row := range []struct{ q, f3, peak, at, f10, eta float64 }{
		{0.5, 1.553774, 0, math.Inf(1), .68006, 5.126e-7},
		{1 / math.Sqrt(3), 1.272020, 0, math.Inf(1), .62729, 8.091e-7},
		{1 / math.Sqrt2, 1, 0, math.Inf(1), .57735, 1.3596e-6},
		{0.8, .897160, .2130, 2.1381, .55670, 1.6642e-6},
		{1.0, .786151, 1.2494, 1.4142, .53139, 1.9787e-6},
		{1.1, .756747, 1.8330, 1.3055, .52388, 2.0168e-6},
		{1.2, .735815, 2.4118, 1.2377, .51827, 2.0110e-6},
		{1.5, .699345, 4.0334, 1.1339, .50787, 1.8739e-6},
	} {
		near(t, "f3", SealedF3(row.q), row.f3, 1e-5)
		near(t, "peak", SealedPeakDB(row.q), row.peak, 5e-5)
		if got := SealedPeakAt(row.q); !math.IsInf(row.at, 1) || !math.IsInf(got, 1) {
			near(t, "peak at", got, row.at, 5e-5)
		}
		// At -10 dB x^4 = 1/9 for Qtc 1/sqrt(2), so f10 is 1/sqrt(3).
		near(t, "f10", SealedFrequency(row.q, -10), row.f10, 1e-5)
		near(t, "efficiency", SealedEfficiency(row.q, 345)/row.eta, 1, 2e-4)
	}
	near(t, "most efficient", MostEfficientQtc(), 1.1317, 5e-5)
	near(t, "its constant", SealedEfficiency(MostEfficientQtc(), 345), 2.0187e-6, 5e-11)
}

// Worked example, recomputed: fs 25 Hz, Qts 0.40, Vas 120 l.
func TestSealedExample(t *testing.T) {
	d := Driver{FsHz: 25, Qts: .4, VasM3: .12}
	for _, row := range []struct{ v, fc, q, f3, peak float64 }{
		{.020, 66.1438, 1.05830, 50.7812, 1.5892},
		{.040, 50.0000, .80000, 44.8580, .2130},
		{.060, 43.3013, .69282, 44.2126, 0},
	} {
		b, err := SealedIn(d, row.v)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "fc", b.FcHz, row.fc, 1e-4)
		near(t, "Qtc", b.Qtc, row.q, 1e-5)
		near(t, "f3", b.F3Hz, row.f3, 1e-4)
		near(t, "peak", b.PeakDB, row.peak, 1e-4)
		back, err := Sealed(d, b.Qtc)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "volume back", back.VolumeM3, row.v, 1e-12)
	}
	b, err := Sealed(d, ButterworthQtc)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Butterworth volume, l", b.VolumeM3*1000, 56.4706, 1e-4)
	if _, err := Sealed(d, .4); err == nil || !strings.Contains(err.Error(), "Qts is 0.4") {
		t.Errorf("%v", err)
	}
}

func TestChebyshevQtc(t *testing.T) {
	for _, ripple := range []float64{.01, .5, 1.2494, 3} {
		near(t, "round trip", SealedPeakDB(ChebyshevQtc(ripple)), ripple, 1e-9)
	}
	near(t, "no ripple", ChebyshevQtc(0), ButterworthQtc, 1e-12)
}

// Fourth-order band-pass: three independent recomputations (circuit, closed
// form, scipy.signal.lp2bp) of the formulas of Fincham (1979) and Geddes
// (1989), which are from memory. S is the damping ratio of the low-pass, so
// the centre gain is 40 lg(2 S Q).
func TestBandpass(t *testing.T) {
	d := Driver{FsHz: 28, Qts: .35, VasM3: .1}
	for _, row := range []struct{ s, q, gain, ripple, low, high float64 }{
		{1 / math.Sqrt2, 1.0, 6.0206, 0, .707107, 1.414214},
		{1 / math.Sqrt2, .7, -.1755, 0, .615237, 1.625390},
		{.6, 1.0, 3.1672, .3546, .630123, 1.586992},
		{.5, 1.0, 0, 1.2494, .549110, 1.821129},
		{.5, .7, -6.1961, 1.2494, .442535, 2.259706},
		{.4, .7, -10.0725, 2.6954, .355831, 2.810326},
	} {
		b, err := Bandpass(d, row.q, row.s)
		if err != nil {
			t.Fatal(err)
		}
		const tol = 2e-6
		near(t, "gain", b.GainDB, row.gain, 5e-4)
		near(t, "ripple", b.RippleDB, row.ripple, 5e-5)
		near(t, "lower edge", b.LowHz/b.FcHz, row.low, tol)
		near(t, "upper edge", b.HighHz/b.FcHz, row.high, tol)
		near(t, "edges about the centre", b.LowHz*b.HighHz/(b.FcHz*b.FcHz), 1, 1e-12)
	}
	b, _ := Bandpass(d, 1, 1/math.Sqrt2)
	near(t, "rear, l", b.RearM3*1000, 13.960, 5e-4)
	near(t, "front, l", b.FrontM3*1000, 24.500, 5e-4)
	near(t, "centre", b.FcHz, 80, 1e-9)
	// The whole response by its definition, half power at the edges.
	// Vas/Vf counted for the driver in its rear chamber, stiffer by (q/Qts)^2.
	alpha := d.VasM3 / b.FrontM3 * d.Qts * d.Qts
	h := func(x float64) float64 {
		re := x*x*x*x - (2+alpha)*x*x + 1
		im := x - x*x*x
		return x * x / math.Hypot(re, im)
	}
	near(t, "centre gain", 20*math.Log10(h(1)), b.GainDB, 1e-9)
	near(t, "edge", h(b.LowHz/80)/h(1), math.Sqrt(.5), 1e-9)
	for _, bad := range [][2]float64{{.35, .7}, {1, 0}, {math.NaN(), .7}, {1, math.NaN()}} {
		if _, err := Bandpass(d, bad[0], bad[1]); err == nil {
			t.Errorf("%v accepted", bad)
		}
	}
}

func TestBadDrivers(t *testing.T) {
	for _, d := range []Driver{{}, {FsHz: 30, Qts: -1, VasM3: .1}, {FsHz: math.NaN(), Qts: .4, VasM3: .1}, {FsHz: 30, Qts: .4, VasM3: math.Inf(1)}} {
		if _, err := Sealed(d, .7); err == nil {
			t.Errorf("%v sealed", d)
		}
		if _, err := Vented(d, QB3, 7); err == nil {
			t.Errorf("%v vented", d)
		}
		if _, err := VentedAll(d, 7); err == nil {
			t.Errorf("%v vented all", d)
		}
		if _, err := Passive(d, QB3, .1); err == nil {
			t.Errorf("%v passive", d)
		}
		if _, err := Bandpass(d, 2, .7); err == nil {
			t.Errorf("%v band-pass", d)
		}
	}
}
