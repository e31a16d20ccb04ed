package bridge

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"bootfloor/internal/advise"
	"bootfloor/internal/design"
	"bootfloor/internal/job"
)

// call makes a call whose reply must be JSON of the given shape.
func call(t *testing.T, e *Engine, name string, request any, into any, progress func(Progress)) Reply {
	t.Helper()
	b, err := json.Marshal(request)
	if err != nil {
		t.Fatal(err)
	}
	r, err := e.Call(context.Background(), name, b, progress)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if err := json.Unmarshal(r.JSON, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return r
}

// The numbers of a quick answer are those of the job that comes with it.
func TestQuickAgreesWithItsJob(t *testing.T) {
	e := New("v1")
	for _, line := range []string{"10 sealed 25 l 500 w hatch", "12 ported 600w saloon", "two 8s estate"} {
		var q QuickReply
		call(t, e, "quick", QuickCall{Text: line}, &q, nil)
		var ev Evaluation
		call(t, e, "evaluate", EvaluateRequest{Job: q.Job}, &ev, nil)
		if ev.Answer == nil {
			t.Fatalf("%q: the job has no answer: %v", line, ev.Findings)
		}
		if ev.Answer.Headline != q.Answer.Headline || ev.Answer.Because != q.Answer.Because || ev.Answer.LevelDB != q.Answer.LevelDB || ev.Answer.ReachHz != q.Answer.ReachHz {
			t.Errorf("%q: %q, %q\n the job says %q, %q", line, q.Answer.Headline, q.Answer.Because, ev.Answer.Headline, ev.Answer.Because)
		}
		if got := ev.Derived.Subs[0].LoadMinOhm; math.Abs(got-lineOf(q, "load").Value) > 1e-9 {
			t.Errorf("%q: load %g, the job has %g", line, lineOf(q, "load").Value, got)
		}
		if len(q.Chips) == 0 || len(q.Unknown) != 0 {
			t.Errorf("%q: chips %v, unknown %v", line, q.Chips, q.Unknown)
		}
	}
}

func lineOf(q QuickReply, key string) advise.QuickLine {
	for _, l := range q.Lines {
		if l.Key == key {
			return l
		}
	}
	return advise.QuickLine{}
}

// A design's numbers are those of the job with the design in it, and partial
// answers come before the last type is done.
func TestDesignAgreesWithItsJob(t *testing.T) {
	e := New("v1")
	j := job.New("hatch")
	partial := 0
	var d Designed
	call(t, e, "design", DesignRequest{Job: j, Types: []string{"sealed", "vented"}, Goal: design.Goal{Kind: design.Balanced}, Bounds: DesignBounds{Fits: true}}, &d, func(p Progress) {
		if p.SoFar != nil {
			partial++
			var so Designed
			if err := json.Unmarshal(p.SoFar, &so); err != nil || !so.Partial || len(so.Designs) != 1 {
				t.Errorf("partial answer %s: %v", p.SoFar, err)
			}
		}
		if p.Done > p.Of {
			t.Errorf("done %d of %d", p.Done, p.Of)
		}
	})
	if partial != 1 || len(d.Designs) != 2 || len(d.Failed) != 0 {
		t.Fatalf("%d partial answers, designs %d, failed %v", partial, len(d.Designs), d.Failed)
	}
	for _, x := range d.Designs {
		if !x.Kept || x.Outside == nil || !x.Outside.Passes {
			t.Errorf("%s: kept %v, %s", x.Type, x.Kept, x.Say)
		}
		k := j
		k.Subs = []job.Sub{x.Sub(j.Subs[0])}
		var ev Evaluation
		call(t, e, "evaluate", EvaluateRequest{Job: k}, &ev, nil)
		if ev.Answer == nil {
			t.Fatalf("%s: %v", x.Type, ev.Findings)
		}
		if math.Abs(ev.Answer.ReachHz-x.ReachHz) > 0.01 || math.Abs(ev.Derived.Subs[0].LoadMinOhm-x.LoadOhm) > 1e-6 {
			t.Errorf("%s: reach %.2f, load %.3f; the job has %.2f and %.3f", x.Type, x.ReachHz, x.LoadOhm, ev.Answer.ReachHz, ev.Derived.Subs[0].LoadMinOhm)
		}
		if len(x.Set) != 2 || x.Set[0].At != "/subs/0/box" || x.Set[1].At != "/subs/0/place" {
			t.Errorf("%s: %v", x.Type, x.Set)
		}
	}
	if len(d.Alignments) < 3 {
		t.Errorf("%d named alignments", len(d.Alignments))
	}
}

// A cancelled design says so.
func TestDesignCancelled(t *testing.T) {
	e := New("v1")
	ctx, cancel := context.WithCancel(context.Background())
	b, err := json.Marshal(DesignRequest{Job: job.New("hatch"), Goal: design.Goal{Kind: design.Lowest}})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	_, err = e.Call(ctx, "design", b, func(Progress) {
		if n++; n == 5 {
			cancel()
		}
	})
	var be *Error
	if !errors.As(err, &be) || be.Kind != Cancelled {
		t.Errorf("got %v", err)
	}
	if n > 12 {
		t.Errorf("%d more reports after the cancel", n-5)
	}
}

// Every call refuses what is no request with a sentence, and none panics.
func TestAdviceRefusesNonsense(t *testing.T) {
	e := New("v1")
	for _, name := range []string{"design", "remedies", "compare", "which", "quick", "shelf", "sheet", "fit"} {
		for _, request := range []string{"", "null", "[]", "{", `{"job":7}`, `{"text":7}`, `{"csv":"a;b"}`, `{"curve":"x"}`, `{"body":"spaceship"}`,
			`{"request":{"body":"spaceship"}}`, `{"request":{"size_in":-3}}`, `{"request":{"count":99}}`, `{"loud":"\u0000"}`, `{"music":["<b>"]}`,
			`{"lowest_hz":-1}`, `{"jobs":[]}`, `{"boot_pct":900}`, `{"space":{"from_seat_mm":9000}}`, `{"body":"hatch","length_mm":3}`} {
			if (name == "which" || name == "design") && (request == "null" || strings.HasPrefix(request, `{"job`) || strings.HasPrefix(request, `{"text`) || strings.HasPrefix(request, `{"c`) || strings.HasPrefix(request, `{"req`)) {
				continue // a whole search, or tested elsewhere
			}
			_, err := e.Call(context.Background(), name, []byte(request), nil)
			var be *Error
			if err != nil && (!errors.As(err, &be) || be.Say == "" || be.Kind == Internal) {
				t.Errorf("%s %s: %v", name, request, err)
			}
		}
	}
}

// The shelf goes out as CSV and comes back the same.
func TestShelfRoundTrip(t *testing.T) {
	e := New("v1")
	var shelf, text, back Shelved
	call(t, e, "shelf", ShelfRequest{}, &shelf, nil)
	if len(shelf.Drivers) < 10 {
		t.Fatalf("%d drivers", len(shelf.Drivers))
	}
	var drivers []job.Driver
	for _, d := range shelf.Drivers {
		drivers = append(drivers, d.Driver)
	}
	call(t, e, "shelf", ShelfRequest{Drivers: drivers}, &text, nil)
	call(t, e, "shelf", ShelfRequest{CSV: text.CSV}, &back, nil)
	if len(back.Drivers) != len(drivers) {
		t.Fatalf("%d of %d came back", len(back.Drivers), len(drivers))
	}
	for i, d := range back.Drivers {
		a, _ := json.Marshal(d.Driver)
		want := drivers[i]
		want.Typical = false
		b, _ := json.Marshal(want)
		if string(a) != string(b) {
			t.Errorf("%s\n came back as %s", b, a)
		}
	}
}

func TestSheetAndFitCalls(t *testing.T) {
	e := New("v1")
	var s SheetRead
	call(t, e, "sheet", SheetRequest{"Re 3.4 ohm\nfs 30 Hz\nQms 5\nQes 0.5\nVas 40 litres\nSd 330 cm2\nXmax 12 mm"}, &s, nil)
	if len(s.Models) != 1 || len(s.Models[0].Readings) != 7 || s.Models[0].Sure.FsHz == nil || *s.Models[0].Sure.FsHz != 30 {
		t.Errorf("%+v", s)
	}
	// A coil and a resonance of known values: Z = Re + Res/(1 + jQms(x - 1/x)).
	const re, fs, qms, qes = 3.5, 28.0, 6.0, 0.5
	var text strings.Builder
	text.WriteString("Hz;ohm\n")
	for f := 8.0; f < 400; f *= 1.02 {
		x := f / fs
		res := re * qms / qes
		b := qms * (x - 1/x)
		r, i := re+res/(1+b*b), -res*b/(1+b*b)
		line, _ := json.Marshal([]float64{f, math.Hypot(r, i)})
		text.WriteString(strings.NewReplacer("[", "", "]", "", ",", ";").Replace(string(line)) + "\n")
	}
	var f FitReply
	r := call(t, e, "fit", FitRequest{Curve: text.String()}, &f, nil)
	for _, want := range []struct {
		key string
		v   float64
	}{{"re_ohm", re}, {"fs_hz", fs}, {"qms", qms}, {"qes", qes}} {
		ok := false
		for _, v := range f.Values {
			if v.Key == want.key {
				ok = math.Abs(v.Value/want.v-1) < 0.002
			}
		}
		if !ok {
			t.Errorf("%s is not %g: %+v", want.key, want.v, f.Values)
		}
	}
	if len(r.Floats) != 2*f.Points || f.Points == 0 {
		t.Errorf("%d numbers for %d points", len(r.Floats), f.Points)
	}
}

func TestCompareCall(t *testing.T) {
	e := New("v1")
	a, b := job.New("hatch"), job.New("hatch")
	b.Subs[0].Box.NetL = 60
	b.Subs[0].Channel.Amplifier.RatedW = 125
	var c advise.Compared
	call(t, e, "compare", CompareRequest{[]advise.NamedJob{{Name: "Small", Job: a}, {Name: "Large", Job: b}}}, &c, nil)
	for _, row := range c.Rows {
		switch row.Key {
		case "net_l":
			if !row.Differs || row.Best != 0 || row.Values[1] != 60 {
				t.Errorf("%+v", row)
			}
		case "driver", "type", "price":
			if row.Differs {
				t.Errorf("%+v", row)
			}
		}
	}
	if len(c.Say) == 0 || !strings.Contains(strings.Join(c.Say, " "), "Small needs 35 litres less air than Large.") {
		t.Errorf("%q", c.Say)
	}
}

func TestRemediesCall(t *testing.T) {
	e := New("v1")
	j := job.New("hatch")
	var m Mended
	call(t, e, "remedies", JobRequest{j}, &m, nil)
	for _, l := range m.Limits {
		if l.Say == "" || l.Remedies == nil {
			t.Errorf("%+v", l)
		}
	}
	j.Subs[0].Box.NetL = -1
	call(t, e, "remedies", JobRequest{j}, &m, nil)
	if !job.HasError(m.Findings) || len(m.Limits) != 0 {
		t.Errorf("a broken job: %+v", m)
	}
}

func TestQuestionsCall(t *testing.T) {
	var q Questions
	call(t, New("v1"), "questions", struct{}{}, &q, nil)
	if len(q.Bodies) != len(job.BodyKeys()) || len(q.Music) < 8 || len(q.Loud) < 4 {
		t.Errorf("%d bodies, %d kinds of music, %d levels", len(q.Bodies), len(q.Music), len(q.Loud))
	}
}

// Bounds reach the designer, also those of the embedded part.
func TestDesignBoundsArrive(t *testing.T) {
	var d Designed
	call(t, New("v1"), "design", map[string]any{
		"job": job.New("hatch"), "types": []string{"sealed"}, "goal": map[string]any{"kind": "loudest"}, "bounds": map[string]any{"net_max_l": 9.5},
	}, &d, nil)
	if len(d.Designs) != 1 || d.Designs[0].NetL > 9.6 || d.Designs[0].NetL < 5 {
		t.Errorf("%+v", d.Designs)
	}
}

// A whole question, on a small shelf: partial answers, then the answer, whose
// choices carry their jobs.
func TestWhichCall(t *testing.T) {
	var shelf Shelved
	e := New("v1")
	call(t, e, "shelf", ShelfRequest{}, &shelf, nil)
	var drivers []job.Driver
	for _, s := range shelf.Drivers {
		if s.ID == "sub-8-standard" || s.ID == "sub-10-standard" || s.ID == "sub-12-long" {
			drivers = append(drivers, s.Driver)
		}
	}
	var a advise.WhichAnswer
	steps := 0
	call(t, e, "which", advise.WhichRequest{Body: "saloon", Music: []string{"pop"}, Loud: "sing", Drivers: drivers, Types: []string{"sealed", "vented"}}, &a, func(p Progress) {
		steps++
		if p.SoFar != nil {
			var so advise.WhichAnswer
			if err := json.Unmarshal(p.SoFar, &so); err != nil || !so.Partial || len(so.Choices) == 0 {
				t.Errorf("partial answer: %v, %d choices", err, len(so.Choices))
			}
		}
	})
	if a.Partial || len(a.Choices) < 3 || a.Choices[0].Job == nil || steps < 12 {
		t.Fatalf("partial %v, %d choices after %d steps", a.Partial, len(a.Choices), steps)
	}
	var ev Evaluation
	call(t, e, "evaluate", EvaluateRequest{Job: *a.Choices[0].Job}, &ev, nil)
	if ev.Answer == nil || ev.Answer.Headline != a.Choices[0].Answer.Headline {
		t.Errorf("%+v; the choice says %q", ev.Answer, a.Choices[0].Answer.Headline)
	}
}
