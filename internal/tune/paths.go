package tune

import (
	"context"
	"errors"
	"fmt"
	"math"

	"bootfloor/internal/filter"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// Target is the level that is wanted over frequency, up to a constant.
type Target struct {
	// DBPerOctave is its slope; negative falls toward high frequencies.
	DBPerOctave float64 `json:"db_per_octave"`
}

// Flat asks for the same level everywhere; House for a gentle rise toward the
// bass, as many listeners like it in a car. Common practice, no source.
var (
	Flat  = Target{}
	House = Target{DBPerOctave: -1.5}
)

// at returns the wanted level at a frequency, dB re that at 100 Hz.
func (t Target) at(hz float64) float64 { return t.DBPerOctave * math.Log2(hz/100) }

// paths are the pressures of all channels at the chosen seats, without
// filters, for the car as stated and for others that it may be.
type paths struct {
	hz, omega []float64
	seats     []int    // which of the job's
	ids       []string // their ids
	per       [][][][]complex128
	// per is [sample][channel][seat][frequency]; sample 0 is as stated.
	early []float64 // how much earlier than computed the doors are heard, s, by sample
}

// headMoveS is how far the arrival of the door speakers against the sub moves,
// either way, as a head does by five centimetres. Assumed.
const headMoveS = 0.05 / 343

// newPaths solves the car as stated and n variations of it.
func newPaths(ctx context.Context, s *system.Solver, j job.Job, seats []string, g system.Grid, n int, progress func(int, int)) (*paths, error) {
	p := &paths{hz: g.Hz(), omega: g.Omega()}
	if len(seats) == 0 {
		seats = []string{j.Aim.SeatID}
	}
	for _, id := range seats {
		at := -1
		for i, s := range j.Car.Seats {
			if s.ID == id {
				at = i
			}
		}
		if at < 0 {
			return nil, fmt.Errorf("the seat %q is not in this car; choose one of its seats", id)
		}
		p.seats, p.ids = append(p.seats, at), append(p.ids, id)
	}
	lean := s.Lean()
	c := j.Car.Cabin
	mean := math.Cbrt(c.LengthMM*c.WidthMM*c.HeightMM) * 1e-3
	if !(mean > 0.1) {
		mean = 1.5
	}
	samples := append([]system.Variation{{Length: 1, Leak: 1, Damping: 1}}, system.Variations(j.Tolerance, mean, n)...)
	for i, v := range samples {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		b, found := lean.Bare(j, g, v, 1)
		if b == nil {
			return nil, firstError(found)
		}
		chosen := make([][][]complex128, len(b.Pressure))
		for ch := range chosen {
			for _, seat := range p.seats {
				chosen[ch] = append(chosen[ch], b.Pressure[ch][seat])
			}
		}
		p.per = append(p.per, chosen)
		// Even steps by the golden ratio, none for the car as stated.
		_, u := math.Modf(0.5 + float64(i)*(math.Sqrt(5)-1)/2)
		p.early = append(p.early, headMoveS*(2*u-1))
		if progress != nil {
			progress(i+1, len(samples))
		}
	}
	return p, nil
}

// sum adds channels first to last-1 through their chains at a sample and seat.
func (p *paths) sum(sample, seat, first int, h [][]complex128) []complex128 {
	out := make([]complex128, len(p.omega))
	for c := range h {
		for k, v := range p.per[sample][first+c][seat] {
			out[k] += v * h[c][k]
		}
	}
	return out
}

// response is a channel's chain over the grid, its delay counted from base, s.
func response(c job.Channel, omega []float64, baseMS float64) ([]complex128, error) {
	chain, found := filter.FromJob(c)
	if err := firstError(found); err != nil {
		return nil, err
	}
	return chain.WithJoin(chain.GainDB(), chain.Inverted(), chain.DelayS()-baseMS*1e-3).Response(omega), nil
}

// deepest is where a dip stops to count for more: below it nothing is heard
// anyway, and it fills with the smallest change.
const deepest = -18

// ripple takes target and mean off levels, in place, and returns the mean
// square of what is left.
func ripple(db, target []float64) float64 {
	var mean float64
	for k := range db {
		db[k] -= target[k]
		mean += db[k] / float64(len(db))
	}
	var square float64
	for k := range db {
		db[k] = math.Max(db[k]-mean, deepest)
		square += db[k] * db[k]
	}
	return square / float64(len(db))
}

// seatWords says where a seat is.
func seatWords(id string) string {
	switch id {
	case "wheel":
		return "at the wheel"
	case "passenger":
		return "at the passenger seat"
	case "rear_right":
		return "at the rear right seat"
	case "rear_left":
		return "at the rear left seat"
	case "rear_middle":
		return "at the rear middle seat"
	}
	return "at the seat " + id
}

// joinable reports what a job lacks for joining.
func joinable(j job.Job) error {
	switch {
	case len(j.Subs) == 0:
		return errors.New("the job has no sub to join")
	case !j.Doors.Fitted:
		return errors.New("the job has no door speakers to join the sub to; fit them first")
	}
	return nil
}
