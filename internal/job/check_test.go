package job

import (
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"
)

// at returns the settable value at a JSON pointer.
func at(t *testing.T, j *Job, pointer string) reflect.Value {
	t.Helper()
	v := reflect.ValueOf(j).Elem()
	for _, part := range strings.Split(pointer, "/")[1:] {
		for v.Kind() == reflect.Pointer {
			v = v.Elem()
		}
		if v.Kind() == reflect.Slice {
			i, err := strconv.Atoi(part)
			if err != nil || i >= v.Len() {
				t.Fatalf("no %s in the job", pointer)
			}
			v = v.Index(i)
			continue
		}
		field := reflect.Value{}
		for i := 0; v.IsValid() && v.Kind() == reflect.Struct && i < v.NumField(); i++ {
			if key, _ := tag(v.Type().Field(i)); key == part {
				field = v.Field(i)
			}
		}
		if !field.IsValid() {
			t.Fatalf("no %s in the job", pointer)
		}
		v = field
	}
	return v
}

func put(t *testing.T, j *Job, pointer string, value float64) {
	t.Helper()
	v := at(t, j, pointer)
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.ValueOf(&value))
	case reflect.Int:
		v.SetInt(int64(value))
	default:
		v.SetFloat(value)
	}
}

func findingsAt(found []Finding, at, level string) []Finding {
	var out []Finding
	for _, f := range found {
		if f.At == at && f.Level == level {
			out = append(out, f)
		}
	}
	return out
}

// sample is a sound job and where the values of each pattern stand in it.
type sample struct {
	job    Job
	places map[string][]string
}

// samples together hold every value that a rule reads.
func samples() []sample {
	box := New("hatch")
	box.Car.Cabin.Shape = "cuboid"
	box.Car.Cabin.Stations = nil
	var out []sample
	for _, j := range []Job{fullJob(), box, New("saloon")} {
		s := sample{Canonical(j), map[string][]string{}} // a copy, so that no two values are one
		leavesOf(j, func(at string, _ *node) {
			s.places[Pattern(at)] = append(s.places[Pattern(at)], at)
		})
		out = append(out, s)
	}
	return out
}

func leavesOf(j Job, visit func(at string, n *node)) {
	text, err := encodeCompact(j)
	if err != nil {
		panic(err)
	}
	root, _, err := parse(text)
	if err != nil {
		panic(err)
	}
	root.leaves("", visit)
}

// with checks the job with one value changed, and changes it back.
func (s sample) with(t *testing.T, pointer string, value float64) []Finding {
	v := at(t, &s.job, pointer)
	old := reflect.New(v.Type()).Elem()
	old.Set(v)
	defer v.Set(old)
	put(t, &s.job, pointer, value)
	return findingsAt(Check(s.job), pointer, LevelError)
}

func TestSamplesAreSound(t *testing.T) {
	for _, s := range samples() {
		if found := Check(s.job); HasError(found) {
			t.Errorf("%s: %v", s.job.Title, found)
		}
	}
}

// Every numeric limit refuses what lies outside, allows its ends, and says so
// at the value, with the limits in the sentence.
func TestEveryLimitHolds(t *testing.T) {
	all := samples()
	for _, l := range Limits() {
		if l.Choices != nil || l.Text > 0 {
			continue
		}
		step := 0.01 * math.Max(math.Abs(l.Min), 0.1)
		if l.Whole {
			step = 1
		}
		for _, outside := range []float64{l.Min - step, l.Max + math.Max(1, l.Max*0.01), math.NaN(), math.Inf(1)} {
			if (l.Whole && outside-outside != 0) || (l.ZeroOff && outside == 0) {
				continue // an int cannot hold the first; the second is allowed
			}
			if !refused(t, all, l, outside) {
				t.Errorf("%s (%s): %g is not refused", l.At, l.Label, outside)
			}
		}
		for _, inside := range []float64{l.Min, l.Max} {
			if refusedByRange(t, all, l, inside) {
				t.Errorf("%s (%s): its own end %g is refused", l.At, l.Label, inside)
			}
		}
	}
}

func refused(t *testing.T, all []sample, l Limit, value float64) bool {
	for _, s := range all {
		for _, p := range s.places[l.At] {
			for _, f := range s.with(t, p, value) {
				if strings.Contains(strings.ToLower(f.Say), strings.ToLower(l.Label)) &&
					strings.Contains(f.Say, Number(l.Min, "")) && strings.Contains(f.Say, Number(l.Max, "")) {
					return true
				}
			}
		}
	}
	return false
}

// refusedByRange tells whether the range rule itself objects; rules across
// fields may well object to an end.
func refusedByRange(t *testing.T, all []sample, l Limit, value float64) bool {
	for _, s := range all {
		for _, p := range s.places[l.At] {
			for _, f := range s.with(t, p, value) {
				if strings.Contains(f.Say, "must be from "+Number(l.Min, "")+" to") {
					return true
				}
			}
		}
	}
	return false
}

// Every word and text limit refuses what it does not know.
func TestEveryWordHolds(t *testing.T) {
	all := samples()
	for _, l := range Limits() {
		if l.Choices == nil && l.Text == 0 {
			continue
		}
		wrong := "velvet"
		if l.Text > 0 {
			wrong = strings.Repeat("x", l.Text+1)
		}
		hit := false
		for _, s := range all {
			for _, p := range s.places[l.At] {
				v := at(t, &s.job, p)
				old := v.String()
				v.SetString(wrong)
				hit = hit || len(findingsAt(Check(s.job), p, LevelError)) > 0
				v.SetString(old)
			}
		}
		if !hit {
			t.Errorf("%s (%s): a wrong word is not refused", l.At, l.Label)
		}
	}
}

// No number in the document is without a limit, and every limit and label
// names a value that exists.
func TestLimitsCoverTheDocument(t *testing.T) {
	limit := map[string]bool{}
	for _, l := range Limits() {
		if limit[l.At] {
			t.Errorf("%s has two limits", l.At)
		}
		limit[l.At] = true
		if l.Label == "" || (l.Choices == nil && l.Text == 0 && l.Min >= l.Max) {
			t.Errorf("bad limit %+v", l)
		}
	}
	seen := map[string]bool{}
	for _, s := range samples() {
		leavesOf(s.job, func(at string, n *node) {
			p := Pattern(at)
			seen[p] = true
			if n.kind == isNumber && !limit[p] && p != "/version" {
				t.Errorf("%s has no limit", p)
			}
			if _, ok := labels()[p]; !ok && !strings.HasPrefix(p, "/assumed/") && !strings.HasPrefix(p, "/aim/music/") {
				t.Errorf("%s has no words for a sentence", p)
			}
		})
	}
	for p := range limit {
		if !seen[p] {
			t.Errorf("no sample holds %s", p)
		}
	}
}

// Rules across fields: what is done to a sound job, where the finding stands
// and what it must mention.
func TestRulesAcrossFields(t *testing.T) {
	cases := []struct {
		name  string
		body  string
		do    func(*Job)
		at    string
		level string
		say   string
	}{
		{"stations back to front", "hatch", func(j *Job) { j.Car.Cabin.Stations[2].XMM = 600 }, "/car/cabin/stations/2/x_mm", LevelError, "at least 20 mm behind"},
		{"two stations in one place", "hatch", func(j *Job) { j.Car.Cabin.Stations[2].XMM = j.Car.Cabin.Stations[1].XMM }, "/car/cabin/stations/2/x_mm", LevelError, "station 2"},
		{"roof below floor", "hatch", func(j *Job) { j.Car.Cabin.Stations[3].FloorMM = 1200 }, "/car/cabin/stations/3/roof_mm", LevelError, "above the floor"},
		{"measuring begins late", "hatch", func(j *Job) { j.Car.Cabin.Stations[0].XMM = 50 }, "/car/cabin/stations/0/x_mm", LevelError, "0 mm"},
		{"too few stations", "hatch", func(j *Job) { j.Car.Cabin.Stations = j.Car.Cabin.Stations[:2] }, "/car/cabin/stations", LevelError, "3 to 8"},
		{"a very short cabin", "hatch", func(j *Job) {
			for i := range j.Car.Cabin.Stations {
				j.Car.Cabin.Stations[i].XMM /= 5
			}
		}, "/car/cabin/stations/4/x_mm", LevelError, "600 mm"},
		{"seat through the roof", "hatch", func(j *Job) { j.Car.Seats[0].ZMM = 1300 }, "/car/seats/0/z_mm", LevelError, "roof at"},
		{"seat through the door", "hatch", func(j *Job) { j.Car.Seats[1].YMM = -900 }, "/car/seats/1/y_mm", LevelError, "across"},
		{"seat behind the car", "hatch", func(j *Job) { j.Car.Seats[2].XMM = 4000 }, "/car/seats/2/x_mm", LevelError, "outside the cabin"},
		{"two seats of one name", "hatch", func(j *Job) { j.Car.Seats[1].ID = "wheel" }, "/car/seats/1/id", LevelError, "already"},
		{"no seat", "hatch", func(j *Job) { j.Car.Seats = nil }, "/car/seats", LevelError, "1 to 8"},
		{"aim at no seat", "panel_van", func(j *Job) { j.Aim.SeatID = "rear_left" }, "/aim/seat", LevelError, "no such seat"},
		{"boot longer than the car", "hatch", func(j *Job) { j.Car.Boot.LengthMM = 1500 }, "/car/boot/length_mm", LevelWarning, "shorten"},
		{"boot far from the cabin", "saloon", func(j *Job) { j.Car.Boot.XMM = 500 }, "/car/boot/x_mm", LevelError, "800 mm"},
		{"boot closed off", "saloon", func(j *Job) { j.Car.Boot.HatchCM2, j.Car.Boot.SeatBackKgM2 = 0, 0 }, "/car/boot/hatch_cm2", LevelWarning, "no sound"},
		{"arches wider than the boot", "hatch", func(j *Job) { j.Car.Boot.WheelArchesMM = 1300 }, "/car/boot/wheel_arches_mm", LevelWarning, "measure"},
		{"opening outside", "hatch", func(j *Job) { j.Car.Openings = []Opening{{Kind: "window", AreaCM2: 300, XMM: 7000, ZMM: 900}} }, "/car/openings/0/x_mm", LevelError, "outside the cabin"},
		{"nothing to hear", "hatch", func(j *Job) { j.Subs, j.Doors.Fitted = nil, false }, "/subs", LevelError, "neither"},
		{"too many subs", "hatch", func(j *Job) { j.Subs = make([]Sub, 9) }, "/subs", LevelError, "at most 8"},
		{"two subs of one name", "hatch", func(j *Job) { j.Subs = append(j.Subs, j.Subs[0]) }, "/subs/1/id", LevelError, "own"},
		{"too many drivers", "hatch", func(j *Job) { j.Subs[0].Series, j.Subs[0].Parallel = 5, 4 }, "/subs/0/parallel", LevelError, "makes 20"},
		{"vented without a port", "hatch", func(j *Job) { j.Subs[0].Box.Type = "vented" }, "/subs/0/box/port", LevelError, "vented box"},
		{"port without tuning", "hatch", func(j *Job) {
			j.Subs[0].Box.Type = "vented"
			j.Subs[0].Box.Port = &Port{Shape: "round", Count: 1, DiameterMM: 80, Ends: "flanged_free"}
		}, "/subs/0/box/port/tuning_hz", LevelError, "neither"},
		{"port with both", "hatch", func(j *Job) {
			j.Subs[0].Box.Type = "vented"
			j.Subs[0].Box.Port = &Port{Shape: "round", Count: 1, DiameterMM: 80, TuningHz: 35, LengthMM: 200, Ends: "flanged_free"}
		}, "/subs/0/box/port/tuning_hz", LevelNote, "length"},
		{"round port on a wall", "hatch", func(j *Job) {
			j.Subs[0].Box.Type = "vented"
			j.Subs[0].Box.Port = &Port{Shape: "round", Count: 1, DiameterMM: 80, TuningHz: 35, Ends: "wall"}
		}, "/subs/0/box/port/ends", LevelError, "slot"},
		{"band-pass without front", "hatch", func(j *Job) { j.Subs[0].Box.Type, j.Subs[0].Box.FrontL = "bandpass4", 20 }, "/subs/0/box/front", LevelError, "front"},
		{"series band-pass without rear port", "hatch", func(j *Job) { j.Subs[0].Box.Type, j.Subs[0].Box.FrontL = "bandpass6_series", 20 }, "/subs/0/box/port", LevelError, "series"},
		{"passive radiator missing", "hatch", func(j *Job) { j.Subs[0].Box.Type = "passive_radiator" }, "/subs/0/box/passive", LevelError, "passive"},
		{"aperiodic vent missing", "hatch", func(j *Job) { j.Subs[0].Box.Type = "aperiodic" }, "/subs/0/box/vent", LevelError, "flow resistance"},
		{"line without pieces", "hatch", func(j *Job) { j.Subs[0].Box.Type = "line" }, "/subs/0/box/line", LevelError, "1 to 24"},
		{"cone beyond the line", "hatch", func(j *Job) {
			j.Subs[0].Box.Type = "line"
			j.Subs[0].Box.Line = []Segment{{LengthMM: 1000, StartCM2: 300, EndCM2: 300}}
			j.Subs[0].Box.TapMM = 1200
		}, "/subs/0/box/tap_mm", LevelError, "1000 mm long"},
		{"odd Linkwitz-Riley", "hatch", func(j *Job) { j.Subs[0].Channel.Filters[0].Order = 3 }, "/subs/0/channel/filters/0/order", LevelError, "2, 4, 6 or 8"},
		{"amplifier at odds", "hatch", func(j *Job) { j.Subs[0].Channel.Amplifier.MinOhm = 8 }, "/subs/0/channel/amplifier/min_ohm", LevelWarning, "data sheet"},
		{"half a coil model", "hatch", func(j *Job) { j.Subs[0].Driver.SemiK = some(0.04) }, "/subs/0/driver/semi_k", LevelError, "exponent"},
		{"half a lossy coil", "hatch", func(j *Job) { j.Subs[0].Driver.L2MH = some(1) }, "/subs/0/driver/l2_mh", LevelError, "belong together"},
		{"no cone travel", "hatch", func(j *Job) { j.Subs[0].Driver.XmaxMM = nil }, "/subs/0/driver/xmax_mm", LevelNote, "not given"},
		{"cut-out beyond the rim", "hatch", func(j *Job) { j.Subs[0].Driver.CutOutMM = some(300) }, "/subs/0/driver/cut_out_mm", LevelWarning, "outside diameter"},
		{"cone outside the car", "saloon", func(j *Job) { j.Subs[0].Place.XMM = 3800 }, "/subs/0/place/x_mm", LevelError, "outside the cabin"},
		{"door on the wrong side", "hatch", func(j *Job) { j.Doors.Place.YMM = -600 }, "/doors/place/y_mm", LevelError, "mirrors"},
		{"wrong pointer", "hatch", func(j *Job) { j.Assumed = []string{"air"} }, "/assumed/0", LevelError, "JSON pointer"},
		{"control character", "hatch", func(j *Job) { j.Title = "a\x00b" }, "/title", LevelError, "U+0000"},
		{"unusual panel", "hatch", func(j *Job) { j.Subs[0].Box.PanelMM = 6 }, "/subs/0/box/panel_mm", LevelWarning, "unusual"},
	}
	for _, c := range cases {
		j := New(c.body)
		c.do(&j)
		found := findingsAt(Check(j), c.at, c.level)
		if len(found) != 1 || !strings.Contains(found[0].Say, c.say) {
			t.Errorf("%s: want one %s at %s with %q, have %v of %v", c.name, c.level, c.at, c.say, found, Check(j))
		}
	}
}

// Doors that are not fitted are not judged.
func TestDoorsNotFitted(t *testing.T) {
	j := New("hatch")
	j.Doors = Doors{}
	if found := Check(j); len(found) > 0 {
		t.Errorf("found %v", found)
	}
}

// An empty document draws sentences, not a flood, and no panic.
func TestCheckOfNothing(t *testing.T) {
	found := Check(Job{})
	if !HasError(found) || len(found) > maxFindings+1 {
		t.Errorf("%d findings", len(found))
	}
	for _, f := range found {
		if f.Say == "" || f.Say[len(f.Say)-1] != '.' {
			t.Errorf("not a sentence: %+v", f)
		}
	}
}

// The section of a cabin at its stations is the station, and half way between
// two it is their mean.
func TestSection(t *testing.T) {
	k := New("hatch").Car.Cabin
	for i, s := range k.Stations {
		if got := k.Section(s.XMM); got != s {
			t.Errorf("station %d: %+v", i+1, got)
		}
	}
	a, b := k.Stations[1], k.Stations[2]
	mid := k.Section((a.XMM + b.XMM) / 2)
	if math.Abs(mid.RoofMM-(a.RoofMM+b.RoofMM)/2) > 1e-9 || math.Abs(mid.WidthMM-(a.WidthMM+b.WidthMM)/2) > 1e-9 {
		t.Errorf("middle %+v of %+v and %+v", mid, a, b)
	}
	if k.Section(-100) != k.Stations[0] || k.Section(9000) != k.Stations[len(k.Stations)-1] {
		t.Error("outside, the section is not that of the nearest end")
	}
}

func TestTwoBoxesOnOneSpot(t *testing.T) {
	j := Demo()
	second := j.Subs[0]
	second.ID = "other"
	j.Subs = append(j.Subs, second)
	want := func(n int) {
		t.Helper()
		got := 0
		for _, f := range Check(j) {
			if f.At == "/subs/1/place/y_mm" && f.Level == LevelWarning {
				got++
			}
		}
		if got != n {
			t.Errorf("%d warnings, want %d: %v", got, n, Check(j))
		}
	}
	want(1)
	j.Subs[1].Place.YMM += 300
	want(0)
}
