package enclosure

import (
	"math"

	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

func init() { register(Kind{Key: "vented", Name: "Vented", assemble: vented}) }

// vented is a cone and a port between a chamber and the world. The port is a
// duct with an end correction at each mouth. Losses refer to fb.
func vented(s Setting, u Unit, b job.Box) (Parts, error) {
	port, err := makePort(b.Port, "port", s.Air, b.NetL*1e-3, b.Lining)
	if err != nil {
		return Parts{}, err
	}
	fb := port.tuningHz
	rear, cab := chamber(s, b.NetL, b.Lining, b.QA, fb)
	front := s.World.Mouth(s.At, u.Area)
	p := Parts{SystemHz: fb}
	p.Cone, p.Mesh = drive(s, u, rear, front)
	p.Radiating = append(leak(s, rear, front, b.QL, fb, cab), p.Cone)
	vent := addPort(s, port, rear, s.World.Mouth(beside(s.At, u.Area, port.area), port.area), cab)
	p.Vents = []Vent{vent}
	p.Radiating = append(p.Radiating, vent.Mouth)
	return p, nil
}

// addPort joins two doors through a port: end correction, duct, end
// correction, with the extra loss RP = 1/(w0 Cab QP) at the outer mouth.
func addPort(s Setting, p portSize, inner, outer network.Door, cab float64) Vent {
	duct := s.Net.AddBody(p.duct(s.Air))
	endM := func(corr float64) float64 { return s.Air.Density * corr / p.area }
	var rp float64
	if p.qp > 0 {
		rp = 1 / (2 * math.Pi * p.tuningHz * cab * p.qp)
	}
	s.Net.Join(inner, network.Door{Body: duct, Index: 0},
		network.Inertance{Mass: endM(p.innerEnd)})
	mouth := s.Net.Join(network.Door{Body: duct, Index: 1}, outer,
		network.Inertance{Mass: endM(p.outerEnd), Resistance: rp})
	return Vent{Mouth: mouth, Area: p.area, LengthM: p.length}
}

// beside places a port mouth next to the cone, clear of it, on the same face.
func beside(at job.Place, cone, port float64) job.Place {
	gap := 1000*(math.Sqrt(cone/math.Pi)+math.Sqrt(port/math.Pi)) + 60
	if at.YMM > 0 {
		gap = -gap
	}
	at.YMM += gap
	return at
}
