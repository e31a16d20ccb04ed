// Package enclosure turns a box type into branches of a network. A type is one
// file: it lists the chambers, cones, ports and leaks that it is made of and
// joins them; the solver in package network does the rest, the same for every
// type, in free air and in a car.
package enclosure

import (
	"fmt"
	"math"
	"sort"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// World is the space a box is put into.
type World interface {
	// Mouth returns the door that a cone, port or leak of the given area (m2)
	// opens into, at a place in the car.
	Mouth(at job.Place, area float64) network.Door
	// Behind returns the door behind a baffle at that place: the boot behind a
	// rear shelf, or the open air.
	Behind(at job.Place, area float64) network.Door
}

// Unit is the drivers of one box moving as one, SI.
type Unit struct {
	Mass       float64        // Mms of all, kg
	Compliance float64        // Cms of all, m/N
	Resistance float64        // Rms of all, N s/m
	Area       float64        // Sd of all, m2
	Bl         float64        // T m, as seen from the common terminals
	Electrical network.Branch // source, cable and coils in series, ohm
	Channel    int
}

// AcousticCompliance returns Cas = Cms Sd^2, m3/Pa.
func (u Unit) AcousticCompliance() float64 { return u.Compliance * u.Area * u.Area }

// Resonance returns fs, Hz.
func (u Unit) Resonance() float64 {
	return 1 / (2 * math.Pi * math.Sqrt(u.Mass*u.Compliance))
}

// Setting is what a box is assembled into.
type Setting struct {
	Net   *network.Network
	Air   air.Properties
	World World
	At    job.Place
}

// Vent is a port in the assembled network: the flow through it is that of
// link Mouth, over Area.
type Vent struct {
	Mouth   network.LinkID
	Area    float64 // of all alike ports together, m2
	LengthM float64 // physical length of one, m
}

// Parts says where in the network the moving things are.
type Parts struct {
	Cone    network.LinkID // positive flow: cone moves out of the rear chamber
	Mesh    network.MeshID
	Vents   []Vent
	Passive *network.LinkID // passive radiators as one, over PassiveArea
	// PassiveArea is the area of all passive radiators, m2.
	PassiveArea float64
	// Radiating lists every link that feeds the listeners' world.
	Radiating []network.LinkID
	// SystemHz is the resonance that the losses refer to: fc of a closed box,
	// fb of a tuned one, fs in a baffle.
	SystemHz float64
}

// Kind is one box type.
type Kind struct {
	Key  string
	Name string
	// assemble adds the type's branches to the network.
	assemble func(s Setting, u Unit, b job.Box) (Parts, error)
}

var kinds = map[string]Kind{}

func register(k Kind) { kinds[k.Key] = k }

// Kinds lists the box types by key.
func Kinds() []Kind {
	out := make([]Kind, 0, len(kinds))
	for _, k := range kinds {
		out = append(out, k)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Key < out[j].Key })
	return out
}

// Assemble adds a box with its drivers to the network.
func Assemble(s Setting, u Unit, b job.Box) (Parts, error) {
	k, ok := kinds[b.Type]
	if !ok {
		return Parts{}, fmt.Errorf("the box type %q is not known; choose one of the types offered", b.Type)
	}
	return k.assemble(s, u, b)
}

// drive adds the cone between two doors and its motor.
func drive(s Setting, u Unit, rear, front network.Door, extra ...network.Branch) (network.LinkID, network.MeshID) {
	var z network.Branch = network.Mechanical{
		Mass: u.Mass, Compliance: u.Compliance, Resistance: u.Resistance, Area: u.Area,
	}
	if len(extra) > 0 {
		z = network.Series(append([]network.Branch{z}, extra...)...)
	}
	cone := s.Net.Join(rear, front, z)
	mesh := s.Net.AddMesh(u.Channel, u.Electrical)
	s.Net.Couple(mesh, cone, u.Bl/u.Area)
	return cone, mesh
}

// chamber adds an air volume of litres l with the losses of the box. QL and QA
// refer to f0 (Small, JAES 20 (1972) 798 and 21 (1973) 363): RL = QL/(w0 Cab),
// RA = 1/(w0 Cab QA). The leak is a link of its own, see leak.
func chamber(s Setting, litres, lining, qa, f0 float64) (network.Door, float64) {
	cab := network.Compliance(s.Air, litres*1e-3, lining)
	c := network.Chamber{Compliance: cab}
	if qa > 0 {
		c.Absorption = 1 / (2 * math.Pi * f0 * cab * qa)
	}
	return s.Net.AddChamber(c), cab
}

// leak joins a chamber to the listeners' world through RL. The leak's flow
// radiates like the port's, as in Small's model, where it is part of the
// total volume velocity.
func leak(s Setting, from, to network.Door, ql, f0, cab float64) []network.LinkID {
	if ql <= 0 {
		return nil
	}
	rl := ql / (2 * math.Pi * f0 * cab)
	return []network.LinkID{s.Net.Join(from, to, network.Resistor(rl))}
}
