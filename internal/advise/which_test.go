package advise

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"bootfloor/internal/carpentry"
	"bootfloor/internal/design"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
	"bootfloor/internal/judge"
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
	built, err := carpentry.Plan(j.Subs[0], j.Car.Boot, carpentry.Options{PortLength: portLength(j.Subs[0]) / 1000})
	if err != nil {
		t.Errorf("%s: %v", c.Title, err)
		return
	}
	if !built.Stand.Fits || !built.Passage.Passes || built.NetM3 < 0.97*c.NetL/1000 {
		t.Errorf("%s: stands %v, passes %v, holds %.1f of %.1f l", c.Title, built.Stand.Fits, built.Passage.Passes, 1000*built.NetM3, c.NetL)
	}
}

// The ranking against every box: for each driver, number and type of a small
// shelf, 60 volumes (closed) or 20 volumes by 16 tunings (vented, with the
// tubes that the pick has and one size either way) in the same room, each read
// from the full response. The best of all by the same scores must not beat the
// balanced pick by more than a twentieth of the scale, about two decibels.
func TestRankingAgainstEveryBox(t *testing.T) {
	solver := system.NewSolver()
	req := WhichRequest{Body: "hatch", Music: []string{"metal"}, Loud: "loud", BootPct: 25,
		Drivers: small(t, "sub-8-standard", "sub-10-standard", "sub-12-standard"), Types: []string{"sealed"}}
	a, err := Which(context.Background(), solver, req, nil)
	if err != nil {
		t.Fatal(err)
	}
	e, err := ready(req)
	if err != nil {
		t.Fatal(err)
	}
	w := &which{enquiry: e, ctx: context.Background(), solver: solver}
	w.list()
	type found struct {
		total, short, litres, reach, level float64
		title                              string
	}
	var best, smallest, loudest found
	best.total, smallest.litres, loudest.level = math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, c := range w.all {
		c.job = w.jobFor(c)
		for v := 3.0; v < 120; v *= math.Pow(40, 1.0/60) {
			s := c.job.Subs[0]
			s.Box.NetL = v
			o, ok := w.room.Stand(s, c.driver, 0)
			if !ok {
				continue
			}
			s.Place = o.Place
			j := c.job
			j.Subs = []job.Sub{s}
			r, _ := solver.Respond(j, system.Grid{FromHz: 12, ToHz: 160, Points: 46})
			if r == nil {
				continue
			}
			verdict := judge.Of(r.Hz, r.Find("max/sub/wheel"), r.Find("max_by/sub/wheel"), judge.Upper(j), j.Aim.LevelDB)
			c.design = &design.Design{ReachHz: verdict.ReachHz, LevelDB: leastLevel(j, r), Outside: &o}
			sc := w.scores(c)
			f := found{sc.Total(1, 1, 1), sc.Short, o.Litres, verdict.ReachHz, c.design.LevelDB, fmt.Sprintf("%s, %.1f l", c.title(), v)}
			if f.total > best.total {
				best = f
			}
			if f.short == 0 && f.litres < smallest.litres {
				smallest = f
			}
			if f.level > loudest.level {
				loudest = f
			}
		}
	}
	for _, c := range a.Choices {
		for _, b := range c.PickedFor {
			switch b {
			case "balanced":
				if got := c.Scores.Total(1, 1, 1); got < best.total-0.05 {
					t.Errorf("balanced: %s, %.1f l scores %.3f; every box: %s %.3f", c.Title, c.NetL, got, best.title, best.total)
				}
			case "smallest":
				if c.Outside.Litres > 1.1*smallest.litres {
					t.Errorf("smallest: %s takes %.1f l; every box: %s %.1f l", c.Title, c.Outside.Litres, smallest.title, smallest.litres)
				}
			case "loudest":
				if c.LevelDB < loudest.level-1 {
					t.Errorf("loudest: %s plays %.1f dB; every box: %s %.1f dB", c.Title, c.LevelDB, loudest.title, loudest.level)
				}
			}
		}
	}
}

// The law that nobody escapes: eta0 = k V f3^3, with k fixed by the alignment
// (Small, JAES 20 (1972) 798; Hofmann's iron law). Drivers are made for three
// boxes a factor of two apart with the same alignment (Qtc 0.707, alpha 3) and
// the same f3, whose efficiency must then double from each to the next: three
// decibels at the same power. In the open air the designer's own numbers must
// say so, and a corner a third of an octave lower in the same box costs three.
func TestSizeReachLevelTrade(t *testing.T) {
	solver := system.NewSolver()
	level := func(litres, corner float64) (db, fc float64) {
		const alpha, qtc, qms = 3.0, 0.7071, 5.0
		r := math.Sqrt(1 + alpha)
		fs, qts := corner/r, qtc/r
		qes := 1 / (1/qts - 1/qms)
		vas, sd, re, size := alpha*litres, 330.0, 3.5, 10.0
		d := job.Driver{Name: "made for the law", ReOhm: &re, FsHz: &fs, Qes: &qes, Qms: ptr(qms), VasL: &vas, SdCM2: &sd, SizeIn: &size}
		j := job.New("hatch")
		j.Car.Openings = []job.Opening{{Kind: "roof_off", AreaCM2: 20000, XMM: 1200, ZMM: 1100}}
		j.Doors.Fitted = false
		s := &j.Subs[0]
		s.Driver = d
		s.Channel.Filters = nil
		s.Channel.Amplifier = job.Amplifier{RatedW: 1, RatedOhm: re, MinOhm: 0.5, SupplyV: 13.8, EfficiencyP: 80, CableMM2: 4}
		best, err := design.Best(context.Background(), solver, j, 0, "sealed", design.Goal{Kind: design.Even, FromHz: 1.5 * corner, ToHz: 150, LevelDB: 60},
			design.Bounds{NetMinL: litres, NetMaxL: litres})
		if err != nil {
			t.Fatal(err)
		}
		j.Subs[0].Box = best.Box
		resp, _ := solver.Respond(j, system.Grid{FromHz: corner, ToHz: 300, Points: 40})
		if resp == nil {
			t.Fatal("no response")
		}
		free := resp.Find("level/free")
		top := free[len(free)-1]
		if got := free[0] - top; math.Abs(got+3.01) > 0.1 {
			t.Errorf("%.0f l: %.2f dB at the corner of %.0f Hz", litres, got, corner)
		}
		return top, resp.Subs[0].SystemHz
	}
	base, fc := level(20, 45)
	if math.Abs(fc-45) > 0.2 {
		t.Errorf("the corner is %.2f Hz", fc)
	}
	for _, c := range []struct{ litres, corner float64 }{{40, 45}, {80, 45}, {20, 45 * math.Pow(2, -1.0/3)}, {40, 45 * math.Pow(2, -1.0/3)}} {
		got, _ := level(c.litres, c.corner)
		want := 10 * math.Log10(c.litres/20*math.Pow(c.corner/45, 3))
		if math.Abs(got-base-want) > 0.15 {
			t.Errorf("%.0f l, %.1f Hz: %.2f dB over the first, the law has %.2f", c.litres, c.corner, got-base, want)
		}
	}
}

func ptr(v float64) *float64 { return &v }

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
