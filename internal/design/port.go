package design

import (
	"math"

	"bootfloor/internal/job"
)

// tubes are the inside diameters (mm) that port tube is commonly sold in. No
// source: common practice.
var tubes = []float64{50, 63, 75, 100, 125, 150}

// mostTubes is how many alike tubes are put into one box.
const mostTubes = 4

// portFor returns the narrowest set of alike tubes whose area is at least
// area (m2), or the widest there is.
func portFor(p job.Port, area float64) job.Port {
	best := job.Port{}
	for count := 1; count <= mostTubes; count++ {
		for _, d := range tubes {
			s := float64(count) * math.Pi / 4 * d * d * 1e-6
			if s < area {
				continue
			}
			// Fewer tubes are easier to build: another one must save a lot.
			if best.Count == 0 || s < 0.8*portArea(best) {
				best = p
				best.Shape, best.Count, best.DiameterMM = "round", count, d
			}
			break
		}
	}
	if best.Count == 0 {
		best = p
		best.Shape, best.Count, best.DiameterMM = "round", mostTubes, tubes[len(tubes)-1]
	}
	best.LengthMM = 0
	return best
}

// portUnder returns the widest set of alike tubes whose area is at most area
// (m2), or the narrowest there is.
func portUnder(p job.Port, area float64) job.Port {
	best := p
	best.Shape, best.Count, best.DiameterMM, best.LengthMM = "round", 1, tubes[0], 0
	for count := 1; count <= mostTubes; count++ {
		for _, d := range tubes {
			q := p
			q.Shape, q.Count, q.DiameterMM, q.LengthMM = "round", count, d, 0
			if portArea(q) <= area && portArea(q) > 1.2*portArea(best) {
				best = q
			}
		}
	}
	return best
}

// portArea returns the open area of all alike ports, m2.
func portArea(p job.Port) float64 {
	n := float64(max(p.Count, 1))
	if p.Shape == "slot" {
		return n * p.WidthMM * p.HeightMM * 1e-6
	}
	return n * math.Pi / 4 * p.DiameterMM * p.DiameterMM * 1e-6
}

// expected returns the port area (m2) at which the air moved by the whole cone
// travel at the tuning passes at the speed that ports are sized for: where a
// vented box is tuned, its port moves about what the cone could (Small, JAES
// 21 (1973) 438, sizes ports by the displacement volume in the same way).
func (s *search) expected(tuningHz float64) float64 {
	d := s.unit.group
	xmax := d.Xmax
	if xmax <= 0 {
		xmax = 0.01
	}
	return 2 * math.Pi * tuningHz * d.Sd * xmax / s.speedMS
}

// start works a candidate out with the ports that are to be expected. They
// hang on the tuning alone, so that one cavity serves all volumes; a rough
// answer takes those of the middle of the span for all.
func (s *search) start(x []float64) judged {
	box := s.fam.make(s.base, s.unit, x)
	for _, p := range s.fam.ports(&box) {
		hz := (*p).TuningHz
		if s.Rough {
			hz = s.unit.group.Fs
		}
		q := portFor(**p, s.expected(hz))
		*p = &q
	}
	return s.judgeBox(box)
}

// suit works a candidate out with ports that suit it: wide enough for the air
// speed, and where that makes them too long, as wide as their length allows.
// A port that nearly suits is kept, since each one is another cavity.
func (s *search) suit(x []float64) judged {
	c := s.judgeBox(s.fam.make(s.base, s.unit, x))
	if ports := s.fam.ports(&c.box); len(ports) == 0 || math.IsInf(c.cost, 1) {
		return c
	}
	// The speed falls nearly as the area grows: one step finds the tube.
	if r := c.speed / s.speedMS; r > 1.05 || r < 0.55 {
		next := s.judgeBox(s.resized(c.box, r, portFor))
		if next.cost < c.cost || r < 1 && next.cost < c.cost+0.2 {
			c = next
		}
	}
	if c.portMM > s.bounds.PortMM {
		const ends = 60 // mm, roughly: both end corrections of a usual tube
		r := (s.bounds.PortMM + ends) / (c.portMM + ends)
		if next := s.judgeBox(s.resized(c.box, r, portUnder)); next.cost < c.cost {
			c = next
		}
	}
	return c
}

// resized returns a box with the area of its ports multiplied by ratio, to the
// tubes that pick finds.
func (s *search) resized(box job.Box, ratio float64, pick func(job.Port, float64) job.Port) job.Box {
	for _, p := range s.fam.ports(&box) {
		q := pick(**p, ratio*portArea(**p))
		*p = &q
	}
	return box
}
