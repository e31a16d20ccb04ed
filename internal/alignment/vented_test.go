package alignment

import (
	"math"
	"math/cmplx"
	"strings"
	"testing"
)

var lossless = math.Inf(1)

func mustVented(t *testing.T, qts float64, name Name, ql float64) VentedBox {
	t.Helper()
	b, err := Vented(Driver{FsHz: 1, Qts: qts, VasM3: 1}, name, ql)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Exact anchors. B4: closed form 1/Qts = 2.613126 - 1/QL, alpha = sqrt(2) -
// 1/(QL Qts); Bessel: scipy.signal.bessel with norm='phase'. Thiele's table
// has .383 and 1.414 for the first (from memory).
func TestAnchors(t *testing.T) {
	for _, row := range []struct {
		f                      Fourth
		ql, qts, h, alpha, f3x float64
		tol                    float64
	}{
		{Butterworth4(), lossless, .382683, 1, 1.414214, 1, 1e-6},
		{Butterworth4(), 7, .404813, 1, 1.061317, 1, 1e-5},
		{Butterworth4(), 20, .39015, 1, 1.28606, 1, 1e-4},
		{Butterworth4(), 15, .39270, 1, 1.24445, 1, 1e-4},
		{Butterworth4(), 10, .39791, 1, 1.16290, 1, 1e-4},
		{Butterworth4(), 5, .41440, 1, .93159, 1, 1e-4},
		{Butterworth4(), 3, .43864, 1, .65428, 1, 1e-4},
		{Bessel4(), lossless, .316228, .975900, 2.333333, 1.49593, 1e-5},
		{Bessel4(), 7, .33119, .97354, 1.90764, 1.49412, 1e-4},
	} {
		v := Realise(row.f, row.ql)
		near(t, "Qts", v.Qts, row.qts, row.tol)
		near(t, "h", v.H, row.h, row.tol)
		near(t, "alpha", v.Alpha, row.alpha, row.tol)
		near(t, "f3", row.f.Frequency(decibels(.5))*math.Sqrt(v.H), row.f3x, row.tol)
		// There and back.
		back := v.Response()
		near(t, "a1", back.A1, row.f.A1, 1e-12)
		near(t, "a2", back.A2, row.f.A2, 1e-12)
		near(t, "a3", back.A3, row.f.A3, 1e-12)
	}
}

// B4 is -10 lg(1 + (fs/f)^8) with any losses, since they are in the alignment.
func TestB4Level(t *testing.T) {
	for _, ql := range []float64{lossless, 7, 3} {
		v := Realise(Butterworth4(), ql)
		for _, x := range []float64{.2, .5, .9, 1, 1.7, 6} {
			want := -10 * math.Log10(1+math.Pow(x, -8))
			near(t, "level", 20*math.Log10(cmplx.Abs(v.At(x))), want, 1e-6)
		}
	}
	near(t, "f6", Butterworth4().Frequency(-6), .872376, 1e-6)
	near(t, "f10", Butterworth4().Frequency(-10), .759836, 1e-6)
}

// Thiele, "Loudspeakers in Vented Boxes", Proc. IREE (1961), table I, without
// losses: as recalled from memory, to its printed digits; and recomputed, to
// those given.
func TestThieleTable(t *testing.T) {
	for _, row := range []struct {
		h2                     float64 // Thiele's own parameter, h squared
		qts, h, alpha, f3      float64 // recalled, as printed
		qtsR, alphaR, f3R, f3B float64 // recomputed
	}{
		{4, .180, 2.000, 10.48, 2.68, .1797, 10.4833, 2.6840, 1.3420},
		{3, .209, 1.732, 7.48, 2.28, .2087, 7.4772, 2.2772, 1.3148},
		{2, .259, 1.414, 4.46, 1.77, .2588, 4.4641, 1.7736, 1.2541},
		{1.5, .303, 1.225, 2.95, 1.45, .3029, 2.9495, 1.4488, 1.1829},
		{1, .383, 1, 1.414, 1, .38268, 1.41421, 1, 1},
	} {
		// Without losses h = a3/a1 = (a2^2 + 2)/(4 a2) for this family.
		h := math.Sqrt(row.h2)
		qts := Realise(QuasiButterworth3(2*h+math.Sqrt(4*h*h-2)), lossless).Qts
		near(t, "Qts as printed", qts, row.qts, 1e-3)
		near(t, "Qts", qts, row.qtsR, 5.1e-5)
		b := mustVented(t, qts*(1-1e-12), QB3, 0)
		near(t, "h as printed", b.System.H, row.h, 2e-3)
		near(t, "alpha as printed", b.System.Alpha/row.alpha, 1, 3e-3)
		near(t, "f3 as printed", b.F3Hz, row.f3, 5e-3)
		near(t, "h", b.System.H, h, 1e-6)
		near(t, "alpha", b.System.Alpha, row.alphaR, 5.1e-5)
		near(t, "f3", b.F3Hz, row.f3R, 5.1e-5)
		near(t, "f3/fb", b.F3Hz/b.System.H, row.f3B, 5.1e-5)
	}
	for _, row := range []struct{ k, h, qts, alpha, f3, hR, qtsR, alphaR, f3R float64 }{
		{.8, .928, .415, 1.055, .867, .9282, .4148, 1.0547, .8671},
		{.6, .829, .466, .729, .729, .8288, .4650, .7289, .7282},
		{.4756, .757, .518, .559, .641, .7553, .518, .5578, .6414},
		{.4147, .716, .557, .485, .600, .7177, .557, .4858, .6001},
	} {
		f := Chebyshev4(row.k)
		v := Realise(f, lossless)
		f3 := f.Frequency(decibels(.5)) * math.Sqrt(v.H)
		near(t, "h as printed", v.H, row.h, 2e-3)
		near(t, "Qts as printed", v.Qts, row.qts, 1.1e-3)
		near(t, "alpha as printed", v.Alpha/row.alpha, 1, 3e-3)
		near(t, "f3 as printed", f3, row.f3, 1e-3)
		near(t, "h", v.H, row.hR, 1e-4)
		near(t, "Qts", v.Qts, row.qtsR, 1e-4)
		near(t, "alpha", v.Alpha, row.alphaR, 1e-4)
		near(t, "f3", f3, row.f3R, 1e-4)
	}
}

// Rows at round Qts, recomputed with scipy.
func TestRoundRows(t *testing.T) {
	for _, row := range []struct {
		name                   Name
		qts                    float64
		h, alpha, f3           float64
		h7, alpha7, f37        float64
		k, k7, ripple, ripple7 float64
	}{
		{QB3, .20, 1.8042, 8.2448, 2.3879, 1.9393, 7.7775, 2.5289, 0, 0, 0, 0},
		{QB3, .25, 1.4606, 4.8667, 1.8494, 1.5629, 4.5822, 1.9667, 0, 0, 0, 0},
		{QB3, .30, 1.2354, 3.0293, 1.4679, 1.3145, 2.8452, 1.5732, 0, 0, 0, 0},
		{QB3, .35, 1.0784, 1.9188, 1.1679, 1.1395, 1.7964, 1.2702, 0, 0, 0, 0},
		{SC4, .25, 1.0483, 4.2562, 2.2357, 1.0338, 3.8961, 2.3949, 4.3097, 5.6328, 0, 0},
		{SC4, .30, 1.0984, 3.0063, 1.5755, 1.1028, 2.8062, 1.7137, 2.0369, 2.3361, 0, 0},
		{SC4, .35, 1.0619, 1.9366, 1.1800, 1.0926, 1.8347, 1.2986, 1.2904, 1.4864, 0, 0},
		{C4, .45, .8554, .8033, .7623, .8992, .6868, .8348, 0, 0, .036, .006},
		{C4, .50, .7769, .6036, .6659, .8031, .4642, .7155, 0, 0, .190, .070},
		{C4, .60, .6872, .4334, .5677, .6805, .2749, .5884, 0, 0, .814, .461},
	} {
		a, b := mustVented(t, row.qts, row.name, 0), mustVented(t, row.qts, row.name, 7)
		near(t, "h", a.System.H, row.h, 5e-4)
		near(t, "alpha", a.System.Alpha, row.alpha, 5e-4)
		near(t, "f3", a.F3Hz, row.f3, 5e-4)
		near(t, "h, QL 7", b.System.H, row.h7, 5e-4)
		near(t, "alpha, QL 7", b.System.Alpha, row.alpha7, 5e-4)
		near(t, "f3, QL 7", b.F3Hz, row.f37, 5e-4)
		near(t, "Qts kept", b.System.Qts, row.qts, 1e-9)
		if row.k != 0 {
			near(t, "k", a.K, row.k, 5e-4)
			near(t, "k, QL 7", b.K, row.k7, 5e-4)
		}
		near(t, "ripple", a.PeakDB, row.ripple, 6e-4)
		near(t, "ripple, QL 7", b.PeakDB, row.ripple7, 6e-4)
	}
}

// The ripple: two closed forms and the peak of the response itself agree, and
// the form with 28 K that is often recalled does not (0.263 dB at k = 0.5).
func TestChebyshevRipple(t *testing.T) {
	for k, want := range map[float64]float64{.8: .00265, .6: .06786, .5: .21448, .45: .3597, .4: .58628, .3: 1.464} {
		got := ChebyshevRippleDB(k)
		near(t, "recomputed", got, want, 6e-4*math.Max(want, .01))
		kk := 1/(k*k) - 1
		den := 64 + 128*kk + 80*kk*kk + 16*kk*kk*kk
		near(t, "polynomial form", got, decibels(1+kk*kk*kk*kk/den), 1e-12)
		near(t, "peak of the response", Chebyshev4(k).PeakDB(), got, 1e-9)
	}
	wrong := decibels(1 + 81/(64+28*3+80*9+16*27.))
	if math.Abs(wrong-ChebyshevRippleDB(.5)) < .03 {
		t.Error("the two forms no longer differ")
	}
}

// Formulas written for the low-pass prototype have A1 and A3 the other way
// round for the high-pass. If they were: C4 above fs, QB3 below.
func TestSideOfResonance(t *testing.T) {
	for _, ql := range []float64{0, 7, 5} {
		if h := mustVented(t, .5, C4, ql).System.H; h >= 1 {
			t.Errorf("C4: h %g", h)
		}
		if h := mustVented(t, .3, QB3, ql).System.H; h <= 1 {
			t.Errorf("QB3: h %g", h)
		}
	}
}

// The sub-Chebyshev family ends at two double real poles r and 1/r with r^2 =
// tan(pi/8). Their sum squared is 2 + 2 sqrt(2), which is alpha; Qts is one
// over twice that sum. QL 7: .2352 and 4.221, recomputed.
func TestSubChebyshevEnds(t *testing.T) {
	v := Realise(chebyshevLimit(), lossless)
	near(t, "Qts", v.Qts, 1/(2*math.Sqrt(2+2*math.Sqrt2)), 1e-12)
	near(t, "alpha", v.Alpha, 2+2*math.Sqrt2, 1e-9)
	near(t, "h", v.H, 1, 1e-9)
	near(t, "f3", chebyshevLimit().Frequency(decibels(.5)), 2.677, 5e-4)
	v = Realise(chebyshevLimit(), 7)
	near(t, "Qts, QL 7", v.Qts, .2352, 5e-5)
	near(t, "alpha, QL 7", v.Alpha, 4.221, 5e-4)
	if _, err := Vented(Driver{1, .23, 1}, SC4, 7); err == nil || !strings.Contains(err.Error(), "from 0.235 to 0.405") {
		t.Errorf("%v", err)
	}
}

// The families join: at B4's Qts all of them are B4.
func TestFamiliesMeetAtB4(t *testing.T) {
	for _, ql := range []float64{0, 10, 5, 3} {
		_, q, _ := QtsRange(B4, ql)
		want := mustVented(t, q, B4, ql)
		for _, n := range []Name{QB3, SC4, C4} {
			d := Driver{1, q * (1 - 1e-9), 1}
			if n == C4 {
				d.Qts = q * (1 + 1e-9)
			}
			b, err := Vented(d, n, ql)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "h", b.System.H, want.System.H, 1e-6)
			near(t, "alpha", b.System.Alpha, want.System.Alpha, 1e-6)
		}
	}
}

// Displacement of B4 with QL 7, over that at DC, recomputed from the circuit;
// without losses the cone stands still at fb (Small 1973, part II).
func TestTravel(t *testing.T) {
	v := Realise(Butterworth4(), 7)
	for x, want := range map[float64]float64{.3: .910978, .5: .751926, .7: .505351, 1: .101017, 1.4: .247030, 2: .187981} {
		near(t, "travel", cmplx.Abs(v.Travel(x)), want, 2e-6)
	}
	w := Realise(QuasiButterworth3(5), lossless)
	near(t, "at fb", cmplx.Abs(w.Travel(w.H)), 0, 1e-12)
}

// Impedance identities of Small (1973, part I): fs 28, fb 30, alpha 1.5; and
// the leak from the minimum of fs 30, Qms 5, Qes .42, QL 7 (recomputed from
// the circuit).
func TestImpedanceMeasures(t *testing.T) {
	lo, hi := ImpedancePeaks(28, 30, 1.5)
	near(t, "fL", lo, 16.514197, 1e-6)
	near(t, "fH", hi, 50.865325, 1e-6)
	near(t, "alpha", AlphaFromPeaks(lo, 30, hi), 1.5, 1e-9)
	near(t, "alpha with losses", AlphaFromPeaks(18.2058, 30, 49.4348), 1.0836, 1e-4)
	near(t, "QL", LeakFromMinimum(1, 1.0613, .42, 5, 4.46110/3.4), 7, 1e-3)
}

// Worked example in the manner of Small's part III, recomputed: fs 33, Qts
// .3673, Vas 57 l, QL 7.
func TestWorkedExample(t *testing.T) {
	b, err := Vented(Driver{33, 2 * .45 / 2.45, .057}, QB3, 7)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "volume, l", b.VolumeM3*1000, 37.30, 6e-3)
	near(t, "fb", b.FbHz, 35.99, 6e-3)
	near(t, "f3", b.F3Hz, 38.89, 6e-3)
}

// Every alignment that is offered is realisable and finite, whatever the
// driver; what is not offered is refused with a sentence.
func TestWholeRange(t *testing.T) {
	for qts := .03; qts < 2; qts *= 1.05 {
		for _, ql := range []float64{0, 20, 7, 3, 2} {
			all, err := VentedAll(Driver{30, qts, .1}, ql)
			if err != nil {
				t.Fatal(err)
			}
			for _, b := range all {
				for _, v := range []float64{b.VolumeM3, b.FbHz, b.F3Hz, b.PeakDB, b.System.Qts} {
					if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
						t.Fatalf("Qts %g, QL %g: %+v", qts, ql, b)
					}
				}
				back := b.System.Response()
				near(t, "a1", back.A1, b.Response.A1, 1e-9*b.Response.A1)
				near(t, "a3", back.A3, b.Response.A3, 1e-9*b.Response.A3)
				near(t, "level at f3", 20*math.Log10(cmplx.Abs(b.System.At(b.F3Hz/30))), -3.0103, 1e-4)
				if len(b.Name.LongName()) == 0 {
					t.Errorf("%s has no long name", b.Name)
				}
			}
		}
	}
	if _, err := Vented(Driver{30, .4, .1}, "XX", 7); err == nil {
		t.Error("an unknown name was accepted")
	}
	if _, err := Vented(Driver{30, .4, .1}, QB3, 1); err == nil {
		t.Error("QL 1 was accepted")
	}
	if _, err := Vented(Driver{30, .4, .1}, QB3, math.NaN()); err == nil {
		t.Error("QL NaN was accepted")
	}
}

func BenchmarkVentedQB3(b *testing.B) {
	d := Driver{30, .35, .1}
	for b.Loop() {
		if _, err := Vented(d, QB3, 7); err != nil {
			b.Fatal(err)
		}
	}
}
