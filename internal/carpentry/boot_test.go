package carpentry

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"bootfloor/internal/job"
)

// Carver's condition against trying every angle in steps of a hundredth of a
// degree.
func TestRectangleInRectangle(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	tight := 0
	for range 2000 {
		a := .5 + rng.Float64()
		b := a * (.3 + .7*rng.Float64())
		p := a * (.5 + .8*rng.Float64())
		q := p * rng.Float64()
		best := math.Inf(-1)
		for i := 0; i <= 9000; i++ {
			s, c := math.Sincos(float64(i) * math.Pi / 18000)
			best = math.Max(best, math.Min(a-p*c-q*s, b-p*s-q*c))
		}
		if math.Abs(best) < 1e-3 {
			continue // too near the edge for the steps to tell
		}
		if p > a && best > 0 {
			tight++
		}
		if got := fitsRectangle(p, q, a, b); got != (best > 0) {
			t.Errorf("%g x %g in %g x %g: %v, best %g", p, q, a, b, got, best)
		}
		if best > 0 && p > a {
			u := turn(p, q, a, b)
			s, c := math.Sincos(u)
			if p*c+q*s > a+1e-9 || p*s+q*c > b+1e-9 {
				t.Errorf("%g x %g in %g x %g does not fit at %g", p, q, a, b, u)
			}
		}
	}
	if tight < 20 {
		t.Errorf("only %d cases needed turning", tight)
	}
}

func TestPass(t *testing.T) {
	b := Box{Form: Cuboid, Width: .9, Height: .3, Depth: .4, Panel: .018}
	p := b.Pass(1, .45, .01)
	if !p.Passes || p.TurnDeg != 0 {
		t.Errorf("%+v", p)
	}
	// Depth first the section is .9 x .3 in .98 x .43: .08 to spare. Width
	// first it is .4 x .3: .13 one way, .43 - .3 the other once turned.
	near(t, "spare", p.Spare, .13, 1e-9)
	if p.Leads != "width" {
		t.Errorf("%+v", p)
	}
	p = b.Pass(.35, .28, .01)
	if p.Passes || !strings.Contains(p.Say, "more each way") {
		t.Errorf("%+v", p)
	}
	// The least opening that it says it needs must then do.
	q := b.Pass(.35-p.Spare, .28-p.Spare, .01)
	if !(math.Abs(q.Spare) < 1e-9) {
		t.Errorf("%+v", q)
	}
	if p := b.Pass(0, 1, 0); p.Passes || p.Say == "" {
		t.Errorf("%+v", p)
	}
	if p := b.Pass(math.NaN(), 1, 0); p.Passes || math.IsNaN(p.Spare) {
		t.Errorf("%+v", p)
	}
	// A long thin section that only goes in on the slant: .99 x .02 in .9 x .6.
	thin := Box{Form: Cuboid, Width: .99, Height: .05, Depth: 2, Panel: .01}
	if p := thin.Pass(.9, .6, 0); !p.Passes || p.TurnDeg < 10 {
		t.Errorf("%+v", p)
	}
}

func boot() job.Boot {
	return job.Boot{LengthMM: 800, WidthMM: 1000, HeightMM: 500, SeatSlopeDeg: 20, WheelArchesMM: 950}
}

// The space's volume, by hand: rectangle less the triangle that the seat back
// takes.
func TestSpace(t *testing.T) {
	s, err := SpaceFromBoot(boot())
	if err != nil {
		t.Fatal(err)
	}
	reach := .5 * math.Tan(20*math.Pi/180)
	near(t, "volume", s.M3(), .95*(.8*.5-reach*.5/2), 1e-12)
	near(t, "on the slope", s.HeightAt(reach/2), .25, 1e-12)
	near(t, "under the shelf", s.HeightAt(.5), .5, 1e-12)
	near(t, "outside", s.HeightAt(-.1), 0, 0)
	bad := boot()
	bad.LengthMM = 0
	if _, err := SpaceFromBoot(bad); err == nil || !strings.Contains(err.Error(), "length") {
		t.Errorf("%v", err)
	}
	bad = boot()
	bad.SeatSlopeDeg = math.NaN()
	if _, err := SpaceFromBoot(bad); err == nil {
		t.Error("NaN accepted")
	}
	steep := boot()
	steep.LengthMM, steep.SeatSlopeDeg = 100, 45
	s, err = SpaceFromBoot(steep)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "all slope", s.M3(), .95*.1*.1/2, 1e-12)
}

func TestStand(t *testing.T) {
	s, err := SpaceFromBoot(boot())
	if err != nil {
		t.Fatal(err)
	}
	// A wedge with the seat's lean stands right against it.
	w := Box{Form: Wedge, Width: .9, Height: .35, Depth: .4, SlopeDeg: 20, Panel: .018}
	st := s.Stand(w)
	if !st.Fits || st.X != 0 {
		t.Errorf("%+v", st)
	}
	near(t, "floor left", st.SpareRear, .4, 1e-9)
	near(t, "boot left", st.LeftPct, 100*(1-w.Outside().Volume()/s.M3()), 1e-12)
	// A cuboid stands off by its height times the tangent of the lean.
	c := Box{Form: Cuboid, Width: .9, Height: .35, Depth: .4, Panel: .018}
	st = s.Stand(c)
	off := .35 * math.Tan(20*math.Pi/180)
	if !st.Fits || st.X < off-1e-6 || st.X > off+.001 {
		t.Errorf("%+v, not at %g", st, off)
	}
	// Feet count: the slab with its feet is as tall as the cuboid.
	slab := Box{Form: Slab, Width: .9, Height: .30, Feet: .05, Depth: .4, Panel: .018}
	if got := s.Stand(slab); got.X != st.X {
		t.Errorf("slab at %g, cuboid at %g", got.X, st.X)
	}
	for name, edit := range map[string]func(*Box){
		"wider":    func(b *Box) { b.Width = .96 },
		"deeper":   func(b *Box) { b.Depth = .81 },
		"too tall": func(b *Box) { b.Height = .52 },
	} {
		b := c
		edit(&b)
		if got := s.Stand(b); got.Fits || !strings.Contains(got.Say, name) {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// Random boxes under random ceilings against testing many points of the box.
func TestStandAgainstPoints(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	stood := 0
	for range 300 {
		s := Space{Width: 1, Ceiling: []Point{{0, .2 * rng.Float64()}, {.2, .3 + .3*rng.Float64()}, {.5, .2 + .4*rng.Float64()}, {.9, .3 * rng.Float64()}}}
		b := randomWedge(rng)
		b.Width = .5
		clear := func(x float64) float64 { // least room over the box at x
			least := math.Inf(1)
			lean := b.Depth - b.TopDepth()
			for i := range 401 {
				u := b.Depth * float64(i) / 400
				top := b.Height
				if u < lean {
					top = b.Height * u / lean
				}
				least = math.Min(least, s.HeightAt(math.Min(x+u, .9))-top)
			}
			return least
		}
		got := s.Stand(b)
		if got.Fits {
			stood++
			if c := clear(got.X); c < -1e-5 {
				t.Errorf("%+v stands at %g with %g of room", b, got.X, c)
			}
		}
		for x := 0.0; x+b.Depth <= .9; x += .01 {
			if (!got.Fits || x < got.X-.0011) && clear(x) > .01 {
				t.Errorf("%+v: %g missed, said %+v", b, x, got)
				break
			}
		}
	}
	if stood < 30 {
		t.Errorf("only %d boxes stood", stood)
	}
}

func TestCheckMount(t *testing.T) {
	b := Box{Form: Cuboid, Width: .5, Height: .35, Depth: .25, Panel: .018}
	if f := b.CheckMount(Mount{On: Rear, CutOut: .28, Outside: .31, Depth: .15}); len(f) != 0 {
		t.Errorf("%v", f)
	}
	for at, m := range map[string]Mount{
		"/driver/depth_mm":   {On: Rear, CutOut: .28, Outside: .31, Depth: .22},
		"/driver/outside_mm": {On: Rear, CutOut: .28, Outside: .34, Depth: .15},
		"/place/fires":       {On: "sideways"},
	} {
		if f := b.CheckMount(m); len(f) != 1 || f[0].At != at {
			t.Errorf("%s: %v", at, f)
		}
	}
	if f := b.CheckMount(Mount{On: Rear, CutOut: .25, Outside: .28, Depth: .15, Count: 2}); len(f) != 2 {
		t.Errorf("two of 280 mm side by side on 500 mm: %v", f)
	}
	if f := (Box{}).CheckMount(Mount{On: Rear}); !job.HasError(f) {
		t.Errorf("%v", f)
	}
}

// No two panels overlap, each lies on its sheet, a saw cut lies between them,
// and all of them are there.
func TestLay(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 18))
	for range 60 {
		var list []Panel
		total := 0
		for i := range 2 + rng.IntN(5) {
			list = append(list, Panel{Name: string(rune('a' + i)), Count: 1 + rng.IntN(3), Length: .1 + rng.Float64(), Width: .1 + .8*rng.Float64()})
			total += list[i].Count
		}
		s := Sheet{Length: 2.44, Width: 1.22, Kerf: .003, Grain: rng.IntN(2) == 0}
		out, err := s.Lay(list)
		if err != nil {
			t.Fatal(err)
		}
		if len(out.Placed) != total {
			t.Fatalf("%d of %d placed", len(out.Placed), total)
		}
		area := 0.0
		for i, p := range out.Placed {
			area += p.Length * p.Width
			if p.X < 0 || p.Y < 0 || p.X+p.Length > s.Length+1e-9 || p.Y+p.Width > s.Width+1e-9 || p.Sheet >= out.Sheets {
				t.Errorf("%+v off the sheet", p)
			}
			if s.Grain && p.Turned {
				t.Errorf("%+v against the grain", p)
			}
			for _, q := range out.Placed[:i] {
				k := s.Kerf - 1e-9
				if p.Sheet == q.Sheet && p.X < q.X+q.Length+k && q.X < p.X+p.Length+k && p.Y < q.Y+q.Width+k && q.Y < p.Y+p.Width+k {
					t.Errorf("%+v and %+v overlap", p, q)
				}
			}
		}
		near(t, "waste", out.WastePct, 100*(1-area/(float64(out.Sheets)*2.44*1.22)), 1e-9)
	}
	b := Box{Form: Cuboid, Width: .6, Height: .35, Depth: .4, Panel: .018}
	out, err := Sheet{Length: 2.44, Width: 1.22, Kerf: .003}.Lay(b.Panels())
	if err != nil || out.Sheets != 1 {
		t.Errorf("%v, %+v", err, out)
	}
	if _, err := (Sheet{Length: .5, Width: .5}).Lay(b.Panels()); err == nil || !strings.Contains(err.Error(), "larger than the sheet") {
		t.Errorf("%v", err)
	}
	if _, err := (Sheet{}).Lay(b.Panels()); err == nil {
		t.Error("no sheet accepted")
	}
}

func TestFromJob(t *testing.T) {
	s := job.Sub{Box: job.Box{Form: "wedge", WidthMM: 600, HeightMM: 350, DepthMM: 400, PanelMM: 18}, Place: job.Place{GapMM: 60}}
	b := FromJob(s, boot())
	if b != (Box{Form: Wedge, Width: .6, Height: .35, Depth: .4, Panel: .018, SlopeDeg: 20}) {
		t.Errorf("%+v", b)
	}
	s.Box.Form = "slab"
	if b := FromJob(s, boot()); b.Feet != .06 || b.SlopeDeg != 0 {
		t.Errorf("%+v", b)
	}
	s.Box.Form = ""
	if b := FromJob(s, boot()); b.Form != Cuboid {
		t.Errorf("%+v", b)
	}
}
