package job

import (
	"math"
	"math/rand/v2"
	"reflect"
)

// fullJob holds every kind of box and every optional value, each in range.
func fullJob() Job {
	j := New("estate")
	j.Title = "Everything at once"
	j.Notes = "Second visit.\nTape measured with the seats up."
	base := j.Subs[0]
	j.Subs = nil
	port := &Port{Shape: "round", Count: 1, DiameterMM: 100, TuningHz: 32, Ends: "flanged_free", QP: 80}
	slotPort := &Port{Shape: "slot", Count: 1, WidthMM: 400, HeightMM: 40, LengthMM: 500, Ends: "wall"}
	roundPort := &Port{Shape: "round", Count: 2, DiameterMM: 75, LengthMM: 180, Ends: "flanged_flanged"}
	for _, kind := range boxTypes[:MaxSubs] {
		s := base
		s.ID = kind
		s.Box.Type = kind
		s.Box.QL = 7
		switch kind {
		case "vented":
			s.Box.Port = port
		case "passive_radiator":
			s.Box.Passive = &Passive{Count: 2, SdCM2: 480, MassG: 150, AddedG: 100, FreeHz: 18, Qmp: 6, XmaxMM: 20}
		case "bandpass4":
			s.Box.FrontL, s.Box.Front = 20, roundPort
		case "bandpass6_series", "bandpass6_parallel":
			s.Box.FrontL, s.Box.Front, s.Box.Port = 20, port, slotPort
			if kind == "bandpass6_parallel" {
				s.Box.Front, s.Box.Port = slotPort, port
			}
		case "line":
			s.Box.Line = []Segment{{LengthMM: 1200, StartCM2: 700, EndCM2: 500, Stuffing: 5}, {LengthMM: 900, StartCM2: 500, EndCM2: 330}}
			s.Box.TapMM = 150
		}
		j.Subs = append(j.Subs, s)
	}
	j.Subs[0].Box = Box{Type: "aperiodic", NetL: 20, PanelMM: 18, Form: "wedge", Vent: &Aperiodic{AreaCM2: 50, Resistance: 400}, Isobaric: true, BetweenL: 6}
	j.Subs[0].Driver = Driver{Name: "All stated", ReOhm: some(3.5), FsHz: some(30), Qes: some(0.5), Qms: some(5), Qts: some(0.4545), VasL: some(38), SdCM2: some(330),
		BlTm: some(12.27), MmsG: some(114.4), CmsMMN: some(0.246), RmsKgS: some(4.3), LeMH: some(1), L2MH: some(1.5), R2Ohm: some(4), SemiK: some(0.04), SemiN: some(0.65),
		XmaxMM: some(14), PowerW: some(500), SizeIn: some(10), DepthMM: some(150), CutOutMM: some(236), OutsideMM: some(268), VolumeL: some(1.8), MassKg: some(7.5),
		Price: some(129.5), Coils: 2, CoilOhm: some(2)}
	j.Subs[0].Place.GapMM = 60
	j.Subs[0].Channel.Inverted = true
	j.Subs[0].Channel.Filters = []Filter{
		{Kind: "highpass", Shape: "butterworth", Order: 2, FreqHz: 25}, {Kind: "lowpass", Shape: "bessel", Order: 3, FreqHz: 90},
		{Kind: "peak", FreqHz: 45, GainDB: -6, Q: 4}, {Kind: "low_shelf", FreqHz: 60, GainDB: 3, Q: 0.7}, {Kind: "high_shelf", FreqHz: 3000, GainDB: -4, Q: 0.7, Off: true}}
	j.Doors.Driver = j.Subs[0].Driver
	j.Doors.Place.GapMM = 40
	j.Doors.Channel.Filters = j.Subs[0].Channel.Filters
	j.Car.Boot.SeatsFolded = true
	j.Car.Openings = []Opening{{Kind: "window", AreaCM2: 300, XMM: 900, YMM: 650, ZMM: 900}, {Kind: "sunroof", AreaCM2: 1200, XMM: 1200, ZMM: 1150}}
	j.Car.Learned = &Learned{On: "2024-05-01", LeakScale: 1.4, DampingScale: 0.8, VolumeScale: 0.97, LevelDB: -1.2}
	j.Aim.Music = []string{"electronic", "organ"}
	j.Aim.Budget = 800
	j.Assumed = Leaves(j)
	return j
}

// changed returns the job with about one value in so many moved by a few per
// cent, as a reader's typing would, and its mark as assumed taken off.
func changed(j Job, rng *rand.Rand, oneIn int) Job {
	j = Canonical(j)
	moved := map[string]bool{}
	move(reflect.ValueOf(&j).Elem(), "", rng, oneIn, moved)
	var left []string
	for _, at := range j.Assumed {
		if !moved[at] {
			left = append(left, at)
		}
	}
	j.Assumed = left
	return Canonical(j)
}

func move(v reflect.Value, at string, rng *rand.Rand, oneIn int, moved map[string]bool) {
	switch v.Kind() {
	case reflect.Struct:
		for i := 0; i < v.NumField(); i++ {
			key, _ := tag(v.Type().Field(i))
			if at == "" && (key == "version" || key == "assumed") {
				continue
			}
			move(v.Field(i), at+"/"+key, rng, oneIn, moved)
		}
	case reflect.Slice:
		for i := 0; i < v.Len(); i++ {
			move(v.Index(i), at+"/"+Number(float64(i), ""), rng, oneIn, moved)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			move(v.Elem(), at, rng, oneIn, moved)
		}
	case reflect.Float64:
		if rng.IntN(oneIn) == 0 {
			v.SetFloat(roundTo(v.Float()*(0.97+0.06*rng.Float64()), 100))
			moved[at] = true
		}
	}
}

// randomJob fills a document with anything its types can hold, in canonical
// form: the round trips must not depend on sense.
func randomJob(rng *rand.Rand) Job {
	var j Job
	anything(reflect.ValueOf(&j).Elem(), rng)
	return Canonical(j)
}

func anything(v reflect.Value, rng *rand.Rand) {
	switch v.Kind() {
	case reflect.Struct:
		for i := 0; i < v.NumField(); i++ {
			anything(v.Field(i), rng)
		}
	case reflect.Slice:
		n := rng.IntN(4)
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := 0; i < n; i++ {
			anything(v.Index(i), rng)
		}
	case reflect.Pointer:
		if rng.IntN(2) == 0 {
			v.Set(reflect.New(v.Type().Elem()))
			anything(v.Elem(), rng)
		}
	case reflect.String:
		letters := []rune("aZ0 /~\"\\<>&\n\u2028\u00e9\u4e2d\U0001f50a")
		text := make([]rune, rng.IntN(6))
		for i := range text {
			text[i] = letters[rng.IntN(len(letters))]
		}
		v.SetString(string(text))
	case reflect.Bool:
		v.SetBool(rng.IntN(2) == 0)
	case reflect.Int:
		v.SetInt(int64(rng.IntN(2001) - 1000))
	case reflect.Float64:
		switch rng.IntN(4) {
		case 0:
			v.SetFloat(0)
		case 1:
			v.SetFloat(float64(rng.IntN(5000)))
		default:
			v.SetFloat(math.Ldexp(rng.Float64()-0.5, rng.IntN(200)-100))
		}
	}
}
