package system

import (
	"fmt"

	"bootfloor/internal/air"
	"bootfloor/internal/cavity"
	"bootfloor/internal/job"
)

// Solver answers jobs. It keeps what it has worked out about cars, because a
// reader changes the box a hundred times for every time they change the car.
// Not safe for concurrent use.
type Solver struct {
	modes  cache[*cavity.Modes]
	tables cache[*cavity.Transfer]
}

// NewSolver returns a solver that remembers a few cars.
func NewSolver() *Solver {
	return &Solver{modes: newCache[*cavity.Modes](6), tables: newCache[*cavity.Transfer](6)}
}

// Respond solves a job. The response is nil when any finding is an error.
// Findings about the document as such are job.Check's; these are what only a
// calculation can know.
func (s *Solver) Respond(j job.Job, g Grid) (*Response, []job.Finding) {
	if !g.Valid() {
		return nil, []job.Finding{job.Errorf("", "The frequency range is not one that can be computed.")}
	}
	m, found := newModel(j, g.Omega())
	if job.HasError(found) {
		return nil, found
	}
	var car, free built
	found = append(found, m.assembleSubs(&free, newFreeWorld(&free.net))...)
	w, f := s.newCabinWorld(&car.net, m)
	found = append(found, f...)
	if job.HasError(found) {
		return nil, found
	}
	// The same complaint would come from both worlds: only the first counts.
	m.assembleSubs(&car, w)
	m.assembleDoors(&car, w)
	found = append(found, w.finish(&car.net, j.Car.Seats)...)
	if job.HasError(found) {
		return nil, found
	}
	r := m.respond(&car, j.Car.Seats, &free)
	r.Cabin = w.derived()
	return r, found
}

// table returns the impedances of a cavity, from memory where it can.
func (s *Solver) table(shape cavity.Shape, a air.Properties, loss cavity.Absorption, patches []cavity.Patch, omega []float64) (*cavity.Transfer, error) {
	key := fmt.Sprint(shape, a, loss, patches, omega[0], omega[len(omega)-1], len(omega))
	if t, ok := s.tables.get(key); ok {
		return t, nil
	}
	modes, err := s.modesOf(shape)
	if err != nil {
		return nil, err
	}
	field, err := modes.Field(a, loss, patches)
	if err != nil {
		return nil, err
	}
	t := field.Transfer(omega)
	s.tables.put(key, t)
	return t, nil
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
	}
	return m, err
}
