package driver

import "strings"

// column is what the heading of a column asks for.
type column struct {
	label   found
	known   bool
	unit    sheetUnit
	hasUnit bool
	cell    int // place among the cells of the heading
}

// readRows reads tables with a row per model: a heading of at least three names
// and no figures, then rows of figures.
func (r *sheetReader) readRows() {
	for i := range r.lines {
		if r.used[i] || len(r.names) > 0 {
			continue
		}
		columns, byCell := r.heading(i)
		if columns == nil {
			continue
		}
		next := i + 1
		for next < len(r.lines) && r.rule(next) {
			next++
		}
		if next < len(r.lines) && byCell && r.unitRow(next, columns) {
			r.used[next] = true
			next++
		}
		taken := 0
		for ; next < len(r.lines) && len(r.names) < maxModels; next++ {
			if r.rule(next) {
				if taken > 0 && r.blank(next) {
					break
				}
				continue
			}
			if !r.modelRow(next, columns, byCell) {
				break
			}
			r.used[next] = true
			taken++
		}
		if taken > 0 {
			r.used[i] = true
		}
	}
}

// rule tells whether a line is blank or drawn.
func (r *sheetReader) rule(i int) bool {
	return strings.Trim(string(r.lines[i].runes), " -–|+=\t_:") == ""
}

// heading reads line i as a heading; nil where it is none.
func (r *sheetReader) heading(i int) ([]column, bool) {
	line := r.lines[i].runes
	labels := r.labels[i]
	if len(labels) < 3 || len(items(line, 0, len(line), r.marks)) > 0 {
		return nil, false
	}
	distinct := map[Key]bool{}
	for _, l := range labels {
		if l.key != keyIgnored {
			distinct[l.key] = true
		}
	}
	if len(distinct) < 3 {
		return nil, false
	}
	cells := cellsOf(line)
	byCell := len(cells) >= 3
	if !byCell && strings.Count(string(line), ",") >= 2 {
		cells, byCell = commaCells(line), true
	}
	var out []column
	if !byCell {
		for n, l := range labels {
			c := column{label: l, known: true, cell: n}
			to := len(line)
			if n+1 < len(labels) {
				to = labels[n+1].from
			}
			c.unit, c.hasUnit = statedUnit(string(line[l.to:to]))
			out = append(out, c)
		}
		return out, false
	}
	for n, s := range cells {
		c := column{cell: n}
		for _, l := range labels {
			if l.from >= s.from && l.to <= s.to {
				c.label, c.known = l, true
			}
		}
		if c.known {
			c.unit, c.hasUnit = statedUnit(string(line[c.label.to:s.to]))
		}
		out = append(out, c)
	}
	return out, true
}

func commaCells(line []rune) []span {
	var out []span
	start := 0
	for i := 0; i <= len(line); i++ {
		if i == len(line) || line[i] == ',' {
			out = append(out, trimmed(line, span{start, i}))
			start = i + 1
		}
	}
	return out
}

// unitRow reads a line of units below a heading.
func (r *sheetReader) unitRow(i int, columns []column) bool {
	line := r.lines[i].runes
	cells := cellsOf(line)
	if len(cells) == len(columns)-1 && !columns[0].known {
		columns = columns[1:] // nothing stands above the names of the models
	}
	if len(cells) != len(columns) || len(items(line, 0, len(line), r.marks)) > 0 {
		return false
	}
	found := 0
	for n, s := range cells {
		if u, ok := unitIn(line, s); ok {
			columns[n].unit, columns[n].hasUnit = u, true
			found++
		}
	}
	return found >= 2
}

// modelRow reads a line of figures below a heading.
func (r *sheetReader) modelRow(i int, columns []column, byCell bool) bool {
	line := r.lines[i].runes
	cells := cellsOf(line)
	if byCell && len(cells) != len(columns) && strings.Count(string(line), ",") == len(columns)-1 {
		cells = commaCells(line)
	}
	if !byCell || len(cells) != len(columns) {
		// Blanks alone: the figures from the right, the rest is the name.
		fields := fieldsOf(line)
		want := 0
		for _, c := range columns {
			if c.known {
				want++
			}
		}
		if len(fields) < want || byCell {
			return false
		}
		cells = append([]span(nil), fields[len(fields)-want:]...)
	}
	type entry struct {
		column
		value cellValue
	}
	var entries []entry
	figures := 0
	for n, c := range columns {
		if !c.known {
			continue
		}
		v, ok := valueIn(line, cells[n], r.marks)
		if !ok {
			if c.label.key == keyIgnored {
				continue
			}
			return false
		}
		if !v.missing {
			figures++
			entries = append(entries, entry{c, v})
		}
	}
	if figures < 3 {
		return false
	}
	model := len(r.names)
	name := ""
	if cells[0].from > 0 && !byCell {
		name = r.textOf(i, 0, cells[0].from)
	} else if byCell && !columns[0].known {
		name = r.textOf(i, cells[0].from, cells[0].to)
	}
	r.names = append(r.names, name)
	for _, e := range entries {
		if e.label.key == keyIgnored {
			continue
		}
		v := tableValue(e.label, e.value, e.unit, e.hasUnit)
		if len(v.values) == 0 {
			r.notUnderstood(i, e.label.words[0]+": "+v.none)
			continue
		}
		if e.label.dim == dimPower && v.doubt == "" && !saysContinuous(r.textOf(i, 0, len(line))+" "+strings.Join(e.label.words, " ")) {
			v.doubt = "the sheet does not say whether this is the continuous rating"
		}
		r.add(model, i, e.label, v.values[0], v, e.value.from, e.value.end)
	}
	return true
}
