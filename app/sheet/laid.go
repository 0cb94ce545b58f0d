package sheet

import (
	"strings"

	"armscribe/app/units"
)

// Laid is a table for one face: its columns expanded into values, bands and
// units, and every cell printed. Every screen lays its text out from it.
type Laid struct {
	Columns []LaidColumn
	Over    []Over     // titles above the heads, by laid column
	Heads   [][]string // rows of titles
	Rows    []LaidRow
	Places  bool // a row has a place to show
}

// LaidColumn is one column of texts. Joined tells that it belongs to the one before, as a
// band or a unit does to its value.
type LaidColumn struct{ Figures, Joined bool }

// LaidRow is one row of texts, or a heading over all columns.
type LaidRow struct {
	Heading string
	Mark    Mark
	Texts   []LaidText
	Under   []LaidText // each on a line of its own under the row
	At      *Place
}

// LaidText is a printed cell. Field names what is typed in its stead, Act what it
// offers to do, and Chosen whether that is done; they are empty for most.
type LaidText struct {
	Text       string
	Mark       Mark
	Field, Act string
	Chosen     bool
}

// Shows tells whether a part stands on a face.
func (f Faces) Shows(face Faces) bool { return f == 0 || f&face != 0 }

// Empty tells whether a table has neither rows nor headings.
func (t *Table) Empty() bool {
	for i := range t.Groups {
		if g := &t.Groups[i]; len(g.Rows) > 0 || g.Missing != "" {
			return false
		}
	}
	return true
}

// Lay expands and prints a table for a face.
func (t *Table) Lay(face Faces, length units.Unit) *Laid {
	l := &Laid{}
	first := make([]int, len(t.Columns))
	var titles, unitRow []string
	add := func(figures, joined bool, title, unit string) {
		l.Columns, titles, unitRow = append(l.Columns, LaidColumn{figures, joined}), append(titles, title), append(unitRow, unit)
	}
	for i := range t.Columns {
		c := &t.Columns[i]
		first[i] = len(l.Columns)
		if !c.On.Shows(face) || c.Under && face == OnWindow {
			continue
		}
		unit := t.unitOf(i, length)
		title := c.title(unit)
		if len(l.Columns) == 0 && t.Title != "" && !t.Above {
			title = t.Title
		}
		add(c.Role == Figures, false, title, unit)
		if c.Band != "" {
			add(false, true, strings.TrimSpace(c.Band), "")
		}
		if c.UnitTitle != "" {
			add(false, true, strings.TrimSpace(c.UnitTitle), "")
		}
	}
	for _, o := range t.Over {
		if !t.Columns[o.Column].On.Shows(face) {
			continue
		}
		if o.Title == "" {
			o.Title = t.Columns[o.Column].title(t.unitOf(o.Column, length))
		}
		l.Over = append(l.Over, Over{first[o.Column], o.Title})
	}
	if !t.Bare {
		l.Heads = append(l.Heads, titles)
	}
	if t.UnitRow {
		l.Heads = append(l.Heads, unitRow)
	}
	for i := range t.Groups {
		g := &t.Groups[i]
		if !g.On.Shows(face) {
			continue
		}
		if g.Name != "" {
			l.Rows = append(l.Rows, LaidRow{Heading: g.Name})
		}
		if g.Missing != "" {
			l.Rows = append(l.Rows, LaidRow{Heading: indent + "no answer: " + OneLine(g.Missing), Mark: Bad})
		}
		for _, r := range g.Rows {
			l.row(t, r, face, length)
		}
	}
	return l
}

// indent of names and of what stands under a heading.
const indent = "  "

func (l *Laid) row(t *Table, r Row, face Faces, length units.Unit) {
	var row LaidRow
	for i := range t.Columns {
		c := &t.Columns[i]
		if !c.On.Shows(face) {
			continue
		}
		var cell Cell
		if i < len(r) {
			cell = r[i]
		}
		value, half := cell.split(length)
		if c.Role == Name {
			value = indent + value
		}
		text := LaidText{value, cell.mark, cell.field, cell.act, cell.chosen}
		if c.Under && face == OnWindow {
			if value != "" {
				row.Under = append(row.Under, text)
			}
			continue
		}
		row.Texts = append(row.Texts, text)
		if c.Band != "" {
			row.Texts = append(row.Texts, LaidText{Text: half, Mark: Aside})
		}
		if c.UnitTitle != "" {
			row.Texts = append(row.Texts, LaidText{Text: cell.Unit(length), Mark: Aside})
		}
		if cell.place != nil {
			row.At, l.Places = cell.place, true
		}
	}
	l.Rows = append(l.Rows, row)
}

// title is a column's own, with its unit where it has one.
func (c *Column) title(unit string) string {
	if c.UnitIn && unit != "" {
		return c.Title + ", " + unit
	}
	return c.Title
}
