package alignment

import (
	"math"
	"math/cmplx"
	"testing"
)

// Response of Small's (1974) passive-radiator system without losses, fs 25,
// Qts .35, alpha 2, delta 3, fp 12 (fb 24): recomputed from the circuit. The
// same tuning as a vented box beside it.
func TestPassiveResponse(t *testing.T) {
	hz := []float64{5, 10, 15, 20, 25, 30, 40, 50, 80, 100}
	passive := []float64{-44.8197, -40.3233, -26.3389, -11.3120, -6.1116, -4.1890, -2.3087, -1.3788, -.4398, -.2593}
	vented := []float64{-55.1659, -31.1793, -17.9882, -10.3138, -6.0747, -3.7479, -1.6411, -.8447, -.2194, -.1218}
	p := PassiveSystem{Qts: .35, Alpha: 2, Delta: 3, Y: 12. / 25}
	near(t, "fb", p.H()*25, 24, 1e-12)
	v := VentedSystem{Qts: .35, H: 24. / 25, Alpha: 2, QL: math.Inf(1)}
	for i, f := range hz {
		near(t, "passive", 20*math.Log10(cmplx.Abs(p.At(f/25))), passive[i], 1e-4)
		near(t, "vented", 20*math.Log10(cmplx.Abs(v.At(f/25))), vented[i], 1e-4)
	}
	near(t, "notch at fp", cmplx.Abs(p.At(12./25)), 0, 1e-12)
	// A passive radiator without stiffness is a vent.
	limp := PassiveSystem{Qts: .35, Alpha: 2, Delta: 1e9, Y: 24. / 25 / math.Sqrt(1+1e9)}
	for _, f := range hz {
		near(t, "limit", cmplx.Abs(limp.At(f/25)-v.At(f/25)), 0, 1e-7)
	}
}

// The design must give the poles it names, and turn into the vented design
// when the passive radiator is very soft.
func TestPassiveDesign(t *testing.T) {
	for _, row := range []struct {
		name Name
		qts  float64
	}{{QB3, .25}, {QB3, .33}, {SC4, .33}, {C4, .45}} {
		d := Driver{FsHz: 28, Qts: row.qts, VasM3: .08}
		want, err := Vented(d, row.name, 0)
		if err != nil {
			t.Fatal(err)
		}
		soft, err := Passive(d, row.name, 1e6*d.VasM3)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "volume", soft.VolumeM3/want.VolumeM3, 1, 1e-4)
		near(t, "fb", soft.FbHz/want.FbHz, 1, 1e-4)
		near(t, "f3", soft.F3Hz/want.F3Hz, 1, 1e-4)
	}
	for _, qts := range []float64{.2, .25, .28, .33, .4, .5} {
		for _, ratio := range []float64{1, 2, 4} {
			d := Driver{FsHz: 28, Qts: qts, VasM3: .08}
			all := PassiveAll(d, ratio*d.VasM3)
			if len(all) == 0 {
				t.Errorf("Qts %g, %g Vas: no box at all", qts, ratio)
			}
			for _, b := range all {
				checkPassive(t, d, b, ratio)
			}
		}
	}
	// The border for a passive radiator as compliant as the driver, by hand:
	// with Butterworth poles, z = w0^2 and b = 1 + sqrt(2) the two conditions
	// leave b z^2 - 2 b z + 1 = 0, so z = 1.7654 and Qts = 1/(2.6131 sqrt(z)) = .28802.
	edge, err := Passive(Driver{28, .2880, .08}, QB3, .08)
	if err != nil {
		t.Fatal(err)
	}
	s := edge.System
	near(t, "natural frequency", math.Sqrt(s.H()*s.H()+s.Alpha*s.Y*s.Y), 1.7654, 2e-3)
	if _, err := Passive(Driver{28, .2882, .08}, QB3, .08); err == nil {
		t.Error("QB3 beyond its border")
	}
	if _, err := Passive(Driver{30, .4, .1}, B4, .1); err == nil {
		t.Error("B4 accepted")
	}
	if _, err := Passive(Driver{30, .4, .1}, QB3, 0); err == nil {
		t.Error("no compliance accepted")
	}
}

// checkPassive proves that a box has the compliance asked for and the poles of
// the alignment that it is named after.
func checkPassive(t *testing.T, d Driver, b PassiveBox, ratio float64) {
	t.Helper()
	s := b.System
	near(t, "compliance", s.Delta, ratio*s.Alpha, 1e-12)
	near(t, "volume", b.VolumeM3*s.Alpha, d.VasM3, 1e-12)
	h2 := s.H() * s.H()
	w0 := math.Pow(h2+s.Alpha*s.Y*s.Y, .25)
	f := Fourth{1 / (s.Qts * w0), (1 + h2 + s.Alpha) / (w0 * w0), h2 / (s.Qts * w0 * w0 * w0)}
	p6, p4, p2 := f.powers()
	switch b.Name {
	case QB3:
		near(t, "no w^6 term", p6, 0, 1e-8)
		near(t, "no w^4 term", p4, 0, 1e-8)
		if p2 < 0 {
			t.Errorf("QB3 with B^2 = %g", p2)
		}
	default:
		// The family has one parameter: fit k to the coefficient that it moves
		// steadily, and demand the rest.
		g := Chebyshev4(bisect(.05, 1, func(k float64) float64 { return Chebyshev4(k).A1 - f.A1 }))
		if b.Name == SC4 {
			g = Chebyshev4(bisect(1, 1e4, func(k float64) float64 { return Chebyshev4(k).A2 - f.A2 }))
		}
		near(t, "a1", f.A1, g.A1, 1e-6)
		near(t, "a2", f.A2, g.A2, 1e-6)
		near(t, "a3", f.A3, g.A3, 1e-6)
	}
	near(t, "half power", cmplx.Abs(s.At(b.F3Hz/d.FsHz)), math.Sqrt(.5), 1e-9)
	if !(b.FpHz < b.FbHz) {
		t.Errorf("fp %g, fb %g", b.FpHz, b.FbHz)
	}
}
