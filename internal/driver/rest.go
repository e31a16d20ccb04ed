package driver

import (
	"fmt"
	"math"
)

// checkRanges refuses values that no loudspeaker has and doubts those that a
// wrong unit would give.
func checkRanges(s Stated) ([]Finding, error) {
	var out []Finding
	var first error
	for _, q := range quantities {
		v, ok := s.Values[q.Key]
		if !ok {
			continue
		}
		say := ""
		level := LevelError
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			say = fmt.Sprintf("%s is not a number: enter the %s in %s.", q.Label, q.Name, unitWord(q))
		case q.Key == KeyPrice || q.Key == KeyCoils:
			say = checkCount(q, v)
		case v <= 0:
			say = fmt.Sprintf("%s is %s: it must be more than zero, or left empty.", q.Label, figures(v))
		case v < q.Low/1000 || v > q.High*1000 || (q.Key == KeySemiN && v > 1):
			say = fmt.Sprintf("%s of %s is not possible: a car loudspeaker has %s to %s. Check the unit.",
				q.Label, q.Key.write(v), figures(q.Low), q.Key.write(q.High))
		case v < q.Low || v > q.High:
			level = LevelWarning
			say = fmt.Sprintf("%s of %s is unusual: car loudspeakers have %s to %s. Check the unit.",
				q.Label, q.Key.write(v), figures(q.Low), q.Key.write(q.High))
		}
		if say == "" {
			continue
		}
		out = append(out, Finding{Key: q.Key, Level: level, Say: say})
		if level == LevelError && first == nil {
			first = &Error{q.Key, say}
		}
	}
	return out, first
}

func checkCount(q Quantity, v float64) string {
	if q.Key == KeyCoils && (v != math.Trunc(v) || v < q.Low || v > q.High) {
		return fmt.Sprintf("Coils is %s: a driver has 1, 2 or 4 voice coils.", figures(v))
	}
	if v < 0 || v > 1e9 {
		return fmt.Sprintf("%s is %s: it must not be negative or absurd.", q.Label, figures(v))
	}
	return ""
}

func unitWord(q Quantity) string {
	if q.Unit == "" {
		return "plain figures"
	}
	return q.Unit
}

// fillRest takes over what needs no derivation, and says what is lacking.
func (d *Driver) fillRest(s Stated) []Finding {
	si := func(k Key) float64 { return s.Values[k] * quantityByKey[k].SI }
	d.Xmax, d.PowerW, d.SizeIn = si(KeyXmax), si(KeyPower), si(KeySize)
	d.Depth, d.CutOut, d.Outside = si(KeyDepth), si(KeyCutOut), si(KeyOutside)
	d.Volume, d.Mass, d.Price = si(KeyVolume), si(KeyMass), si(KeyPrice)
	d.Coils, d.CoilOhm = max(1, int(si(KeyCoils))), si(KeyCoilOhm)

	var out []Finding
	note := func(k Key, level Level, say string) {
		out = append(out, Finding{Key: k, Level: level, Say: say})
	}
	d.Coil = Coil{Le: si(KeyLe), L2: si(KeyL2), R2: si(KeyR2), K: si(KeySemiK), N: si(KeySemiN)}
	if (d.Coil.K > 0) != (d.Coil.N > 0) {
		note(KeySemiK, LevelWarning, "The semi-inductance wants both K and n; with one of them alone it is not used.")
		d.Coil.K, d.Coil.N = 0, 0
	}
	if (d.Coil.L2 > 0) != (d.Coil.R2 > 0) {
		note(KeyL2, LevelWarning, "The lossy coil wants both L2 and R2; with one of them alone it is not used.")
		d.Coil.L2, d.Coil.R2 = 0, 0
	}
	switch {
	case d.Coil.K > 0 && d.Coil.Le > 0:
		note(KeyLe, LevelNote, "The semi-inductance K and n describes the whole coil, so Le is not used beside it.")
		d.Coil.Le, d.Coil.L2, d.Coil.R2 = 0, 0, 0
	case d.Coil.Model() == CoilNone:
		note(KeyLe, LevelNote, "No coil inductance is stated: taken as none, which shows too much level above about 80 Hz for a long coil.")
	}
	if d.Xmax == 0 {
		note(KeyXmax, LevelNote, "No Xmax is stated, so nothing can be said about where the cone runs out.")
	}
	if d.PowerW == 0 {
		note(KeyPower, LevelNote, "No power rating is stated, so nothing can be said about when the coil gets too hot.")
	}
	if f, ok := d.checkArea(); ok {
		out = append(out, f)
	}
	return append(out, d.checkCoils()...)
}

// checkArea compares the cone area with the nominal size: the piston reaches to
// about the middle of the surround, which is 0.75 to 0.9 of the nominal diameter
// (common practice, no source; a wide reading is used).
func (d Driver) checkArea() (Finding, bool) {
	if d.SizeIn == 0 {
		return Finding{}, false
	}
	across := 2 * math.Sqrt(d.Sd/math.Pi) / (d.SizeIn * 0.0254)
	if across >= 0.65 && across <= 1 {
		return Finding{}, false
	}
	return Finding{Key: KeySd, Level: LevelWarning, Say: fmt.Sprintf(
		"Sd of %s is a cone %.0f mm across, which does not go with a %s inch driver. Check the unit and the size.",
		KeySd.write(d.Sd/1e-4), 2e3*math.Sqrt(d.Sd/math.Pi), figures(d.SizeIn))}, true
}
