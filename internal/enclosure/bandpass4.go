package enclosure

import (
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

func init() {
	register(Kind{Key: "bandpass4", Name: "Band-pass, fourth order",
		Reads: []string{"net_l", "front_l", "lining", "ql", "qa", "front", "isobaric", "between_l"}, assemble: bandpass4})
}

// bandpass4 is a cone between a closed chamber and one with a port; only the
// port, and what leaks, is heard. Losses of the rear chamber refer to the
// cone's resonance on it, those of the front one to its tuning.
func bandpass4(s Setting, u Unit, b job.Box) (Parts, error) {
	area, err := mouthArea(b.Front, frontPort)
	if err != nil {
		return Parts{}, err
	}
	out := s.outlet(outsideOf(b), area)
	front, err := ported(s, b.Front, frontPort, b.FrontL, 0, b.QA, out.gapMass())
	if err != nil {
		return Parts{}, err
	}
	cab := network.Compliance(s.Air, b.NetL*1e-3, b.Lining)
	fc := u.inClosed(cab)
	rear := chamber(s, cab, b.QA, fc)
	p := drive(s, u, rear, front.door)
	p.SystemHz = front.port.tuningHz
	vent := addPort(s, front, out.door)
	p.Vents = []Vent{vent}
	p.radiates(out, append(leak(s, rear, out.door, b.QL, fc, cab), front.leak(s, out.door, b.QL)...)...)
	p.radiates(out, vent.Mouth)
	return p, nil
}
