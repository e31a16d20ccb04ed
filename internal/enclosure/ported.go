package enclosure

import (
	"math"

	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// Names of ports, for sentences and for Vent.
const (
	frontPort = "front port"
	rearPort  = "rear port"
)

// portedChamber is a chamber with the port that tunes it, not yet joined.
type portedChamber struct {
	name string
	door network.Door
	cab  float64
	port portSize
}

// ported adds a chamber of litres that the port tunes. beyond is the mass
// (kg/m4) of air outside the port's mouth that counts in its tuning.
func ported(s Setting, j *job.Port, name string, litres, lining, qa, beyond float64) (portedChamber, error) {
	port, err := makePort(j, name, s.Air, litres*1e-3, lining, beyond)
	if err != nil {
		return portedChamber{}, err
	}
	cab := network.Compliance(s.Air, litres*1e-3, lining)
	return portedChamber{name, chamber(s, cab, qa, port.tuningHz), cab, port}, nil
}

// leak joins the chamber to the world through RL at its tuning.
func (c portedChamber) leak(s Setting, to network.Door, ql float64) []network.LinkID {
	return leak(s, c.door, to, ql, c.port.tuningHz, c.cab)
}

// addPort joins a chamber to a door through its port: end correction, duct,
// end correction, with the extra loss RP = 1/(w0 Cab QP) at the outer mouth.
func addPort(s Setting, c portedChamber, outer network.Door) Vent {
	p := c.port
	duct := s.Net.AddBody(p.duct(s.Air))
	endMass := func(correction float64) float64 { return s.Air.Density * correction / p.area }
	var rp float64
	if p.qp > 0 {
		rp = 1 / (2 * math.Pi * p.tuningHz * c.cab * p.qp)
	}
	s.Net.Join(c.door, network.Door{Body: duct, Index: 0},
		network.Inertance{Mass: endMass(p.innerEnd)})
	mouth := s.Net.Join(network.Door{Body: duct, Index: 1}, outer,
		network.Inertance{Mass: endMass(p.outerEnd), Resistance: rp})
	return Vent{Name: c.name, Mouth: mouth, Area: p.area, LengthM: p.length, TuningHz: p.tuningHz}
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
