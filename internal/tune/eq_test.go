package tune

import (
	"context"
	"math"
	"strings"
	"testing"

	"bootfloor/internal/filter"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// through makes paths of one source whose response is a chain of sections.
func through(sections ...filter.Section) *paths {
	g := system.Grid{FromHz: 20, ToHz: 160, Points: 73}
	p := &paths{hz: g.Hz(), omega: g.Omega(), seats: []int{0}, ids: []string{"wheel"}, early: []float64{0}}
	p.per = [][][][]complex128{{{filter.New(sections, 0, false, 0).Response(p.omega)}}}
	return p
}

func equalised(t *testing.T, p *paths, bands int) Equalised {
	t.Helper()
	j := job.New("hatch")
	j.Doors.Fitted = false
	j.Subs[0].Channel.Filters = nil
	e, err := newEqualiser(j, p, EqualiseOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for len(e.bands) < bands && e.addBand() {
	}
	return e.report()
}

// The peaking section of the W3C Audio EQ Cookbook with gain -g is the exact
// inverse of that with gain g, so a response that is one peak has one answer.
func TestEqualiserUndoesAPeak(t *testing.T) {
	p := through(filter.Section{Kind: filter.Peak, FreqHz: 50, Q: 2.8, GainDB: 6})
	out := equalised(t, p, 3)
	if len(out.Filters) != 1 {
		t.Fatalf("%+v", out.Filters)
	}
	f := out.Filters[0]
	// Levels are smoothed over a sixth of an octave, which rounds the peak.
	if math.Abs(math.Log2(f.FreqHz/50)) > 1.0/24 || math.Abs(f.GainDB+6) > 1 || f.Q < 2 || f.Q > 2.8 {
		t.Errorf("%+v", f)
	}
	if out.AfterDB > 0.2 || out.BeforeDB < 1.5 {
		t.Errorf("%.2f to %.2f dB", out.BeforeDB, out.AfterDB)
	}
	if !strings.Contains(out.Reasons[0], "at the wheel") {
		t.Error(out.Reasons)
	}
}

// A null is not filled, and nothing is ever boosted.
func TestEqualiserLeavesNulls(t *testing.T) {
	out := equalised(t, through(filter.Section{Kind: filter.Peak, FreqHz: 60, Q: 5, GainDB: -20}), 5)
	if len(out.Filters) != 0 || !strings.Contains(out.Say, "cannot fill") {
		t.Errorf("%+v %s", out.Filters, out.Say)
	}
	out = equalised(t, through(
		filter.Section{Kind: filter.Peak, FreqHz: 45, Q: 3, GainDB: 9},
		filter.Section{Kind: filter.Peak, FreqHz: 70, Q: 6, GainDB: -20},
		filter.Section{Kind: filter.Peak, FreqHz: 110, Q: 4, GainDB: 7}), 5)
	if len(out.Filters) < 2 || out.AfterDB > 0.6*out.BeforeDB {
		t.Errorf("%.2f to %.2f dB with %+v", out.BeforeDB, out.AfterDB, out.Filters)
	}
	for i, f := range out.Filters {
		if f.GainDB >= 0 || f.GainDB < -mostCutDB || f.Q < 1 || f.Q > 6 {
			t.Errorf("%+v", f)
		}
		for _, g := range out.Filters[:i] {
			if math.Abs(math.Log2(f.FreqHz/g.FreqHz)) < 0.3 {
				t.Errorf("%g and %g Hz dig one hole", f.FreqHz, g.FreqHz)
			}
		}
	}
}

// In every body style the bands, put into the job, do in the full response
// what was promised.
func TestEqualiseAgreesWithTheFullResponse(t *testing.T) {
	for _, body := range job.BodyKeys() {
		j := job.New(body)
		s := system.NewSolver()
		out, err := Equalise(context.Background(), s, j, EqualiseOptions{Seats: []string{"wheel", "passenger"}, Target: House}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if out.AfterDB > out.BeforeDB || len(out.Filters) > 3 || len(out.Reasons) != len(out.Filters) {
			t.Errorf("%s: %.2f to %.2f dB, %d bands", body, out.BeforeDB, out.AfterDB, len(out.Filters))
		}
		for i := range j.Subs {
			j.Subs[i].Channel.Filters = append(j.Subs[i].Channel.Filters, out.Filters...)
		}
		j.Doors.Channel.Filters = append(j.Doors.Channel.Filters, out.Filters...)
		r, found := s.Respond(j, system.Grid{FromHz: 20, ToHz: 160, Points: len(out.Hz)})
		if r == nil {
			t.Fatal(found)
		}
		for i, seat := range out.Seats {
			for k, v := range r.Find("level/sum/" + seat) {
				// Frequencies are rounded to a tenth of a hertz.
				if math.Abs(v-out.After[i][k]) > 0.1 {
					t.Fatalf("%s, %s, %.1f Hz: promised %.3f dB, is %.3f", body, seat, out.Hz[k], out.After[i][k], v)
				}
			}
		}
	}
}

func TestEqualiseRefuses(t *testing.T) {
	silent := job.New("hatch")
	silent.Subs, silent.Doors.Fitted = nil, false
	if _, err := Equalise(context.Background(), system.NewSolver(), silent, EqualiseOptions{}, nil); err == nil {
		t.Error("a job without speakers was equalised")
	}
	if _, err := Equalise(context.Background(), system.NewSolver(), job.New("hatch"), EqualiseOptions{FromHz: 100, ToHz: 120}, nil); err == nil {
		t.Error("a fifth of an octave was equalised")
	}
}

// BenchmarkEqualise is three bands, one seat, four variations.
func BenchmarkEqualise(b *testing.B) {
	s, j := system.NewSolver(), job.New("hatch")
	for b.Loop() {
		if _, err := Equalise(context.Background(), s, j, EqualiseOptions{}, nil); err != nil {
			b.Fatal(err)
		}
	}
}
