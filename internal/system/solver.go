package system

import (
	"fmt"
	"slices"

	"bootfloor/internal/cavity"
	"bootfloor/internal/enclosure"
	"bootfloor/internal/job"
)

// Solver answers jobs. It keeps what it has worked out about cars, because a
// reader changes the box a hundred times for every time they change the car.
// Not safe for concurrent use.
type Solver struct {
	modes  *cache[*cavity.Modes]
	fields *cache[*cavity.Field]
	seen   cache[seen]
	// varied remembers the variations of the latest car, so that the band of
	// a changed box costs no cavity either. It shares the modes.
	varied *Solver
	lines  enclosure.Lines
}

// NewSolver returns a solver that remembers a few cars.
func NewSolver() *Solver {
	modes, fields := newCache[*cavity.Modes](6), newCache[*cavity.Field](24)
	return &Solver{
		modes:  &modes,
		fields: &fields,
		seen:   newCache[seen](24),
		varied: &Solver{modes: &modes, fields: &fields, seen: newCache[seen](2 * BandSamples)},
	}
}

// Respond solves a job. The response is nil when any finding is an error.
// Findings about the document as such are job.Check's; these are what only a
// calculation can know.
func (s *Solver) Respond(j job.Job, g Grid) (*Response, []job.Finding) {
	return s.respond(j, g, asStated)
}

func (s *Solver) respond(j job.Job, g Grid, v Variation) (*Response, []job.Finding) {
	if !g.Valid() {
		return nil, []job.Finding{job.Errorf("", "The frequency range is not one that can be computed.")}
	}
	car, w, m, found := s.assemble(j, g.Omega(), v, true)
	if job.HasError(found) {
		return nil, found
	}
	// The same complaints would come from this world: once is enough.
	var free built
	m.assembleSubs(&free, newFreeWorld(&free.net))
	r := m.respond(car, &free)
	r.Cabin = w.derived()
	return r, found
}

// assemble puts a job into its car, ready to be solved.
func (s *Solver) assemble(j job.Job, omega []float64, v Variation, doors bool) (*built, world, *model, []job.Finding) {
	m, found := newModel(j, omega, v, doors)
	m.lines = &s.lines
	if job.HasError(found) {
		return nil, nil, m, found
	}
	car := &built{}
	w, f := s.newWorld(&car.net, m)
	found = append(found, f...)
	if job.HasError(found) {
		return nil, nil, m, found
	}
	found = append(found, m.assembleSubs(car, w)...)
	if doors {
		m.assembleDoors(car, w)
	}
	if job.HasError(found) {
		return nil, nil, m, found
	}
	return car, w, m, append(found, w.finish(j.Car.Seats)...)
}

// seen is what is remembered of a cavity with its doors.
type seen struct {
	field *cavity.Field
	table *cavity.Transfer
}

// lookUp completes a room with the impedances between its doors, from memory
// where it can, for a volume of air that may be less than that of its shape.
//
// A car s times as large in every dimension has the impedance of the stated
// one at s times the frequency, over s squared.
func (s *Solver) lookUp(r *room, m *model, airVolume float64) (err error) {
	length := m.vary.Length
	r.scale = r.shape.Volume() / airVolume / (length * length)
	w := m.omega
	key := fmt.Sprint(r.shape, m.air, r.loss, r.patches, length, m.vary.Damping, w[0], w[len(w)-1], len(w))
	if t, ok := s.seen.get(key); ok {
		r.field, r.table = t.field, t.table
		return nil
	}
	if r.field, err = s.fieldOf(r, m); err != nil {
		return err
	}
	r.field = r.field.Damped(m.vary.Damping)
	if length != 1 {
		w = slices.Clone(w)
		for i := range w {
			w[i] *= length
		}
	}
	r.table = r.field.Transfer(w)
	s.seen.put(key, seen{r.field, r.table})
	return nil
}

// fieldOf returns the cavity with its doors before any variation, from memory
// of the last one made.
func (s *Solver) fieldOf(r *room, m *model) (*cavity.Field, error) {
	key := fmt.Sprint(r.shape, m.air, r.loss, r.patches)
	if f, ok := s.fields.get(key); ok {
		return f, nil
	}
	modes, err := s.modesOf(r.shape)
	if err != nil {
		return nil, err
	}
	f, err := modes.Field(m.air, r.loss, r.patches)
	if err == nil {
		s.fields.put(key, f)
	}
	return f, err
}

// modesOf returns the modes of a shape, from memory where it can.
func (s *Solver) modesOf(shape cavity.Shape) (*cavity.Modes, error) {
	key := fmt.Sprint(shape)
	if m, ok := s.modes.get(key); ok {
		return m, nil
	}
	m, err := cavity.Solve(shape, cavity.Options{})
	if err == nil {
		s.modes.put(key, m)
		s.forget()
	}
	return m, err
}

// forget lets go of fields whose modes have been let go of. Each would hold on
// to some megabytes of a car that a dragged dimension has left behind, and
// going through those is what makes a step wait for the collector.
func (s *Solver) forget() {
	for i := len(s.fields.vals) - 1; i >= 0; i-- {
		if !s.remembers(s.fields.vals[i]) {
			s.fields.drop(i)
		}
	}
	for i := len(s.seen.vals) - 1; i >= 0; i-- {
		if !s.remembers(s.seen.vals[i].field) {
			s.seen.drop(i)
		}
	}
}

// remembers reports whether the modes of a field are still at hand.
func (s *Solver) remembers(f *cavity.Field) bool {
	for _, m := range s.modes.vals {
		if m == f.Modes() {
			return true
		}
	}
	return false
}
