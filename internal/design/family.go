package design

import (
	"math"

	"bootfloor/internal/driver"
	"bootfloor/internal/job"
)

// family is a box type as the search sees it: what may be varied, between what
// ends, and the box that follows.
type family struct {
	key string
	// axes are the ends of each variable for a driver; the search runs over
	// their logarithms. The first is always the air behind the cone, litres.
	axes func(d driver.Driver, b Bounds) [][2]float64
	// make puts a point of the axes into the box. ported tells the port area.
	make func(box job.Box, d driver.Driver, x []float64) job.Box
}

// volumes returns the span of rear volumes worth trying for a driver: from a
// tenth of Vas to four times it, within the bounds.
func volumes(d driver.Driver, b Bounds, share float64) [2]float64 {
	lo := math.Max(0.1*d.Vas*1e3, 3)
	hi := math.Min(4*d.Vas*1e3, 300)
	// A box has to hold the driver itself: at least four times its own volume.
	lo = math.Max(lo, 4*d.Volume*1e3)
	if b.NetMinL > 0 {
		lo = math.Max(lo, b.NetMinL*share)
	}
	if b.NetMaxL > 0 {
		hi = math.Min(hi, b.NetMaxL*share)
		lo = math.Min(lo, hi)
	}
	return [2]float64{lo, math.Max(lo*1.001, hi)}
}

var families = map[string]family{
	"sealed": {
		key: "sealed",
		axes: func(d driver.Driver, b Bounds) [][2]float64 {
			return [][2]float64{volumes(d, b, 1)}
		},
		make: func(box job.Box, _ driver.Driver, x []float64) job.Box {
			box.NetL = x[0]
			return box
		},
	},
	"vented": {
		key: "vented",
		axes: func(d driver.Driver, b Bounds) [][2]float64 {
			return [][2]float64{volumes(d, b, 1), {math.Max(16, 0.5*d.Fs), math.Min(70, 2*d.Fs)}}
		},
		make: func(box job.Box, _ driver.Driver, x []float64) job.Box {
			box.NetL = x[0]
			p := job.Port{Shape: "round", Count: 1, DiameterMM: 100, Ends: "flanged_free"}
			if box.Port != nil {
				p = *box.Port
			}
			p.TuningHz, p.LengthMM = x[1], 0
			box.Port = &p
			return box
		},
	},
	"passive_radiator": {
		key: "passive_radiator",
		axes: func(d driver.Driver, b Bounds) [][2]float64 {
			return [][2]float64{volumes(d, b, 1), {math.Max(16, 0.5*d.Fs), math.Min(60, 1.8*d.Fs)}}
		},
		make: func(box job.Box, d driver.Driver, x []float64) job.Box {
			box.NetL = x[0]
			box.Passive = passiveFor(box.Passive, d, x[0], x[1])
			return box
		},
	},
	"bandpass4": {
		key: "bandpass4",
		axes: func(d driver.Driver, b Bounds) [][2]float64 {
			return [][2]float64{volumes(d, b, 0.5), volumes(d, b, 0.5), {math.Max(28, 0.9*d.Fs), math.Min(90, 3*d.Fs)}}
		},
		make: func(box job.Box, _ driver.Driver, x []float64) job.Box {
			box.NetL, box.FrontL = x[0], x[1]
			p := job.Port{Shape: "round", Count: 1, DiameterMM: 100, Ends: "flanged_free"}
			if box.Front != nil {
				p = *box.Front
			}
			p.TuningHz, p.LengthMM = x[2], 0
			box.Front = &p
			return box
		},
	},
}

// Types lists the box types that can be designed, in the order of how often
// they are built.
func Types() []string {
	return []string{"sealed", "vented", "passive_radiator", "bandpass4"}
}

// passiveFor returns passive radiators that tune net litres to fb: the stated
// ones with another added mass, or two of the driver's own size, a common
// choice because a radiator must move more air than the cone.
func passiveFor(p *job.Passive, d driver.Driver, netL, fb float64) *job.Passive {
	q := job.Passive{Count: 2, SdCM2: d.Sd * 1e4, MassG: 0.6 * d.Mms * 1e3, FreeHz: 0.6 * d.Fs, Qmp: 8, XmaxMM: 1.3 * d.Xmax * 1e3}
	if p != nil && p.SdCM2 > 0 {
		q = *p
	}
	q.AddedG = math.Max(0, addedMass(q, netL, fb))
	return &q
}

// addedMass returns the grams that each radiator needs for a tuning: at fb the
// stiffness of suspension and air together balances the mass,
// M = (k + n S^2 rho c^2/V)/(2 pi fb)^2 with k = M0 (2 pi fp)^2.
func addedMass(p job.Passive, netL, fb float64) float64 {
	const bulk = 1.2 * 344 * 344 // Pa; the network has the job's own air
	s := p.SdCM2 * 1e-4
	m0 := p.MassG * 1e-3
	wp, wb := 2*math.Pi*p.FreeHz, 2*math.Pi*fb
	k := m0 * wp * wp
	n := float64(max(p.Count, 1))
	return 1e3 * ((k+n*s*s*bulk/(netL*1e-3))/(wb*wb) - m0)
}
