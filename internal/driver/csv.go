package driver

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"bootfloor/internal/columns"
)

// Limits on an imported shelf.
const (
	MaxCSVBytes = 2 << 20
	MaxCSVRows  = 2000
	maxCSVName  = 200
)

const columnName = "name"

// WriteCSV writes drivers as comma-separated values (RFC 4180): a heading of
// "name" and the keys, then a line per driver. What is not stated is left
// empty. A name that a spreadsheet would take for a formula gets an apostrophe
// before it, which ReadCSV takes off again.
func WriteCSV(w io.Writer, drivers []Stated) error {
	out := csv.NewWriter(w)
	head := []string{columnName}
	for _, q := range quantities {
		head = append(head, string(q.Key))
	}
	if err := out.Write(head); err != nil {
		return err
	}
	for _, d := range drivers {
		line := []string{guard(d.Name)}
		for _, q := range quantities {
			cell := ""
			if v, ok := d.Values[q.Key]; ok && !math.IsNaN(v) && !math.IsInf(v, 0) {
				cell = strconv.FormatFloat(v, 'f', -1, 64)
			}
			line = append(line, cell)
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// guarded are the marks with which a spreadsheet begins a formula, and the
// apostrophe itself so that taking one off is always right.
const guarded = "=+-@\t\r'"

func guard(name string) string {
	if name != "" && strings.ContainsRune(guarded, rune(name[0])) {
		return "'" + name
	}
	return name
}

func unguard(name string) string {
	if len(name) > 1 && name[0] == '\'' && strings.ContainsRune(guarded, rune(name[1])) {
		return name[1:]
	}
	return name
}

// ReadCSV reads drivers from text with a heading of "name" and keys, in any
// order; separated by commas, semicolons or tabs, with decimal points or, where
// the separator is not a comma, commas. The notes name each line or column that
// could not be used and why; the error is a sentence where nothing could.
func ReadCSV(text string) ([]Stated, []string, error) {
	if len(text) > MaxCSVBytes {
		return nil, nil, fmt.Errorf("the file is larger than %d MB; a shelf of drivers is far smaller", MaxCSVBytes>>20)
	}
	if !utf8.ValidString(text) {
		return nil, nil, errors.New("the file is not plain text in UTF-8; save it as CSV UTF-8")
	}
	text = strings.TrimPrefix(text, "\ufeff")
	first, _, _ := strings.Cut(text, "\n")
	separator := ','
	for _, s := range ";\t" {
		if strings.Count(first, string(s)) > strings.Count(first, string(separator)) {
			separator = s
		}
	}
	in := csv.NewReader(strings.NewReader(text))
	in.Comma = separator
	in.FieldsPerRecord = -1
	in.TrimLeadingSpace = separator != '\t'

	head, err := in.Read()
	if err != nil {
		return nil, nil, errors.New("the file has no heading: its first line must name the columns, such as name,fs_hz,qts,vas_l")
	}
	keys, notes, err := csvHeading(head)
	if err != nil {
		return nil, notes, err
	}
	var out []Stated
	for {
		record, err := in.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			line := 0
			var bad *csv.ParseError
			if errors.As(err, &bad) {
				line = bad.Line
			}
			notes = append(notes, fmt.Sprintf("Line %d could not be read (a quotation mark out of place); what follows it was left out.", line))
			break
		}
		line, _ := in.FieldPos(0)
		if len(out) >= MaxCSVRows {
			notes = append(notes, fmt.Sprintf("Only the first %d drivers were read.", MaxCSVRows))
			break
		}
		d, say := csvRow(record, keys, separator != ',')
		if say != "" {
			if len(notes) < 50 {
				notes = append(notes, fmt.Sprintf("Line %d was left out: %s.", line, say))
			}
			continue
		}
		if d.Name == "" && len(d.Values) == 0 {
			continue
		}
		out = append(out, d)
	}
	if len(out) == 0 {
		return nil, notes, errors.New("the file holds no driver that could be used")
	}
	return out, notes, nil
}

// csvHeading finds the key of each column; empty where there is none.
func csvHeading(head []string) ([]Key, []string, error) {
	keys := make([]Key, len(head))
	var notes []string
	named, known := false, 0
	seen := map[Key]bool{}
	for i, h := range head {
		k := Key(strings.ToLower(strings.TrimSpace(h)))
		_, ok := quantityByKey[k]
		switch {
		case k == columnName && !named:
			named = true
			keys[i] = k
		case ok && !seen[k]:
			seen[k] = true
			keys[i] = k
			known++
		case k != "" && len(notes) < 50:
			notes = append(notes, fmt.Sprintf("Column %d (%q) is not known or stands twice; it was not used.", i+1, clipName(h)))
		}
	}
	if !named || known == 0 {
		return nil, notes, errors.New("the heading must hold \"name\" and at least one key such as fs_hz, qts, vas_l, sd_cm2 or re_ohm; export the shelf once to see them all")
	}
	return keys, notes, nil
}

func clipName(s string) string {
	s = strings.TrimSpace(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, s))
	if r := []rune(s); len(r) > maxCSVName {
		return string(r[:maxCSVName])
	}
	return s
}

// csvRow reads one driver; say tells why it cannot be used.
func csvRow(record []string, keys []Key, mayComma bool) (Stated, string) {
	d := Stated{Values: map[Key]float64{}}
	for i, cell := range record {
		cell = strings.TrimSpace(cell)
		if i >= len(keys) || keys[i] == "" || cell == "" {
			continue
		}
		if keys[i] == columnName {
			d.Name = clipName(unguard(cell))
			continue
		}
		v, ok := columns.ParseNumber(cell, false)
		if mayComma && strings.Contains(cell, ",") {
			v, ok = columns.ParseNumber(cell, true)
		}
		if !ok {
			return d, fmt.Sprintf("%q under %s is not a number", clipName(cell), keys[i])
		}
		d.Values[keys[i]] = v
	}
	// The bounds are those of a driver that is typed in.
	if findings, err := checkRanges(d); err != nil {
		return d, strings.TrimSuffix(findings[len(findings)-1].Say, ".")
	}
	return d, ""
}
