// Package columns reads tables of numbers as measuring programs and people
// write them: any usual separator, decimal point or comma, comment lines,
// headings, byte-order marks, units after the figures. It guesses the dialect
// from the whole text, never line by line, and says what it left out. It knows
// nothing about what the numbers mean.
package columns

import (
	"errors"
	"fmt"
	"sort"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// Limits on what is read; a text beyond them is refused, not cut.
const (
	MaxBytes   = 8 << 20
	MaxRows    = 200_000
	MaxColumns = 64
	// maxTold bounds the lists of comments and of skipped lines.
	maxTold = 50
)

// Table is what was read. All columns have the same length.
type Table struct {
	Names   []string    // heading of each column, empty where there is none
	Columns [][]float64 // one slice per column, rows in the order of the text
	Lines   []int       // line number of each row, from 1

	Comments []string  // lines before, between and after the rows; the first 50
	Skipped  []Skipped // lines that look like rows but could not be used; the first 50
	NSkipped int       // how many such lines there were

	Separator    rune   // '\t', ';', ',' or ' ' (any white space)
	DecimalComma bool   // figures are written 6,1
	Doubt        string // a sentence where the text can be read in two ways, else empty
}

// Skipped is a line with figures that was left out.
type Skipped struct {
	Line int
	Text string
	Why  string
}

// Rows returns the number of rows.
func (t Table) Rows() int { return len(t.Lines) }

// Find returns the first column whose heading contains one of the words,
// whatever the case.
func (t Table) Find(words ...string) (int, bool) {
	for _, w := range words {
		for i, name := range t.Names {
			if strings.Contains(strings.ToLower(name), strings.ToLower(w)) {
				return i, true
			}
		}
	}
	return 0, false
}

// Ascending returns the table with its rows in rising order of column x, and
// rows with the same x merged into their mean. It panics when x is no column.
func (t Table) Ascending(x int) Table {
	order := make([]int, t.Rows())
	for i := range order {
		order[i] = i
	}
	key := t.Columns[x]
	sort.SliceStable(order, func(i, j int) bool { return key[order[i]] < key[order[j]] })
	out := t
	out.Columns = make([][]float64, len(t.Columns))
	out.Lines = nil
	for i := 0; i < len(order); {
		j := i
		for j < len(order) && key[order[j]] == key[order[i]] {
			j++
		}
		for c, column := range t.Columns {
			mean := 0.0
			for n, row := range order[i:j] {
				mean += (column[row] - mean) / float64(n+1)
			}
			out.Columns[c] = append(out.Columns[c], mean)
		}
		out.Lines = append(out.Lines, t.Lines[order[i]])
		i = j
	}
	return out
}

// Read reads a table of at least two columns and one row. The error is a
// sentence that says what would do.
func Read(text string) (Table, error) {
	if len(text) > MaxBytes {
		return Table{}, fmt.Errorf("the text is %d MB long; at most %d MB are read", len(text)>>20, MaxBytes>>20)
	}
	lines := splitLines(decode(text))
	d, doubt, ok := guess(lines)
	if !ok {
		return Table{}, errors.New("no rows of at least two numbers were found; each line should hold, for example, a frequency and a value, such as \"20.0 6.15\"")
	}
	return d.read(lines, doubt)
}

// decode undoes UTF-16 with a byte-order mark and drops a UTF-8 one.
func decode(text string) string {
	if len(text) >= 2 && (text[:2] == "\xff\xfe" || text[:2] == "\xfe\xff") {
		high := 0
		if text[0] == 0xff {
			high = 1
		}
		units := make([]uint16, 0, len(text)/2)
		for i := 2; i+1 < len(text); i += 2 {
			units = append(units, uint16(text[i+high])<<8|uint16(text[i+1-high]))
		}
		return string(utf16.Decode(units))
	}
	text = strings.TrimPrefix(text, "\ufeff")
	if !utf8.ValidString(text) {
		text = strings.ToValidUTF8(text, " ")
	}
	return text
}

func splitLines(text string) []string {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	return strings.Split(text, "\n")
}
