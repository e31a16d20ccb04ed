package cavity

import "math"

// Patch is a door of the cavity: a cone, a port mouth, an opening, a leak, or,
// with no area, an ear. The flow is spread evenly over its footprint and the
// pressure averaged over the same.
type Patch struct {
	Centre Point
	// Area of the footprint, m2; zero for a point.
	Area float64
	// Size is the extent of a rectangular footprint along x, y and z, m, of
	// which one is normally zero. Where all are zero the footprint is a disc
	// of the area, flat on the nearest surface.
	Size Point
}

// radius returns that of the disc of equal area.
func (p Patch) radius() float64 { return math.Sqrt(p.Area / math.Pi) }

// weighted is a point with its share of a footprint.
type weighted struct {
	Point
	w float64
}

// footprint returns quadrature points over the patch with weights that sum to
// one, all inside the shape.
func (s Shape) footprint(p Patch) []weighted {
	c := s.Clamp(p.Centre)
	if p.Area <= 0 && p.Size == (Point{}) {
		return []weighted{{c, 1}}
	}
	var pts []weighted
	if p.Size != (Point{}) {
		gx, wx := gauss(3)
		one, unit := []float64{0}, []float64{2}
		pick := func(size float64) ([]float64, []float64) {
			if size > 0 {
				return gx, wx
			}
			return one, unit
		}
		ax, bx := pick(p.Size.X)
		ay, by := pick(p.Size.Y)
		az, bz := pick(p.Size.Z)
		for i := range ax {
			for j := range ay {
				for k := range az {
					q := Point{c.X + ax[i]*p.Size.X/2, c.Y + ay[j]*p.Size.Y/2, c.Z + az[k]*p.Size.Z/2}
					pts = append(pts, weighted{s.Clamp(q), bx[i] * by[j] * bz[k] / 8})
				}
			}
		}
		return pts
	}
	// The seven-point rule of degree 5 on a disc: the centre and a hexagon at
	// sqrt(2/3) of the radius (Abramowitz and Stegun, 1964, 25.4.61).
	u, v := s.tangents(c)
	pts = append(pts, weighted{c, 1.0 / 4})
	r := p.radius() * math.Sqrt(2.0/3)
	for k := range 6 {
		co, si := r*math.Cos(float64(k)*math.Pi/3), r*math.Sin(float64(k)*math.Pi/3)
		q := Point{c.X + co*u.X + si*v.X, c.Y + co*u.Y + si*v.Y, c.Z + co*u.Z + si*v.Z}
		pts = append(pts, weighted{s.Clamp(q), 1.0 / 8})
	}
	return pts
}

// tangents returns two unit vectors that span the surface nearest to c.
func (s Shape) tangents(c Point) (u, v Point) {
	st := s.At(c.X)
	x0, x1 := s.Stations[0].X, s.Stations[len(s.Stations)-1].X
	f, r := s.At(c.X-1e-4), s.At(c.X+1e-4)
	dx := max(r.X-f.X, 1e-9)
	along := func(dy, dz float64) Point {
		n := math.Sqrt(1 + dy*dy + dz*dz)
		return Point{1 / n, dy / n, dz / n}
	}
	best := math.Inf(1)
	try := func(d float64, a, b Point) {
		if d < best {
			best, u, v = d, a, b
		}
	}
	across := Point{0, 1, 0}
	up := Point{0, 0, 1}
	try(c.X-x0, across, up)
	try(x1-c.X, across, up)
	try(c.Z-st.Floor, along(0, (r.Floor-f.Floor)/dx), across)
	try(st.Roof-c.Z, along(0, (r.Roof-f.Roof)/dx), across)
	side := (r.Width - f.Width) / 2 / dx
	try(st.Width/2-c.Y, along(side, 0), up)
	try(st.Width/2+c.Y, along(-side, 0), up)
	return u, v
}
