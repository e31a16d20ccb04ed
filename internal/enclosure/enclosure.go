// Package enclosure turns a box type into branches of a network. A type is one
// file: it lists the chambers, cones, ports and leaks that it is made of and
// joins them; the solver in package network does the rest, the same for every
// type, in free air and in a car.
//
// # What each loss means
//
// QL is a leak, RL = QL/(w0 Cab), between a chamber and the listeners' world.
// Its flow is heard: it counts in Radiating, as in R. H. Small's model of a
// vented box (JAES 21 (1973) 363), where it is part of the total volume
// velocity. QA is absorption, RA = 1/(w0 Cab QA), in series with the chamber.
// QP is port loss, RP = 1/(w0 Cab QP), in series with the port at its outer
// mouth, on top of what the duct itself loses.
//
// w0 belongs to the chamber that the loss is in: of a closed chamber the
// resonance of the cone in it, 2 pi fs sqrt(1 + Cas/Cab) (Small, JAES 20 (1972)
// 798); of a chamber with a port, the frequency its own port tunes it to, the
// far side of the port held still; of one with passive radiators, the
// frequency at which their mass meets their own and the chamber's stiffness.
// Both chambers of a band-pass box have the QL and QA given; lining is in the
// rear one. A line has no such losses: its walls and its fibre are its own.
//
// Every duct also has the drag and the heat loss of the boundary layer at its
// walls (see network.Duct). In a clean round port of 50 to 150 mm, three times
// as long as wide, that lowers the tuning by 0.7 to 0.2 % and leaves the port a
// Q of 70 to 250.
//
// The resistance of amplifier and cable is shared: one mesh carries the
// current of all drivers of a box. Mass counts the air that a cone in a wide
// wall carries, as data sheets do, wherever the cone is mounted.
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

	// How the drivers are wired, and their coils alone as seen from the common
	// terminals. Only an isobaric box asks; where they are left out all
	// drivers are taken to carry the same current.
	Series, Parallel int
	Coils            network.Branch

	isobaric bool    // Area is that of one of two cones one behind the other
	between  float64 // the air between them, all pairs together, m3
}

// AcousticCompliance returns Cas = Cms Sd^2, m3/Pa.
func (u Unit) AcousticCompliance() float64 { return u.Compliance * u.Area * u.Area }

// Resonance returns fs, Hz.
func (u Unit) Resonance() float64 {
	return 1 / (2 * math.Pi * math.Sqrt(u.Mass*u.Compliance))
}

// inClosed returns the resonance (Hz) of the cone on a closed chamber of
// compliance cab: fs sqrt(1 + Cas/Cab).
func (u Unit) inClosed(cab float64) float64 {
	return u.Resonance() * math.Sqrt(1+u.AcousticCompliance()/cab)
}

// Setting is what a box is assembled into.
type Setting struct {
	Net   *network.Network
	Air   air.Properties
	World World
	At    job.Place
	Lines *Lines // where boxes are assembled again and again; may be nil
}

// upright tells whether cones lie flat and hang from their suspension.
func (s Setting) upright() bool { return s.At.Fires == "down" || s.At.Fires == "up" }

// Kind is one box type.
type Kind struct {
	Key  string
	Name string
	// Reads names the fields of the document's box that the type reads beside
	// its type and outside size.
	Reads []string
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

// Assemble adds a box with its drivers to the network. An error is a sentence
// without its capital and full stop that says what is wrong with the box and
// what would do; the network is then of no further use.
func Assemble(s Setting, u Unit, b job.Box) (Parts, error) {
	k, ok := kinds[b.Type]
	if !ok {
		return Parts{}, fmt.Errorf("the box type %q is not known; choose one of the types offered", b.Type)
	}
	if b.Isobaric {
		var err error
		if u, err = u.paired(b.BetweenL * 1e-3); err != nil {
			return Parts{}, err
		}
	}
	p, err := k.assemble(s, u, b)
	if err == nil && s.upright() {
		p.SagM = Sag(u.Resonance())
	}
	return p, err
}

// chamber adds an air volume of litres l and compliance cab with absorption
// QA at f0. Its leak is a link of its own, see leak.
func chamber(s Setting, cab, qa, f0 float64) network.Door {
	c := network.Chamber{Compliance: cab}
	if qa > 0 {
		c.Absorption = 1 / (2 * math.Pi * f0 * cab * qa)
	}
	return s.Net.AddChamber(c)
}

// leak joins a chamber to the listeners' world through RL = QL/(w0 Cab).
func leak(s Setting, from, to network.Door, ql, f0, cab float64) []network.LinkID {
	if ql <= 0 {
		return nil
	}
	rl := ql / (2 * math.Pi * f0 * cab)
	return []network.LinkID{s.Net.Join(from, to, network.Resistor(rl))}
}
