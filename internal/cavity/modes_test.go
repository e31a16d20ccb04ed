package cavity

import (
	"math"
	"math/rand"
	"testing"
)

func frequencies(t *testing.T, s Shape, c float64, n int, o Options) []float64 {
	t.Helper()
	m, err := solve(s, o.filled(s.Volume()))
	if err != nil {
		t.Fatal(err)
	}
	var f []float64
	for i := 1; i < m.Len() && i <= n; i++ {
		f = append(f, m.Wavenumber(i)*c/(2*math.Pi))
	}
	if len(f) < n {
		t.Fatalf("%d modes below the cut-off, want %d", len(f), n)
	}
	return f
}

func within(t *testing.T, name string, got, want []float64, tol float64) {
	t.Helper()
	for i := range want {
		if d := got[i]/want[i] - 1; math.Abs(d) > tol {
			t.Errorf("%s: mode %d is %.6g, want %.6g: off by %+.2e", name, i+1, got[i], want[i], d)
		}
	}
}

func TestBoxModes(t *testing.T) {
	// M. Long, Architectural Acoustics, 2nd ed., Table 8.1: a room of 7 x 5 x 3 m,
	// printed to 0.1 Hz; its speed of sound is reproduced by 344.7 m/s.
	printed := []float64{24.6, 34.5, 42.4, 49.2, 57.4, 60.1}
	orders := [][3]int{{1, 0, 0}, {0, 1, 0}, {1, 1, 0}, {2, 0, 0}, {0, 0, 1}, {2, 1, 0}}
	box := BoxModes(7, 5, 3, 1.3)
	for i, f := range printed {
		if box[i+1].Order != orders[i] {
			t.Errorf("mode %d has order %v, want %v", i+1, box[i+1].Order, orders[i])
		}
		if got := box[i+1].K * 344.7 / (2 * math.Pi); math.Abs(got-f) > 0.06 {
			t.Errorf("mode %d at %.2f Hz, printed %.1f", i+1, got, f)
		}
	}
	got := frequencies(t, Cuboid(7, 5, 3), 344.7, 6, Options{Cut: 1.3})
	for i, f := range printed {
		if math.Abs(got[i]-f) > 0.06 {
			t.Errorf("solved mode %d at %.2f Hz, printed %.1f", i+1, got[i], f)
		}
	}
	// 2.4 x 1.4 x 1.1 m at c = 343 m/s; plain arithmetic.
	within(t, "2.4 x 1.4 x 1.1", frequencies(t, Cuboid(2.4, 1.4, 1.1), 343, 6, Options{}),
		[]float64{71.4583, 122.5, 141.8187, 142.9167, 155.9091, 171.5049}, 5e-4)
	// Twenty random boxes, all modes to twice the working range.
	r := rand.New(rand.NewSource(1))
	for range 20 {
		l, w, h := 1+3*r.Float64(), 0.9+r.Float64(), 0.7+r.Float64()
		var want []float64
		for _, b := range BoxModes(l, w, h, defaultCut)[1:] {
			want = append(want, b.K*343.2/(2*math.Pi))
		}
		if len(want) > 10 {
			want = want[:10]
		}
		within(t, "random box", frequencies(t, Cuboid(l, w, h), 343.2, len(want), Options{}), want, 2e-3)
	}
}

// A cube has threefold modes, which a single Krylov sequence cannot tell apart.
func TestCube(t *testing.T) {
	k := math.Pi / 1.5
	got := frequencies(t, Cuboid(1.5, 1.5, 1.5), 2*math.Pi, 9, Options{Longest: 0.5})
	for i, q := range []float64{1, 1, 1, math.Sqrt2, math.Sqrt2, math.Sqrt2, math.Sqrt(3), 2, 2} {
		if d := got[i]/(q*k) - 1; math.Abs(d) > 4e-3 {
			t.Errorf("mode %d: k = %.5f, want %.5f", i+1, got[i], q*k)
		}
	}
}

// Triangles with known Neumann eigenvalues, as thin prisms: the right
// isosceles one (half of a square) with legs of 1 m in the side view, the
// equilateral one (G. Lame, 1852) of side 1 m in plan.
func TestTriangles(t *testing.T) {
	const tip = 1e-3
	o := Options{Cut: 9, Degree: 7, XDegree: 5, Longest: 0.34}
	right := Shape{[]Station{{0, 0, 1, 0.1}, {1 - tip, 0, tip, 0.1}}}
	within(t, "right isosceles", frequencies(t, right, 2*math.Pi, 4, o),
		[]float64{math.Pi, math.Pi * math.Sqrt2, 2 * math.Pi, math.Pi * math.Sqrt(5)}, 1e-3)
	h := math.Sqrt(3) / 2
	equal := Shape{[]Station{{0, 0, 0.1, tip}, {h * (1 - tip), 0, 0.1, 1}}}
	within(t, "equilateral", frequencies(t, equal, 2*math.Pi, 5, o),
		[]float64{4.188790, 4.188790, 7.255197, 8.377580, 8.377580}, 1e-3)
}

// L-shapes by a step of two millimetres. The three unit squares: eigenvalues
// 1.47562, 3.53403, pi^2, pi^2, 11.38948 (M. Dauge, benchmark for Maxwell and
// Neumann eigenvalues, 2003). The cabin and boot profile 2.2 x 1.15 m and 0.9 x
// 0.55 m: 59.10, 99.17, 150.94, 160.13 Hz at 343 m/s, recomputed by particular
// solutions and by extrapolated bilinear elements.
func TestLShapes(t *testing.T) {
	const e = 1e-3
	squares := Shape{[]Station{{0, 0, 2, 0.2}, {1 - e, 0, 2, 0.2}, {1 + e, 0, 1, 0.2}, {2, 0, 1, 0.2}}}
	var want []float64
	for _, l := range []float64{1.47562182, 3.53403137, math.Pi * math.Pi, math.Pi * math.Pi, 11.3894794} {
		want = append(want, math.Sqrt(l))
	}
	within(t, "three squares", frequencies(t, squares, 2*math.Pi, 5, Options{}), want, 2e-3)
	for name, s := range map[string]Shape{
		"roof falls":  {[]Station{{0, 0, 1.15, 0.5}, {2.2 - e, 0, 1.15, 0.5}, {2.2 + e, 0, 0.55, 0.5}, {3.1, 0, 0.55, 0.5}}},
		"floor rises": {[]Station{{0, 0, 1.15, 0.5}, {2.2 - e, 0, 1.15, 0.5}, {2.2 + e, 0.6, 1.15, 0.5}, {3.1, 0.6, 1.15, 0.5}}},
		"backwards":   {[]Station{{0, 0.6, 1.15, 0.5}, {0.9 - e, 0.6, 1.15, 0.5}, {0.9 + e, 0, 1.15, 0.5}, {3.1, 0, 1.15, 0.5}}},
		// The same profile lying on its side: half of it, mirrored, has the
		// even modes only of the whole; so compare those that are even.
	} {
		within(t, name, frequencies(t, s, 343, 4, Options{}), []float64{59.10, 99.17, 150.94, 160.13}, 1.5e-3)
	}
	// In plan, folded about the centre line.
	plan := Shape{[]Station{{0, 0, 0.5, 2.3}, {2.2 - e, 0, 0.5, 2.3}, {2.2 + e, 0, 0.5, 1.1}, {3.1, 0, 0.5, 1.1}}}
	m, err := Solve(plan, Options{})
	if err != nil {
		t.Fatal(err)
	}
	var even []float64
	for n := 1; n < m.Len(); n++ {
		if !m.Odd(n) {
			even = append(even, m.Wavenumber(n)*343/(2*math.Pi))
		}
	}
	within(t, "in plan", even, []float64{59.10, 99.17, 150.94, 160.13}, 1.5e-3)
}

// Modes are orthogonal with mean square one, and a mirrored car has the same.
func TestModesAreNormal(t *testing.T) {
	s := Shape{[]Station{{0, 0.2, 0.8, 1.2}, {0.7, 0, 1.1, 1.36}, {1.9, 0, 1.16, 1.36}, {1.92, 0.48, 1.15, 1.36}, {2.75, 0.48, 0.9, 1.1}}}
	m, err := Solve(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	gx, wx := gauss(8)
	n := m.Len()
	gram := make([]float64, n*n)
	phi := make([]float64, n)
	for i := 1; i < len(s.Stations); i++ {
		a, b := s.Stations[i-1], s.Stations[i]
		// Cut each interval as the mesh does not, to be independent of it.
		for part := range 4 {
			for g, t := range gx {
				x := a.X + (b.X-a.X)*(float64(part)+(1+t)/2)/4
				st := s.At(x)
				for h, u := range gx {
					for q, v := range gx {
						p := Point{x, u * st.Width / 2, (st.Floor + st.Roof + v*(st.Roof-st.Floor)) / 2}
						m.values(p, phi)
						w := wx[g] * (b.X - a.X) / 8 * wx[h] * st.Width / 2 * wx[q] * (st.Roof - st.Floor) / 2
						for j := range n {
							for k := range n {
								gram[j*n+k] += w * phi[j] * phi[k] / m.Volume()
							}
						}
					}
				}
			}
		}
	}
	for j := range n {
		for k := range n {
			want := 0.0
			if j == k {
				want = 1
			}
			if math.Abs(gram[j*n+k]-want) > 2e-3 {
				t.Errorf("mean of phi_%d phi_%d is %.5f", j, k, gram[j*n+k])
			}
		}
	}
	back := Shape{}
	for i := len(s.Stations) - 1; i >= 0; i-- {
		st := s.Stations[i]
		st.X = 2.75 - st.X
		back.Stations = append(back.Stations, st)
	}
	var want []float64
	for i := 1; i <= 10; i++ {
		want = append(want, m.Wavenumber(i))
	}
	within(t, "mirrored", frequencies(t, back, 2*math.Pi, 10, Options{}), want, 2e-4)
}

// Random shapes with steps all settle, and their frequencies rise.
func TestRandomShapesSettle(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for range 60 {
		s := randomShape(r)
		if s.Length() < 0.3 {
			continue
		}
		m, err := Solve(s, Options{})
		if err != nil {
			t.Fatalf("%v: %v", s, err)
		}
		if m.Wavenumber(0) != 0 {
			t.Errorf("the lowest mode has k = %g", m.Wavenumber(0))
		}
		for n := 1; n < m.Len(); n++ {
			if !(m.Wavenumber(n) >= m.Wavenumber(n-1)) || m.Wavenumber(n) < 0.05 {
				t.Errorf("%v: mode %d has k = %g after %g", s, n, m.Wavenumber(n), m.Wavenumber(n-1))
			}
		}
	}
}

func randomShape(r *rand.Rand) Shape {
	var s Shape
	x := 0.0
	for range 2 + r.Intn(7) {
		f := r.Float64() * 0.5
		s.Stations = append(s.Stations, Station{x, f, f + 0.3 + r.Float64(), 0.9 + r.Float64()*0.9})
		if r.Intn(3) == 0 {
			x += 0.01 + 0.04*r.Float64()
		} else {
			x += 0.2 + 0.6*r.Float64()
		}
	}
	return s
}

// values fills phi with all modes at a point.
func (m *Modes) values(p Point, phi []float64) {
	p = m.shape.Clamp(p)
	var l [2]load
	for par := range l {
		l[par] = m.halves[par].sp.load(p)
	}
	for i, r := range m.order {
		phi[i] = l[r.par].dot(m.halves[r.par].vecs[r.index])
	}
}

// The slopes of the modes against central differences, on both sides of the
// centre plane and in every layer.
func TestGradients(t *testing.T) {
	for _, name := range []string{"arches", "hatch"} {
		m, err := Solve(benchShape(name), Options{})
		if err != nil {
			t.Fatal(err)
		}
		n := m.Len()
		phi, lo, hi := make([]float64, n), make([]float64, n), make([]float64, n)
		grad := [][]float64{make([]float64, n), make([]float64, n), make([]float64, n)}
		for _, p := range []Point{{1.2, 0.3, 0.6}, {1.2, -0.3, 0.6}, {1.1, 0.6, 0.9}, {1.1, -0.6, 0.2}, {2.5, -0.2, 0.4}, {0.3, 0.1, 0.5}} {
			m.gradients(p, phi, grad)
			for axis, step := range []Point{{X: 1e-5}, {Y: 1e-5}, {Z: 1e-5}} {
				m.values(Point{p.X - step.X, p.Y - step.Y, p.Z - step.Z}, lo)
				m.values(Point{p.X + step.X, p.Y + step.Y, p.Z + step.Z}, hi)
				for i := range n {
					if d := (hi[i]-lo[i])/2e-5 - grad[axis][i]; math.Abs(d) > 1e-6 {
						t.Errorf("%s: mode %d at %v: the slope along axis %d is off by %g", name, i, p, axis, d)
					}
					if d := (hi[i]+lo[i])/2 - phi[i]; math.Abs(d) > 1e-6 {
						t.Errorf("%s: mode %d at %v: the value is off by %g", name, i, p, d)
					}
				}
			}
		}
	}
}
