package enclosure

import (
	"math"

	"bootfloor/internal/network"
)

// Parts says where in the network the moving things are.
type Parts struct {
	Cone     network.LinkID // positive flow: cone moves out of the rear chamber
	ConeArea float64        // of Cone, m2
	// Cones lists every cone with its area: one for most boxes, two for an
	// isobaric one, of which Cone is the outer.
	Cones []Moving
	Mesh  network.MeshID // its current is that of all drivers together
	Vents []Vent
	// Passive is the flow of all passive radiators as one, over PassiveArea.
	Passive *network.LinkID
	// PassiveArea is the area of all passive radiators, m2.
	PassiveArea float64
	// NotchHz is the passive radiators' own resonance with their added mass,
	// at which nothing is heard; 0 without.
	NotchHz float64
	// Radiating lists every link that feeds the listeners' world.
	Radiating []network.LinkID
	// SystemHz is the resonance that the losses refer to: fc of a closed box,
	// fb of a tuned one (the front chamber's of a band-pass), the first
	// resonance of a line, fs in a baffle.
	SystemHz float64
	// Gap is the space that the box fires into; nil where Place names none.
	Gap *Gap
	// SagM is how far the cones hang from their rest by their own weight when
	// they fire up or down, m; 0 otherwise.
	SagM float64
	// PassiveSagM is the same of the passive radiators, on the same face.
	PassiveSagM float64
}

// Moving is a cone.
type Moving struct {
	Link network.LinkID
	Area float64 // m2
}

// Vent is a port in the assembled network: the flow through it is that of
// link Mouth, over Area.
type Vent struct {
	Name     string // "port", "front port", "rear port", "mouth"
	Mouth    network.LinkID
	Area     float64 // of all alike ports together, m2
	LengthM  float64 // physical length of one along its centre line, m
	TuningHz float64 // with its chamber, the far side held still
}

// outlet is what the cone and the mouths beside it open into: the world, or
// the gap before it.
type outlet struct {
	setting Setting
	door    network.Door
	gap     *Gap
	link    network.LinkID // out of the gap
}

// outlet opens a box to the world at its place with an area (m2): of its cone,
// or of its port where no cone is seen.
func (s Setting) outlet(box outside, area float64) outlet {
	o := outlet{setting: s, door: s.World.Mouth(s.At, area)}
	if g := newGap(s.At, box, area, s.Air); g != nil {
		o.gap = g
		// The air under the cone; a gap higher than the cone is wide confines
		// no more of it.
		volume := area * math.Min(g.HeightM, g.InnerM)
		under := s.Net.AddChamber(network.Chamber{Compliance: network.Compliance(s.Air, volume, 0)})
		o.link = s.Net.Join(under, o.door, g)
		o.door = under
	}
	return o
}

// beside returns the door for a mouth next to the cone on the same face.
func (o outlet) beside(cone, port float64) network.Door {
	if o.gap != nil {
		return o.door
	}
	return o.setting.World.Mouth(beside(o.setting.At, cone, port), port)
}

// gapMass returns the mass (kg/m4) of the air in the gap.
func (o outlet) gapMass() float64 {
	if o.gap == nil {
		return 0
	}
	return o.gap.MassKgM4
}

// radiates records links that open into the outlet.
func (p *Parts) radiates(o outlet, links ...network.LinkID) {
	if o.gap != nil {
		p.Gap = o.gap
		p.Radiating = []network.LinkID{o.link}
		return
	}
	p.Radiating = append(p.Radiating, links...)
}
