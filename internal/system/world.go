package system

import (
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// world is a space that boxes are put into and that ears hear.
type world interface {
	Mouth(at job.Place, area float64) network.Door
	Behind(at job.Place, area float64) network.Door
	// finish adds the ears as probes, in the order of the seats, and completes
	// the bodies, so that the network can be solved.
	finish(seats []job.Seat) []job.Finding
	derived() CabinDerived
}

// freeWorld is the open half space of a data sheet: mouths meet still air, and
// the level at a distance follows from the sum of the flows. The air that the
// cone carries is part of its moving mass already.
type freeWorld struct{ still network.Door }

func newFreeWorld(n *network.Network) freeWorld {
	return freeWorld{n.AddChamber(network.Still{})}
}

func (w freeWorld) Mouth(job.Place, float64) network.Door  { return w.still }
func (w freeWorld) Behind(job.Place, float64) network.Door { return w.still }
