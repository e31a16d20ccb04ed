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

// EqualiseOptions say what to even out.
type EqualiseOptions struct {
	Seats  []string `json:"seats,omitempty"` // ids; none is the seat of the aim
	Target Target   `json:"target"`
	Bands  int      `json:"bands,omitempty"`   // at most; zero is three
	FromHz float64  `json:"from_hz,omitempty"` // zero is 20 Hz
	ToHz   float64  `json:"to_hz,omitempty"`   // zero is 160 Hz
	// Samples is how many cars that this one may be are tried; zero is four.
	Samples int `json:"samples,omitempty"`
}

// Equalised is a proposal of equaliser bands, the same ones on every channel,
// so that how sub and doors join stays as it is.
type Equalised struct {
	Filters  []job.Filter `json:"filters"` // to be added to each channel
	Reasons  []string     `json:"reasons"` // one for each filter
	Say      string       `json:"say"`
	BeforeDB float64      `json:"before_db"` // rms off the target over the seats
	AfterDB  float64      `json:"after_db"`

	Hz     []float64   `json:"hz"`
	Seats  []string    `json:"seats"`
	Before [][]float64 `json:"before"` // level by seat, dB re 20 uPa at full scale
	After  [][]float64 `json:"after"`
}

// Bands cut and never boost: a null swallows what is put into it, and the
// amplifier and the cone pay for it. Nor are they narrower than a peak that
// stays in place while heads and people move. Common practice, no source.
const (
	mostCutDB = 9.0
	mostBands = 10
	// leastGainDB is how much, rms, a band must bring to be worth proposing.
	leastGainDB = 0.15
)

// bandQs are broad enough for that, and narrow enough to take a peak and not
// the balance of the whole, which is set by the sub's level.
var bandQs = []float64{1.4, 2, 2.8, 4, 5.6}

// apartOctave is how far bands stand apart, so that no two dig one hole.
const apartOctave = 1.0 / 3

// shallow is where a dip stops to count for an equaliser that cannot fill it.
const shallow = -6

// Equalise proposes bands that bring the sum at the chosen seats nearer the
// target, as the job stands, in this car and in those that it may be. Progress
// may be nil. The error says what is wrong with the job, or that the context
// ended.
func Equalise(ctx context.Context, s *system.Solver, j job.Job, o EqualiseOptions, progress func(done, of int)) (Equalised, error) {
	if o.Bands <= 0 {
		o.Bands = 3
	}
	o.Bands = min(o.Bands, mostBands)
	if o.Samples <= 0 {
		o.Samples = 4
	}
	if !(o.FromHz > 0) {
		o.FromHz = 20
	}
	if !(o.ToHz > 0) {
		o.ToHz = 160
	}
	if o.FromHz < 5 || o.ToHz > 500 || o.ToHz < 2*o.FromHz {
		return Equalised{}, errors.New("the range of the equaliser should span an octave or more between 5 and 500 Hz")
	}
	if len(j.Subs) == 0 && !j.Doors.Fitted {
		return Equalised{}, errors.New("the job has no speakers to equalise")
	}
	g := system.Grid{FromHz: o.FromHz, ToHz: o.ToHz}
	g.Points = int(pointsPerOctave*math.Log2(o.ToHz/o.FromHz)) + 1
	p, err := newPaths(ctx, s, j, o.Seats, g, o.Samples, progress)
	if err != nil {
		return Equalised{}, err
	}
	e, err := newEqualiser(j, p, o)
	if err != nil {
		return Equalised{}, err
	}
	for len(e.bands) < o.Bands {
		if err := ctx.Err(); err != nil {
			return Equalised{}, err
		}
		if !e.addBand() {
			break
		}
	}
	return e.report(), nil
}

// band is one cut, on a lattice of frequency, Q and gain.
type band struct {
	at, q int     // numbers of the grid frequency and of the Q
	cutDB float64 // positive
}

type equaliser struct {
	paths *paths
	bands []band
	// stray is [sample * seat][k]: level less target, smoothed, dB.
	stray [][]float64
	raw   [][]float64 // levels of the car as stated, by seat
}

func newEqualiser(j job.Job, p *paths, o EqualiseOptions) (*equaliser, error) {
	e := &equaliser{paths: p}
	var chains [][]complex128
	for _, s := range j.Subs {
		h, err := response(s.Channel, p.omega, 0)
		if err != nil {
			return nil, err
		}
		chains = append(chains, h)
	}
	if j.Doors.Fitted {
		h, err := response(j.Doors.Channel, p.omega, 0)
		if err != nil {
			return nil, err
		}
		chains = append(chains, h)
	}
	for n := range p.per {
		for seat := range p.seats {
			sum := p.sum(n, seat, 0, chains)
			db := make([]float64, len(sum))
			for k, v := range sum {
				db[k] = levelDB(v)
			}
			if n == 0 {
				e.raw = append(e.raw, db)
			}
			// Hearing takes bass in bands of about a sixth of an octave and
			// wider; common practice, no source.
			stray := append([]float64(nil), smoothPower(p.hz, db, 1.0/6)...)
			for k, f := range p.hz {
				stray[k] -= o.Target.at(f)
			}
			e.stray = append(e.stray, stray)
		}
	}
	return e, nil
}

// gain returns what a band does over the grid, dB.
func (e *equaliser) gain(b band) []float64 {
	c := filter.New([]filter.Section{{Kind: filter.Peak, FreqHz: e.paths.hz[b.at], Q: bandQs[b.q], GainDB: -b.cutDB}}, 0, false, 0)
	out := make([]float64, len(e.paths.omega))
	for k, w := range e.paths.omega {
		h := c.At(w)
		out[k] = 10 * math.Log10(real(h)*real(h)+imag(h)*imag(h))
	}
	return out
}

// cost returns the rms stray with a gain over the grid added, over all seats
// and samples, each about its own mean; dips count no deeper than shallow.
func (e *equaliser) cost(gain []float64) float64 {
	var sum float64
	for _, s := range e.stray {
		sum += spread(s, gain)
	}
	return math.Sqrt(sum / float64(len(e.stray)))
}

// spread is the mean square of stray plus gain about their mean.
func spread(stray, gain []float64) float64 {
	var mean float64
	for k := range stray {
		mean += (stray[k] + gain[k]) / float64(len(stray))
	}
	var square float64
	for k := range stray {
		d := math.Max(stray[k]+gain[k]-mean, shallow)
		square += d * d
	}
	return square / float64(len(stray))
}

// addBand adds the band that helps most, then lets all of them settle. It
// reports false, and adds none, when none helps enough.
func (e *equaliser) addBand() bool {
	gain := e.total(-1)
	before := e.cost(gain)
	best, bestCost := band{}, before
	trial := make([]float64, len(gain))
	for at := range e.paths.hz {
		if !e.clear(at, -1) {
			continue
		}
		for q := range bandQs {
			for cut := 2.0; cut <= mostCutDB; cut += 2 {
				b := band{at, q, cut}
				for k, v := range e.gain(b) {
					trial[k] = gain[k] + v
				}
				if c := e.cost(trial); c < bestCost {
					best, bestCost = b, c
				}
			}
		}
	}
	if best.cutDB == 0 {
		return false
	}
	old := append([]band(nil), e.bands...)
	e.bands = append(e.bands, best)
	if e.settle() > before-leastGainDB {
		e.bands = old
		return false
	}
	return true
}

// clear reports whether a grid frequency stands well apart from all bands but
// one.
func (e *equaliser) clear(at, but int) bool {
	for i, b := range e.bands {
		if i != but && math.Abs(math.Log2(e.paths.hz[at]/e.paths.hz[b.at])) < apartOctave {
			return false
		}
	}
	return true
}

// total is the gain of all bands but one, dB.
func (e *equaliser) total(but int) []float64 {
	out := make([]float64, len(e.paths.hz))
	for i, b := range e.bands {
		if i == but {
			continue
		}
		for k, v := range e.gain(b) {
			out[k] += v
		}
	}
	return out
}

// settle walks each band to its best neighbour on the lattice, in turn, until
// none moves, and returns the cost.
func (e *equaliser) settle() float64 {
	trial := make([]float64, len(e.paths.hz))
	best := e.cost(e.total(-1))
	for round, moved := 0, true; moved && round < 40; round++ {
		moved = false
		for i := range e.bands {
			rest := e.total(i)
			from := e.bands[i]
			for _, d := range [6]band{{at: 1}, {at: -1}, {q: 1}, {q: -1}, {cutDB: 0.5}, {cutDB: -0.5}} {
				b := band{from.at + d.at, from.q + d.q, from.cutDB + d.cutDB}
				if b.at < 0 || b.at >= len(trial) || b.q < 0 || b.q >= len(bandQs) || b.cutDB <= 0 || b.cutDB > mostCutDB || !e.clear(b.at, i) {
					continue
				}
				for k, v := range e.gain(b) {
					trial[k] = rest[k] + v
				}
				if c := e.cost(trial); c < best-1e-9 {
					best, moved = c, true
					e.bands[i] = b
				}
			}
		}
	}
	return best
}

// report writes the bands and why.
func (e *equaliser) report() Equalised {
	none := make([]float64, len(e.paths.hz))
	gain := e.total(-1)
	out := Equalised{
		Hz: e.paths.hz, Seats: e.paths.ids, Before: e.raw,
		BeforeDB: e.cost(none), AfterDB: e.cost(gain),
	}
	for _, db := range e.raw {
		after := make([]float64, len(db))
		for k := range db {
			after[k] = db[k] + gain[k]
		}
		out.After = append(out.After, after)
	}
	for _, b := range e.bands {
		f := tidy(math.Round(e.paths.hz[b.at]*10) / 10)
		out.Filters = append(out.Filters, job.Filter{Kind: "peak", FreqHz: f, GainDB: -b.cutDB, Q: bandQs[b.q]})
		out.Reasons = append(out.Reasons, e.reason(b, f))
	}
	if len(e.bands) == 0 {
		out.Say = fmt.Sprintf("No band that only cuts brings the level clearly nearer the target; it wanders %.1f dB about it. What is left are dips, which an equaliser cannot fill.", out.BeforeDB)
	} else {
		out.Say = fmt.Sprintf("%s on every channel alike: the level wanders %.1f dB about the target instead of %.1f dB. Dips are left alone: more level there costs the cone and the amplifier much and brings little.",
			count(len(e.bands), "cut", "cuts"), out.AfterDB, out.BeforeDB)
	}
	return out
}

// reason tells why a band is there: how far the level stands above the target
// there, and where most.
func (e *equaliser) reason(b band, hz float64) string {
	most, where := math.Inf(-1), ""
	for seat, id := range e.paths.ids {
		var mean float64
		for _, v := range e.stray[seat] {
			mean += v / float64(len(e.stray[seat]))
		}
		if v := e.stray[seat][b.at] - mean; v > most {
			most, where = v, id
		}
	}
	return fmt.Sprintf("Cut %s at %s with Q %s: the level there stands %.1f dB above the target's mean %s.",
		job.Number(b.cutDB, "dB"), job.Number(hz, "Hz"), job.Number(bandQs[b.q], ""), math.Max(0, most), seatWords(where))
}
