package advise

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// token is a number or a word of a typed line.
type token struct {
	word     string // lower case, accents off; "" for a number
	isNumber bool
	value    float64
	digits   string // as typed
	from, to int    // in runes
}

// tokens takes a line apart: runs of digits with at most one decimal mark,
// runs of letters, and the few signs that mean something. All else separates.
func tokens(text string) []token {
	rs := []rune(text)
	if len(rs) > longestLine {
		rs = rs[:longestLine]
	}
	var out []token
	for i := 0; i < len(rs); {
		r := rs[i]
		switch {
		case isDigit(r):
			j := i
			for j < len(rs) && (isDigit(rs[j]) || (isMark(rs[j]) && j+1 < len(rs) && isDigit(rs[j+1]))) {
				j++
			}
			out = append(out, numberToken(string(rs[i:j]), i, j))
			i = j
		case r == '½':
			i++
			out = append(out, token{isNumber: true, value: 0.5, digits: "0.5", from: i - 1, to: i})
			if n := len(out); n > 1 && out[n-2].isNumber && out[n-2].to == i-1 {
				out[n-2].value += 0.5
				out[n-2].to = i
				out = out[:n-1]
			}
		case unicode.IsLetter(r):
			j := i
			for j < len(rs) && (unicode.IsLetter(rs[j]) || unicode.Is(unicode.Mn, rs[j])) {
				j++
			}
			w := plain(string(rs[i:j]))
			// "ft3" and "4th" carry a digit or follow one; "ft³" a superscript.
			if w == "ft" || w == "feet" {
				k := j
				if k < len(rs) && rs[k] == '^' {
					k++
				}
				if k < len(rs) && (rs[k] == '3' || rs[k] == '³') {
					w, j = "ft3", k+1
				}
			}
			out = append(out, token{word: w, from: i, to: j})
			i = j
		case r == '"' || r == '″' || r == '”' || r == '“':
			out = append(out, token{word: "inch", from: i, to: i + 1})
			i++
		case (r == '\'' || r == '’' || r == '′') && i+1 < len(rs) && rs[i+1] == r:
			out = append(out, token{word: "inch", from: i, to: i + 2})
			i += 2
		case r == '@':
			out = append(out, token{word: "@", from: i, to: i + 1})
			i++
		case r == '×' || r == '*':
			out = append(out, token{word: "x", from: i, to: i + 1})
			i++
		case r == '\u03a9' || r == '\u2126': // Greek letter, or the sign of the unit
			out = append(out, token{word: "ohm", from: i, to: i + 1})
			i++
		default:
			i++
		}
	}
	return out
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }
func isMark(r rune) bool  { return r == '.' || r == ',' }

// plain lowers a word and takes the accents off that trade words carry.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case 'é', 'è', 'ê', 'É', 'È':
			return 'e'
		}
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return unicode.ToLower(r)
	}, s)
}

// numberToken reads digits with marks; the last mark is the decimal one unless
// the same mark stands twice.
func numberToken(s string, from, to int) token {
	t := token{isNumber: true, digits: s, from: from, to: to}
	last := strings.LastIndexAny(s, ".,")
	clean := s
	if last >= 0 {
		whole := strings.NewReplacer(".", "", ",", "").Replace(s[:last])
		if strings.Count(s, string(s[last])) > 1 {
			clean = whole + s[last+1:]
		} else {
			clean = whole + "." + s[last+1:]
		}
	}
	v, err := strconv.ParseFloat(clean, 64)
	if err != nil || math.IsInf(v, 0) || v > 1e9 {
		v = 1e9
	}
	t.value = v
	return t
}

// valueFor returns the number as its unit suggests, with a doubt: "1,200" is
// twelve hundred of watts, and of anything else a question.
func (t token) valueFor(unit string) (float64, string) {
	i := strings.LastIndexAny(t.digits, ".,")
	if i < 1 || len(t.digits)-i-1 != 3 || t.digits[0] == '0' || strings.Count(t.digits, string(t.digits[i])) > 1 {
		return t.value, ""
	}
	grouped := 1000 * t.value
	if powerUnits[unit] == 1 {
		if t.digits[i] == ',' {
			return grouped, ""
		}
		return grouped, "The point is taken to part thousands."
	}
	return t.value, "The mark is taken for a decimal one."
}
