package advise

import (
	"strings"
	"testing"
	"unicode/utf16"
)

// want is what a line should be read as; zero fields must be absent.
type want struct {
	size    float64
	count   int
	typ     string
	l, w    float64
	body    string
	doubts  int
	hz      float64
	unknown string // the texts not understood, joined by |
}

// The lines are of our own writing, in the manner in which the trade types.
var lines = []struct {
	text string
	want want
}{
	{"10 sealed 25 l 500 w hatch", want{size: 10, typ: "sealed", l: 25, w: 500, body: "hatch"}},
	{"two 12s ported 80 litres estate 1 kW", want{size: 12, count: 2, typ: "vented", l: 80, w: 1000, body: "estate"}},
	{"12in vented 2 cubic feet 800 watts saloon", want{size: 12, typ: "vented", l: 56.6, w: 800, body: "saloon"}},
	{"10\" sealed 0,9 cu ft 300w small hatch", want{size: 10, typ: "sealed", l: 25.5, w: 300, body: "small_hatch"}},
	{"hatch, 500W, sealed, 10 inch, 25 litres", want{size: 10, typ: "sealed", l: 25, w: 500, body: "hatch"}},
	{"2x12 ported 1.2kw wagon", want{size: 12, count: 2, typ: "vented", w: 1200, body: "estate"}},
	{"2 x 10 in 40 l closed box sedan", want{size: 10, count: 2, typ: "sealed", l: 40, body: "saloon"}},
	{"a pair of tens in an estate", want{size: 10, count: 2, body: "estate"}},
	{"twin 8s van", want{size: 8, count: 2, body: "panel_van"}},
	{"single 15 ported 100l", want{size: 15, count: 1, typ: "vented", l: 100}},
	{"12s x 2 sealed", want{size: 12, count: 2, typ: "sealed"}},
	{"8 x 2 sealed", want{size: 8, count: 2, typ: "sealed"}},
	{"one twelve inch, bass reflex, coupé", want{size: 12, count: 1, typ: "vented", body: "coupe"}},
	{"fifteens", want{size: 15}},
	{"6.5 sealed", want{size: 6.5, typ: "sealed"}},
	{"6,5 sealed 8,5 l", want{size: 6.5, typ: "sealed", l: 8.5}},
	{"6½\" closed 7 l", want{size: 6.5, typ: "sealed", l: 7}},
	{"12\u2033 vented 60 l 1,200 w 4x4", want{size: 12, typ: "vented", l: 60, w: 1200, body: "off_roader_long", doubts: 1}},
	{"12'' vented 60 l 1.200 W suv", want{size: 12, typ: "vented", l: 60, w: 1200, body: "off_roader_long", doubts: 2}},
	{"short off-roader 10 sealed", want{size: 10, typ: "sealed", body: "off_roader_short"}},
	{"long off roader 15 ported", want{size: 15, typ: "vented", body: "off_roader_long"}},
	{"pick-up 10 sealed 20l", want{size: 10, typ: "sealed", l: 20, body: "pick_up"}},
	{"pickup cab? no, pickup 8 sealed", want{size: 8, typ: "sealed", body: "pick_up", unknown: "cab|no|pickup"}},
	{"convertible 8 sealed 12 ltr 200 watts rms", want{size: 8, typ: "sealed", l: 12, w: 200, body: "open_car"}},
	{"soft top 10 500 rms", want{size: 10, w: 500, body: "open_car"}},
	{"station wagon 12 ported 60 liters", want{size: 12, typ: "vented", l: 60, body: "estate"}},
	{"10 sealed 25 500 hatch", want{size: 10, typ: "sealed", l: 25, w: 500, body: "hatch", doubts: 2}},
	{"12 800", want{size: 12, w: 800, doubts: 1}},
	{"12 18 hatch", want{size: 12, l: 18, body: "hatch", doubts: 1}},
	{"30 cm sub sealed", want{size: 12, typ: "sealed", doubts: 1}},
	{"250mm sealed", want{size: 10, typ: "sealed", doubts: 1}},
	{"10 inch whatever suits 400w saloon", want{size: 10, w: 400, body: "saloon"}},
	{"10 any box 400w saloon", want{size: 10, w: 400, body: "saloon"}},
	{"12 infinite baffle saloon", want{size: 12, typ: "infinite_baffle", body: "saloon"}},
	{"12 ib saloon 300w", want{size: 12, typ: "infinite_baffle", w: 300, body: "saloon"}},
	{"10 passive radiator 20 l hatch", want{size: 10, typ: "passive_radiator", l: 20, body: "hatch"}},
	{"12 bandpass 70 l estate", want{size: 12, typ: "bandpass4", l: 70, body: "estate"}},
	{"12 band-pass 70 l estate", want{size: 12, typ: "bandpass4", l: 70, body: "estate"}},
	{"12 4th order bandpass 70 l", want{size: 12, typ: "bandpass4", l: 70}},
	{"12 6th order 90 l", want{size: 12, typ: "bandpass6_parallel", l: 90, doubts: 1}},
	{"8 transmission line 40l", want{size: 8, typ: "line", l: 40}},
	{"10 aperiodic 15 litres", want{size: 10, typ: "aperiodic", l: 15}},
	{"10 seald 25 l hatchbak", want{size: 10, typ: "sealed", l: 25, body: "hatch", doubts: 2}},
	{"12 portd 50l estat", want{size: 12, typ: "vented", l: 50, body: "estate", doubts: 2}},
	{"12 vetned convertable", want{size: 12, typ: "vented", body: "open_car", doubts: 2}},
	{"salloon 10 closed", want{size: 10, typ: "sealed", body: "saloon", doubts: 1}},
	{"10 sealed 25 l net 500 w", want{size: 10, typ: "sealed", l: 25, w: 500}},
	{"10 sealed 30 l gross", want{size: 10, typ: "sealed", l: 30, doubts: 1}},
	{"12 sealed 1000w peak", want{size: 12, typ: "sealed", w: 1000, doubts: 1}},
	{"12 sealed 1k", want{size: 12, typ: "sealed", w: 1000, doubts: 1}},
	{"sub 12 dual 4 ohm sealed", want{size: 12, typ: "sealed", unknown: "dual|4 ohm"}},
	{"12 volt 10 inch sealed", want{size: 10, typ: "sealed", unknown: "12 volt"}},
	{"10 sealed down to 31 Hz hatch", want{size: 10, typ: "sealed", body: "hatch", unknown: "down|31 Hz"}},
	{"3 10s sealed 75 l van", want{size: 10, count: 3, typ: "sealed", l: 75, body: "panel_van"}},
	{"four 8 inch sealed", want{size: 8, count: 4, typ: "sealed"}},
	{"2 off 12in vented", want{size: 12, count: 2, typ: "vented"}},
	{"10 ft3", want{l: 283.2}},
	{"1.5 ft³ 12", want{size: 12, l: 42.5}},
	{"12 cubes 15 inch", want{size: 15, l: 339.8}},
	{"10 sealed sealed", want{size: 10, typ: "sealed", unknown: "sealed"}},
	{"10 sealed vented", want{size: 10, typ: "sealed", unknown: "vented"}},
	{"five door 10", want{size: 10, body: "hatch"}},
	{"people carrier 12 sealed 500 watt", want{size: 12, typ: "sealed", w: 500, body: "off_roader_long"}},
	{"camper van 8 sealed", want{size: 8, typ: "sealed", body: "panel_van"}},
	{"10SEALED25L500WHATCH", want{size: 10, typ: "sealed", l: 25, w: 500, body: "hatch", doubts: 2}},
	{"12 ported tuned 35hz", want{size: 12, typ: "vented", hz: 35}},
	{"12 ported 60 l tuned to 35", want{size: 12, typ: "vented", l: 60, hz: 35}},
	{"12 vented @35hz 500w", want{size: 12, typ: "vented", w: 500, hz: 35}},
	{"12 vented @ 32,5 Hz", want{size: 12, typ: "vented", hz: 32.5}},
	{"12 vented @33 saloon", want{size: 12, typ: "vented", body: "saloon", hz: 33, doubts: 1}},
	{"two 10s 38 hz tuning ported", want{size: 10, count: 2, typ: "vented", hz: 38}},
	{"12 sealed @ 500 w", want{size: 12, typ: "sealed", w: 500}},
	{"12 sealed @ 50 l", want{size: 12, typ: "sealed", l: 50}},
	{"12 ported tuned to 350 hz", want{size: 12, typ: "vented", unknown: "tuned to 350 hz"}},
	{"12 ported tuned 35 hz tuned 40 hz", want{size: 12, typ: "vented", hz: 35, unknown: "tuned 40 hz"}},
	{"loud bass please", want{}},
	{"", want{}},
	{"🚗 10 sealed", want{size: 10, typ: "sealed"}},
	{"99999999999999999999 l", want{unknown: "99999999999999999999 l"}},
	{"0 w 0 l 0", want{unknown: "0 w|0 l|0"}},
}

func TestParseLine(t *testing.T) {
	if len(lines) < 60 {
		t.Fatalf("only %d lines", len(lines))
	}
	for _, l := range lines {
		got := ParseLine(l.text)
		r := got.Request
		doubts := 0
		for _, c := range got.Chips {
			if c.Doubtful {
				doubts++
			}
			if c.Doubtful != (c.Why != "") {
				t.Errorf("%q: chip %q doubtful %v with the reason %q", l.text, c.Text, c.Doubtful, c.Why)
			}
		}
		var missed []string
		for _, u := range got.Unknown {
			missed = append(missed, u.Text)
		}
		have := want{r.SizeIn, r.Count, r.Type, r.NetL, r.PowerW, r.Body, doubts, r.TuningHz, strings.Join(missed, "|")}
		if have != l.want {
			t.Errorf("%q\n read %+v\n want %+v", l.text, have, l.want)
		}
		checkSpans(t, l.text, got)
	}
}

// checkSpans holds every span to the text that it claims to cover.
func checkSpans(t *testing.T, text string, l Line) {
	t.Helper()
	units := utf16.Encode([]rune(text))
	at := func(span [2]int, want string) {
		if span[0] < 0 || span[1] > len(units) || span[0] >= span[1] {
			t.Errorf("%q: span %v of %q lies outside", text, span, want)
			return
		}
		if got := string(utf16.Decode(units[span[0]:span[1]])); got != string([]rune(want)) {
			t.Errorf("%q: span %v covers %q, not %q", text, span, got, want)
		}
	}
	for _, c := range l.Chips {
		at(c.Span, c.Text)
	}
	for _, u := range l.Unknown {
		at(u.Span, u.Text)
	}
}

// Order does not matter to a line whose words each stand alone.
func TestParseLineInAnyOrder(t *testing.T) {
	parts := []string{"12 inch", "vented", "55 l", "700 w", "saloon"}
	want := ParseLine(strings.Join(parts, " ")).Request
	var permute func(k int)
	permute = func(k int) {
		if k == len(parts) {
			text := strings.Join(parts, " ")
			if got := ParseLine(text).Request; got != want {
				t.Errorf("%q reads %+v, want %+v", text, got, want)
			}
			return
		}
		for i := k; i < len(parts); i++ {
			parts[k], parts[i] = parts[i], parts[k]
			permute(k + 1)
			parts[k], parts[i] = parts[i], parts[k]
		}
	}
	permute(0)
}

func FuzzParseLine(f *testing.F) {
	for _, l := range lines {
		f.Add(l.text)
	}
	f.Add(strings.Repeat("12 x ", 400))
	f.Add("\x00\xff 12 \u200b sealed \u0301e")
	f.Fuzz(func(t *testing.T, text string) {
		text = strings.ToValidUTF8(text, "\uFFFD")
		l := ParseLine(text)
		checkSpans(t, text, l)
		r := l.Request
		if r.SizeIn < 0 || r.SizeIn > 24 || r.Count < 0 || r.Count > mostDrivers || r.NetL < 0 || r.NetL > 1000 || r.PowerW < 0 || r.PowerW > 20000 {
			t.Errorf("%q reads %+v", text, r)
		}
	})
}
