package job

import (
	"math"
	"reflect"
	"strconv"
	"strings"
	"sync"
)

// Limit is what the document allows at one place, for the page's fields and
// sliders. A star in At stands for the number of a list element.
type Limit struct {
	At    string  `json:"at"`    // pattern of a JSON pointer, as /subs/*/box/net_l
	Label string  `json:"label"` // plain words, with their article
	Unit  string  `json:"unit,omitempty"`
	Min   float64 `json:"min"`
	Max   float64 `json:"max"`
	// UsualMin and UsualMax bound what is commonly met; both are zero where
	// no such span is claimed. A value outside draws a warning.
	UsualMin float64  `json:"usual_min,omitempty"`
	UsualMax float64  `json:"usual_max,omitempty"`
	Whole    bool     `json:"whole,omitempty"`   // whole numbers only
	ZeroOff  bool     `json:"zero,omitempty"`    // zero is allowed as well and means: none, or not stated
	Choices  []string `json:"choices,omitempty"` // the words allowed, for a text value
	Text     int      `json:"text,omitempty"`    // longest text in characters, for free text
}

// A rule names a field of one part of the document by its key. The value is
// found by that key, so that a rule cannot be about one field and read another.

// number is the rule of one numeric field.
type number struct {
	key   string // last part of the pointer
	label string
	unit  string
	min   float64
	max   float64

	usualMin, usualMax float64
	isWhole, zeroOff   bool
	when               func(part any) bool // nil means always
}

func num(key, label, unit string, min, max float64) number {
	return number{key: key, label: label, unit: unit, min: min, max: max}
}

// count is the rule of a whole-number field.
func count(key, label string, min, max float64) number {
	n := num(key, label, "", min, max)
	n.isWhole = true
	return n
}

// usual adds the span outside which a value draws a warning.
func (n number) usual(min, max float64) number {
	n.usualMin, n.usualMax = min, max
	return n
}

// orZero allows zero beside the span.
func (n number) orZero() number { n.zeroOff = true; return n }

// onlyIf reads the field only where the condition holds.
func (n number) onlyIf(when func(part any) bool) number { n.when = when; return n }

// is makes a condition on one kind of part one that a rule can hold.
func is[T any](f func(*T) bool) func(part any) bool {
	return func(part any) bool { return f(part.(*T)) }
}

// word is the rule of a field that holds one of a few words.
type word struct {
	key, label string
	choices    []string
	mayBeEmpty bool
	when       func(part any) bool
}

// text is the rule of a field that holds free text.
type text struct {
	key, label string
	longest    int
}

// sheet is all rules of one part of the document.
type sheet struct {
	numbers []number
	words   []word
	texts   []text
}

func (s sheet) limits(prefix string) []Limit {
	var out []Limit
	for _, n := range s.numbers {
		out = append(out, Limit{At: prefix + "/" + n.key, Label: n.label, Unit: n.unit, Min: n.min, Max: n.max,
			UsualMin: n.usualMin, UsualMax: n.usualMax, Whole: n.isWhole, ZeroOff: n.zeroOff})
	}
	for _, w := range s.words {
		out = append(out, Limit{At: prefix + "/" + w.key, Label: w.label, Choices: w.choices})
	}
	for _, t := range s.texts {
		out = append(out, Limit{At: prefix + "/" + t.key, Label: t.label, Text: t.longest})
	}
	return out
}

// check applies the sheet to one part of the document, a pointer to a struct,
// which stands at prefix.
func (s sheet) check(c *checker, prefix string, part any) {
	v := reflect.ValueOf(part).Elem()
	fields := fieldsOf(v.Type())
	field := func(key string) reflect.Value {
		i, ok := fields[key]
		if !ok {
			panic("job: a rule for " + key + ", which " + v.Type().Name() + " does not have")
		}
		return v.Field(i)
	}
	for i := range s.numbers {
		n := &s.numbers[i]
		if n.when != nil && !n.when(part) {
			continue
		}
		if x, ok := float(field(n.key)); ok && !(n.zeroOff && x == 0) {
			n.check(c, prefix+"/"+n.key, x)
		}
	}
	for _, w := range s.words {
		x := field(w.key).String()
		if (w.when != nil && !w.when(part)) || (x == "" && w.mayBeEmpty) || has(w.choices, x) {
			continue
		}
		at := prefix + "/" + w.key
		c.errorf(at, "%s is %s; it must be one of: %s.", c.name(at, w.label), quote(x), strings.Join(w.choices, ", "))
	}
	for _, t := range s.texts {
		c.text(prefix+"/"+t.key, t.label, field(t.key).String(), t.longest)
	}
}

func (n *number) check(c *checker, at string, v float64) {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		c.errorf(at, "%s is not a number; give one from %s to %s.", c.name(at, n.label), Number(n.min, ""), Number(n.max, n.unit))
	case v < n.min || v > n.max:
		or := ""
		if n.zeroOff {
			or = ", or 0 for none"
		}
		c.errorf(at, "%s is %s; it must be from %s to %s%s.", c.name(at, n.label), Number(v, n.unit), Number(n.min, ""), Number(n.max, n.unit), or)
	case n.isWhole && v != math.Trunc(v):
		c.errorf(at, "%s is %s; it must be a whole number.", c.name(at, n.label), Number(v, n.unit))
	case n.usualMin != n.usualMax && (v < n.usualMin || v > n.usualMax):
		c.warnf(at, "%s is %s, which is unusual; %s to %s is commonly met. Check the value.", c.name(at, n.label), Number(v, n.unit), Number(n.usualMin, ""), Number(n.usualMax, n.unit))
	}
}

// float reads a numeric field; an absent one is not ok.
func float(v reflect.Value) (x float64, ok bool) {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return 0, false
		}
		v = v.Elem()
	}
	if v.CanInt() {
		return float64(v.Int()), true
	}
	return v.Float(), true
}

// fieldNumbers remembers, for each type, where the field of each key is.
var fieldNumbers sync.Map // reflect.Type to map[string]int

func fieldsOf(t reflect.Type) map[string]int {
	if m, ok := fieldNumbers.Load(t); ok {
		return m.(map[string]int)
	}
	m := make(map[string]int, t.NumField())
	for i := range t.NumField() {
		key, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		m[key] = i
	}
	fieldNumbers.Store(t, m)
	return m
}

func has(list []string, v string) bool {
	for _, s := range list {
		if s == v {
			return true
		}
	}
	return false
}

// quote shows a text from outside: quoted, with control characters escaped,
// and cut short.
func quote(s string) string {
	if s == "" {
		return "empty"
	}
	const longest = 40
	if r := []rune(s); len(r) > longest {
		s = string(r[:longest]) + "..."
	}
	return strconv.Quote(s)
}

// Limits returns what the document allows at each place, in document order of
// its parts.
func Limits() []Limit {
	var out []Limit
	add := func(l []Limit) { out = append(out, l...) }
	add(rootRules.limits(""))
	add(airRules.limits("/air"))
	add(carRules.limits("/car"))
	add(cabinRules.limits("/car/cabin"))
	add(stationRules.limits("/car/cabin/stations/*"))
	add(bootRules.limits("/car/boot"))
	add(finishRules.limits("/car/finish"))
	add(openingRules.limits("/car/openings/*"))
	add(seatRules.limits("/car/seats/*"))
	add(learnedRules.limits("/car/learned"))
	add(subRules.limits("/subs/*"))
	add(driverRules.limits("/subs/*/driver"))
	add(boxRules.limits("/subs/*/box"))
	add(portRules.limits("/subs/*/box/port"))
	add(portRules.limits("/subs/*/box/front"))
	add(passiveRules.limits("/subs/*/box/passive"))
	add(segmentRules.limits("/subs/*/box/line/*"))
	add(aperiodicRules.limits("/subs/*/box/vent"))
	add(placeRules.limits("/subs/*/place"))
	add(channelRules.limits("/subs/*/channel"))
	add(filterRules.limits("/subs/*/channel/filters/*"))
	add(amplifierRules.limits("/subs/*/channel/amplifier"))
	add(doorRules.limits("/doors"))
	add(driverRules.limits("/doors/driver"))
	add(placeRules.limits("/doors/place"))
	add(channelRules.limits("/doors/channel"))
	add(filterRules.limits("/doors/channel/filters/*"))
	add(amplifierRules.limits("/doors/channel/amplifier"))
	add(aimRules.limits("/aim"))
	add(toleranceRules.limits("/tolerance"))
	return out
}
