package enclosure

import "bootfloor/internal/job"

func init() {
	register(Kind{Key: "vented", Name: "Vented", Reads: []string{"net_l", "lining", "ql", "qa", "port", "isobaric", "between_l"}, assemble: vented})
}

// vented is a cone and a port between a chamber and the world, on one face.
// Losses refer to fb.
func vented(s Setting, u Unit, b job.Box) (Parts, error) {
	out := s.outlet(outsideOf(b), u.Area)
	rear, err := ported(s, b.Port, "port", b.NetL, b.Lining, b.QA, out.gapMass())
	if err != nil {
		return Parts{}, err
	}
	p := drive(s, u, rear.door, out.door)
	p.SystemHz = rear.port.tuningHz
	vent := addPort(s, rear, out.beside(u.Area, rear.port.area))
	p.Vents = []Vent{vent}
	p.radiates(out, append(rear.leak(s, out.door, b.QL), p.Cone, vent.Mouth)...)
	return p, nil
}
