// Package system puts a job together: the car, its boxes, doors and channels
// become one network, solved in the cabin and, for comparison, in free air.
// Out come the curves that the page draws and the numbers that advice is
// made from.
package system

import "math"

// Grid is a logarithmic frequency grid.
type Grid struct {
	FromHz float64 `json:"from_hz"`
	ToHz   float64 `json:"to_hz"`
	Points int     `json:"points"`
}

// DefaultGrid covers what a sub and its join to the doors need. It ends where
// the cabin's kept modes, those below some 300 Hz, still tell the truth.
var DefaultGrid = Grid{FromHz: 10, ToHz: 250, Points: 400}

// Valid reports whether the grid is one that the models cover.
func (g Grid) Valid() bool {
	return g.FromHz >= 1 && g.ToHz > g.FromHz && g.ToHz <= 2000 && g.Points >= 2 && g.Points <= 4000
}

// Hz returns the frequencies.
func (g Grid) Hz() []float64 {
	out := make([]float64, g.Points)
	step := math.Log(g.ToHz/g.FromHz) / float64(g.Points-1)
	for i := range out {
		out[i] = g.FromHz * math.Exp(step*float64(i))
	}
	out[g.Points-1] = g.ToHz
	return out
}

// Omega returns the angular frequencies, rad/s.
func (g Grid) Omega() []float64 {
	out := g.Hz()
	for i := range out {
		out[i] *= 2 * math.Pi
	}
	return out
}
