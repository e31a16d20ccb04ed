package enclosure

import (
	"errors"
	"math"

	"bootfloor/internal/network"
)

// drive adds the cone between two doors, with its motor.
func drive(s Setting, u Unit, rear, front network.Door) Parts {
	if u.isobaric {
		return drivePair(s, u, rear, front)
	}
	cone := s.Net.Join(rear, front, network.Mechanical{
		Mass: u.Mass, Compliance: u.Compliance, Resistance: u.Resistance, Area: u.Area,
	})
	mesh := s.Net.AddMesh(u.Channel, u.Electrical)
	s.Net.Couple(mesh, cone, u.Bl/u.Area)
	return Parts{Cone: cone, ConeArea: u.Area, Cones: []Moving{{cone, u.Area}}, Mesh: mesh}
}

// BetweenDepth is the mean distance between the two cones of an isobaric pair
// in radii of one: two frames face to face on a ring. Assumed where the air
// between them is not stated.
const BetweenDepth = 0.6

// paired returns the unit with half its drivers behind the other half: all of
// the mass, stiffness and force on half the area. Mounting one of each pair
// the other way round and swapping its terminals (push-pull) changes nothing
// in a linear model: it cancels even-order distortion, which is not in it.
// between is the air between the cones of one pair, m3; 0 where not stated.
func (u Unit) paired(between float64) (Unit, error) {
	n := u.Series * u.Parallel
	if n > 0 && n%2 != 0 {
		return u, errors.New("an isobaric box holds its drivers in pairs, one behind the other: wire an even number of them, such as two in parallel or two in series")
	}
	u.isobaric = true
	u.Area /= 2
	pairs := float64(max(1, n/2))
	if between == 0 {
		one := u.Area / pairs
		between = one * BetweenDepth * math.Sqrt(one/math.Pi)
	}
	u.between = pairs * between
	return u, nil
}

// drivePair adds two cones with a small chamber between. Where strings of
// drivers can be halved, every current flows through the inner and the outer
// drivers alike. Where only whole strings can, inner and outer are in
// parallel, and a second current can run round the two without the amplifier
// seeing it, driven by the difference of their speeds:
//
//	I_outer = I/2 + J, I_inner = I/2 - J, 0 = 4 Zcoils J + Bl (v_outer - v_inner)
//
// with Zcoils and Bl as seen from the common terminals.
func drivePair(s Setting, u Unit, rear, front network.Door) Parts {
	between := s.Net.AddChamber(network.Chamber{Compliance: network.Compliance(s.Air, u.between, 0)})
	half := network.Mechanical{
		Mass: u.Mass / 2, Compliance: 2 * u.Compliance, Resistance: u.Resistance / 2, Area: u.Area,
	}
	inner := s.Net.Join(rear, between, half)
	outer := s.Net.Join(between, front, half)
	mesh := s.Net.AddMesh(u.Channel, u.Electrical)
	s.Net.Couple(mesh, inner, u.Bl/2/u.Area)
	s.Net.Couple(mesh, outer, u.Bl/2/u.Area)
	if coils := u.Coils; coils != nil && u.Series%2 != 0 && u.Parallel > 1 {
		loop := s.Net.AddLoop(network.BranchFunc(func(w float64) complex128 { return 4 * coils.Impedance(w) }))
		s.Net.Couple(loop, outer, u.Bl/u.Area)
		s.Net.Couple(loop, inner, -u.Bl/u.Area)
	}
	return Parts{Cone: outer, ConeArea: u.Area, Cones: []Moving{{outer, u.Area}, {inner, u.Area}}, Mesh: mesh}
}

// Sag returns how far gravity pulls a cone of resonance fs (Hz) off its rest
// when it fires straight up or down, m: g/(2 pi fs)^2.
func Sag(fs float64) float64 {
	const g = 9.80665 // m/s2, standard gravity, ISO 80000-3
	w := 2 * math.Pi * fs
	return g / (w * w)
}
