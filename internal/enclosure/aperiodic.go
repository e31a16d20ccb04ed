package enclosure

import (
	"errors"
	"math"

	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

func init() {
	register(Kind{Key: "aperiodic", Name: "Resistive vent", Reads: []string{"net_l", "lining", "ql", "qa", "vent", "isobaric", "between_l"}, assemble: aperiodic})
}

// aperiodic is a closed box with a hole that a mat covers: the specific flow
// resistance of the mat over its area, and the mass of the air at both sides
// of the hole, each the end correction of a round hole in a wide wall. Losses
// refer to fc of the box with the hole shut.
func aperiodic(s Setting, u Unit, b job.Box) (Parts, error) {
	if b.Vent == nil || !(b.Vent.AreaCM2 > 0) || !(b.Vent.Resistance > 0) {
		return Parts{}, errors.New("the aperiodic vent is missing: give its area and the flow resistance of its mat")
	}
	cab := network.Compliance(s.Air, b.NetL*1e-3, b.Lining)
	fc := u.inClosed(cab)
	rear := chamber(s, cab, b.QA, fc)
	out := s.outlet(outsideOf(b), u.Area)
	p := drive(s, u, rear, out.door)
	p.SystemHz = fc
	area := b.Vent.AreaCM2 * 1e-4
	end := network.FlangedEnd * math.Sqrt(area/math.Pi)
	mat := s.Net.Join(rear, out.beside(u.Area, area), network.Inertance{
		Mass: s.Air.Density * 2 * end / area, Resistance: b.Vent.Resistance / area,
	})
	p.radiates(out, append(leak(s, rear, out.door, b.QL, fc, cab), p.Cone, mat)...)
	return p, nil
}
