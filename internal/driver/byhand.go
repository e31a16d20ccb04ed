package driver

import (
	"fmt"
	"math"
)

// Readings are what a meter, a resistor and a tone generator give: the numbers
// of the classic method.
type Readings struct {
	Re   float64 // ohm, DC, by meter, leads subtracted
	Fs   float64 // Hz, where the impedance is highest
	Zmax float64 // ohm, there
	// F1 < Fs < F2, Hz: where the impedance has fallen to Level.
	F1, F2 float64
	// Level in ohm; zero stands for the geometric mean of Re and Zmax, the
	// level at which the two frequencies lie evenly about Fs.
	Level float64
}

// Step is one step of a worked measurement, for showing.
type Step struct {
	Do      string  // what to do or read
	Formula string  // as it would be written on paper; empty for a reading
	Result  float64 // in Unit
	Unit    string
}

// ByHand works out Qms, Qes and Qts from readings: with r0 = Zmax/Re and
// r1 = Level/Re, Qms = Fs/(F2-F1) sqrt((r0^2-r1^2)/(r1^2-1)), Qes = Qms/(r0-1),
// Qts = Qms/r0 (Small 1972, appendix; with r1^2 = r0 the root is sqrt(r0)). The
// coil's inductance is neglected, as it may be below about 200 Hz. The error is
// a sentence.
func ByHand(r Readings) (qms, qes, qts float64, steps []Step, err error) {
	fail := func(format string, a ...any) (float64, float64, float64, []Step, error) {
		return 0, 0, 0, nil, fmt.Errorf(format, a...)
	}
	for _, x := range []float64{r.Re, r.Fs, r.Zmax, r.F1, r.F2} {
		if !(x > 1e-6 && x < 1e6) {
			return fail("enter all five readings: Re, fs, Zmax, and the two frequencies beside fs")
		}
	}
	r0 := r.Zmax / r.Re
	if r0 < 1.05 {
		return fail("Zmax is %s ohm and Re %s ohm: at resonance the impedance must be clearly higher than Re", figures(r.Zmax), figures(r.Re))
	}
	if !(r.F1 < r.Fs && r.Fs < r.F2) {
		return fail("the two frequencies must lie on either side of fs (%s Hz): they are %s and %s Hz", figures(r.Fs), figures(r.F1), figures(r.F2))
	}
	level := r.Level
	if level == 0 {
		level = math.Sqrt(r.Re * r.Zmax)
	}
	r1 := level / r.Re
	if !(r1 > 1.01 && r1 < r0*0.99) {
		return fail("the level %s ohm must lie between Re (%s ohm) and Zmax (%s ohm)", figures(level), figures(r.Re), figures(r.Zmax))
	}
	qms = r.Fs / (r.F2 - r.F1) * math.Sqrt((r0*r0-r1*r1)/(r1*r1-1))
	qes = qms / (r0 - 1)
	qts = qms / r0
	steps = []Step{
		{"Measure the resistance at the terminals with a meter and take off that of its leads", "", r.Re, "Ω"},
		{"Turn the tone from 10 Hz upwards to where the impedance is highest: fs", "", r.Fs, "Hz"},
		{"Read the impedance there: Zmax", "", r.Zmax, "Ω"},
		{"How many times Re that is", "r0 = Zmax / Re", r0, ""},
		{"The level to look for on both sides", "Z1 = √(Re · Zmax)", level, "Ω"},
		{"The frequency below fs at which the impedance is Z1", "", r.F1, "Hz"},
		{"The frequency above fs at which the impedance is Z1", "", r.F2, "Hz"},
		{"Check: this should be close to fs", "√(f1 · f2)", math.Sqrt(r.F1 * r.F2), "Hz"},
		{"Mechanical Q", "Qms = fs · √r0 / (f2 − f1)", qms, ""},
		{"Electrical Q", "Qes = Qms / (r0 − 1)", qes, ""},
		{"Total Q", "Qts = Qms / r0", qts, ""},
	}
	if r.Level != 0 {
		steps[4] = Step{"The level that was looked for on both sides, as a share of Re", "r1 = Z1 / Re", r1, ""}
		steps[8].Formula = "Qms = fs / (f2 − f1) · √((r0² − r1²) / (r1² − 1))"
	}
	return qms, qes, qts, steps, nil
}

// MassByHand works out the moving mass, kg, from the resonance in free air and
// with a known mass, kg, fixed to the cone: Mms = m/((fs/f')^2 - 1).
func MassByHand(fs, loaded, mass float64) (mms float64, steps []Step, err error) {
	if !(mass > 0 && loaded > 0 && fs > loaded*1.01) {
		return 0, nil, fmt.Errorf("with mass on the cone the resonance must fall clearly: it went from %s to %s Hz. Use more mass, about that of the cone", figures(fs), figures(loaded))
	}
	ratio := fs / loaded
	mms = mass / (ratio*ratio - 1)
	return mms, []Step{
		{"Fix a weighed mass to the cone, evenly, with putty", "", mass * 1e3, "g"},
		{"Find the resonance again: f′", "", loaded, "Hz"},
		{"Moving mass with its air", "Mms = m / ((fs / f′)² − 1)", mms * 1e3, "g"},
	}, nil
}

// BoxByHand works out Vas, m3, from a closed test box of known volume, m3:
// Vas = VT (fc Qec/(fs Qes) - 1). The electrical Q in the box makes it
// insensitive to the change of the air mass on the cone (Small 1972).
func BoxByHand(fs, qes, fc, qec, volume float64) (vas float64, steps []Step, err error) {
	rise := fc * qec / (fs * qes)
	if !(volume > 0 && fs > 0 && qes > 0 && fc > fs && rise > 1.02) {
		return 0, nil, fmt.Errorf("in a closed box the resonance must rise clearly: it went from %s to %s Hz. Use a smaller box, sealed tightly, without lining", figures(fs), figures(fc))
	}
	vas = volume * (rise - 1)
	return vas, []Step{
		{"Seal the driver on an unlined box whose air volume, with what the cone and frame add or take, is known", "", volume * 1e3, "L"},
		{"Measure resonance and Q as before, in the box: fc", "", fc, "Hz"},
		{"and Qec", "", qec, ""},
		{"Equivalent volume", "Vas = VT · (fc · Qec / (fs · Qes) − 1)", vas * 1e3, "L"},
	}, nil
}
