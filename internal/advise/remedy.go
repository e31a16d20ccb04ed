package advise

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"bootfloor/internal/job"
	"bootfloor/internal/judge"
	"bootfloor/internal/system"
)

// Change is one value of a job to put in place of another.
type Change struct {
	At    string `json:"at"` // JSON pointer
	Value any    `json:"value"`
}

// Remedy is one change that frees a limit, worked out and tried.
type Remedy struct {
	Key    string  `json:"key"`
	Say    string  `json:"say"`
	Amount float64 `json:"amount"` // of change, in Unit
	Unit   string  `json:"unit"`
	// LevelDB and ReachHz are how the least level of the band and the reach
	// change.
	LevelDB float64 `json:"level_db"`
	ReachHz float64 `json:"reach_hz"`
	// Cost ranks remedies: what changes in proportion, and what is lost.
	Cost float64  `json:"cost"`
	Set  []Change `json:"set"`

	gainDB    float64 // most that the level gains where the limit binds, dB
	gainReach float64 // share of the reach that it goes lower
}

// Binding is a limit that stops the level somewhere in the band that matters,
// and what would free it, the smallest change first.
type Binding struct {
	Key    string  `json:"key"` // travel | volts | amps | heat | port | passive | asked
	Code   int     `json:"code"`
	Limit  string  `json:"limit"`
	FromHz float64 `json:"from_hz"`
	ToHz   float64 `json:"to_hz"`
	// LostDB is the most that it takes from what the amplifier could play.
	LostDB   float64  `json:"lost_db"`
	Say      string   `json:"say"`
	Remedies []Remedy `json:"remedies"`

	wanted float64 // level that frees the key asked, dB
}

// bindingKeys name the limits.
var bindingKeys = map[system.Limit]string{
	system.ConeTravel: "travel", system.AmplifierVolts: "volts", system.AmplifierAmps: "amps",
	system.ThermalPower: "heat", system.PortAirSpeed: "port", system.PassiveTravel: "passive",
}

// remedyGrid is fine enough to see a limit a twelfth of an octave wide.
var remedyGrid = system.Grid{FromHz: 12, ToHz: 160, Points: 60}

// Remedies finds, for each limit that binds between the lowest note asked for
// and the crossover, and for the level asked for where it is missed, the
// smallest single changes that free it: each by bisection on the whole model,
// rounded to what can be built or bought, and tried once more after that. It
// is nil where the job cannot be worked out.
func Remedies(solver *system.Solver, j job.Job) ([]Binding, []job.Finding) {
	g, found := solver.Glance(j, remedyGrid)
	if g == nil || len(j.Subs) == 0 {
		return nil, found
	}
	m := &mender{solver: solver, job: j, upper: judge.Upper(j), seat: seatOf(j)}
	m.asked = math.Min(math.Max(j.Aim.Lowest, remedyGrid.FromHz), 0.8*m.upper)
	m.from = m.asked
	m.base = m.read(g)
	// Below the lowest note a limit still matters where the box still plays:
	// that is where a cone is torn by what nobody asked for.
	m.from = math.Min(m.asked, math.Max(0.7*m.base.reach, lowestMended))
	m.base = m.read(g)
	out := []Binding{}
	for _, b := range m.bindings(g) {
		m.mend(&b)
		out = append(out, b)
	}
	return out, found
}

func seatOf(j job.Job) int {
	for i, s := range j.Car.Seats {
		if s.ID == j.Aim.SeatID {
			return i
		}
	}
	return 0
}

// toSpare (dB) keeps a remedy from just missing on another grid.
const toSpare = 0.3

// lowestMended is where music and films end, Hz. Common practice, no source.
const lowestMended = 15

// mender holds the job that is to be mended.
type mender struct {
	solver      *system.Solver
	job         job.Job
	seat        int
	from, upper float64 // the band in which limits matter, Hz
	asked       float64 // where the band of the level asked for begins, Hz
	base        state
}

// state is what a job does in the band.
type state struct {
	ok     bool
	binds  map[system.Limit]bool
	least  float64 // level, dB
	reach  float64
	meets  bool // the level asked for, all over the band
	portMM float64
	hz     []float64
	top    []float64 // level with every limit counted, smoothed, dB
}

func (m *mender) read(g *system.Glance) state {
	s := state{ok: true, binds: map[system.Limit]bool{}, least: math.Inf(1), meets: true}
	top := judge.Smooth(g.Hz, g.Top[m.seat])
	s.hz, s.top = g.Hz, top
	for k, f := range g.Hz {
		if f < m.from || f > m.upper {
			continue
		}
		s.binds[system.Limit(g.Code[k])] = true
		if f >= m.asked {
			s.least = math.Min(s.least, top[k])
		}
	}
	s.meets = s.least >= m.job.Aim.LevelDB
	s.reach = judge.Of(g.Hz, g.Top[m.seat], g.Code, m.upper, m.job.Aim.LevelDB).ReachHz
	for _, l := range g.PortLengthMM {
		s.portMM = math.Max(s.portMM, l)
	}
	return s
}

// try works out the job with a changed sub.
func (m *mender) try(i int, s job.Sub) state {
	j := m.job
	j.Subs = slices.Clone(m.job.Subs)
	j.Subs[i] = s
	g, _ := m.solver.Glance(j, remedyGrid)
	if g == nil {
		return state{}
	}
	return m.read(g)
}

// bindings lists what binds, what takes most first.
func (m *mender) bindings(g *system.Glance) []Binding {
	by := map[system.Limit]*Binding{}
	var out []*Binding
	for k, f := range g.Hz {
		l := system.Limit(g.Code[k])
		if f < m.from || f > m.upper || l == system.AmplifierVolts || l == system.NoLimit {
			continue
		}
		b := by[l]
		if b == nil {
			b = &Binding{Key: bindingKeys[l], Code: int(l), Limit: l.String(), FromHz: f}
			by[l], out = b, append(out, b)
		}
		b.ToHz = f
		b.LostDB = math.Max(b.LostDB, g.Level[m.seat][k]-g.Top[m.seat][k])
	}
	slices.SortStableFunc(out, func(a, b *Binding) int { return cmp.Compare(b.LostDB, a.LostDB) })
	var list []Binding
	if !m.base.meets {
		b := Binding{Key: "asked", Limit: "the level asked for", FromHz: m.asked, ToHz: m.upper, LostDB: m.job.Aim.LevelDB - m.base.least, wanted: m.job.Aim.LevelDB + toSpare}
		b.Say = fmt.Sprintf("You asked for %.0f dB down to %s; at its weakest it plays %.0f dB there.", m.job.Aim.LevelDB, hertz(m.asked), m.base.least)
		list = append(list, b)
	}
	for _, b := range out {
		where := "Between " + hertz(b.FromHz) + " and " + hertz(b.ToHz)
		if b.FromHz < 1.1*m.from {
			where = "Below " + hertz(b.ToHz)
		}
		b.Say = fmt.Sprintf("%s %s before the amplifier does, and takes up to %.0f dB.", where, stopWords[system.Limit(b.Code)], math.Max(1, b.LostDB))
		list = append(list, *b)
	}
	return list
}

// frees tells whether a state is free of a binding.
func (b *Binding) frees(s state) bool {
	if !s.ok {
		return false
	}
	if b.Key == "asked" {
		return s.least >= b.wanted
	}
	return !s.binds[system.Limit(b.Code)]
}

// mend finds the remedies for a binding in every sub that it may lie with.
func (m *mender) mend(b *Binding) {
	b.Remedies = []Remedy{}
	for i, s := range m.job.Subs {
		for _, k := range knobs(b.Key, s) {
			if r, ok := m.turn(b, i, k); ok {
				b.Remedies = append(b.Remedies, r)
			}
		}
	}
	slices.SortStableFunc(b.Remedies, func(a, c Remedy) int { return cmp.Compare(a.Cost, c.Cost) })
	b.worthwhile()
}

// turn finds the smallest turn of a knob that frees a binding.
func (m *mender) turn(b *Binding, i int, k knob) (Remedy, bool) {
	s := m.job.Subs[i]
	works := func(v float64) bool {
		done := m.try(i, k.set(s, v))
		return b.frees(done) && done.portMM <= math.Max(longestPortMM, m.base.portMM)
	}
	// From the present value outward in steps of ratio, for the first that
	// works: further out another limit or the tuning may undo it.
	const steps = 10
	ratio := math.Pow(k.to/k.from, 1.0/steps)
	if k.whole {
		return m.whole(b, i, k, works)
	}
	lo, hi := k.from, 0.0
	for n := 1; n <= steps; n++ {
		if v := k.from * math.Pow(ratio, float64(n)); works(v) {
			hi = v
			break
		} else {
			lo = v
		}
	}
	if hi == 0 {
		return Remedy{}, false
	}
	for range 7 {
		if mid := math.Sqrt(lo * hi); works(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	// Rounded away from where it was, and tried again.
	step := k.step
	if k.to < k.from {
		step = -step
	}
	v := math.Round(hi/k.step) * k.step
	for range 4 {
		if (v-hi)*step >= 0 && works(v) {
			return m.remedy(b, i, k, v), true
		}
		v += step
	}
	return Remedy{}, false
}

// longestPortMM is as long a port as is ever built into a box. Assumed.
const longestPortMM = 700

// whole turns a knob that counts.
func (m *mender) whole(b *Binding, i int, k knob, works func(float64) bool) (Remedy, bool) {
	for v := k.from + 1; v <= k.to; v++ {
		if works(v) {
			return m.remedy(b, i, k, v), true
		}
	}
	return Remedy{}, false
}

// remedy writes down a turn that works.
func (m *mender) remedy(b *Binding, i int, k knob, v float64) Remedy {
	s := m.job.Subs[i]
	changed := k.set(s, v)
	after := m.try(i, changed)
	r := Remedy{
		Key: k.key, Amount: math.Abs(v - k.was), Unit: k.unit, Set: k.changes(i, changed, v),
		LevelDB: after.least - m.base.least, ReachHz: after.reach - m.base.reach,
	}
	r.Say = k.say(v, after)
	if hz := math.Max(after.reach, lowestHeard) - math.Max(m.base.reach, lowestHeard); hz >= 1 {
		r.Say += fmt.Sprintf(" Reach ends %.0f Hz higher.", hz)
	}
	r.gainDB = m.gain(b, after)
	r.gainReach = 1 - math.Max(after.reach, lowestHeard)/math.Max(m.base.reach, lowestHeard)
	// A change of a tenth, a decibel lost and a twelfth of an octave of reach
	// lost weigh about the same.
	late := math.Log2(math.Max(after.reach, lowestHeard) / math.Max(m.base.reach, lowestHeard))
	r.Cost = 0.1*math.Max(0, -r.LevelDB) + 1.2*math.Max(0, late)
	if k.key == "high_pass" {
		r.Cost += 0.1
	} else {
		r.Cost += k.weight * math.Abs(math.Log(v/k.from))
	}
	return r
}
