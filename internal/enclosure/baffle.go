package enclosure

import "bootfloor/internal/job"

func init() {
	register(Kind{Key: "infinite_baffle", Name: "Infinite baffle", Reads: []string{"isobaric", "between_l"}, assemble: infiniteBaffle})
}

// infiniteBaffle is a cone in a wall between the listeners' world and what
// lies behind it: the boot under a shelf or behind a seat back.
func infiniteBaffle(s Setting, u Unit, b job.Box) (Parts, error) {
	rear := s.World.Behind(s.At, u.Area)
	out := s.outlet(outsideOf(b), u.Area)
	p := drive(s, u, rear, out.door)
	p.SystemHz = u.Resonance()
	p.radiates(out, p.Cone)
	return p, nil
}
