package driver

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Reading is one value that a sheet states.
type Reading struct {
	Key   Key
	Value float64 // in the unit of the key
	// Source is the piece of the text it was read from: bytes From to To of
	// the text, on line Line (from 1).
	Source         string
	Line, From, To int
	// Sure is set where the value may be taken; else Why is the reason for doubt.
	Sure bool
	Why  string
	Note string // what was done with it, as "peak to peak, halved"

	loose bool // the unit was assumed
	weak  bool // from a sentence rather than a list
}

// Model is one driver of a sheet.
type Model struct {
	Name     string
	Readings []Reading
	// Findings are what Derive says to all the readings together.
	Findings []Finding
	// SensitivityDB is the level that the sheet states, 0 where it does not.
	SensitivityDB float64
}

// Line is a line of the text that gave no value.
type Line struct {
	Number int
	Text   string
	Why    string
}

// Sheet is what was made of a pasted data sheet.
type Sheet struct {
	Models []Model // one, or one per column or row of a table
	// NotUnderstood are the lines with figures of which nothing was made.
	NotUnderstood []Line
	// Unused are the lines that were understood but state nothing of use here.
	Unused []Line
	Notes  []string
}

// MaxSheetBytes is the longest text that ReadSheet reads; the rest is left out
// and said so.
const MaxSheetBytes = 200_000

const (
	maxModels    = 24
	maxSheetLine = 10_000
)

// ReadSheet reads a data sheet pasted from a page or a document: names and
// symbols in any order and common spelling, units in words or symbols, decimal
// commas, ranges, remarks, tables with a column or a row per model. Nothing is
// taken silently: each value is either sure, and then consistent with the others
// as far as they can be checked, or doubtful with the reason. It never fails; a
// text of which nothing is understood gives a Sheet that says so.
func ReadSheet(text string) Sheet {
	r := &sheetReader{}
	if len(text) > MaxSheetBytes {
		r.sheet.Notes = append(r.sheet.Notes, fmt.Sprintf("Only the first %d characters were read.", MaxSheetBytes))
		text = text[:MaxSheetBytes]
	}
	if !utf8.ValidString(text) {
		// One byte for one byte, so that places still point into the text.
		clean := []byte(text)
		for i := 0; i < len(clean); {
			if c, size := utf8.DecodeRune(clean[i:]); c == utf8.RuneError && size == 1 {
				clean[i] = ' '
				i++
			} else {
				i += size
			}
		}
		text = string(clean)
	}
	r.text = text
	r.split()
	r.readRows()
	r.readColumns()
	r.readLines()
	r.finish()
	return r.sheet
}

// Stated returns the readings of model i for Derive: the sure ones, and with
// doubtful also the others. Of two readings of one value the first sure one counts.
func (s Sheet) Stated(i int, doubtful bool) Stated {
	m := s.Models[i]
	out := Stated{Name: m.Name, Values: map[Key]float64{}}
	for _, sure := range []bool{true, false} {
		for _, r := range m.Readings {
			if r.Sure != sure || !sure && !doubtful {
				continue
			}
			if _, known := out.Values[r.Key]; !known && r.Key != keySensitivity {
				out.Values[r.Key] = r.Value
			}
		}
	}
	return out
}

// sheetReader holds the text while it is read.
type sheetReader struct {
	text   string
	lines  []foldedLine
	labels [][]found
	used   []bool // lines that a table took
	marks  convention
	sheet  Sheet
	names  []string // of the models of a table
	// values read so far, by model; model -1 holds for all.
	read map[int][]Reading
}

func (r *sheetReader) split() {
	r.read = map[int][]Reading{}
	start, number := 0, 0
	for start <= len(r.text) {
		end := strings.IndexAny(r.text[start:], "\n\r")
		if end < 0 {
			end = len(r.text) - start
		}
		line := r.text[start : start+end]
		number++
		if len(line) > maxSheetLine {
			r.sheet.NotUnderstood = append(r.sheet.NotUnderstood, Line{number, strings.ToValidUTF8(line[:40], "") + "…", "the line is too long"})
			line = ""
		}
		l := foldLine(line, start, number)
		r.lines = append(r.lines, l)
		r.marks.observe(l.runes)
		start += end + 1
		if start < len(r.text) && r.text[start-1] == '\r' && r.text[start] == '\n' {
			start++
		}
	}
	r.labels = make([][]found, len(r.lines))
	r.used = make([]bool, len(r.lines))
	for i, l := range r.lines {
		r.labels[i] = findLabels(l.runes)
	}
}

// source returns the piece of the text behind runes from to to of line i.
func (r *sheetReader) source(i, from, to int) (string, int, int) {
	l := r.lines[i]
	a, b := l.place[from], l.place[min(to, len(l.place)-1)]
	return strings.TrimSpace(r.text[a:b]), a, b
}

// add takes one value for a model.
func (r *sheetReader) add(model, line int, l found, base float64, v verdictOn, from, to int) {
	value := base
	if l.make != nil {
		value = l.make(base)
	}
	reading := Reading{Key: l.key, Value: tidy(value), Line: r.lines[line].number, Sure: v.doubt == "", Why: v.doubt, Note: v.note, loose: v.loose, weak: v.weak}
	reading.Source, reading.From, reading.To = r.source(line, from, to)
	if v.loose && reading.Sure {
		q := quantityByKey[l.key]
		reading.Sure = false
		reading.Why = "no unit is stated; " + q.Unit + " is assumed"
	}
	if l.dim == dimStiffness {
		reading.Note = "worked out from the stiffness"
	}
	r.read[model] = append(r.read[model], reading)
}

// readLines reads what no table took: labels with a value behind them on the
// line, or on the next one.
func (r *sheetReader) readLines() {
	for i := 0; i < len(r.lines); i++ {
		if r.used[i] || len(strings.TrimSpace(string(r.lines[i].runes))) == 0 {
			continue
		}
		if n := r.readBlock(i); n > 0 {
			i += n - 1
			continue
		}
		r.readLine(i)
	}
}

// readLine reads one line, each label up to the next one of another key.
func (r *sheetReader) readLine(i int) {
	line := r.lines[i].runes
	labels := r.labels[i]
	took, known, why := false, false, ""
	begin := -1 // of a name in words before its symbol
	for n := 0; n < len(labels); n++ {
		l := labels[n]
		// "Resonance frequency (Fs): 28" names the same thing twice, and
		// "Impedance, DC resistance Re 3.4" ends in the one that counts.
		to := len(line)
		if n+1 < len(labels) {
			to = labels[n+1].from
		}
		list := items(line, l.to, to, r.marks)
		if len(list) == 0 {
			if begin < 0 {
				begin = l.from
			}
			continue
		}
		from := l.from
		if begin >= 0 {
			from = begin
		}
		begin = -1
		if l.key == KeyRms && l.words[0] == "rms" && list[0].hasUnit && list[0].unit.dim == dimPower {
			l.key, l.dim = KeyPower, dimPower
		}
		known = true
		if l.key == keyIgnored {
			continue
		}
		v := judge(l, line, list)
		if len(v.values) == 0 {
			why = fmt.Sprintf("%s: %s", strings.TrimSpace(r.textOf(i, l.from, l.to)), v.none)
			known = false
			continue
		}
		if len(v.values) > 1 && len(r.names) > 1 {
			why = fmt.Sprintf("%s: the values of the models could not be told apart", strings.TrimSpace(r.textOf(i, l.from, l.to)))
			known = false
			continue
		}
		if len(v.values) > 1 {
			v.doubt = "several values stand here, the first is shown"
		}
		r.refine(l, line, list, to, &v)
		if l.dim == dimPower {
			v.end = max(v.end, list[0].end)
		}
		r.add(-1, i, l, v.values[0], v, from, v.end)
		took = true
	}
	if r.readCoils(i) {
		took = true
	}
	switch {
	case took:
	case known:
		r.unused(i, "not needed here")
	case hasDigit(line):
		if why == "" {
			why = "no known name stands before the figure"
		}
		r.notUnderstood(i, why)
	}
}

func (r *sheetReader) textOf(i, from, to int) string {
	s, _, _ := r.source(i, from, to)
	return s
}

func (r *sheetReader) unused(i int, why string) {
	r.sheet.Unused = append(r.sheet.Unused, r.lineOf(i, why))
}

func (r *sheetReader) notUnderstood(i int, why string) {
	r.sheet.NotUnderstood = append(r.sheet.NotUnderstood, r.lineOf(i, why))
}

func (r *sheetReader) lineOf(i int, why string) Line {
	s, _, _ := r.source(i, 0, len(r.lines[i].runes))
	return Line{r.lines[i].number, s, why}
}

func hasDigit(line []rune) bool {
	for _, c := range line {
		if isDigit(c) {
			return true
		}
	}
	return false
}
