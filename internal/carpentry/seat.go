package carpentry

import (
	"fmt"
	"math"

	"bootfloor/internal/job"
)

// Mount is a driver to be set into a face of the box; zero measures are not
// known and not checked. All are m.
type Mount struct {
	On      Face
	CutOut  float64 // diameter of the hole
	Outside float64 // diameter of the rim
	Depth   float64 // from the rim to the end of the magnet
	Count   int     // alike, side by side along the face's longer side
}

// Clearances that a driver wants. Common practice, no source.
const (
	behindMagnet = 0.020 // air behind a vented magnet, m
	besideRim    = 0.010 // wood left outside the rim, m
)

// CheckMount returns what is in a driver's way. Pointers are those of the
// driver's fields in the job document, relative to the sub.
func (b Box) CheckMount(m Mount) []job.Finding {
	if err := b.Check(); err != nil {
		return []job.Finding{job.Errorf("/box", "%v.", err)}
	}
	long, short, deep, err := b.behind(m.On)
	if err != nil {
		return []job.Finding{job.Errorf("/place/fires", "%v.", err)}
	}
	var found []job.Finding
	n := float64(max(m.Count, 1))
	if room := deep - behindMagnet; m.Depth > 0 && m.Depth-b.Panel > room+slack {
		found = append(found, job.Errorf("/driver/depth_mm",
			"The driver is %.0f mm deep; behind the panel there is room for %.0f mm, with %.0f mm of air behind the magnet. Make the box deeper or turn the driver to another face.",
			m.Depth*1000, (room+b.Panel)*1000, behindMagnet*1000))
	}
	if need := m.Outside + 2*besideRim; m.Outside > 0 && (need > short+slack || n*need > long+slack) {
		found = append(found, job.Errorf("/driver/outside_mm",
			"%s with a rim of %.0f mm must have a face of %.0f x %.0f mm; this one has %.0f x %.0f mm.",
			drivers(m.Count), m.Outside*1000, n*need*1000, need*1000, long*1000, short*1000))
	}
	inLong, inShort := long-2*b.Panel, short-2*b.Panel
	if m.CutOut > 0 && (m.CutOut > inShort || n*m.CutOut > inLong) {
		found = append(found, job.Errorf("/driver/cut_out_mm",
			"The cut-out of %.0f mm would run into the neighbouring panels, which leave %.0f x %.0f mm.",
			m.CutOut*1000, inLong*1000, inShort*1000))
	}
	return found
}

// drivers names so many drivers.
func drivers(n int) string {
	if n <= 1 {
		return "A driver"
	}
	return fmt.Sprintf("%d drivers", n)
}

// behind returns the outside measures of a face, longer first, and the depth
// of air behind its middle, square to it. Sides of a wedge count as deep as
// its top.
func (b Box) behind(f Face) (long, short, deep float64, err error) {
	middle := (b.Depth+b.TopDepth())/2 - 2*b.Panel
	order := func(p, q float64) (float64, float64) { return max(p, q), min(p, q) }
	switch f {
	case Up:
		long, short = order(b.Width, b.TopDepth())
		return long, short, b.Height - 2*b.Panel, nil
	case Down:
		long, short = order(b.Width, b.Depth)
		return long, short, b.Height - 2*b.Panel, nil
	case Front:
		a := b.slope()
		if a > 0 {
			// Square to the slope the way may end on the floor.
			middle = min(middle, (b.Height/2-b.Panel)/math.Sin(a))
		}
		long, short = order(b.Width, b.Height/math.Cos(a))
		return long, short, middle, nil
	case Rear:
		long, short = order(b.Width, b.Height)
		return long, short, middle, nil
	case Left, Right:
		long, short = order(b.Height, b.TopDepth())
		return long, short, b.Width - 2*b.Panel, nil
	}
	return 0, 0, 0, fmt.Errorf("there is no face %q; use up, down, front, rear, left or right", f)
}

// room returns the least sides of a box of b's form that take the drivers; b
// tells how far a wedge leans, as far as its height is known.
func (m Mount) room(b Box) Sides {
	n := float64(max(m.Count, 1))
	var across, along, deep float64
	if m.Outside > 0 {
		across, along = m.Outside+2*besideRim, n*(m.Outside+2*besideRim)
	}
	if m.Depth > 0 {
		deep = m.Depth + behindMagnet + b.Panel
	}
	lean := max(0, b.Depth-b.TopDepth())
	switch m.On {
	case Up, Down:
		top := 0.0
		if m.On == Up {
			top = lean
		}
		return Sides{Width: along, Height: deep, Depth: across + top}
	case Left, Right:
		return Sides{Width: deep, Height: across, Depth: along + lean}
	}
	// Halfway up, a wedge has lost half of its lean.
	return Sides{Width: along, Height: across, Depth: deep + lean/2}
}
