package design

import (
	"math"

	"bootfloor/internal/carpentry"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
)

// frames is what has to be screwed to a box: the drivers on the face that
// fires and the passive radiators on any face, all taken as circles.
type frames struct {
	drivers, radiators int
	outside            float64 // m, diameter of a driver's frame
	radiator           float64 // m
	depth              float64 // m, behind the face
	sags               bool    // the cone would hang too low fired up or down
	gap                float64 // m under a cone that fires down
}

// Where a driver's maker does not say: frame and depth over the diameter of
// the cone. The shares are those of the typical drivers; common practice, no
// source.
const (
	frameShare = 1.3
	depthShare = 0.73
	// behind is the air that a magnet wants behind it, m; common practice.
	behind = 0.02
	// mostSag is the share of Xmax that a cone may hang out of its middle.
	mostSag = 0.15
)

// framesOf measures what a sub's box has to carry; d is one of its drivers.
func framesOf(s job.Sub, d driver.Driver) frames {
	cone := 2 * math.Sqrt(d.Sd/math.Pi)
	f := frames{drivers: max(s.Series, 1) * max(s.Parallel, 1), outside: d.Outside, depth: d.Depth}
	if f.outside <= 0 {
		f.outside = frameShare * cone
	}
	if f.depth <= 0 {
		f.depth = depthShare * cone
	}
	f.sags = d.Xmax > 0 && d.Sag() > mostSag*d.Xmax
	// The ring of air under the edge of the cone as large as the cone itself,
	// pi d h = pi d^2/4, and never under 50 mm: common practice, no source.
	f.gap = math.Max(cone/4, 0.05)
	if p := s.Box.Passive; s.Box.Type == "passive_radiator" && p != nil {
		f.radiators = max(p.Count, 1)
		f.radiator = frameShare * 2 * math.Sqrt(p.SdCM2*1e-4/math.Pi)
	}
	return f
}

// shape is one way to build a box: everything but its depth.
type shape struct {
	box   carpentry.Box
	fires string
	x     float64 // front foot, m from the front of the space
	least float64 // depth that the driver needs, m
	most  float64 // depth that stands there, m
}

// shapes lists the ways to build a box in a room for what it has to carry, in
// a fixed raster of heights and widths.
func (r Room) shapes(f frames, panel float64) []shape {
	var out []shape
	top := 0.0
	for _, c := range r.Space.Ceiling {
		top = math.Max(top, c.Z)
	}
	margin := 2*panel + 0.01
	depth := f.depth + behind + panel
	const rows = 7
	widest := r.Space.Width - spareSide
	widths := []float64{widest, 0.85 * widest, 0.7 * widest, 0.55 * widest, 0.42 * widest, 0.32 * widest}
	// And as narrow as the frames in a row allow, where the least box is.
	if least := f.narrowest(margin); least < widest {
		widths = append(widths, least)
	}
	add := func(form carpentry.Form, fires string, leastH float64) {
		feet := 0.0
		if form == carpentry.Slab {
			feet = f.gap
		}
		highest := top - feet
		if highest < leastH {
			return
		}
		for i := range rows {
			h := leastH + (highest-leastH)*float64(i)/(rows-1)
			for _, width := range widths {
				b := carpentry.Box{Form: form, Width: math.Floor(1000*width+1e-6) / 1000, Height: math.Min(math.Ceil(1000*h), math.Floor(1000*highest)) / 1000, Panel: panel, Feet: feet}
				s := shape{box: b, fires: fires, least: depth}
				if form == carpentry.Wedge {
					s.box.SlopeDeg = r.SlopeDeg
					s.most = r.Space.Length()
					// The magnet, half as wide as the frame, sits half way up, where
					// the wedge is thinner.
					s.least += (h/2 + f.outside/4) * math.Tan(r.SlopeDeg*math.Pi/180)
				} else {
					x, ok := r.clear(h + feet)
					if !ok {
						continue
					}
					s.x, s.most = x, r.Space.Length()-x
				}
				if fires != "rear" {
					s.least = f.outside + margin
				}
				s.most = math.Floor(1000*s.most-0.5) / 1000
				const step = 0.01
				for s.least <= s.most && !s.carries(f, margin, s.least) {
					s.least += step
				}
				if s.least <= s.most {
					out = append(out, s)
				}
			}
		}
	}
	add(carpentry.Cuboid, "rear", f.outside+margin)
	if r.SlopeDeg >= 3 {
		add(carpentry.Wedge, "rear", f.outside+margin)
	}
	if !f.sags {
		add(carpentry.Cuboid, "up", depth)
		add(carpentry.Slab, "down", depth)
	}
	return out
}

// narrowest returns the least width of a face with the drivers in a row, m, in
// whole millimetres.
func (f frames) narrowest(margin float64) float64 {
	w := math.Max(f.outside+margin, float64(f.drivers)*(f.outside+beside))
	return math.Ceil(1000*w-1e-6) / 1000
}

// spareSide is left over across the boot, so that a box goes in and comes out,
// m. Common practice.
const spareSide = 0.01

// beside is the wood between two frames, and half of it outside the last, m.
// Common practice, no source.
const beside = 0.02

// carries tells whether the faces of a shape so deep have room for every frame:
// the drivers in a row on the face that fires, radiators in rows wherever there
// is room.
func (s shape) carries(f frames, margin, depth float64) bool {
	row := func(a, b, d float64) int { return rowOf(a, b, d, margin) }
	w, h := s.box.Width, s.box.Height
	if s.fires != "rear" {
		h = s.at(depth).TopDepth()
	}
	onFace := row(w, h, math.Max(f.outside, f.radiator))
	if row(w, h, f.outside) < f.drivers {
		return false
	}
	if f.radiators == 0 || onFace >= f.drivers+f.radiators {
		return true
	}
	// Top and both sides, or front and sides of one that fires up.
	top := s.at(depth).TopDepth()
	return row(w, top, f.radiator)+2*row(top, s.box.Height, f.radiator) >= f.radiators
}

// rowOf is how many circles of diameter d go in a row on a face a by b.
func rowOf(a, b, d, margin float64) int {
	if d+margin > math.Min(a, b)+1e-9 {
		return 0
	}
	return int((math.Max(a, b) + 1e-9) / (d + beside))
}

// at returns the shape's box at a depth.
func (s shape) at(depth float64) carpentry.Box {
	b := s.box
	b.Depth = depth
	return b
}

// depthFor returns the depth that holds gross m3: the air inside grows in
// proportion to the depth.
func (s shape) depthFor(gross float64) float64 {
	face := (s.box.Width - 2*s.box.Panel) * (s.box.Height - 2*s.box.Panel)
	return s.most + (gross-s.at(s.most).GrossM3())/face
}
