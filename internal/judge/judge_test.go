package judge

import (
	"math"
	"testing"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// butterworth is the level of a high-pass of order n at corner f0, over 110 dB.
func butterworth(hz []float64, n int, f0 float64) []float64 {
	out := make([]float64, len(hz))
	for i, f := range hz {
		out[i] = 110 - 10*math.Log10(1+math.Pow(f0/f, float64(2*n)))
	}
	return out
}

func volts(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = float64(system.AmplifierVolts)
	}
	return out
}

// A Butterworth high-pass is 3.01 dB down at its corner (Butterworth 1930): that
// is where the reach ends. Averaging over a third of an octave lifts a slope of
// 12 dB an octave by 0.13 dB and moves the corner by under 2 %.
func TestReachIsTheCorner(t *testing.T) {
	hz := system.Grid{FromHz: 10, ToHz: 500, Points: 400}.Hz()
	for _, f0 := range []float64{15, 22, 30} {
		v := Of(hz, butterworth(hz, 2, f0), volts(len(hz)), 160, 100)
		if math.Abs(v.ReachHz/f0-1) > 0.03 {
			t.Errorf("corner %g Hz: reach %.2f", f0, v.ReachHz)
		}
		if v.LimitBelowHz != 0 || v.Limit != system.AmplifierVolts {
			t.Errorf("nothing but volts binds, yet %v below %g", v.Limit, v.LimitBelowHz)
		}
	}
}

// The level asked for is met down to where the curve crosses it: a second-order
// slope is 10 dB down at f0/sqrt 3 (|H|^2 = 1/(1 + (f0/f)^4) = 1/10).
func TestAsked(t *testing.T) {
	hz := system.DefaultGrid.Hz()
	v := Of(hz, butterworth(hz, 2, 40), volts(len(hz)), 80, 100)
	if want := 40 / math.Sqrt(3); math.Abs(v.AskedHz/want-1) > 0.03 {
		t.Errorf("100 dB down to %.2f Hz, want %.2f", v.AskedHz, want)
	}
	if v := Of(hz, butterworth(hz, 2, 40), volts(len(hz)), 80, 120); v.AskedHz != 0 {
		t.Errorf("120 dB is never met, yet down to %.1f Hz", v.AskedHz)
	}
}

// The limit is the highest frequency of the band at which something other than
// the amplifier's voltage stops the level; what binds above the band, or far
// below the reach, is no matter.
func TestLimit(t *testing.T) {
	hz := system.DefaultGrid.Hz()
	code := volts(len(hz))
	for i, f := range hz {
		switch {
		case f < 34:
			code[i] = float64(system.ConeTravel)
		case f > 200:
			code[i] = float64(system.ThermalPower)
		}
	}
	v := Of(hz, butterworth(hz, 2, 20), code, 80, 100)
	if v.Limit != system.ConeTravel || v.LimitBelowHz > 34 || v.LimitBelowHz < 33 {
		t.Errorf("%v below %.1f Hz, want the cone below 34", v.Limit, v.LimitBelowHz)
	}
	if math.Abs(v.LevelDB-109.5) > 0.3 { // 110 - 10 lg(1 + (20/34)^4)
		t.Errorf("level %.2f dB", v.LevelDB)
	}
	far := volts(len(hz))
	far[0], far[1] = float64(system.ConeTravel), float64(system.ConeTravel)
	if v := Of(hz, butterworth(hz, 4, 40), far, 80, 100); v.LimitBelowHz != 0 {
		t.Errorf("10 Hz is far below a reach of 40, yet it counts: %.1f", v.LimitBelowHz)
	}
}

// A narrow dip at one ear does not decide: a notch a twentieth of an octave
// wide leaves the third-octave level nearly alone.
func TestNarrowDip(t *testing.T) {
	hz := system.DefaultGrid.Hz()
	level := make([]float64, len(hz))
	for i, f := range hz {
		level[i] = 110
		if math.Abs(math.Log2(f/45)) < 1.0/40 {
			level[i] = 80
		}
	}
	if v := Of(hz, level, volts(len(hz)), 80, 100); !v.ReachBelow || v.RippleDB > 1 {
		t.Errorf("reach %.1f, ripple %.2f", v.ReachHz, v.RippleDB)
	}
}

// Power means of equal levels are that level, and the mean of 100 and 110 dB is
// 107.40 dB.
func TestMean(t *testing.T) {
	if m, ok := Mean([]float64{20, 40}, []float64{100, 110}, 10, 50); !ok || math.Abs(m-107.404) > 1e-3 {
		t.Errorf("%.4f", m)
	}
	if _, ok := Mean([]float64{20}, []float64{100}, 30, 50); ok {
		t.Error("a mean of nothing")
	}
}

func TestUpper(t *testing.T) {
	j := job.Demo()
	if u := Upper(j); u != 60 {
		t.Errorf("upper edge %g Hz for a crossover at 80", u)
	}
	j.Subs[0].Channel.Filters = nil
	if u := Upper(j); u != 80 {
		t.Errorf("upper edge %g Hz without one", u)
	}
}

// Where the cone rules from 34 to 48 Hz and the port for an octave below, both
// are told; a flicker of a few points is not.
func TestThen(t *testing.T) {
	hz := system.DefaultGrid.Hz()
	code := volts(len(hz))
	for i, f := range hz {
		switch {
		case f < 17:
			code[i] = float64(system.ConeTravel)
		case f < 34:
			code[i] = float64(system.PortAirSpeed)
		case f > 36 && f < 48:
			code[i] = float64(system.ConeTravel)
		}
	}
	v := Of(hz, butterworth(hz, 2, 15), code, 80, 100)
	if v.Limit != system.ConeTravel || v.Then != system.PortAirSpeed || math.Abs(v.ThenBelowHz-34) > 0.5 {
		t.Errorf("%v below %.1f, then %v below %.1f", v.Limit, v.LimitBelowHz, v.Then, v.ThenBelowHz)
	}
	for i, f := range hz {
		if f < 34 && f > 33 {
			code[i] = float64(system.PortAirSpeed)
		} else if f < 48 {
			code[i] = float64(system.ConeTravel)
		}
	}
	if v := Of(hz, butterworth(hz, 2, 15), code, 80, 100); v.ThenBelowHz != 0 {
		t.Errorf("a flicker is told: %v below %.1f", v.Then, v.ThenBelowHz)
	}
}
