package system

import (
	"bootfloor/internal/cavity"
	"bootfloor/internal/job"
)

// Lean answers one narrow question many times over: what each channel does at
// each seat, while leak, damping, volume or driver move a little. It leaves
// out the open air, limits and curves; all these variations share one cavity.
// It keeps what it works out to itself and shares only the modes with the
// solver it came from. Not safe for concurrent use.
type Lean struct{ solver *Solver }

// Lean returns a lean solver that shares the modes of s.
func (s *Solver) Lean() *Lean {
	fields := newCache[*cavity.Field](4)
	return &Lean{&Solver{modes: s.modes, fields: &fields, seen: newCache[seen](8)}}
}

// Bare holds the rms pressures at the seats that each channel makes alone at
// the rated voltage of its amplifier, without filters, level, delay or
// polarity, Pa.
type Bare struct {
	Omega []float64 // rad/s
	Seats []string
	// Pressure is [channel][seat][frequency]: the subs in their order, then
	// the pair of doors where they are fitted.
	Pressure [][][]complex128
}

// Bare solves a job on a grid. The level that a measurement taught is in it,
// as it is in Respond; volumeScale multiplies the volume of air in the cabin
// on top of what was learned. The result is nil when any finding is an error.
func (l *Lean) Bare(j job.Job, g Grid, v Variation, volumeScale float64) (*Bare, []job.Finding) {
	if !g.Valid() {
		return nil, []job.Finding{job.Errorf("", "The frequency range is not one that can be computed.")}
	}
	m, found := newModel(j, g.Omega(), v, true)
	if job.HasError(found) {
		return nil, found
	}
	var car built
	w, f := l.solver.newWorld(&car.net, m)
	found = append(found, f...)
	if job.HasError(found) {
		return nil, found
	}
	found = append(found, m.assembleSubs(&car, w)...)
	m.assembleDoors(&car, w)
	if cabin, ok := w.(*cabinWorld); ok {
		found = append(found, cabin.finishLean(j.Car.Seats, volumeScale)...)
	} else {
		found = append(found, w.finish(j.Car.Seats)...)
	}
	if job.HasError(found) {
		return nil, found
	}
	p := car.net.Solve(m.omega).Pressure
	m.learnedLevel(p)
	for c, drive := range m.drives {
		volts := complex(drive.maxVolts, 0)
		for _, seat := range p[c] {
			for k := range seat {
				seat[k] *= volts
			}
		}
	}
	out := &Bare{Omega: m.omega, Pressure: p}
	for _, s := range j.Car.Seats {
		out.Seats = append(out.Seats, s.ID)
	}
	return out, found
}

// finishLean is finish with another factor on the volume.
func (w *cabinWorld) finishLean(seats []job.Seat, volumeScale float64) []job.Finding {
	for _, s := range seats {
		w.net.Probe(w.cabin.add(cavity.Patch{Centre: point(s.XMM, s.YMM, s.ZMM)}))
	}
	w.leak()
	if l := w.model.job.Car.Learned; l != nil {
		volumeScale *= l.VolumeScale
	}
	w.openings()
	if err := w.solver.lookUp(w.cabin, w.model, w.airVolume()*volumeScale); err != nil {
		return []job.Finding{job.Errorf("/car", "%s", job.Sentence(err))}
	}
	if w.boot != nil {
		if err := w.solver.lookUp(w.boot, w.model, w.boot.shape.Volume()-w.boxes(true)); err != nil {
			return []job.Finding{job.Errorf("/car/boot", "%s", job.Sentence(err))}
		}
	}
	return nil
}
