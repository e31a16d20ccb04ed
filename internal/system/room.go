package system

import (
	"bootfloor/internal/cavity"
	"bootfloor/internal/network"
)

// room is one cavity as a body of the network. Mouths and ears are registered
// while the network is put together; the impedances between them are looked up
// when it is complete.
type room struct {
	id      network.BodyID
	shape   cavity.Shape
	loss    cavity.Absorption
	patches []cavity.Patch
	field   *cavity.Field
	table   *cavity.Transfer
	// scale multiplies the table: V/Vair where boxes have taken air, and the
	// factor of a car that is a little larger than its tape readings.
	scale float64
}

func addRoom(n *network.Network, shape cavity.Shape, loss cavity.Absorption) *room {
	r := &room{shape: shape, loss: loss, scale: 1}
	r.id = n.AddBody(r)
	return r
}

// Doors implements network.Body.
func (r *room) Doors() int { return len(r.patches) }

// Impedance implements network.Body from the table.
func (r *room) Impedance(k int, _ float64, z []complex128) {
	c := complex(r.scale, 0)
	for i, v := range r.table.Matrix(k) {
		z[i] = v * c
	}
}

func (r *room) add(p cavity.Patch) network.Door {
	r.patches = append(r.patches, p)
	return network.Door{Body: r.id, Index: len(r.patches) - 1}
}

// point makes a place of the document one of the cavity.
func point(xMM, yMM, zMM float64) cavity.Point {
	return cavity.Point{X: xMM * 1e-3, Y: yMM * 1e-3, Z: zMM * 1e-3}
}
