package carpentry

import (
	"fmt"
	"math"

	"bootfloor/internal/job"
)

// Space is where a box may stand in the boot: a floor and a height profile,
// alike over its width. x runs rearward from the foot of the seat back.
type Space struct {
	Width   float64 // between the sides or the wheel arches, m
	Ceiling []Point // lowest obstacle above the floor, left to right; straight in between, m
}

// SpaceFromBoot returns the space of a boot as measured: the floor from the
// seat back to the sill, under a ceiling that starts at the foot of the
// leaning seat back and rises with it to the shelf or the usable height.
func SpaceFromBoot(b job.Boot) (Space, error) {
	length, width, height := b.LengthMM/1000, b.WidthMM/1000, b.HeightMM/1000
	if b.WheelArchesMM > 0 {
		width = math.Min(width, b.WheelArchesMM/1000)
	}
	for _, f := range []struct {
		name  string
		value float64
	}{{"length", length}, {"width", width}, {"height", height}} {
		if !(f.value > 0) || math.IsInf(f.value, 1) {
			return Space{}, fmt.Errorf("the boot's %s is %g mm; give a positive number", f.name, f.value*1000)
		}
	}
	if !(b.SeatSlopeDeg >= 0 && b.SeatSlopeDeg <= 60) {
		return Space{}, fmt.Errorf("the seat back leans by %g degrees; give an angle from 0 to 60", b.SeatSlopeDeg)
	}
	s := Space{Width: width}
	reach := height * math.Tan(b.SeatSlopeDeg*math.Pi/180) // how far back the seat comes at the top
	switch {
	case b.SeatsFolded || reach == 0:
		s.Ceiling = []Point{{0, height}, {length, height}}
	case reach >= length:
		s.Ceiling = []Point{{0, 0}, {length, height * length / reach}}
	default:
		s.Ceiling = []Point{{0, 0}, {reach, height}, {length, height}}
	}
	return s, nil
}

// Length returns the length of the floor, m.
func (s Space) Length() float64 { return s.Ceiling[len(s.Ceiling)-1].X - s.Ceiling[0].X }

// M3 returns the volume of the space.
func (s Space) M3() float64 {
	area := 0.0
	for i := 1; i < len(s.Ceiling); i++ {
		a, b := s.Ceiling[i-1], s.Ceiling[i]
		area += (b.X - a.X) * (a.Z + b.Z) / 2
	}
	return area * s.Width
}

// HeightAt returns the ceiling at x, m; zero outside.
func (s Space) HeightAt(x float64) float64 {
	c := s.Ceiling
	if x < c[0].X || x > c[len(c)-1].X {
		return 0
	}
	for i := 1; i < len(c); i++ {
		if x <= c[i].X {
			if c[i].X == c[i-1].X {
				continue
			}
			t := (x - c[i-1].X) / (c[i].X - c[i-1].X)
			return c[i-1].Z + t*(c[i].Z-c[i-1].Z)
		}
	}
	return c[len(c)-1].Z
}

// Stand says how a box stands in a space.
type Stand struct {
	Fits      bool
	X         float64 // m: where its front foot comes, as far forward as it goes
	SpareSide float64 // m left over the width, negative if too wide
	SpareRear float64 // m of floor behind it
	LeftPct   float64 // share of the space's volume that stays free
	Say       string  // one sentence
}

// slack absorbs rounding where a wedge lies flat against the seat back, m.
const slack = 1e-6

// step is how finely the floor is searched for a place, m. What fits is found
// to this step; a place that exists only between two steps is missed.
const step = 0.001

// Stand finds the foremost place for a box in the space, facing as drawn.
func (s Space) Stand(b Box) Stand {
	out := Stand{
		SpareSide: s.Width - b.Width,
		LeftPct:   100 * (1 - b.Outside().Volume()/s.M3()),
	}
	if out.SpareSide < -slack {
		out.Say = fmt.Sprintf("The box is %.0f mm wider than the boot floor.", math.Ceil(-out.SpareSide*1000))
		return out
	}
	room := s.Length() - b.Depth
	if room < -slack {
		out.Say = fmt.Sprintf("The box is %.0f mm deeper than the boot floor is long.", math.Ceil(-room*1000))
		return out
	}
	x0 := s.Ceiling[0].X
	for i := 0; float64(i)*step <= math.Max(room, 0)+slack; i++ {
		x := x0 + float64(i)*step
		if s.under(b, x) {
			out.Fits, out.X = true, x
			out.SpareRear = math.Max(0, room-(x-x0))
			out.Say = fmt.Sprintf("The box stands %.0f mm from the seat back at the floor, with %.0f mm of floor behind it; %.0f %% of the boot stays free.",
				(x-x0)*1000, out.SpareRear*1000, out.LeftPct)
			return out
		}
	}
	out.Say = fmt.Sprintf("The box is too tall (%.0f mm) for the boot where it would stand; make it lower, or a wedge that leans with the seat.", b.StandingHeight()*1000)
	return out
}

// under reports whether the box with its front foot at x clears the ceiling.
// Both outlines are straight between their corners, so it is enough to compare
// them at the corners of either.
func (s Space) under(b Box, x float64) bool {
	lean := b.Depth - b.TopDepth()
	end := s.Ceiling[len(s.Ceiling)-1].X
	for _, u := range []float64{lean, b.Depth} {
		if b.StandingHeight() > s.HeightAt(math.Min(x+u, end))+slack {
			return false
		}
	}
	for _, c := range s.Ceiling {
		if u := c.X - x; u > slack && u < b.Depth-slack {
			top := b.StandingHeight()
			if lean > 0 && u < lean {
				top = b.Height * u / lean
			}
			if top > c.Z+slack {
				return false
			}
		}
	}
	return true
}
