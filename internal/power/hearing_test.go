package power

import (
	"math"
	"strings"
	"testing"
)

// IEC 61672-1:2013, table 3, A and C at the exact base-ten centres 10^(n/10).
func TestWeightings(t *testing.T) {
	for _, row := range []struct{ n, a, c float64 }{
		{10, -70.4, -14.3}, {11, -63.4, -11.2}, {12, -56.7, -8.5}, {13, -50.5, -6.2}, {14, -44.7, -4.4},
		{15, -39.4, -3.0}, {16, -34.6, -2.0}, {17, -30.2, -1.3}, {18, -26.2, -.8}, {19, -22.5, -.5},
		{20, -19.1, -.3}, {21, -16.1, -.2}, {30, 0, 0},
	} {
		f := math.Pow(10, row.n/10)
		near(t, "A", AWeight(f), row.a, .0501)
		near(t, "C", CWeight(f), row.c, .0501)
	}
	// At the nominal names the formula misses the table's values.
	near(t, "nominal 80 Hz", AWeight(80), -22.40, .005)
	near(t, "nominal 12.5 Hz", AWeight(12.5), -63.58, .005)
	near(t, "nominal 16 Hz", AWeight(16), -56.42, .005)
}

// ISO 226:2023 at 40, 60 and 80 phon, recomputed with a separate program; at
// 1 kHz the level is the loudness by definition.
func TestEqualLoudness(t *testing.T) {
	for _, row := range []struct{ hz, l40, l60, l80 float64 }{
		{20, 99.74, 109.37, 118.86}, {31.5, 88.21, 99.06, 109.68}, {40, 82.66, 94.18, 105.44},
		{50, 77.77, 89.93, 101.81}, {63, 72.96, 85.80, 98.35}, {80, 68.33, 81.89, 95.15},
		{100, 64.24, 78.50, 92.46}, {1000, 40, 60, 80},
	} {
		for phon, want := range map[float64]float64{40: row.l40, 60: row.l60, 80: row.l80} {
			got, err := EqualLoudness(phon, row.hz)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "level", got, want, .0101)
		}
	}
	// Two rows that public copies of the table get wrong.
	near(t, "400 Hz", contours[13].lu, -.5, 0)
	near(t, "630 Hz", contours[15].tf, 3.0, 0)
	// No row may step out of line, as a mistyped sign or digit would: the
	// contours of the standard fall smoothly from 20 Hz to 500 Hz.
	for _, phon := range []float64{20, 40, 60, 80} {
		var level []float64
		for _, c := range contours[:15] {
			level = append(level, c.level(phon))
		}
		for i := 2; i < len(level); i++ {
			bend := level[i] - 2*level[i-1] + level[i-2]
			if level[i] >= level[i-1] || bend < -.6 || bend > 2 {
				t.Errorf("%g phon, %g Hz: %.2f after %.2f, bend %.2f", phon, contours[i].hz, level[i], level[i-1], bend)
			}
		}
	}
	mid, _ := EqualLoudness(60, math.Sqrt(40*50))
	near(t, "between", mid, (94.18+89.93)/2, .02)
	for _, bad := range [][2]float64{{60, 10}, {60, 2e4}, {10, 100}, {math.NaN(), 100}, {60, math.NaN()}} {
		if _, err := EqualLoudness(bad[0], bad[1]); err == nil {
			t.Errorf("%v accepted", bad)
		}
	}
}

// NIOSH 98-126, table 1-1 (8 h at 85 dB(A), 3 dB exchange).
func TestNIOSH(t *testing.T) {
	for level, minutes := range map[float64]float64{85: 480, 88: 240, 91: 120, 94: 60, 97: 30, 100: 15} {
		near(t, "minutes", NIOSHMinutes(level), minutes, 1e-9)
	}
	near(t, "dose", NIOSHDose(94, 30), 50, 1e-9)
}

// H.870 states both 80 dB(A) for 40 h and 1.6 Pa2h; the second is 40.0 h
// recomputed. Children: 75 dB(A), 0.51 Pa2h (from memory).
func TestWHO(t *testing.T) {
	p2 := func(l float64) float64 { return 4e-10 * math.Pow(10, l/10) }
	near(t, "adult", WHOHours(92, false), 1.6/p2(92), .001)
	near(t, "child", WHOHours(80, true)*p2(80), .51, .006)
	near(t, "stated", WHOHours(80, false), 40, 1e-12)
}

// Directive 2003/10/EC, article 3: 87 dB(A) and 200 Pa; 85 and 140; 80 and 112.
func TestEUAction(t *testing.T) {
	for _, row := range []struct {
		l, p float64
		want Action
	}{
		{79.9, 111, BelowAction}, {80, 0, LowerAction}, {0, 112, LowerAction},
		{85, 0, UpperAction}, {0, 140, UpperAction}, {87, 200, UpperAction},
		{87.1, 0, OverLimit}, {0, 201, OverLimit},
	} {
		if got := EUAction(row.l, row.p); got != row.want {
			t.Errorf("%v: %v", row, got)
		}
	}
	near(t, "8 h", DailyExposure(100, 480), 100, 1e-12)
	near(t, "1 h", DailyExposure(94, 60), 94-10*math.Log10(8), 1e-12)
}

func TestHearingCaution(t *testing.T) {
	if s := HearingCaution(60); s != "" {
		t.Errorf("quiet: %q", s)
	}
	if s := HearingCaution(100); !strings.Contains(s, "15 minutes a day") || !strings.Contains(s, "24 minutes") {
		t.Errorf("loud: %q", s)
	}
	if s := HearingCaution(112); !strings.Contains(s, "56 seconds a day") {
		t.Errorf("very loud: %q", s)
	}
	if s := HearingCaution(82); !strings.Contains(s, "hours a day") {
		t.Errorf("moderate: %q", s)
	}
	near(t, "sum of two equal", Sum(90, 90), 93.0103, 1e-4)
}
