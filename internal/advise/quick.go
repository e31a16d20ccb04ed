package advise

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"bootfloor/internal/air"
	"bootfloor/internal/design"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// standardAir is the air that data sheets are taken to have been measured in.
var standardAir = air.MustStandard()

// QuickRequest is what a quick answer needs to know. Zero and "" are open and
// get a shown assumption.
type QuickRequest struct {
	Body   string  `json:"body"`
	SizeIn float64 `json:"size_in"`
	Count  int     `json:"count"`
	Type   string  `json:"type"` // "" is whichever suits
	NetL   float64 `json:"net_l"`
	PowerW float64 `json:"power_w"`
	// TuningHz is what a port, radiator or line is tuned to.
	TuningHz float64 `json:"tuning_hz"`
	// Nothing tells that somebody typed a line of which nothing was understood;
	// with nothing else said, there is no answer to it.
	Nothing bool `json:"nothing,omitempty"`
}

// silent tells that a request is an answer to nothing at all: it says nothing,
// although a line was typed.
func (r QuickRequest) silent() bool { return r == QuickRequest{Nothing: true} }

// Over returns r with the fields of first where those are not open.
func (r QuickRequest) Over(first QuickRequest) QuickRequest {
	pick := func(a, b string) string {
		if a != "" {
			return a
		}
		return b
	}
	if first.SizeIn > 0 {
		r.SizeIn = first.SizeIn
	}
	if first.Count > 0 {
		r.Count = first.Count
	}
	if first.NetL > 0 {
		r.NetL = first.NetL
	}
	if first.PowerW > 0 {
		r.PowerW = first.PowerW
	}
	if first.TuningHz > 0 {
		r.TuningHz = first.TuningHz
	}
	r.Body, r.Type = pick(first.Body, r.Body), pick(first.Type, r.Type)
	return r
}

// Assumption is something that nobody said, in words. At is where in the job
// it stands, where it stands in one place.
type Assumption struct {
	Key string `json:"key"`
	Say string `json:"say"`
	At  string `json:"at,omitempty"`
}

// QuickLine is one line of a quick answer.
type QuickLine struct {
	Key   string  `json:"key"` // reach | level | outside | port | load | fits
	Say   string  `json:"say"`
	Value float64 `json:"value,omitempty"`
	Unit  string  `json:"unit,omitempty"`
}

// QuickAnswer is the reply to a quick request. Its numbers are those that the
// full job, which is in it, gives.
type QuickAnswer struct {
	Request QuickRequest    `json:"request"` // with everything that was open filled in
	Assumed []Assumption    `json:"assumed"`
	Answer  Answer          `json:"answer"`
	Lines   []QuickLine     `json:"lines"`
	Outside *design.Outside `json:"outside,omitempty"`
	Fits    bool            `json:"fits"`
	// Nothing tells that there is no answer: its because says what to type.
	Nothing bool    `json:"nothing,omitempty"`
	Job     job.Job `json:"job"`
	// Findings are what the engine says about the job.
	Findings []job.Finding `json:"findings"`

	instead string // why the box asked for is not the one answered with
}

// nothingRead says what a line may hold.
const nothingRead = "Nothing on that line was understood. Say a size, a box, litres, watts or a car, as in: 12 vented tuned 35 Hz 50 l 600 w saloon."

// quickDefaults are assumed where nothing was said.
const (
	quickBody = "hatch"
	quickSize = 10
)

// Quick answers a quick request with an ordinary job. The error is a sentence
// about what cannot be.
func Quick(ctx context.Context, solver *system.Solver, req QuickRequest) (*QuickAnswer, error) {
	q := &QuickAnswer{Request: req, Assumed: []Assumption{}, Lines: []QuickLine{}}
	if req.silent() {
		q.Nothing, q.Job, q.Findings = true, job.New(quickBody), []job.Finding{}
		q.Answer = Answer{Because: nothingRead, Lines: []string{}}
		return q, nil
	}
	if err := q.fill(); err != nil {
		return nil, err
	}
	r := &q.Request
	stated, d, err := q.driver()
	if err != nil {
		return nil, err
	}
	if r.PowerW == 0 {
		r.PowerW = math.Max(d.PowerW, 50) * float64(r.Count)
		q.assume("power_w", "/subs/0/channel/amplifier/rated_w", "An amplifier that gives the %.0f W the drivers are rated for.", r.PowerW)
	}
	j := job.New(r.Body)
	equip(&j.Subs[0], stated, d, r.Count, r.PowerW)
	if err := q.design(ctx, solver, &j); err != nil {
		return nil, err
	}
	q.fit(solver, &j, d)
	j.Title = capital(sized(r.Count, r.SizeIn)) + ", " + lower(design.Name(j.Subs[0].Box.Type))
	j.Assumed = q.stillAssumed(j)
	q.Job = j
	q.Findings = append([]job.Finding{}, job.Check(j)...)
	if job.HasError(q.Findings) {
		return nil, errors.New(firstError(q.Findings))
	}
	response, found := solver.Respond(j, system.DefaultGrid)
	q.Findings = append(q.Findings, found...)
	if response == nil {
		return nil, errors.New(firstError(q.Findings))
	}
	q.Answer = Answers(j, response)
	q.say(response)
	return q, nil
}

func firstError(found []job.Finding) string {
	for _, f := range found {
		if f.Level == job.LevelError {
			return f.Say
		}
	}
	return "This cannot be worked out."
}

func (q *QuickAnswer) assume(key, at, format string, args ...any) {
	q.Assumed = append(q.Assumed, Assumption{key, fmt.Sprintf(format, args...), at})
}

// fill replaces what is open, and refuses what cannot be.
func (q *QuickAnswer) fill() error {
	r := &q.Request
	if r.Body == "" {
		r.Body = quickBody
		q.assume("body", "/car/body", "A family hatchback, since no car was named.")
	}
	b, ok := job.FindBody(r.Body)
	if !ok {
		return errors.New("There is no such body style; choose one of those offered.")
	}
	q.assume("car", "/car/cabin", "Inside dimensions of a usual %s, not of one car.", lower(b.Name))
	switch {
	case r.SizeIn == 0:
		r.SizeIn = quickSize
		q.assume("size_in", "/subs/0/driver/size_in", "A 10-inch driver, since no size was named.")
	case !(r.SizeIn >= 4 && r.SizeIn <= 24):
		return fmt.Errorf("A sub of %g inches is not one that is made; give 6 to 18.", r.SizeIn)
	}
	switch {
	case r.Count == 0:
		r.Count = 1
	case r.Count < 0 || r.Count > mostDrivers:
		return fmt.Errorf("A quick answer takes 1 to %d drivers, not %d.", mostDrivers, r.Count)
	}
	if r.Type != "" && !slices.Contains(design.Types(), r.Type) {
		return errors.New("There is no such box type; choose one of those offered, or leave it open.")
	}
	if r.NetL != 0 && !(r.NetL >= 1 && r.NetL <= 1000) {
		return fmt.Errorf("A box of %g litres is outside what can be answered; give 1 to 1000.", r.NetL)
	}
	if r.Type == "infinite_baffle" && !job.New(r.Body).Car.Boot.Separate {
		r.Type = ""
		q.instead = fmt.Sprintf("No infinite baffle: in %s the boot is part of the cabin, and the back of the cone would cancel its front.", article(b.Name))
	}
	if r.TuningHz != 0 && !(r.TuningHz >= lowestTuned && r.TuningHz <= highestTuned) {
		return fmt.Errorf("A box tuned to %g Hz is outside what can be answered; give %d to %d Hz.", r.TuningHz, lowestTuned, highestTuned)
	}
	if r.TuningHz > 0 && r.Type == "" {
		r.Type = "vented"
		q.assume("type", "/subs/0/box/type", "A vented box, since a tuning was named.")
	}
	if r.TuningHz > 0 && !design.Tunes(r.Type) {
		r.TuningHz = 0
		q.assume("tuning_hz", "", "The tuning does not count: %s has no single one.", article(design.Name(r.Type)))
	}
	if r.PowerW != 0 && !(r.PowerW >= 5 && r.PowerW <= 20000) {
		return fmt.Errorf("An amplifier of %g W is outside what can be answered; give 5 to 20,000.", r.PowerW)
	}
	return nil
}

// driver picks the typical driver of the size from the shelf: the standard
// one, one for free air where it sits in a baffle, or one of long throw where
// the standard one would not stand the power.
func (q *QuickAnswer) driver() (job.Driver, driver.Driver, error) {
	r := q.Request
	var subs []driver.ShelfDriver
	nearest := math.Inf(1)
	for _, s := range driver.Shelf() {
		away := math.Abs(math.Log(s.Stated.Values[driver.KeySize] / r.SizeIn))
		switch {
		case s.Kind != driver.KindSub || away > nearest+1e-9:
			continue
		case away < nearest-1e-9:
			nearest, subs = away, nil
		}
		subs = append(subs, s)
	}
	build := "standard"
	if r.Type == "infinite_baffle" {
		build = "free air"
	}
	best := subs[0]
	for _, s := range subs {
		if s.Build == build {
			best = s
			break
		}
		if s.Build == "standard" && best.Build != "standard" {
			best = s
		}
	}
	for _, s := range subs {
		if rated := best.Stated.Values[driver.KeyPower] * float64(r.Count); s.Build == "long throw" && r.PowerW > 1.4*rated {
			best = s
		}
	}
	d, _, err := driver.Derive(best.Stated, standardAir)
	if err != nil {
		return job.Driver{}, d, err
	}
	say := fmt.Sprintf("%s: typical figures for such a driver, of no maker in particular.", best.Stated.Name)
	if nearest > 1e-9 {
		say = fmt.Sprintf("There are no typical figures for %s inches; the nearest size stands in. %s", trimmed(r.SizeIn), say)
	}
	q.assume("driver", "/subs/0/driver", "%s", say)
	return best.Stated.ToJob(), d, nil
}

// quickTypes are what "whichever suits" chooses from.
var quickTypes = []string{"sealed", "vented"}

// design finds the box for what was left open.
func (q *QuickAnswer) design(ctx context.Context, solver *system.Solver, j *job.Job) error {
	r := &q.Request
	types := []string{r.Type}
	if r.Type == "" {
		types = quickTypes
	}
	room, err := design.RoomOf(*j)
	if err != nil {
		return err
	}
	t := design.Task{Job: *j, Goal: design.Goal{Kind: design.Balanced}, Room: &room, Bounds: design.Bounds{TuningHz: r.TuningHz}}
	if r.NetL > 0 {
		// The volume is settled, whether it fits or not.
		t.Room, t.Bounds.NetMinL, t.Bounds.NetMaxL = nil, r.NetL, r.NetL
	}
	var best *design.Design
	find := func(t design.Task) {
		for _, t.Type = range types {
			if d, e := design.Find(ctx, solver, t); e != nil {
				err = e
			} else if best == nil || d.Cost < best.Cost {
				best = d
			}
		}
	}
	find(t)
	if best == nil && ctx.Err() == nil && t.Room != nil {
		t.Room = nil
		find(t)
	}
	if best == nil {
		return err
	}
	s := &j.Subs[0]
	*s = best.Sub(*s)
	if r.Type == "" {
		q.assume("type", "/subs/0/box/type", "%s", strings.TrimSpace(fmt.Sprintf("%s %s: of a sealed and a vented box, the one that gives this car more for its size.", q.instead, capital(lower(best.Name)))))
		r.Type = best.Type
	}
	switch {
	case r.NetL > 0 && best.Type == "infinite_baffle":
		r.NetL = 0
		q.assume("net_l", "/subs/0/box/net_l", "A baffle has no box of its own; the litres do not count.")
	case r.NetL > 0:
		s.Box.NetL -= s.Box.NetL + s.Box.FrontL - r.NetL
	case best.Type != "infinite_baffle":
		r.NetL = math.Round(10*best.NetL) / 10
		q.assume("net_l", "/subs/0/box/net_l", "%s litres of air: a balance of reach, level and size in this car.", trimmed(r.NetL))
	}
	return nil
}

// fit stands the box in the boot, all of it, and says so.
func (q *QuickAnswer) fit(solver *system.Solver, j *job.Job, d driver.Driver) {
	all := *j
	all.Aim.BootPct = 0
	room, err := design.RoomOf(all)
	if err != nil {
		return
	}
	s := &j.Subs[0]
	o, ok := room.Stand(*s, d, portLength(solver, *j))
	q.Outside, q.Fits = &o, ok
	if ok && s.Box.Type != "infinite_baffle" {
		s.Place = o.Place
		s.Box.Form, s.Box.WidthMM, s.Box.HeightMM, s.Box.DepthMM = o.Form, o.WidthMM, o.HeightMM, o.DepthMM
	} else if !ok {
		s.Box.WidthMM, s.Box.HeightMM, s.Box.DepthMM = 0, 0, 0
	}
}

// portLength returns the length (mm) of the longest port of the first sub, for
// what it takes from the air.
func portLength(solver *system.Solver, j job.Job) float64 {
	longest := 0.0
	if s := j.Subs[0].Box; s.Type == "line" || s.Port == nil && s.Front == nil {
		return 0
	}
	if g, _ := solver.Glance(j, system.Grid{FromHz: 20, ToHz: 80, Points: 3}); g != nil {
		for _, l := range g.PortLengthMM {
			longest = math.Max(longest, l)
		}
	}
	return longest
}

// stillAssumed lists everything in the job that the request did not say.
func (q *QuickAnswer) stillAssumed(j job.Job) []string {
	asked := map[string]bool{}
	for _, a := range q.Assumed {
		asked[a.Key] = true
	}
	said := map[string]bool{
		"/car/body":                           !asked["body"],
		"/subs/0/driver/size_in":              !asked["size_in"],
		"/subs/0/box/type":                    !asked["type"],
		"/subs/0/box/net_l":                   !asked["net_l"],
		"/subs/0/channel/amplifier/rated_w":   !asked["power_w"],
		"/subs/0/series":                      q.Request.Count > 1,
		"/subs/0/parallel":                    q.Request.Count > 1,
		"/title":                              true,
		"/subs/0/box/port/tuning_hz":          q.Request.TuningHz > 0,
		"/subs/0/box/front/tuning_hz":         q.Request.TuningHz > 0,
		"/subs/0/channel/amplifier/rated_ohm": false,
	}
	var out []string
	for _, p := range job.Leaves(j) {
		if !said[p] {
			out = append(out, p)
		}
	}
	return out
}
