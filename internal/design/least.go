package design

import (
	"math"

	"bootfloor/internal/carpentry"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
)

// How much more air than wanted still counts as what was wanted: of a shape
// that is chosen, and of one rounded up to whole millimetres.
const (
	exactly = 0.002
	holds   = 0.015
)

// dividerM3 is what the panel between two chambers takes of a box, m3.
func dividerM3(b carpentry.Box, s job.Sub) float64 {
	return dividerOf(s) * (b.Width - 2*b.Panel) * (b.Height - 2*b.Panel)
}

// LeastGrossM3 returns the air inside the panels of the smallest box that has
// faces wide enough and air deep enough for a sub's drivers and radiators, or
// zero where none stands in the room. d is one of the drivers.
func (r Room) LeastGrossM3(s job.Sub, d driver.Driver) float64 {
	least := math.Inf(1)
	for _, sh := range r.shapes(framesOf(s, d), panelOf(s)) {
		if deepest, ok := r.deepest(sh); ok && sh.least <= deepest {
			least = math.Min(least, sh.at(wholeMM(sh.least)).GrossM3())
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// leastFree is LeastGrossM3 of a box that stands anywhere: a cuboid about the
// frames, as wide as they need or wider, so that radiators find their place.
func leastFree(s job.Sub, d driver.Driver) float64 {
	f, panel := framesOf(s, d), panelOf(s)
	margin := 2*panel + 0.01
	least := math.Inf(1)
	const widths, heights = 8, 3
	for i := range widths {
		for k := range heights {
			sh := shape{fires: "rear", least: f.depth + behind + panel, most: 3}
			sh.box = carpentry.Box{Form: carpentry.Cuboid, Panel: panel,
				Width:  wholeMM(f.narrowest(margin) * math.Exp2(float64(i)/4)),
				Height: wholeMM((f.outside + margin) * math.Exp2(float64(k)/4))}
			for sh.least <= sh.most && !sh.carries(f, margin, sh.least) {
				sh.least += 0.01
			}
			if sh.least <= sh.most {
				least = math.Min(least, sh.at(wholeMM(sh.least)).GrossM3())
			}
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

func wholeMM(v float64) float64 { return math.Ceil(1000*v-1e-6) / 1000 }

// atLeast bounds the search by the smallest box that holds the drivers.
func (s *search) atLeast(trial job.Sub) {
	if s.Type == "infinite_baffle" || s.Type == "line" {
		return // none, or a box whose form is a duct
	}
	least := 0.0
	if s.Room != nil {
		least = s.Room.LeastGrossM3(trial, s.unit.one)
	}
	if least == 0 {
		least = leastFree(trial, s.unit.one)
	}
	s.leastGrossL = 1000 * least
	trial.Box.Port, trial.Box.Front = nil, nil
	trial.Box.NetL, trial.Box.FrontL = 0, 0
	drivers := 1000 * carpentry.DisplacementOf(trial, 0).Total()
	s.unit.leastL = math.Max(0, s.leastGrossL-drivers) / (1 + carpentry.BracingShare)
	if s.fam.ports(&job.Box{}) != nil {
		// A port takes its share of the air; how much, each candidate says.
		s.unit.leastL *= 0.8
	}
}

// enlarged returns a box rounded below what the drivers need by a tenth of a
// litre more.
func (s *search) enlarged(b job.Box) job.Box {
	sub := s.job.Subs[s.sub]
	for range 3 {
		sub.Box = b
		gross := 1000*grossOf(sub, s.best.portMM/1000) + 1000*dividerOf(sub)*math.Pow((b.NetL+b.FrontL)/1000, 2.0/3)
		if s.bounds.NetMaxL > 0 && b.NetL+b.FrontL+0.1 > s.bounds.NetMaxL || s.best.grossL < s.leastGrossL*(1-keptWithin) || gross >= s.leastGrossL {
			break
		}
		b.NetL = math.Round(10*b.NetL+1) / 10
	}
	return b
}
