package advise

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// applied returns the job with changes put in through JSON, as a page does.
func applied(t *testing.T, j job.Job, set []Change) job.Job {
	t.Helper()
	b, err := json.Marshal(j)
	if err != nil {
		t.Fatal(err)
	}
	var tree any
	if err := json.Unmarshal(b, &tree); err != nil {
		t.Fatal(err)
	}
	for _, c := range set {
		v, err := json.Marshal(c.Value)
		if err != nil {
			t.Fatal(err)
		}
		var value any
		if err := json.Unmarshal(v, &value); err != nil {
			t.Fatal(err)
		}
		parts := strings.Split(c.At, "/")[1:]
		at := tree
		for i, p := range parts {
			last := i == len(parts)-1
			switch node := at.(type) {
			case map[string]any:
				if last {
					node[p] = value
				}
				at = node[p]
			case []any:
				n := int(p[0] - '0')
				if last {
					node[n] = value
				}
				at = node[n]
			default:
				t.Fatalf("%s leads nowhere", c.At)
			}
		}
	}
	if b, err = json.Marshal(tree); err != nil {
		t.Fatal(err)
	}
	var out job.Job
	if err := json.Unmarshal(b, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// Each remedy, put into the job as a page would, frees its limit by the full
// response on a grid of its own, and half of it does not.
func TestRemediesFree(t *testing.T) {
	solver := system.NewSolver()
	tried, kinds := 0, map[string]bool{}
	for _, line := range []string{
		"10 sealed 25 l 500 w hatch", "12 ported 45 l 900w estate", "10 passive radiator 20 l 600 w hatch", "8 sealed 12 l 60 w small hatch",
		"12 bandpass 60 l 900 w estate", "two 12s sealed 60 l 200 w van", "15 sealed 60 l 1800 w long off roader",
	} {
		q, err := Quick(context.Background(), solver, ParseLine(line).Request)
		if err != nil {
			t.Fatal(line, err)
		}
		limits, found := Remedies(solver, q.Job)
		if limits == nil {
			t.Fatal(line, found)
		}
		for _, l := range limits {
			if l.Say == "" || l.FromHz > l.ToHz {
				t.Errorf("%q: %+v", line, l)
			}
			last := 0.0
			for _, r := range l.Remedies {
				tried++
				kinds[r.Key] = true
				if r.Cost < last || r.Amount <= 0 || r.Say == "" || len(r.Set) == 0 {
					t.Errorf("%q: %s: %+v", line, l.Key, r)
				}
				last = r.Cost
				j := applied(t, q.Job, r.Set)
				for _, f := range job.Check(j) {
					if f.Level == job.LevelError {
						t.Errorf("%q, %s: %s", line, r.Say, f.Say)
					}
				}
				if at, free := stillBinds(t, solver, j, l); !free {
					t.Errorf("%q, %s: it still binds at %.1f Hz", line, r.Say, at)
				}
			}
		}
	}
	if tried < 12 || len(kinds) < 5 {
		t.Errorf("only %d remedies of %d kinds were tried", tried, len(kinds))
	}
}

// stillBinds looks for a limit on a finer grid than the remedies were found on.
// The ends of its band lie between two points of the coarser one.
func stillBinds(t *testing.T, solver *system.Solver, j job.Job, l Binding) (float64, bool) {
	t.Helper()
	g, found := solver.Glance(j, system.Grid{FromHz: 12, ToHz: 160, Points: 240})
	if g == nil {
		t.Fatal(found)
	}
	if l.Key == "asked" {
		m := &mender{job: j, from: 12, asked: l.FromHz, upper: l.ToHz, seat: seatOf(j)}
		s := m.read(g)
		return l.FromHz, s.least > j.Aim.LevelDB-0.3
	}
	for k, f := range g.Hz {
		if f > 1.02*l.FromHz && f < 0.98*l.ToHz && int(g.Code[k]) == l.Code {
			return f, false
		}
	}
	return 0, true
}

// The remedy is the smallest of its kind: half of the change does not do.
func TestRemediesAreSmall(t *testing.T) {
	solver := system.NewSolver()
	q, err := Quick(context.Background(), solver, ParseLine("12 ported 45 l 900w estate").Request)
	if err != nil {
		t.Fatal(err)
	}
	limits, _ := Remedies(solver, q.Job)
	checked := 0
	for _, l := range limits {
		if l.ToHz < 1.1*l.FromHz {
			continue // a single point, between two of the finer grid
		}
		for _, k := range knobs(l.Key, q.Job.Subs[0]) {
			for _, r := range l.Remedies {
				if r.Key != k.key || k.whole || r.Amount < 3*k.step || k.was == 0 {
					continue
				}
				v := k.was + 0.5*r.Amount
				if k.to < k.from {
					v = k.was - 0.5*r.Amount
				}
				j := q.Job
				j.Subs = []job.Sub{k.set(j.Subs[0], v)}
				if _, free := stillBinds(t, solver, j, l); free {
					t.Errorf("%s (%s, %.1f to %.1f Hz): half of it, %.1f %s, would do", r.Say, l.Key, l.FromHz, l.ToHz, v, k.unit)
				}
				checked++
			}
		}
	}
	if checked == 0 {
		t.Error("no remedy was halved")
	}
}

// What nobody would hear is left out, and what costs much is kept only where
// there is nothing else, and says so. The numbers are made up for the test.
func TestWorthwhile(t *testing.T) {
	r := func(key string, gain, level, reach float64) Remedy {
		return Remedy{Key: key, Say: key + ".", gainDB: gain, LevelDB: level, gainReach: reach}
	}
	for _, c := range []struct {
		all  []Remedy
		lost float64
		want string
		say  string
	}{
		{[]Remedy{r("less_air", 0.4, 0.3, 0.04), r("port_wider", 0.6, 0, 0)}, 2, "port_wider", ""},
		{[]Remedy{r("less_air", 0.4, 0.3, 0.06)}, 2, "less_air", ""},
		{[]Remedy{r("high_pass", -1, -1, 0), r("less_power", -2, -4, 0)}, 2, "high_pass", ""},
		{[]Remedy{r("high_pass", -1, -1, 0)}, 0.3, "", "too little to hear"},
		{[]Remedy{r("less_power", -4, -4, 0), r("high_pass", -5, -5, 0)}, 6, "less_power", ""},
		{[]Remedy{r("less_power", -4, -4, 0), r("less_air", 0, 0, 0)}, 6, "", "costs more than 3 dB"},
		{nil, 6, "", "No single change"},
	} {
		b := Binding{Remedies: c.all, LostDB: c.lost}
		b.worthwhile()
		var keys []string
		for _, r := range b.Remedies {
			keys = append(keys, r.Key)
			if dear := r.LevelDB < -dearDB; dear != strings.Contains(r.Say, "playing softer") {
				t.Errorf("%s at %.0f dB says %q", r.Key, r.LevelDB, r.Say)
			}
		}
		if got := strings.Join(keys, " "); got != c.want || !strings.Contains(b.Say, c.say) {
			t.Errorf("%+v: left %q, says %q", c.all, got, b.Say)
		}
	}
}
