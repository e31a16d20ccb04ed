package driver

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"bootfloor/internal/air"
)

// Every driver of the shelf is complete, without contradiction, and of a piece:
// the bounds are common practice without a source, wide enough for any real
// driver of its size and narrow enough to catch a slip of the pen.
func TestShelf(t *testing.T) {
	std := air.MustStandard()
	ids := map[string]bool{}
	subs, doors := 0, 0
	for _, s := range Shelf() {
		if ids[s.ID] || !s.Stated.Typical || !strings.HasPrefix(s.Stated.Name, "Typical ") {
			t.Errorf("%s: twice, or not marked typical", s.ID)
		}
		ids[s.ID] = true
		d, findings, err := Derive(s.Stated, std)
		if err != nil {
			t.Fatal(s.ID, err)
		}
		for _, f := range findings {
			t.Errorf("%s: %s", s.ID, f.Say)
		}
		low, high := 81.0, 93.0
		if s.Kind == KindDoor {
			doors++
		} else {
			subs++
			if d.Qts < 0.3 || d.Qts > 0.75 {
				t.Errorf("%s: Qts %.3f", s.ID, d.Qts)
			}
		}
		if l := d.Sensitivity(std); l < low || l > high {
			t.Errorf("%s: %.1f dB at 1 W", s.ID, l)
		}
		if series, parallel, per, ok := d.StatedWiring(); !ok || per || series*parallel != d.Coils {
			t.Errorf("%s: Re %.2f does not go with %d coils of %g", s.ID, d.Re, d.Coils, d.CoilOhm)
		}
		if !(d.CutOut < d.Outside && d.Depth < d.Outside && 2*math.Sqrt(d.Sd/math.Pi) < d.CutOut) {
			t.Errorf("%s: cone %.0f, cut-out %.0f, outside %.0f, depth %.0f mm", s.ID, 2e3*math.Sqrt(d.Sd/math.Pi), 1e3*d.CutOut, 1e3*d.Outside, 1e3*d.Depth)
		}
		// An iron magnet system of this mass takes less room than it displaces.
		if d.Volume < d.Mass/7900 || d.Volume > math.Pi/4*d.CutOut*d.CutOut*d.Depth {
			t.Errorf("%s: displaces %.2f L", s.ID, 1e3*d.Volume)
		}
		if math.Abs(d.Mms*d.Sag()) > 0 && d.Sag() > 0.3*d.Xmax {
			t.Errorf("%s: sags %.1f mm of %.0f", s.ID, 1e3*d.Sag(), 1e3*d.Xmax)
		}
	}
	if subs < 14 || doors != 3 {
		t.Errorf("%d subs and %d door speakers", subs, doors)
	}
}

func TestCSVRoundTrip(t *testing.T) {
	var in []Stated
	for _, s := range Shelf() {
		in = append(in, Stated{Name: s.Stated.Name, Values: s.Stated.Values})
	}
	names := []string{`=SUM(A1:A9)`, `+1`, `-2`, `@cmd`, `'quoted`, `''twice`, `comma, "quote" and ; semicolon`, "Größe 12″", `'=x`}
	for _, n := range names {
		in = append(in, Stated{Name: n, Values: map[Key]float64{KeyFs: 28.25, KeyQts: 0.123456789}})
	}
	var b strings.Builder
	if err := WriteCSV(&b, in); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(b.String(), "\n") {
		if line != "" && strings.ContainsAny(line[:1], "=+-@") || strings.HasPrefix(line, `"=`) {
			t.Errorf("a spreadsheet would run %q", line)
		}
	}
	out, notes, err := ReadCSV(b.String())
	if err != nil || len(notes) != 0 {
		t.Fatal(err, notes)
	}
	if !reflect.DeepEqual(in, out) {
		for i := range in {
			if i < len(out) && !reflect.DeepEqual(in[i], out[i]) {
				t.Errorf("%+v\ncame back as\n%+v", in[i], out[i])
			}
		}
	}
}

func TestCSVDialectsAndRefusals(t *testing.T) {
	out, notes, err := ReadCSV("\ufeffName;fs_hz;QTS;colour\nOne;28,5;0,45;red\n\nTwo;31.5;0.5;\nBad;x;1;\nWorse;-3;1;\n")
	if err != nil || len(out) != 2 || out[0].Values[KeyFs] != 28.5 || out[1].Values[KeyFs] != 31.5 || out[0].Values[KeyQts] != 0.45 {
		t.Errorf("%+v %v %v", out, notes, err)
	}
	if len(notes) != 3 || !strings.Contains(notes[1], "Line 5") || !strings.Contains(notes[1], "fs_hz") || !strings.Contains(notes[2], "more than zero") {
		t.Errorf("notes %q", notes)
	}
	for name, text := range map[string]string{
		"empty": "", "no heading": "1,2,3\n", "no key": "name,colour\nx,red\n", "no rows": "name,fs_hz\n",
		"bytes": "name,fs_hz\n\xff\xfe,3\n", "large": strings.Repeat("a", MaxCSVBytes+1), "open quote": "name,fs_hz\n\"abc,3\n",
	} {
		if got, _, err := ReadCSV(text); err == nil {
			t.Errorf("%s: %d drivers", name, len(got))
		}
	}
	many, notes, err := ReadCSV("name,fs_hz\n" + strings.Repeat("x,30\n", MaxCSVRows+5))
	if err != nil || len(many) != MaxCSVRows || len(notes) != 1 {
		t.Errorf("%d drivers, %q, %v", len(many), notes, err)
	}
}

// The job document keeps every value.
func TestJobRoundTrip(t *testing.T) {
	for _, s := range Shelf() {
		again := FromJob(s.Stated.ToJob())
		if !reflect.DeepEqual(s.Stated, again) {
			t.Errorf("%+v\ncame back as\n%+v", s.Stated, again)
		}
		d, _, err := Derive(again, air.MustStandard())
		if err != nil {
			t.Fatal(err)
		}
		full := FromJob(d.State().ToJob())
		e, findings, err := Derive(full, air.MustStandard())
		if err != nil || len(findings) != 0 {
			t.Fatal(err, findings)
		}
		for i, x := range e.values() {
			near(t, s.ID+" "+string(smallKeys[i]), x, d.values()[i], 1e-9)
		}
	}
	for _, q := range Quantities() {
		s := Stated{Values: map[Key]float64{q.Key: 2}}
		if got := FromJob(s.ToJob()); got.Values[q.Key] != 2 {
			t.Errorf("%s is lost in a job", q.Key)
		}
	}
}

func FuzzCSV(f *testing.F) {
	f.Add("name,fs_hz\nx,30\n")
	f.Add("name;fs_hz;qts\n'=x;30,5;\"0,4\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		got, _, err := ReadCSV(text)
		if err != nil {
			return
		}
		var b strings.Builder
		if err := WriteCSV(&b, got); err != nil {
			t.Fatal(err)
		}
		again, notes, err := ReadCSV(b.String())
		if err != nil || len(notes) != 0 || !reflect.DeepEqual(got, again) {
			t.Errorf("%+v\n%+v\n%v %v", got, again, notes, err)
		}
	})
}
