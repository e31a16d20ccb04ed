package driver

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
)

var show = flag.Bool("show", false, "print what was read of each sheet")

// expected is what a sheet must give: for each model the values that are sure
// and the keys that are doubtful, and nothing beyond.
type expected struct {
	name     string
	sure     map[Key]float64
	doubtful map[Key]bool
}

func readExpected(t *testing.T, text string) []expected {
	t.Helper()
	out := []expected{{sure: map[Key]float64{}, doubtful: map[Key]bool{}}}
	named := false
	for _, line := range strings.Split(strings.TrimSpace(text), "\n") {
		head, rest, _ := strings.Cut(line, " ")
		last := &out[len(out)-1]
		switch {
		case line == "":
		case head == "model":
			if named {
				out = append(out, expected{sure: map[Key]float64{}, doubtful: map[Key]bool{}})
				last = &out[len(out)-1]
			}
			last.name, named = rest, true
		case head == "?":
			last.doubtful[Key(rest)] = true
		default:
			v, err := strconv.ParseFloat(rest, 64)
			if err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			last.sure[Key(head)] = v
		}
	}
	return out
}

// Every sheet in testdata was invented and laid out for this check. What is
// taken must be right and complete, what is not certain must be doubted.
func TestSheets(t *testing.T) {
	files, err := filepath.Glob("../../testdata/driver/sheets/*.txt")
	if err != nil || len(files) < 36 {
		t.Fatalf("%d sheets, %v", len(files), err)
	}
	values := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		text, want, ok := strings.Cut(string(data), "=== expect\n")
		if !ok {
			t.Fatalf("%s says nothing to expect", file)
		}
		name := filepath.Base(file)
		got := ReadSheet(text)
		models := readExpected(t, want)
		if len(got.Models) != len(models) {
			t.Errorf("%s: %d models, want %d", name, len(got.Models), len(models))
			continue
		}
		for i, w := range models {
			values += len(w.sure)
			checkModel(t, fmt.Sprintf("%s %s", name, w.name), text, got.Models[i], w)
		}
		if *show || t.Failed() {
			t.Log(describe(name, got))
		}
	}
	t.Logf("%d sheets, %d values", len(files), values)
}

func checkModel(t *testing.T, name, text string, got Model, want expected) {
	t.Helper()
	if want.name != "" && got.Name != want.name {
		t.Errorf("%s: called %q", name, got.Name)
	}
	seen := map[Key]bool{}
	for _, r := range got.Readings {
		if text[r.From:r.To] == "" || r.Source == "" || r.Line < 1 {
			t.Errorf("%s: %s has no source", name, r.Key)
		}
		if !r.Sure {
			if r.Why == "" {
				t.Errorf("%s: %s is doubted without a reason", name, r.Key)
			}
			if !want.doubtful[r.Key] {
				t.Errorf("%s: %s = %g is doubted: %s", name, r.Key, r.Value, r.Why)
			}
			seen[r.Key] = true
			continue
		}
		v, ok := want.sure[r.Key]
		if !ok || math.Abs(r.Value/v-1) > 1e-4 {
			t.Errorf("%s: WRONG VALUE TAKEN: %s = %g from %q, want %g", name, r.Key, r.Value, r.Source, v)
		}
		seen[r.Key] = true
	}
	for k := range want.sure {
		if !seen[k] {
			t.Errorf("%s: %s was not found", name, k)
		}
	}
	for k := range want.doubtful {
		if !seen[k] {
			t.Errorf("%s: %s was not even doubted", name, k)
		}
	}
}

func describe(name string, s Sheet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", name)
	for _, m := range s.Models {
		fmt.Fprintf(&b, "  model %q, %g dB\n", m.Name, m.SensitivityDB)
		sort.SliceStable(m.Readings, func(i, j int) bool { return m.Readings[i].From < m.Readings[j].From })
		for _, r := range m.Readings {
			mark := "sure"
			if !r.Sure {
				mark = "?"
			}
			fmt.Fprintf(&b, "    %-4s %-10s %10.5g  line %d %q %s %s\n", mark, r.Key, r.Value, r.Line, r.Source, r.Why, r.Note)
		}
		for _, f := range m.Findings {
			fmt.Fprintf(&b, "    finding %s: %s\n", f.Key, f.Say)
		}
	}
	for _, l := range s.NotUnderstood {
		fmt.Fprintf(&b, "  not understood %d: %s (%s)\n", l.Number, l.Text, l.Why)
	}
	for _, l := range s.Unused {
		fmt.Fprintf(&b, "  unused %d: %s\n", l.Number, l.Text)
	}
	return b.String()
}

func FuzzSheet(f *testing.F) {
	files, _ := filepath.Glob("../../testdata/driver/sheets/*.txt")
	for _, file := range files {
		if data, err := os.ReadFile(file); err == nil {
			text, _, _ := strings.Cut(string(data), "=== expect")
			f.Add(text)
		}
	}
	f.Add("Fs\r\r\n\xff½½ 1.234.56,7 e9 ±")
	f.Fuzz(func(t *testing.T, text string) {
		s := ReadSheet(text)
		for i, m := range s.Models {
			for _, r := range m.Readings {
				if !(r.Value > 0) || math.IsInf(r.Value, 0) {
					t.Errorf("%s = %g", r.Key, r.Value)
				}
				if r.From < 0 || r.To > len(text) || r.From > r.To {
					t.Errorf("%s from %d to %d of %d", r.Key, r.From, r.To, len(text))
				}
				if !r.Sure && r.Why == "" {
					t.Errorf("%s doubted without a reason", r.Key)
				}
			}
			s.Stated(i, true)
		}
	})
}
