package advise

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf16"
)

// Chip is one thing understood in a typed line.
type Chip struct {
	Key   string `json:"key"` // size_in | count | type | net_l | power_w | tuning_hz | body
	Text  string `json:"text"`
	Say   string `json:"say"`   // what it was taken for, in words
	Value any    `json:"value"` // a number, or the key of a type or body
	// Span is where it stands, in UTF-16 units, as pages count text.
	Span [2]int `json:"span"`
	// Doubtful marks a guess; Why says what was guessed.
	Doubtful bool   `json:"doubtful"`
	Why      string `json:"why,omitempty"`
}

// Piece is a part of a line that was not understood.
type Piece struct {
	Text string `json:"text"`
	Span [2]int `json:"span"`
	Why  string `json:"why,omitempty"`
}

// Line is what one typed line says.
type Line struct {
	Chips   []Chip       `json:"chips"`
	Unknown []Piece      `json:"unknown"`
	Request QuickRequest `json:"request"`
}

// longestLine is how much of a line is read, in characters.
const longestLine = 300

// litresPerCubicFoot is exact: a foot is 0.3048 m (1959 agreement).
const litresPerCubicFoot = 28.316846592

// sizesIn are the nominal driver sizes (inches) that a bare number is taken
// for. Common practice.
var sizesIn = []float64{6.5, 8, 10, 12, 13, 13.5, 15, 18, 21}

// ParseLine reads a request typed in plain trade words, in any order: size,
// number of drivers, box type, air, power, body style. It never fails: what
// makes no sense comes back as unknown.
func ParseLine(text string) Line {
	p := &parser{tokens: tokens(text), chips: []Chip{}, unknown: []Piece{}}
	p.spans(text)
	for p.at < len(p.tokens) {
		if !p.step() {
			t := p.tokens[p.at]
			p.at++
			if !fillers[t.word] {
				p.miss(p.at-1, p.at, "")
			}
		}
	}
	p.request.Nothing = len(p.chips) == 0 && strings.TrimSpace(text) != ""
	return Line{Chips: p.chips, Unknown: p.unknown, Request: p.request}
}

type parser struct {
	tokens  []token
	at      int
	text    []rune
	offset  []int // UTF-16 offset of each rune, and the end
	chips   []Chip
	unknown []Piece
	request QuickRequest
}

func (p *parser) spans(text string) {
	p.text = []rune(text)
	n := 0
	for _, r := range p.text {
		p.offset = append(p.offset, n)
		n += max(utf16.RuneLen(r), 1)
	}
	p.offset = append(p.offset, n)
}

// piece returns the text and the span of tokens from a up to b.
func (p *parser) piece(a, b int) (string, [2]int) {
	from, to := p.tokens[a].from, p.tokens[b-1].to
	return string(p.text[from:to]), [2]int{p.offset[from], p.offset[to]}
}

func (p *parser) miss(a, b int, why string) {
	text, span := p.piece(a, b)
	p.unknown = append(p.unknown, Piece{text, span, why})
}

// has tells whether a key has been read before.
func (p *parser) has(key string) bool {
	for _, c := range p.chips {
		if c.Key == key {
			return true
		}
	}
	return false
}

// word returns the word n tokens ahead, or "".
func (p *parser) word(n int) string {
	if i := p.at + n; i >= 0 && i < len(p.tokens) {
		return p.tokens[i].word
	}
	return ""
}

// number returns the number n tokens ahead.
func (p *parser) number(n int) (float64, bool) {
	if i := p.at + n; i >= 0 && i < len(p.tokens) && p.tokens[i].isNumber {
		return p.tokens[i].value, true
	}
	return 0, false
}

// take makes the next n tokens a chip; the second of a kind is not understood.
func (p *parser) take(n int, key, say string, value any, why string) bool {
	a := p.at
	p.at += n
	if p.has(key) {
		p.miss(a, p.at, "The line has said that already.")
		return true
	}
	text, span := p.piece(a, p.at)
	p.chips = append(p.chips, Chip{Key: key, Text: text, Say: say, Value: value, Span: span, Doubtful: why != "", Why: why})
	r := &p.request
	switch key {
	case "size_in":
		r.SizeIn = value.(float64)
	case "count":
		r.Count = int(value.(float64))
	case "net_l":
		r.NetL = value.(float64)
	case "power_w":
		r.PowerW = value.(float64)
	case "tuning_hz":
		r.TuningHz = value.(float64)
	case "type":
		r.Type = value.(string)
	case "body":
		r.Body = value.(string)
	}
	return true
}

// step reads what stands next, if anything is understood there.
func (p *parser) step() bool {
	return p.tuned() || p.phrase() || p.counted() || p.measured() || p.bare()
}

// phrase reads a body style or a box type of one to four words.
func (p *parser) phrase() bool {
	for n := 4; n >= 1; n-- {
		if p.at+n > len(p.tokens) {
			continue
		}
		var words []string
		for _, t := range p.tokens[p.at : p.at+n] {
			words = append(words, t.word+t.digits)
		}
		said := strings.Join(words, " ")
		m, ok := phrases[said]
		why := ""
		if !ok && n == 1 {
			var meant string
			if m, meant, ok = nearPhrase(said); ok {
				why = fmt.Sprintf("Taken for %q.", meant)
			}
		}
		if ok {
			if m.why != "" {
				why = m.why
			}
			return p.take(n, m.key, m.say, m.value, why)
		}
	}
	return false
}

// counted reads how many drivers: "two 12s", "2 x 12", "a pair of tens",
// "12s x 2".
func (p *parser) counted() bool {
	n, ok := p.number(0)
	used := 1
	if !ok {
		if n, ok = numberWords[p.word(0)]; !ok {
			return false
		}
	}
	// "dual 4 ohm" and "two 4 ohm coils" speak of coils, not of drivers.
	if n != math.Trunc(n) || n < 1 || n > mostDrivers {
		return false
	}
	next := p.at + 1
	for next < len(p.tokens) && (p.tokens[next].word == "x" || p.tokens[next].word == "of" || p.tokens[next].word == "off") {
		next++
		used++
	}
	save := p.at
	p.at = next
	size, _, _ := p.size()
	p.at = save
	if size > 0 {
		return p.take(used, "count", countSay(n), n, "")
	}
	return false
}

// countSay says how many drivers.
func countSay(n float64) string {
	if n == 1 {
		return "one driver"
	}
	return fmt.Sprintf("%.0f drivers", n)
}

// mostDrivers is how many a quick answer puts into one box.
const mostDrivers = 8

// size reads a driver size at the present place without taking it: inches, the
// number of tokens it took, and a doubt. Zero inches is none.
func (p *parser) size() (inches float64, n int, why string) {
	if v, ok := plurals[p.word(0)]; ok {
		return v, 1, ""
	}
	v, ok := p.number(0)
	if !ok {
		w, isWord := numberWords[p.word(0)]
		if !isWord || !inchUnits[p.word(1)] || w < 5 {
			return 0, 0, ""
		}
		return w, 2, ""
	}
	switch unit := p.word(1); {
	case inchUnits[unit]:
		if v >= 5 && v <= 24 {
			return v, 2, ""
		}
	case unit == "s" && v >= 5 && v <= 24:
		return v, 2, ""
	case unit == "cm" && v >= 13 && v <= 60:
		return nearestSize(v / 2.54), 2, "Centimetres taken for the nearest size in inches."
	case unit == "mm" && v >= 130 && v <= 600:
		return nearestSize(v / 25.4), 2, "Millimetres taken for the nearest size in inches."
	case volumeUnits[unit] > 0 || powerUnits[unit] > 0 || otherUnits[unit] || isCubic(p.word(1), p.word(2)):
	default:
		for _, s := range sizesIn {
			if v == s {
				return v, 1, ""
			}
		}
	}
	return 0, 0, ""
}

func nearestSize(in float64) float64 {
	best := sizesIn[0]
	for _, s := range sizesIn {
		if math.Abs(s-in) < math.Abs(best-in) {
			best = s
		}
	}
	return best
}

// measured reads a number with its unit.
func (p *parser) measured() bool {
	if in, n, why := p.size(); in > 0 {
		if p.has("size_in") && n == 1 && p.tokens[p.at].isNumber {
			return false // a bare number that must be something else
		}
		say := trimmed(in) + "-inch"
		// "12s x 2"
		if count, ok := p.timesAfter(n); ok && !p.has("count") {
			p.take(n, "size_in", say, in, why)
			return p.take(2, "count", countSay(count), count, "")
		}
		return p.take(n, "size_in", say, in, why)
	}
	v, ok := p.number(0)
	if !ok {
		return false
	}
	v, doubt := p.tokens[p.at].valueFor(p.word(1))
	unit := p.word(1)
	switch {
	case volumeUnits[unit] > 0:
		return p.volume(v*volumeUnits[unit], 2, doubt)
	case isCubic(unit, p.word(2)):
		return p.volume(v*litresPerCubicFoot, 3, doubt)
	case powerUnits[unit] > 0:
		n := 2
		if w := p.word(n); w == "rms" || w == "watts" || w == "watt" || w == "w" {
			n++
		}
		if w := p.word(n); w == "peak" || w == "max" || w == "pmpo" {
			n++
			doubt = "A peak power: the rated power, which counts, is usually half of it or less."
		}
		if unit == "k" {
			doubt = "Taken for kilowatts."
		}
		return p.power(v*powerUnits[unit], n, doubt)
	case otherUnits[unit]:
		why := ""
		if unit == "ohm" || unit == "ohms" {
			why = "The wiring follows from the drivers; change it in the full job."
		}
		p.at += 2
		p.miss(p.at-2, p.at, why)
		return true
	}
	return false
}

// timesAfter reads "x 2" after n tokens.
func (p *parser) timesAfter(n int) (float64, bool) {
	if p.word(n) != "x" {
		return 0, false
	}
	v, ok := p.number(n + 1)
	return v, ok && v == math.Trunc(v) && v >= 1 && v <= mostDrivers
}

func (p *parser) volume(l float64, n int, why string) bool {
	if g := p.word(n); g == "gross" || g == "external" || g == "outside" {
		n++
		why = "Taken for the net air; gross volume is larger by driver, port and braces."
	} else if g == "net" || g == "nett" || g == "internal" {
		n++
	}
	if l < 1 || l > 1000 {
		p.at += n
		p.miss(p.at-n, p.at, "A box holds between 1 and 1000 litres.")
		return true
	}
	l = math.Round(10*l) / 10
	return p.take(n, "net_l", trimmed(l)+" litres of air", l, why)
}

func (p *parser) power(w float64, n int, why string) bool {
	if w < 5 || w > 20000 {
		p.at += n
		p.miss(p.at-n, p.at, "An amplifier for a sub gives between 5 and 20,000 watts.")
		return true
	}
	w = math.Round(w)
	return p.take(n, "power_w", trimmed(w)+" W", w, why)
}

// bare reads a number without a unit by its size.
func (p *parser) bare() bool {
	v, ok := p.number(0)
	if !ok {
		return false
	}
	if v >= 100 && v <= 20000 && !p.has("power_w") {
		return p.power(v, 1, "A number alone: taken for watts.")
	}
	if v >= 15 && v < 100 && !p.has("net_l") {
		return p.volume(v, 1, "A number alone: taken for litres.")
	}
	return false
}

// trimmed writes a number with no more figures than it has.
func trimmed(v float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.1f", v), "0"), ".")
}
