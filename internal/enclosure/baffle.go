package enclosure

import "bootfloor/internal/job"

func init() {
	register(Kind{Key: "infinite_baffle", Name: "Infinite baffle", assemble: infiniteBaffle})
}

// infiniteBaffle is a cone in a wall between the listeners' world and what
// lies behind it: the boot under a shelf or behind a seat back.
func infiniteBaffle(s Setting, u Unit, b job.Box) (Parts, error) {
	rear := s.World.Behind(s.At, u.Area)
	front := s.World.Mouth(s.At, u.Area)
	p := Parts{SystemHz: u.Resonance()}
	p.Cone, p.Mesh = drive(s, u, rear, front)
	p.Radiating = append(p.Radiating, p.Cone)
	return p, nil
}
