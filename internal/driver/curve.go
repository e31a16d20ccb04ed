package driver

import (
	"errors"
	"fmt"
	"math"

	"bootfloor/internal/columns"
)

// Curve is a measured electrical impedance, rising in frequency.
type Curve struct {
	Hz    []float64
	Ohm   []float64 // magnitude
	Phase []float64 // rad, or nil where only the magnitude was measured
}

// ReadCurve reads an impedance curve from text columns: frequency in Hz,
// magnitude in ohm and, where there is a third, phase in degrees; or, where
// the headings say so, real and imaginary parts in ohm. Rows may stand in any
// order, and the columns too where headings name them. The notes say what was
// guessed or left out. The error is a sentence.
func ReadCurve(text string) (Curve, []string, error) {
	table, err := columns.Read(text)
	if err != nil {
		return Curve{}, nil, err
	}
	var notes []string
	if table.Doubt != "" {
		notes = append(notes, table.Doubt)
	}
	if table.NSkipped > 0 {
		notes = append(notes, fmt.Sprintf("%d lines were left out, the first is line %d: %s.", table.NSkipped, table.Skipped[0].Line, table.Skipped[0].Why))
	}
	f, z, third, complexParts := assign(table)
	if f < 0 {
		return Curve{}, notes, errors.New("no column looks like frequencies: one column should rise or fall all the way, in Hz")
	}
	notes = append(notes, fmt.Sprintf("Read column %d as frequency and column %d as %s.", f+1, z+1, map[bool]string{false: "ohms", true: "the real part, ohms"}[complexParts]))
	scale := 1.0
	if table.Names[f] != "" && mentions(table.Names[f], "khz") {
		scale = 1000
		notes = append(notes, "The heading says kHz.")
	}
	table = table.Ascending(f)
	c := Curve{}
	for i := range table.Columns[f] {
		hz, ohm := table.Columns[f][i]*scale, table.Columns[z][i]
		phase := 0.0
		if third >= 0 {
			phase = table.Columns[third][i]
		}
		if complexParts {
			ohm, phase = math.Hypot(ohm, phase), math.Atan2(phase, ohm)
		} else if third >= 0 && !mentions(table.Names[third], "rad") {
			phase *= math.Pi / 180
		}
		if hz <= 0 {
			continue
		}
		if !(ohm > 0) || ohm > 1e5 {
			return Curve{}, notes, fmt.Errorf("the impedance at %s Hz is %s ohm: it must be more than zero and below 100 000", figures(hz), figures(ohm))
		}
		c.Hz, c.Ohm = append(c.Hz, hz), append(c.Ohm, ohm)
		if third >= 0 {
			c.Phase = append(c.Phase, phase)
		}
	}
	for _, p := range c.Phase {
		if math.Abs(p) > 100*math.Pi/180 {
			notes = append(notes, "The third column goes beyond 100 degrees, so it is no phase of an impedance; it was not used.")
			c.Phase = nil
			break
		}
	}
	if len(c.Hz) < 8 {
		return Curve{}, notes, fmt.Errorf("only %d points were found; at least 8 are needed, and 50 or more around the resonance are better", len(c.Hz))
	}
	return c, notes, nil
}

func mentions(name string, words ...string) bool {
	t := columns.Table{Names: []string{name}}
	_, ok := t.Find(words...)
	return ok
}

// assign picks the columns: by heading, else the first that runs one way is
// the frequency, the next the magnitude, the one after the phase. -1 is none.
func assign(t columns.Table) (f, z, third int, complexParts bool) {
	f, z, third = -1, -1, -1
	if i, ok := t.Find("freq", "hz"); ok {
		f = i
	} else {
		for i, c := range t.Columns {
			if monotonic(c) && c[0] > 0 {
				f = i
				break
			}
		}
	}
	if f < 0 {
		return
	}
	re, okRe := t.Find("real", "re(")
	im, okIm := t.Find("imag", "im(")
	if okRe && okIm && re != f && im != f && re != im {
		return f, re, im, true
	}
	if i, ok := t.Find("ohm", "ω", "imped", "|z|", "mag"); ok && i != f {
		z = i
	}
	if i, ok := t.Find("phase", "deg", "angle", "arg(", "ph(", "vp("); ok && i != f && i != z {
		third = i
	}
	for i := range t.Columns {
		switch {
		case i == f || i == third || i == z:
		case z < 0:
			z = i
		case third < 0 && t.Names[i] == "":
			third = i
		}
	}
	return
}

func monotonic(c []float64) bool {
	if len(c) < 2 || c[0] == c[len(c)-1] {
		return false
	}
	up := c[len(c)-1] > c[0]
	for i := 1; i < len(c); i++ {
		if c[i] != c[i-1] && (c[i] > c[i-1]) != up {
			return false
		}
	}
	return true
}

// below returns the curve up to a frequency, thinned to at most so many points
// by averaging neighbours.
func (c Curve) below(hz float64, most int) Curve {
	n := 0
	for n < len(c.Hz) && c.Hz[n] <= hz {
		n++
	}
	step := (n + most - 1) / most
	if step < 1 {
		step = 1
	}
	var out Curve
	mean := func(x []float64, i, j int, log bool) float64 {
		sum := 0.0
		for _, v := range x[i:j] {
			if log {
				v = math.Log(v)
			}
			sum += v
		}
		sum /= float64(j - i)
		if log {
			return math.Exp(sum)
		}
		return sum
	}
	for i := 0; i < n; i += step {
		j := min(i+step, n)
		out.Hz = append(out.Hz, mean(c.Hz, i, j, true))
		out.Ohm = append(out.Ohm, mean(c.Ohm, i, j, true))
		if c.Phase != nil {
			out.Phase = append(out.Phase, mean(c.Phase, i, j, false))
		}
	}
	return out
}

// peak returns the place of the reading that stands highest above the dips on
// both of its sides, and how many times it is above the higher dip. The rise
// of the coil at the end of a curve has no dip beyond it and so never counts.
func (c Curve) peak() (int, float64) {
	n := len(c.Ohm)
	after := make([]float64, n+1)
	after[n] = math.Inf(1)
	for i := n - 1; i >= 0; i-- {
		after[i] = math.Min(c.Ohm[i], after[i+1])
	}
	best, height, before := 0, 0.0, math.Inf(1)
	for i, z := range c.Ohm {
		if dip := math.Max(before, after[i+1]); !math.IsInf(dip, 1) && z/dip > height {
			best, height = i, z/dip
		}
		before = math.Min(before, z)
	}
	return best, height
}

// crossing returns the frequency at which the magnitude passes the level, going
// from place i in steps of dir, by straight lines in log frequency.
func (c Curve) crossing(i, dir int, level float64) (float64, bool) {
	for j := i; j+dir >= 0 && j+dir < len(c.Ohm); j += dir {
		a, b := c.Ohm[j], c.Ohm[j+dir]
		if a >= level && b < level {
			t := (a - level) / (a - b)
			return c.Hz[j] * math.Pow(c.Hz[j+dir]/c.Hz[j], t), true
		}
	}
	return 0, false
}
