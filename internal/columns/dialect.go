package columns

import (
	"fmt"
	"strings"
	"unicode"
)

// dialect is one way to read the lines.
type dialect struct {
	separator    rune
	decimalComma bool
	width        int // columns of a row
}

// verdict is how a dialect fares on a text.
type verdict struct {
	dialect
	rows    int // lines that are rows of the commonest width
	grouped int // numbers with thousands separators
	rising  bool
	whole   bool // no number has a decimal mark
}

// comment tells whether a line is one by its first mark.
func comment(line string) bool {
	line = strings.TrimSpace(line)
	if line == "" {
		return true
	}
	return strings.ContainsRune("*#%!/;'", rune(line[0])) || strings.HasPrefix(line, "REM")
}

// guess tries every dialect on the text and picks the one that reads most
// lines, then the one in which the first column runs one way, then the one
// that needs fewest thousands separators.
func guess(lines []string) (dialect, string, bool) {
	const sample = 4000 // lines that are enough to tell
	if len(lines) > sample {
		lines = lines[:sample]
	}
	var best verdict
	var rival *verdict
	for _, separator := range []rune{'\t', ';', ',', ' '} {
		for _, decimalComma := range []bool{false, true} {
			if separator == ',' && decimalComma {
				continue
			}
			v := dialect{separator: separator, decimalComma: decimalComma}.judge(lines)
			if v.rows == 0 || v.rows < best.rows {
				continue
			}
			if v.rows > best.rows {
				best, rival = v, nil
				continue
			}
			if v.separator != best.separator || v.grouped == 0 && best.grouped == 0 {
				continue // equal reading, as of single spaces and tabs
			}
			old := best
			if v.rising != best.rising && v.rising || v.rising == best.rising && v.grouped < best.grouped {
				best, v = v, old
			}
			if v.rising == best.rising {
				rival = &v
			}
		}
	}
	if best.rows == 0 {
		return dialect{}, "", false
	}
	doubt := ""
	switch {
	case rival != nil:
		mark := "decimal points"
		if best.decimalComma {
			mark = "decimal commas"
		}
		doubt = fmt.Sprintf("The marks in the numbers could be decimal marks or thousands separators; they were read as %s.", mark)
	case best.separator == ',' && best.whole && best.width >= 4 && best.width%2 == 0:
		doubt = "The commas could be decimal marks as well as separators; they were read as separators. Use a semicolon or a tab between the columns."
	}
	return best.dialect, doubt, true
}

func (d dialect) judge(lines []string) verdict {
	v := verdict{dialect: d, rising: true, whole: true}
	var count [MaxColumns + 1]int
	for _, line := range lines {
		if comment(line) {
			continue
		}
		if n := d.rowWidth(line); n >= 2 {
			count[n]++
		}
	}
	for n, c := range count {
		if c > 0 && c >= v.rows {
			v.rows, v.width = c, n
		}
	}
	if v.rows == 0 {
		return v
	}
	direction, last, first := 0, 0.0, true
	for _, line := range lines {
		if comment(line) {
			continue
		}
		cells, ok := d.cells(line)
		if !ok || len(cells) != v.width {
			continue
		}
		numbers, ok := d.numbers(cells)
		if !ok {
			continue
		}
		for _, n := range numbers {
			if n.grouped {
				v.grouped++
			}
			if n.fraction {
				v.whole = false
			}
		}
		x := numbers[0].value
		if !first {
			step := 0
			if x > last {
				step = 1
			} else if x < last {
				step = -1
			}
			if step != 0 && direction != 0 && step != direction {
				v.rising = false
			}
			if step != 0 {
				direction = step
			}
		}
		last, first = x, false
	}
	return v
}

// rowWidth returns how many numbers the line holds, 0 where it is not a row.
func (d dialect) rowWidth(line string) int {
	cells, ok := d.cells(line)
	if !ok {
		return 0
	}
	if _, ok := d.numbers(cells); !ok {
		return 0
	}
	return len(cells)
}

// cells splits a line. Empty cells at the end are dropped; ok is false where
// there are too many.
func (d dialect) cells(line string) ([]string, bool) {
	var cells []string
	if d.separator == ' ' {
		cells = strings.FieldsFunc(line, unicode.IsSpace)
		cells = joinUnits(cells)
	} else {
		if strings.Count(line, string(d.separator)) > MaxColumns {
			return nil, false
		}
		cells = strings.Split(line, string(d.separator))
		for i, c := range cells {
			cells[i] = strings.TrimSpace(strings.Trim(strings.TrimSpace(c), `"`))
		}
		for len(cells) > 0 && cells[len(cells)-1] == "" {
			cells = cells[:len(cells)-1]
		}
	}
	return cells, len(cells) <= MaxColumns
}

// joinUnits puts a unit that stands alone back to its figure: "20 Hz 6.1 ohm".
func joinUnits(cells []string) []string {
	out := cells[:0]
	for _, c := range cells {
		if _, ok := unitFactor(c); ok && len(out) > 0 {
			out[len(out)-1] += c
			continue
		}
		out = append(out, c)
	}
	return out
}

func (d dialect) numbers(cells []string) ([]number, bool) {
	out := make([]number, len(cells))
	for i, c := range cells {
		n, ok := parse(c, d.decimalComma)
		if !ok {
			return nil, false
		}
		out[i] = n
	}
	return out, true
}

// read reads all lines in the chosen dialect.
func (d dialect) read(lines []string, doubt string) (Table, error) {
	t := Table{Separator: d.separator, DecimalComma: d.decimalComma, Doubt: doubt, Columns: make([][]float64, d.width)}
	var heading []string
	for i, line := range lines {
		if strings.TrimSpace(line) == "" {
			continue
		}
		cells, fits := d.cells(line)
		numbers, ok := []number(nil), false
		if fits && !comment(line) {
			numbers, ok = d.numbers(cells)
		}
		switch {
		case ok && len(numbers) == d.width:
			if t.Rows() >= MaxRows {
				return Table{}, fmt.Errorf("the table has more than %d rows; thin it out, a few hundred are plenty", MaxRows)
			}
			for c, n := range numbers {
				t.Columns[c] = append(t.Columns[c], n.value)
			}
			t.Lines = append(t.Lines, i+1)
		case !comment(line) && d.figures(cells) >= 1 && t.Rows() > 0:
			t.skip(i+1, line, fmt.Sprintf("it does not hold %d numbers", d.width))
		default:
			if names := d.headings(line); t.Rows() == 0 && len(names) == d.width {
				heading = names
			}
			if len(t.Comments) < maxTold {
				t.Comments = append(t.Comments, clip(strings.TrimSpace(line)))
			}
		}
	}
	t.Names = make([]string, d.width)
	copy(t.Names, heading)
	return t, nil
}

func (d dialect) figures(cells []string) int {
	n := 0
	for _, c := range cells {
		if _, ok := parse(c, d.decimalComma); ok {
			n++
		}
	}
	return n
}

// headings splits a line that may name the columns. Names with spaces in a
// table separated by spaces are told by brackets: "Freq (Hz) Z (ohm)".
func (d dialect) headings(line string) []string {
	line = strings.TrimSpace(strings.TrimLeft(strings.TrimSpace(line), `*#%!/;'`))
	separator := d.separator
	if separator == ' ' {
		for _, s := range []string{"\t", ";", ","} {
			if strings.Count(line, s) == d.width-1 {
				separator = rune(s[0])
			}
		}
	}
	if separator == ' ' {
		var names []string
		for _, w := range strings.Fields(line) {
			if len(names) > 0 && strings.ContainsAny(w[:1], "([") {
				names[len(names)-1] += " " + w
			} else {
				names = append(names, w)
			}
		}
		return clipAll(names)
	}
	names := strings.Split(line, string(separator))
	for i, n := range names {
		names[i] = strings.TrimSpace(strings.Trim(strings.TrimSpace(n), `"`))
	}
	if len(names) == d.width+1 && names[d.width] == "" {
		names = names[:d.width]
	}
	return clipAll(names)
}

func clipAll(names []string) []string {
	for i, n := range names {
		names[i] = clip(n)
	}
	return names
}

func (t *Table) skip(line int, text, why string) {
	t.NSkipped++
	if len(t.Skipped) < maxTold {
		t.Skipped = append(t.Skipped, Skipped{line, clip(strings.TrimSpace(text)), why})
	}
}

// clip shortens what is only shown.
func clip(s string) string {
	const most = 200
	runes := []rune(s)
	if len(runes) <= most {
		return s
	}
	return string(runes[:most]) + "…"
}
