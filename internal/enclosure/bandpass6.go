package enclosure

import "bootfloor/internal/job"

func init() {
	reads := []string{"net_l", "front_l", "lining", "ql", "qa", "port", "front", "isobaric", "between_l"}
	register(Kind{Key: "bandpass6_parallel", Name: "Band-pass, sixth order, both chambers open",
		Reads: reads, assemble: func(s Setting, u Unit, b job.Box) (Parts, error) { return bandpass6(s, u, b, false) }})
	register(Kind{Key: "bandpass6_series", Name: "Band-pass, sixth order, one chamber through the other",
		Reads: reads, assemble: func(s Setting, u Unit, b job.Box) (Parts, error) { return bandpass6(s, u, b, true) }})
}

// bandpass6 is a cone between two chambers with a port each. In the parallel
// kind both ports open to the world, on one face; in the series kind the rear
// chamber's port opens into the front chamber. Both chambers leak to the
// world. The tuning of each is that of its own port, whatever it opens into
// held still.
func bandpass6(s Setting, u Unit, b job.Box, series bool) (Parts, error) {
	area, err := mouthArea(b.Front, frontPort)
	if err != nil {
		return Parts{}, err
	}
	out := s.outlet(outsideOf(b), area)
	front, err := ported(s, b.Front, frontPort, b.FrontL, 0, b.QA, out.gapMass())
	if err != nil {
		return Parts{}, err
	}
	mass := out.gapMass()
	if series {
		mass = 0
	}
	rear, err := ported(s, b.Port, rearPort, b.NetL, b.Lining, b.QA, mass)
	if err != nil {
		return Parts{}, err
	}
	p := drive(s, u, rear.door, front.door)
	p.SystemHz = front.port.tuningHz
	mouth := addPort(s, front, out.door)
	p.radiates(out, append(append(rear.leak(s, out.door, b.QL), front.leak(s, out.door, b.QL)...), mouth.Mouth)...)
	if series {
		p.Vents = []Vent{mouth, addPort(s, rear, front.door)}
		return p, nil
	}
	other := addPort(s, rear, out.beside(area, rear.port.area))
	p.Vents = []Vent{mouth, other}
	p.radiates(out, other.Mouth)
	return p, nil
}
