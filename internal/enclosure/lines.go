package enclosure

import (
	"slices"

	"bootfloor/internal/air"
	"bootfloor/internal/network"
)

// Lines remembers the lines last built. A job is solved in the car and in the
// open, and again for every change beside the box; with it the pieces of a line
// are worked out once. The zero value is ready; nil remembers nothing. Not safe
// for concurrent use.
type Lines struct{ last []*tunedLine }

// tunedLine is a line with its lowest resonance, Hz, and what they follow from.
type tunedLine struct {
	air            air.Properties
	toward, behind []network.Section
	endMass        float64

	line *network.Line
	hz   float64
}

// of returns a line, from memory where it can.
func (l *Lines) of(a air.Properties, toward, behind []network.Section, endMass float64) *tunedLine {
	const most = 4 // more boxes with lines than a car holds
	if l != nil {
		for _, t := range l.last {
			if t.air == a && t.endMass == endMass && slices.Equal(t.toward, toward) && slices.Equal(t.behind, behind) {
				return t
			}
		}
	}
	t := &tunedLine{
		air: a, toward: toward, behind: behind, endMass: endMass,
		line: network.NewLine(a, toward, behind),
		hz:   lineResonance(a, toward, behind, endMass),
	}
	if l != nil {
		if len(l.last) == most {
			l.last = l.last[1:]
		}
		l.last = append(l.last, t)
	}
	return t
}
