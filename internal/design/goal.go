// Package design finds the box instead of asking for it: for one driver in
// one car, the best box of a type for a stated aim under stated bounds, judged
// in the car with every limit counted.
package design

import (
	"math"

	"bootfloor/internal/job"
	"bootfloor/internal/judge"
)

// Kind is what a design should be best at.
type Kind string

// The aims.
const (
	Even     Kind = "even"     // least ripple about a target over the band
	Lowest   Kind = "lowest"   // lowest reach
	Loudest  Kind = "loudest"  // most level over the whole band
	Smallest Kind = "smallest" // least air that still reaches and plays what is asked
	Balanced Kind = "balanced" // level, reach, evenness and size weighed together
)

// Goal is an aim with its numbers.
type Goal struct {
	Kind Kind `json:"kind"`
	// FromHz and ToHz are the band that counts. Zero: from the job's lowest
	// note to the upper edge that its crossover leaves.
	FromHz float64 `json:"from_hz,omitempty"`
	ToHz   float64 `json:"to_hz,omitempty"`
	// LevelDB is the level asked for. Zero: the job's.
	LevelDB float64 `json:"level_db,omitempty"`
	// SlopeDB is the fall per octave, upward, of the target of Even: zero is
	// flat, and a few decibels a common taste in cars (no source).
	SlopeDB float64 `json:"slope_db,omitempty"`
	// Seats are those that count. None: the job's seat.
	Seats []string `json:"seats,omitempty"`
}

// Bounds is what a design must keep within. Zero means no bound of that kind
// beyond the search's own.
type Bounds struct {
	NetMinL float64 `json:"net_min_l,omitempty"`
	NetMaxL float64 `json:"net_max_l,omitempty"` // all chambers together
	// PortMM is the longest port that fits, SpeedMS the air speed it may see.
	// TuningHz, where not zero, is the tuning that is settled; see Tunes.
	TuningHz float64 `json:"tuning_hz,omitempty"`
	PortMM   float64 `json:"port_mm,omitempty"`
	SpeedMS  float64 `json:"speed_ms,omitempty"`
}

// filled returns the goal with the job's own numbers where it has none.
func (g Goal) filled(j job.Job) Goal {
	if g.FromHz <= 0 {
		g.FromHz = j.Aim.Lowest
	}
	g.FromHz = math.Max(g.FromHz, grid.FromHz)
	if g.ToHz <= 0 {
		g.ToHz = judge.Upper(j)
	}
	if g.ToHz <= g.FromHz*1.2 {
		g.ToHz = g.FromHz * 1.2
	}
	if g.LevelDB <= 0 {
		g.LevelDB = j.Aim.LevelDB
	}
	if len(g.Seats) == 0 {
		g.Seats = []string{j.Aim.SeatID}
	}
	return g
}

// seats returns the numbers of the seats that count, at least one.
func (g Goal) seats(j job.Job) []int {
	var out []int
	for i, s := range j.Car.Seats {
		for _, id := range g.Seats {
			if s.ID == id {
				out = append(out, i)
			}
		}
	}
	if len(out) == 0 {
		out = []int{0}
	}
	return out
}
