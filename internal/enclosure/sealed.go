package enclosure

import (
	"math"

	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

func init() { register(Kind{Key: "sealed", Name: "Sealed", assemble: sealed}) }

// sealed is a cone between a chamber and the world, with the chamber's leak.
// Losses refer to fc = fs sqrt(1 + Cas/Cab).
func sealed(s Setting, u Unit, b job.Box) (Parts, error) {
	cab := network.Compliance(s.Air, b.NetL*1e-3, b.Lining)
	fc := u.Resonance() * math.Sqrt(1+u.AcousticCompliance()/cab)
	rear, cab := chamber(s, b.NetL, b.Lining, b.QA, fc)
	front := s.World.Mouth(s.At, u.Area)
	p := Parts{SystemHz: fc}
	p.Cone, p.Mesh = drive(s, u, rear, front)
	p.Radiating = append(leak(s, rear, front, b.QL, fc, cab), p.Cone)
	return p, nil
}
