package pages

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// View is the window's face of an answer: its sentences, tables and notes. It
// knows no capability.
type View struct {
	// GoTo shows the corner at a place; nil leaves the places out.
	GoTo func(travel, rack, roll float64)
	// Field finds what is typed in a cell's stead, by the key of the cell; nil
	// for none.
	Field func(key string) fyne.CanvasObject
	// Act does what a cell offers, by its key and row; nil for nothing.
	Act func(key string, row int)

	shown   *sheet.Sheet
	content *fyne.Container
	notes   *widget.RichText
}

// NewView makes a view that shows nothing.
func NewView() *View {
	return &View{content: container.NewVBox(), notes: Hint("")}
}

// Object is what the window shows.
func (v *View) Object() fyne.CanvasObject { return v.content }

// Sheet is what is shown; nil for nothing.
func (v *View) Sheet() *sheet.Sheet { return v.shown }

// Show shows an answer; nil shows nothing.
func (v *View) Show(s *sheet.Sheet) {
	v.shown = s
	v.content.Objects = nil
	if s != nil {
		for _, item := range s.Items {
			switch i := item.(type) {
			case sheet.Prose:
				v.prose(&i)
			case *sheet.Table:
				v.table(i, s.Unit)
			}
		}
		v.note(s)
	}
	v.content.Refresh()
}

// note puts the notes under the answer.
func (v *View) note(s *sheet.Sheet) {
	text := strings.Join(s.NotesOn(sheet.OnWindow, s.Unit), " ")
	if text == "" {
		return
	}
	v.notes.Segments[0].(*widget.TextSegment).Text = text
	v.notes.Refresh()
	v.content.Add(v.notes)
}

func (v *View) prose(p *sheet.Prose) {
	if !p.On.Shows(sheet.OnWindow) || len(p.Lines) == 0 {
		return
	}
	if p.Title != "" {
		v.content.Add(Heading(p.Title))
	}
	var text *widget.Label // of the lines up to one with a place
	for _, l := range p.Lines {
		if line := l.Mark.Sign() + l.Text; text == nil {
			text = Prose()
			text.SetText(line)
			v.content.Add(text)
		} else {
			text.SetText(text.Text + "\n" + line)
		}
		if l.At != nil && v.GoTo != nil {
			v.content.Add(container.NewHBox(v.show(*l.At)))
			text = nil
		}
	}
}

func (v *View) show(at sheet.Place) *keyed.Button {
	return keyed.NewButton("Show it at "+at.Text(v.shown.Unit), func() { v.GoTo(at.Travel, at.Rack, at.Roll) })
}

// table shows a table's columns as far as its rows fill them.
func (v *View) table(t *sheet.Table, unit units.Unit) {
	if !t.On.Shows(sheet.OnWindow) || t.Empty() {
		return
	}
	if t.Above && t.Title != "" {
		v.content.Add(Heading(t.Title))
	}
	layout := t.Lay(sheet.OnWindow, unit)
	v.content.Add(newFolded(v, layout))
}

func (v *View) cell(t sheet.LaidText, row int) fyne.CanvasObject {
	if t.Field != "" && v.Field != nil {
		if o := v.Field(t.Field); o != nil {
			return o
		}
	}
	if t.Act != "" && v.Act != nil {
		b := keyed.NewButton(t.Text, func() { v.Act(t.Act, row) })
		if b.Importance = widget.LowImportance; t.Chosen {
			b.Importance = widget.HighImportance
		}
		return b
	}
	if t.Text == "" {
		return nil
	}
	return styled(t.Mark.Sign()+t.Text, t.Mark, false)
}

// styled is a text in the style of its mark; the sign and the words say the same.
func styled(text string, m sheet.Mark, bold bool) fyne.CanvasObject {
	switch {
	case bold && m == sheet.NoMark:
		return Bold(text)
	case m == sheet.Bad:
		return Marked(text)
	case m == sheet.Unsure, m == sheet.Aside:
		return Quiet(text)
	}
	return Plain(text)
}
