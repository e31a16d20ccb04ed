package carpentry

import (
	"math"
)

// Panel is one piece of the cut list, or several alike.
type Panel struct {
	Name      string
	Count     int
	Length    float64 // of the blank, m: the whole extent where ends are bevelled
	Width     float64 // of the blank, m
	Thickness float64
	// Outline is the piece seen square on, m, anticlockwise from the corner of
	// its blank; a rectangle unless the piece tapers.
	Outline [][2]float64
	// BevelDeg is the angle from square of the two ends of Length, in the order
	// of the box's axes: front or bottom end first. Zero is a square cut; the
	// longer face is the outer one where the angle is positive.
	BevelDeg [2]float64
	solids   []Solid
}

// Volume returns the volume of one piece, cut-outs not yet taken out, m3.
func (p Panel) Volume() float64 { return p.solids[0].Volume() }

// Panels returns the cut list of a box that passes Check. The two sides cover
// the ends of all the others; top and bottom cover the ends of front and back.
// So no bevel is steeper than the slope, and the panels fill the shell without
// gap or overlap.
func (b Box) Panels() []Panel {
	outer, inner := b.Profile(), b.InsideProfile()
	t := b.Panel
	y := b.Width/2 - t
	lean := math.Tan(b.slope())
	lip := t * lean // how far the slope travels over one thickness

	bottom := []Point{{0, 0}, {b.Depth, 0}, {b.Depth, t}, {lip, t}}
	top := []Point{{outer[3].X - lip, b.Height - t}, {b.Depth, b.Height - t}, {b.Depth, b.Height}, {outer[3].X, b.Height}}
	back := []Point{{b.Depth - t, t}, {b.Depth, t}, {b.Depth, b.Height - t}, {b.Depth - t, b.Height - t}}
	front := []Point{{lip, t}, inner[0], inner[3], {outer[3].X - lip, b.Height - t}}

	side := Panel{
		Name: "side", Count: 2, Length: b.Depth, Width: b.Height, Thickness: t,
		Outline: outline(outer),
		solids:  []Solid{Prism(outer, -b.Width/2, -y), Prism(outer, y, b.Width/2)},
	}
	w := 2 * y
	plain := func(name string, profile []Point, long float64, bevel [2]float64) Panel {
		return Panel{
			Name: name, Count: 1, Length: long, Width: w, Thickness: t,
			Outline:  [][2]float64{{0, 0}, {long, 0}, {long, w}, {0, w}},
			BevelDeg: bevel,
			solids:   []Solid{Prism(profile, -y, y)},
		}
	}
	angle := b.slope() * 180 / math.Pi
	tall := b.Height - 2*t
	return []Panel{
		side,
		plain("bottom", bottom, b.Depth, [2]float64{angle, 0}),
		// The top's inner face reaches further forward than its outer one.
		plain("top", top, b.TopDepth()+lip, [2]float64{0 - angle, 0}),
		// The sloped front is a parallelogram in section: as long on both faces.
		plain("front", front, tall/math.Cos(b.slope())+t*lean, [2]float64{angle, 0 - angle}),
		plain("back", back, tall, [2]float64{}),
	}
}

func outline(profile []Point) [][2]float64 {
	out := make([][2]float64, len(profile))
	for i, p := range profile {
		out[i] = [2]float64{p.X, p.Z}
	}
	return out
}
