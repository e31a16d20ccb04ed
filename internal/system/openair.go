package system

import (
	"math"

	"bootfloor/internal/cavity"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// openWorld is a car with its roof off: no cavity, but sources and ears in the
// air above the road. Between two doors r apart the impedance is
// j w rho exp(-jkr)/(2 pi r), a simple source on a rigid plane; a door's own
// is its radiation resistance, because its mass is counted by the cone.
type openWorld struct {
	model  *model
	net    *network.Network
	id     network.BodyID
	still  network.Door
	points []cavity.Point
}

// nearest keeps two doors from coming closer than a speaker is wide, m.
const nearest = 0.15

func newOpenWorld(n *network.Network, m *model) *openWorld {
	w := &openWorld{model: m, net: n}
	w.id = n.AddBody(w)
	w.still = n.AddChamber(network.Still{})
	return w
}

// Doors implements network.Body.
func (w *openWorld) Doors() int { return len(w.points) }

// Impedance implements network.Body.
func (w *openWorld) Impedance(_ int, omega float64, z []complex128) {
	a := w.model.air
	k := omega / a.SpeedOfSound
	n := len(w.points)
	for i, p := range w.points {
		z[i*n+i] = complex(a.Density*omega*omega/(2*math.Pi*a.SpeedOfSound), 0)
		for j := range i {
			q := w.points[j]
			r := math.Max(nearest, math.Sqrt((p.X-q.X)*(p.X-q.X)+(p.Y-q.Y)*(p.Y-q.Y)+(p.Z-q.Z)*(p.Z-q.Z)))
			sin, cos := math.Sincos(k * r)
			g := complex(omega*a.Density/(2*math.Pi*r), 0) * complex(sin, cos)
			z[i*n+j], z[j*n+i] = g, g
		}
	}
}

func (w *openWorld) add(x, y, z float64) network.Door {
	w.points = append(w.points, point(x, y, z))
	return network.Door{Body: w.id, Index: len(w.points) - 1}
}

// Mouth implements enclosure.World.
func (w *openWorld) Mouth(at job.Place, _ float64) network.Door {
	return w.add(at.XMM, at.YMM, at.ZMM)
}

// Behind implements enclosure.World.
func (w *openWorld) Behind(job.Place, float64) network.Door { return w.still }

// finish implements world.
func (w *openWorld) finish(seats []job.Seat) []job.Finding {
	for _, s := range seats {
		w.net.Probe(w.add(s.XMM, s.YMM, s.ZMM))
	}
	return nil
}

// derived has nothing to tell of a car without a cavity.
func (w *openWorld) derived() CabinDerived { return CabinDerived{} }
