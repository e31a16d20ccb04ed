package enclosure

import (
	"math"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// outside is the size of a box as it stands, m; zeros where not yet drawn.
type outside struct{ width, height, depth float64 }

func outsideOf(b job.Box) outside {
	return outside{b.WidthMM * 1e-3, b.HeightMM * 1e-3, b.DepthMM * 1e-3}
}

// face returns the area of the side that fires, m2.
func (o outside) face(fires string) float64 {
	switch fires {
	case "up", "down":
		return o.width * o.depth
	case "left", "right":
		return o.depth * o.height
	default:
		return o.width * o.height
	}
}

// Gap is the flat space between the face of a box and the surface before it,
// such as the floor under a box that fires down. Air leaves it on all sides.
type Gap struct {
	HeightM   float64 // m
	InnerM    float64 // radius of the cone or mouth, m
	OuterM    float64 // radius of a disc as large as the face, m
	MassKgM4  float64 // acoustic mass of the air in it, kg/m4
	OutletM2  float64 // open area round the edge, m2
	AreaRatio float64 // OutletM2 over the area of the cone or mouth
	viscous   float64 // thickness of the viscous layer times sqrt(w), m/sqrt(s)
}

// undrawn is the ratio of the outer to the inner radius where the box has no
// outside size yet. Assumed.
const undrawn = 1.6

// newGap returns the gap before a cone or mouth of the given area, or nil
// where the place names none.
//
// The air moves radially. Its mass is that of a ring from the edge of the cone
// a to the edge of the face R,
//
//	M = rho/(2 pi h) (ln(R/a) + 1/4)
//
// where the quarter is the kinetic energy of the air under a flat cone, whose
// radial speed grows evenly from the centre. Between two plates h apart the
// viscous layers add friction and a little mass: M is divided by
// 1 - dv/((1+j) h/2), the wide form of the exact slit (Kirchhoff; Pierce,
// Acoustics, 10-5), good while the layer dv, 0.4 mm at 30 Hz, is thin. The
// spreading beyond the edge is the world's business, and the wide air load in
// the driver's own mass is left there.
func newGap(at job.Place, box outside, area float64, a air.Properties) *Gap {
	if !(at.GapMM > 0) || !(area > 0) {
		return nil
	}
	g := &Gap{HeightM: at.GapMM * 1e-3, InnerM: math.Sqrt(area / math.Pi)}
	g.OuterM = math.Sqrt(box.face(at.Fires) / math.Pi)
	if g.OuterM == 0 {
		g.OuterM = undrawn * g.InnerM
	}
	g.OuterM = math.Max(g.OuterM, g.InnerM)
	g.MassKgM4 = a.Density / (2 * math.Pi * g.HeightM) * (math.Log(g.OuterM/g.InnerM) + 0.25)
	g.OutletM2 = 2 * math.Pi * g.OuterM * g.HeightM
	g.AreaRatio = g.OutletM2 / area
	g.viscous = math.Sqrt(2 * a.Viscosity / a.Density)
	return g
}

// Impedance implements network.Branch. The layer is held to a third of the
// gap, where its wide form ends.
func (g *Gap) Impedance(w float64) complex128 {
	x := 2 * math.Min(g.viscous/(math.Sqrt(w)*g.HeightM), 1.0/3)
	// 1/(1 - x/(1+j)) = 1/(1 - x/2 + j x/2)
	re, im := 1-x/2, x/2
	s := w * g.MassKgM4 / (re*re + im*im)
	return complex(s*im, s*re)
}

var _ network.Branch = (*Gap)(nil)
