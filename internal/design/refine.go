package design

import (
	"math"
	"slices"

	"bootfloor/internal/job"

	"gonum.org/v1/gonum/optimize"
)

// evaluations is how many the refinement may take.
func (s *search) evaluations() int {
	switch n := len(s.axes); {
	case n == 0:
		return 0
	case s.Rough:
		return 4 + 6*n
	default:
		return 30 + 25*n
	}
}

// refine goes down from the best point of the scan, first with its ports held,
// since another port is another cavity, then from there with ports to suit.
func (s *search) refine() {
	if s.ctx.Err() != nil || math.IsInf(s.best.cost, 1) || len(s.axes) == 0 {
		return
	}
	start := s.best.x
	s.base = carried(s.base, s.best.box)
	// The place may have moved: what was best is judged again where it is now.
	s.best.cost = math.Inf(1)
	s.hold(start)
	s.descend(start, s.evaluations())
	if len(s.fam.ports(&s.best.box)) == 0 || s.ctx.Err() != nil {
		return
	}
	s.base = carried(s.base, s.best.box)
	s.try(s.best.x)
	if s.Rough {
		return
	}
	// Tubes a size up and down, each from the best point so far, and once more
	// about the tubes that this has led to.
	for range 2 {
		before := s.best.box
		s.otherTubes()
		if samePorts(s.fam, before, s.best.box) {
			break
		}
	}
	s.base = carried(s.base, s.best.box)
	s.polish()
}

// otherTubes tries tubes a size up and down.
func (s *search) otherTubes() {
	for _, ratio := range []float64{1, 1.2, 1.5, 0.65} {
		box := s.best.box
		switch {
		case ratio > 1:
			box = s.resized(box, ratio, portFor)
		case ratio < 1:
			box = s.resized(box, ratio, portUnder)
		}
		if ratio != 1 && samePorts(s.fam, box, s.best.box) || ratio == 1 && samePorts(s.fam, box, s.base) {
			continue
		}
		s.descend(s.startWith(box), s.evaluations()/2)
	}
}

// startWith carries the ports of a box into the search and returns where to go
// on from: the best point, or the one with as much more air as the ports are
// wider, which keeps the length of a port at its tuning; whichever is better.
func (s *search) startWith(box job.Box) []float64 {
	ratio := 1.0
	if now, then := s.fam.ports(&s.best.box), s.fam.ports(&box); len(now) == 1 {
		ratio = portArea(**then[0]) / portArea(**now[0])
	}
	s.base = carried(s.base, box)
	start := slices.Clone(s.best.x)
	if ratio == 1 {
		return start
	}
	grown := slices.Clone(start)
	span := math.Log(s.axes[0][1] / s.axes[0][0])
	grown[0] = min(max(grown[0]+math.Log(ratio)/span, 0), 1)
	if s.hold(grown).cost < s.hold(start).cost {
		return grown
	}
	return start
}

// polish steps along each axis both ways as long as that helps: a simplex that
// has run flat against an end of an axis, or a reach that jumps, leaves
// something to be found so.
func (s *search) polish() {
	for _, step := range []float64{0.06, 0.02} {
		for axis := range s.axes {
			for _, way := range []float64{step, -step} {
				for range 4 {
					before := s.best.cost
					u := slices.Clone(s.best.x)
					u[axis] = min(max(u[axis]+way, 0), 1)
					if s.ctx.Err() != nil || u[axis] == s.best.x[axis] {
						break
					}
					if s.hold(u); s.best.cost >= before {
						break
					}
				}
			}
		}
	}
}

// hold works out one place on the unit axes with the ports as they are.
func (s *search) hold(u []float64) judged {
	c := s.judgeBox(s.fam.make(s.base, s.unit, s.point(u)))
	c.x = append([]float64(nil), u...)
	s.keep(c)
	return c
}

// descend runs the simplex of Nelder and Mead over the logarithms of the axes.
func (s *search) descend(start []float64, evaluations int) {
	problem := optimize.Problem{
		Func: func(u []float64) float64 {
			var out float64
			inside := make([]float64, len(u))
			for i, v := range u {
				inside[i] = min(max(v, 0), 1)
				out += math.Abs(v - inside[i])
			}
			c := s.hold(inside)
			if math.IsInf(c.cost, 1) {
				return 1e6
			}
			return c.cost + 100*out
		},
		Status: func() (optimize.Status, error) {
			if s.ctx.Err() != nil {
				return optimize.RuntimeLimit, nil
			}
			return optimize.NotTerminated, nil
		},
	}
	// An error only says that it stopped early; the best point is kept anyway.
	_, _ = optimize.Minimize(problem, start, &optimize.Settings{
		FuncEvaluations: evaluations,
		Converger:       &optimize.FunctionConverge{Absolute: 2e-3, Iterations: 10},
	}, &optimize.NelderMead{SimplexSize: 0.06})
}

// carried returns base with the ports and radiators of a box found, to start
// the refinement from.
func carried(base, found job.Box) job.Box {
	base.Port, base.Front, base.Passive = found.Port, found.Front, found.Passive
	return base
}

// samePorts tells whether two boxes have the same tubes.
func samePorts(fam family, a, b job.Box) bool {
	p, q := fam.ports(&a), fam.ports(&b)
	for i := range p {
		if portArea(**p[i]) != portArea(**q[i]) {
			return false
		}
	}
	return true
}
