package power

import (
	"math"
	"strings"
	"testing"

	"bootfloor/internal/job"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.9g, want %.9g within %g", what, got, want, tol)
	}
}

// Wire sizes of ASTM B258 to the digits that handbooks print; resistances are
// recomputed from the area and IEC 60028.
func TestAWG(t *testing.T) {
	for _, row := range []struct {
		n               int
		area, milliOhmM float64
	}{
		{-3, 107.219, .16080}, {-1, 67.431, .25568}, {0, 53.475, .32241}, {2, 33.631, .51265},
		{4, 21.151, .81515}, {6, 13.302, 1.29614}, {8, 8.3656, 2.06095}, {10, 5.2612, 3.27704},
		{12, 3.3088, 5.21069}, {14, 2.0809, 8.28533}, {16, 1.3087, 13.17419}, {18, .8230, 20.9478},
	} {
		a := AWGAreaMM2(row.n)
		near(t, "area", a/row.area, 1, 5e-4)
		near(t, "resistance", IdealOhmPerM(a)*1000/row.milliOhmM, 1, 5e-4)
	}
}

// Copper: 1.1572 times at 60 C, 1.6288 at 180 C, from IEC 60028's coefficient.
func TestWarm(t *testing.T) {
	near(t, "60 C", Warm(1, 60), 1.1572, 1e-12)
	near(t, "180 C", Warm(1, 180), 1.6288, 1e-12)
}

// Between and beyond the sizes of IEC 60228 the figure stays 10 to 17 % above
// rho/A, as the standard's own sizes do from 1 mm2 to 95 mm2.
func TestFlexibleOhm(t *testing.T) {
	for a := 1.0; a <= 95; a *= 1.07 {
		ratio := FlexibleOhmPerM(a) / IdealOhmPerM(a)
		if ratio < 1.09 || ratio > 1.17 {
			t.Errorf("%g mm2: ratio %g", a, ratio)
		}
	}
	near(t, "35 mm2", FlexibleOhmPerM(35), 0.554e-3, 1e-12)
	near(t, "continuous", FlexibleOhmPerM(35.0001)/FlexibleOhmPerM(34.9999), 1, 1e-4)
	near(t, "above", FlexibleOhmPerM(300)/FlexibleOhmPerM(150), 0.5, 1e-12)
	near(t, "below", FlexibleOhmPerM(.25)/FlexibleOhmPerM(.5), 2, 1e-12)
}

// Worked by hand from the same standards: 1000 W at 80 % from 13.8 V is
// 90.580 A; 5 m out and back in 35 mm2 class 5 loses 0.50181 V, 3.636 %.
func TestDrop(t *testing.T) {
	amps := SupplyAmps(1000, 80, 13.8)
	near(t, "current", amps, 90.580, 5e-4)
	v, pct := Drop(amps, 5, 35, 20, 13.8)
	near(t, "drop", v, .50181, 5e-6)
	near(t, "per cent", pct, 3.636, 5e-4)
	near(t, "8 AWG, solid", 50*10*IdealOhmPerM(AWGAreaMM2(8)), 1.03036, 2e-4)
	near(t, "4 AWG, solid", 50*10*IdealOhmPerM(AWGAreaMM2(4)), .40758, 1e-4)
	a, ok := AreaForDrop(amps, 5, 20, 13.8, UsualDropPct)
	if !ok || a != 35 {
		t.Errorf("4 %%: %g mm2, %v", a, ok)
	}
	if _, ok := AreaForDrop(1e4, 50, 20, 12, 1); ok {
		t.Error("an impossible drop was promised")
	}
}

func TestAmplifierLimits(t *testing.T) {
	a := job.Amplifier{RatedW: 500, RatedOhm: 4, MinOhm: 2, SupplyV: 14.4, EfficiencyP: 80, CableM: 3, CableMM2: 4}
	near(t, "volts", MaxVolts(a), math.Sqrt(2000), 1e-12)
	near(t, "amps", MaxAmps(a), math.Sqrt(2000)/2, 1e-12)
	near(t, "rated", MaxWatts(a, 4), 500, 1e-9)
	near(t, "lowest load", MaxWatts(a, 2), 1000, 1e-9)
	near(t, "below it the current limits", MaxWatts(a, 1), 500, 1e-9)
	near(t, "cable", CableOhm(a), 6*4.95e-3, 1e-12)
	d := SupplyDraw(a, 4, 12)
	near(t, "sine draw", d.Sine, 500/.8/14.4, 1e-9)
	// 12 dB crest is 8.99 dB below a sine of the same peaks: about an eighth.
	near(t, "programme draw", d.Programme/d.Sine, math.Pow(10, -.899), 2e-4)
	near(t, "sine's own crest", ProgrammeWatts(100, 10*math.Log10(2)), 100, 1e-12)
	for _, v := range []float64{MaxVolts(job.Amplifier{}), MaxAmps(job.Amplifier{}), MaxWatts(job.Amplifier{}, 0), CableOhm(job.Amplifier{}), SupplyAmps(1, 0, 0)} {
		if v != 0 {
			t.Errorf("an empty amplifier gives %g", v)
		}
	}
}

// At its own reference conditions the table must come back; the conversion is
// that of IEC 60287-1-1, worked by hand for 70 C insulation at 50 C:
// sqrt(20/60 x 1.2751/1.1965) = 0.5960.
func TestAmpacity(t *testing.T) {
	for _, row := range []struct{ area, amps float64 }{{4, 46}, {16, 109}, {95, 355}} {
		near(t, "as printed", Ampacity(row.area, 90, 30), row.amps, 1e-9)
	}
	near(t, "converted", Ampacity(16, 70, 50)/109, .5960, 1e-4)
	near(t, "beyond", Ampacity(200, 90, 30), 355, 1e-9)
	near(t, "too hot", Ampacity(16, 85, 90), 0, 0)
	last := 0.0
	for a := .5; a < 120; a *= 1.05 {
		if v := Ampacity(a, CableInsulationC, CableAmbientC); v < last {
			t.Errorf("%g mm2 carries less than a thinner cable", a)
		} else {
			last = v
		}
	}
}

// The rule itself: never above the cable, never loaded beyond three quarters.
func TestChooseFuse(t *testing.T) {
	for _, area := range []float64{1.5, 4, 10, 21.15, 35, 53.5, 95} {
		limit := Ampacity(area, CableInsulationC, CableAmbientC)
		for amps := 1.0; amps < 400; amps += 3.7 {
			f, err := ChooseFuse(amps, area, CableInsulationC, CableAmbientC)
			if err != nil {
				// A refusal is right only if no rating lies between.
				for _, g := range fuses {
					if g.RatingA*.75 >= amps && g.RatingA <= limit {
						t.Fatalf("%g A in %g mm2 refused, %g A would do", amps, area, g.RatingA)
					}
				}
				continue
			}
			if f.RatingA > limit || f.RatingA*.75 < amps {
				t.Fatalf("%g A in %g mm2: %g A", amps, area, f.RatingA)
			}
		}
	}
	if _, err := ChooseFuse(60, 4, CableInsulationC, CableAmbientC); err == nil || !strings.Contains(err.Error(), "use 16 mm2") {
		t.Errorf("%v", err)
	}
	if _, err := ChooseFuse(math.NaN(), 4, CableInsulationC, CableAmbientC); err == nil {
		t.Error("NaN accepted")
	}
	if _, err := ChooseFuse(350, 95, CableInsulationC, CableAmbientC); err == nil {
		t.Error("350 A accepted")
	}
}

// A coil at 180 C has lost 4.237 dB at a fixed voltage (IEC 60028's
// coefficient); that takes the cold power 1.6288 x rated.
func TestCoilHeat(t *testing.T) {
	h := CoilHeat(1.6288*300, 300, 20)
	near(t, "temperature", h.TemperatureC, 180, 1e-9)
	near(t, "compression", h.CompressionDB, -4.237, 5e-4)
	near(t, "no power", CoilHeat(0, 300, 35).TemperatureC, 35, 1e-12)
	// The balance itself at an odd point.
	h = CoilHeat(700, 250, 40)
	near(t, "balance", h.TemperatureC-40, 160/250.*700/h.ResistanceX, 1e-9)
}

// Ohm's law on the usual coil counts.
func TestWirings(t *testing.T) {
	for _, row := range []struct {
		coils int
		ohm   float64
		want  []float64
	}{
		{4, 4, []float64{1, 4, 16}}, // two drivers with dual 4 ohm coils
		{4, 2, []float64{.5, 2, 8}}, // two with dual 2 ohm
		{3, 4, []float64{4. / 3, 12}},
		{1, 4, []float64{4}},
		{0, 4, nil},
	} {
		got := Wirings(row.coils, row.ohm)
		if len(got) != len(row.want) {
			t.Fatalf("%d coils: %v", row.coils, got)
		}
		for i, w := range got {
			near(t, "load", w.Ohm, row.want[i], 1e-12)
		}
	}
}
