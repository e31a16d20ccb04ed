package cavity

import (
	"math"
	"math/rand"
	"strings"
	"testing"
)

// Volume and areas against tetrahedra and triangles: the divergence theorem on
// a surface cut into flat triangles. Vertical sides, flat floors and ends are
// flat or, where width changes, bounded by straight lines, so this is exact
// but for floors that slope while the width changes, refined here.
func TestVolumeByDivergence(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 30 {
		s := randomShape(r)
		if s.Validate() != nil {
			continue
		}
		var volume float64
		var areas [NumRegions]float64
		tri := func(g Region, a, b, c Point) {
			u := Point{b.X - a.X, b.Y - a.Y, b.Z - a.Z}
			v := Point{c.X - a.X, c.Y - a.Y, c.Z - a.Z}
			n := Point{u.Y*v.Z - u.Z*v.Y, u.Z*v.X - u.X*v.Z, u.X*v.Y - u.Y*v.X}
			areas[g] += math.Sqrt(n.X*n.X+n.Y*n.Y+n.Z*n.Z) / 2
			volume += (a.X*n.X + a.Y*n.Y + a.Z*n.Z) / 6
		}
		quad := func(g Region, a, b, c, d Point) { tri(g, a, b, c); tri(g, a, c, d) }
		corners := func(st Station) [4]Point { // floor left, floor right, roof right, roof left
			y := st.Width / 2
			return [4]Point{{st.X, -y, st.Floor}, {st.X, y, st.Floor}, {st.X, y, st.Roof}, {st.X, -y, st.Roof}}
		}
		for i := 1; i < len(s.Stations); i++ {
			p, q := corners(s.Stations[i-1]), corners(s.Stations[i])
			for k, g := range []Region{Floor, Sides, Roof, Sides} {
				a, b := (k+1)%4, k
				quad(g, p[a], q[a], q[b], p[b])
			}
		}
		f, l := corners(s.Stations[0]), corners(s.Stations[len(s.Stations)-1])
		quad(Front, f[0], f[3], f[2], f[1])
		quad(Rear, l[0], l[1], l[2], l[3])
		if math.Abs(math.Abs(volume)/s.Volume()-1) > 1e-12 {
			t.Errorf("%v: volume %.12g, by divergence %.12g", s, s.Volume(), volume)
		}
		for g, a := range s.Areas() {
			if math.Abs(a-areas[g]) > 1e-12*(1+a) {
				t.Errorf("%v: area of the %s %.12g, by triangles %.12g", s, Region(g), a, areas[g])
			}
		}
	}
}

// The walls integrated over the elements, for the uniform mode, are the areas.
func TestSurfacesHoldTheAreas(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	for range 10 {
		s := randomShape(r)
		if s.Length() < 0.3 {
			continue
		}
		m, err := Solve(s, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for g, a := range s.Areas() {
			if got := m.wall[g][0] * m.Volume(); math.Abs(got/a-1) > 1e-5 {
				t.Errorf("%s: %.8g m2 over the elements, %.8g by geometry", Region(g), got, a)
			}
		}
	}
}

func TestValidateNamesTheTrouble(t *testing.T) {
	ok := Station{0, 0, 1, 1}
	for want, s := range map[string]Shape{
		"between 2 and":  {[]Station{ok}},
		"high":           {[]Station{ok, {1, 0.5, 0.5, 1}}},
		"wide":           {[]Station{ok, {1, 0, 1, 0}}},
		"not lie behind": {[]Station{ok, {0, 0, 1, 1}}},
		"long":           {[]Station{ok, {0.01, 0, 1, 1}}},
		"not a length":   {[]Station{ok, {1, math.NaN(), 1, 1}}},
	} {
		err := s.Validate()
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v: %v, want a sentence with %q", s, err, want)
		}
		if _, err := Solve(s, Options{}); err == nil {
			t.Errorf("%v was solved", s)
		}
	}
	if err := Cuboid(2.4, 1.4, 1.1).Validate(); err != nil {
		t.Error(err)
	}
}

func TestClampAndContains(t *testing.T) {
	s := Shape{[]Station{{0, 0, 1, 1}, {2, 0.5, 1, 2}}}
	if p := s.Clamp(Point{5, 3, 0}); p != (Point{2, 1, 0.5}) {
		t.Errorf("clamped to %v", p)
	}
	if !s.Contains(Point{1, 0.7, 0.5}) || s.Contains(Point{1, 0.8, 0.5}) || s.Contains(Point{1, 0, 0.2}) {
		t.Error("wrong side of a wall")
	}
}

func FuzzSolve(f *testing.F) {
	f.Add(0.0, 0.2, 0.8, 1.2, 1.0, 0.0, 1.1, 1.3, 1.02, 0.5, 1.0, 1.3)
	f.Add(0.0, 0.0, 0.05, 0.05, 0.001, 0.0, 1.0, 1.3, 3.0, 0.5, 9.0, 20.0)
	f.Fuzz(func(t *testing.T, x0, f0, r0, w0, x1, f1, r1, w1, x2, f2, r2, w2 float64) {
		s := Shape{[]Station{{x0, f0, r0, w0}, {x1, f1, r1, w1}, {x2, f2, r2, w2}}}
		if s.Validate() != nil || s.Volume() > 15 {
			return
		}
		m, err := Solve(s, Options{})
		if err != nil {
			return
		}
		fd, err := m.Field(testAir, Uniform(0.02), []Patch{{Centre: Point{x1, w1, f1}, Area: 0.01}, {Centre: Point{x0, 0, r0}}})
		if err != nil {
			t.Fatal(err)
		}
		for _, z := range fd.Transfer(hertz(10, 100)).Z {
			if math.IsNaN(real(z)+imag(z)) || math.IsInf(real(z)+imag(z), 0) {
				t.Fatalf("Z = %v", z)
			}
		}
	})
}
