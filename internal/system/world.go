package system

import (
	"bootfloor/internal/cavity"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// freeWorld is the open half space of a data sheet: mouths meet still air, and
// the level at a distance follows from the sum of the flows. The air that the
// cone carries is part of its moving mass already.
type freeWorld struct{ still network.Door }

func newFreeWorld(n *network.Network) freeWorld {
	return freeWorld{n.AddChamber(network.Still{})}
}

func (w freeWorld) Mouth(job.Place, float64) network.Door  { return w.still }
func (w freeWorld) Behind(job.Place, float64) network.Door { return w.still }

// space is one cavity as a body of the network. Mouths and ears are registered
// while the network is put together; the table of impedances between them is
// looked up when it is complete.
type space struct {
	patches []cavity.Patch
	table   *cavity.Transfer
	// scale turns the empty cavity's impedance into that of one from which
	// seats, people and boxes have taken air: V/Vair.
	scale float64
}

// Doors implements network.Body.
func (s *space) Doors() int { return len(s.patches) }

// Impedance implements network.Body from the table.
func (s *space) Impedance(k int, _ float64, z []complex128) {
	row := s.table.Matrix(k)
	c := complex(s.scale, 0)
	for i, v := range row {
		z[i] = v * c
	}
}

func (s *space) add(id network.BodyID, p cavity.Patch) network.Door {
	s.patches = append(s.patches, p)
	return network.Door{Body: id, Index: len(s.patches) - 1}
}
