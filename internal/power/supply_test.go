package power

import (
	"math"
	"strings"
	"testing"

	"bootfloor/internal/job"
)

// Every plan obeys the three rules that it states: drop, fuse not above the
// cable, fuse not loaded beyond three quarters. And no smaller standard cable
// obeys them.
func TestPlanSupply(t *testing.T) {
	for _, watts := range []float64{50, 200, 500, 1000, 2000} {
		for _, run := range []float64{1, 3, 6} {
			a := job.Amplifier{RatedW: watts, RatedOhm: 2, MinOhm: 2, SupplyV: 14.4, EfficiencyP: 80}
			d := SupplyDraw(a, 2, CrestLoudBassDB)
			s, err := PlanSupply([]Draw{d}, run, 14.4)
			if err != nil {
				t.Fatalf("%g W, %g m: %v", watts, run, err)
			}
			ok := func(area float64) bool {
				_, pct := Drop(s.LastingA, run, area, CableAmbientC, 14.4)
				_, err := ChooseFuse(s.LastingA, area, CableInsulationC, CableAmbientC)
				return pct <= UsualDropPct && err == nil
			}
			if !ok(s.AreaMM2) || s.Fuse.RatingA > Ampacity(s.AreaMM2, CableInsulationC, CableAmbientC) || s.Fuse.RatingA*.75 < s.LastingA {
				t.Errorf("%g W, %g m: %+v", watts, run, s)
			}
			for _, c := range carried {
				if c.area < s.AreaMM2 && ok(c.area) {
					t.Errorf("%g W, %g m: %g mm2 would do", watts, run, c.area)
				}
			}
			if !strings.Contains(s.Say, "qualified person") {
				t.Error(s.Say)
			}
		}
	}
	for _, bad := range [][3]float64{{0, 3, 14}, {50, 0, 14}, {50, 3, math.NaN()}, {math.Inf(1), 3, 14}, {5000, 3, 14}, {200, 500, 14}} {
		if s, err := PlanSupply([]Draw{{Sine: bad[0], Programme: bad[0]}}, bad[1], bad[2]); err == nil {
			t.Errorf("%v: %+v", bad, s)
		}
	}
}

// Pink noise, equal third octaves from 20 Hz to 20 kHz: its A-weighted level
// from the table of IEC 61672-1:2013, added up here from the printed values.
func TestMusicDBA(t *testing.T) {
	table := []float64{-50.5, -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8, -3.2, -1.9,
		-.8, 0, .6, 1, 1.2, 1.3, 1.2, 1, .5, -.1, -1.1, -2.5, -4.3, -6.6, -9.3}
	want := Sum(table...) - 10*math.Log10(7) // 7 bands from 20 to 80 Hz
	near(t, "pink", MusicDBA(0, 0), want, .03)
	near(t, "pink, louder", MusicDBA(110, 0)-MusicDBA(100, 0), 10, 1e-12)
	if l := MusicDBA(112, 12); l < 102 || l > 106 {
		t.Errorf("112 dB of bass, 12 dB up: %g dB(A)", l)
	}
	// In the end bass alone counts, at most by the weighting at 80 Hz.
	if l := MusicDBA(100, 80); l > 100-22 {
		t.Errorf("bass alone: %g dB(A)", l)
	}
	if s := BassCaution(112, 12); !strings.Contains(s, "Bass at 112 dB") || !strings.Contains(s, "minutes a day") {
		t.Error(s)
	}
	if s := BassCaution(70, 10); s != "" {
		t.Error(s)
	}
}
