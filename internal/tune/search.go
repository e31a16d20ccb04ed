package tune

import (
	"context"
	"math"
	"sort"

	"bootfloor/internal/job"
)

// The lattice of settings: what processors offer, and no finer than matters.
const (
	delayStepMS = 0.05
	levelStepDB = 0.1
	mostLevelDB = 10.0
)

// What a first look takes in, before the best places are looked at closely.
const (
	coarseDelayMS = 0.25
	coarseLevelDB = 2.0
	closeLooks    = 12
)

// A delay costs this much per millisecond, so that of two equal ways the one
// with less of it wins.
const costPerMS = 0.002 // dB

// search holds what every trial needs.
type search struct {
	job    job.Job
	paths  *paths
	o      JoinOptions
	cross  float64
	passes []pass
	now    setting
	subMS  float64 // delay of the earliest sub as the job has it
	target []float64

	sub, door [][][][]complex128 // [pass][sample][seat][k]
	db        []float64          // work space
}

func newSearch(j job.Job, p *paths, o JoinOptions, cross float64) (*search, error) {
	q := &search{job: j, paths: p, o: o, cross: cross, passes: []pass{{keep: true}}, subMS: math.Inf(1)}
	for _, s := range j.Subs {
		q.subMS = math.Min(q.subMS, s.Channel.DelayMS)
	}
	q.now.delayMS = j.Doors.Channel.DelayMS - q.subMS
	for _, f := range p.hz {
		q.target = append(q.target, o.Target.at(f))
	}
	q.db = make([]float64, len(p.hz))
	if o.ChangeFilters {
		for _, slope := range []pass{
			{shape: "linkwitz_riley", order: 4}, {shape: "linkwitz_riley", order: 2},
			{shape: "butterworth", order: 3}, {shape: "linkwitz_riley", order: 8},
		} {
			for n := -2; n <= 2; n++ {
				slope.corner = math.Round(cross * math.Exp2(float64(n)/4))
				q.passes = append(q.passes, slope)
			}
		}
	}
	for _, c := range q.passes {
		if err := q.addPass(c); err != nil {
			return nil, err
		}
	}
	return q, nil
}

// addPass computes what subs and doors do through one pair of filters.
func (q *search) addPass(c pass) error {
	p := q.paths
	var subs [][]complex128
	for _, s := range q.job.Subs {
		h, err := response(withPass(s.Channel, "lowpass", c), p.omega, q.subMS)
		if err != nil {
			return err
		}
		subs = append(subs, h)
	}
	h, err := response(withPass(q.job.Doors.Channel, "highpass", c), p.omega, q.job.Doors.Channel.DelayMS)
	if err != nil {
		return err
	}
	sub, door := make([][][]complex128, len(p.per)), make([][][]complex128, len(p.per))
	for n := range p.per {
		for seat := range p.seats {
			sub[n] = append(sub[n], p.sum(n, seat, 0, subs))
			door[n] = append(door[n], p.sum(n, seat, len(subs), [][]complex128{h}))
		}
	}
	q.sub, q.door = append(q.sub, sub), append(q.door, door)
	return nil
}

// levels writes the level of the sum at a sample and seat into q.db.
func (q *search) levels(s setting, sample, seat int) []float64 {
	a, b := q.sub[s.pass][sample][seat], q.door[s.pass][sample][seat]
	gain := math.Pow(10, s.levelDB/20)
	if s.flip {
		gain = -gain
	}
	late := s.delayMS*1e-3 - q.paths.early[sample]
	for k, w := range q.paths.omega {
		sin, cos := math.Sincos(w * late)
		q.db[k] = levelDB(a[k]*complex(gain, 0) + b[k]*complex(cos, -sin))
	}
	return q.db
}

// meanSquare is the ripple of one sample, mean over the seats, dB squared.
func (q *search) meanSquare(s setting, sample int) float64 {
	var sum float64
	for seat := range q.paths.seats {
		sum += ripple(q.levels(s, sample, seat), q.target)
	}
	return sum / float64(len(q.paths.seats))
}

// cost is what a setting is judged by: the rms ripple over all samples, dB, and
// a little for delay.
func (q *search) cost(s setting) float64 {
	var sum float64
	for n := range q.paths.per {
		sum += q.meanSquare(s, n)
	}
	return math.Sqrt(sum/float64(len(q.paths.per))) + costPerMS*math.Abs(s.delayMS)
}

// trial is a setting with its cost.
type trial struct {
	setting
	cost float64
}

// run looks at all settings of a coarse lattice in the car as stated, and
// closely, in all samples, about the best of them.
func (q *search) run(ctx context.Context) (setting, error) {
	var seen []trial
	for n := range q.passes {
		for _, flip := range []bool{false, true} {
			if err := ctx.Err(); err != nil {
				return setting{}, err
			}
			seen = append(seen, q.coarse(n, flip)...)
		}
	}
	sort.SliceStable(seen, func(i, j int) bool { return seen[i].cost < seen[j].cost })
	best := trial{q.now, q.cost(q.now)}
	for _, t := range seen[:min(closeLooks, len(seen))] {
		if err := ctx.Err(); err != nil {
			return setting{}, err
		}
		if t = q.closely(t.setting); t.cost < best.cost {
			best = t
		}
	}
	return best.setting, nil
}

// coarse returns, for one pair of filters and polarity, the delays at which
// the ripple is least among its neighbours, each at its best level.
func (q *search) coarse(n int, flip bool) []trial {
	var row []trial
	for d := -q.o.MaxDelayMS; d <= q.o.MaxDelayMS+1e-9; d += coarseDelayMS {
		best := trial{cost: math.Inf(1)}
		for l := -mostLevelDB; l <= mostLevelDB; l += coarseLevelDB {
			s := setting{n, flip, tidy(d), l}
			if c := math.Sqrt(q.meanSquare(s, 0)) + costPerMS*math.Abs(d); c < best.cost {
				best = trial{s, c}
			}
		}
		row = append(row, best)
	}
	var out []trial
	for i, t := range row {
		if (i == 0 || t.cost <= row[i-1].cost) && (i == len(row)-1 || t.cost < row[i+1].cost) {
			out = append(out, t)
		}
	}
	return out
}

// closely walks along the lattice of delays to where a setting, at its best
// level, costs least, with smaller steps when no neighbour is better. Level
// inside delay, because a little of one makes good a little of the other, and
// a walk along both axes in turn sticks in such a valley.
func (q *search) closely(s setting) trial {
	best := q.bestLevel(s)
	for step := 4; step >= 1; {
		moved := false
		for _, way := range []float64{1, -1} {
			t := best.setting
			t.delayMS = tidy(t.delayMS + way*float64(step)*delayStepMS)
			if math.Abs(t.delayMS) > q.o.MaxDelayMS {
				continue
			}
			if c := q.bestLevel(t); c.cost < best.cost {
				best, moved = c, true
				break
			}
		}
		if !moved {
			step /= 2
		}
	}
	return best
}

// bestLevel walks along the lattice of levels in the same way.
func (q *search) bestLevel(s setting) trial {
	best := trial{s, q.cost(s)}
	for step := 8; step >= 1; {
		moved := false
		for _, way := range []float64{1, -1} {
			t := best.setting
			t.levelDB = tidy(t.levelDB + way*float64(step)*levelStepDB)
			if math.Abs(t.levelDB) > mostLevelDB {
				continue
			}
			if c := q.cost(t); c < best.cost {
				best, moved = trial{t, c}, true
				break
			}
		}
		if !moved {
			step /= 2
		}
	}
	return best
}
