// Package carpentry turns a wanted air volume into a box that can be cut,
// carried through the boot opening, stood in the boot and held down. Lengths
// are metres, volumes cubic metres, masses kilograms, angles degrees where the
// name says so. A box has its own axes: x rearward from the front edge of its
// footprint, y to the right from its centre line, z up from its underside.
package carpentry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Point is a point of a profile, the side view: x rearward, z up, m.
type Point struct{ X, Z float64 }

// Solid is a closed polyhedron. Each face lists its corners anticlockwise seen
// from outside; faces are flat.
type Solid struct {
	Corners []r3.Vec
	Faces   [][]int
}

// Prism returns the solid between y0 and y1 > y0 with the given profile, its
// corners anticlockwise in the (x, z) plane.
func Prism(profile []Point, y0, y1 float64) Solid {
	n := len(profile)
	s := Solid{Corners: make([]r3.Vec, 2*n)}
	left, right := make([]int, n), make([]int, n)
	for i, p := range profile {
		s.Corners[i] = r3.Vec{X: p.X, Y: y0, Z: p.Z}
		s.Corners[n+i] = r3.Vec{X: p.X, Y: y1, Z: p.Z}
		// x, y, z are right-handed, so seen from -y the (x, z) plane shows its
		// corners anticlockwise.
		left[i], right[i] = i, 2*n-1-i
	}
	s.Faces = append(s.Faces, left, right)
	for i := range n {
		j := (i + 1) % n
		s.Faces = append(s.Faces, []int{i, n + i, n + j, j})
	}
	return s
}

// Volume returns the volume, m3: the sum of signed tetrahedra from the first
// corner, which is exact for any closed polyhedron.
func (s Solid) Volume() float64 {
	v, _ := s.moments()
	return v
}

// Centroid returns the centre of the volume, m.
func (s Solid) Centroid() r3.Vec {
	v, m := s.moments()
	return r3.Scale(1/v, m)
}

// moments returns the volume and its first moment.
func (s Solid) moments() (volume float64, moment r3.Vec) {
	if len(s.Corners) == 0 {
		return 0, r3.Vec{}
	}
	o := s.Corners[0]
	for _, f := range s.Faces {
		for k := 2; k < len(f); k++ {
			a, b, c := s.Corners[f[0]], s.Corners[f[k-1]], s.Corners[f[k]]
			v := r3.Dot(r3.Sub(a, o), r3.Cross(r3.Sub(b, o), r3.Sub(c, o))) / 6
			volume += v
			sum := r3.Add(r3.Add(o, a), r3.Add(b, c))
			moment = r3.Add(moment, r3.Scale(v/4, sum))
		}
	}
	return volume, moment
}

// inset returns a convex profile, anticlockwise, with every edge moved inward
// by d, or false where nothing is left.
func inset(profile []Point, d float64) ([]Point, bool) {
	n := len(profile)
	out := make([]Point, n)
	for i := range n {
		before, at, after := profile[(i+n-1)%n], profile[i], profile[(i+1)%n]
		// Meet of the two edges' lines, each moved along its inward normal.
		p1, d1 := shifted(before, at, d)
		p2, d2 := shifted(at, after, d)
		cross := d1.X*d2.Z - d1.Z*d2.X
		if math.Abs(cross) < 1e-12 {
			return nil, false
		}
		t := ((p2.X-p1.X)*d2.Z - (p2.Z-p1.Z)*d2.X) / cross
		out[i] = Point{p1.X + t*d1.X, p1.Z + t*d1.Z}
	}
	// An edge that has turned round means that the walls meet.
	for i := range n {
		a, b := out[i], out[(i+1)%n]
		p, q := profile[i], profile[(i+1)%n]
		if (b.X-a.X)*(q.X-p.X)+(b.Z-a.Z)*(q.Z-p.Z) <= 0 {
			return nil, false
		}
	}
	return out, true
}

// shifted returns the line through a and b, moved to its left by d: a point
// and a unit direction.
func shifted(a, b Point, d float64) (Point, Point) {
	l := math.Hypot(b.X-a.X, b.Z-a.Z)
	u := Point{(b.X - a.X) / l, (b.Z - a.Z) / l}
	return Point{a.X - d*u.Z, a.Z + d*u.X}, u
}
