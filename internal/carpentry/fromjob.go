package carpentry

import (
	"math"

	"bootfloor/internal/job"
)

// FromJob returns the box of a sub as its document has it, with the slope of a
// wedge taken from the boot's seat back and a slab's feet from the gap under
// the cone. An empty form is a cuboid. Sides that are zero are not drawn yet:
// give the result to Size.
func FromJob(s job.Sub, boot job.Boot) Box {
	b := Box{
		Form:  Form(s.Box.Form),
		Width: s.Box.WidthMM / 1000, Height: s.Box.HeightMM / 1000, Depth: s.Box.DepthMM / 1000,
		Panel: s.Box.PanelMM / 1000,
	}
	switch b.Form {
	case "":
		b.Form = Cuboid
	case Wedge:
		b.SlopeDeg = boot.SeatSlopeDeg
	case Slab:
		b.Feet = s.Place.GapMM / 1000
	}
	return b
}

// DisplacementOf returns what stands in the air of a sub's box: its drivers as
// stated, else estimated from cut-out and depth; its ports, portLength m long
// where the document leaves the length open, with walls as thick as the panels
// for slots and 4 mm for tubes (common practice, no source); braces as a share
// of the wanted air. Of an isobaric pair one driver counts.
func DisplacementOf(s job.Sub, portLength float64) Displacement {
	count := max(s.Series, 1) * max(s.Parallel, 1)
	if s.Box.Isobaric {
		count = (count + 1) / 2
	}
	value := func(p *float64) float64 {
		if p == nil {
			return 0
		}
		return *p
	}
	var d Displacement
	if v := value(s.Driver.VolumeL); v > 0 {
		d.Driver = float64(count) * v / 1000
	} else {
		d.Driver = DriverM3(value(s.Driver.CutOutMM)/1000, value(s.Driver.DepthMM)/1000, count)
	}
	air := s.Box.NetL / 1000
	const tubeWall = 0.004
	for _, p := range []*job.Port{s.Box.Port, s.Box.Front} {
		if p == nil {
			continue
		}
		wall := tubeWall
		if p.Shape == "slot" {
			wall = s.Box.PanelMM / 1000
		}
		length := portLength
		if p.LengthMM > 0 {
			length = p.LengthMM / 1000
		}
		d.Port += PortM3(*p, length, wall)
	}
	if s.Box.FrontL > 0 {
		air += s.Box.FrontL / 1000
	}
	d.Bracing = BracingShare * math.Max(0, air)
	return d
}
