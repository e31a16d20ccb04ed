package tune

import (
	"context"
	"errors"
	"math"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// JoinOptions say what to join and for whom.
type JoinOptions struct {
	Seats  []string `json:"seats,omitempty"` // ids; none is the seat of the aim
	Target Target   `json:"target"`
	// CrossoverHz is where the two meet; zero is read from their filters.
	CrossoverHz float64 `json:"crossover_hz,omitempty"`
	// ChangeFilters lets corner and slope be chosen too.
	ChangeFilters bool `json:"change_filters,omitempty"`
	// Samples is how many cars that this one may be are tried; zero is eight.
	Samples int `json:"samples,omitempty"`
	// MaxDelayMS bounds the delay; zero is 12 ms.
	MaxDelayMS float64 `json:"max_delay_ms,omitempty"`
}

// Ripple is how far the level at the seats strays from the target over an
// octave each side of the crossover, each seat's mean taken off.
type Ripple struct {
	RMSDB    float64 `json:"rms_db"`    // the car as stated
	LikelyDB float64 `json:"likely_db"` // rms at the 90th percentile of the cars it may be
	DipDB    float64 `json:"dip_db"`    // the deepest dip, positive
	DipHz    float64 `json:"dip_hz"`    // where it is
	DipSeat  string  `json:"dip_seat"`  // and at which seat
	AtDipDB  float64 `json:"at_dip_db"` // how much of the dip before is there, dB, positive
	PeakDB   float64 `json:"peak_db"`   // the highest peak
}

// Joined is a way to join sub and doors.
type Joined struct {
	CrossoverHz float64       `json:"crossover_hz"`
	FromHz      float64       `json:"from_hz"`
	ToHz        float64       `json:"to_hz"`
	Subs        []job.Channel `json:"subs"`  // as recommended, in the job's order
	Doors       job.Channel   `json:"doors"` // as recommended
	Changed     bool          `json:"changed"`
	Before      Ripple        `json:"before"`
	After       Ripple        `json:"after"`
	// GeometryMS is the delay on the doors that the distances alone would ask
	// for (negative: on the sub), at the first seat.
	GeometryMS float64  `json:"geometry_ms"`
	Say        string   `json:"say"`
	Notes      []string `json:"notes,omitempty"`

	Hz       []float64   `json:"hz"`
	Seats    []string    `json:"seats"`
	BeforeDB [][]float64 `json:"before_db"` // level by seat, dB re 20 uPa at full scale
	AfterDB  [][]float64 `json:"after_db"`
}

// Join chooses delay, polarity and level of sub against doors, and if asked
// corner and slope of both, so that their sum comes nearest the target over an
// octave each side of the crossover at the chosen seats, and stays there in
// the cars that this one may be. Progress may be nil. The error says what is
// wrong with the job, or that the context ended.
func Join(ctx context.Context, s *system.Solver, j job.Job, o JoinOptions, progress func(done, of int)) (Joined, error) {
	if err := joinable(j); err != nil {
		return Joined{}, err
	}
	if o.Samples <= 0 {
		o.Samples = 8
	}
	if !(o.MaxDelayMS > 0 && o.MaxDelayMS <= 100) {
		o.MaxDelayMS = 12
	}
	cross := o.CrossoverHz
	if cross == 0 {
		cross = crossover(j)
	}
	if !(cross >= 20 && cross <= 500) {
		return Joined{}, errors.New("the crossover lies outside 20 to 500 Hz; give the frequency at which sub and doors should meet")
	}
	g := system.Grid{FromHz: cross / 2, ToHz: cross * 2, Points: 2*pointsPerOctave + 1}
	p, err := newPaths(ctx, s, j, o.Seats, g, o.Samples, progress)
	if err != nil {
		return Joined{}, err
	}
	q, err := newSearch(j, p, o, cross)
	if err != nil {
		return Joined{}, err
	}
	best, err := q.run(ctx)
	if err != nil {
		return Joined{}, err
	}
	return q.report(best)
}

// crossover reads from the filters where sub and doors meet.
func crossover(j job.Job) float64 {
	low := corner(j.Subs[0].Channel.Filters, "lowpass")
	high := corner(j.Doors.Channel.Filters, "highpass")
	switch {
	case low > 0 && high > 0:
		return math.Sqrt(low * high)
	case low+high > 0:
		return low + high
	}
	return 80
}

// corner returns the frequency of the first filter of a kind that is on.
func corner(filters []job.Filter, kind string) float64 {
	for _, f := range filters {
		if f.Kind == kind && !f.Off {
			return f.FreqHz
		}
	}
	return 0
}

// setting is one way to join: what changes against the job as it is.
type setting struct {
	pass    int     // which crossover, see search.passes
	flip    bool    // the subs' polarity turned over
	delayMS float64 // of the doors against the earliest sub, in all
	levelDB float64 // of the subs, more or less
}

// pass is a pair of crossover filters; none keeps those of the job.
type pass struct {
	keep   bool
	shape  string
	order  int
	corner float64
}

// withPass returns a channel with its crossover of a kind replaced.
func withPass(c job.Channel, kind string, p pass) job.Channel {
	if p.keep {
		return c
	}
	f := job.Filter{Kind: kind, Shape: p.shape, Order: p.order, FreqHz: p.corner}
	out := make([]job.Filter, 0, len(c.Filters)+1)
	done := false
	for _, old := range c.Filters {
		if old.Kind != kind {
			out = append(out, old)
			continue
		}
		if !old.Off && !done {
			out, done = append(out, f), true
		}
	}
	if !done {
		out = append(out, f)
	}
	c.Filters = out
	return c
}

// channels returns the job's channels set so.
func (q *search) channels(s setting) (subs []job.Channel, doors job.Channel) {
	p := q.passes[s.pass]
	highest, raised := 0.0, math.Inf(-1)
	for _, sub := range q.job.Subs {
		c := withPass(sub.Channel, "lowpass", p)
		c.Inverted = c.Inverted != s.flip
		c.DelayMS += math.Max(0, -s.delayMS) - q.subMS
		highest = math.Max(highest, c.GainDB)
		c.GainDB += s.levelDB
		raised = math.Max(raised, c.GainDB)
		subs = append(subs, c)
	}
	doors = withPass(q.job.Doors.Channel, "highpass", p)
	doors.DelayMS = math.Max(0, s.delayMS)
	// Not above full scale: take it off the doors instead.
	if over := raised - highest; over > 0 {
		for i := range subs {
			subs[i].GainDB -= over
		}
		doors.GainDB -= over
	}
	for i := range subs {
		subs[i].DelayMS = tidy(subs[i].DelayMS)
	}
	doors.DelayMS = tidy(doors.DelayMS)
	return subs, doors
}

// tidy takes the dust of binary fractions off a setting.
func tidy(v float64) float64 { return math.Round(v*1e6) / 1e6 }
