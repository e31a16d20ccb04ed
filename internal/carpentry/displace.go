package carpentry

import (
	"math"

	"bootfloor/internal/job"
)

// Displacement is the volume that stands inside the box and is not air, m3.
type Displacement struct {
	Driver  float64
	Port    float64
	Bracing float64
}

// Total returns the sum.
func (d Displacement) Total() float64 { return d.Driver + d.Port + d.Bracing }

// NetM3 returns the air left in a box.
func (b Box) NetM3(d Displacement) float64 { return b.GrossM3() - d.Total() }

// BracingShare is the share of the gross volume that braces take where none
// are drawn. Common practice, no source.
const BracingShare = 0.03

// DriverM3 returns an estimate of what a driver takes from the air, m3, where
// its maker does not say: a cone from the cut-out down to the magnet over half
// of the depth, and a magnet half as wide as the cut-out over the rest.
// cutOut and depth are m; count is how many drivers. Common practice, no
// source; within about a quarter of what makers state.
func DriverM3(cutOut, depth float64, count int) float64 {
	if !(cutOut > 0 && depth > 0) {
		return 0
	}
	r, m := cutOut/2, cutOut/4
	frustum := math.Pi / 3 * (depth / 2) * (r*r + r*m + m*m)
	magnet := math.Pi * m * m * depth / 2
	return float64(count) * (frustum + magnet)
}

// PortM3 returns what the ports take from the air of a box: their own air and
// their walls. length is that of one port, wall the thickness of its wall, m.
// A slot is built along the box's own panels, so that one divider of the wall
// thickness closes it off.
func PortM3(p job.Port, length, wall float64) float64 {
	if !(length > 0) {
		return 0
	}
	n := float64(max(p.Count, 1))
	if p.Shape == "slot" {
		w, h := p.WidthMM/1000, p.HeightMM/1000
		return n * w * (h + wall) * length
	}
	d := p.DiameterMM/1000 + 2*wall
	return n * math.Pi / 4 * d * d * length
}
