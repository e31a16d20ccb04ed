package advise

import (
	"fmt"
	"math"
	"slices"

	"bootfloor/internal/job"
)

// knob is one value of a sub that may be turned to free a limit.
type knob struct {
	key, unit string
	was       float64 // the value now
	from, to  float64 // where the search begins and ends
	step      float64 // what it is built or bought in
	whole     bool    // counts by ones
	weight    float64 // of a change in proportion
	// set returns the sub with the value in it.
	set func(s job.Sub, v float64) job.Sub
	// paths lists the pointers within the sub that set changes, with the
	// values to read from the changed sub.
	paths func(s job.Sub, v float64) []Change
	// say tells what to do; done is what the job does then.
	say func(v float64, done state) string
}

// changes returns the changes to the job.
func (k knob) changes(i int, s job.Sub, v float64) []Change {
	var out []Change
	for _, c := range k.paths(s, v) {
		out = append(out, Change{fmt.Sprintf("/subs/%d%s", i, c.At), c.Value})
	}
	return out
}

// knobs lists what may free a limit of a sub.
func knobs(binding string, s job.Sub) []knob {
	var out []knob
	add := func(k knob, ok bool) {
		if ok {
			out = append(out, k)
		}
	}
	switch binding {
	case "travel":
		add(highPass(s))
		add(lessPower(s))
		add(lessAir(s))
		add(retune(s, 1.5))
		add(retune(s, 0.65))
		add(moreDrivers(s))
	case "port":
		add(widerPort(s))
		add(morePorts(s))
		add(lessPower(s))
		add(highPass(s))
	case "passive":
		add(moreRadiators(s))
		add(highPass(s))
		add(lessPower(s))
	case "heat":
		add(lessPower(s))
		add(moreDrivers(s))
	case "amps":
		add(lessPower(s))
		add(sturdier(s))
	case "asked":
		add(morePower(s))
		add(moreAir(s))
		add(moreDrivers(s))
		add(retune(s, 0.65))
		add(retune(s, 1.5))
	}
	return out
}

// protectiveOrder is that of a protective high-pass. Common practice.
const protectiveOrder = 4

// highPass adds a protective high-pass, or raises the one that is there.
func highPass(s job.Sub) (knob, bool) {
	at := -1
	for i, f := range s.Channel.Filters {
		if f.Kind == "highpass" && !f.Off {
			at = i
		}
	}
	k := knob{key: "high_pass", unit: "Hz", from: 12, to: 60, step: 1, weight: 0}
	if at >= 0 {
		k.was = s.Channel.Filters[at].FreqHz
		k.from = math.Max(k.from, k.was)
	}
	k.set = func(s job.Sub, v float64) job.Sub {
		s.Channel.Filters = slices.Clone(s.Channel.Filters)
		if at >= 0 {
			s.Channel.Filters[at].FreqHz = v
		} else {
			s.Channel.Filters = append(s.Channel.Filters, job.Filter{Kind: "highpass", Shape: "butterworth", Order: protectiveOrder, FreqHz: v})
		}
		return s
	}
	k.paths = func(s job.Sub, v float64) []Change {
		if at >= 0 {
			return []Change{{fmt.Sprintf("/channel/filters/%d/freq_hz", at), v}}
		}
		return []Change{{"/channel/filters", s.Channel.Filters}}
	}
	k.say = func(v float64, _ state) string {
		if at >= 0 {
			return fmt.Sprintf("Raise the protective high-pass to %.0f Hz.", v)
		}
		return fmt.Sprintf("A protective high-pass at %.0f Hz (Butterworth, 24 dB per octave).", v)
	}
	return k, k.from < k.to
}

// watts changes the power of the amplifier.
func watts(s job.Sub, to float64) (knob, bool) {
	w := s.Channel.Amplifier.RatedW
	k := knob{unit: "W", was: w, from: w, to: to * w, step: wattStep(w), weight: 1}
	k.set = func(s job.Sub, v float64) job.Sub { s.Channel.Amplifier.RatedW = v; return s }
	k.paths = func(_ job.Sub, v float64) []Change { return []Change{{"/channel/amplifier/rated_w", v}} }
	return k, w > 0
}

// wattStep is what amplifiers of a size differ by.
func wattStep(w float64) float64 {
	switch {
	case w < 100:
		return 5
	case w < 400:
		return 10
	default:
		return 50
	}
}

func lessPower(s job.Sub) (knob, bool) {
	k, ok := watts(s, 0.05)
	k.key, k.weight = "less_power", 0.3 // less is no expense
	k.say = func(v float64, _ state) string {
		return fmt.Sprintf("An amplifier of %.0f W, or its level turned down as far.", v)
	}
	return k, ok
}

func morePower(s job.Sub) (knob, bool) {
	k, ok := watts(s, 16)
	k.key = "more_power"
	k.say = func(v float64, _ state) string { return fmt.Sprintf("An amplifier of %.0f W.", v) }
	return k, ok
}

// volume changes the air behind the cone, ports keeping their tuning.
func volume(s job.Sub, to float64) (knob, bool) {
	l := s.Box.NetL
	k := knob{unit: "L", was: l, from: l, to: to * l, step: 0.5, weight: 1}
	k.set = func(s job.Sub, v float64) job.Sub { s.Box.NetL = v; return s }
	k.paths = func(_ job.Sub, v float64) []Change { return []Change{{"/box/net_l", v}} }
	return k, l > 1 && s.Box.Type != "line" && s.Box.Type != "infinite_baffle"
}

func lessAir(s job.Sub) (knob, bool) {
	k, ok := volume(s, 0.4)
	k.key = "less_air"
	k.say = func(v float64, _ state) string {
		return fmt.Sprintf("%s litres less air, %s litres in all.", trimmed(k.was-v), trimmed(v))
	}
	return k, ok
}

func moreAir(s job.Sub) (knob, bool) {
	k, ok := volume(s, 4)
	k.key = "more_air"
	k.say = func(v float64, _ state) string {
		return fmt.Sprintf("%s litres more air, %s litres in all.", trimmed(v-k.was), trimmed(v))
	}
	return k, ok
}

// ventOf returns the port whose air is heard, and its path in the box.
func ventOf(b *job.Box) (*job.Port, string) {
	if b.Port != nil && b.Type == "vented" {
		return b.Port, "/box/port"
	}
	if b.Front != nil {
		return b.Front, "/box/front"
	}
	return b.Port, "/box/port"
}

func retune(s job.Sub, to float64) (knob, bool) {
	p, path := ventOf(&s.Box)
	if p == nil || p.TuningHz <= 0 || p.LengthMM > 0 {
		return knob{}, false
	}
	k := knob{key: "retune", unit: "Hz", was: p.TuningHz, from: p.TuningHz, to: to * p.TuningHz, step: 0.5, weight: 1}
	k.set = func(s job.Sub, v float64) job.Sub {
		return withPort(s, func(p *job.Port) { p.TuningHz = v })
	}
	k.paths = func(_ job.Sub, v float64) []Change { return []Change{{path + "/tuning_hz", v}} }
	k.say = func(v float64, done state) string {
		return fmt.Sprintf("Tune the box to %s Hz instead of %s; the port is then %.0f mm long.", trimmed(v), trimmed(k.was), done.portMM)
	}
	return k, true
}

// withPort changes a copy of the port that is heard.
func withPort(s job.Sub, change func(*job.Port)) job.Sub {
	p, path := ventOf(&s.Box)
	q := *p
	change(&q)
	if path == "/box/port" {
		s.Box.Port = &q
	} else {
		s.Box.Front = &q
	}
	return s
}

// widerPort keeps the tuning where the document states it, and the length
// where it states that.
func widerPort(s job.Sub) (knob, bool) {
	p, path := ventOf(&s.Box)
	if p == nil {
		return knob{}, false
	}
	if p.Shape == "slot" {
		k := knob{key: "port_wider", unit: "mm", was: p.HeightMM, from: p.HeightMM, to: 3 * p.HeightMM, step: 1, weight: 1}
		k.set = func(s job.Sub, v float64) job.Sub { return withPort(s, func(p *job.Port) { p.HeightMM = v }) }
		k.paths = func(_ job.Sub, v float64) []Change { return []Change{{path + "/height_mm", v}} }
		k.say = func(v float64, done state) string {
			return fmt.Sprintf("%.0f mm more height of the slot: %.0f mm, and a port %.0f mm long.", v-k.was, v, done.portMM)
		}
		return k, p.HeightMM > 0
	}
	k := knob{key: "port_wider", unit: "mm", was: p.DiameterMM, from: p.DiameterMM, to: 2.5 * p.DiameterMM, step: 1, weight: 1}
	k.set = func(s job.Sub, v float64) job.Sub { return withPort(s, func(p *job.Port) { p.DiameterMM = v }) }
	k.paths = func(_ job.Sub, v float64) []Change { return []Change{{path + "/diameter_mm", v}} }
	k.say = func(v float64, done state) string {
		return fmt.Sprintf("%.0f mm more port diameter: %.0f mm, and a port %.0f mm long.", v-k.was, v, done.portMM)
	}
	return k, p.DiameterMM > 0
}

func morePorts(s job.Sub) (knob, bool) {
	p, path := ventOf(&s.Box)
	if p == nil {
		return knob{}, false
	}
	n := float64(max(p.Count, 1))
	k := knob{key: "more_ports", unit: "ports", was: n, from: n, to: math.Min(n+3, 8), whole: true, weight: 0.7}
	k.set = func(s job.Sub, v float64) job.Sub { return withPort(s, func(p *job.Port) { p.Count = int(v) }) }
	k.paths = func(_ job.Sub, v float64) []Change { return []Change{{path + "/count", int(v)}} }
	k.say = func(v float64, done state) string {
		return fmt.Sprintf("%.0f such ports instead of %.0f, each %.0f mm long.", v, n, done.portMM)
	}
	return k, true
}

// moreRadiators adds passive radiators like those there, and to each the mass
// that keeps the tuning: twice the radiators see twice the stiffness of air, so
// as long as that outweighs their suspensions each needs about twice the mass.
func moreRadiators(s job.Sub) (knob, bool) {
	p := s.Box.Passive
	if p == nil {
		return knob{}, false
	}
	n := float64(max(p.Count, 1))
	k := knob{key: "more_radiators", unit: "radiators", was: n, from: n, to: math.Min(n+3, 8), whole: true, weight: 0.7}
	k.set = func(s job.Sub, v float64) job.Sub {
		q := *p
		q.Count = int(v)
		q.AddedG = math.Round(math.Max(0, (q.MassG+q.AddedG)*v/n-q.MassG))
		s.Box.Passive = &q
		return s
	}
	k.paths = func(s job.Sub, v float64) []Change {
		return []Change{{"/box/passive/count", int(v)}, {"/box/passive/added_g", s.Box.Passive.AddedG}}
	}
	k.say = func(v float64, _ state) string {
		return fmt.Sprintf("%.0f passive radiators instead of %.0f, with more mass on each to keep the tuning.", v, n)
	}
	return k, true
}

// moreDrivers puts more of the same into the same air each, at the same power
// in all.
func moreDrivers(s job.Sub) (knob, bool) {
	n := float64(max(s.Series, 1) * max(s.Parallel, 1))
	if s.Box.Isobaric || s.Series > 1 || s.Box.Type == "line" {
		return knob{}, false
	}
	k := knob{key: "more_drivers", unit: "drivers", was: n, from: n, to: math.Min(n+3, mostDrivers), whole: true, weight: 1.5}
	k.set = func(s job.Sub, v float64) job.Sub {
		r := v / n
		s.Parallel = int(v)
		s.Box.NetL, s.Box.FrontL = s.Box.NetL*r, s.Box.FrontL*r
		s.Channel.Amplifier.RatedOhm /= r
		s.Channel.Amplifier.MinOhm /= r
		return s
	}
	k.paths = func(s job.Sub, v float64) []Change {
		out := []Change{{"/parallel", int(v)}, {"/box/net_l", s.Box.NetL}}
		if s.Box.FrontL > 0 {
			out = append(out, Change{"/box/front_l", s.Box.FrontL})
		}
		a := s.Channel.Amplifier
		return append(out, Change{"/channel/amplifier/rated_ohm", a.RatedOhm}, Change{"/channel/amplifier/min_ohm", a.MinOhm})
	}
	k.say = func(v float64, _ state) string {
		in := ""
		if l := (s.Box.NetL + s.Box.FrontL) * v / n; l > 0 {
			in = fmt.Sprintf(" in %s litres,", trimmed(l))
		}
		return fmt.Sprintf("%.0f such drivers instead of %.0f,%s from an amplifier of the same power rated for that load of %.2f Ω.",
			v, n, in, s.Channel.Amplifier.RatedOhm*n/v)
	}
	return k, true
}

// sturdier takes an amplifier rated for a lower load.
func sturdier(s job.Sub) (knob, bool) {
	a := s.Channel.Amplifier
	if a.MinOhm <= 0 {
		return knob{}, false
	}
	k := knob{key: "lower_load", unit: "ohm", was: a.MinOhm, from: a.MinOhm, to: 0.25 * a.MinOhm, step: 0.1, weight: 1}
	k.set = func(s job.Sub, v float64) job.Sub { s.Channel.Amplifier.MinOhm = v; return s }
	k.paths = func(_ job.Sub, v float64) []Change { return []Change{{"/channel/amplifier/min_ohm", v}} }
	k.say = func(v float64, _ state) string {
		return fmt.Sprintf("An amplifier rated for a load of %.1f Ω.", v)
	}
	return k, true
}
