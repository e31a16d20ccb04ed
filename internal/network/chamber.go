package network

import (
	"math"

	"bootfloor/internal/air"
)

// Chamber is a closed volume small against the wavelength: one door, one
// pressure. Its impedance is RA + 1/(jw C + G).
type Chamber struct {
	Compliance  float64 // acoustic compliance C = V/(rho c^2), m3/Pa, at least > 0
	Absorption  float64 // RA in series, Pa s/m3: lining in which the flow rubs
	Conductance float64 // G in parallel, m3/(Pa s): a leak to the still air outside
}

// Doors is one: every mouth of a chamber feels the same pressure.
func (c Chamber) Doors() int { return 1 }

// Impedance implements Body.
func (c Chamber) Impedance(_ int, w float64, z []complex128) {
	z[0] = complex(c.Absorption, 0) + 1/complex(c.Conductance, w*c.Compliance)
}

// Compliance returns V/(rho c^2) (m3/Pa) of volume m3 of air. Lining (0 to 1)
// raises it toward the isothermal limit, gamma times as much, which fibre that
// holds the air's temperature still would reach.
func Compliance(a air.Properties, volume, lining float64) float64 {
	return volume * (1 + (a.Gamma-1)*lining) / a.BulkModulus()
}

// Still is a body whose pressure never moves: the atmosphere at the far end of
// a leak, or the world that data-sheet models radiate into, where the cone's
// air load is already part of its moving mass.
type Still struct{}

// Doors is one.
func (Still) Doors() int { return 1 }

// Impedance implements Body.
func (Still) Impedance(_ int, _ float64, z []complex128) { z[0] = 0 }

// HalfSpace is open air above a rigid floor, seen by sources that stand close
// together against the wavelength: the radiation resistance rho w^2/(2 pi c)
// of a compact source. Its mass is left to the sources, whose moving mass and
// end corrections count it (Kinsler and Frey, Fundamentals of Acoustics).
type HalfSpace struct{ Air air.Properties }

// Doors is one.
func (HalfSpace) Doors() int { return 1 }

// Impedance implements Body.
func (h HalfSpace) Impedance(_ int, w float64, z []complex128) {
	z[0] = complex(h.Air.Density*w*w/(2*math.Pi*h.Air.SpeedOfSound), 0)
}

// HalfSpacePressure returns the pressure (Pa, complex) at distance r metres in
// a half space from a compact source of volume velocity u: j w rho u/(2 pi r),
// without the travel time.
func HalfSpacePressure(a air.Properties, omega, r float64, u complex128) complex128 {
	return complex(0, omega*a.Density/(2*math.Pi*r)) * u
}
