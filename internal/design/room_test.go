package design

import (
	"math"
	"testing"

	"bootfloor/internal/carpentry"
	"bootfloor/internal/job"
)

// Every box that Stand proposes is built again by package carpentry, which
// knows nothing of how it was found: it must hold the air, take the driver,
// stand on the floor and pass the opening, in every body style.
func TestStandIsBuildable(t *testing.T) {
	stood := 0
	for _, body := range job.BodyKeys() {
		j := job.New(body)
		j.Aim.BootPct = 0
		room, err := RoomOf(j)
		if err != nil {
			t.Fatal(body, err)
		}
		for _, box := range []job.Box{
			{Type: "sealed", NetL: 15}, {Type: "sealed", NetL: 40}, {Type: "sealed", NetL: 120},
			{Type: "vented", NetL: 45, Port: &job.Port{Shape: "round", Count: 1, DiameterMM: 100, LengthMM: 300, Ends: "flanged_free"}},
			{Type: "bandpass4", NetL: 20, FrontL: 25, Front: &job.Port{Shape: "round", Count: 1, DiameterMM: 100, LengthMM: 200, Ends: "flanged_free"}},
		} {
			for _, n := range []int{1, 2} {
				s := j.Subs[0]
				box.PanelMM = 18
				s.Box, s.Parallel = box, n
				u, err := unitOf(s)
				if err != nil {
					t.Fatal(err)
				}
				o, ok := room.Stand(s, u.one, 300)
				if !ok {
					if o.Say == "" {
						t.Errorf("%s: no sentence for a box of %g l that does not fit", body, box.NetL)
					}
					continue
				}
				stood++
				s.Place = o.Place
				s.Box.Form, s.Box.WidthMM, s.Box.HeightMM, s.Box.DepthMM = o.Form, o.WidthMM, o.HeightMM, o.DepthMM
				built, err := carpentry.Plan(s, j.Car.Boot, carpentry.Options{PortLength: 0.3})
				if err != nil {
					t.Errorf("%s, %d in %g l: %v", body, n, box.NetL, err)
					continue
				}
				for _, f := range built.Findings {
					if f.At == "/box/net_l" && f.Level == job.LevelNote {
						continue // larger than it need be, for the driver's sake
					}
					if f.Level != job.LevelNote {
						t.Errorf("%s, %d in %s %g l, %s %.0f x %.0f x %.0f firing %s: %s", body, n, box.Type, box.NetL, o.Form, o.WidthMM, o.HeightMM, o.DepthMM, o.Place.Fires, f.Say)
					}
				}
				if want := (box.NetL + box.FrontL) / 1000; built.NetM3 < 0.985*want {
					t.Errorf("%s: %s holds %.2f l of %.2f", body, o.Form, 1000*built.NetM3, 1000*want)
				}
				if math.Abs(1000*built.Box.Outside().Volume()-o.Litres) > 0.01 {
					t.Errorf("%s: outside %.2f l, carpentry has %.2f", body, o.Litres, 1000*built.Box.Outside().Volume())
				}
				k := j
				k.Subs = []job.Sub{s}
				for _, f := range job.Check(k) {
					if f.Level == job.LevelError {
						t.Errorf("%s: %s", body, f.Say)
					}
				}
			}
		}
	}
	if stood < 60 {
		t.Errorf("only %d boxes stood", stood)
	}
}

// What may go bounds what stands.
func TestRoomShare(t *testing.T) {
	j := job.New("estate")
	u, err := unitOf(j.Subs[0])
	if err != nil {
		t.Fatal(err)
	}
	last := 0.0
	for _, pct := range []float64{10, 20, 40, 80} {
		j.Aim.BootPct = pct
		room, err := RoomOf(j)
		if err != nil {
			t.Fatal(err)
		}
		most := room.MostGrossM3(j.Subs[0], u.one)
		if most <= last {
			t.Errorf("%g %% of the boot holds %.1f l, no more than less of it", pct, 1000*most)
		}
		if limit := pct / 100 * room.Space.M3(); most > limit {
			t.Errorf("%g %% of the boot is %.1f l, but a box inside holds %.1f", pct, 1000*limit, 1000*most)
		}
		last = most
		// A box of just that much stands; one of a twentieth more does not.
		s := j.Subs[0]
		d := carpentry.DisplacementOf(s, 0)
		share := 1 + carpentry.BracingShare
		s.Box.NetL = 1000 * (most - d.Driver) / share * 0.999
		if o, ok := room.Stand(s, u.one, 0); !ok {
			t.Errorf("%g %%: %.1f l should stand: %s", pct, s.Box.NetL, o.Say)
		} else if o.Litres > 1000*pct/100*room.Space.M3()*1.01 {
			t.Errorf("%g %%: outside %.1f l is more than may go", pct, o.Litres)
		}
		s.Box.NetL *= 1.05
		if _, ok := room.Stand(s, u.one, 0); ok {
			t.Errorf("%g %%: %.1f l should not stand", pct, s.Box.NetL)
		}
	}
}

// A patch of the floor is a smaller room; cut twice it is the smaller still.
func TestCut(t *testing.T) {
	j := job.New("hatch")
	room, err := RoomOf(j)
	if err != nil {
		t.Fatal(err)
	}
	cut, err := room.Cut(Patch{FromSeatMM: 200, LengthMM: 300, WidthMM: 500, MiddleMM: 250, HeightMM: 350})
	if err != nil {
		t.Fatal(err)
	}
	if got := cut.Space.Length(); math.Abs(got-0.3) > 1e-9 {
		t.Errorf("length %g", got)
	}
	if got := cut.Space.Width; math.Abs(got-0.5) > 1e-9 {
		t.Errorf("width %g", got)
	}
	if cut.FootMM != room.FootMM+200 || cut.MiddleMM != 250 || cut.SlopeDeg != 0 || cut.MostM3 != 0 {
		t.Errorf("%+v", cut)
	}
	// The ceiling of the patch is that of the boot, under the lid of 350 mm:
	// 22 degrees of seat back stand 495 mm high at 200 mm.
	for _, x := range []float64{0, 0.1, 0.2, 0.3} {
		want := math.Min(room.Space.HeightAt(0.2+x), 0.35)
		if got := cut.Space.HeightAt(x); math.Abs(got-want) > 1e-9 {
			t.Errorf("height at %g: %g, want %g", x, got, want)
		}
	}
	if cut.Space.M3() >= room.Space.M3() {
		t.Error("a part is no smaller than the whole")
	}
	for _, p := range []Patch{{FromSeatMM: 700}, {WidthMM: 100, MiddleMM: 600}} {
		if _, err := room.Cut(p); err == nil {
			t.Errorf("%+v leaves nothing, and no error", p)
		}
	}
}

func BenchmarkMostGross(b *testing.B) {
	j := job.New("hatch")
	room, _ := RoomOf(j)
	u, _ := unitOf(j.Subs[0])
	for b.Loop() {
		room.MostGrossM3(j.Subs[0], u.one)
	}
}

func BenchmarkStand(b *testing.B) {
	j := job.New("hatch")
	room, _ := RoomOf(j)
	u, _ := unitOf(j.Subs[0])
	for b.Loop() {
		room.Stand(j.Subs[0], u.one, 0)
	}
}
