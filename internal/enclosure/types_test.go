package enclosure

import (
	"math"
	"math/cmplx"
	"reflect"
	"strings"
	"testing"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// solved assembles a box in the open and solves it.
func solved(t *testing.T, u Unit, b job.Box, at job.Place, omega []float64) (Parts, *network.Solution) {
	t.Helper()
	var n network.Network
	p, err := Assemble(Setting{Net: &n, Air: air.MustStandard(), World: newOpenWorld(&n), At: at}, u, b)
	if err != nil {
		t.Fatal(err)
	}
	return p, n.Solve(omega)
}

func radiated(p Parts, s *network.Solution, k int) complex128 {
	var u complex128
	for _, l := range p.Radiating {
		u += s.Flow[0][l][k]
	}
	return u
}

func grid(lo, hi float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = 2 * math.Pi * lo * math.Pow(hi/lo, float64(i)/float64(n-1))
	}
	return out
}

// Every kind has a name and reads fields that the document's box has; every
// type that the document allows has a kind.
func TestKinds(t *testing.T) {
	fields := map[string]bool{}
	box := reflect.TypeOf(job.Box{})
	for i := range box.NumField() {
		name, _, _ := strings.Cut(box.Field(i).Tag.Get("json"), ",")
		fields[name] = true
	}
	known := map[string]bool{}
	for _, k := range Kinds() {
		known[k.Key] = true
		if k.Name == "" || len(k.Reads) == 0 {
			t.Errorf("%s has no name or reads nothing", k.Key)
		}
		for _, r := range k.Reads {
			if !fields[r] {
				t.Errorf("%s reads %q, which a box does not have", k.Key, r)
			}
		}
	}
	for _, key := range []string{"sealed", "vented", "infinite_baffle", "passive_radiator", "bandpass4", "bandpass6_series", "bandpass6_parallel", "line", "aperiodic"} {
		if !known[key] {
			t.Errorf("no kind %s", key)
		}
	}
	var n network.Network
	if _, err := Assemble(Setting{Net: &n, World: newOpenWorld(&n)}, testUnit(1, 1), job.Box{Type: "horn"}); err == nil || !strings.Contains(err.Error(), `"horn"`) {
		t.Errorf("unknown type: %v", err)
	}
}

// A missing part is an error that names it.
func TestMissingParts(t *testing.T) {
	for kind, want := range map[string]string{
		"vented": "port is missing", "passive_radiator": "passive radiator is missing", "bandpass4": "front port is missing",
		"bandpass6_series": "front port is missing", "bandpass6_parallel": "front port is missing",
		"line": "no pieces", "aperiodic": "aperiodic vent is missing",
	} {
		var n network.Network
		_, err := Assemble(Setting{Net: &n, Air: air.MustStandard(), World: newOpenWorld(&n)}, testUnit(1, 1), job.Box{Type: kind, NetL: 30, FrontL: 30})
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", kind, err)
		}
	}
	var n network.Network
	_, err := Assemble(Setting{Net: &n, Air: air.MustStandard(), World: newOpenWorld(&n)}, testUnit(1, 1),
		job.Box{Type: "line", TapMM: 900, Line: []job.Segment{{LengthMM: 900, StartCM2: 300, EndCM2: 300}}})
	if err == nil || !strings.Contains(err.Error(), "at the mouth") {
		t.Errorf("cone at the mouth: %v", err)
	}
}

// Adding the mass that PassiveAdded asks for tunes the box there; the notch is
// at the passive radiator's own resonance, fp = fb/sqrt(1 + delta).
func TestPassiveTuning(t *testing.T) {
	a := air.MustStandard()
	b := job.Box{Type: "passive_radiator", NetL: 40, Passive: &job.Passive{Count: 2, SdCM2: 480, MassG: 160, AddedG: 333, FreeHz: 17, Qmp: 8}}
	for _, hz := range []float64{22, 27, 33} {
		g, err := PassiveAdded(b, a, hz)
		if err != nil {
			t.Fatal(err)
		}
		with := *b.Passive
		with.AddedG = g
		tuned := b
		tuned.Passive = &with
		p, _ := solved(t, testUnit(1, 1), tuned, job.Place{}, grid(10, 100, 3))
		near(t, "fb", p.SystemHz, hz, 1e-9)
		near(t, "notch", p.NotchHz, 17*math.Sqrt(160/(160+g)), 1e-9)
		m, _ := passiveOf(&with)
		delta := m.Compliance * m.Area * m.Area / network.Compliance(a, 0.040, 0)
		near(t, "fb/fp", hz/p.NotchHz, math.Sqrt(1+delta), 1e-9)
		near(t, "area", p.PassiveArea, 2*480e-4, 1e-12)
	}
	if _, err := PassiveAdded(b, a, 80); err == nil || !strings.Contains(err.Error(), "no mass added") {
		t.Errorf("tuning too high: %v", err)
	}
}

// An isobaric pair is one driver of half the equivalent volume: in half the
// box it does what one of its drivers does in the whole box, with the same
// force on twice the mass and stiffness (common knowledge of the trade; exact
// where the air between is stiff against all else, as here before a large box).
func TestIsobaricIsHalfTheBox(t *testing.T) {
	omega := grid(10, 100, 40)
	one, os := solved(t, testUnit(1, 1), job.Box{Type: "sealed", NetL: 800}, job.Place{}, omega)
	for _, wiring := range [][2]int{{2, 1}, {1, 2}} {
		u := testUnit(wiring[0], wiring[1])
		// The amplifier's own resistance in proportion to the load.
		ratio := float64(wiring[0]) / float64(wiring[1])
		u.Electrical = coilBranch(tSource*ratio, ratio)
		two, ts := solved(t, u, job.Box{Type: "sealed", NetL: 400, Isobaric: true}, job.Place{}, omega)
		near(t, "fc", two.SystemHz, one.SystemHz, 1e-9)
		near(t, "area", two.ConeArea, tSd, 1e-12)
		if len(two.Cones) != 2 {
			t.Fatalf("%d cones", len(two.Cones))
		}
		for k, w := range omega {
			// Series drivers have half the voltage each.
			a, b := radiated(one, os, k), radiated(two, ts, k)*complex(float64(wiring[0]), 0)
			if e := math.Abs(20 * math.Log10(cmplx.Abs(b/a))); e > 0.06 {
				t.Errorf("%d x %d, %.3g Hz: %.3f dB apart", wiring[0], wiring[1], w/(2*math.Pi), e)
			}
			in, out := ts.Flow[0][two.Cones[1].Link][k], ts.Flow[0][two.Cones[0].Link][k]
			if e := cmplx.Abs(in/out - 1); e > 0.02 {
				t.Errorf("%.3g Hz: the cones differ by %.3f", w/(2*math.Pi), e)
			}
		}
	}
}

// Each pair has its own air between its cones, stated or assumed.
func TestAirBetweenPairs(t *testing.T) {
	between := func(series, parallel int, stated float64) float64 {
		u, err := testUnit(series, parallel).paired(stated)
		if err != nil {
			t.Fatal(err)
		}
		return u.between
	}
	near(t, "stated, one pair", between(2, 1, 0.007), 0.007, 1e-12)
	near(t, "stated, three pairs", between(2, 3, 0.007), 0.021, 1e-12)
	near(t, "assumed, one pair", between(1, 2, 0), tSd*BetweenDepth*math.Sqrt(tSd/math.Pi), 1e-12)
	near(t, "assumed, two pairs", between(2, 2, 0), 2*between(1, 2, 0), 1e-12)
}

func TestIsobaricWantsPairs(t *testing.T) {
	var n network.Network
	_, err := Assemble(Setting{Net: &n, Air: air.MustStandard(), World: newOpenWorld(&n)}, testUnit(1, 1), job.Box{Type: "sealed", NetL: 20, Isobaric: true})
	if err == nil || !strings.Contains(err.Error(), "even number") {
		t.Errorf("one driver: %v", err)
	}
}

// Down-firing: the gap's mass is rho/(2 pi h) (ln(R/a) + 1/4), so a gap half
// as high weighs twice as much; a high one is as good as none; the sag is
// g/(2 pi fs)^2, 0.62 mm at 20 Hz (recomputed).
func TestFiringDown(t *testing.T) {
	a := air.MustStandard()
	box := outside{width: 0.6, depth: 0.4, height: 0.3}
	g := newGap(job.Place{Fires: "down", GapMM: 50}, box, tSd, a)
	near(t, "outer radius", g.OuterM, math.Sqrt(0.24/math.Pi), 1e-12)
	near(t, "mass", g.MassKgM4, a.Density/(2*math.Pi*0.05)*(math.Log(g.OuterM/math.Sqrt(tSd/math.Pi))+0.25), 1e-12)
	near(t, "outlet", g.OutletM2, 2*math.Pi*g.OuterM*0.05, 1e-12)
	near(t, "ratio", g.AreaRatio, g.OutletM2/tSd, 1e-12)
	half := newGap(job.Place{Fires: "down", GapMM: 25}, box, tSd, a)
	near(t, "half the gap", half.MassKgM4/g.MassKgM4, 2, 1e-12)
	near(t, "fires front", newGap(job.Place{Fires: "front", GapMM: 50}, box, tSd, a).OuterM, math.Sqrt(0.18/math.Pi), 1e-12)
	if newGap(job.Place{Fires: "down"}, box, tSd, a) != nil {
		t.Error("a gap of no height")
	}
	// Friction: R = w M dv/h (1 + ...) of two wide layers.
	const w = 2 * math.Pi * 30
	dv := math.Sqrt(2 * a.Viscosity / (a.Density * w))
	z := g.Impedance(w)
	near(t, "friction", real(z)/(w*g.MassKgM4*dv/0.05), 1, 3*dv/0.05)
	near(t, "reactance", imag(z)/(w*g.MassKgM4), 1, 2*dv/0.05)

	near(t, "sag", Sag(20), 6.2101e-4, 1e-8)
	omega := grid(10, 100, 30)
	sealed := job.Box{Type: "sealed", NetL: 40, WidthMM: 600, DepthMM: 400, HeightMM: 300}
	up, us := solved(t, testUnit(1, 1), sealed, job.Place{Fires: "front"}, omega)
	down, ds := solved(t, testUnit(1, 1), sealed, job.Place{Fires: "down", GapMM: 2000}, omega)
	near(t, "sag", down.SagM, Sag(testUnit(1, 1).Resonance()), 1e-12)
	if down.Gap == nil || up.Gap != nil || up.SagM != 0 {
		t.Error("only the box that fires down has a gap and a sag")
	}
	for k := range omega {
		if e := cmplx.Abs(radiated(down, ds, k)/radiated(up, us, k) - 1); e > 0.002 {
			t.Errorf("a gap of two metres changes %.3g", e)
		}
	}
	tight, ts := solved(t, testUnit(1, 1), sealed, job.Place{Fires: "down", GapMM: 15}, omega)
	last := len(omega) - 1
	if r := cmplx.Abs(radiated(tight, ts, last) / radiated(up, us, last)); r > 0.97 || r < 0.5 {
		t.Errorf("a gap of 15 mm leaves %.3f of the flow at 100 Hz", r)
	}
}

// A straight line fed at its closed end resonates at c/(4 (L + end)), and its
// cone rests there; stuffing tames the next resonance, at three times that.
func TestQuarterWaveLine(t *testing.T) {
	a := air.MustStandard()
	const length, area = 2.4, 0.05
	side := math.Sqrt(area)
	quarter := a.SpeedOfSound / (4 * (length + 0.473201*side))
	b := job.Box{Type: "line", Line: []job.Segment{{LengthMM: 1e3 * length, StartCM2: 1e4 * area, EndCM2: 1e4 * area}}}
	p, _ := solved(t, testUnit(1, 1), b, job.Place{}, grid(10, 100, 3))
	near(t, "quarter wave", p.SystemHz/quarter, 1, 0.006)
	if p.SystemHz > quarter {
		t.Error("the boundary layer raises the resonance")
	}
	near(t, "length", p.Vents[0].LengthM, length, 1e-12)

	omega := grid(25, 45, 400)
	p, s := solved(t, testUnit(1, 1), b, job.Place{}, omega)
	best := 0
	for k := range omega {
		if cmplx.Abs(s.Flow[0][p.Cone][k])/omega[k] < cmplx.Abs(s.Flow[0][p.Cone][best])/omega[best] {
			best = k
		}
	}
	near(t, "cone rests", omega[best]/(2*math.Pi), p.SystemHz, 0.1)

	// In several pieces, and tapped where two of them meet, it is the same.
	parts := b
	parts.Line = []job.Segment{{LengthMM: 900, StartCM2: 500, EndCM2: 500}, {LengthMM: 600, StartCM2: 500, EndCM2: 500}, {LengthMM: 900, StartCM2: 500, EndCM2: 500}}
	for _, tap := range []float64{0, 700, 900} {
		b.TapMM, parts.TapMM = tap, tap
		p1, s1 := solved(t, testUnit(1, 1), b, job.Place{}, omega)
		p2, s2 := solved(t, testUnit(1, 1), parts, job.Place{}, omega)
		for k := range omega {
			if e := cmplx.Abs(radiated(p1, s1, k)/radiated(p2, s2, k) - 1); e > 1e-9 {
				t.Fatalf("tap %g: cutting the line changes %.2g", tap, e)
			}
		}
	}

	// Ripple from the bare and the stuffed line above the passband.
	ripple := func(wool float64) float64 {
		b.TapMM = 0
		b.Line[0].Stuffing = wool
		omega := grid(60, 250, 200)
		p, s := solved(t, testUnit(1, 1), b, job.Place{}, omega)
		lo, hi := math.Inf(1), 0.0
		for k, w := range omega {
			v := w * cmplx.Abs(radiated(p, s, k))
			lo, hi = math.Min(lo, v), math.Max(hi, v)
		}
		return 20 * math.Log10(hi/lo)
	}
	if bare, stuffed := ripple(0), ripple(8); stuffed > bare-6 {
		t.Errorf("ripple %.1f dB bare, %.1f dB stuffed", bare, stuffed)
	}
}

// A aperiodic vent lies between a closed box and an open one: it lowers the
// impedance peak of the closed box.
func TestAperiodicLowersThePeak(t *testing.T) {
	omega := grid(15, 150, 200)
	peak := func(b job.Box) float64 {
		p, s := solved(t, testUnit(1, 1), b, job.Place{}, omega)
		top := 0.0
		for k := range omega {
			top = math.Max(top, cmplx.Abs(1/s.Current[0][p.Mesh][k]))
		}
		return top
	}
	shut := peak(job.Box{Type: "sealed", NetL: 25})
	open := peak(job.Box{Type: "aperiodic", NetL: 25, Vent: &job.Aperiodic{AreaCM2: 100, Resistance: 200}})
	if open > 0.8*shut {
		t.Errorf("peak %.1f ohm with the vent, %.1f without", open, shut)
	}
	// A mat that lets nothing through leaves the closed box.
	near(t, "closed mat", peak(job.Box{Type: "aperiodic", NetL: 25, Vent: &job.Aperiodic{AreaCM2: 1, Resistance: 1e6}}), shut, 0.01*shut)
}

// Where only one chamber has a port, a band-pass box with the rear port all
// but shut is the fourth-order one.
func TestBandpassFamily(t *testing.T) {
	omega := grid(20, 200, 60)
	front := roundPort(100, 60, "flanged_free")
	shut := &job.Port{Shape: "round", Count: 1, DiameterMM: 3, LengthMM: 2000, Ends: "flanged_free"}
	p4, s4 := solved(t, testUnit(1, 1), job.Box{Type: "bandpass4", NetL: 25, FrontL: 30, Front: front}, job.Place{}, omega)
	for _, kind := range []string{"bandpass6_parallel", "bandpass6_series"} {
		p6, s6 := solved(t, testUnit(1, 1), job.Box{Type: kind, NetL: 25, FrontL: 30, Front: front, Port: shut}, job.Place{}, omega)
		if len(p6.Vents) != 2 || p6.Vents[0].Name != "front port" || p6.Vents[1].Name != "rear port" {
			t.Errorf("%s: vents %+v", kind, p6.Vents)
		}
		near(t, "tuning", p6.SystemHz, 60, 1e-6)
		for k := range omega {
			if e := math.Abs(20 * math.Log10(cmplx.Abs(radiated(p6, s6, k)/radiated(p4, s4, k)))); e > 0.03 {
				t.Errorf("%s: %.2f dB from the fourth order", kind, e)
			}
		}
	}
}
