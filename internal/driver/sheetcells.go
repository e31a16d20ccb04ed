package driver

import (
	"math"
	"strings"
)

// span is a cell of a line: runes from to to, without the blanks around.
type span struct{ from, to int }

// cellsOf splits a line at tabs, bars, semicolons and gaps of two blanks or
// more.
func cellsOf(line []rune) []span {
	var out []span
	start := 0
	cut := func(end int) {
		from, to := start, end
		for from < to && line[from] == ' ' {
			from++
		}
		for to > from && line[to-1] == ' ' {
			to--
		}
		out = append(out, span{from, to})
	}
	hard := false
	for i := 0; i < len(line); i++ {
		switch {
		case strings.ContainsRune("\t|;", line[i]):
			cut(i)
			start, hard = i+1, true
		case line[i] == ' ' && i+1 < len(line) && line[i+1] == ' ':
			end := i
			for i+1 < len(line) && line[i+1] == ' ' {
				i++
			}
			// A gap beside a tab or a bar is no cell of its own.
			beside := end == start || i+1 < len(line) && strings.ContainsRune("\t|;", line[i+1])
			if !beside {
				cut(end)
				start = i + 1
			}
		}
	}
	cut(len(line))
	if hard && len(out) > 1 && out[0].from == out[0].to && strings.HasPrefix(strings.TrimSpace(string(line)), "|") {
		out = out[1:]
	}
	for len(out) > 1 && out[len(out)-1].from == out[len(out)-1].to {
		out = out[:len(out)-1]
	}
	return out
}

// cellValue is what a cell of a table holds.
type cellValue struct {
	item
	missing bool // a dash or nothing
	coils   int  // of "2 x 4 ohm", else 0
}

// valueIn reads a cell that holds a figure, or nothing, and no more than that.
func valueIn(line []rune, s span, c convention) (cellValue, bool) {
	text := strings.TrimSpace(string(line[s.from:s.to]))
	switch text {
	case "", "-", "–", "--", "---", "n/a", "na", "n.a.", "tbd", "tba", "/":
		return cellValue{missing: true, item: item{figure: figure{from: s.from, to: s.to}, end: s.to}}, true
	}
	list := items(line, s.from, s.to, c)
	if len(list) == 0 || math.IsNaN(list[0].value) {
		return cellValue{}, false
	}
	before := strings.TrimSpace(list[0].before)
	if before != "" && before != "±" && before != "+/-" && before != "~" && before != "ca." && before != "$" && before != "€" && before != "£" {
		return cellValue{}, false
	}
	rest := strings.TrimSpace(string(line[list[0].end:s.to]))
	if rest != "" && !strings.HasPrefix(rest, "(") && !strings.HasPrefix(rest, "±") && !strings.HasPrefix(rest, "+/-") {
		return cellValue{}, false
	}
	return cellValue{item: list[0]}, true
}

// wattsIn reads a cell such as "500 W RMS".
func wattsIn(line []rune, s span, c convention) (cellValue, bool) {
	list := items(line, s.from, s.to, c)
	if len(list) != 1 || !list[0].hasUnit || list[0].unit.dim != dimPower || strings.TrimSpace(list[0].before) != "" {
		return cellValue{}, false
	}
	rest := strings.TrimSpace(string(line[list[0].end:s.to]))
	return cellValue{item: list[0]}, rest == "rms" || rest == "(rms)" || rest == "cont." || rest == "continuous"
}

// unitIn reads a cell that holds a unit and no more.
func unitIn(line []rune, s span) (sheetUnit, bool) {
	from, to := s.from, s.to
	for from < to && strings.ContainsRune("([{", line[from]) {
		from++
	}
	u, end, ok := unitAt(line[:to], from)
	if !ok || strings.Trim(string(line[end:to]), ")]} .") != "" {
		return sheetUnit{}, false
	}
	return u, true
}

// tableValue turns a cell into the value of a label.
func tableValue(l found, v cellValue, column sheetUnit, hasColumn bool) verdictOn {
	unit, has := v.unit, v.hasUnit
	if !has && hasColumn {
		unit, has = column, true
	}
	out := verdictOn{doubt: l.doubt, end: v.end}
	if v.doubt != "" && out.doubt == "" {
		out.doubt = v.doubt
	}
	if has && unit.dim != l.dim {
		return verdictOn{none: "the unit does not go with it"}
	}
	factor := 1.0
	if has {
		factor = unit.factor
	} else if l.dim != dimNone && l.dim != dimFrequency && l.dim != dimResistance && l.dim != dimForce {
		out.loose = true
	}
	if strings.Contains(v.before, "~") && out.doubt == "" {
		out.doubt = "it is marked as approximate"
	}
	out.values = []float64{v.value * factor}
	return out
}
