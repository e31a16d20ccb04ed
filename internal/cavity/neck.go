package cavity

import "bootfloor/internal/air"

// Neck is a rectangular opening, or a limp panel, between two cavities: Width
// across the car, Height up it, Depth along it. Here and There are the places
// of its centre in the axes of the two cavities it joins.
type Neck struct {
	Here, There          Point
	Width, Height, Depth float64
}

// Joint is one part of a neck: a door in each cavity and the link between.
// Volume velocity leaves one side and enters the other.
type Joint struct {
	Here, There Patch
	Link
}

// Wider openings than this are cut into a right and a left half.
const undivided = 0.12 // m

// Joints returns the doors and links of an open neck. A wide neck is cut into a
// right-hand and a left-hand half, so that air may slosh across it: the plane
// mode alone misses the first lateral mode and errs by decibels above 100 Hz.
//
// Each half carries the slug of its depth and the near field of its own area
// on both sides; the coupling of the halves through the air of either cavity is
// in the cross terms of Transfer, so the pair adds up to the whole opening.
func (n Neck) Joints(p air.Properties) []Joint {
	return n.parts(n.pieces(), func(area float64) Link {
		return Link{Inertance: p.Density*n.Depth/area + 2*nearField(p.Density, area)*holeShare(n.Width*n.Height, n.Depth)}
	})
}

// Panel returns the doors and links of a limp panel that fills the neck, such
// as a seat back: massPerArea in kg/m2, and resistance, the mechanical
// resistance per area, Pa s/m. Its air load is added on both sides.
func (n Neck) Panel(massPerArea, resistance float64, p air.Properties) []Joint {
	return n.parts(n.pieces(), func(area float64) Link {
		return Link{
			Resistance: resistance / area,
			Inertance:  massPerArea/area + 2*nearField(p.Density, area),
		}
	})
}

// pieces is the number of parts across the neck.
func (n Neck) pieces() int {
	if n.Width > undivided {
		return 2
	}
	return 1
}

func (n Neck) parts(count int, link func(area float64) Link) []Joint {
	w := n.Width / float64(count)
	area := w * n.Height
	var out []Joint
	for i := range count {
		dy := w * (float64(i) - float64(count-1)/2)
		at := func(c Point) Patch {
			c.Y += dy
			return Patch{Centre: c, Area: area, Size: Point{0, w, n.Height}}
		}
		out = append(out, Joint{Here: at(n.Here), There: at(n.There), Link: link(area)})
	}
	return out
}
