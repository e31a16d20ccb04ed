package advise

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"bootfloor/internal/carpentry"
	"bootfloor/internal/design"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// small is a shelf of three to choose from.
func small(t testing.TB, ids ...string) []job.Driver {
	t.Helper()
	var out []job.Driver
	for _, s := range driver.Shelf() {
		if slices.Contains(ids, s.ID) {
			out = append(out, s.Stated.ToJob())
		}
	}
	if len(out) != len(ids) {
		t.Fatalf("%d of %d on the shelf", len(out), len(ids))
	}
	return out
}

// Notes of instruments in equal temperament, as any table of them has it: A4 is
// 440 Hz (ISO 16:1975), E1 41.20, B0 30.87, C1 32.70, A0 27.50, C0 16.35 Hz.
func TestMusicNotes(t *testing.T) {
	for key, want := range map[string]float64{"pop": 41.20, "metal": 30.87, "organ": 32.70, "piano": 27.50, "organ32": 16.35} {
		m, unknown := lowestOf([]string{key})
		if len(unknown) > 0 || math.Abs(m.LowestHz-want) > 0.005 {
			t.Errorf("%s: %.3f Hz, want %.2f", key, m.LowestHz, want)
		}
	}
	if m, unknown := lowestOf([]string{"pop", "films", "polka"}); m.Key != "films" || len(unknown) != 1 {
		t.Errorf("%v, unknown %v", m, unknown)
	}
}

// Nothing is recommended that does not fit, cannot be built, does not pass the
// opening or costs too much; each choice says why it is there; the numbers are
// those of its full job.
func TestChoicesAreJustified(t *testing.T) {
	solver := system.NewSolver()
	requests := []WhichRequest{
		{Drivers: small(t, "sub-8-standard", "sub-10-standard", "sub-12-long"), Types: []string{"sealed", "vented"}},
		{Body: "saloon", Music: []string{"hiphop"}, Loud: "sing", BootPct: 15, Budget: 150,
			Drivers: small(t, "sub-8-shallow", "sub-10-shallow", "sub-12-free-air", "sub-15-standard"), Types: []string{"sealed", "infinite_baffle"}},
		{Body: "estate", LengthMM: 2900, Space: &design.Patch{FromSeatMM: 300, LengthMM: 420, WidthMM: 600, HeightMM: 400}, LowestHz: 35, LevelDB: 108, PowerW: 250,
			Drivers: small(t, "sub-8-standard", "sub-10-standard", "sub-12-standard"), Types: []string{"sealed", "vented", "passive_radiator"}},
	}
	for n, req := range requests {
		partial := 0
		a, err := Which(context.Background(), solver, req, func(w Watched) {
			if w.Answer != nil {
				partial++
				if !w.Answer.Partial {
					t.Errorf("request %d: a partial answer does not say so", n)
				}
			}
			if w.Tried > w.Of {
				t.Errorf("request %d: %d of %d", n, w.Tried, w.Of)
			}
		})
		if err != nil {
			t.Fatal(n, err)
		}
		if a.Partial || a.Tried != a.Of || len(a.Choices) == 0 {
			t.Fatalf("request %d: partial %v, tried %d of %d, %d choices", n, a.Partial, a.Tried, a.Of, len(a.Choices))
		}
		titles := map[string]bool{}
		for _, c := range append(slices.Clone(a.Choices), a.Others...) {
			if titles[c.Title] {
				t.Errorf("request %d: two choices are called %s", n, c.Title)
			}
			if titles[c.Title] = true; c.Job != nil && c.Job.Title != c.Title {
				t.Errorf("request %d: the job of %s is called %s", n, c.Title, c.Job.Title)
			}
			if c.Type == "infinite_baffle" && !a.Job.Car.Boot.Separate {
				t.Errorf("request %d: a baffle in a car of one room", n)
			}
		}
		ids := map[string]bool{}
		badges := map[string]int{}
		for _, c := range a.Choices {
			if ids[c.ID] {
				t.Errorf("request %d: %s twice", n, c.ID)
			}
			ids[c.ID] = true
			for _, b := range c.PickedFor {
				badges[b]++
			}
			if c.Gain == "" || c.GiveUp == "" || c.Why == "" || c.Job == nil || c.Band == nil {
				t.Errorf("request %d: %s lacks its words, job or band", n, c.Title)
				continue
			}
			if req.Budget > 0 && c.Price > req.Budget {
				t.Errorf("request %d: %s costs %.0f", n, c.Title, c.Price)
			}
			if !c.Outside.Passes || c.Outside.Litres > 1.01*a.SpaceL {
				t.Errorf("request %d: %s takes %.1f of %.1f litres, passes %v", n, c.Title, c.Outside.Litres, a.SpaceL, c.Outside.Passes)
			}
			checkFullJob(t, solver, c)
		}
		for _, b := range []string{"balanced", "smallest", "deepest", "loudest"} {
			if badges[b] != 1 {
				t.Errorf("request %d: %d choices are the %s", n, badges[b], b)
			}
		}
		for _, o := range a.Out {
			if o.Title == "" || o.Say == "" || strings.Contains(o.Say, "%!") {
				t.Errorf("request %d: fell out %+v", n, o)
			}
		}
		words := a.Choices[0].Why + a.Asked
		if strings.Contains(words, "%!") || strings.Contains(words, "NaN") {
			t.Errorf("request %d: %s", n, words)
		}
	}
}

// checkFullJob holds a choice to the job that comes with it.
func checkFullJob(t *testing.T, solver *system.Solver, c Choice) {
	t.Helper()
	j := *c.Job
	for _, f := range job.Check(j) {
		if f.Level == job.LevelError {
			t.Errorf("%s: %s", c.Title, f.Say)
		}
	}
	r, found := solver.Respond(j, system.DefaultGrid)
	if r == nil {
		t.Errorf("%s: %v", c.Title, found)
		return
	}
	a := Answers(j, r)
	if a.Headline != c.Answer.Headline || a.Because != c.Answer.Because || a.ReachHz != c.ReachHz {
		t.Errorf("%s: %q, %.2f Hz; its job says %q, %.2f Hz", c.Title, c.Answer.Headline, c.ReachHz, a.Headline, a.ReachHz)
	}
	if c.Type == "infinite_baffle" {
		return
	}
	built, err := carpentry.Plan(j.Subs[0], j.Car.Boot, carpentry.Options{PortLength: portLength(solver, j) / 1000})
	if err != nil {
		t.Errorf("%s: %v", c.Title, err)
		return
	}
	if !built.Stand.Fits || !built.Passage.Passes || math.Abs(1000*built.NetM3/c.NetL-1) > 0.03 {
		t.Errorf("%s: stands %v, passes %v, holds %.1f of %.1f l", c.Title, built.Stand.Fits, built.Passage.Passes, 1000*built.NetM3, c.NetL)
	}
}

// The same trade in the choices: whatever is picked as smallest is no larger,
// as deepest reaches no less low, and as loudest plays no softer than the rest;
// and nothing is best in all three by a margin while another is listed.
func TestPicksAreWhatTheySay(t *testing.T) {
	solver := system.NewSolver()
	a, err := Which(context.Background(), solver, WhichRequest{Body: "estate", Music: []string{"hiphop"}, Loud: "club", BootPct: 40,
		Drivers: small(t, "sub-8-long", "sub-10-long", "sub-12-long", "sub-15-standard"), Types: []string{"sealed", "vented"}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range a.Choices {
		for _, o := range append(slices.Clone(a.Choices), a.Others...) {
			for _, b := range c.PickedFor {
				switch {
				case b == "loudest" && o.LevelDB > c.LevelDB+1:
					t.Errorf("%s is the loudest with %.1f dB; %s plays %.1f", c.Title, c.LevelDB, o.Title, o.LevelDB)
				case b == "smallest" && o.Scores.Short == 0 && o.Outside.Litres < 0.85*c.Outside.Litres:
					t.Errorf("%s is the smallest with %.1f l; %s takes %.1f", c.Title, c.Outside.Litres, o.Title, o.Outside.Litres)
				case b == "deepest" && o.Scores.Short == 0 && math.Max(o.ReachHz, 20) < 0.9*math.Max(c.ReachHz, 20):
					t.Errorf("%s is the deepest with %.1f Hz; %s reaches %.1f", c.Title, c.ReachHz, o.Title, o.ReachHz)
				}
			}
		}
	}
}

func TestScoresTotal(t *testing.T) {
	s := Scores{Deeper: 1, Louder: 0.5, Smaller: 0, Short: 0.1, Fuss: 0.02}
	for _, c := range []struct{ wd, wl, ws, want float64 }{{1, 0, 0, 0.88}, {0, 2, 0, 0.38}, {1, 1, 1, 0.38}, {0, 0, 0, 0.38}, {0, 0, 5, -0.12}} {
		if got := s.Total(c.wd, c.wl, c.ws); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("weights %g %g %g: %g, want %g", c.wd, c.wl, c.ws, got, c.want)
		}
	}
}

// With nothing that fits there is no choice, and a sentence; a driver that lacks
// values falls out by its name.
func TestWhichWithoutAChoice(t *testing.T) {
	drivers := small(t, "sub-18-long")
	drivers = append(drivers, job.Driver{Name: "Half a data sheet", FsHz: ptr(30)})
	a, err := Which(context.Background(), system.NewSolver(), WhichRequest{Body: "coupe", BootPct: 3, Drivers: drivers}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Choices) != 0 || a.Say == "" || len(a.Out) < 2 {
		t.Errorf("%d choices, %q, out %v", len(a.Choices), a.Say, a.Out)
	}
	if !slices.ContainsFunc(a.Out, func(o FellOut) bool { return o.Title == "Half a data sheet" }) {
		t.Errorf("out: %v", a.Out)
	}
	car := job.New("hatch").Car
	car.Cabin.Stations = car.Cabin.Stations[:2]
	if _, err := Which(context.Background(), system.NewSolver(), WhichRequest{Car: &car}, nil); err == nil {
		t.Error("a car of two stations is answered")
	}
}

func TestWhichCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	n := 0
	_, err := Which(ctx, system.NewSolver(), WhichRequest{}, func(Watched) {
		if n++; n == 20 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	if n > 24 {
		t.Errorf("%d more steps after the cancel", n-20)
	}
}

// A car drawn to a tape measure keeps its shape and passes its check.
func TestScaledCars(t *testing.T) {
	for _, b := range job.Bodies() {
		for _, k := range []float64{0.85, 1.2} {
			e, err := ready(WhichRequest{Body: b.Key, LengthMM: k * b.Cabin.LengthMM, WidthMM: b.Cabin.WidthMM * (1 + (k-1)/3), HeightMM: b.Cabin.HeightMM * (1 + (k-1)/4)})
			if err != nil {
				t.Errorf("%s x %g: %v", b.Key, k, err)
				continue
			}
			for _, f := range job.Check(e.job) {
				if f.Level == job.LevelError {
					t.Errorf("%s x %g: %s", b.Key, k, f.Say)
				}
			}
		}
	}
	if _, err := ready(WhichRequest{Body: "coupe", LengthMM: 5000}); err == nil || !strings.Contains(err.Error(), "coupe") {
		t.Errorf("a coupe of 5 m: %v", err)
	}
}

// BenchmarkDesigns prints how many designs a second a customer's question
// makes: a candidate driver and box type, its box optimised for the car.
func BenchmarkDesigns(b *testing.B) {
	e, err := ready(WhichRequest{Body: "hatch", Drivers: small(b, "sub-8-standard", "sub-10-standard", "sub-12-standard"),
		Types: []string{"sealed", "vented", "passive_radiator", "bandpass4"}})
	if err != nil {
		b.Fatal(err)
	}
	w := &which{enquiry: e, ctx: context.Background(), solver: system.NewSolver()}
	w.list()
	w.try(w.all[0]) // the car, which a page has seen before
	n := 0
	for b.Loop() {
		for _, c := range w.all {
			w.try(c)
			n++
		}
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "designs/s")
}

// Drivers that no maker makes must not bring the search down, nor put anything
// into the answer that is no number.
func TestWhichWithOddDrivers(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 9))
	between := func(lo, hi float64) *float64 { return ptr(lo * math.Pow(hi/lo, r.Float64())) }
	var drivers []job.Driver
	for i := range 8 {
		d := job.Driver{Name: fmt.Sprintf("Odd %d", i), ReOhm: between(0.1, 100), FsHz: between(5, 500), Qes: between(0.05, 10), Qms: between(0.3, 50), VasL: between(0.1, 2000), SdCM2: between(5, 5000)}
		if i%2 == 0 {
			d.XmaxMM, d.PowerW, d.DepthMM, d.OutsideMM = between(0.3, 100), between(1, 20000), between(10, 700), between(45, 1000)
		}
		drivers = append(drivers, d)
	}
	a, err := Which(context.Background(), system.NewSolver(), WhichRequest{Body: "panel_van", BootPct: 100, Loud: "talk", Drivers: drivers,
		Types: []string{"sealed", "vented", "passive_radiator", "line", "aperiodic"}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := json.Marshal(a); err != nil {
		t.Errorf("the answer holds what is no number: %v", err)
	}
	for _, c := range a.Choices {
		if c.Title == "" || !c.Outside.Passes {
			t.Errorf("%+v", c)
		}
	}
}
