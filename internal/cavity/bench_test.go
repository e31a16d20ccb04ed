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

func BenchmarkSolve(b *testing.B) {
	for _, name := range []string{"hatch", "offroader", "van", "step", "arches"} {
		s := benchShape(name)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(s, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
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
