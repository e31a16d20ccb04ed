package carpentry

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.9g, want %.9g within %g", what, got, want, tol)
	}
}

func nearVec(t *testing.T, what string, got, want r3.Vec, tol float64) {
	t.Helper()
	if !(r3.Norm(r3.Sub(got, want)) <= tol) {
		t.Errorf("%s: got %v, want %v within %g", what, got, want, tol)
	}
}

// The elementary solids of school geometry.
func TestKnownSolids(t *testing.T) {
	cube := Prism([]Point{{0, 0}, {2, 0}, {2, 3}, {0, 3}}, 1, 5)
	near(t, "cuboid", cube.Volume(), 24, 1e-12)
	nearVec(t, "its centre", cube.Centroid(), r3.Vec{X: 1, Y: 3, Z: 1.5}, 1e-12)
	tri := Prism([]Point{{0, 0}, {3, 0}, {0, 6}}, 0, 1)
	near(t, "triangular prism", tri.Volume(), 9, 1e-12)
	nearVec(t, "its centre", tri.Centroid(), r3.Vec{X: 1, Y: .5, Z: 2}, 1e-12)
	tetra := Solid{
		Corners: []r3.Vec{{}, {X: 1}, {Y: 1}, {Z: 1}},
		Faces:   [][]int{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}},
	}
	near(t, "tetrahedron", tetra.Volume(), 1./6, 1e-15)
	nearVec(t, "its centre", tetra.Centroid(), r3.Vec{X: .25, Y: .25, Z: .25}, 1e-15)
}

// Volume and centre do not change their meaning when the solid is turned and
// moved: the formula has no preferred origin.
func TestSolidMoves(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 20 {
		b := randomWedge(rng)
		s := b.Outside()
		v, c := s.Volume(), s.Centroid()
		turn := r3.NewRotation(rng.Float64()*6, r3.Vec{X: rng.Float64(), Y: rng.Float64(), Z: 1})
		by := r3.Vec{X: rng.Float64() * 5, Y: -3, Z: rng.Float64()}
		moved := Solid{Faces: s.Faces}
		for _, p := range s.Corners {
			moved.Corners = append(moved.Corners, r3.Add(turn.Rotate(p), by))
		}
		near(t, "volume", moved.Volume(), v, 1e-12)
		nearVec(t, "centre", moved.Centroid(), r3.Add(turn.Rotate(c), by), 1e-10)
	}
}

func randomWedge(rng *rand.Rand) Box {
	for {
		b := Box{
			Form: Wedge, Width: .3 + rng.Float64(), Height: .2 + .4*rng.Float64(),
			Depth: .2 + .5*rng.Float64(), SlopeDeg: 45 * rng.Float64(), Panel: .012 + .013*rng.Float64(),
		}
		if b.Check() == nil {
			return b
		}
	}
}

// insideBy reports whether a point lies at least d inside every face of a box:
// the definition of the shell, independent of any polygon.
func insideBy(b Box, p r3.Vec, d float64) bool {
	a := b.slope()
	return p.Z >= d && p.Z <= b.Height-d && p.X <= b.Depth-d &&
		math.Abs(p.Y) <= b.Width/2-d &&
		p.X*math.Cos(a)-p.Z*math.Sin(a) >= d
}

// Volumes and centres of outside and inside against quasi-Monte Carlo
// integration of the definition above: the additive sequence of the root of
// x^4 = x + 1, a low-discrepancy set.
func TestBoxAgainstPoints(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	const g = 1.2207440846057594759753616853491 // x^4 = x + 1
	for range 3 {
		b := randomWedge(rng)
		const n = 400000
		var count [2]float64
		var sum [2]r3.Vec
		for i := range n {
			frac := func(step float64) float64 { _, f := math.Modf(.5 + float64(i)*step); return f }
			p := r3.Vec{X: b.Depth * frac(1/g), Y: b.Width * (frac(1/(g*g)) - .5), Z: b.Height * frac(1/(g*g*g))}
			for m, d := range []float64{0, b.Panel} {
				if insideBy(b, p, d) {
					count[m]++
					sum[m] = r3.Add(sum[m], p)
				}
			}
		}
		whole := b.Depth * b.Width * b.Height
		for m, s := range []Solid{b.Outside(), b.Inside()} {
			if m == 1 {
				near(t, "gross", b.GrossM3(), s.Volume(), 1e-15)
			}
			near(t, "volume ratio", count[m]*whole/n/s.Volume(), 1, 5e-4)
			nearVec(t, "centre", r3.Scale(1/count[m], sum[m]), s.Centroid(), 3e-4)
		}
	}
}

// Closed forms: an outer trapezoid times the width; inside a cuboid all three
// sides shrink by two panels.
func TestBoxClosedForms(t *testing.T) {
	b := Box{Form: Cuboid, Width: .6, Height: .35, Depth: .4, Panel: .018}
	near(t, "inside", b.GrossM3(), .564*.314*.364, 1e-15)
	near(t, "outside", b.Outside().Volume(), .6*.35*.4, 1e-15)
	w := Box{Form: Wedge, Width: .6, Height: .35, Depth: .4, SlopeDeg: 20, Panel: .018}
	near(t, "wedge", w.Outside().Volume(), .6*.35*(.4+.4-.35*math.Tan(20*math.Pi/180))/2, 1e-15)
	w.SlopeDeg = 0
	near(t, "upright wedge", w.GrossM3(), b.GrossM3(), 1e-15)
}

func TestBoxRefusals(t *testing.T) {
	good := Box{Form: Wedge, Width: .6, Height: .35, Depth: .4, SlopeDeg: 20, Panel: .018}
	if err := good.Check(); err != nil {
		t.Fatal(err)
	}
	for name, edit := range map[string]func(*Box){
		"form":      func(b *Box) { b.Form = "sphere" },
		"width":     func(b *Box) { b.Width = .03 },
		"no height": func(b *Box) { b.Height = 0 },
		"nan":       func(b *Box) { b.Depth = math.NaN() },
		"slope":     func(b *Box) { b.SlopeDeg = 80 },
		"pointed":   func(b *Box) { b.SlopeDeg = 50 },
		"thick":     func(b *Box) { b.Panel = .2 },
		"feet":      func(b *Box) { b.Form = Slab; b.Feet = math.Inf(1) },
	} {
		b := good
		edit(&b)
		if b.Check() == nil {
			t.Errorf("%s accepted", name)
		}
		if v := b.GrossM3(); v != 0 {
			t.Errorf("%s: gross %g", name, v)
		}
	}
}
