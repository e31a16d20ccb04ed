package driver

import (
	"math"
	"strings"
)

// item is a figure with its unit and what stands before it.
type item struct {
	figure
	unit    sheetUnit
	hasUnit bool
	end     int    // behind the unit
	before  string // text between the label or the previous item and the figure
}

// items reads the figures of line[from:to].
func items(line []rune, from, to int, c convention) []item {
	var out []item
	last := from
	for i := from; i < to; i++ {
		if !startsNumber(line, i) {
			continue
		}
		f, ok := figureAt(line, i, c)
		if !ok || f.to > to {
			// A run that is no number, such as 28,32,30: say so by its doubt.
			_, _, end := runAt(line, i)
			f = figure{value: math.NaN(), from: i, to: min(end, to)}
		}
		f = mixed(line, to, f)
		it := item{figure: f, end: f.to, before: string(line[last:f.from])}
		if u, end, ok := unitAt(line, f.to); ok && end <= to {
			it.unit, it.hasUnit, it.end = u, true, end
		} else if u, end, ok := unitCell(line[:to], f.to); ok {
			it.unit, it.hasUnit, it.end = u, true, end
		} else if f.to < to && isLetter(line[f.to]) {
			i = f.to // "2nd", "0hm": a word that begins with a digit
			continue
		} else if f.to+1 < to && strings.ContainsRune(".,", line[f.to]) && isLetter(line[f.to+1]) {
			it.doubt = "the figure runs into a letter"
		}
		out = append(out, it)
		last = it.end
		i = max(i, it.end-1)
	}
	return out
}

// mixed reads the fraction of an imperial figure: 6 1/2", 6-1/2", 3/4 in.
func mixed(line []rune, to int, f figure) figure {
	number := func(i int) (float64, int) {
		v, j := 0.0, i
		for j < to && isDigit(line[j]) && j-i < 3 {
			v, j = v*10+float64(line[j]-'0'), j+1
		}
		return v, j
	}
	top, i := f.value, f.to
	whole := 0.0
	if i+1 < to && (line[i] == ' ' || line[i] == '-') && isDigit(line[i+1]) {
		whole = f.value
		top, i = number(i + 1)
	}
	if i+1 >= to || line[i] != '/' || !isDigit(line[i+1]) || whole != math.Trunc(whole) {
		return f
	}
	bottom, end := number(i + 1)
	u, _, ok := unitAt(line[:to], end)
	if !ok || u.factor != 25.4 || u.dim != dimLength || !(top < bottom) || bottom > 64 {
		return f
	}
	f.value, f.to = whole+top/bottom, end
	return f
}

// unitCell reads a unit that stands in the next cell of a table, by itself.
func unitCell(line []rune, i int) (sheetUnit, int, bool) {
	j := i
	for j < len(line) && strings.ContainsRune(" \t|", line[j]) {
		j++
	}
	if j+1 < len(line) && (line[j] == '[' || line[j] == '(') {
		closer := map[rune]rune{'[': ']', '(': ')'}[line[j]]
		if u, end, ok := unitAt(line, j+1); ok && end < len(line) && line[end] == closer {
			return u, end + 1, true
		}
	}
	if j == i || !strings.ContainsAny(string(line[i:j]), "\t|") && j-i < 2 {
		return sheetUnit{}, 0, false
	}
	u, end, ok := unitAt(line, j)
	if !ok {
		return u, 0, false
	}
	rest := strings.TrimLeft(string(line[end:]), " ")
	return u, end, rest == "" || strings.IndexAny(rest, "\t|") == 0
}

// verdictOn is what a label and the text behind it give.
type verdictOn struct {
	values []float64 // more than one where the line has a value per model
	doubt  string
	note   string
	none   string // why nothing was taken, where values is empty
	end    int
	loose  bool // the unit was not stated, the customary one assumed
	weak   bool // words that are not understood stand before the figure
}

// judge reads the value of a label from the items behind it.
func judge(l found, line []rune, list []item) verdictOn {
	if len(list) == 0 {
		return verdictOn{none: "no figure follows it"}
	}
	list = afterConditions(l, list)
	out := verdictOn{doubt: l.doubt, end: list[0].end}
	doubt := func(s string) {
		if out.doubt == "" {
			out.doubt = s
		}
	}
	first := list[0]
	if math.IsNaN(first.value) {
		return verdictOn{none: "the figures run together"}
	}
	if l.dim == dimPower {
		return judgePower(l, line, list)
	}
	between := first.before
	stated, inBetween := statedUnit(between)
	if odd := strangeWords(between); odd != "" {
		doubt("\"" + odd + "\" stands between the name and the figure")
		out.weak = true
	}
	if strings.ContainsAny(between, "<>") {
		doubt("it is a limit, not a value")
	}
	if strings.Contains(between, "~") {
		doubt("it is marked as approximate")
	}
	if negative(between) && l.dim != dimLength {
		return verdictOn{none: "the figure is negative"}
	}

	unit := first.unit
	has := first.hasUnit
	if !has && inBetween {
		unit, has = stated, true
	}
	if has && unit.dim != l.dim {
		return verdictOn{none: "the unit does not go with it"}
	}
	factor := 1.0
	switch {
	case has:
		factor = unit.factor
	case l.key == KeySize:
		factor, out.loose = 25.4, true
	case l.dim == dimNone || l.dim == dimFrequency || l.dim == dimResistance || l.dim == dimForce:
	default:
		out.loose = true
	}
	base := first.value * factor
	if first.doubt != "" {
		doubt(first.doubt)
	}
	out.values = []float64{base}

	for _, next := range list[1:] {
		gap := strings.TrimSpace(next.before)
		other := base
		if gap == "x" || gap == "×" || gap == "*" || gap == "+" {
			doubt("two figures are joined by \"" + gap + "\"")
			return out
		}
		switch {
		case next.hasUnit && next.unit.dim == l.dim:
			other = next.value * next.unit.factor
		case next.hasUnit:
			return out // of something else
		default:
			other = next.value * factor
		}
		switch {
		case gap == "±" || gap == "+/-" || gap == "+-" || gap == "(±" || gap == "(+/-":
			out.end = next.end
			return out // its tolerance
		case next.hasUnit && next.unit.dim == l.dim && has && (next.unit.factor != unit.factor):
			// The same in another unit: it must say the same.
			if math.Abs(other/base-1) > 0.04 {
				doubt("the figure in the other unit says something else")
			}
			out.end = next.end
			return out
		case gap == "-" || gap == "–" || gap == "to" || gap == "bis" || gap == "..." || gap == "…" || gap == "..":
			out.values = []float64{(base + other) / 2}
			out.end = next.end
			doubt("it is a range; its middle is shown")
			return out
		case !next.hasUnit && l.dim != dimNone && strangeGap(gap):
			return out // a remark: "30 Hz, after 20 hours"
		case strangeGap(gap):
			return out
		}
		out.values = append(out.values, other)
		out.end = next.end
	}
	return out
}

// afterConditions drops the figures that say under what conditions a value
// holds, as the first two of "Sensitivity (1 W, 1 m): 87 dB".
func afterConditions(l found, list []item) []item {
	for n, it := range list {
		if it.hasUnit && it.unit.dim == l.dim {
			if n > 0 {
				it.before = ""
			}
			return append([]item{it}, list[n+1:]...)
		}
		if !it.hasUnit || it.unit.dim == l.dim || l.dim != dimLevel && !containsAny(list[0].before, "(", "@", "at ", "[", "bei ") {
			break
		}
	}
	return list
}

// strangeGap tells whether the text between two figures means that the second
// is not another value of the same thing.
func strangeGap(gap string) bool {
	for _, w := range splitWords([]rune(gap)) {
		if _, _, ok := unitAt([]rune(w.text), 0); !ok {
			return true
		}
	}
	return strings.ContainsAny(gap, "@=(:")
}

// statedUnit finds a unit between a label and its figure: "Fs (Hz): 28".
func statedUnit(text string) (sheetUnit, bool) {
	line := []rune(text)
	for i := range line {
		if i > 0 && isWordRune(line[i-1]) {
			continue
		}
		if line[i] == ' ' || line[i] == '"' && i == 0 {
			continue
		}
		if u, end, ok := unitAt(line, i); ok {
			rest := strings.TrimSpace(string(line[end:]))
			opened := i > 0 && strings.ContainsRune("([{/", line[i-1])
			if opened || rest == "" || strings.IndexAny(rest, ":=|\t)].") == 0 {
				if u.folded != "a" && u.folded != "n" && (u.dim != dimOther || opened) {
					return u, true
				}
			}
		}
	}
	return sheetUnit{}, false
}

// strangeWords returns the first word between a label and its figure that
// tables of names and units do not explain.
func strangeWords(text string) string {
	runes := []rune(text)
	past := 0 // behind the last unit
	for _, w := range splitWords(runes) {
		if fillers[w.text] || w.from < past {
			continue
		}
		if _, end, ok := unitAt(runes, w.from); ok && end >= w.to {
			past = end
			continue
		}
		return w.text
	}
	return ""
}

func negative(between string) bool {
	t := strings.TrimRight(between, " ")
	return strings.HasSuffix(t, "-") && len(t) >= 2 && strings.ContainsRune(" :=\t", rune(t[len(t)-2])) && !strings.HasSuffix(between, " ")
}

// judgePower picks the continuous rating among several figures in watts.
func judgePower(l found, line []rune, list []item) verdictOn {
	own := string(line[l.from:l.to])
	best := verdictOn{none: "no continuous rating is stated"}
	watts, crowded := false, false
	for i, it := range list {
		watts = watts || it.hasUnit && it.unit.dim == dimPower
		// "500/1000 W": which is which stands elsewhere, if at all.
		gap := strings.TrimSpace(it.before)
		crowded = crowded || i > 0 && (!it.hasUnit || it.unit.dim == dimPower) && !list[i-1].hasUnit && gap != "x" && gap != "×" ||
			i > 0 && it.hasUnit && it.unit.dim == dimPower && list[i-1].hasUnit && list[i-1].unit.dim == dimPower && len(splitWords([]rune(gap))) == 0
	}
	stated, inBefore := statedUnit(list[0].before)
	inBefore = inBefore && stated.dim == dimPower
	for i, it := range list {
		if !it.hasUnit && watts {
			continue
		}
		if it.hasUnit && it.unit.dim != dimPower || math.IsNaN(it.value) {
			continue
		}
		around := it.before
		if i == 0 {
			around = own + " " + around
		} else if cut := strings.LastIndexAny(around, "/,;|"); cut >= 0 {
			around = around[cut:]
		}
		stop := len(line)
		if i+1 < len(list) {
			stop = list[i+1].from
		}
		after := string(line[it.end:stop])
		// A word after the figure belongs to it unless a separator stands first.
		if cut := strings.IndexAny(after, "/,;|"); cut >= 0 {
			after = after[:cut]
		}
		text := around + " " + after + " " + it.unit.folded
		continuous := saysContinuous(text) || strings.HasPrefix(own, "pe") && !strings.HasPrefix(own, "peak") || own == "p e"
		peak := containsAny(text, "peak", "max", "music", "musik", "program", "pmpo", "spitze")
		factor := 1.0
		if it.hasUnit {
			factor = it.unit.factor
		}
		if peak && !continuous {
			continue
		}
		v := verdictOn{values: []float64{it.value * factor}, end: it.end, loose: !it.hasUnit && !inBefore, doubt: it.doubt}
		if crowded {
			v.doubt = "several ratings stand here"
		}
		if !it.hasUnit && strings.TrimSpace(own) == "rms" {
			v.doubt = "it may be watts or the mechanical resistance"
		}
		if odd := strangeWords(it.before); odd != "" && v.doubt == "" && i == 0 {
			v.doubt = "\"" + odd + "\" stands between the name and the figure"
		}
		if peak && continuous {
			v.doubt = "both the continuous and the peak rating are named here"
		}
		if !continuous && v.doubt == "" {
			v.doubt = "the sheet does not say whether this is the continuous rating"
		}
		if len(best.values) == 0 || continuous {
			best = v
		}
		if continuous {
			break
		}
	}
	return best
}

// saysContinuous tells whether the words are those of a thermal rating.
func saysContinuous(text string) bool {
	return containsAny(strings.ToLower(text), "rms", "contin", "nominal", "nenn", "rated", "aes", "thermal", "noise", "dauer")
}

func containsAny(s string, words ...string) bool {
	for _, w := range words {
		if strings.Contains(s, w) {
			return true
		}
	}
	return false
}
