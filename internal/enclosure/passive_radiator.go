package enclosure

import (
	"errors"
	"fmt"
	"math"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

func init() {
	register(Kind{Key: "passive_radiator", Name: "Passive radiator",
		Reads: []string{"net_l", "lining", "ql", "qa", "passive", "isobaric", "between_l"}, assemble: passiveRadiator})
}

// passiveRadiator is a cone and one or several like passive radiators, moving
// as one, between a chamber and the world (R. H. Small, JAES 22 (1974) 592 and
// 683). Losses refer to fb.
func passiveRadiator(s Setting, u Unit, b job.Box) (Parts, error) {
	m, err := passiveOf(b.Passive)
	if err != nil {
		return Parts{}, err
	}
	cab := network.Compliance(s.Air, b.NetL*1e-3, b.Lining)
	out := s.outlet(outsideOf(b), u.Area)
	fb := passiveTuning(m, cab, out.gapMass())
	rear := chamber(s, cab, b.QA, fb)
	p := drive(s, u, rear, out.door)
	p.SystemHz = fb
	passive := s.Net.Join(rear, out.beside(u.Area, m.Area), m)
	p.Passive, p.PassiveArea = &passive, m.Area
	p.NotchHz = 1 / (2 * math.Pi * math.Sqrt(m.Mass*m.Compliance))
	if s.upright() {
		p.PassiveSagM = Sag(p.NotchHz)
	}
	p.radiates(out, append(leak(s, rear, out.door, b.QL, fb, cab), p.Cone, passive)...)
	return p, nil
}

// passiveOf returns all passive radiators as one. The document gives one in
// free air without its added mass: its stiffness (2 pi f)^2 M and its friction
// 2 pi f M/Qmp stay when mass is added.
func passiveOf(p *job.Passive) (network.Mechanical, error) {
	if p == nil || !(p.SdCM2 > 0 && p.MassG > 0 && p.FreeHz > 0 && p.Qmp > 0) {
		return network.Mechanical{}, errors.New("the passive radiator is missing: give its area, mass, free-air resonance and Qmp")
	}
	n := float64(max(p.Count, 1))
	w := 2 * math.Pi * p.FreeHz
	bare := p.MassG * 1e-3
	return network.Mechanical{
		Mass:       n * (bare + p.AddedG*1e-3),
		Compliance: 1 / (w * w * bare) / n,
		Resistance: n * w * bare / p.Qmp,
		Area:       n * p.SdCM2 * 1e-4,
	}, nil
}

// passiveTuning returns fb, Hz: (1/Cap + 1/Cab)/Map = (2 pi fb)^2, Map with
// the mass (kg/m4) of air beyond.
func passiveTuning(m network.Mechanical, cab, beyond float64) float64 {
	s2 := m.Area * m.Area
	return math.Sqrt((1/(m.Compliance*s2)+1/cab)/(m.Mass/s2+beyond)) / (2 * math.Pi)
}

// PassiveAdded returns the mass (g) to add to each passive radiator of a box
// so that it tunes to hz, in place of any mass that it carries already. Where
// only taking mass away would do, the error says what would do instead.
func PassiveAdded(b job.Box, a air.Properties, hz float64) (float64, error) {
	if b.Passive == nil {
		return 0, errors.New("the passive radiator is missing: give its area, mass, free-air resonance and Qmp")
	}
	bare := *b.Passive
	bare.AddedG = 0
	m, err := passiveOf(&bare)
	if err != nil {
		return 0, err
	}
	if !(hz > 0) {
		return 0, errors.New("the tuning is missing: give it in hertz")
	}
	cab := network.Compliance(a, b.NetL*1e-3, b.Lining)
	if highest := passiveTuning(m, cab, 0); hz > highest {
		return 0, fmt.Errorf("the passive radiator tunes this box to %.3g Hz with no mass added and cannot go higher: make the box smaller, take a lighter or larger one, or tune lower than that", highest)
	}
	w := 2 * math.Pi * hz
	s2 := m.Area * m.Area
	mass := (1/(m.Compliance*s2) + 1/cab) / (w * w) * s2
	return math.Max(0, 1e3*(mass-m.Mass)/float64(max(bare.Count, 1))), nil
}
