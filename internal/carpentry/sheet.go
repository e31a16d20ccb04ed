package carpentry

import (
	"fmt"
	"math"
	"sort"
)

// Sheet is the board that panels are cut from, m.
type Sheet struct {
	Length, Width float64
	Kerf          float64 // width of the saw's cut
	Grain         bool    // panels keep their length along the sheet's
}

// Placed is a panel's blank on a sheet.
type Placed struct {
	Name          string
	Sheet         int // counted from 0
	X, Y          float64
	Length, Width float64 // as it lies on the sheet, along X and Y
	Turned        bool    // by a quarter turn from the cut list
}

// Layout is how the panels lie on the sheets.
type Layout struct {
	Sheets   int
	Placed   []Placed
	WastePct float64 // share of the sheets that no panel uses, per cent
}

// offcut is a free rectangle of a sheet.
type offcut struct {
	sheet      int
	x, y, l, w float64
}

// Lay places the blanks of a cut list on as few sheets as a greedy guillotine
// finds: largest first, each into the offcut that it fills best, which is then
// cut right across along the shorter remainder. Every cut can be made on a
// panel saw. It is not proved to be the fewest sheets.
func (s Sheet) Lay(panels []Panel) (Layout, error) {
	if !(s.Length > 0 && s.Width > 0 && s.Kerf >= 0) {
		return Layout{}, fmt.Errorf("the sheet is %g x %g mm with a kerf of %g mm; give positive sizes", s.Length*1000, s.Width*1000, s.Kerf*1000)
	}
	var pieces []Placed
	for _, p := range panels {
		for range p.Count {
			pieces = append(pieces, Placed{Name: p.Name, Length: p.Length, Width: p.Width})
		}
	}
	sort.SliceStable(pieces, func(i, j int) bool {
		return pieces[i].Length*pieces[i].Width > pieces[j].Length*pieces[j].Width
	})
	var out Layout
	var free []offcut
	used := 0.0
	for _, p := range pieces {
		best, turned := s.choose(free, p)
		if best < 0 {
			free = append(free, offcut{sheet: out.Sheets, l: s.Length, w: s.Width})
			if best, turned = s.choose(free, p); best < 0 {
				return Layout{}, fmt.Errorf("the %s panel (%.0f x %.0f mm) is larger than the sheet (%.0f x %.0f mm); use a larger sheet or join it",
					p.Name, p.Length*1000, p.Width*1000, s.Length*1000, s.Width*1000)
			}
			out.Sheets++
		}
		o := free[best]
		free = append(free[:best], free[best+1:]...)
		if turned {
			p.Length, p.Width, p.Turned = p.Width, p.Length, true
		}
		p.Sheet, p.X, p.Y = o.sheet, o.x, o.y
		out.Placed = append(out.Placed, p)
		used += p.Length * p.Width
		free = append(free, s.split(o, p)...)
	}
	if out.Sheets > 0 {
		out.WastePct = 100 * (1 - used/(float64(out.Sheets)*s.Length*s.Width))
	}
	return out, nil
}

// choose returns the offcut whose shorter remainder is least, and whether the
// piece lies turned in it; -1 where none takes it.
func (s Sheet) choose(free []offcut, p Placed) (best int, turned bool) {
	best = -1
	least := math.Inf(1)
	for i, o := range free {
		for _, turn := range []bool{false, true} {
			l, w := p.Length, p.Width
			if turn {
				if s.Grain {
					continue
				}
				l, w = w, l
			}
			if l > o.l+1e-9 || w > o.w+1e-9 {
				continue
			}
			if rest := math.Min(o.l-l, o.w-w); rest < least {
				best, turned, least = i, turn, rest
			}
		}
	}
	return best, turned
}

// split returns the two offcuts that a guillotine leaves beside a piece in the
// corner of o.
func (s Sheet) split(o offcut, p Placed) []offcut {
	restL, restW := o.l-p.Length-s.Kerf, o.w-p.Width-s.Kerf
	right := offcut{o.sheet, o.x + p.Length + s.Kerf, o.y, restL, p.Width}
	above := offcut{o.sheet, o.x, o.y + p.Width + s.Kerf, p.Length, restW}
	if restL > restW {
		right.w = o.w
	} else {
		above.l = o.l
	}
	var out []offcut
	for _, c := range []offcut{right, above} {
		if c.l > 0 && c.w > 0 {
			out = append(out, c)
		}
	}
	return out
}
