package advise

import (
	"fmt"
	"math"
)

// The tunings that a line may name, Hz.
const (
	lowestTuned  = 10
	highestTuned = 120
)

// tuned reads a tuning: "tuned to 35", "tuning 35 hz", "@35hz", "at 35 hz",
// "35 hz tuned".
func (p *parser) tuned() bool {
	n := 0
	said := tuningWords[p.word(0)]
	if said {
		n++
	}
	at := p.word(n) == "@" || p.word(n) == "at" || said && (p.word(n) == "to" || p.word(n) == "for" || p.word(n) == "frequency" || p.word(n) == "is")
	if at {
		n++
	}
	v, ok := p.number(n)
	if !ok {
		return false
	}
	sign := p.word(0) == "@"
	n++
	unit := p.word(n)
	hertz := unit == "hz" || unit == "hertz"
	if hertz {
		n++
	}
	_, another := p.number(n + 1) // which a word between belongs to
	after := hertz && tuningWords[p.word(n)] && !another
	if after {
		n++
	}
	switch {
	case hertz && (said || at || after):
	case said && volumeUnits[unit] == 0 && powerUnits[unit] == 0 && !inchUnits[unit]:
	case sign && v >= lowestTuned && v < 100 && volumeUnits[unit] == 0 && powerUnits[unit] == 0 && !inchUnits[unit] && !otherUnits[unit] && !isCubic(unit, p.word(n+1)):
	default:
		return false
	}
	if v < lowestTuned || v > highestTuned {
		p.at += n
		p.miss(p.at-n, p.at, fmt.Sprintf("Boxes are tuned to between %d and %d Hz.", lowestTuned, highestTuned))
		return true
	}
	v = math.Round(10*v) / 10
	why := ""
	if !hertz && !said {
		why = "A number after @: taken for a tuning in hertz."
	}
	return p.take(n, "tuning_hz", "tuned to "+trimmed(v)+" Hz", v, why)
}
