package advise

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"bootfloor/internal/design"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// Scores rate a choice, 0 to 1, larger is better. Short is what it lacks of
// what was asked, 0 where it lacks nothing. A page that weighs depth, level and
// size sorts by Total.
type Scores struct {
	Deeper  float64 `json:"deeper"`
	Louder  float64 `json:"louder"`
	Smaller float64 `json:"smaller"`
	Short   float64 `json:"short"`
	// Fuss is how much harder than a sealed box it is to build and to set up,
	// so that of two alike the plain one comes first.
	Fuss float64 `json:"fuss"`
}

// Total returns deeper wd + louder wl + smaller ws - short - fuss, with the
// weights brought to a sum of one.
func (s Scores) Total(wd, wl, ws float64) float64 {
	sum := wd + wl + ws
	if !(sum > 0) {
		wd, wl, ws, sum = 1, 1, 1, 3
	}
	return (wd*s.Deeper+wl*s.Louder+ws*s.Smaller)/sum - s.Short - s.Fuss
}

// fuss of the box types. Common practice, no source.
var fuss = map[string]float64{
	"vented": 0.01, "infinite_baffle": 0.02, "passive_radiator": 0.03, "aperiodic": 0.03, "bandpass4": 0.03,
	"line": 0.05, "bandpass6_series": 0.06, "bandpass6_parallel": 0.06,
}

// Choice is one sub in one box in this car.
type Choice struct {
	ID        string     `json:"id"`
	PickedFor []string   `json:"picked_for"` // balanced | smallest | deepest | loudest
	Title     string     `json:"title"`
	Driver    job.Driver `json:"driver"`
	Count     int        `json:"count"`
	Type      string     `json:"type"`
	TypeName  string     `json:"type_name"`
	Sub       job.Sub    `json:"sub"`
	// Job is the whole job, ready to open, of a finished choice. Until then it
	// is the reply's job with this title and this sub.
	Job       *job.Job        `json:"job,omitempty"`
	ReachHz   float64         `json:"reach_hz"`
	LevelDB   float64         `json:"level_db"` // least, from the lowest note asked for upward
	AskedHz   float64         `json:"asked_hz"` // lowest note at the level asked for, 0 for none
	Answer    *Answer         `json:"answer,omitempty"`
	Price     float64         `json:"price,omitempty"`
	PowerW    float64         `json:"power_w"`
	NetL      float64         `json:"net_l"`
	Outside   *design.Outside `json:"outside"`
	BootLeftL float64         `json:"boot_left_l"`
	Band      *Sureness       `json:"band,omitempty"`
	Gain      string          `json:"gain"`
	GiveUp    string          `json:"give_up"`
	Why       string          `json:"why"`
	Scores    Scores          `json:"scores"`
}

// Sureness is the 10th to the 90th percentile of two numbers.
type Sureness struct {
	ReachLowHz  float64 `json:"reach_low_hz"`
	ReachHighHz float64 `json:"reach_high_hz"`
	LevelLowDB  float64 `json:"level_low_db"`
	LevelHighDB float64 `json:"level_high_db"`
	Say         string  `json:"say"`
}

// FellOut says why something was not chosen.
type FellOut struct {
	Title string `json:"title"`
	Say   string `json:"say"`
}

// WhichAnswer is the reply to a WhichRequest.
type WhichAnswer struct {
	Partial bool         `json:"partial"`
	Asked   string       `json:"asked"`         // in words
	Say     string       `json:"say,omitempty"` // where there is no choice
	Lowest  float64      `json:"lowest_hz"`
	LevelDB float64      `json:"level_db"`
	Assumed []Assumption `json:"assumed"`
	SpaceL  float64      `json:"space_l"` // that may go
	BootL   float64      `json:"boot_l"`
	// Choices are the few that differ in what matters, best first; Others
	// would do as well.
	Choices []Choice  `json:"choices"`
	Others  []Choice  `json:"others"`
	Out     []FellOut `json:"out"`
	Tried   int       `json:"tried"`
	Of      int       `json:"of"`
	Seconds float64   `json:"seconds"`
	// Job is the car with what was asked, and no choice made.
	Job job.Job `json:"job"`
}

// candidate is a driver, a number of them and a box type.
type candidate struct {
	stated driver.Stated
	driver driver.Driver
	count  int
	typ    string
	apart  bool // its title alone does not tell it from another
	watts  float64
	job    job.Job
	design *design.Design
	out    string // why it fell out
	hope   float64
}

func (c *candidate) title() string {
	title := capital(sized(c.count, c.sizeIn())) + ", " + lower(design.Name(c.typ))
	if c.apart {
		title += " (" + c.stated.Name + ")"
	}
	return title
}

// sizeIn returns the nominal size, or the nearest to the cone's diameter over
// 0.8 (common practice) where none is stated.
func (c *candidate) sizeIn() float64 {
	if c.driver.SizeIn > 0 {
		return c.driver.SizeIn
	}
	return nearestSize(2 * math.Sqrt(c.driver.Sd/math.Pi) / 0.0254 / 0.8)
}

func (c *candidate) price() float64 { return c.driver.Price * float64(c.count) }

// Watched is how far Which has come, and sometimes the best answer yet.
type Watched struct {
	Tried, Of int
	Answer    *WhichAnswer
}

// Which answers which sub suits a car and a customer: for every driver and
// every box type, the best box in this car within the space, ranked. It calls
// watch, which may be nil, with ever better partial answers. The error is a
// sentence, or the context's.
func Which(ctx context.Context, solver *system.Solver, req WhichRequest, watch func(Watched)) (*WhichAnswer, error) {
	a, err := ready(req)
	if err != nil {
		return nil, err
	}
	w := &which{enquiry: a, ctx: ctx, solver: solver, start: time.Now(), watch: watch}
	w.list()
	for _, c := range w.all {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if c.out == "" {
			w.try(c)
		}
		w.tried++
		w.report()
	}
	if err := w.refine(); err != nil {
		return nil, err
	}
	out := w.answer(false)
	return &out, nil
}

type which struct {
	*enquiry
	ctx      context.Context
	solver   *system.Solver
	start    time.Time
	watch    func(Watched)
	all      []*candidate
	tried    int
	reported time.Time
	finished map[*candidate]*Choice
	picks    []*candidate
	badges   map[*candidate][]string
}

// mostAlike is how many like drivers share a box.
const mostAlike = 2

// list makes the candidates, the most likely first, so that the first choices
// come soon. What can be ruled out without working it out is.
func (w *which) list() {
	for _, s := range w.subs {
		d, _, err := driver.Derive(s, standardAir)
		if err != nil {
			w.all = append(w.all, &candidate{stated: s, count: 1, typ: "sealed", out: err.Error()})
			continue
		}
		if s.Name == "" {
			s.Name = "Driver without a name"
		}
		for count := 1; count <= mostAlike; count++ {
			for _, typ := range w.types {
				c := &candidate{stated: s, driver: d, count: count, typ: typ}
				c.hope = w.hope(c)
				c.watts = w.power(c)
				w.ruleOut(c)
				w.all = append(w.all, c)
			}
		}
	}
	slices.SortStableFunc(w.all, func(a, b *candidate) int {
		switch {
		case a.hope > b.hope:
			return -1
		case a.hope < b.hope:
			return 1
		}
		return 0
	})
}

// hope guesses how likely a candidate is a good choice, to try those first: one
// driver before two, usual boxes before rare ones, and the middle sizes first.
func (w *which) hope(c *candidate) float64 {
	usual := map[string]float64{"sealed": 4, "vented": 4, "passive_radiator": 2, "bandpass4": 1.5, "infinite_baffle": 1.5}
	return usual[c.typ] - 1.5*float64(c.count-1) - 2*math.Abs(math.Log2(c.sizeIn()/11))
}

// power is what its amplifier gives.
func (w *which) power(c *candidate) float64 {
	if w.req.PowerW > 0 {
		return w.req.PowerW
	}
	rated := c.driver.PowerW * float64(c.count)
	if rated <= 0 {
		rated = 300 * float64(c.count)
	}
	return math.Min(rated, whichPower)
}

// noBoot rules out a baffle.
const noBoot = "Needs a boot that is a room of its own."

// ruleOut says what needs no working out.
func (w *which) ruleOut(c *candidate) {
	switch price := c.price(); {
	case w.req.Budget > 0 && price > w.req.Budget:
		c.out = fmt.Sprintf("Costs %.0f, %.0f more than the budget.", price, price-w.req.Budget)
	case c.typ == "infinite_baffle" && !w.job.Car.Boot.Separate:
		c.out = noBoot
	}
}

// jobFor is the job with a candidate's drivers and amplifier in it.
func (w *which) jobFor(c *candidate) job.Job {
	j := w.job
	j.Subs = []job.Sub{w.job.Subs[0]}
	equip(&j.Subs[0], c.stated.ToJob(), c.driver, c.count, c.watts)
	j.Title = c.title()
	return j
}

func (w *which) task(c *candidate, goal design.Kind, rough bool) design.Task {
	return design.Task{Job: c.job, Type: c.typ, Goal: design.Goal{Kind: goal}, Room: &w.room, Rough: rough, Watch: func(int, int) { w.tick() }}
}

// try finds a candidate's best box roughly.
func (w *which) try(c *candidate) {
	c.job = w.jobFor(c)
	d, err := design.Find(w.ctx, w.solver, w.task(c, design.Balanced, true))
	if err != nil {
		c.out = err.Error()
		return
	}
	w.take(c, d)
}

// take accepts a design or says what is against it.
func (w *which) take(c *candidate, d *design.Design) {
	c.design = d
	c.job.Subs = []job.Sub{d.Sub(c.job.Subs[0])}
	c.out = ""
	if !d.Kept {
		c.out = d.Say
		return
	}
	if d.LoadOhm < leastOhm {
		c.out = fmt.Sprintf("Loads the amplifier with %.2f Ω, however it is wired; most are rated for no less than %.0f Ω.", d.LoadOhm, leastOhm)
		return
	}
	short := w.job.Aim.LevelDB - d.LevelDB
	if w.req.PowerW > 0 && short > 1 && d.BelowHz < w.job.Aim.Lowest {
		// Where nothing but the amplifier stops it, power is what it lacks.
		need := math.Ceil(c.watts*math.Pow(10, short/10)/50) * 50
		if rated := c.driver.PowerW * float64(c.count); rated <= 0 || need <= 1.5*rated {
			c.out = fmt.Sprintf("Needs %.0f W for the level you asked; the amplifier gives %.0f.", need, c.watts)
			return
		}
	}
	if short > hopeless {
		c.out = fmt.Sprintf("Plays %.0f dB at %s; you asked for %.0f.", d.LevelDB, hertz(w.job.Aim.Lowest), w.job.Aim.LevelDB)
	}
}

// leastOhm is the load that amplifiers for subs commonly stand. Common
// practice, no source.
const leastOhm = 1.0

// hopeless is how far (dB) a choice may miss the level asked for: half as loud
// to the ear (ISO 532 has a doubling of loudness at 10 dB in the midrange; less
// in the bass, where contours crowd).
const hopeless = 8

// firstAfter and reportEvery pace the partial answers.
const (
	firstAfter  = 250 * time.Millisecond
	reportEvery = 700 * time.Millisecond
)

// tick tells the watcher that work goes on, which is when it may cancel.
func (w *which) tick() {
	if w.watch != nil {
		w.watch(Watched{Tried: w.tried, Of: len(w.all)})
	}
}

// report sends what is known so far, at its pace.
func (w *which) report() {
	if w.watch == nil {
		return
	}
	due := time.Since(w.reported) >= reportEvery
	if w.reported.IsZero() {
		due = time.Since(w.start) >= firstAfter
	}
	if due {
		w.pick()
		if len(w.picks) > 0 {
			w.reported = time.Now()
			a := w.answer(true)
			w.watch(Watched{w.tried, len(w.all), &a})
			return
		}
	}
	w.tick()
}

// standing lists the candidates that have not fallen out.
func (w *which) standing() []*candidate {
	var out []*candidate
	for _, c := range w.all {
		if c.design != nil && c.out == "" {
			out = append(out, c)
		}
	}
	return out
}

// scores rates a design on fixed scales, so that partial answers do not jump:
// reach from 20 to 80 Hz, level from 95 to 130 dB, outside from 15 to 300
// litres, each by ratio. What is lacking costs a tenth per decibel and a
// fifth per third of an octave.
func (w *which) scores(c *candidate) Scores {
	d := c.design
	unit := func(v float64) float64 { return min(max(v, 0), 1) }
	lacks := math.Max(0, w.job.Aim.LevelDB-d.LevelDB) / 10
	if late := math.Log2(d.ReachHz / w.job.Aim.Lowest); late > 0 {
		lacks += 0.6 * late
	}
	return Scores{
		Deeper:  unit(1 - math.Log2(d.ReachHz/20)/math.Log2(80.0/20)),
		Louder:  unit((d.LevelDB - 95) / 35),
		Smaller: unit(1 - math.Log(outsideLitres(d)/15)/math.Log(300.0/15)),
		Short:   lacks,
		Fuss:    fuss[c.typ],
	}
}

// outsideLitres is what a design takes of the boot; a baffle takes no more
// than its driver.
func outsideLitres(d *design.Design) float64 {
	if d.Outside == nil || d.Outside.Litres < 5 {
		return 5
	}
	return d.Outside.Litres
}
