package sheet

import (
	"strings"

	"armscribe/app/units"
)

// String prints the answer for a terminal.
func (s *Sheet) String() string {
	parts := []string{s.heading()}
	for _, item := range s.Items {
		var text string
		switch i := item.(type) {
		case *Table:
			if i.On.Shows(OnText) {
				text = i.text(s.Unit)
			}
		case Prose:
			if i.On.Shows(OnText) {
				text = i.text()
			}
		}
		if text != "" {
			parts = append(parts, text)
		}
	}
	foot := append(s.NotesOn(OnText, s.Unit), s.Caution)
	return strings.Join(append(parts, strings.Join(foot, "\n")+"\n"), "\n")
}

// heading says what is asked about.
func (s *Sheet) heading() string {
	head := s.Title
	if s.Job != "" {
		head = OneLine(s.Job) + ": "
		switch {
		case s.Variant == "":
			head += s.Title
		case s.Title == "":
			head += OneLine(s.Variant)
		default:
			head += OneLine(s.Variant) + ", " + s.Title
		}
	}
	lines := []string{head}
	if text := RestsWords(s.Rests); text != "" {
		lines = append(lines, text)
	}
	lines = append(lines, s.Head...)
	if s.Says != "" {
		lines = append(lines, "", s.Says)
	}
	return strings.Join(lines, "\n") + "\n"
}

func (p *Prose) text() string {
	var b strings.Builder
	if p.Title != "" {
		b.WriteString(p.Title + "\n")
	}
	for _, l := range p.Lines {
		if p.Title != "" {
			b.WriteString("  ")
		}
		b.WriteString(l.Text + "\n")
	}
	return b.String()
}

// text sets a table in columns.
func (t *Table) text(length units.Unit) string {
	laid := t.Lay(OnText, length)
	var g grid
	for _, c := range laid.Columns {
		a := left
		if c.Figures {
			a = point
		}
		g.columns = append(g.columns, a)
	}
	for _, o := range laid.Over {
		g.titles = append(g.titles, span{o.Column, o.Title})
	}
	for _, head := range laid.Heads {
		g.row(head...)
	}
	for _, r := range laid.Rows {
		if r.Heading != "" && !t.WideHeadings {
			g.row(r.Heading)
			continue
		}
		cells := make([]string, len(laid.Columns))
		cells[0] = r.Heading
		for i, c := range r.Texts {
			cells[i] = c.Text
		}
		g.row(cells...)
	}
	if t.Above {
		return t.Title + "\n" + g.String()
	}
	return g.String()
}
