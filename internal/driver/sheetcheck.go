package driver

import (
	"fmt"
	"math"

	"bootfloor/internal/air"
)

// finish sorts the readings to their models and checks each against the rest.
func (r *sheetReader) finish() {
	if len(r.names) == 0 {
		r.names = []string{""}
	}
	for n, name := range r.names {
		m := Model{Name: name, Readings: append([]Reading(nil), r.read[n]...)}
		for _, common := range r.read[-1] {
			if len(r.names) > 1 && common.Sure {
				common.Sure, common.Why = false, "stated once for several models"
			}
			m.Readings = append(m.Readings, common)
		}
		m.check()
		r.sheet.Models = append(r.sheet.Models, m)
	}
	empty := true
	for _, m := range r.sheet.Models {
		empty = empty && len(m.Readings) == 0
	}
	if empty {
		r.sheet.Notes = append(r.sheet.Notes, "No value was found. Paste the lines that hold names such as Fs, Qts, Vas and Re with their figures.")
	}
}

// check compares the readings of a model with one another.
func (m *Model) check() {
	m.repeated()
	m.sensible()
	m.consistent()
	m.level()
}

// repeated doubts values that stand twice and differ.
func (m *Model) repeated() {
	first := map[Key]int{}
	var out []Reading
	for _, r := range m.Readings {
		j, seen := first[r.Key]
		if !seen {
			first[r.Key] = len(out)
			out = append(out, r)
			continue
		}
		if math.Abs(r.Value/out[j].Value-1) < 0.03 {
			if r.Sure && !out[j].Sure {
				out[j] = r
			}
			continue
		}
		if !r.Sure && out[j].Sure && (r.Key == KeySd || r.weak) {
			continue // the area itself and a diameter that is not quite it; a remark
		}
		if r.Sure && out[j].weak {
			out[j] = r
			continue
		}
		if r.Sure == out[j].Sure || r.Sure {
			for _, p := range []*Reading{&out[j], &r} {
				if p.Sure {
					p.Sure, p.Why = false, "stated more than once, and not alike"
				}
			}
		}
		out = append(out, r)
	}
	m.Readings = out
}

// sensible doubts values that no car loudspeaker has.
func (m *Model) sensible() {
	for i := range m.Readings {
		r := &m.Readings[i]
		q, ok := quantityByKey[r.Key]
		if !ok {
			continue
		}
		if math.IsNaN(r.Value) || math.IsInf(r.Value, 0) || r.Value <= 0 {
			r.Value, r.Sure, r.Why = 0, false, "it is not more than zero"
			continue
		}
		if r.Value < q.Low || r.Value > q.High {
			r.Sure, r.loose = false, false
			r.Why = fmt.Sprintf("%s is outside what car loudspeakers have (%s to %s); check the unit", r.Key.write(r.Value), figures(q.Low), r.Key.write(q.High))
		}
	}
	out := m.Readings[:0]
	for _, r := range m.Readings {
		if r.Value > 0 || r.Key == keySensitivity {
			out = append(out, r)
		}
	}
	m.Readings = out
}

// consistent lets Derive judge the set: what it contradicts is doubted, and a
// unit that was assumed is confirmed where the other values need that very one.
func (m *Model) consistent() {
	stated := Stated{Values: map[Key]float64{}}
	at := map[Key]int{}
	double := map[Key]bool{}
	for i, r := range m.Readings {
		if _, seen := at[r.Key]; seen {
			double[r.Key] = true
			continue
		}
		at[r.Key] = i
	}
	for k, i := range at {
		r := m.Readings[i]
		if k == keySensitivity || double[k] {
			continue
		}
		// Values of another meaning only take part when nothing better is there.
		if !r.Sure && !r.loose {
			continue
		}
		stated.Values[k] = r.Value
	}
	_, findings, err := Derive(stated, air.MustStandard())
	doubted := map[Key]bool{}
	doubtAt := func(k Key, why string) {
		doubted[k] = true
		if i, ok := at[k]; ok && m.Readings[i].Sure {
			m.Readings[i].Sure, m.Readings[i].Why = false, why
		}
	}
	clash := false
	for _, f := range findings {
		if f.Level == LevelNote {
			continue
		}
		m.Findings = append(m.Findings, f)
		switch {
		case f.Expected != 0:
			clash = true
			say := f.Say
			if slip := unitSlip(f.Key, f.Entered/f.Expected); slip != "" {
				say += " " + slip
				m.Findings[len(m.Findings)-1].Say = say
			}
			for _, k := range m.blame(f, at) {
				doubtAt(k, say)
			}
		case len(f.Suspects) > 0:
			for _, k := range f.Suspects {
				doubtAt(k, f.Say)
			}
		case f.Key != "":
			doubtAt(f.Key, f.Say)
		}
	}
	if err != nil || clash {
		return
	}
	for k, i := range at {
		r := &m.Readings[i]
		if r.loose && !r.Sure && !double[k] && !doubted[k] && confirmed(stated, k) {
			r.Sure, r.Why = true, ""
			r.Note = "no unit is stated; the other values confirm " + quantityByKey[k].Unit
		}
	}
}

// blame lists the readings that a disagreement casts doubt on: the suspects, of
// these only those whose unit was assumed where there are such; without suspects
// all that take part.
func (m *Model) blame(f Finding, at map[Key]int) []Key {
	if len(f.Suspects) == 0 {
		return append([]Key{f.Key}, f.From...)
	}
	var assumed []Key
	for _, k := range f.Suspects {
		if i, ok := at[k]; ok && m.Readings[i].loose {
			assumed = append(assumed, k)
		}
	}
	if len(assumed) > 0 {
		return assumed
	}
	return f.Suspects
}

// confirmed tells whether the other stated values fix the one of the key by
// themselves, so that an agreement is a check.
func confirmed(s Stated, k Key) bool {
	i, ok := smallIndex(k)
	if !ok {
		return false
	}
	known := mask(0)
	for j, other := range smallKeys {
		if _, have := s.Values[other]; have && j != i {
			known |= bit(j)
		}
	}
	return closure(known).has(i)
}

// unitSlip recognises the ratio of two units.
func unitSlip(k Key, ratio float64) string {
	if ratio <= 0 {
		return ""
	}
	near := func(x float64) bool { return math.Abs(ratio/x-1) < 0.06 || math.Abs(ratio*x-1) < 0.06 }
	switch {
	case k == KeyVas && near(28.3168):
		return "The ratio is that of cubic feet to litres."
	case k == KeySd && near(6.4516):
		return "The ratio is that of square inches to square centimetres."
	case near(10), near(100), near(1000):
		return "The ratio is a power of ten, as of a wrong unit or a lost mark."
	}
	return ""
}

// level compares the stated sensitivity with the one that the values give.
func (m *Model) level() {
	for _, r := range m.Readings {
		if r.Key == keySensitivity {
			m.SensitivityDB = r.Value
			break
		}
	}
	out := m.Readings[:0]
	for _, r := range m.Readings {
		if r.Key != keySensitivity {
			out = append(out, r)
		}
	}
	m.Readings = out
	if m.SensitivityDB == 0 {
		return
	}
	stated := Stated{Values: map[Key]float64{}}
	for _, r := range m.Readings {
		if r.Sure {
			stated.Values[r.Key] = r.Value
		}
	}
	standard := air.MustStandard()
	d, _, err := Derive(stated, standard)
	if err != nil {
		return
	}
	watt, volts := d.Sensitivity(standard), d.SensitivityAt(2.83, standard)
	if m.SensitivityDB < math.Min(watt, volts)-3 || m.SensitivityDB > math.Max(watt, volts)+3 {
		m.Findings = append(m.Findings, Finding{Level: LevelNote, Say: fmt.Sprintf(
			"The sheet states %s dB; its other values give %s dB for 1 W and %s dB for 2.83 V at 1 m. The stated figure may be in a car or at another frequency.",
			figures(m.SensitivityDB), figures(watt), figures(volts))})
	}
}
