package tune

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"bootfloor/internal/columns"
)

// found says which column holds what; phase is -1 where there is none.
type found struct {
	hz, level, phase int
	factor           float64 // to hertz
}

// findColumns tells the columns apart by their headings and, where these say
// nothing, by their order: frequency, level, phase.
func (m *Measurement) findColumns(t columns.Table) found {
	c := found{hz: 0, level: 1, phase: -1, factor: 1}
	if i, ok := t.Find("freq", "hz"); ok {
		c.hz = i
	} else if likeLevels(t.Columns[0]) && !likeLevels(t.Columns[1]) {
		c.hz = 1
		m.say("The first column looks like levels and the second like frequencies; they were taken so.")
	}
	if strings.Contains(strings.ToLower(t.Names[c.hz]), "khz") {
		c.factor = 1000
		m.say("The frequencies are in kHz, as their heading says.")
	}
	c.level = firstOther(len(t.Columns), c.hz)
	if i, ok := findExcept(t, c.hz, -1, "spl", "level", "db", "magn"); ok {
		c.level = i
	}
	if i, ok := findExcept(t, c.hz, c.level, "phase", "deg", "°"); ok {
		c.phase = i
	} else if i := firstOther(len(t.Columns), c.hz, c.level); i >= 0 && t.Names[i] == "" && likePhase(t.Columns[i]) {
		c.phase = i
	}
	if rest := len(t.Columns) - 2; c.phase >= 0 && rest > 1 || c.phase < 0 && rest > 0 {
		if c.phase >= 0 {
			rest--
		}
		m.say("%s not needed and left out.", count(rest, "column is", "columns are"))
	}
	return c
}

// findExcept is Find among the columns other than a and b.
func findExcept(t columns.Table, a, b int, words ...string) (int, bool) {
	t.Names = slices.Clone(t.Names)
	for _, i := range []int{a, b} {
		if i >= 0 {
			t.Names[i] = ""
		}
	}
	return t.Find(words...)
}

// firstOther returns the first of n columns that is none of those taken, or
// -1.
func firstOther(n int, taken ...int) int {
	for i := range n {
		if !slices.Contains(taken, i) {
			return i
		}
	}
	return -1
}

// likeLevels reports whether numbers cannot be a span of frequencies: some are
// not above zero, or they run up and down within a few octaves.
func likeLevels(v []float64) bool {
	up, down := 0, 0
	for i, x := range v {
		if x <= 0 {
			return true
		}
		if i > 0 && x > v[i-1] {
			up++
		}
		if i > 0 && x < v[i-1] {
			down++
		}
	}
	return slices.Max(v) < 4*slices.Min(v) && up > 0 && down > 0
}

// likePhase reports whether numbers can be degrees that turn.
func likePhase(v []float64) bool {
	return slices.Min(v) >= -1e5 && slices.Max(v) <= 1e5 && slices.Min(v) < 0
}

// fraction finds smoothing in a comment that speaks of octaves or smoothing:
// the n of a "1/n" in it, or zero.
func fraction(comment string) int {
	s := strings.ToLower(comment)
	if !strings.Contains(s, "oct") && !strings.Contains(s, "smooth") {
		return 0
	}
	for {
		before, after, ok := strings.Cut(s, "/")
		if !ok {
			return 0
		}
		s = after
		one := strings.TrimRight(before, " ")
		if !strings.HasSuffix(one, "1") || strings.HasSuffix(one, "11") || strings.HasSuffix(one, "/1") {
			continue
		}
		digits := strings.TrimLeft(after, " ")
		end := 0
		for end < len(digits) && digits[end] >= '0' && digits[end] <= '9' {
			end++
		}
		if n, err := strconv.Atoi(digits[:end]); err == nil && n >= 1 && n <= 96 {
			return n
		}
	}
}

// smoothing finds the width in octaves over which the levels are averaged: from
// what the comments say or, for readings that stand on the preferred
// frequencies of third-octave bands, from those.
func (m *Measurement) smoothing(comments []string) float64 {
	for _, c := range comments {
		n := fraction(c)
		if n == 0 {
			continue
		}
		m.say("The text says that the levels are smoothed to 1/%d octave; the prediction is smoothed alike before they are compared.", n)
		return 1 / float64(n)
	}
	if thirds(m.Hz) {
		m.say("The readings stand on the third-octave frequencies and were taken as levels of third-octave bands; say so if they are single tones.")
		return 1.0 / 3
	}
	return 0
}

// thirds reports whether all frequencies in the bass are nominal ones of
// third-octave bands, and next neighbours: 10^(n/10) within the three per cent
// to which IEC 61260-1 rounds them (from memory).
func thirds(hz []float64) bool {
	last, n := math.NaN(), 0
	for _, f := range hz {
		if f < learnFromHz || f > learnToHz {
			continue
		}
		band := math.Round(10 * math.Log10(f))
		if math.Abs(f/math.Pow(10, band/10)-1) > 0.03 || n > 0 && band != last+1 {
			return false
		}
		last = band
		n++
	}
	return n >= 4
}

// count writes a number of things: "1 reading has", "3 readings have".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// lines is count for lines of the text that were left out.
func lines(n int) string { return count(n, "line was", "lines were") }

// sentence makes a text one: a capital first, a full stop last.
func sentence(s string) string {
	if s == "" {
		return s
	}
	s = strings.ToUpper(s[:1]) + s[1:]
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}
