package cavity

import (
	"math"
	"testing"

	"bootfloor/internal/job"
)

// Every finish that a document may name is known here.
func TestFinishesOfTheDocument(t *testing.T) {
	for _, key := range job.FinishKeys() {
		f, ok := FinishByKey(key)
		if !ok {
			t.Errorf("no finish %q", key)
			continue
		}
		if f.At100 <= 0 || f.At100 > 0.1 || f.Note == "" || f.Name == "" {
			t.Errorf("finish %q: %+v", key, f)
		}
	}
	if _, ok := FinishByKey("velvet"); ok {
		t.Error("an unknown finish was found")
	}
}

// A usual hatchback with seats and two people rings with 3 to 12 per cent of
// critical damping at its first modes: common practice, no source.
func TestUsualDamping(t *testing.T) {
	find := func(key string) Admittance {
		f, _ := FinishByKey(key)
		return f.Admittance
	}
	s := benchShape("hatch")
	a := Absorption{Give: 0.1}
	hard := find("hard_trim").Mix(find("glass"), 0.28)
	a.Region = [NumRegions]Admittance{find("carpet"), find("headliner"), hard, hard, hard}
	for _, ears := range []Point{{1.19, 0.36, 0.92}, {1.19, -0.36, 0.92}, {1.99, 0.35, 0.92}, {1.99, -0.35, 0.92}} {
		a.Bodies = append(a.Bodies, SeatBody(ears, find("seats")))
	}
	a.Bodies = append(a.Bodies, PersonBody(Point{1.19, 0.36, 0.92}), PersonBody(Point{1.19, -0.36, 0.92}))
	m, err := Solve(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	f, err := m.Field(testAir, a, nil)
	if err != nil {
		t.Fatal(err)
	}
	for n := 1; n <= 4; n++ {
		z := f.DampingRatio(n)
		t.Logf("mode %d at %.1f Hz: %.1f %% of critical", n, m.Wavenumber(n)*343.2/(2*math.Pi), 100*z)
		if z < 0.03 || z > 0.12 {
			t.Errorf("mode %d has %.1f %% of critical damping", n, 100*z)
		}
	}
}

// With one admittance all over, mode (1,0,0) of a cuboid loses through its
// ends, where phi^2 is 2, and through its sides, where it is 1 on average:
// zeta = beta (2 A_ends + A_sides) / (2 k V).
func TestDampingOfABox(t *testing.T) {
	const l, w, h, beta = 2.4, 1.4, 1.1, 0.02
	m, err := Solve(Cuboid(l, w, h), Options{})
	if err != nil {
		t.Fatal(err)
	}
	f, err := m.Field(idealAir, Uniform(beta), nil)
	if err != nil {
		t.Fatal(err)
	}
	want := beta * (2*2*w*h + 2*l*(w+h)) / (2 * math.Pi / l * l * w * h)
	if got := f.DampingRatio(1); math.Abs(got/want-1) > 1e-3 {
		t.Errorf("damping ratio %.6f, want %.6f", got, want)
	}
}

func TestAbsorptionRefusesNonsense(t *testing.T) {
	m, err := Solve(Cuboid(2.4, 1.4, 1.1), Options{})
	if err != nil {
		t.Fatal(err)
	}
	bad := map[string]func(a *Absorption){
		"negative wall": func(a *Absorption) { a.Region[Roof].At100 = -0.1 },
		"wall above 1":  func(a *Absorption) { a.Region[Roof].At100 = 2 },
		"NaN":           func(a *Absorption) { a.Region[Floor].Slope = math.NaN() },
		"full":          func(a *Absorption) { a.Bodies = []Body{{Centre: Point{1, 0, 0.5}, Volume: 3}} },
		"negative body": func(a *Absorption) { a.Bodies = []Body{{Surface: -1}} },
		"lost body":     func(a *Absorption) { a.Bodies = []Body{{Centre: Point{math.Inf(1), 0, 0}}} },
		"give":          func(a *Absorption) { a.Give = -1 },
	}
	for name, spoil := range bad {
		a := Uniform(0.02)
		spoil(&a)
		if _, err := m.Field(testAir, a, nil); err == nil {
			t.Errorf("%s went through", name)
		}
	}
	for name, p := range map[string]Patch{
		"NaN":      {Centre: Point{math.NaN(), 0, 0}},
		"area":     {Area: -1},
		"negative": {Size: Point{-1, 0, 0}},
	} {
		if _, err := m.Field(testAir, Uniform(0.02), []Patch{p}); err == nil {
			t.Errorf("door with a bad %s went through", name)
		}
	}
	// Losses scale, volumes do not.
	a := Uniform(0.02)
	a.Bodies = []Body{PersonBody(Point{1, 0.3, 0.9})}
	b := a.Scaled(2)
	if b.Region[Rear].At100 != 0.04 || b.Displaced() != a.Displaced() || b.Bodies[0].At100 != 2*a.Bodies[0].At100 {
		t.Errorf("scaled to %+v", b)
	}
}
