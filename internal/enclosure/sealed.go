package enclosure

import (
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

func init() {
	register(Kind{Key: "sealed", Name: "Sealed", Reads: []string{"net_l", "lining", "ql", "qa", "isobaric", "between_l"}, assemble: sealed})
}

// sealed is a cone between a chamber and the world, with the chamber's leak.
// Losses refer to fc = fs sqrt(1 + Cas/Cab).
func sealed(s Setting, u Unit, b job.Box) (Parts, error) {
	cab := network.Compliance(s.Air, b.NetL*1e-3, b.Lining)
	fc := u.inClosed(cab)
	rear := chamber(s, cab, b.QA, fc)
	out := s.outlet(outsideOf(b), u.Area)
	p := drive(s, u, rear, out.door)
	p.SystemHz = fc
	p.radiates(out, append(leak(s, rear, out.door, b.QL, fc, cab), p.Cone)...)
	return p, nil
}
