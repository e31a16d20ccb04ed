package advise

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"

	"bootfloor/internal/design"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// Every body style with every box type gives an answer whose job is sound, and
// whose numbers are those of that job.
func TestQuickEverywhere(t *testing.T) {
	solver := system.NewSolver()
	bodies := job.BodyKeys()
	if runtime.GOARCH == "wasm" {
		bodies = bodies[:3]
	}
	for n, body := range bodies {
		types := append(design.Types(), "")
		if n > 2 {
			types = []string{"sealed", "vented", "infinite_baffle"}
		}
		for _, typ := range types {
			req := QuickRequest{Body: body, SizeIn: 10, Type: typ, PowerW: 400}
			if typ != "" {
				req.NetL = 30
			}
			q, err := Quick(context.Background(), solver, req)
			if err != nil {
				t.Errorf("%s, %s: %v", body, typ, err)
				continue
			}
			if q.Request.Type == "" || q.Request.Count != 1 || len(q.Lines) < 4 || q.Outside == nil {
				t.Errorf("%s, %s: %+v", body, typ, q.Request)
			}
			r, _ := solver.Respond(q.Job, system.DefaultGrid)
			if a := Answers(q.Job, r); a.Headline != q.Answer.Headline || a.Because != q.Answer.Because {
				t.Errorf("%s, %s: %q; its job says %q", body, typ, q.Answer.Headline, a.Headline)
			}
			s := q.Job.Subs[0]
			if typ != "" && typ != "infinite_baffle" && math.Abs(s.Box.NetL+s.Box.FrontL-30) > 1e-9 {
				t.Errorf("%s, %s: 30 litres asked, %g in the job", body, typ, s.Box.NetL+s.Box.FrontL)
			}
			if slices.Contains(q.Job.Assumed, "/subs/0/channel/amplifier/rated_w") {
				t.Errorf("%s, %s: the power was said, and is marked as assumed", body, typ)
			}
			for _, l := range q.Lines {
				if l.Say == "" || strings.Contains(l.Say, "%!") || math.IsNaN(l.Value) || math.IsInf(l.Value, 0) {
					t.Errorf("%s, %s: %+v", body, typ, l)
				}
			}
			if q.Fits && typ != "infinite_baffle" && (q.Outside.WidthMM != s.Box.WidthMM || s.Box.WidthMM <= 0) {
				t.Errorf("%s, %s: outside %g mm wide, in the job %g", body, typ, q.Outside.WidthMM, s.Box.WidthMM)
			}
		}
	}
}

// What is open is filled, and every filling is said.
func TestQuickSaysWhatItAssumes(t *testing.T) {
	q, err := Quick(context.Background(), system.NewSolver(), QuickRequest{})
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]bool{}
	for _, a := range q.Assumed {
		said[a.Key] = a.Say != ""
	}
	for _, key := range []string{"body", "car", "size_in", "driver", "power_w", "type", "net_l"} {
		if !said[key] {
			t.Errorf("nothing is said about %s", key)
		}
	}
	for _, at := range []string{"/car/body", "/subs/0/box/net_l", "/subs/0/channel/amplifier/rated_w"} {
		if !slices.Contains(q.Job.Assumed, at) {
			t.Errorf("%s is not marked as assumed", at)
		}
	}
}

func TestQuickRefuses(t *testing.T) {
	s := system.NewSolver()
	for _, r := range []QuickRequest{{Body: "boat"}, {SizeIn: 40}, {SizeIn: math.NaN()}, {Count: -1}, {Count: 40}, {Type: "horn"}, {NetL: -5}, {NetL: 1e9}, {PowerW: 1}, {PowerW: math.Inf(1)}} {
		if _, err := Quick(context.Background(), s, r); err == nil || !strings.HasSuffix(err.Error(), ".") {
			t.Errorf("%+v: %v", r, err)
		}
	}
}

// A vented box asked for in litres keeps them, and gets a port that is tuned.
func TestQuickPort(t *testing.T) {
	q, err := Quick(context.Background(), system.NewSolver(), ParseLine("two 12s ported 80 litres estate 1 kW").Request)
	if err != nil {
		t.Fatal(err)
	}
	s := q.Job.Subs[0]
	if s.Box.NetL != 80 || s.Box.Port == nil || s.Box.Port.TuningHz < 16 || s.Series*s.Parallel != 2 {
		t.Errorf("%+v, port %+v, %d x %d", s.Box, s.Box.Port, s.Series, s.Parallel)
	}
	// Its speed, worked out by the full job, is near what the port is sized for,
	// and the line tells its size, its length and that it blows.
	r, _ := system.NewSolver().Respond(q.Job, system.DefaultGrid)
	if v := slices.Max(r.Find("air_speed/sub/0")); v > 1.5*system.PortSpeedGuide {
		t.Errorf("%d x %.0f mm: the air reaches %.0f m/s", s.Box.Port.Count, s.Box.Port.DiameterMM, v)
	}
	at := slices.IndexFunc(q.Lines, func(l QuickLine) bool { return l.Key == "port" })
	if at < 0 || !strings.Contains(q.Lines[at].Say, fmt.Sprintf("%.0f mm long", r.Subs[0].PortLengths[0])) ||
		!strings.Contains(q.Lines[at].Say, fmt.Sprintf("%.0f mm", s.Box.Port.DiameterMM)) || !strings.Contains(q.Lines[at].Say, "m/s") {
		t.Errorf("%+v", q.Lines)
	}
	if s.Channel.Amplifier.RatedW != 1000 {
		t.Errorf("%g W", s.Channel.Amplifier.RatedW)
	}
}

// A tuning that was named is kept, and shows in the lines with its port.
func TestQuickTuning(t *testing.T) {
	s := system.NewSolver()
	q, err := Quick(context.Background(), s, ParseLine("12 tuned to 33 60 l 500 w saloon").Request)
	if err != nil {
		t.Fatal(err)
	}
	b := q.Job.Subs[0].Box
	if b.Type != "vented" || b.Port == nil || math.Abs(b.Port.TuningHz-33) > 0.05 {
		t.Fatalf("%+v, port %+v", b, b.Port)
	}
	if slices.Contains(q.Job.Assumed, "/subs/0/box/port/tuning_hz") {
		t.Error("the tuning was said, and is marked as assumed")
	}
	if q, err = Quick(context.Background(), s, ParseLine("12 sealed tuned 33 hz 60 l saloon").Request); err != nil || q.Request.TuningHz != 0 || q.Job.Subs[0].Box.Type != "sealed" {
		t.Errorf("%+v, %v", q, err)
	}
}

// A line of which nothing is understood has no headline; one with anything on
// it, or an empty one, has.
func TestQuickSaysNothing(t *testing.T) {
	s := system.NewSolver()
	for text, nothing := range map[string]bool{"xyzzy": true, "loud bass please": true, "": false, " ": false, "12": false, "xyzzy van": false} {
		q, err := Quick(context.Background(), s, ParseLine(text).Request)
		if err != nil {
			t.Fatal(text, err)
		}
		if q.Nothing != nothing || (q.Answer.Headline == "") != nothing || nothing != (len(q.Lines) == 0) || q.Answer.Because == "" {
			t.Errorf("%q: %+v", text, q.Answer)
		}
	}
	touched := ParseLine("xyzzy").Request.Over(QuickRequest{SizeIn: 12})
	if q, err := Quick(context.Background(), s, touched); err != nil || q.Nothing {
		t.Errorf("what was touched does not count: %v", err)
	}
}

// A baffle is not offered where the boot is part of the cabin, and the answer
// says why there is another box; where the boot is a room of its own it is.
func TestQuickBaffle(t *testing.T) {
	for body, offered := range map[string]bool{"hatch": false, "estate": false, "saloon": true} {
		q, err := Quick(context.Background(), system.NewSolver(), QuickRequest{Body: body, Type: "infinite_baffle", SizeIn: 10})
		if err != nil {
			t.Fatal(body, err)
		}
		if got := q.Job.Subs[0].Box.Type == "infinite_baffle"; got != offered {
			t.Errorf("%s: %s", body, q.Job.Subs[0].Box.Type)
		}
		if last := q.Lines[len(q.Lines)-1].Say; strings.Contains(last, "No infinite baffle") == offered {
			t.Errorf("%s: %s", body, last)
		}
	}
}

// Two drivers of one size in one type of box are told apart by their names.
func TestTellApart(t *testing.T) {
	a := &candidate{count: 1, typ: "sealed"}
	a.driver.SizeIn, a.stated.Name = 10, "one"
	b, c := *a, *a
	b.stated.Name, c.typ = "other", "vented"
	tellApart([]*candidate{a, &b, &c})
	if a.title() == b.title() || !strings.Contains(b.title(), "other") || strings.Contains(c.title(), "one") {
		t.Errorf("%q, %q, %q", a.title(), b.title(), c.title())
	}
}
