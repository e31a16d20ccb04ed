package design

import (
	"math"

	"bootfloor/internal/driver"
	"bootfloor/internal/enclosure"
	"bootfloor/internal/job"
)

// family is a box type as the search sees it: what may be varied, between what
// ends, and the box that follows.
type family struct {
	key string
	// axes are the ends of each variable for a driver; the search runs over
	// their logarithms.
	axes func(u unit, b Bounds) [][2]float64
	// make puts a point of the axes into the box.
	make func(box job.Box, u unit, x []float64) job.Box
	// ports lists the ports that may be widened to suit.
	ports func(b *job.Box) []**job.Port
	// tuning is the number of the axis that is its one tuning, from 1; zero for
	// none.
	tuning int
}

// Tunes tells whether boxes of a type have one tuning that Bounds can settle.
func Tunes(boxType string) bool { return families[boxType].tuning > 0 }

// unit is what moves: one driver, and all of them as one.
type unit struct {
	one, group driver.Driver
	count      int
	// leastL is the net air of the smallest box that holds them, all chambers
	// together; zero is not known.
	leastL float64
}

// order lists the families by how often such boxes are built; common practice.
var order = []string{
	"sealed", "vented", "bandpass4", "passive_radiator", "infinite_baffle",
	"bandpass6_series", "bandpass6_parallel", "line", "aperiodic",
}

// Types lists the box types that can be designed, in the order of how often
// they are built: those that have both a family here and branches in package
// enclosure.
func Types() []string {
	known := map[string]bool{}
	for _, k := range enclosure.Kinds() {
		known[k.Key] = true
	}
	var out []string
	for _, t := range order {
		if _, ok := families[t]; ok && known[t] {
			out = append(out, t)
		}
	}
	return out
}

// Name returns the words for a box type.
func Name(boxType string) string {
	for _, k := range enclosure.Kinds() {
		if k.Key == boxType {
			return k.Name
		}
	}
	return boxType
}

// volumes returns the span of volumes worth trying for a chamber: from a tenth
// of Vas to four times it, within the bounds, of which the chamber has a share.
func volumes(u unit, b Bounds, share float64) [2]float64 {
	d := u.group
	lo := math.Max(0.1*d.Vas*1e3, 3)
	hi := math.Min(4*d.Vas*1e3, 300)
	// A box has to hold the driver itself: at least four times its own volume.
	lo = math.Max(lo, 4*d.Volume*1e3*share)
	if share == 1 {
		lo, hi = math.Max(lo, u.leastL), math.Max(hi, u.leastL)
	}
	if b.NetMinL > 0 {
		lo = math.Max(lo, b.NetMinL*share)
	}
	if b.NetMaxL > 0 {
		most := b.NetMaxL
		if share < 1 {
			most *= 0.8 // leaves the other chamber a fifth at least
		}
		hi = math.Min(hi, most)
		lo = math.Min(lo, hi)
	}
	return [2]float64{lo, math.Max(lo*1.001, hi)}
}

// tunings returns a span about fs, kept to what is ever built.
func tunings(u unit, below, above, least, most float64) [2]float64 {
	lo := math.Max(least, below*u.group.Fs)
	hi := math.Min(most, above*u.group.Fs)
	return [2]float64{math.Min(lo, 0.9*hi), hi}
}

func noPorts(*job.Box) []**job.Port    { return nil }
func rearPort(b *job.Box) []**job.Port { return []**job.Port{&b.Port} }
func frontPort(b *job.Box) []**job.Port {
	return []**job.Port{&b.Front}
}
func bothPorts(b *job.Box) []**job.Port { return []**job.Port{&b.Port, &b.Front} }

// tuned returns the port, or a usual one where there is none, for a tuning.
func tuned(p *job.Port, hz float64) *job.Port {
	q := job.Port{Shape: "round", Count: 1, DiameterMM: 100, Ends: "flanged_free"}
	if p != nil {
		q = *p
	}
	q.TuningHz, q.LengthMM = hz, 0
	return &q
}

var families = map[string]family{
	"sealed": {
		axes: func(u unit, b Bounds) [][2]float64 { return [][2]float64{volumes(u, b, 1)} },
		make: func(box job.Box, _ unit, x []float64) job.Box {
			box.NetL = x[0]
			return box
		},
		ports: noPorts,
	},
	"infinite_baffle": {
		axes:  func(unit, Bounds) [][2]float64 { return nil },
		make:  func(box job.Box, _ unit, _ []float64) job.Box { box.NetL = 0; return box },
		ports: noPorts,
	},
	"vented": {
		axes: func(u unit, b Bounds) [][2]float64 {
			return [][2]float64{volumes(u, b, 1), tunings(u, 0.5, 2, 16, 70)}
		},
		make: func(box job.Box, _ unit, x []float64) job.Box {
			box.NetL, box.Port = x[0], tuned(box.Port, x[1])
			return box
		},
		ports:  rearPort,
		tuning: 2,
	},
	"passive_radiator": {
		axes: func(u unit, b Bounds) [][2]float64 {
			return [][2]float64{volumes(u, b, 1), tunings(u, 0.5, 1.8, 16, 60)}
		},
		make: func(box job.Box, u unit, x []float64) job.Box {
			box.NetL = x[0]
			box.Passive = passiveFor(box.Passive, u, x[0], x[1])
			return box
		},
		ports:  noPorts,
		tuning: 2,
	},
	"bandpass4": {
		axes: func(u unit, b Bounds) [][2]float64 {
			return [][2]float64{volumes(u, b, 0.5), volumes(u, b, 0.5), tunings(u, 0.9, 3, 28, 90)}
		},
		make: func(box job.Box, _ unit, x []float64) job.Box {
			box.NetL, box.FrontL, box.Front = x[0], x[1], tuned(box.Front, x[2])
			return box
		},
		ports:  frontPort,
		tuning: 3,
	},
	"bandpass6_series":   sixth,
	"bandpass6_parallel": sixth,
	"line": {
		// The frequency whose quarter wave the line is, and its mean area, the
		// outer of the two because the mouth makes the cavity.
		axes: func(u unit, b Bounds) [][2]float64 {
			return [][2]float64{tunings(u, 0.7, 2, 18, 70), {0.5 * u.group.Sd * 1e4, 2.5 * u.group.Sd * 1e4}}
		},
		make:   lineFor,
		ports:  noPorts,
		tuning: 1,
	},
	"aperiodic": {
		// Air and the flow resistance of the mat over a vent of a fifth of the
		// cone: from hardly a vent to hardly a hole.
		axes: func(u unit, b Bounds) [][2]float64 {
			return [][2]float64{volumes(u, b, 1), {100, 20000}}
		},
		make: func(box job.Box, u unit, x []float64) job.Box {
			v := job.Aperiodic{AreaCM2: 0.2 * u.group.Sd * 1e4}
			if box.Vent != nil && box.Vent.AreaCM2 > 0 {
				v.AreaCM2 = box.Vent.AreaCM2
			}
			v.Resistance = x[1]
			box.NetL, box.Vent = x[0], &v
			return box
		},
		ports: noPorts,
	},
}

// sixth is either band-pass of the sixth order: both chambers are tuned.
var sixth = family{
	axes: func(u unit, b Bounds) [][2]float64 {
		return [][2]float64{volumes(u, b, 0.5), volumes(u, b, 0.5), tunings(u, 0.6, 1.6, 16, 60), tunings(u, 1.2, 3.5, 30, 110)}
	},
	make: func(box job.Box, _ unit, x []float64) job.Box {
		box.NetL, box.FrontL = x[0], x[1]
		box.Port, box.Front = tuned(box.Port, x[2]), tuned(box.Front, x[3])
		return box
	},
	ports: bothPorts,
}

// Proportions of a line where the reader has drawn none: the cone at a third
// of the way, where it does not drive the third harmonic of the quarter wave,
// a taper of two to one toward the mouth, and light stuffing in the closed
// half. Common practice, no source.
const (
	tapShare     = 1.0 / 3
	taper        = 0.5
	lineStuffing = 6 // kg/m3
)

// lineFor returns a line that is a quarter wave long at x[0] Hz with a mean
// area of x[1] cm2, to the nearest third of an octave: finer than bass can
// tell, and coarse enough that a search meets few mouths.
func lineFor(box job.Box, _ unit, x []float64) job.Box {
	const c = 344 // m/s; the network has the job's own air
	length := c / (4 * x[0])
	mean := math.Exp2(math.Round(3*math.Log2(x[1])) / 3)
	start := 2 * mean / (1 + taper)
	middle := start * (1 + taper) / 2
	box.NetL = mean * 1e-4 * length * 1e3
	box.TapMM = math.Round(1000 * length * tapShare)
	half := math.Round(500 * length)
	box.Line = []job.Segment{
		{LengthMM: half, StartCM2: start, EndCM2: middle, Stuffing: lineStuffing},
		{LengthMM: half, StartCM2: middle, EndCM2: start * taper},
	}
	return box
}

// passiveFor returns passive radiators that tune net litres to fb: the stated
// ones with another added mass, or two of the driver's own size for each
// driver, a common choice because a radiator must move more air than the cone.
func passiveFor(p *job.Passive, u unit, netL, fb float64) *job.Passive {
	q := job.Passive{Count: 2 * u.count, SdCM2: u.one.Sd * 1e4, MassG: 0.6 * u.one.Mms * 1e3,
		FreeHz: 0.6 * u.one.Fs, Qmp: 8, XmaxMM: 1.3 * u.one.Xmax * 1e3}
	if p != nil && p.SdCM2 > 0 {
		q = *p
	}
	q.AddedG = math.Max(0, addedMass(q, netL, fb))
	return &q
}

// addedMass returns the grams that each radiator needs for a tuning: at fb the
// stiffness of suspension and air together balances the mass,
// M = (k + n S^2 rho c^2/V)/(2 pi fb)^2 with k = M0 (2 pi fp)^2, the n alike
// radiators sharing the air (Small, JAES 22 (1974) 592).
func addedMass(p job.Passive, netL, fb float64) float64 {
	const bulk = 1.2 * 344 * 344 // Pa; the network has the job's own air
	s := p.SdCM2 * 1e-4
	m0 := p.MassG * 1e-3
	wp, wb := 2*math.Pi*p.FreeHz, 2*math.Pi*fb
	k := m0 * wp * wp
	n := float64(max(p.Count, 1))
	return 1e3 * ((k+n*s*s*bulk/(netL*1e-3))/(wb*wb) - m0)
}
