package advise

import (
	"fmt"
	"math"
)

// What is worth telling: half a decibel, as the ear just tells two levels of
// bass apart, or a twentieth of the reach. More than three decibels lost to
// free a limit is a poor trade. Common practice, no source.
const (
	noiseDB    = 0.5
	noiseReach = 0.05
	dearDB     = 3
)

// protects tells whether a change only keeps a limit from being met, so that
// it need not gain anything.
func (r Remedy) protects() bool { return r.Key == "high_pass" || r.Key == "less_power" }

// gain returns the most (dB) that the level gains where a limit binds.
func (m *mender) gain(b *Binding, after state) float64 {
	most := math.Inf(-1)
	for k, f := range after.hz {
		if f >= b.FromHz && f <= b.ToHz && k < len(m.base.top) {
			most = math.Max(most, after.top[k]-m.base.top[k])
		}
	}
	return most
}

// worthwhile leaves out the remedies that nobody would hear, and those that
// cost too much level unless nothing else frees the limit.
func (b *Binding) worthwhile() {
	all := b.Remedies
	b.Remedies = []Remedy{}
	var dear []Remedy
	for _, r := range all {
		heard := r.gainDB >= noiseDB || r.LevelDB >= noiseDB || r.gainReach >= noiseReach || r.protects() && b.LostDB >= noiseDB
		switch {
		case r.LevelDB < -dearDB:
			dear = append(dear, r)
		case heard:
			b.Remedies = append(b.Remedies, r)
		}
	}
	switch {
	case len(b.Remedies) > 0:
	case len(all) == 0:
		b.Say += " No single change frees it: it takes another driver, another box or less to ask."
	case len(dear) == len(all):
		r := dear[0] // the cheapest
		r.Say += " Nothing that costs less level frees it: it does so by playing softer."
		b.Remedies = append(b.Remedies, r)
	case len(dear) > 0:
		b.Say += fmt.Sprintf(" What would free it changes too little to hear, or costs more than %d dB.", dearDB)
	default:
		b.Say += " What would free it changes too little to hear."
	}
}
