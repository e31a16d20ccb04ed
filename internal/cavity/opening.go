package cavity

import (
	"math"

	"bootfloor/internal/air"
)

// Link is what lies in a hole between a cavity and the outside, or between two
// cavities: a slug of air or a panel with friction, and, outward, radiation.
// Its impedance is Resistance + j omega Inertance + radiation.
type Link struct {
	Resistance float64 // R, Pa s/m3
	Inertance  float64 // M, kg/m4
	// Radiation is the factor of omega^2 in the radiation resistance, and
	// RadiationLimit the value it tends to, rho c / S. Zero for none.
	Radiation, RadiationLimit float64
}

// Impedance returns the link's impedance at angular frequency omega, Pa s/m3.
func (l Link) Impedance(omega float64) complex128 {
	r := l.Resistance
	if l.Radiation > 0 {
		w := l.Radiation * omega * omega
		r += w / (1 + w/l.RadiationLimit)
	}
	return complex(r, omega*l.Inertance)
}

// nearField is the inertance of the air that a piston of the given area in an
// infinite baffle carries on one side, 8 rho/(3 pi^2 a) (Lord Rayleigh, The
// Theory of Sound, 1896, section 302). Transfer leaves it out of the self term
// of every door, so each link adds it on its own account.
func nearField(rho, area float64) float64 {
	return 8 * rho / (3 * math.Pi * math.Pi * math.Sqrt(area/math.Pi))
}

// endCorrection returns the length, m, by which the air in a hole of the given
// radius and depth seems longer at each end: pi a/4 for a hole in a thin
// screen (Rayleigh, section 306: conductance 2a), 0.8217 a for a deep one
// (Y. Nomura, I. Yamamura and S. Inawashiro, Journal of the Physical Society of
// Japan 15, 1960); between them an assumed smooth passage.
func endCorrection(a, depth float64) float64 {
	const thin, deep = math.Pi / 4, 0.8217
	return a * (deep + (thin-deep)*math.Exp(-2*depth/a))
}

// Slit describes how air rubs in a gap: Gap wide, Depth deep.
type Slit struct {
	Gap, Depth float64 // m
}

// BodyGaps is the usual gap of door seals, drains and vent flaps. Assumed.
var BodyGaps = Slit{Gap: 0.001, Depth: 0.02}

// Leak returns the door and the link to still air outside of a group of narrow
// gaps: area in m2 in all, gathered at one place on the body. The resistance is
// that of a slit at low frequency, 12 mu depth/(gap^2 S), the inertance 6/5 of
// the plain slug (L. L. Beranek, Acoustics, 1954, section 5.4), with the near
// field of the whole group on either side.
func Leak(at Point, area float64, s Slit, p air.Properties) (Patch, Link) {
	return Patch{Centre: at, Area: area}, Link{
		Resistance: 12 * p.Viscosity * s.Depth / (s.Gap * s.Gap * area),
		Inertance:  1.2*p.Density*s.Depth/area + 2*nearField(p.Density, area),
	}
}

// Opening returns the door and the link to the outside of something that
// stands open: a window, a sunroof, a tailgate. size is its extent along x, y
// and z (one of them zero), area its free area, m2, thickness that of the
// panel. Outside, the body is a large baffle: the near field of a piston and
// the radiation resistance rho omega^2/(2 pi c) of a simple source on it.
func Opening(at, size Point, area, thickness float64, p air.Properties) (Patch, Link) {
	return Patch{Centre: at, Size: size, Area: area}, Link{
		Inertance:      p.Density*thickness/area + 2*nearField(p.Density, area)*holeShare(area, thickness),
		Radiation:      p.Density / (2 * math.Pi * p.SpeedOfSound),
		RadiationLimit: p.Impedance() / area,
	}
}

// holeShare is how the flow through a hole, free to choose its own pattern,
// carries less air than a rigid piston does.
func holeShare(area, depth float64) float64 {
	a := math.Sqrt(area / math.Pi)
	return endCorrection(a, depth) / (8 / (3 * math.Pi) * a)
}
