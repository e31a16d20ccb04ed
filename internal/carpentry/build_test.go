package carpentry

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"bootfloor/internal/job"

	"gonum.org/v1/gonum/spatial/r3"
)

// The panels of the cut list must be the shell: their volumes add up to
// outside less inside, no point of the shell belongs to two of them, and every
// point to one.
func TestPanelsAreTheShell(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for i := range 40 {
		b := randomWedge(rng)
		if i%4 == 0 {
			b.Form = Cuboid
		}
		sum := 0.0
		var all []Solid
		for _, p := range b.Panels() {
			if len(p.solids) != p.Count {
				t.Fatalf("%s: %d solids for %d pieces", p.Name, len(p.solids), p.Count)
			}
			for _, s := range p.solids {
				sum += s.Volume()
				all = append(all, s)
			}
		}
		near(t, "volume of wood", sum, b.Outside().Volume()-b.Inside().Volume(), 1e-14)
		for range 500 {
			p := r3.Vec{X: b.Depth * rng.Float64(), Y: b.Width * (rng.Float64() - .5), Z: b.Height * rng.Float64()}
			holders := 0
			for _, s := range all {
				if contains(s, p) {
					holders++
				}
			}
			want := 0
			if insideBy(b, p, 0) && !insideBy(b, p, b.Panel) {
				want = 1
			}
			if holders != want {
				t.Fatalf("%v in %+v lies in %d panels, not %d", p, b, holders, want)
			}
		}
	}
}

// contains is the half-space test of a convex solid.
func contains(s Solid, p r3.Vec) bool {
	for _, f := range s.Faces {
		a, b, c := s.Corners[f[0]], s.Corners[f[1]], s.Corners[f[2]]
		if r3.Dot(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)), r3.Sub(p, a)) > 0 {
			return false
		}
	}
	return true
}

// The blank of a panel is the smallest rectangle that holds it, seen square
// on: compare with the extent of its solid along its own directions.
func TestBlanks(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for range 20 {
		b := randomWedge(rng)
		a := b.slope()
		along := map[string]r3.Vec{
			"side": {X: 1}, "bottom": {X: 1}, "top": {X: 1}, "back": {Z: 1},
			"front": {X: math.Sin(a), Z: math.Cos(a)},
		}
		across := map[string]r3.Vec{
			"side": {Z: 1}, "bottom": {Y: 1}, "top": {Y: 1}, "back": {Y: 1}, "front": {Y: 1},
		}
		through := map[string]r3.Vec{
			"side": {Y: 1}, "bottom": {Z: 1}, "top": {Z: 1}, "back": {X: 1},
			"front": {X: math.Cos(a), Z: -math.Sin(a)},
		}
		for _, p := range b.Panels() {
			near(t, p.Name+" length", extent(p.solids[0], along[p.Name]), p.Length, 1e-12)
			near(t, p.Name+" width", extent(p.solids[0], across[p.Name]), p.Width, 1e-12)
			near(t, p.Name+" thickness", extent(p.solids[0], through[p.Name]), p.Thickness, 1e-12)
		}
	}
}

func extent(s Solid, d r3.Vec) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range s.Corners {
		v := r3.Dot(c, d)
		lo, hi = math.Min(lo, v), math.Max(hi, v)
	}
	return hi - lo
}

// A cuboid's cut list, by hand: 600 x 350 x 400 of 18 mm.
func TestCutListByHand(t *testing.T) {
	b := Box{Form: Cuboid, Width: .6, Height: .35, Depth: .4, Panel: .018}
	for i, want := range []struct {
		name    string
		n       int
		l, w, v float64
	}{
		{"side", 2, .400, .350, .4 * .35 * .018},
		{"bottom", 1, .400, .564, .4 * .564 * .018},
		{"top", 1, .400, .564, .4 * .564 * .018},
		{"front", 1, .314, .564, .314 * .564 * .018},
		{"back", 1, .314, .564, .314 * .564 * .018},
	} {
		p := b.Panels()[i]
		if p.Name != want.name || p.Count != want.n {
			t.Errorf("piece %d is %d x %s", i, p.Count, p.Name)
		}
		near(t, p.Name, p.Length, want.l, 1e-12)
		near(t, p.Name, p.Width, want.w, 1e-12)
		near(t, p.Name, p.Volume(), want.v, 1e-15)
		if p.BevelDeg != [2]float64{} {
			t.Errorf("%s: bevel %v", p.Name, p.BevelDeg)
		}
	}
}

// 18 mm MDF weighs 13.68 kg/m2 (Hopkins 2007, table A2). Wood and its centre
// against outside less inside; fittings by the lever rule.
func TestWeigh(t *testing.T) {
	mdf, err := MaterialFor("mdf")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "sheet", mdf.Density*.018, 13.68, 1e-12)
	rng := rand.New(rand.NewPCG(11, 12))
	for range 10 {
		b := randomWedge(rng)
		m, err := b.Weigh(mdf, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		vo, mo := b.Outside().moments()
		vi, mi := b.Inside().moments()
		near(t, "mass", m.Total, 760*(vo-vi), 1e-9)
		nearVec(t, "centre", m.Centre, r3.Scale(1/(vo-vi), r3.Sub(mo, mi)), 1e-12)
	}
	b := Box{Form: Cuboid, Width: .6, Height: .35, Depth: .4, Panel: .018}
	bare, _ := b.Weigh(mdf, nil, 0)
	full, err := b.Weigh(mdf, []Fitting{{On: Rear, Hole: .28, Mass: 9, Behind: .08}}, 0)
	if err != nil {
		t.Fatal(err)
	}
	hole := 760 * math.Pi / 4 * .28 * .28 * .018
	near(t, "panels", full.Panels, bare.Panels-hole, 1e-12)
	near(t, "total", full.Total, bare.Total-hole+9, 1e-12)
	near(t, "lever", full.Centre.X, (bare.Total*.2-hole*(.4-.009)+9*(.4-.08))/full.Total, 1e-12)
	near(t, "height kept", full.Centre.Z, .175, 1e-12)
	if _, err := b.Weigh(mdf, []Fitting{{On: "inside"}}, 0); err == nil {
		t.Error("an unknown face was accepted")
	}
	if len(Materials()) != 4 {
		t.Error("materials")
	}
	if _, err := MaterialFor("lead"); err == nil {
		t.Error("lead accepted")
	}
}

// F = m a for 25 kg: 0.9, 0.5 and 0.7 of its weight (VDI 2700-16), and the
// energy at 50 km/h, worked by hand.
func TestRestrain(t *testing.T) {
	r := Restrain(25)
	near(t, "forward", r.ForwardN, 220.65, 5e-3)
	near(t, "rear", r.RearN, 122.58, 5e-3)
	near(t, "side", r.SideN, 171.62, 5e-3)
	near(t, "crash", r.CrashJ, 2411.3, 5e-2)
	if !strings.Contains(r.Say, "qualified person") || !strings.Contains(r.Say, "local rules") {
		t.Error(r.Say)
	}
}

func TestSize(t *testing.T) {
	d := Displacement{Driver: .0025, Port: .003, Bracing: .001}
	prefer := Box{Width: 3, Height: 2, Depth: 2}
	for _, b := range []Box{
		{Form: Cuboid, Width: .6, Height: .35, Panel: .018},
		{Form: Cuboid, Width: .6, Panel: .018},
		{Form: Cuboid, Panel: .018},
		{Form: Wedge, SlopeDeg: 22, Width: .7, Height: .4, Panel: .018},
		{Form: Wedge, SlopeDeg: 22, Width: .8, Depth: .5, Panel: .018},
		{Form: Wedge, SlopeDeg: 22, Panel: .015},
		{Form: Slab, Height: .16, Feet: .06, Panel: .018},
	} {
		got, err := Size(b, prefer, .040, d, Limits{Most: Sides{Width: 1}})
		if err != nil {
			t.Errorf("%+v: %v", b, err)
			continue
		}
		near(t, "net volume", got.NetM3(d), .040, 1e-12)
		if b.Width > 0 && got.Width != b.Width || b.Height > 0 && got.Height != b.Height || b.Depth > 0 && got.Depth != b.Depth {
			t.Errorf("a fixed side moved: %+v to %+v", b, got)
		}
		if got.Width > 1 {
			t.Errorf("limit passed: %+v", got)
		}
		if up := got.RoundUp(.001); up.NetM3(d) < .040 || up.NetM3(d) > .0415 {
			t.Errorf("rounded up: %g", up.NetM3(d))
		}
	}
	for name, try := range map[string]func() (Box, error){
		"nothing free": func() (Box, error) {
			return Size(Box{Form: Cuboid, Width: .5, Height: .3, Depth: .3, Panel: .018}, prefer, .04, d, Limits{})
		},
		"too small": func() (Box, error) {
			return Size(Box{Form: Cuboid, Panel: .018}, prefer, .04, d, Limits{Most: Sides{.3, .3, .3}})
		},
		"thin": func() (Box, error) {
			return Size(Box{Form: Cuboid, Width: .03, Panel: .018}, prefer, .04, d, Limits{})
		},
		"apex": func() (Box, error) {
			return Size(Box{Form: Wedge, SlopeDeg: 45, Width: .4, Depth: .3, Panel: .018}, prefer, .04, d, Limits{})
		},
		"tall wedge": func() (Box, error) {
			return Size(Box{Form: Wedge, SlopeDeg: 20, Width: .9, Height: .6, Panel: .018}, prefer, .01, d, Limits{})
		},
		"least": func() (Box, error) {
			return Size(Box{Form: Cuboid, Panel: .018}, prefer, .04, d, Limits{Least: Sides{1.2, .5, .3}})
		},
		"no volume": func() (Box, error) { return Size(Box{Form: Cuboid, Panel: .018}, prefer, math.NaN(), d, Limits{}) },
	} {
		if b, err := try(); err == nil {
			t.Errorf("%s accepted: %+v", name, b)
		} else if len(err.Error()) < 20 {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What displaces the air, by hand.
func TestDisplacement(t *testing.T) {
	round := job.Port{Shape: "round", Count: 2, DiameterMM: 100}
	near(t, "tubes", PortM3(round, .3, .004), 2*math.Pi/4*.108*.108*.3, 1e-15)
	slot := job.Port{Shape: "slot", Count: 1, WidthMM: 300, HeightMM: 40}
	near(t, "slot", PortM3(slot, .4, .018), .3*.058*.4, 1e-15)
	near(t, "no port", PortM3(slot, 0, .018), 0, 0)
	// A 12 inch driver of usual build: makers state 2 to 5 l.
	if v := DriverM3(.283, .165, 1) * 1000; v < 2 || v > 5 {
		t.Errorf("12 inch: %.2f l", v)
	}
	stated, litres := 40., 3.2
	s := job.Sub{Series: 1, Parallel: 2, Box: job.Box{NetL: stated, PanelMM: 18, Port: &slot}, Driver: job.Driver{VolumeL: &litres}}
	d := DisplacementOf(s, .4)
	near(t, "drivers", d.Driver, .0064, 1e-15)
	near(t, "port", d.Port, .3*.058*.4, 1e-15)
	near(t, "braces", d.Bracing, .0012, 1e-15)
	s.Box.Isobaric = true
	near(t, "isobaric", DisplacementOf(s, .4).Driver, .0032, 1e-15)
}

func BenchmarkSize(b *testing.B) {
	box, prefer := Box{Form: Wedge, SlopeDeg: 22, Panel: .018}, Box{Width: 3, Height: 2, Depth: 2}
	for b.Loop() {
		if _, err := Size(box, prefer, .040, Displacement{}, Limits{Most: Sides{Width: 1}}); err != nil {
			b.Fatal(err)
		}
	}
}
