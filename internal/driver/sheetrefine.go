package driver

import (
	"math"
	"strconv"
	"strings"
)

// refine applies what the words around a value say about its meaning.
func (r *sheetReader) refine(l found, line []rune, list []item, to int, v *verdictOn) {
	around := string(line[l.from:to])
	start := l.from
	// Words before the name count as far as the last figure or cell.
	for start > 0 && l.from-start < 24 && !isDigit(line[start-1]) && !strings.ContainsRune("|;\t", line[start-1]) {
		start--
	}
	around = string(line[start:to])
	switch l.key {
	case KeyXmax:
		twice := math.NaN()
		if len(list) > 1 {
			b := list[1].value
			if list[1].hasUnit && list[0].hasUnit {
				b *= list[1].unit.factor / list[0].unit.factor
			}
			twice = b / list[0].value
		}
		switch {
		case math.Abs(twice-2) < 0.02:
			v.note, v.doubt = "stated both ways, the smaller is one way", l.doubt
		case math.Abs(twice-0.5) < 0.005:
			v.values[0] /= 2
			v.note, v.doubt = "stated both ways, the smaller is one way", l.doubt
		case hasWord(around, "total"):
			v.doubt = "it may be the travel both ways together"
		case containsAny(around, "peak-to-peak", "peak to peak", "p-p", "p/p", "p - p", "pk-pk", "both ways", "spitze-spitze", "crête à crête") || hasWord(around, "pp"):
			v.values[0] /= 2
			v.note = "stated peak to peak, halved"
		case containsAny(around, "±", "+/-", "+-", "one way", "one-way", "oneway", "0-peak", "0-p", "einfach"):
			v.note = "stated one way"
		default:
			v.note = "taken as one way"
		}
	case KeyVas, KeySd:
		if containsAny(around, "pair", "two drivers", "both drivers") {
			v.doubt = "it may be that of two drivers"
		}
	case KeyRe:
		if containsAny(around, "per coil", "each coil", "je spule", "par bobine", "/coil", "each") {
			v.doubt = "it is that of one coil; Re is wanted with the coils joined"
		}
	case KeyCoilOhm:
		if n, ohm, ok := coilCount(line, l.to, to, list); ok {
			v.values[0] = ohm
			v.doubt, v.loose = "", false
			r.read[-1] = append(r.read[-1], r.coilsReading(r.lineIndex(line), l.from, list[len(list)-1].end, n))
		}
	case KeySize:
		if list[0].hasUnit && list[0].unit.factor == 1 && list[0].value < 60 {
			v.doubt = "a size in millimetres so small is hardly meant"
		}
	case KeyVolume:
		if containsAny(around, "xmax", "vd") || list[0].hasUnit && list[0].unit.dim == dimVolume && list[0].unit.factor == 1e-3 {
			v.doubt = "it may be the air that the cone moves, not what the driver takes up in the box"
		}
	case keySensitivity:
		v.note = strings.TrimSpace(string(line[list[0].end:to]))
	}
}

func hasWord(text, want string) bool {
	for _, w := range splitWords([]rune(text)) {
		if w.text == want {
			return true
		}
	}
	return false
}

// coilCount reads "2 x 4 ohm", "4 + 4 ohm" and "dual 4 ohm".
func coilCount(line []rune, from, to int, list []item) (int, float64, bool) {
	text := string(line[from:to])
	if len(list) >= 2 {
		a, b := list[0], list[1]
		gap := strings.TrimSpace(b.before)
		switch {
		case (gap == "x" || gap == "×" || gap == "*") && (a.value == 2 || a.value == 4) && !a.hasUnit:
			return int(a.value), b.value, true
		case gap == "+" && a.value == b.value:
			return 2, a.value, true
		}
	}
	if len(list) >= 1 && containsAny(text, "dual", "dvc", "per coil", "each coil", "double") && !math.IsNaN(list[0].value) {
		return 2, list[0].value, true
	}
	return 0, 0, false
}

func (r *sheetReader) coilsReading(i, from, to, n int) Reading {
	out := Reading{Key: KeyCoils, Value: float64(n), Line: r.lines[i].number, Sure: true}
	out.Source, out.From, out.To = r.source(i, from, to)
	return out
}

// lineIndex finds the line that holds the runes.
func (r *sheetReader) lineIndex(line []rune) int {
	for i := range r.lines {
		if len(line) > 0 && len(r.lines[i].runes) > 0 && &r.lines[i].runes[0] == &line[0] {
			return i
		}
	}
	return 0
}

// readCoils reads coils and size from a line of prose, such as a title: "12 inch
// subwoofer, dual 2 ohm voice coils". It takes only what is written out.
func (r *sheetReader) readCoils(i int) bool {
	line := r.lines[i].runes
	text := string(line)
	took := false
	coils, size := true, true // not said under a name of their own
	for _, l := range r.labels[i] {
		coils = coils && l.key != KeyCoilOhm && l.dim != dimResistance
		size = size && l.key != KeySize
	}
	for _, it := range items(line, 0, len(line), r.marks) {
		before := strings.TrimRight(string(line[:it.from]), " -(")
		switch {
		case coils && it.hasUnit && it.unit.dim == dimResistance && containsAny(text, "voice coil", "dvc", "svc", "coils"):
			dual := strings.HasSuffix(before, "dual") || strings.HasSuffix(before, "2 x") || strings.HasSuffix(before, "2x") || strings.HasSuffix(before, "dvc")
			single := strings.HasSuffix(before, "single") || strings.HasSuffix(before, "svc")
			if !dual && !single {
				continue
			}
			n := 1
			if dual {
				n = 2
			}
			coil := Reading{Key: KeyCoilOhm, Value: it.value * it.unit.factor, Line: r.lines[i].number, Sure: true}
			coil.Source, coil.From, coil.To = r.source(i, it.from, it.end)
			r.read[-1] = append(r.read[-1], coil, r.coilsReading(i, it.from, it.end, n))
			took = true
		case size && it.hasUnit && it.unit.dim == dimLength && it.unit.factor == 25.4 && it.value >= 4 && it.value <= 24 && (len(r.labels[i]) == 0 || it.from < r.labels[i][0].from) &&
			containsAny(string(line[it.end:]), "woofer", "driver", "speaker", "bass", "chassis") && !strings.Contains(text, "voice coil diameter"):
			inches := Reading{Key: KeySize, Value: it.value, Line: r.lines[i].number, Sure: true}
			inches.Source, inches.From, inches.To = r.source(i, it.from, it.end)
			r.read[-1] = append(r.read[-1], inches)
			took = true
		}
	}
	if !took && hasWord(text, "dual") && containsAny(text, "dual voice coil") && !hasDigit(line) {
		r.read[-1] = append(r.read[-1], r.coilsReading(i, 0, len(line), 2))
		return true
	}
	return took
}

// tidy takes off the dust of a conversion.
func tidy(v float64) float64 {
	t, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	if err != nil {
		return v
	}
	return t
}
