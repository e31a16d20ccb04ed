package columns

import (
	"math"
	"strconv"
	"strings"
)

// number is a parsed figure and how it was written.
type number struct {
	value    float64
	grouped  bool // had thousands separators
	fraction bool // had a decimal mark
}

// unitFactor knows the units that measuring programs put after a figure.
func unitFactor(unit string) (float64, bool) {
	switch strings.ToLower(unit) {
	case "hz", "ohm", "ohms", "ω", "Ω", "deg", "°", "db", "dbspl", "ms", "s", "m", "mm", "v", "a", "%":
		return 1, true
	case "khz", "kohm", "kω":
		return 1000, true
	}
	return 0, false
}

// ParseNumber reads one figure as people write it: a sign, digits, one decimal
// mark, thousands separators in threes, an exponent. Words such as NaN and
// hexadecimal are refused, as are figures too large to hold.
func ParseNumber(s string, decimalComma bool) (float64, bool) {
	n, ok := parse(s, decimalComma)
	return n.value, ok
}

func parse(s string, decimalComma bool) (number, bool) {
	var n number
	if len(s) == 0 || len(s) > 64 {
		return n, false
	}
	s = strings.TrimSpace(strings.ReplaceAll(s, "\u2212", "-"))
	end := strings.LastIndexAny(s, "0123456789.,") + 1
	factor := 1.0
	if unit := strings.TrimSpace(s[end:]); unit != "" {
		f, ok := unitFactor(unit)
		if !ok {
			return n, false
		}
		factor = f
	}
	s = strings.TrimSpace(s[:end])
	mantissa, exponent := s, ""
	if i := strings.IndexAny(s, "eE"); i >= 0 {
		mantissa, exponent = s[:i], s[i+1:]
		if !digits(strings.TrimLeft(exponent, "+-")) || len(strings.TrimLeft(exponent, "+-")) < len(exponent)-1 {
			return n, false
		}
	}
	sign := ""
	if strings.HasPrefix(mantissa, "-") || strings.HasPrefix(mantissa, "+") {
		sign, mantissa = mantissa[:1], mantissa[1:]
	}
	mark, group := ".", ","
	if decimalComma {
		mark, group = ",", "."
	}
	whole, fraction, marked := strings.Cut(mantissa, mark)
	// "20." is a figure, but "20," ends a cell of a list.
	if marked && !digits(fraction) && (fraction != "" || decimalComma || whole == "") {
		return n, false
	}
	if strings.Contains(whole, group) {
		parts := strings.Split(whole, group)
		for i, p := range parts {
			if !digits(p) || i > 0 && len(p) != 3 || i == 0 && len(p) > 3 {
				return n, false
			}
		}
		whole = strings.Join(parts, "")
		n.grouped = true
	}
	if whole != "" && !digits(whole) {
		return n, false
	}
	text := sign + whole + "." + fraction
	if exponent != "" {
		text += "e" + exponent
	}
	v, err := strconv.ParseFloat(text, 64)
	v *= factor
	if err != nil || math.IsInf(v, 0) {
		return n, false
	}
	n.value, n.fraction = v, marked
	return n, true
}

// digits tells whether s is one or more plain digits.
func digits(s string) bool {
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return s != ""
}
