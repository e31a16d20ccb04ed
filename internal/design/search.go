package design

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"bootfloor/internal/driver"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// Task is what to design.
type Task struct {
	Job    job.Job
	Sub    int // number of the sub whose box is sought
	Type   string
	Goal   Goal
	Bounds Bounds
	// Room, where not nil, is where the box must stand: the design then has
	// an outside and a place. Else the sub's own place is kept.
	Room *Room
	// Rough asks for a first answer at a fifth of the work.
	Rough bool
	// Watch, where not nil, is told how many of about how many steps are done.
	Watch func(done, of int)
}

// search is one run for one box type.
type search struct {
	Task
	solver      *system.Solver
	ctx         context.Context
	job         job.Job // a copy whose box is overwritten
	sub         int
	fam         family
	axes        [][2]float64
	unit        unit
	base        job.Box
	goal        Goal
	bounds      Bounds
	speedMS     float64 // that ports are sized for
	mostGrossL  float64 // that the room holds; 0 without a room
	leastGrossL float64 // that the smallest box for the drivers holds
	seats       []int
	best        judged
	tried, of   int
}

// Best finds the best box of a type for sub number i of a job; see Find.
func Best(ctx context.Context, solver *system.Solver, j job.Job, i int, boxType string, goal Goal, bounds Bounds) (*Design, error) {
	return Find(ctx, solver, Task{Job: j, Sub: i, Type: boxType, Goal: goal, Bounds: bounds})
}

// Find finds the best box of a type. It returns an error, a sentence, when the
// type cannot be designed or nothing can be worked out, and the context's
// error when that ends first.
func Find(ctx context.Context, solver *system.Solver, t Task) (*Design, error) {
	s, err := newSearch(ctx, solver, t)
	if err != nil {
		return nil, err
	}
	trade := s.scan()
	s.standRoughly()
	s.refine()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if math.IsInf(s.best.cost, 1) {
		return nil, fmt.Errorf("No box of the type %q could be worked out for this driver within these bounds.", Name(t.Type))
	}
	return s.settle(trade)
}

func newSearch(ctx context.Context, solver *system.Solver, t Task) (*search, error) {
	fam, ok := families[t.Type]
	if !ok {
		return nil, fmt.Errorf("There is no designer for boxes of the type %q; choose another type, or draw it by hand.", t.Type)
	}
	if t.Type == "infinite_baffle" && !t.Job.Car.Boot.Separate {
		return nil, errors.New("An infinite baffle needs a boot that is a room of its own. In this car the boot is part of the cabin, where the back of the cone cancels its front.")
	}
	if t.Sub < 0 || t.Sub >= len(t.Job.Subs) {
		return nil, fmt.Errorf("There is no sub number %d in this job.", t.Sub+1)
	}
	sub := t.Job.Subs[t.Sub]
	u, err := unitOf(sub)
	if err != nil {
		return nil, err
	}
	fam.key = t.Type
	s := &search{
		Task: t, solver: solver, ctx: ctx, job: t.Job, sub: t.Sub, fam: fam, unit: u,
		goal: t.Goal.filled(t.Job), bounds: t.Bounds,
	}
	s.job.Subs = append([]job.Sub(nil), t.Job.Subs...)
	s.seats = s.goal.seats(t.Job)
	s.speedMS = s.bounds.SpeedMS
	if s.speedMS <= 0 {
		s.speedMS = system.PortSpeedGuide
	}
	if s.bounds.PortMM <= 0 {
		s.bounds.PortMM = longestPort
	}
	s.base = startBox(sub.Box, t.Type)
	if t.Type == "infinite_baffle" {
		s.bounds.NetMinL, s.bounds.NetMaxL = 0, 0 // there is no box to bound
		s.job.Subs[t.Sub].Place = bafflePlace(t.Job.Car, sub.Place)
	}
	// Radiators must have a face to sit on before a box is measured.
	trial := sub
	trial.Box = s.base
	if t.Type == "passive_radiator" {
		trial.Box.Passive = passiveFor(s.base.Passive, u, 30, u.group.Fs)
	}
	if t.Room != nil && t.Type != "infinite_baffle" {
		s.mostGrossL = 1000 * t.Room.MostGrossM3(trial, u.one)
		if s.mostGrossL <= 0 {
			return nil, fmt.Errorf("%s", t.Room.short(trial, u.one, 0, len(t.Room.shapes(framesOf(trial, u.one), panelOf(trial))) > 0))
		}
		if s.bounds.NetMaxL <= 0 || s.bounds.NetMaxL > s.mostGrossL {
			s.bounds.NetMaxL = s.mostGrossL
		}
	}
	s.atLeast(trial)
	s.axes = fam.axes(s.unit, s.bounds)
	if hz := s.bounds.TuningHz; hz > 0 && Tunes(t.Type) {
		s.axes[fam.tuning-1] = [2]float64{hz, hz * 1.0001}
	}
	s.best.cost = math.Inf(1)
	return s, nil
}

// longestPort (mm) is more than most boxes hold without a bend. Assumed.
const longestPort = 600

// unitOf completes the driver of a sub.
func unitOf(s job.Sub) (unit, error) {
	d, _, err := driver.Derive(driver.FromJob(s.Driver), standardAir)
	if err != nil {
		return unit{}, err
	}
	series, parallel := max(s.Series, 1), max(s.Parallel, 1)
	return unit{one: d, group: d.Group(series, parallel), count: series * parallel}, nil
}

// startBox returns what the search begins from: the box as drawn, cleared of
// what belongs to another type.
func startBox(b job.Box, boxType string) job.Box {
	if b.Type == boxType {
		return b
	}
	b.Type = boxType
	b.Port, b.Front, b.Passive, b.Line, b.Vent = nil, nil, nil, nil, nil
	b.FrontL, b.TapMM, b.Isobaric, b.QL = 0, 0, false, 0
	switch boxType {
	case "vented", "passive_radiator", "bandpass4", "bandpass6_series", "bandpass6_parallel":
		b.QL = 7 // Small's starting point for boxes of ordinary tightness
	}
	return b
}

// steps is the number of grid points of the scan along each axis.
func (s *search) steps() []int {
	full := [][]int{{}, {14}, {10, 8}, {6, 5, 6}, {4, 3, 4, 4}}
	rough := [][]int{{}, {7}, {5, 5}, {3, 3, 4}, {3, 2, 3, 3}}
	steps := full[len(s.axes)]
	if s.Rough {
		steps = rough[len(s.axes)]
	}
	steps = slices.Clone(steps)
	for i, a := range s.axes {
		if a[1] < 1.01*a[0] {
			steps[i] = 1 // the bounds leave nothing to choose
		}
	}
	return steps
}

// point returns the values of the axes at places from 0 to 1.
func (s *search) point(u []float64) []float64 {
	x := make([]float64, len(u))
	for i, a := range s.axes {
		x[i] = a[0] * math.Pow(a[1]/a[0], min(max(u[i], 0), 1))
	}
	return x
}

// scan works out a coarse grid over all axes: it finds the valley that the
// refinement goes down, and the trade-off on the way. Ported boxes are worked
// out once with the same tubes for all, which tells what each wants, and then
// with those, one set after the other.
func (s *search) scan() []Point {
	steps := s.steps()
	n := 1
	for _, k := range steps {
		n *= k
	}
	s.of = n + s.evaluations()
	all := make([]judged, 0, n)
	for i := range n {
		if s.ctx.Err() != nil {
			return nil
		}
		u := make([]float64, len(steps))
		for axis, rest := 0, i; axis < len(steps); axis++ {
			u[axis] = float64(rest%steps[axis]) / float64(max(steps[axis]-1, 1))
			rest /= steps[axis]
		}
		c := s.judgeBox(s.fam.make(s.base, s.unit, s.point(u)))
		c.x = u
		all = append(all, c)
		s.keep(c)
	}
	s.widen(all)
	s.suitFirst(all)
	return trade(all)
}

// widen works ported boxes out again with the tubes that suit them.
func (s *search) widen(all []judged) {
	if len(s.fam.ports(&s.base)) == 0 {
		return
	}
	sets := broad
	if s.Rough {
		sets = broadRough
	}
	group := make([][]int, len(sets))
	for i, c := range all {
		if !math.IsInf(c.cost, 1) {
			k := s.wanted(c, sets)
			group[k] = append(group[k], i)
		}
	}
	s.of += len(all)
	for k, members := range group {
		for _, i := range members {
			if s.ctx.Err() != nil {
				return
			}
			c := s.judgeBox(s.put(all[i].box, sets[k]))
			c.x = all[i].x
			if c.cost < all[i].cost {
				all[i] = c
			}
			s.keep(c)
		}
	}
}

// suitFirst gives the most promising points of the scan ports to suit: those
// that would be the best if the ports cost them nothing.
func (s *search) suitFirst(all []judged) {
	order := slices.Clone(all)
	slices.SortStableFunc(order, func(a, b judged) int { return cmp.Compare(a.cost, b.cost) })
	for i, c := range order {
		if i == s.suits() || s.ctx.Err() != nil || math.IsInf(c.cost, 1) || len(s.fam.ports(&c.box)) == 0 {
			return
		}
		s.base = carried(s.base, c.box)
		s.try(c.x)
	}
}

// suits is how many points of the scan are given ports to suit.
func (s *search) suits() int {
	if s.Rough {
		return 1
	}
	return 3
}

// trade returns the best of each quarter octave of volume, by rising volume.
func trade(all []judged) []Point {
	best := map[float64]judged{}
	for _, c := range all {
		if math.IsInf(c.cost, 1) || c.netL <= 0 {
			continue
		}
		bucket := math.Round(4 * math.Log2(c.netL))
		if b, ok := best[bucket]; !ok || c.cost < b.cost {
			best[bucket] = c
		}
	}
	out := []Point{}
	for _, u := range slices.Sorted(maps.Keys(best)) {
		c := best[u]
		out = append(out, Point{c.netL, c.verdict.ReachHz, c.level, rounded(c.box)})
	}
	return out
}

// try works out one place on the unit axes with ports to suit.
func (s *search) try(u []float64) judged {
	c := s.suit(s.point(u))
	c.x = append([]float64(nil), u...)
	s.keep(c)
	return c
}

// keep remembers the best candidate and tells the watcher.
func (s *search) keep(c judged) {
	if c.cost < s.best.cost {
		s.best = c
	}
	if s.Watch != nil {
		s.Watch(min(s.tried, s.of), s.of)
	}
}

// standRoughly moves the cone to where the best box of the scan would have it,
// before the refinement: a place a hand's breadth away changes little below
// the cabin's first resonances, but a little is what the refinement is for.
func (s *search) standRoughly() {
	if s.Room == nil || s.Rough || math.IsInf(s.best.cost, 1) || s.ctx.Err() != nil {
		return
	}
	sub := s.job.Subs[s.sub]
	sub.Box = s.best.box
	if o, ok := s.Room.Stand(sub, s.unit.one, s.best.portMM); ok {
		s.job.Subs[s.sub].Place = o.Place
	}
}
