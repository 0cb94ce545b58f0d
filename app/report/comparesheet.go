package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"armscribe/app/figures"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// variantsAside is how many variants stand beside the reference in one table of a
// text: more would not fit a terminal.
const variantsAside = 2

// Sheet is the answer. In a text many variants take several tables, each with the
// reference; a window shows all in one, and offers to go to each.
func (c *Comparison) Sheet() *sheet.Sheet {
	ref := &c.Sources[c.Reference]
	out := &sheet.Sheet{Job: ref.Job, Title: "variants " + c.where() + ", changes against " + oneLine(ref.Variant),
		Unit: ref.Unit, Notes: c.notes, Caution: Caution}
	var others []int
	names := make([]string, len(c.Sources))
	for i := range c.Sources {
		names[i] = c.Sources[i].Variant
		if i != c.Reference {
			others = append(others, i)
		}
	}
	out.Items = append(out.Items, sheet.Field{Key: "against", Cell: sheet.Words(ref.Variant)}, sheet.Field{Key: "variants", Cell: sheet.Texts(names)})
	for from := 0; from < max(1, len(others)); from += variantsAside {
		out.Items = append(out.Items, c.block(sheet.OnText, others[min(from, len(others)):min(from+variantsAside, len(others))]))
	}
	out.Items = append(out.Items, c.fileTable())
	if c.Targets != nil {
		aims := c.Targets.Tables(true)
		out.Items = append(out.Items, aims[0], aims[1])
	}
	out.Items = append(out.Items, c.block(sheet.OnWindow, others))
	return out
}

// where says where the car stands; in roll the left wheel is set side by side.
func (c *Comparison) where() string {
	text := c.Position.Words(c.Sources[c.Reference].Unit)
	if c.Position.Roll != 0 {
		text += ", left wheel"
	}
	return text
}

// block sets variants beside the reference.
func (c *Comparison) block(face sheet.Faces, aside []int) *sheet.Table {
	shown := append([]int{c.Reference}, aside...)
	marked := c.anyMark()
	t := &sheet.Table{On: face, Columns: []sheet.Column{{Role: sheet.Name}, {Role: sheet.Text, Title: "unit"}}}
	for n, i := range shown {
		t.Over = append(t.Over, sheet.Over{Column: len(t.Columns), Title: oneLine(c.Sources[i].Variant)})
		value := sheet.Column{Title: "value"}
		if n == 0 || face == sheet.OnWindow {
			value.Band = "95 % band"
		}
		t.Columns = append(t.Columns, value)
		if marked {
			t.Columns = append(t.Columns, sheet.Column{Role: sheet.Text})
		}
		if n > 0 {
			t.Columns = append(t.Columns, sheet.Column{Title: "change", Band: "95 % band"})
		}
	}
	t.Columns = append(t.Columns, sheet.Column{Role: sheet.Text, On: sheet.OnWindow})
	if face == sheet.OnWindow {
		ref := &c.Sources[c.Reference]
		t.Above, t.Title = true, "Readings "+c.where()+", changes against "+oneLine(ref.Variant)
		row := make(sheet.Row, len(t.Columns))
		for n, i := range shown {
			row[t.Over[n].Column] = sheet.Words(pickWord(i == c.Shown, "Shown", "Show it")).Offers(strconv.Itoa(i)).Chosen(i == c.Shown)
		}
		t.Groups = append(t.Groups, sheet.Group{Rows: []sheet.Row{row}})
	}
	for r := range c.Rows {
		x := &c.Rows[r]
		row, links := sheet.Row{sheet.Words(x.Name), sheet.UnitOf(x.Kind)}, sheet.Row{sheet.Words("  where binds"), {}}
		for n, i := range shown {
			row, links = append(row, x.Lines[i].Cell()), append(links, sheet.Words(x.Lines[i].Binds.String()).If(x.Lines[i].Known))
			if marked {
				row, links = append(row, sheet.Words(x.Lines[i].shortMarks())), append(links, sheet.Cell{})
			}
			if n > 0 {
				row, links = append(row, x.Changes[i].Cell(x.Figure)), append(links, sheet.Cell{})
			}
		}
		best := ""
		if i := c.least(x); i >= 0 {
			best = "least: " + c.Sources[i].Variant
		}
		addRow(t, x.Figure, c.Position, append(row, sheet.Words(best).Marked(sheet.Good).If(best != "")))
		if x.Group == figures.Range {
			addRow(t, x.Figure, c.Position, links)
		}
	}
	return t
}

// least is the variant that is clearly best on a figure of which less is better
// beyond doubt: what no two bands dispute. It is -1 for none.
func (c *Comparison) least(r *CompareRow) int {
	if r.Sense != figures.Less || len(r.Lines) < 2 {
		return -1
	}
	best, high, next := -1, math.MaxFloat64, math.MaxFloat64
	for i := range r.Lines {
		l := &r.Lines[i]
		if !l.Known || !l.HasBand {
			return -1
		}
		if v := math.Abs(l.Value); v+l.Band < high {
			best, high = i, v+l.Band
		}
	}
	for i := range r.Lines {
		if l := &r.Lines[i]; i != best {
			next = min(next, math.Abs(l.Value)-l.Band)
		}
	}
	if high >= next {
		return -1
	}
	return best
}

// shortMarks are the words behind a value in a table of several variants.
func (l *Line) shortMarks() string {
	var list []string
	if len(l.Assumed) > 0 {
		list = append(list, "assumed")
	}
	if l.Estimate {
		list = append(list, "est.")
	}
	return strings.Join(list, ", ")
}

// anyMark tells whether a value has one of them.
func (c *Comparison) anyMark() bool {
	for i := range c.Sources {
		if s := &c.Sources[i]; s.RadiusFrom != "" || len(s.Rests(restsReadings)) > 0 {
			return true
		}
	}
	return false
}

// fileTable is a row a reading with a cell a variant in it.
func (c *Comparison) fileTable() *sheet.Table {
	t := &sheet.Table{Key: "readings", On: sheet.InFile, Groups: sheet.Rows(),
		Columns: []sheet.Column{{Key: "key"}, {Key: "name"}, {Key: "unit"}, {Key: "positive_when"}}}
	for i := range c.Sources {
		in := fmt.Sprintf("variants.%d.", i)
		t.Columns = append(t.Columns, sheet.Column{Key: in + "variant"}, sheet.Column{Key: in + "value", BandKey: in + "band_95"},
			sheet.Column{Key: in + "estimate"}, sheet.Column{Key: in + "assumed", Whole: true}, sheet.Column{Key: in + "note", Whole: true}, sheet.Column{Key: in + "change", BandKey: in + "change_band_95"})
	}
	for r := range c.Rows {
		x := &c.Rows[r]
		row := sheet.Row{sheet.Words(x.Key), sheet.Words(x.Name), sheet.UnitOf(x.Kind), sheet.Words(x.SignWords())}
		for i := range x.Lines {
			note := x.Lines[i].note()
			row = append(row, sheet.Words(c.Sources[i].Variant), x.Lines[i].Cell(), sheet.Flag(x.Lines[i].Estimate), assumedCell(x.Lines[i].Assumed),
				sheet.Words(note).If(note != ""), x.Changes[i].Cell(x.Figure))
		}
		t.Groups[0].Rows = append(t.Groups[0].Rows, row)
	}
	return t
}

func (c *Comparison) notes(unit units.Unit) []sheet.Note {
	list := append([]sheet.Note{{On: sheet.OnText | sheet.InFile, Text: "Signs are those of armcalc readings."}}, sheet.Notes(
		"A coordinate that both variants share to the last digit was measured once: its error moves both alike.",
		"A change smaller than its band is not decidable by tape. ± 0: as typed, or the same whatever the error.")...)
	for i := range c.Sources {
		s := c.Sources[i]
		s.Unit = unit
		if text := s.restsNote(restsReadings); text != "" {
			list = append(list, sheet.Note{Text: text})
		}
		if s.RadiusFrom != "" {
			list = append(list, sheet.Note{Text: fmt.Sprintf("est.: %s: rests on %s.", oneLine(s.Variant), s.radiusNote())})
		}
		if c.Errs[i] != nil {
			list = append(list, sheet.Note{Text: c.Errs[i].Error()})
		}
	}
	return list
}
