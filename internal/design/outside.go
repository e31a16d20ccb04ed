package design

import (
	"fmt"
	"math"
	"sort"

	"bootfloor/internal/carpentry"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
)

// Outside is a box as it stands in a boot.
type Outside struct {
	Form     string  `json:"form"`
	WidthMM  float64 `json:"width_mm"`
	HeightMM float64 `json:"height_mm"` // without feet
	DepthMM  float64 `json:"depth_mm"`
	StandMM  float64 `json:"stand_x_mm"` // of its front foot from the front of the space
	Litres   float64 `json:"litres"`
	LeftPct  float64 `json:"left_pct"` // share of the boot that stays free
	LeftL    float64 `json:"left_l"`
	Passes   bool    `json:"passes"` // through the boot opening
	// SpareL is the air that the box holds beyond what was wanted, where the
	// drivers need a larger one.
	SpareL  float64 `json:"spare_l,omitempty"`
	Say     string  `json:"say"`
	PassSay string  `json:"pass_say,omitempty"`

	Place job.Place `json:"-"`
}

// baffle tells whether the panel between cabin and boot has room for the
// drivers. What they take of the boot is a cylinder as wide and deep as each.
func (r Room) baffle(s job.Sub, f frames) (Outside, bool) {
	var top float64
	for _, c := range r.Space.Ceiling {
		top = math.Max(top, c.Z)
	}
	if rowOf(r.Space.Width, top, f.outside, beside) < f.drivers {
		return Outside{Say: fmt.Sprintf("The panel between cabin and boot, about %.0f x %.0f mm, has no room for %s.",
			1000*r.Space.Width, 1000*top, framesSay(f))}, false
	}
	o := Outside{Passes: true, Place: s.Place, Litres: 1000 * float64(f.drivers) * math.Pi / 4 * f.outside * f.outside * f.depth}
	o.LeftL = math.Max(0, 1000*r.BootM3-o.Litres)
	o.LeftPct = 100 * o.LeftL / (1000 * r.BootM3)
	o.Say = fmt.Sprintf("It needs no box: the cone sits in the panel between cabin and boot, and %.0f litres of the boot stay free.", o.LeftL)
	return o, true
}

func framesSay(f frames) string {
	if f.drivers > 1 {
		return fmt.Sprintf("%d frames of %.0f mm", f.drivers, 1000*f.outside)
	}
	return fmt.Sprintf("a frame of %.0f mm", 1000*f.outside)
}

// passClearance is kept all round when a box goes through the opening, m.
const passClearance = 0.01

func (r Room) passes(b carpentry.Box) bool {
	if r.OpeningW <= 0 || r.OpeningH <= 0 {
		return true
	}
	// Most go in square, which is quickly seen.
	a, c := r.OpeningW-2*passClearance, r.OpeningH-2*passClearance
	for _, f := range [][2]float64{{b.Depth, b.Height}, {b.Width, b.Height}, {b.Width, b.Depth}} {
		if f[0] <= a && f[1] <= c || f[0] <= c && f[1] <= a {
			return true
		}
	}
	return b.Pass(r.OpeningW, r.OpeningH, passClearance).Passes
}

// outsideM3 is the volume that a box takes up, m3: a prism over its side view.
func outsideM3(b carpentry.Box) float64 {
	return b.Width * b.Height * (b.Depth + b.TopDepth()) / 2
}

// deepest returns the greatest depth at which a shape stands, passes the
// opening and takes no more than may go; false where there is none.
func (r Room) deepest(s shape) (float64, bool) {
	d := s.most
	if r.MostM3 > 0 {
		if over := outsideM3(s.at(d)) - r.MostM3; over > 0 {
			d -= over / (s.box.Width * s.box.Height)
		}
	}
	if d < s.least || s.at(d).Check() != nil {
		return 0, false
	}
	if r.passes(s.at(d)) {
		return d, true
	}
	lo, hi := s.least, d
	if !r.passes(s.at(lo)) {
		return 0, false
	}
	for hi-lo > 0.002 {
		if mid := (lo + hi) / 2; r.passes(s.at(mid)) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo, true
}

// MostGrossM3 returns the most air inside panels of a thickness (m) that any
// box for a sub can hold in a room, or zero where none stands at all.
func (r Room) MostGrossM3(s job.Sub, d driver.Driver) float64 {
	var most float64
	for _, sh := range r.shapes(framesOf(s, d), panelOf(s)) {
		if depth, ok := r.deepest(sh); ok {
			most = math.Max(most, sh.at(depth).GrossM3())
		}
	}
	return most
}

func panelOf(s job.Sub) float64 {
	if s.Box.PanelMM > 0 {
		return s.Box.PanelMM / 1000
	}
	return 0.018
}

// grossOf returns the air that a sub's box must hold inside its panels, m3:
// every chamber and what stands in it.
func grossOf(s job.Sub, portLength float64) float64 {
	return (s.Box.NetL+s.Box.FrontL)/1000 + carpentry.DisplacementOf(s, portLength).Total()
}

// dividerOf returns the thickness of the panel between two chambers, m.
func dividerOf(s job.Sub) float64 {
	if s.Box.FrontL > 0 {
		return panelOf(s)
	}
	return 0
}

// Stand finds how a sub's box is best built in a room: the form, size and
// place that leave the most useful boot. d is one driver of the sub, portMM the
// length of its ports. It is false, with a sentence, where it cannot stand.
func (r Room) Stand(s job.Sub, d driver.Driver, portMM float64) (Outside, bool) {
	f := framesOf(s, d)
	if s.Box.Type == "infinite_baffle" {
		return r.baffle(s, f)
	}
	gross := grossOf(s, portMM/1000)
	type option struct {
		shape
		depth, cost float64
	}
	var options []option
	all := r.shapes(f, panelOf(s))
	for _, sh := range all {
		deepest, ok := r.deepest(sh)
		if !ok {
			continue
		}
		depth := math.Max(sh.depthFor(gross)+dividerOf(s), sh.least)
		if depth > deepest+1e-9 {
			continue
		}
		b := sh.at(depth)
		// Floor taken from front to rear counts beside volume: what is left
		// behind the box is what a shopping bag needs.
		cost := outsideM3(b) * (1 + (sh.x+depth)/r.Space.Length())
		if spare := b.GrossM3() - gross - dividerM3(b, s); spare > exactly*gross {
			// Larger than wanted, for the drivers' sake: only where nothing else
			// is, since it would not play as worked out.
			cost += 1e3 * (1 + spare)
		}
		if sh.fires != "rear" {
			cost *= 1.15 // a cone that lies on its side for ever is better off upright
		}
		options = append(options, option{sh, depth, cost})
	}
	if len(options) == 0 {
		return Outside{Say: r.short(s, d, gross, len(all) > 0)}, false
	}
	sort.SliceStable(options, func(i, j int) bool { return options[i].cost < options[j].cost })
	best := options[0]
	b := best.at(math.Min(best.depth, best.most)).RoundUp(0.001)
	out := r.stood(b, best.shape, s)
	if spare := b.GrossM3() - gross - dividerM3(b, s); spare > holds*gross {
		out.SpareL = 1000 * spare
	}
	return out, true
}

// stood writes down a box that fits.
func (r Room) stood(b carpentry.Box, sh shape, s job.Sub) Outside {
	out := Outside{
		Form: string(b.Form), WidthMM: math.Round(1000 * b.Width), HeightMM: math.Round(1000 * b.Height), DepthMM: math.Round(1000 * b.Depth),
		StandMM: math.Round(1000 * sh.x), Litres: 1000 * outsideM3(b), Passes: true,
	}
	out.LeftL = math.Max(0, 1000*r.BootM3-out.Litres)
	out.LeftPct = 100 * out.LeftL / (1000 * r.BootM3)
	if r.OpeningW > 0 && r.OpeningH > 0 {
		p := b.Pass(r.OpeningW, r.OpeningH, passClearance)
		out.Passes, out.PassSay = p.Passes, p.Say
	}
	front := r.FootMM + 1000*sh.x
	p := job.Place{YMM: math.Round(r.MiddleMM), Fires: sh.fires}
	lean := b.Depth - b.TopDepth()
	switch sh.fires {
	case "up":
		p.XMM, p.ZMM = front+1000*(lean+b.Depth)/2, r.FloorMM+1000*b.Height
	case "down":
		p.XMM, p.ZMM = front+500*b.Depth, r.FloorMM+1000*b.Feet
		p.GapMM = math.Round(1000 * b.Feet)
	default:
		p.XMM, p.ZMM = front+1000*b.Depth, r.FloorMM+500*b.Height
	}
	p.XMM, p.ZMM = math.Round(p.XMM), math.Round(p.ZMM)
	out.Place = p
	name := map[string]string{"cuboid": "box", "wedge": "wedge against the seat back", "slab": "low box on feet, firing down"}[out.Form]
	out.Say = fmt.Sprintf("A %s, %.0f x %.0f x %.0f mm (wide x high x deep); %.0f litres of the boot stay free.",
		name, out.WidthMM, out.HeightMM, out.DepthMM, out.LeftL)
	return out
}

// short says what a box lacks to stand in a room.
func (r Room) short(s job.Sub, d driver.Driver, gross float64, carried bool) string {
	f := framesOf(s, d)
	if most := r.MostGrossM3(s, d); most > 0 {
		return fmt.Sprintf("It would need %s more than the space has.", litres(math.Ceil(1000*(gross-most))))
	}
	if carried {
		return fmt.Sprintf("The shallowest box for it is larger than the %.0f litres that may go, or does not pass the boot opening.", 1000*r.mostM3())
	}
	if f.drivers > 1 {
		return fmt.Sprintf("It is too large for the space: %d drivers with frames of %.0f mm, %.0f mm deep, do not go in.", f.drivers, 1000*f.outside, 1000*f.depth)
	}
	return fmt.Sprintf("It is too large for the space: a driver with a frame of %.0f mm, %.0f mm deep, does not go in.", 1000*f.outside, 1000*f.depth)
}

// mostM3 is the outside volume that may go.
func (r Room) mostM3() float64 {
	if r.MostM3 > 0 {
		return r.MostM3
	}
	return r.Space.M3()
}

// litres writes a whole number of litres.
func litres(v float64) string {
	if v == 1 {
		return "1 litre"
	}
	return fmt.Sprintf("%.0f litres", v)
}
