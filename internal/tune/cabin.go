package tune

import (
	"errors"
	"fmt"
	"math"

	"bootfloor/internal/filter"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// cabin predicts the level at one seat for factors on leak, damping and
// volume.
type cabin struct {
	lean  *system.Lean
	job   job.Job
	grid  system.Grid
	seat  int
	drive [][]complex128 // filters of each channel over the grid; nil where it rests

	mouth float64    // the factor on the leak to which its mouth is sized
	last  [3]float64 // the factors of the latest prediction
	level []float64
}

// newCabin sets a job up as it stood before anything was learned, with what
// played.
func newCabin(s *system.Solver, j job.Job, m Measurement, g system.Grid) (*cabin, error) {
	c := &cabin{lean: s.Lean(), job: j, grid: g, seat: -1}
	c.sizeMouth(1)
	for i, s := range j.Car.Seats {
		if s.ID == m.Seat {
			c.seat = i
		}
	}
	if c.seat < 0 {
		return nil, fmt.Errorf("the measurement is of the seat %q, which the job does not have; choose one of its seats", m.Seat)
	}
	for _, o := range j.Car.Openings {
		if o.Kind == "roof_off" {
			return nil, errors.New("with the roof off there is no cabin to learn; measure with it on")
		}
	}
	var bad []job.Finding
	plays := func(yes bool, ch job.Channel) {
		if !yes {
			c.drive = append(c.drive, nil)
			return
		}
		chain, found := filter.FromJob(ch)
		bad = append(bad, found...)
		c.drive = append(c.drive, chain.Response(g.Omega()))
	}
	switch m.Playing {
	case SubAlone, DoorsAlone, Both:
	default:
		return nil, fmt.Errorf("what played is given as %q; choose sub, doors or both", m.Playing)
	}
	for _, s := range j.Subs {
		plays(m.Playing != DoorsAlone, s.Channel)
	}
	if j.Doors.Fitted {
		plays(m.Playing != SubAlone, j.Doors.Channel)
	}
	if m.Playing == DoorsAlone && !j.Doors.Fitted || m.Playing == SubAlone && len(j.Subs) == 0 {
		return nil, fmt.Errorf("the %s alone are said to have played, but the job has none", map[Playing]string{SubAlone: "subs", DoorsAlone: "door speakers"}[m.Playing])
	}
	return c, firstError(bad)
}

// firstError makes an error of the first finding that is one.
func firstError(found []job.Finding) error {
	for _, f := range found {
		if f.Level == job.LevelError {
			return errors.New(f.Say)
		}
	}
	return nil
}

// sizeMouth makes the mouth of the leak as large as a leak of the given factor
// has it. Predictions of other factors keep it, which is what makes them quick;
// it matters little, so it is enough to size it anew now and then.
func (c *cabin) sizeMouth(leak float64) {
	c.mouth, c.level = leak, nil
	c.job.Car.Learned = &job.Learned{LeakScale: leak, DampingScale: 1, VolumeScale: 1}
}

// predict returns the level over the grid, dB re 20 uPa at full scale, shared
// until the next call.
func (c *cabin) predict(leak, damping, volume float64) ([]float64, error) {
	at := [3]float64{leak, damping, volume}
	if c.level != nil && at == c.last {
		return c.level, nil
	}
	b, found := c.lean.Bare(c.job, c.grid, system.Variation{Length: 1, Leak: leak / c.mouth, Damping: damping}, volume)
	if b == nil {
		return nil, firstError(found)
	}
	c.last, c.level = at, make([]float64, len(b.Omega))
	for k := range b.Omega {
		var p complex128
		for i, h := range c.drive {
			if h != nil {
				p += h[k] * b.Pressure[i][c.seat][k]
			}
		}
		c.level[k] = levelDB(p)
	}
	return c.level, nil
}

// levelDB is the level of an rms pressure, dB re 20 uPa (ISO 1683), never
// below -200.
func levelDB(p complex128) float64 {
	re, im := real(p)/system.Reference, imag(p)/system.Reference
	return 10 * math.Log10(re*re+im*im+1e-20)
}
