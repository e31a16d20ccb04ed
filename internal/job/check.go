package job

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// maxFindings keeps a hopeless document from flooding the page.
const maxFindings = 100

// Check returns what is out of range, missing or at odds in the job, in
// document order. A job without findings of level error can be calculated as
// far as this package can tell; whether a driver's parameters suffice is the
// business of package driver.
func Check(j Job) []Finding {
	c := &checker{job: &j}
	rootRules.check(c, "", &j)
	airRules.check(c, "/air", &j.Air)
	c.car(&j.Car)
	c.subs(j.Subs)
	if j.Doors.Fitted {
		c.doors(&j.Doors)
	}
	aimRules.check(c, "/aim", &j.Aim)
	c.aim(&j)
	toleranceRules.check(c, "/tolerance", &j.Tolerance)
	c.assumed(&j)
	if c.dropped > 0 {
		c.found = append(c.found, Errorf("", "There are %d more findings; put these right first.", c.dropped))
	}
	return c.found
}

type checker struct {
	job     *Job
	found   []Finding
	dropped int
}

func (c *checker) add(f Finding) {
	if len(c.found) >= maxFindings {
		c.dropped++
		return
	}
	c.found = append(c.found, f)
}

func (c *checker) errorf(at, format string, args ...any) { c.add(Errorf(at, format, args...)) }
func (c *checker) warnf(at, format string, args ...any)  { c.add(Warnf(at, format, args...)) }
func (c *checker) notef(at, format string, args ...any)  { c.add(Notef(at, format, args...)) }

// bad reports whether an error was already found at or below the pointer, so
// that cross-field rules do not pile up on a value that is wrong by itself.
func (c *checker) bad(at string) bool {
	for _, f := range c.found {
		if f.Level == LevelError && (f.At == at || strings.HasPrefix(f.At, at+"/")) {
			return true
		}
	}
	return false
}

// name begins a sentence about the value at the pointer: the part it belongs
// to, then what it is.
func (c *checker) name(at, label string) string {
	many := c.job != nil && len(c.job.Subs) > 1
	return sentenceName(at, label, many)
}

// sentenceName builds the beginning of a sentence from a pointer. manySubs
// numbers the subs.
func sentenceName(at, label string, manySubs bool) string {
	var owner []string
	parts := strings.Split(strings.TrimPrefix(at, "/"), "/")
	for i, p := range parts {
		n := 0
		if i+1 < len(parts) {
			if k, err := strconv.Atoi(parts[i+1]); err == nil {
				n = k + 1
			}
		}
		switch {
		case p == "subs" && manySubs && n > 0:
			owner = append(owner, fmt.Sprintf("sub %d", n))
		case p == "subs" && n > 0:
			owner = append(owner, "sub")
		case p == "doors":
			owner = append(owner, "door speakers")
		case p == "stations" && n > 0:
			owner = append(owner, fmt.Sprintf("station %d", n))
		case p == "seats" && n > 0:
			owner = append(owner, fmt.Sprintf("seat %d", n))
		case p == "openings" && n > 0:
			owner = append(owner, fmt.Sprintf("opening %d", n))
		case p == "filters" && n > 0:
			owner = append(owner, fmt.Sprintf("filter %d", n))
		case p == "line" && n > 0:
			owner = append(owner, fmt.Sprintf("piece %d of the line", n))
		case p == "front" && i+1 < len(parts) && parts[0] == "subs":
			owner = append(owner, "front chamber")
		}
	}
	if len(owner) == 0 {
		return upperFirst(label)
	}
	return upperFirst(strings.Join(owner, ", ")) + ": " + label
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// text checks a free text: its length and that it holds nothing unprintable.
func (c *checker) text(at, label, s string, longest int) {
	if n := utf8.RuneCountInString(s); n > longest {
		c.errorf(at, "%s has %d characters; at most %d are kept. Shorten it.", c.name(at, label), n, longest)
		return
	}
	if !utf8.ValidString(s) {
		c.errorf(at, "%s is not valid text (UTF-8); type it again.", c.name(at, label))
		return
	}
	for _, r := range s {
		if (r < ' ' && r != '\n' && r != '\t') || r == 0x7f {
			c.errorf(at, "%s holds the control character U+%04X; remove it.", c.name(at, label), r)
			return
		}
	}
}

// length checks how many elements a list has.
func (c *checker) length(at, what string, n, min, max int) bool {
	if n >= min && n <= max {
		return true
	}
	c.errorf(at, "%s: there %s %d; give %s.", upperFirst(what), plural(n, "is", "are"), n, span(min, max))
	return false
}

func span(min, max int) string {
	if min == 0 {
		return fmt.Sprintf("at most %d", max)
	}
	return fmt.Sprintf("%d to %d", min, max)
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// assumed checks the list of assumed values.
func (c *checker) assumed(j *Job) {
	if !c.length("/assumed", "values marked as assumed", len(j.Assumed), 0, MaxAssumed) {
		return
	}
	for i, p := range j.Assumed {
		if len(p) > 200 || p == "" || p[0] != '/' {
			c.errorf(fmt.Sprintf("/assumed/%d", i), "Value %d marked as assumed is %s; it must be a JSON pointer such as /air/temperature_c.", i+1, quote(p))
		}
	}
}

func (c *checker) aim(j *Job) {
	if c.length("/aim/music", "kinds of music", len(j.Aim.Music), 0, MaxMusic) {
		for i, m := range j.Aim.Music {
			c.text(fmt.Sprintf("/aim/music/%d", i), "the kind of music", m, 40)
		}
	}
	if c.bad("/aim/seat") || c.bad("/car/seats") {
		return
	}
	for _, s := range j.Car.Seats {
		if s.ID == j.Aim.SeatID {
			return
		}
	}
	c.errorf("/aim/seat", "The seat that counts most is %s, but the car has no such seat; choose one of its seats or add it.", quote(j.Aim.SeatID))
}
