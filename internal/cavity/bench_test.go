package cavity

import (
	"math"
	"testing"

	"bootfloor/internal/air"
)

// The air of the benchmarks and tests: 20 C, from the usual handbook values.
var testAir = air.Properties{Density: 1.2041, SpeedOfSound: 343.2, Gamma: 1.4, Viscosity: 1.81e-5, Prandtl: 0.71}

func benchShape(name string) Shape {
	for _, c := range loadReference() {
		if c.Name == name {
			return c.shape()
		}
	}
	panic("no such shape: " + name)
}

// benchDoors is a sub, its port, two door speakers, a leak, a window, three
// seats.
func benchDoors() []Patch {
	return []Patch{
		{Centre: Point{2.5, 0.2, 0.45}, Area: 0.048}, {Centre: Point{2.5, -0.1, 0.4}, Area: 0.008},
		{Centre: Point{0.9, 0.68, 0.35}, Area: 0.013}, {Centre: Point{0.9, -0.68, 0.35}, Area: 0.013},
		{Centre: Point{2.7, 0.4, 0.4}, Area: 0.004}, {Centre: Point{1.1, 0.68, 0.9}, Size: Point{0.5, 0, 0.08}, Area: 0.04},
		{Centre: Point{1.19, 0.36, 0.92}}, {Centre: Point{1.19, -0.36, 0.92}}, {Centre: Point{1.99, 0.35, 0.92}},
	}
}

func benchOmega(n int) []float64 {
	w := make([]float64, n)
	for i := range w {
		w[i] = 2 * math.Pi * 10 * math.Pow(50, float64(i)/float64(n-1))
	}
	return w
}

// The cars that take longest to solve of some hundreds with two and three
// steps of random height, width and place, invented: a long van whose floor
// rises twice and whose roof falls, one with a step of the sides as well, and
// an estate between narrow arches.
var worstCars = map[string]Shape{
	"van_three_steps": {[]Station{{0, 0, 1.5, 1.73}, {0.6, 0, 1.59, 1.73}, {0.62, 0.45, 1.59, 1.71}, {2.38, 0.45, 1.59, 1.71},
		{2.42, 0.75, 1.59, 1.71}, {3.85, 0.75, 1.59, 1.71}, {3.9, 0.75, 1.48, 1.54}, {4.49, 0.75, 1.37, 1.39}}},
	"van_width_step": {[]Station{{0, 0, 1.58, 1.72}, {0.65, 0, 1.65, 1.72}, {0.68, 0.4, 1.65, 1.19}, {1.7, 0.4, 1.65, 1.19},
		{1.74, 0.11, 1.3, 1.19}, {2.42, 0.11, 1.3, 1.19}, {2.47, 0.45, 1.53, 1.19}, {3.51, 0.45, 1.31, 1.09}}},
	"estate_arches": {[]Station{{0, 0.32, 0.86, 1.25}, {0.73, 0, 1.08, 1.36}, {1.52, 0, 1.2, 1.36}, {1.57, 0.24, 1.2, 0.89},
		{2.2, 0.24, 1.2, 0.89}, {2.24, 0.4, 1.18, 0.98}, {2.59, 0.4, 0.98, 0.86}}},
}

func BenchmarkSolve(b *testing.B) {
	solve := func(name string, s Shape) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(s, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	for _, name := range []string{"hatch", "offroader", "van", "step", "arches"} {
		solve(name, benchShape(name))
	}
	for _, name := range []string{"van_three_steps", "van_width_step", "estate_arches"} {
		solve(name, worstCars[name])
	}
}

func BenchmarkField(b *testing.B) {
	m, err := Solve(benchShape("hatch"), Options{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := m.Field(testAir, Uniform(0.03), benchDoors()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTransfer400(b *testing.B) {
	m, err := Solve(benchShape("hatch"), Options{})
	if err != nil {
		b.Fatal(err)
	}
	f, err := m.Field(testAir, Uniform(0.03), benchDoors())
	if err != nil {
		b.Fatal(err)
	}
	w := benchOmega(400)
	for b.Loop() {
		f.Transfer(w)
	}
}

// BenchmarkAll is what a dragged dimension costs: 104 frequencies.
func BenchmarkAll(b *testing.B) {
	s, w := benchShape("hatch"), benchOmega(104)
	for b.Loop() {
		m, err := Solve(s, Options{})
		if err != nil {
			b.Fatal(err)
		}
		f, err := m.Field(testAir, Uniform(0.03), benchDoors())
		if err != nil {
			b.Fatal(err)
		}
		f.Transfer(w)
	}
}

// BenchmarkFreeFEM solves the modes of the hatch with the general-purpose
// package on a mesh that gives about the same error in the first ten as Solve
// (both are printed), start-up and meshing included.
func BenchmarkFreeFEM(b *testing.B) {
	for _, c := range loadReference() {
		if c.Name != "hatch" {
			continue
		}
		worst := func(k func(n int) float64) (w float64) {
			for n := range 10 {
				w = max(w, math.Abs(k(n)/c.ModesHz[n]-1))
			}
			return 100 * w
		}
		var modes []float64
		for b.Loop() {
			modes, _ = freefem(b, c, 0, [3]float64{0.45, 0.2, 0.5}, nil)
		}
		m, err := Solve(c.shape(), Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(worst(func(n int) float64 { return modes[n] }), "%error")
		b.ReportMetric(worst(func(n int) float64 { return m.Wavenumber(n+1) * c.C / (2 * math.Pi) }), "%error-of-Solve")
	}
}
