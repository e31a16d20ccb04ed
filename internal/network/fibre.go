package network

import (
	"math"

	"bootfloor/internal/air"
)

// Fibre is stuffing held still in the air of a duct: FlowResistivity is its
// static flow resistivity sigma, Pa s/m2; 0 for none. Loose fibre that moves
// with the air at the lowest frequencies loses less than this says.
type Fibre struct{ FlowResistivity float64 }

// Polyester returns the fibre of a density (kg/m3) of polyester wool:
// sigma = 25.989 density^1.404 (M. Garai and F. Pompoli, Applied Acoustics 66
// (2005) 1383, recalled; measured from 20 to 60 kg/m3 and carried on below).
// Other wools of the same density differ by a factor of a few: finer fibre
// resists more.
func Polyester(density float64) Fibre {
	if !(density > 0) {
		return Fibre{}
	}
	return Fibre{25.989 * math.Pow(density, 1.404)}
}

// In returns the density and the compressibility of the air between the fibres
// over those of free air at the angular frequency w: the model of J. F. Allard
// and Y. Champoux, J. Acoust. Soc. Am. 91 (1992) 3346 (recalled, and checked
// against the numbers that they print for air), which unlike power laws fitted
// to data keeps both limits: at low frequency a flow resistance sigma and
// isothermal air, at high frequency free air. With q = rho w/sigma,
//
//	rho/rho0 = 1 + sqrt(1 + jq/2)/(jq)
//	K0/K = (4j Pr q + gamma G)/(4j Pr q + G), G = sqrt(1 + 2j Pr q)
func (f Fibre) In(a air.Properties, w float64) (density, compressibility complex128) {
	if !(f.FlowResistivity > 0) {
		return 1, 1
	}
	q := a.Density * w / f.FlowResistivity
	g := rootOnePlus(q / 2)
	density = complex(1+imag(g)/q, -real(g)/q)
	g = rootOnePlus(2 * a.Prandtl * q)
	x := 4 * a.Prandtl * q
	above := complex(a.Gamma*real(g), x+a.Gamma*imag(g))
	compressibility = above * reciprocal(complex(real(g), x+imag(g)))
	return density, compressibility
}

// rootOnePlus returns sqrt(1 + jx) with a positive real part.
func rootOnePlus(x float64) complex128 {
	re := math.Sqrt((math.Sqrt(1+x*x) + 1) / 2)
	return complex(re, x/(2*re))
}
