package design

import (
	"math"

	"bootfloor/internal/job"
)

// tubes are the inside diameters (mm) that port tube is commonly sold in. No
// source: common practice.
var tubes = []float64{50, 63, 75, 100, 125, 150}

// portFor returns the narrowest set of alike tubes whose area is at least
// area (m2), at most four of them, or the widest there is.
func portFor(p job.Port, area float64) job.Port {
	best := job.Port{}
	for count := 1; count <= 4; count++ {
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
		best.Shape, best.Count, best.DiameterMM = "round", 4, tubes[len(tubes)-1]
	}
	best.LengthMM = 0
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

// portOf returns the port that a box type breathes through, or nil.
func portOf(b *job.Box) *job.Port {
	switch b.Type {
	case "vented":
		return b.Port
	case "bandpass4":
		return b.Front
	}
	return nil
}
