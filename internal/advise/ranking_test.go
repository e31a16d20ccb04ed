package advise

import (
	"context"
	"fmt"
	"math"
	"testing"

	"bootfloor/internal/design"
	"bootfloor/internal/job"
	"bootfloor/internal/judge"
	"bootfloor/internal/system"
)

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
