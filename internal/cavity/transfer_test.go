package cavity

import (
	"math"
	"math/cmplx"
	"math/rand"
	"testing"

	"bootfloor/internal/air"
)

// Air without viscosity: walls as hard as they are told to be.
var idealAir = air.Properties{Density: 1.2041, SpeedOfSound: 343.2}

func fieldOf(t *testing.T, s Shape, o Options, a Absorption, doors ...Patch) *Field {
	t.Helper()
	m, err := Solve(s, o)
	if err != nil {
		t.Fatal(err)
	}
	f, err := m.Field(idealAir, a, doors)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func hertz(f ...float64) []float64 {
	w := make([]float64, len(f))
	for i, v := range f {
		w[i] = 2 * math.Pi * v
	}
	return w
}

// A source over the whole section of a closed tube, 2.5 m long, 1.6 m2, at
// 0.2 m, receiver at 1.7 m: p/U = -j rho c/S cos(k x<) cos(k (L - x>))/sin(k L).
func TestTube(t *testing.T) {
	const l, area, x0, x1 = 2.5, 1.6, 0.2, 1.7
	f := fieldOf(t, Cuboid(l, 1.6, 1), Options{}, Absorption{},
		Patch{Centre: Point{x0, 0, 0.5}, Size: Point{0, 1.6, 1}}, Patch{Centre: Point{x1, 0.1, 0.3}})
	hz := []float64{10, 30, 50, 90}
	z := f.Transfer(hertz(hz...))
	for i, v := range hz {
		k := 2 * math.Pi * v / 343.2
		want := -1.2041 * 343.2 / area * math.Cos(k*x0) * math.Cos(k*(l-x1)) / math.Sin(k*l)
		if got := z.At(i, 1, 0); cmplx.Abs(got-complex(0, want)) > 1e-3*math.Abs(want) {
			t.Errorf("%g Hz: %.5g, closed form %.5gj", v, got, want)
		}
	}
}

// The same tube with absorbing ends of specific admittance beta: travelling
// waves with reflection (1 - beta)/(1 + beta) at each end, exactly.
func TestTubeWithAbsorbingEnds(t *testing.T) {
	const l, area, x0, x1 = 2.6, 1.54, 0.3, 2.1
	// The dropped modes do not feel the absorption: an error that grows with it.
	for beta, tol := range map[float64]float64{0.005: 0.01, 0.02: 0.01, 0.06: 0.03, 0.2: 0.1} {
		var a Absorption
		a.Region[Front].At100, a.Region[Rear].At100 = beta, beta
		f := fieldOf(t, Cuboid(l, 1.4, 1.1), Options{}, a,
			Patch{Centre: Point{x0, 0, 0.55}, Size: Point{0, 1.4, 1.1}}, Patch{Centre: Point{x1, 0.1, 0.3}})
		var hz []float64
		for v := 10.0; v <= 150; v += 2.5 {
			hz = append(hz, v)
		}
		z := f.Transfer(hertz(hz...))
		for i, v := range hz {
			k := 2 * math.Pi * v / 343.2
			r := complex((1-beta)/(1+beta), 0)
			e := func(x float64) complex128 { return cmplx.Exp(complex(0, -k*x)) }
			want := 1.2041 * 343.2 / (2 * area) * (1 + r*e(2*x0)) * (1 + r*e(2*(l-x1))) / (1 - r*r*e(2*l)) * e(x1-x0)
			// beside rho c/S = 268 Pa s/m3
			if d := cmplx.Abs(z.At(i, 1, 0) - want); d > tol*(cmplx.Abs(want)+25) {
				t.Errorf("beta %g, %g Hz: %.5g, closed form %.5g", beta, v, z.At(i, 1, 0), want)
			}
		}
	}
}

// boxSum is the textbook sum over the modes of a rigid cuboid, centred on
// y = 0, for two rectangular doors, up to the wavenumber top.
func boxSum(l, w, h float64, p, q Patch, k, top float64) float64 {
	sinc := func(x float64) float64 {
		if x == 0 {
			return 1
		}
		return math.Sin(x) / x
	}
	table := func(length, c, cs, d, ds float64) []float64 {
		out := make([]float64, int(top*length/math.Pi)+1)
		for n := range out {
			kn := math.Pi * float64(n) / length
			out[n] = math.Cos(kn*c) * sinc(kn*cs/2) * math.Cos(kn*d) * sinc(kn*ds/2)
			if n > 0 {
				out[n] *= 2
			}
		}
		return out
	}
	a := table(l, p.Centre.X, p.Size.X, q.Centre.X, q.Size.X)
	b := table(w, p.Centre.Y+w/2, p.Size.Y, q.Centre.Y+w/2, q.Size.Y)
	c := table(h, p.Centre.Z, p.Size.Z, q.Centre.Z, q.Size.Z)
	sq := func(n int, length float64) float64 { return math.Pow(math.Pi*float64(n)/length, 2) }
	var sum float64
	for i := range a {
		for j := range b {
			for n := range c {
				q := sq(i, l) + sq(j, w) + sq(n, h)
				if q > top*top {
					break
				}
				sum += a[i] * b[j] * c[n] / (q - k*k)
			}
		}
	}
	return sum / (l * w * h)
}

// Cross and self terms of doors on the walls against the sum over some hundred
// thousand modes; the self term less the piston's near field by convention.
func TestBoxSum(t *testing.T) {
	const l, w, h = 2.4, 1.4, 1.1
	doors := []Patch{
		{Centre: Point{2.4, 0.2, 0.4}, Area: 0.04, Size: Point{0, 0.2, 0.2}},
		{Centre: Point{2.4, 0.55, 0.15}, Area: 0.04, Size: Point{0, 0.2, 0.2}},
		{Centre: Point{2.0, 0.1, 0}, Area: 0.04, Size: Point{0.2, 0.2, 0}},
		{Centre: Point{0.8, 0.7, 0.4}, Area: 0.04, Size: Point{0.2, 0, 0.2}},
	}
	f := fieldOf(t, Cuboid(l, w, h), Options{}, Absorption{}, doors...)
	hz := []float64{20, 60, 110}
	z := f.Transfer(hertz(hz...))
	for n, v := range hz {
		k := 2 * math.Pi * v / 343.2
		for i := range doors {
			for j := range i + 1 {
				got := imag(z.At(n, i, j)) / (2 * math.Pi * v * 1.2041)
				want := boxSum(l, w, h, doors[i], doors[j], k, 220)
				tol := 0.015 // 1/m, beside a near field of 2.4
				if i == j {
					want -= nearField(1, doors[i].Area)
					tol = 0.06
				}
				if math.Abs(got-want) > tol {
					t.Errorf("%g Hz, doors %d %d: inertance %.4f rho, sum of modes %.4f", v, i, j, got, want)
				}
			}
		}
	}
}

// Far below the first mode the cavity is a spring, V/(rho c^2); bodies take out
// their volume and panels that give add to it.
func TestPressureZone(t *testing.T) {
	s := Shape{[]Station{{0, 0.26, 0.71, 1.22}, {0.68, 0, 1.08, 1.35}, {2.02, 0.27, 1.12, 1.27}, {2.74, 0.27, 0.82, 1.02}}}
	box := Body{Centre: Point{2.3, 0, 0.4}, Size: Point{0.3, 0.8, 0.3}, Volume: 0.07}
	for name, c := range map[string]struct {
		a    Absorption
		want float64
	}{
		"empty":  {Absorption{}, s.Volume()},
		"filled": {Absorption{Bodies: []Body{box}}, s.Volume() - 0.07},
		"giving": {Absorption{Give: 0.2}, s.Volume() * 1.2},
	} {
		f := fieldOf(t, s, Options{}, c.a, Patch{Centre: Point{2.5, 0.2, 0.4}, Area: 0.03}, Patch{Centre: Point{1.2, 0.3, 0.9}})
		w := hertz(0.5)
		z := f.Transfer(w).At(0, 1, 0)
		if got := 1.2041 * 343.2 * 343.2 / (w[0] * cmplx.Abs(z)); math.Abs(got/c.want-1) > 1e-3 {
			t.Errorf("%s: effective volume %.5f m3, want %.5f", name, got, c.want)
		}
	}
	// 1 litre, peak, into 3 m3: 124.462 dB re 20 uPa rms; recomputed.
	p := 1.2041 * 343.2 * 343.2 * 1e-3 / 3 / math.Sqrt2
	if got := 20 * math.Log10(p/20e-6); math.Abs(got-124.462) > 0.01 {
		t.Errorf("pressure zone of 3 m3: %.3f dB", got)
	}
	// The pressure zone meets the half space at 1 m: plain arithmetic.
	for v, want := range map[float64]float64{2: 96.815, 3: 79.049, 4: 68.458} {
		if got := UnityFrequency(343.2, v, 1); math.Abs(got-want) > 1e-3 {
			t.Errorf("unity frequency of %g m3: %.4f Hz, want %.3f", v, got, want)
		}
	}
	if got := PressureZoneGain(343.2, 3, 1, 2*math.Pi*UnityFrequency(343.2, 3, 1)); math.Abs(got-1) > 1e-12 {
		t.Errorf("gain at the unity frequency is %g", got)
	}
	if got := HalfWave(343.2, 2.4); math.Abs(got-71.5) > 1e-9 {
		t.Errorf("c/2L of 2.4 m: %g Hz", got)
	}
}

// randomCabin is a random shape, random losses and doors, some people.
func randomCabin(r *rand.Rand) (Shape, Absorption, []Patch) {
	s := randomShape(r)
	for s.Length() < 0.5 {
		s = randomShape(r)
	}
	var a Absorption
	for i := range a.Region {
		a.Region[i] = Admittance{At100: 0.1 * r.Float64() * r.Float64(), Slope: r.Float64()}
	}
	at := func() Point {
		st := s.At(s.Stations[0].X + r.Float64()*s.Length())
		return Point{st.X, (r.Float64() - 0.5) * st.Width, st.Floor + r.Float64()*(st.Roof-st.Floor)}
	}
	for range r.Intn(4) {
		a.Bodies = append(a.Bodies, PersonBody(at()))
	}
	if a.Displaced() > 0.3*s.Volume() {
		a.Bodies = nil
	}
	var doors []Patch
	for range 5 {
		doors = append(doors, Patch{Centre: at(), Area: 0.05 * r.Float64()})
	}
	return s, a, append(doors, Patch{Centre: at()})
}

// A closed cavity is reciprocal, and takes energy but gives none: Re Z is
// positive semidefinite at every frequency, resonance or not.
func TestReciprocalAndPassive(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for range 25 {
		s, a, doors := randomCabin(r)
		m, err := Solve(s, Options{})
		if err != nil {
			t.Fatal(err)
		}
		f, err := m.Field(testAir, a, doors)
		if err != nil {
			t.Fatal(err)
		}
		back := make([]Patch, len(doors))
		for i := range doors {
			back[len(doors)-1-i] = doors[i]
		}
		g, err := m.Field(testAir, a, back)
		if err != nil {
			t.Fatal(err)
		}
		w := benchOmega(40)
		z, y := f.Transfer(w), g.Transfer(w)
		n := len(doors)
		for k := range w {
			re := make([]float64, n*n)
			var big float64
			for i := range n {
				for j := range n {
					v, u := z.At(k, i, j), y.At(k, n-1-j, n-1-i)
					if cmplx.IsNaN(v) || cmplx.IsInf(v) {
						t.Fatalf("%v: Z is %v", s, v)
					}
					if cmplx.Abs(v-u) > 1e-6*(cmplx.Abs(v)+1) {
						t.Errorf("Z%d%d = %v, but swapped %v", i, j, v, u)
					}
					re[i*n+j] = real(v)
					big = max(big, cmplx.Abs(v))
				}
			}
			if ev, _ := symmetricEigen(re, n); ev[0] < -1e-9*big {
				t.Errorf("%v at %.1f Hz: Re Z has the eigenvalue %g", s, w[k]/(2*math.Pi), ev[0])
			}
		}
	}
}

// Even a lossless cavity exactly on a mode gives finite numbers.
func TestLosslessResonance(t *testing.T) {
	m, err := Solve(Cuboid(2.4, 1.4, 1.1), Options{})
	if err != nil {
		t.Fatal(err)
	}
	f, err := m.Field(idealAir, Absorption{}, []Patch{{Centre: Point{0.1, 0.1, 0.1}, Area: 0.01}})
	if err != nil {
		t.Fatal(err)
	}
	for n := 1; n < m.Len(); n++ {
		z := f.Transfer([]float64{m.Wavenumber(n) * 343.2}).At(0, 0, 0)
		if cmplx.IsNaN(z) || cmplx.IsInf(z) {
			t.Errorf("mode %d: Z = %v", n, z)
		}
	}
}

// A map shows at a point what Transfer says there.
func TestMapAgreesWithTransfer(t *testing.T) {
	s := Shape{[]Station{{0, 0.2, 0.8, 1.2}, {0.7, 0, 1.1, 1.36}, {2.75, 0.3, 0.9, 1.1}}}
	a := Uniform(0.03)
	a.Bodies = []Body{PersonBody(Point{1.2, 0.36, 0.9})}
	m, err := Solve(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	side, plan := s.SideGrid(0.3, 9, 5), s.PlanGrid(0.5, 9, 5)
	doors := []Patch{{Centre: Point{2.5, 0.2, 0.3}, Area: 0.03}, {Centre: Point{0.9, -0.66, 0.4}, Area: 0.013}}
	ears := len(doors)
	var grid []Point
	for _, g := range []Grid{side, plan} {
		for i, p := range g.Points {
			if g.Inside[i] {
				grid = append(grid, p)
				doors = append(doors, Patch{Centre: p})
			}
		}
	}
	f, err := m.Field(testAir, a, doors)
	if err != nil {
		t.Fatal(err)
	}
	small, err := m.Field(testAir, a, doors[:ears])
	if err != nil {
		t.Fatal(err)
	}
	flow := []complex128{1e-3, complex(2e-4, -3e-4)}
	for _, w := range hertz(25, 63, 110) {
		z := f.Transfer([]float64{w})
		at := 0
		for _, g := range []Grid{side, plan} {
			p, err := small.Pressure(w, flow, g)
			if err != nil {
				t.Fatal(err)
			}
			for i := range g.Points {
				if !g.Inside[i] {
					continue
				}
				want := z.At(0, ears+at, 0)*flow[0] + z.At(0, ears+at, 1)*flow[1]
				near := min(distance(grid[at], doors[0].Centre), distance(grid[at], doors[1].Centre))
				if d := cmplx.Abs(p[i] - want); d > 0.02*cmplx.Abs(want)+0.003 && near > 0.65 {
					t.Errorf("%.0f Hz at %v: map %.4g, transfer %.4g", w/(2*math.Pi), grid[at], p[i], want)
				}
				at++
			}
		}
	}
	if _, err := small.Pressure(1, flow[:1], side); err == nil {
		t.Error("a map with too few flows went through")
	}
}
