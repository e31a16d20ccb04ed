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

// broad are the sets of tubes that a scan chooses from, each about half as wide
// again as the one before, or twice in a rough one. Every set is another mouth
// and so another cavity, which is why there are few.
var broad = []job.Port{
	{Count: 1, DiameterMM: 50}, {Count: 1, DiameterMM: 75}, {Count: 1, DiameterMM: 100}, {Count: 1, DiameterMM: 125},
	{Count: 1, DiameterMM: 150}, {Count: 2, DiameterMM: 125}, {Count: 2, DiameterMM: 150}, {Count: 4, DiameterMM: 150},
}

var broadRough = []job.Port{
	{Count: 1, DiameterMM: 75}, {Count: 1, DiameterMM: 100}, {Count: 1, DiameterMM: 150}, {Count: 2, DiameterMM: 150},
}

// endsMM is about what the end corrections of a usual tube add to it, mm.
const endsMM = 60

// wanted returns which of the broad sets suits a candidate that was worked out
// with another: wide enough for the air speed, but no wider than the longest
// port allows. The speed falls and the length grows nearly as the area.
func (s *search) wanted(c judged, sets []job.Port) int {
	p := *s.fam.ports(&c.box)[0]
	area := portArea(*p)
	want := area * c.speed / s.speedMS
	most := area * (s.bounds.PortMM + endsMM) / (c.portMM + endsMM)
	best := 0
	for i, q := range sets {
		q.Shape = "round"
		if a := portArea(q); i == 0 || portArea(sets[i-1]) < want && a <= most {
			best = i
		}
	}
	return best
}

// put gives every port of a box the tubes of a set.
func (s *search) put(box job.Box, set job.Port) job.Box {
	for _, p := range s.fam.ports(&box) {
		q := **p
		q.Shape, q.Count, q.DiameterMM, q.LengthMM = "round", set.Count, set.DiameterMM, 0
		*p = &q
	}
	return box
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
		r := (s.bounds.PortMM + endsMM) / (c.portMM + endsMM)
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
