package advise

import (
	"fmt"
	"math"
	"strings"

	"bootfloor/internal/design"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// Compared is a table of what differs between jobs.
type Compared struct {
	Columns []string     `json:"columns"`
	Rows    []ComparedBy `json:"rows"`
	Say     []string     `json:"say"` // what differs, in words
}

// ComparedBy is one row: a value and its words for each job.
type ComparedBy struct {
	Key    string    `json:"key"`
	Name   string    `json:"name"`
	Unit   string    `json:"unit,omitempty"`
	Values []float64 `json:"values"`
	Words  []string  `json:"words"`
	// Best is the column that does best, -1 where none does or it is no
	// matter of better.
	Best    int  `json:"best"`
	Differs bool `json:"differs"`
}

// NamedJob is a job with the name of its version.
type NamedJob struct {
	Name string  `json:"name"`
	Job  job.Job `json:"job"`
}

// MostCompared is how many jobs stand beside each other.
const MostCompared = 4

// Compare sets jobs beside each other. Its numbers are those of each job's own
// answer. The error is a sentence.
func Compare(solver *system.Solver, jobs []NamedJob) (*Compared, error) {
	if len(jobs) < 2 || len(jobs) > MostCompared {
		return nil, fmt.Errorf("Two to %d versions can be compared, not %d.", MostCompared, len(jobs))
	}
	var all []comparedJob
	out := &Compared{Columns: []string{}, Say: []string{}}
	for i, n := range jobs {
		name := n.Name
		if name == "" {
			name = fmt.Sprintf("Version %d", i+1)
		}
		out.Columns = append(out.Columns, name)
		if found := job.Check(n.Job); job.HasError(found) {
			return nil, fmt.Errorf("%q cannot be worked out: %s", clipped(name), firstError(found))
		}
		r, found := solver.Respond(n.Job, system.DefaultGrid)
		if r == nil {
			return nil, fmt.Errorf("%q cannot be worked out: %s", clipped(name), firstError(found))
		}
		all = append(all, comparedJob{n.Job, r, Answers(n.Job, r)})
	}
	for _, row := range comparedRows {
		out.Rows = append(out.Rows, row.read(all))
	}
	out.words()
	return out, nil
}

type comparedJob struct {
	job    job.Job
	r      *system.Response
	answer Answer
}

// comparedRow is how to read one row. better is 1 where more is better, -1
// where less is, 0 where it is no matter of that; least is the least difference
// that anybody would notice.
type comparedRow struct {
	key, name, unit string
	better          int
	least           float64
	figures         int
	value           func(c comparedJob) float64
	word            func(c comparedJob) string
	say             func(a, b string, d float64) string
}

func first(c comparedJob) (job.Sub, bool) {
	if len(c.job.Subs) == 0 {
		return job.Sub{}, false
	}
	return c.job.Subs[0], true
}

var comparedRows = []comparedRow{
	{key: "reach_hz", name: "Reach", unit: "Hz", better: -1, least: 1, value: func(c comparedJob) float64 { return math.Max(c.answer.ReachHz, lowestHeard) },
		say: func(a, b string, d float64) string { return fmt.Sprintf("%s reaches %.0f Hz lower than %s.", a, d, b) }},
	{key: "level_db", name: "Level, flat out", unit: "dB", better: 1, least: 1, value: func(c comparedJob) float64 { return c.answer.LevelDB },
		say: func(a, b string, d float64) string { return fmt.Sprintf("%s plays %.0f dB louder than %s.", a, d, b) }},
	{key: "limit", name: "What stops it", word: func(c comparedJob) string { return c.answer.Limit }},
	{key: "ripple_db", name: "Unevenness", unit: "dB", better: -1, least: 1, value: func(c comparedJob) float64 { return c.answer.RippleDB },
		say: func(a, b string, d float64) string { return fmt.Sprintf("%s is %.0f dB more even than %s.", a, d, b) }},
	{key: "type", name: "Box", word: func(c comparedJob) string {
		if s, ok := first(c); ok {
			return design.Name(s.Box.Type)
		}
		return "none"
	}},
	{key: "net_l", name: "Air in the boxes", unit: "L", better: -1, least: 0.5, figures: 1, value: func(c comparedJob) (l float64) {
		for _, s := range c.job.Subs {
			l += s.Box.NetL + s.Box.FrontL
		}
		return l
	}, say: func(a, b string, d float64) string {
		return fmt.Sprintf("%s needs %.0f litres less air than %s.", a, d, b)
	}},
	{key: "outside_l", name: "Outside", unit: "L", better: -1, least: 1, value: func(c comparedJob) (l float64) {
		for _, s := range c.job.Subs {
			l += s.Box.WidthMM * s.Box.HeightMM * s.Box.DepthMM * 1e-6
		}
		return l
	}},
	{key: "driver", name: "Driver", word: func(c comparedJob) string {
		s, ok := first(c)
		if !ok {
			return "none"
		}
		if n := s.Series * s.Parallel; n > 1 {
			return fmt.Sprintf("%d x %s", n, s.Driver.Name)
		}
		return s.Driver.Name
	}},
	{key: "power_w", name: "Amplifier", unit: "W", least: 1, value: func(c comparedJob) (w float64) {
		for _, s := range c.job.Subs {
			w += s.Channel.Amplifier.RatedW
		}
		return w
	}},
	{key: "load_ohm", name: "Least load", unit: "ohm", better: 1, least: 0.2, figures: 2, value: func(c comparedJob) float64 {
		least := math.Inf(1)
		for _, s := range c.r.Subs {
			least = math.Min(least, s.LoadMinOhm)
		}
		if math.IsInf(least, 1) {
			return 0
		}
		return least
	}},
	{key: "price", name: "Price of the drivers", better: -1, least: 1, value: func(c comparedJob) (p float64) {
		for _, s := range c.job.Subs {
			if s.Driver.Price != nil {
				p += *s.Driver.Price * float64(max(s.Series, 1)*max(s.Parallel, 1))
			}
		}
		return p
	}},
}

func (row comparedRow) read(all []comparedJob) ComparedBy {
	out := ComparedBy{Key: row.key, Name: row.name, Unit: row.unit, Best: -1, Values: []float64{}, Words: []string{}}
	if row.word != nil {
		for _, c := range all {
			w := row.word(c)
			out.Differs = out.Differs || w != row.word(all[0])
			out.Words = append(out.Words, w)
		}
		return out
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range all {
		v := row.value(c)
		low, high = math.Min(low, v), math.Max(high, v)
		out.Values = append(out.Values, v)
		w := fmt.Sprintf("%.*f", row.figures, v)
		if row.unit != "" {
			w += " " + strings.Replace(row.unit, "ohm", "Ω", 1)
		}
		if row.key == "reach_hz" && v <= lowestHeard {
			w += " and lower"
		}
		out.Words = append(out.Words, w)
	}
	out.Differs = high-low >= row.least
	if out.Differs && row.better != 0 {
		for i, v := range out.Values {
			if row.better > 0 && v == high || row.better < 0 && v == low {
				out.Best = i
				break
			}
		}
	}
	return out
}

// words says the largest differences: the best of each row against the worst.
func (c *Compared) words() {
	for i, row := range c.Rows {
		say := comparedRows[i].say
		if say == nil || row.Best < 0 {
			continue
		}
		worst := row.Best
		for k, v := range row.Values {
			if math.Abs(v-row.Values[row.Best]) > math.Abs(row.Values[worst]-row.Values[row.Best]) {
				worst = k
			}
		}
		d := math.Abs(row.Values[row.Best] - row.Values[worst])
		if math.Round(d) < 1 {
			continue
		}
		c.Say = append(c.Say, say(c.Columns[row.Best], c.Columns[worst], d))
	}
	if len(c.Say) == 0 {
		c.Say = append(c.Say, "Nothing that anybody would hear differs.")
	}
}
