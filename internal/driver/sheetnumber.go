package driver

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// foldedLine is a line in the form in which it is read: lower case, one form of
// each mark; place gives the byte in the source text for every rune and the end.
type foldedLine struct {
	runes  []rune
	place  []int
	number int // from 1
	from   int // byte in the source text
}

var foldRunes = map[rune]rune{
	'\u2126': 'ω', 'Ω': 'ω', '²': '2', '³': '3', 'µ': 'u', 'μ': 'u', '″': '"', '”': '"', '“': '"', '„': '"',
	'′': '\'', '’': '\'', '‘': '\'', '`': '\'', '−': '-', '‐': '-', '‑': '-', '⁻': '-', '—': '–', '⋅': '·', '•': '·', '∙': '·', '\u00a0': ' ',
	'\u2009': ' ', '\u202f': ' ', '\u2007': ' ', '⁰': '0', '¹': '1', '⁴': '4', '⁵': '5', '⁶': '6', '⁷': '7', '⁸': '8', '⁹': '9',
	'₀': '0', '₁': '1', '₂': '2', 'ₛ': 's', 'ₜ': 't', 'ₘ': 'm', 'ₐ': 'a', 'ₑ': 'e', 'ₓ': 'x', '：': ':', '＝': '=', '≈': '~', '㎜': '?',
	'\v': ' ', '\f': ' ', '\u200b': ' ', '\ufeff': ' ',
}

// groupMark stands for a thin or fixed space between digits, which groups
// thousands as an ordinary space does not.
const groupMark = '\u202f'

func foldLine(text string, start, number int) foldedLine {
	l := foldedLine{number: number, from: start}
	runes := []rune(text)
	at := start
	for i, r := range runes {
		size := len(string(r))
		put := func(r rune) {
			l.runes = append(l.runes, r)
			l.place = append(l.place, at)
		}
		switch {
		case r == '½' || r == '¼' || r == '¾':
			put('.')
			for _, d := range map[rune]string{'½': "5", '¼': "25", '¾': "75"}[r] {
				put(d)
			}
		case (r == '\u00a0' || r == '\u2009' || r == '\u202f') && i > 0 && i+3 < len(runes) && unicode.IsDigit(runes[i-1]) && threeDigits(runes[i+1:]):
			put(groupMark)
		default:
			if f, ok := foldRunes[r]; ok {
				r = f
			}
			put(unicode.ToLower(r))
		}
		at += size
	}
	l.place = append(l.place, at)
	return l
}

func threeDigits(r []rune) bool {
	n := 0
	for n < len(r) && isDigit(r[n]) {
		n++
	}
	return n == 3
}

// convention tells what a comma and a point mean in the whole text.
type convention struct {
	comma, point bool // seen where it can only be a decimal mark
}

// figure is a number at its place in a line.
type figure struct {
	value    float64
	from, to int
	doubt    string
}

// runAt reads digits and the marks between them.
func runAt(line []rune, i int) (parts []string, marks []rune, end int) {
	part := ""
	for i < len(line) {
		switch r := line[i]; {
		case isDigit(r):
			part += string(r)
		case strings.ContainsRune(".,'", r) || r == groupMark:
			if i+1 >= len(line) || !isDigit(line[i+1]) {
				return append(parts, part), marks, i
			}
			parts, marks, part = append(parts, part), append(marks, r), ""
		default:
			return append(parts, part), marks, i
		}
		i++
	}
	return append(parts, part), marks, i
}

func startsNumber(line []rune, i int) bool {
	if i > 0 && (isWordRune(line[i-1]) || strings.ContainsRune("_^", line[i-1])) {
		return false
	}
	if isDigit(line[i]) {
		// In "O.52" or "l3.1" the mark belongs to a word that is no number.
		return !(i > 1 && strings.ContainsRune(".,", line[i-1]) && isWordRune(line[i-2]))
	}
	return (line[i] == '.' || line[i] == ',') && i+1 < len(line) && isDigit(line[i+1]) && (i == 0 || line[i-1] != '.')
}

// observe notes what the numbers of a line tell about the marks.
func (c *convention) observe(line []rune) {
	for i := 0; i < len(line); i++ {
		if !startsNumber(line, i) {
			continue
		}
		parts, marks, end := runAt(line, i)
		if len(marks) > 0 {
			last := marks[len(marks)-1]
			clear := len(marks) == 1 && (len(parts[1]) != 3 || parts[0] == "0" || parts[0] == "" || len(parts[0]) > 3) ||
				len(marks) > 1 && marks[len(marks)-2] != last
			if clear && last == ',' {
				c.comma = true
			}
			if clear && last == '.' {
				c.point = true
			}
		}
		i = max(i, end-1)
	}
}

// figureAt reads the number that starts at i.
func figureAt(line []rune, i int, c convention) (figure, bool) {
	f := figure{from: i}
	parts, marks, end := runAt(line, i)
	if end-i > 30 {
		return f, false
	}
	text := ""
	switch {
	case len(marks) == 0:
		text = parts[0]
	case len(marks) == 1 && (marks[0] == '.' || marks[0] == ','):
		decimal := true
		if len(parts[1]) == 3 && parts[0] != "" && parts[0] != "0" && len(parts[0]) <= 3 {
			own, other := c.point, c.comma
			if marks[0] == ',' {
				own, other = other, own
			}
			decimal = own || !other
			if own == other {
				f.doubt = "the " + map[rune]string{'.': "point", ',': "comma"}[marks[0]] + " may be a decimal mark or set off thousands"
			}
		}
		text = parts[0] + "." + parts[1]
		if !decimal {
			text = parts[0] + parts[1]
		}
	default:
		last := marks[len(marks)-1]
		body, tail := parts, ""
		if marks[0] != last { // 1.234,5
			body, tail = parts[:len(parts)-1], parts[len(parts)-1]
		}
		for n, p := range body {
			if n > 0 && (len(p) != 3 || marks[n-1] != marks[0]) || n == 0 && (len(p) == 0 || len(p) > 3) {
				return f, false
			}
		}
		text = strings.Join(body, "") + "." + tail
	}
	f.to = end
	exponent := ""
	if e, to, ok := exponentAt(line, end); ok {
		exponent, f.to = e, to
	}
	v, err := strconv.ParseFloat(strings.TrimSuffix(text, ".")+exponent, 64)
	if err != nil || math.IsInf(v, 0) {
		return f, false
	}
	f.value = v
	return f, true
}

// exponentAt reads "e-4", "x10^-4", "· 10-4" behind a number.
func exponentAt(line []rune, i int) (string, int, bool) {
	j := i
	if j < len(line) && line[j] == 'e' {
		j++
	} else {
		for j < len(line) && line[j] == ' ' {
			j++
		}
		if j >= len(line) || !strings.ContainsRune("x×·*", line[j]) {
			return "", 0, false
		}
		j++
		for j < len(line) && line[j] == ' ' {
			j++
		}
		if j+2 >= len(line) || line[j] != '1' || line[j+1] != '0' {
			return "", 0, false
		}
		j += 2
		if line[j] == '^' {
			j++
		} else if line[j] != '-' && line[j] != '+' {
			return "", 0, false
		}
	}
	sign := ""
	if j < len(line) && (line[j] == '-' || line[j] == '+') {
		sign = string(line[j])
		j++
	}
	k := j
	for k < len(line) && isDigit(line[k]) {
		k++
	}
	if k == j || k-j > 3 || k < len(line) && isLetter(line[k]) && line[i] == 'e' {
		return "", 0, false
	}
	return "e" + sign + string(line[j:k]), k, true
}
