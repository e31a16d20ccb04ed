package driver

import (
	"fmt"
	"strings"
)

// row is a line of a table with a column per model: a label and its values.
type row struct {
	line    int
	label   found
	unit    sheetUnit
	hasUnit bool
	values  []cellValue
}

// rowAt reads line i as a name followed by nothing but values.
func (r *sheetReader) rowAt(i int) (row, bool) {
	line := r.lines[i].runes
	labels := r.labels[i]
	if r.used[i] || len(labels) == 0 {
		return row{}, false
	}
	out := row{line: i, label: labels[0]}
	first := items(line, labels[0].to, len(line), r.marks)
	for _, l := range labels[1:] {
		// A second name before the first figure is the symbol of the same thing.
		if len(first) > 0 && l.from < first[0].from {
			if l.key == out.label.key && l.dim == out.label.dim || out.label.key == keyIgnored {
				l.from = out.label.from
			}
			out.label = l
		}
	}
	if out.label.key == keyIgnored {
		return row{}, false
	}
	cells := cellsOf(line)
	n := 0
	for n < len(cells) && cells[n].from < out.label.to {
		n++
	}
	if n < len(cells) {
		label := string(line[out.label.to:max(out.label.to, cells[n-1].to)])
		if u, ok := statedUnit(label); ok {
			out.unit, out.hasUnit = u, true
		} else if strings.TrimSpace(strings.Trim(label, ":= .)")) != "" && hasDigit([]rune(label)) {
			return row{}, false
		}
		for _, c := range cells[n:] {
			if u, ok := unitIn(line, c); ok && (u.folded != "n/a" || out.label.dim == dimForce) {
				out.unit, out.hasUnit = u, true
				continue
			}
			v, ok := valueIn(line, c, r.marks)
			if out.label.key == KeyCoilOhm {
				list := items(line, c.from, c.to, r.marks)
				if n, ohm, dual := coilCount(line, c.from, c.to, list); dual {
					last := list[len(list)-1]
					v, ok = cellValue{item: last, coils: n}, true
					v.value = ohm
				}
			}
			if out.label.dim == dimPower && !ok {
				v, ok = wattsIn(line, c, r.marks)
			}
			if !ok {
				if len(out.values) == 0 && len(items(line, c.from, c.to, r.marks)) == 0 {
					continue // a description before the values
				}
				return row{}, false
			}
			out.values = append(out.values, v)
		}
	} else {
		list := items(line, out.label.to, len(line), r.marks)
		for k, it := range list {
			gap := strings.TrimSpace(it.before)
			if k == 0 {
				if u, ok := statedUnit(it.before); ok {
					out.unit, out.hasUnit = u, true
				}
				gap = strings.Trim(gap, ":= ()[]")
				if strangeWords(gap) != "" {
					return row{}, false
				}
				gap = ""
			}
			if gap != "" && gap != "," && gap != "/" {
				return row{}, false
			}
			out.values = append(out.values, cellValue{item: it})
		}
	}
	var unit *sheetUnit
	for k := range out.values {
		v := &out.values[k]
		if v.missing {
			continue
		}
		if v.value != v.value {
			return row{}, false
		}
		if v.hasUnit {
			if unit != nil && unit.factor != v.unit.factor {
				return row{}, false // the same value in two units
			}
			unit = &v.unit
		}
	}
	return out, len(out.values) >= 2
}

func (t row) figures() int {
	n := 0
	for _, v := range t.values {
		if !v.missing {
			n++
		}
	}
	return n
}

// readColumns reads a table with a column per model: three rows or more with
// the same number of values.
func (r *sheetReader) readColumns() {
	count := map[int]int{}
	rows := map[int]row{}
	for i := range r.lines {
		if t, ok := r.rowAt(i); ok && len(t.values) <= maxModels {
			rows[i] = t
			if t.figures() >= 2 {
				count[len(t.values)]++
			}
		}
	}
	width := 0
	for n, c := range count {
		if c >= 3 && (width == 0 || c > count[width] || c == count[width] && n < width) {
			width = n
		}
	}
	if width == 0 {
		return
	}
	// An empty cell between name and values is that of a unit.
	for i, t := range rows {
		for len(t.values) > width && t.values[0].missing {
			t.values = t.values[1:]
		}
		rows[i] = t
	}
	top := -1
	for i := range r.lines {
		if t, ok := rows[i]; ok && len(t.values) == width {
			top = i
			break
		}
	}
	names, headed := r.columnNames(top, width)
	if !headed && 2*count[width] < r.labelled() {
		return // a few lines with two figures make no table
	}
	keep := make([]bool, width)
	for c := range keep {
		keep[c] = !headed || isModelColumn(names[c], names)
	}
	model := make([]int, width)
	for c := range keep {
		if keep[c] {
			model[c] = len(r.names)
			r.names = append(r.names, names[c])
		}
	}
	if len(r.names) == 1 {
		r.names[0] = "" // one model, with a column of tolerances or the like
	}
	for i := range r.lines {
		t, ok := rows[i]
		if !ok || len(t.values) != width {
			continue
		}
		r.used[i] = true
		for c, cell := range t.values {
			if !keep[c] || cell.missing {
				continue
			}
			v := tableValue(t.label, cell, t.unit, t.hasUnit)
			if len(v.values) == 0 {
				r.notUnderstood(i, fmt.Sprintf("%s: %s", r.textOf(i, t.label.from, t.label.to), v.none))
				break
			}
			if !headed && v.doubt == "" {
				v.doubt = "the columns of the table have no names"
			}
			if t.label.dim == dimPower && v.doubt == "" && !saysContinuous(string(r.lines[i].runes)) {
				v.doubt = "the sheet does not say whether this is the continuous rating"
			}
			if cell.coils > 0 {
				r.read[model[c]] = append(r.read[model[c]], r.coilsReading(i, cell.from, cell.end, cell.coils))
			} else {
				r.refine(t.label, r.lines[i].runes, []item{cell.item}, t.values[0].from, &v)
			}
			r.add(model[c], i, t.label, v.values[0], v, cell.from, cell.end)
		}
	}
}

// labelled counts the lines with a name and a figure.
func (r *sheetReader) labelled() int {
	n := 0
	for i, l := range r.lines {
		if len(r.labels[i]) > 0 && hasDigit(l.runes) {
			n++
		}
	}
	return n
}

// columnNames looks above the table for a line with a name per column.
func (r *sheetReader) columnNames(top, width int) ([]string, bool) {
	names := make([]string, width)
	for c := range names {
		names[c] = fmt.Sprintf("column %d", c+1)
	}
	seen := 0
	for i := top - 1; i >= 0 && seen < 4; i-- {
		line := r.lines[i].runes
		if strings.Trim(string(line), " -–|+=\t_") == "" {
			continue
		}
		seen++
		cells := cellsOf(line)
		if len(cells) < width || len(cells) > width+3 {
			cells = fieldsOf(line)
			if len(cells) < width || len(cells) > width+1 {
				continue
			}
		}
		full := true
		for c := range names {
			s := cells[len(cells)-width+c]
			full = full && s.to > s.from
		}
		if !full {
			continue
		}
		for c := range names {
			s := cells[len(cells)-width+c]
			names[c] = r.textOf(i, s.from, s.to)
		}
		r.used[i] = true
		return names, true
	}
	return names, false
}

// fieldsOf splits a line at every blank.
func fieldsOf(line []rune) []span {
	var out []span
	for i := 0; i < len(line); i++ {
		if line[i] == ' ' || line[i] == '\t' {
			continue
		}
		j := i
		for j < len(line) && line[j] != ' ' && line[j] != '\t' {
			j++
		}
		out = append(out, span{i, j})
		i = j
	}
	return out
}

// isModelColumn tells whether a column holds the values of a driver, not their
// tolerance or the same in other units.
func isModelColumn(name string, all []string) bool {
	n := strings.ToLower(name)
	if containsAny(n, "tol", "±", "%", "+/-", "deviation", "unit", "note", "remark") {
		return false
	}
	others := strings.ToLower(strings.Join(all, " "))
	if containsAny(others, "typ", "nom") && containsAny(n, "min", "max") {
		return false
	}
	return !(containsAny(others, "metric", " si ") && containsAny(n, "imperial", "us ", "inch"))
}

// readBlock reads names and values that stand on lines of their own, as text
// copied from a document often does: a name, then its value and perhaps its
// unit; or all the names, then all the values. It returns how many lines it took.
func (r *sheetReader) readBlock(start int) int {
	var names, values []int
	units := map[int]sheetUnit{}
	i := start
	for ; i < len(r.lines) && !r.used[i] && len(names) < 60; i++ {
		if r.blank(i) {
			continue
		}
		if !r.nameOnly(i) {
			break
		}
		names = append(names, i)
	}
	if len(names) == 0 {
		return 0
	}
	end := i
	for ; i < len(r.lines) && !r.used[i] && len(values) <= len(names); i++ {
		if r.blank(i) {
			continue
		}
		line := r.lines[i].runes
		whole := span{0, len(line)}
		if u, ok := unitIn(line, trimmed(line, whole)); ok && len(values) > 0 {
			units[values[len(values)-1]] = u
			end = i + 1
			continue
		}
		if _, ok := valueIn(line, trimmed(line, whole), r.marks); !ok || len(r.labels[i]) > 0 {
			break
		}
		values = append(values, i)
		end = i + 1
	}
	switch {
	case len(values) == 0:
		// Headings and descriptions: nothing to say about them.
		return names[len(names)-1] - start + 1
	case len(values) == 1:
		names = names[len(names)-1:]
	case len(values) != len(names):
		for _, n := range values {
			r.notUnderstood(n, "it cannot be told which name this value belongs to")
		}
		return end - start
	}
	for k, n := range names {
		line := r.lines[values[k]].runes
		l := r.labels[n][len(r.labels[n])-1]
		cell, _ := valueIn(line, trimmed(line, span{0, len(line)}), r.marks)
		if cell.missing || l.key == keyIgnored {
			continue
		}
		unit, has := units[values[k]]
		if !has {
			unit, has = statedUnit(string(r.lines[n].runes[l.to:]))
		}
		v := tableValue(l, cell, unit, has)
		if len(v.values) == 0 {
			r.notUnderstood(values[k], fmt.Sprintf("%s: %s", r.textOf(n, l.from, l.to), v.none))
			continue
		}
		if len(names) > 1 && v.doubt == "" {
			v.doubt = "the names and the values stand apart; paired by their order"
		}
		nameLine := r.lines[n].runes
		r.refine(l, nameLine, []item{cell.item}, len(nameLine), &v)
		r.add(-1, values[k], l, v.values[0], v, cell.from, cell.end)
	}
	return end - start
}

func (r *sheetReader) blank(i int) bool {
	return strings.TrimSpace(string(r.lines[i].runes)) == ""
}

func trimmed(line []rune, s span) span {
	for s.from < s.to && (line[s.from] == ' ' || line[s.from] == '\t') {
		s.from++
	}
	for s.to > s.from && (line[s.to-1] == ' ' || line[s.to-1] == '\t') {
		s.to--
	}
	return s
}

// nameOnly tells whether a line holds names of parameters, perhaps units, and
// neither figures nor anything else.
func (r *sheetReader) nameOnly(i int) bool {
	line := r.lines[i].runes
	if len(r.labels[i]) == 0 || len(items(line, 0, len(line), r.marks)) > 0 {
		return false
	}
	return strangeWords(string(line)) == ""
}
