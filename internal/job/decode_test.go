package job

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

const data = "../../testdata/job"

// The demo job as a file, byte for byte: a change to the document or the demo
// shows here.
func TestDemoGolden(t *testing.T) {
	text, err := Encode(Demo())
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(data, "demo.json")
	if *update {
		if err := os.WriteFile(path, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(text, want) {
		t.Errorf("the demo job differs from %s; look at the difference, then run with -update", path)
	}
	j, found, err := Decode(want)
	if err != nil || len(found) > 0 || !reflect.DeepEqual(j, Canonical(Demo())) {
		t.Errorf("reading it back: %v %v", err, found)
	}
}

// Any document that the types can hold survives being written and read, and
// the writer is canonical: writing what was read gives the same bytes.
func TestRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	jobs := []Job{Demo(), fullJob(), Canonical(Job{})}
	for _, key := range BodyKeys() {
		jobs = append(jobs, New(key), changed(New(key), rng, 3))
	}
	for range 300 {
		jobs = append(jobs, randomJob(rng))
	}
	for i, j := range jobs {
		text, err := Encode(j)
		if err != nil {
			t.Fatalf("job %d: %v", i, err)
		}
		back, found, err := Decode(text)
		if err != nil {
			t.Fatalf("job %d: %v\n%s", i, err, text)
		}
		if len(found) > 0 {
			t.Errorf("job %d: %v", i, found)
		}
		if !reflect.DeepEqual(back, Canonical(j)) {
			t.Fatalf("job %d changed on the way:\n%s", i, text)
		}
		again, _ := Encode(back)
		if !bytes.Equal(text, again) {
			t.Errorf("job %d: written twice, two texts", i)
		}
		// The standard library's own reader agrees.
		var std Job
		if err := json.Unmarshal(text, &std); err != nil || !reflect.DeepEqual(Canonical(std), back) {
			t.Errorf("job %d: encoding/json reads something else (%v)", i, err)
		}
	}
}

func TestEncodeRefusesWhatIsNoNumber(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		j := New("hatch")
		j.Subs[0].Box.NetL = bad
		_, err := Encode(j)
		if err == nil || !strings.Contains(err.Error(), "the net volume of the box (/subs/0/box/net_l)") {
			t.Errorf("%g: %v", bad, err)
		}
		if _, err := Pack(j); err == nil {
			t.Errorf("%g was packed", bad)
		}
	}
}

// Canonical copies: changing the copy leaves the original alone.
func TestCanonicalIsACopy(t *testing.T) {
	j := fullJob()
	before, _ := Encode(j)
	k := Canonical(j)
	changedAll := changed(k, rand.New(rand.NewPCG(1, 1)), 1)
	k.Car.Cabin.Stations[0].WidthMM = 1
	*k.Subs[0].Driver.FsHz = 1
	k.Subs[1].Box.Port.Count = 9
	k.Assumed[0] = "/x"
	after, _ := Encode(j)
	if !bytes.Equal(before, after) || reflect.DeepEqual(changedAll, j) {
		t.Error("the original changed with its copy")
	}
}

// small is a short valid text to spoil.
func small(t *testing.T) string {
	text, err := encodeCompact(New("hatch"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Each spoiled text is refused with a sentence that names the trouble.
func TestDecodeRefuses(t *testing.T) {
	ok := small(t)
	swap := func(old, new string) string {
		if !strings.Contains(ok, old) {
			t.Fatalf("no %s in the text", old)
		}
		return strings.Replace(ok, old, new, 1)
	}
	cases := []struct{ name, text, say string }{
		{"nothing", "", "empty"},
		{"white space", " \n\t", "empty"},
		{"not JSON", "hello", "line 1, column 1"},
		{"a list", "[]", "a list instead of a job"},
		{"a number", "7", "a number instead"},
		{"null", "null", "nothing (null)"},
		{"another format", `{"format":"recipe","version":1}`, `"recipe"`},
		{"no format", `{"version":1}`, "does not say so"},
		{"no version", `{"format":"bootfloor-job"}`, "version"},
		{"version as text", `{"format":"bootfloor-job","version":"1"}`, "whole number"},
		{"version with a part", `{"format":"bootfloor-job","version":1.5}`, "whole number"},
		{"negative version", `{"format":"bootfloor-job","version":-1}`, "whole number"},
		{"newer version", swap(`"version":1`, `"version":2`), "of version 2; this page reads versions up to 1"},
		{"cut off", ok[:len(ok)/2], "stops before the job ends"},
		{"two documents", ok + ok, "line 1, column"},
		{"NaN", swap(`"temperature_c":20`, `"temperature_c":NaN`), "NaN, which is not a number"},
		{"infinity", swap(`"temperature_c":20`, `"temperature_c":-Infinity`), "Infinity, which is not a number"},
		{"huge number", swap(`"temperature_c":20`, `"temperature_c":1e999`), "The air temperature (/air/temperature_c) is 1e999, too large"},
		{"text for a number", swap(`"net_l":25`, `"net_l":"25"`), "Sub 1: the net volume of the box must be a number, but the text has text (at /subs/0/box/net_l)"},
		{"number for text", swap(`"title":""`, `"title":7`), "The title must be text"},
		{"null for a number", swap(`"net_l":25`, `"net_l":null`), "nothing (null)"},
		{"number for yes or no", swap(`"fitted":true`, `"fitted":1`), "true or false"},
		{"list for a group", swap(`"air":{`, `"air":[],"old":{`), "The air must be a group of values, but the text has a list"},
		{"group for a list", swap(`"seats":[`, `"seats":{},"old":[`), "The list of seats must be a list"},
		{"part of a driver", swap(`"series":1`, `"series":1.5`), "whole number"},
		{"a million drivers", swap(`"series":1`, `"series":1e18`), "whole number up to a million"},
		{"two at once", strings.Replace(swap(`"net_l":25`, `"net_l":"25"`), `"lining":0`, `"lining":[]`, 1), "1 more value is"},
		{"deep", strings.Repeat("[", 100000), "nested"},
		{"deep in a key", `{"a":` + strings.Repeat(`{"a":`, 40) + "1" + strings.Repeat("}", 41), "nested"},
		{"many keys", `{"format":"bootfloor-job","version":1,` + manyKeys(300) + `}`, "more than 200 values"},
		{"many values", `{"format":"bootfloor-job","version":1,"subs":[` + strings.Repeat("1,", 60000) + `1]}`, "more than 50000 values"},
		{"long", `{"format":"bootfloor-job","notes":"` + strings.Repeat("x", MaxBytes) + `"}`, "longer than"},
		{"kelvin as text", `{"format":"bootfloor-job","version":0,"air":{"temperature_k":"x"}}`, "/air/temperature_k"},
	}
	for _, c := range cases {
		j, _, err := Decode([]byte(c.text))
		if err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%s: want a sentence with %q, have %v", c.name, c.say, err)
		} else if s := err.Error(); s[len(s)-1] != '.' {
			t.Errorf("%s: not a sentence: %s", c.name, s)
		}
		if !reflect.DeepEqual(j, Job{}) {
			t.Errorf("%s: a job came back with the error", c.name)
		}
	}
}

func manyKeys(n int) string {
	var keys []string
	for i := range n {
		keys = append(keys, `"k`+Number(float64(i), "")+`":1`)
	}
	return strings.Join(keys, ",")
}

// What is odd but harmless is read, and noted.
func TestDecodeNotes(t *testing.T) {
	ok := small(t)
	cases := []struct{ name, old, new, at, say string }{
		{"unknown key", `"net_l":25`, `"net_l":25,"colour":"red"`, "/subs/0/box/colour", `"colour"`},
		{"unknown key with a slash", `"net_l":25`, `"net_l":25,"a/b~c":1`, "/subs/0/box/a~1b~0c", "left out"},
		{"key twice", `"net_l":25`, `"net_l":20,"net_l":25`, "/subs/0/box/net_l", "twice"},
		{"no air", `"air":{`, `"weather":{`, "/air", "usual values"},
		{"byte order mark", `{"format"`, "\uFEFF" + `{"format"`, "", ""},
		{"broken character", `"title":""`, "\"title\":\"a\xffb\"", "", "not valid"},
	}
	for _, c := range cases {
		text := strings.Replace(ok, c.old, c.new, 1)
		if text == ok {
			t.Fatalf("%s: nothing was spoiled", c.name)
		}
		j, found, err := Decode([]byte(text))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if j.Subs[0].Box.NetL != 25 {
			t.Errorf("%s: net volume %g", c.name, j.Subs[0].Box.NetL)
		}
		if c.say == "" {
			if len(found) > 0 {
				t.Errorf("%s: %v", c.name, found)
			}
			continue
		}
		notes := findingsAt(found, c.at, LevelNote)
		if len(notes) != 1 || !strings.Contains(notes[0].Say, c.say) {
			t.Errorf("%s: want a note at %q with %q, have %v", c.name, c.at, c.say, found)
		}
	}
}

// A part that is missing is filled in and marked as assumed.
func TestMissingPartsAreAssumed(t *testing.T) {
	j, found, err := Decode([]byte(`{"format":"bootfloor-job","version":1}`))
	if err != nil || len(found) != 3 {
		t.Fatalf("%v %v", err, found)
	}
	if j.Air != DefaultAir() || j.Tolerance != DefaultTolerance() || !reflect.DeepEqual(j.Aim, DefaultAim()) {
		t.Errorf("filled in: %+v", j)
	}
	if !has(j.Assumed, "/air/humidity_pct") || !has(j.Assumed, "/aim/lowest_hz") || !has(j.Assumed, "/tolerance/tape_mm") {
		t.Errorf("assumed: %v", j.Assumed)
	}
	if !HasError(Check(j)) {
		t.Error("a job without a car passes")
	}
}

// A file of version 0 reads as the same job in version 1.
func TestMigrationFromVersion0(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(data, "version0.json"))
	if err != nil {
		t.Fatal(err)
	}
	o, err := Open(text)
	if err != nil {
		t.Fatal(err)
	}
	same, err := os.ReadFile(filepath.Join(data, "version0_as_1.json"))
	if err != nil {
		t.Fatal(err)
	}
	want, _, err := Decode(same)
	if err != nil {
		t.Fatal(err)
	}
	if o.From != 0 || !reflect.DeepEqual(o.Job, want) || want.Air.TemperatureC != 5.5 || len(want.Subs) != 1 {
		got, _ := Encode(o.Job)
		t.Errorf("from version %d:\n%s", o.From, got)
	}
	if o.Job.Version != Version || len(findingsAt(o.Findings, "/version", LevelNote)) != 1 {
		t.Errorf("findings %v", o.Findings)
	}
	if HasError(Check(o.Job)) {
		t.Errorf("check: %v", Check(o.Job))
	}
}

// There is a step from every older version.
func TestMigrationChainIsWhole(t *testing.T) {
	if len(migrations) != Version {
		t.Errorf("%d migrations for version %d", len(migrations), Version)
	}
}

// Every hostile file gives a sentence or a job that Check can judge; none is
// taken for a sound job.
func TestHostileFiles(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(data, "hostile", "*.json"))
	if err != nil || len(files) < 15 {
		t.Fatalf("%d hostile files, %v", len(files), err)
	}
	for _, path := range files {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		j, found, err := Decode(text)
		name := filepath.Base(path)
		if err != nil {
			if s := err.Error(); len(s) > 600 || s[len(s)-1] != '.' {
				t.Errorf("%s: not a short sentence: %s", name, s)
			}
			continue
		}
		if !HasError(append(found, Check(j)...)) {
			t.Errorf("%s passes as a sound job", name)
		}
	}
}
