package design

import (
	"context"
	"fmt"
	"math"

	"bootfloor/internal/air"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
	"bootfloor/internal/system"

	"gonum.org/v1/gonum/optimize"
)

// Design is the best box found of one type.
type Design struct {
	Type     string  `json:"type"`
	Box      job.Box `json:"box"`
	NetL     float64 `json:"net_l"` // all chambers
	ReachHz  float64 `json:"reach_hz"`
	LevelDB  float64 `json:"level_db"` // least over the goal's band
	RippleDB float64 `json:"ripple_db"`
	Limit    string  `json:"limit"`
	BelowHz  float64 `json:"limit_below_hz"`
	SpeedMS  float64 `json:"speed_ms"`
	PortMM   float64 `json:"port_mm"`
	// Kept tells that every bound is kept; else Say tells which is not.
	Kept bool   `json:"kept"`
	Say  string `json:"say,omitempty"`
	// Trade is what other volumes would give, each at its own best.
	Trade []Point `json:"trade"`
	// Tried counts the candidates that were worked out in the car.
	Tried int `json:"tried"`
}

// Point is one place on the trade-off of volume against reach and level.
type Point struct {
	NetL    float64 `json:"net_l"`
	ReachHz float64 `json:"reach_hz"`
	LevelDB float64 `json:"level_db"`
	Box     job.Box `json:"box"`
}

// search is one run for one box type.
type search struct {
	solver *system.Solver
	job    job.Job // a copy whose box is overwritten
	sub    int
	fam    family
	axes   [][2]float64
	driver driver.Driver
	base   job.Box
	goal   Goal
	bounds Bounds
	seats  []int
	best   judged
	tried  int
	ctx    context.Context
}

// Best finds the best box of a type for sub number i of a job. It returns an
// error, a sentence, when the type cannot be designed or nothing can be worked
// out, and the context's error when that ends first.
func Best(ctx context.Context, solver *system.Solver, j job.Job, i int, boxType string, goal Goal, bounds Bounds) (*Design, error) {
	fam, ok := families[boxType]
	if !ok {
		return nil, fmt.Errorf("The designer does not do boxes of the type %q yet; draw it by hand.", boxType)
	}
	if i < 0 || i >= len(j.Subs) {
		return nil, fmt.Errorf("There is no sub number %d in this job.", i+1)
	}
	d, _, err := driver.Derive(driver.FromJob(j.Subs[i].Driver), air.MustStandard())
	if err != nil {
		return nil, err
	}
	sub := j.Subs[i]
	group := d.Group(max(sub.Series, 1), max(sub.Parallel, 1))
	s := &search{solver: solver, job: j, sub: i, fam: fam, driver: group, goal: goal.filled(j), bounds: bounds, ctx: ctx}
	s.job.Subs = append([]job.Sub(nil), j.Subs...)
	s.seats = s.goal.seats(j)
	if s.bounds.SpeedMS <= 0 {
		s.bounds.SpeedMS = system.PortSpeedGuide
	}
	if s.bounds.PortMM <= 0 {
		s.bounds.PortMM = 700
	}
	s.base = sub.Box
	s.base.Type = boxType
	if s.base.Type != sub.Box.Type {
		s.base.Port, s.base.Front, s.base.Passive, s.base.FrontL = nil, nil, nil, 0
		s.base.QL = 0
		if boxType != "sealed" {
			s.base.QL = 7 // Small's starting point for boxes of ordinary tightness
		}
	}
	s.axes = fam.axes(group, bounds)
	s.best.cost = math.Inf(1)
	trade := s.scan()
	s.refine()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if math.IsInf(s.best.cost, 1) {
		return nil, fmt.Errorf("No %s box could be worked out for this driver within these bounds.", boxType)
	}
	return s.design(trade), nil
}

// steps is the number of grid points of the scan along each axis.
func (s *search) steps() []int {
	switch len(s.axes) {
	case 1:
		return []int{14}
	case 2:
		return []int{10, 8}
	default:
		return []int{5, 5, 6}
	}
}

// scan works out a coarse grid over all axes: it finds the valley that the
// refinement goes down, and the trade-off on the way.
func (s *search) scan() []Point {
	steps := s.steps()
	var trade []Point
	x := make([]float64, len(s.axes))
	var walk func(axis int) judged
	walk = func(axis int) judged {
		if axis == len(x) {
			return s.try(x)
		}
		best := judged{cost: math.Inf(1)}
		for k := range steps[axis] {
			a := s.axes[axis]
			x[axis] = a[0] * math.Pow(a[1]/a[0], float64(k)/float64(steps[axis]-1))
			c := walk(axis + 1)
			if c.cost < best.cost {
				best = c
			}
			if axis == 0 && !math.IsInf(c.cost, 1) {
				trade = append(trade, Point{c.netL, c.verdict.ReachHz, c.level, c.box})
			}
			if s.ctx.Err() != nil {
				break
			}
		}
		return best
	}
	walk(0)
	return trade
}

// try works out one point of the axes with a port to suit.
func (s *search) try(x []float64) judged {
	box := s.fam.make(s.base, s.driver, x)
	c := s.judgeBox(box)
	s.tried++
	if p := portOf(&c.box); p != nil && !math.IsInf(c.cost, 1) {
		// The speed falls nearly as the area grows: one step finds the tube.
		want := portArea(*p) * c.speed / s.bounds.SpeedMS
		q := portFor(*p, want)
		if q.Count != p.Count || q.DiameterMM != p.DiameterMM {
			setPort(&box, &q)
			c = s.judgeBox(box)
			s.tried++
		}
	}
	if c.cost < s.best.cost {
		s.best = c
	}
	return c
}

func setPort(b *job.Box, p *job.Port) {
	if b.Type == "vented" {
		b.Port = p
	} else {
		b.Front = p
	}
}

// refine goes down from the best point of the scan by the simplex of Nelder
// and Mead, over the logarithms of the axes, with the port held.
func (s *search) refine() {
	if s.ctx.Err() != nil || math.IsInf(s.best.cost, 1) {
		return
	}
	start := s.place(s.best.box)
	s.base.Port, s.base.Front, s.base.Passive = s.best.box.Port, s.best.box.Front, s.best.box.Passive
	unit := func(u []float64) []float64 {
		x := make([]float64, len(u))
		for i, a := range s.axes {
			x[i] = a[0] * math.Pow(a[1]/a[0], min(max(u[i], 0), 1))
		}
		return x
	}
	problem := optimize.Problem{
		Func: func(u []float64) float64 {
			var out float64
			for _, v := range u {
				out += math.Max(0, -v) + math.Max(0, v-1)
			}
			c := s.judgeBox(s.fam.make(s.base, s.driver, unit(u)))
			s.tried++
			if c.cost < s.best.cost {
				s.best = c
			}
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
		FuncEvaluations: 30 + 20*len(s.axes),
		Converger:       &optimize.FunctionConverge{Absolute: 1e-3, Iterations: 12},
	}, &optimize.NelderMead{SimplexSize: 0.06})
}

// place returns where on the unit axes a box of the scan lies.
func (s *search) place(b job.Box) []float64 {
	at := []float64{b.NetL}
	switch b.Type {
	case "vented":
		at = append(at, b.Port.TuningHz)
	case "passive_radiator":
		at = append(at, tuningOf(*b.Passive, b.NetL))
	case "bandpass4":
		at = append(at, b.FrontL, b.Front.TuningHz)
	}
	for i, a := range s.axes {
		at[i] = math.Log(at[i]/a[0]) / math.Log(a[1]/a[0])
	}
	return at
}

// tuningOf is the inverse of addedMass: the tuning, Hz, of radiators on a box.
func tuningOf(p job.Passive, netL float64) float64 {
	lo, hi := 5.0, 200.0
	for range 50 {
		mid := math.Sqrt(lo * hi)
		if addedMass(p, netL, mid) > p.AddedG {
			lo = mid
		} else {
			hi = mid
		}
	}
	return math.Sqrt(lo * hi)
}

// design writes the result down.
func (s *search) design(trade []Point) *Design {
	c := s.best
	return &Design{
		Type: s.fam.key, Box: rounded(c.box), NetL: c.netL,
		ReachHz: c.verdict.ReachHz, LevelDB: c.level, RippleDB: c.ripple,
		Limit: c.verdict.Limit.String(), BelowHz: c.verdict.LimitBelowHz,
		SpeedMS: c.speed, PortMM: c.portMM,
		Kept: c.broken < 1e-3, Say: s.say(c), Trade: trade, Tried: s.tried,
	}
}

// say names the bound that is broken most, if any.
func (s *search) say(c judged) string {
	switch b := s.bounds; {
	case c.broken < 1e-3:
		return ""
	case c.portMM > b.PortMM:
		return fmt.Sprintf("The port would be %.0f mm long; %.0f mm is the most that fits.", c.portMM, b.PortMM)
	case c.speed > b.SpeedMS:
		return fmt.Sprintf("The air in the port would reach %.0f m/s; %.0f m/s is the guide. Take less power, or more port.", c.speed, b.SpeedMS)
	case b.NetMaxL > 0 && c.netL > b.NetMaxL:
		return fmt.Sprintf("It needs %.0f litres; there are %.0f.", c.netL, b.NetMaxL)
	}
	return "It does not keep within the bounds."
}

// rounded gives a box that a person can build: tenths of a litre and of a
// hertz, grams.
func rounded(b job.Box) job.Box {
	tenth := func(v float64) float64 { return math.Round(10*v) / 10 }
	b.NetL, b.FrontL = tenth(b.NetL), tenth(b.FrontL)
	for _, p := range []**job.Port{&b.Port, &b.Front} {
		if *p != nil {
			q := **p
			q.TuningHz = tenth(q.TuningHz)
			*p = &q
		}
	}
	if b.Passive != nil {
		q := *b.Passive
		q.AddedG = math.Round(q.AddedG)
		b.Passive = &q
	}
	return b
}
