package advise

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"bootfloor/internal/design"
	"bootfloor/internal/job"
	"bootfloor/internal/judge"
	"bootfloor/internal/system"
)

// badgeGoals are what a pick is picked for, and what its box is then refined
// for.
var badgeGoals = []struct {
	badge string
	goal  design.Kind
}{
	{"balanced", design.Balanced}, {"smallest", design.Smallest}, {"deepest", design.Lowest}, {"loudest", design.Loudest},
}

// nearly is how much more than the best a choice may lack of what was asked and
// still be picked as the smallest or the deepest: a tenth of a decibel.
const nearly = 0.01

// pick chooses the few that differ in what matters.
func (w *which) pick() {
	all := w.standing()
	w.picks, w.badges = nil, map[*candidate][]string{}
	if len(all) == 0 {
		return
	}
	score := make(map[*candidate]Scores, len(all))
	for _, c := range all {
		score[c] = w.scores(c)
	}
	// The smallest and the deepest must do what was asked, or come as near to
	// it as anything does.
	least := math.Inf(1)
	for _, c := range all {
		least = math.Min(least, score[c].Short)
	}
	able := slices.DeleteFunc(slices.Clone(all), func(c *candidate) bool { return score[c].Short > least+nearly })
	best := func(from []*candidate, value func(*candidate) float64) *candidate {
		return slices.MaxFunc(from, func(a, b *candidate) int { return cmp.Compare(value(a), value(b)) })
	}
	balanced := func(c *candidate) float64 { return score[c].Total(1, 1, 1) }
	add := func(c *candidate, badge string) {
		if !slices.Contains(w.picks, c) {
			w.picks = append(w.picks, c)
		}
		if badge != "" {
			w.badges[c] = append(w.badges[c], badge)
		}
	}
	add(best(all, balanced), "balanced")
	add(best(able, func(c *candidate) float64 { return -outsideLitres(c.design) + 1e-3*balanced(c) }), "smallest")
	add(best(able, func(c *candidate) float64 { return -math.Max(c.design.ReachHz, 20) + 0.5*balanced(c) }), "deepest")
	add(best(all, func(c *candidate) float64 { return c.design.LevelDB + 0.1*balanced(c) }), "loudest")
	// Fewer than enough: the next best that is another size, number or type.
	rest := slices.Clone(all)
	slices.SortStableFunc(rest, func(a, b *candidate) int { return cmp.Compare(balanced(b), balanced(a)) })
	fill := func(other func(p, c *candidate) bool, least float64) {
		for _, c := range rest {
			if len(w.picks) >= max(w.most()-1, 3) || balanced(c) < least {
				return
			}
			if !slices.ContainsFunc(w.picks, func(p *candidate) bool { return other(p, c) }) {
				add(c, "")
			}
		}
	}
	// Another type of box first, where one comes near.
	fill(func(p, c *candidate) bool { return plainType(p.typ) == plainType(c.typ) }, balanced(w.picks[0])-comesNear)
	fill(alike, math.Inf(-1))
	slices.SortStableFunc(w.picks, func(a, b *candidate) int { return cmp.Compare(balanced(b), balanced(a)) })
	if len(w.picks) > w.most() {
		w.picks = w.picks[:w.most()]
	}
}

// most is how many choices are wanted.
func (w *which) most() int {
	if w.req.Most <= 0 {
		return 5
	}
	return min(max(w.req.Most, 3), 5)
}

// comesNear is how much less a choice may score than the best and still be
// shown for being of another type.
const comesNear = 0.12

// alike tells whether a customer could tell two candidates apart.
func alike(a, b *candidate) bool {
	return plainType(a.typ) == plainType(b.typ) && a.count == b.count && a.sizeIn() == b.sizeIn()
}

// plainType counts a closed box with an aperiodic vent as a closed one.
func plainType(t string) string {
	if t == "aperiodic" {
		return "sealed"
	}
	return t
}

// refine works the picks out in full, and then what they are worth is read from
// the full job. Picks that this throws out are replaced, a few times over.
func (w *which) refine() error {
	w.finished = map[*candidate]*Choice{}
	done := map[*candidate]bool{}
	for range 3 {
		w.pick()
		again := false
		for _, c := range w.picks {
			if done[c] {
				continue
			}
			done[c] = true
			w.improve(c)
			if err := w.ctx.Err(); err != nil {
				return err
			}
			again = again || c.out != ""
			w.report()
		}
		if !again {
			break
		}
	}
	w.pick()
	for _, c := range w.picks {
		if err := w.ctx.Err(); err != nil {
			return err
		}
		if err := w.finish(c); err != nil {
			c.out = err.Error()
			continue
		}
		w.report()
	}
	return nil
}

// improve finds a pick's box in full, for what it is picked for.
func (w *which) improve(c *candidate) {
	goal := design.Balanced
	for _, g := range badgeGoals {
		if slices.Contains(w.badges[c], g.badge) {
			goal = g.goal
			break
		}
	}
	d, err := design.Find(w.ctx, w.solver, w.task(c, goal, false))
	if err != nil {
		if w.ctx.Err() == nil {
			c.out = err.Error()
		}
		return
	}
	before := *c
	w.take(c, d)
	if c.out != "" && before.out == "" {
		// The finer look must not lose what the rough one had.
		*c = before
	}
}

// bandSamples is how many variations make the band of a choice.
const bandSamples = 8

// finish reads a choice's numbers from its full job, with its band.
func (w *which) finish(c *candidate) error {
	j := c.job
	j.Assumed = slices.DeleteFunc(job.Leaves(j), func(p string) bool { return !w.openly(p) })
	r, found := w.solver.Respond(j, system.DefaultGrid)
	if r == nil {
		return fmt.Errorf("%s", firstError(found))
	}
	a := Answers(j, r)
	choice := &Choice{Answer: &a, Job: &j}
	choice.LevelDB = leastLevel(j, r)
	if band, _ := w.solver.Band(w.ctx, j, bandSamples, nil); band != nil {
		choice.Band = sureness(j, band)
	}
	c.job = j
	w.finished[c] = choice
	return nil
}

// openly tells whether a value of the job was left open by the request.
func (w *which) openly(pointer string) bool {
	r := w.req
	switch pointer {
	case "/car/body":
		return len(w.assumed) > 0 && w.assumed[0].Key == "body"
	case "/title":
		return false
	case "/aim/lowest_hz":
		return r.LowestHz == 0 && len(r.Music) == 0
	case "/aim/level_db":
		return r.LevelDB == 0 && r.Loud == ""
	case "/aim/boot_pct":
		return w.req.Space == nil && w.boots()
	case "/subs/0/channel/amplifier/rated_w":
		return r.PowerW == 0
	}
	if r.Car != nil && len(pointer) > 5 && pointer[:5] == "/car/" {
		return false
	}
	return true
}

// boots tells whether the share of the boot was assumed.
func (w *which) boots() bool {
	return slices.ContainsFunc(w.assumed, func(a Assumption) bool { return a.Key == "boot" })
}

func sureness(j job.Job, b *system.Band) *Sureness {
	var reach, level []float64
	for _, r := range b.Samples {
		a := Answers(j, r)
		reach, level = append(reach, a.ReachHz), append(level, leastLevel(j, r))
	}
	slices.Sort(reach)
	slices.Sort(level)
	s := &Sureness{
		ReachLowHz: system.Percentile(reach, 0.1), ReachHighHz: system.Percentile(reach, 0.9),
		LevelLowDB: system.Percentile(level, 0.1), LevelHighDB: system.Percentile(level, 0.9),
	}
	reaches := "reaches " + span(s.ReachLowHz, s.ReachHighHz) + " Hz"
	switch {
	case math.Round(s.ReachHighHz) <= lowestHeard:
		reaches = fmt.Sprintf("reaches %d Hz and lower", lowestHeard)
	case s.ReachLowHz < lowestHeard:
		reaches = fmt.Sprintf("reaches %.0f Hz, at best %d Hz and lower,", s.ReachHighHz, lowestHeard)
	}
	s.Say = fmt.Sprintf("With drivers and cars as they vary, it %s and plays %s dB in eight of ten cases.", reaches, span(s.LevelLowDB, s.LevelHighDB))
	return s
}

// leastLevel returns the least level (dB) that a job plays at its seat from the
// lowest note asked for up to the crossover's edge, as a design counts it.
func leastLevel(j job.Job, r *system.Response) float64 {
	top := judge.Smooth(r.Hz, r.Find("max/sub/"+j.Aim.SeatID))
	least := math.Inf(1)
	for k, f := range r.Hz {
		if f >= j.Aim.Lowest && f <= judge.Upper(j) {
			least = math.Min(least, top[k])
		}
	}
	return least
}

// answer writes down what is known.
func (w *which) answer(partial bool) WhichAnswer {
	out := WhichAnswer{
		Partial: partial, Asked: w.say, Lowest: w.job.Aim.Lowest, LevelDB: w.job.Aim.LevelDB, Assumed: w.assumed,
		BootL: 1000 * w.room.BootM3, SpaceL: 1000 * w.room.Space.M3(),
		Choices: []Choice{}, Others: []Choice{}, Out: w.fellOut(),
		Tried: w.tried, Of: len(w.all), Seconds: time.Since(w.start).Seconds(), Job: w.job,
	}
	if w.room.MostM3 > 0 {
		out.SpaceL = 1000 * w.room.MostM3
	}
	others := w.others()
	tellApart(append(slices.Clone(w.picks), others...))
	for _, c := range w.picks {
		if c.out == "" {
			out.Choices = append(out.Choices, w.choice(c))
		}
	}
	w.compare(out.Choices)
	if len(out.Choices) == 0 && !partial {
		out.Say = "Nothing on the shelf does what was asked in this space. Give up more of the boot, or ask for less level or less depth."
	}
	for _, c := range others {
		out.Others = append(out.Others, w.choice(c))
	}
	return out
}

// tellApart has candidates whose titles are alike name their drivers.
func tellApart(list []*candidate) {
	alike := map[string][]*candidate{}
	for _, c := range list {
		c.apart = false
		alike[c.title()] = append(alike[c.title()], c)
	}
	for _, same := range alike {
		for _, c := range same {
			c.apart = len(same) > 1
		}
	}
}

// mostOthers is how many that would do as well are listed.
const mostOthers = 12

// others lists what would do as well, the best of each kind.
func (w *which) others() []*candidate {
	rest := w.standing()
	total := func(c *candidate) float64 { return w.scores(c).Total(1, 1, 1) }
	slices.SortStableFunc(rest, func(a, b *candidate) int { return cmp.Compare(total(b), total(a)) })
	var out []*candidate
	for _, c := range rest {
		if len(out) == mostOthers {
			break
		}
		same := func(p *candidate) bool { return alike(p, c) && p.stated.Name == c.stated.Name }
		if !slices.ContainsFunc(w.picks, same) && !slices.ContainsFunc(out, func(p *candidate) bool { return alike(p, c) }) {
			out = append(out, c)
		}
	}
	return out
}

// choice writes one down. The numbers of one that is finished are those of its
// full job.
func (w *which) choice(c *candidate) Choice {
	d := c.design
	out := Choice{
		ID: fmt.Sprintf("%s/%d/%s", c.stated.Name, c.count, c.typ), PickedFor: append([]string{}, w.badges[c]...),
		Title: c.title(), Driver: c.job.Subs[0].Driver, Count: c.count, Type: c.typ, TypeName: design.Name(c.typ), Sub: c.job.Subs[0],
		ReachHz: d.ReachHz, LevelDB: d.LevelDB, AskedHz: d.AskedHz, Price: c.price(), PowerW: c.watts,
		NetL: d.NetL, Outside: d.Outside, Scores: w.scores(c),
	}
	if d.Outside != nil {
		out.BootLeftL = d.Outside.LeftL
	}
	if f := w.finished[c]; f != nil {
		out.Answer, out.Band, out.Job = f.Answer, f.Band, f.Job
		out.Job.Title = out.Title
		out.ReachHz, out.LevelDB = f.Answer.ReachHz, f.LevelDB
	}
	return out
}

// mostOut is how many that fell out are named.
const mostOut = 12

// fellOut lists the reasons against what is not there, one for each size and
// number of drivers in a box type that has no like among the standing.
func (w *which) fellOut() []FellOut {
	out := []FellOut{}
	standing := w.standing()
	var seen []*candidate
	for _, c := range w.all {
		if c.out == "" || len(out) == mostOut {
			continue
		}
		like := func(p *candidate) bool { return alike(p, c) }
		if c.driver.Sd > 0 { // else nobody knows what it is like
			if slices.ContainsFunc(standing, like) || slices.ContainsFunc(seen, like) {
				continue
			}
			seen = append(seen, c)
		}
		title := c.title()
		switch {
		case c.driver.Sd == 0:
			title = c.stated.Name
		case c.out == noBoot:
			title = design.Name(c.typ)
		}
		if !slices.Contains(out, FellOut{title, c.out}) {
			out = append(out, FellOut{title, c.out})
		}
	}
	return out
}

// span writes two whole numbers, or one where they are the same.
func span(low, high float64) string {
	a, b := fmt.Sprintf("%.0f", low), fmt.Sprintf("%.0f", high)
	if a == b {
		return a
	}
	return a + " to " + b
}
