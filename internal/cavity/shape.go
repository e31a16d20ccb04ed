package cavity

import (
	"fmt"
	"math"
)

// Station is one cross-section of a cavity: a rectangle from Floor to Roof,
// Width wide and centred on the centre line, at the place X. Metres.
type Station struct {
	X, Floor, Roof, Width float64
}

// Shape is a cavity bounded by straight lines between its stations, by
// vertical sides and by flat ends at the first and the last station.
type Shape struct {
	Stations []Station
}

// Point is a place in a cavity, metres: X from the front, Y to the right of
// the centre line, Z upward.
type Point struct {
	X, Y, Z float64
}

// Limits of what Validate accepts. They keep the element mesh sound and are
// far outside any vehicle.
const (
	minStations = 2
	maxStations = 12
	minGap      = 1e-3 // between two stations, m
	minSpan     = 0.05 // of any length, height or width, m
	maxSpan     = 30.0 // m
)

// Cuboid returns the shape of a plain length x width x height, metres, with
// its floor at height zero.
func Cuboid(length, width, height float64) Shape {
	return Shape{Stations: []Station{
		{X: 0, Floor: 0, Roof: height, Width: width},
		{X: length, Floor: 0, Roof: height, Width: width},
	}}
}

// Validate reports, in a sentence, the first thing that keeps the shape from
// being a cavity.
func (s Shape) Validate() error {
	n := len(s.Stations)
	if n < minStations || n > maxStations {
		return fmt.Errorf("the cavity has %d stations; give between %d and %d", n, minStations, maxStations)
	}
	for i, st := range s.Stations {
		for _, v := range [...]float64{st.X, st.Floor, st.Roof, st.Width} {
			if math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > 1e3 {
				return fmt.Errorf("station %d of the cavity holds a value that is not a length in metres; measure it again", i+1)
			}
		}
		if h := st.Roof - st.Floor; h < minSpan || h > maxSpan {
			return fmt.Errorf("station %d of the cavity is %.3g m high from floor to roof; between %.2g and %.0f m would do", i+1, h, minSpan, maxSpan)
		}
		if st.Width < minSpan || st.Width > maxSpan {
			return fmt.Errorf("station %d of the cavity is %.3g m wide; between %.2g and %.0f m would do", i+1, st.Width, minSpan, maxSpan)
		}
		if i > 0 && st.X-s.Stations[i-1].X < minGap {
			return fmt.Errorf("station %d of the cavity does not lie behind station %d; put it at least %.0f mm further back", i+1, i, minGap*1e3)
		}
	}
	if l := s.Length(); l < minSpan || l > maxSpan {
		return fmt.Errorf("the cavity is %.3g m long; between %.2g and %.0f m would do", l, minSpan, maxSpan)
	}
	return nil
}

// Length returns the distance from the first station to the last, m.
func (s Shape) Length() float64 {
	return s.Stations[len(s.Stations)-1].X - s.Stations[0].X
}

// Volume returns the air volume, m3, exactly: the area of the section is
// quadratic in x between two stations, which Simpson's rule integrates without
// error.
func (s Shape) Volume() float64 {
	var v float64
	for i := 1; i < len(s.Stations); i++ {
		a, b := s.Stations[i-1], s.Stations[i]
		ha, hb := a.Roof-a.Floor, b.Roof-b.Floor
		mid := (a.Width + b.Width) * (ha + hb) / 4
		v += (b.X - a.X) / 6 * (a.Width*ha + 4*mid + b.Width*hb)
	}
	return v
}

// Region is one of the five kinds of surface of a cavity.
type Region int

// The surfaces of a cavity. A steep rise of the floor belongs to the floor.
const (
	Floor Region = iota
	Roof
	Sides
	Front
	Rear
	NumRegions
)

// String returns the name of the region as a reader would say it.
func (r Region) String() string {
	return [...]string{"floor", "roof", "sides", "front", "rear"}[r]
}

// Areas returns the surface area of each region, m2, exactly.
func (s Shape) Areas() [NumRegions]float64 {
	var a [NumRegions]float64
	for i := 1; i < len(s.Stations); i++ {
		p, q := s.Stations[i-1], s.Stations[i]
		dx := q.X - p.X
		w := (p.Width + q.Width) / 2
		a[Floor] += math.Hypot(dx, q.Floor-p.Floor) * w
		a[Roof] += math.Hypot(dx, q.Roof-p.Roof) * w
		h := (p.Roof - p.Floor + q.Roof - q.Floor) / 2
		a[Sides] += 2 * math.Hypot(dx, (q.Width-p.Width)/2) * h
	}
	f, r := s.Stations[0], s.Stations[len(s.Stations)-1]
	a[Front] = f.Width * (f.Roof - f.Floor)
	a[Rear] = r.Width * (r.Roof - r.Floor)
	return a
}

// At returns the section at x, with x clamped to the length of the shape.
func (s Shape) At(x float64) Station {
	n := len(s.Stations)
	if x <= s.Stations[0].X {
		return s.Stations[0]
	}
	for i := 1; i < n; i++ {
		a, b := s.Stations[i-1], s.Stations[i]
		if x <= b.X {
			t := (x - a.X) / (b.X - a.X)
			return Station{
				X:     x,
				Floor: a.Floor + t*(b.Floor-a.Floor),
				Roof:  a.Roof + t*(b.Roof-a.Roof),
				Width: a.Width + t*(b.Width-a.Width),
			}
		}
	}
	return s.Stations[n-1]
}

// Clamp returns p moved straight to the nearest end, side, floor or roof where
// it lies outside the shape: a tape reading a little too long is no reason to
// refuse a job.
func (s Shape) Clamp(p Point) Point {
	st := s.At(p.X)
	return Point{
		X: st.X,
		Y: min(max(p.Y, -st.Width/2), st.Width/2),
		Z: min(max(p.Z, st.Floor), st.Roof),
	}
}

// Contains reports whether p lies inside the shape or on its surface.
func (s Shape) Contains(p Point) bool {
	const slack = 1e-9
	q := s.Clamp(p)
	return math.Abs(p.X-q.X)+math.Abs(p.Y-q.Y)+math.Abs(p.Z-q.Z) <= slack
}
