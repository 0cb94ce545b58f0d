package pages

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/look"
	"armscribe/app/sheet"
)

// folded stands a table in the width that there is: whole, else with the names of its
// rows on lines of their own, else some columns after the others. It is the layout of
// the container that holds the table.
type folded struct {
	view  *View
	laid  *sheet.Laid
	box   *fyne.Container
	width float32 // that it is folded for; 0 for none yet
	whole float32 // that it needs to stand whole
}

// part is what of a table stands together: some of its columns, each row's name over
// its figures or not.
type part struct {
	columns []int
	stacked bool
	folded  bool // less than the whole table stands here, or it stands close
	last    bool // has what belongs to a row as a whole
}

// leastTable is the width that a table can always be folded to, points.
const leastTable = 180

// newFolded makes the table of a laid sheet's table.
func newFolded(v *View, laid *sheet.Laid) *fyne.Container {
	f := &folded{view: v, laid: laid}
	f.box = container.New(f)
	all := part{last: true}
	for i := range laid.Columns {
		all.columns = append(all.columns, i)
	}
	g := f.grid(all)
	f.whole = g.Content.MinSize().Width
	f.box.Objects = []fyne.CanvasObject{g.Content}
	return f.box
}

// MinSize is as high as the table is folded now.
func (f *folded) MinSize(o []fyne.CanvasObject) fyne.Size {
	h := float32(0)
	for _, g := range o {
		h += g.MinSize().Height
	}
	return fyne.NewSize(min(f.whole, leastTable), h)
}

// Layout folds the table anew for another width.
func (f *folded) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	if f.width != size.Width {
		f.width = size.Width
		f.box.Objects = nil
		for _, p := range f.fold(size.Width) {
			f.box.Objects = append(f.box.Objects, f.grid(p).Content)
		}
	}
	y := float32(0)
	for _, g := range f.box.Objects {
		for range 2 { // texts that wrap have another height at another width
			g.Resize(fyne.NewSize(size.Width, g.MinSize().Height))
		}
		g.Move(fyne.NewPos(0, y))
		y += g.Size().Height
	}
}

// fold chooses what stands together in a width.
func (f *folded) fold(width float32) []part {
	n := len(f.laid.Columns)
	all := part{last: true}
	for i := range n {
		all.columns = append(all.columns, i)
	}
	if f.whole <= width || n < 2 {
		return []part{all}
	}
	widths, _ := (*gridLayout)(f.grid(all)).sizes()
	need := func(stacked bool, columns ...int) float32 {
		w := float32(look.Step)
		for _, c := range columns {
			if c > 0 || !stacked {
				w += widths[c] + closeGap
			}
		}
		return w
	}
	for _, stacked := range []bool{false, true} {
		if need(stacked, all.columns...) <= width {
			return []part{{all.columns, stacked, true, true}}
		}
	}
	const nameMost = 0.4 // of the width, for names beside their figures
	stacked := widths[0] > width*nameMost
	var parts []part
	next := part{columns: []int{0}, stacked: stacked, folded: true}
	for i := 1; i < n; {
		group := []int{i}
		for i++; i < n && f.laid.Columns[i].Joined; i++ {
			group = append(group, i)
		}
		if len(next.columns) > 1 && need(stacked, append(next.columns[:len(next.columns):len(next.columns)], group...)...) > width {
			parts = append(parts, next)
			next = part{columns: []int{0}, stacked: stacked, folded: true}
		}
		next.columns = append(next.columns, group...)
	}
	next.last = true
	return append(parts, next)
}

// grid makes a part of the table.
func (f *folded) grid(p part) *Grid {
	show, letters := p.columns, ""
	if p.stacked {
		show = show[1:]
	}
	for _, c := range show {
		letters += Pick(f.laid.Columns[c].Figures, "r", "l")
	}
	places := p.last && f.laid.Places && f.view.GoTo != nil
	if places && !p.folded {
		letters += "l"
	}
	g := NewGrid(letters)
	g.Tight, g.close = true, p.folded
	f.heads(g, &p, show)
	row := 0
	for i := range f.laid.Rows {
		r := &f.laid.Rows[i]
		if r.Heading != "" {
			g.Across(0, running(r.Heading, r.Mark, true))
			continue
		}
		f.row(g, r, row, &p, show, places)
		row++
	}
	g.Done()
	return g
}

// heads writes the titles over the columns shown.
func (f *folded) heads(g *Grid, p *part, show []int) {
	over := make([]string, len(show))
	has := false
	for _, o := range f.laid.Over {
		for i, c := range show {
			if c >= o.Column && f.overOf(c) == o.Column {
				over[i], has = o.Title, true
				break
			}
		}
	}
	if has {
		g.Head(over...)
	}
	for k, head := range f.laid.Heads {
		if p.stacked && k == 0 && head[0] != "" {
			g.Across(0, running(head[0], sheet.Aside, true))
		}
		texts := make([]string, len(show))
		for i, c := range show {
			texts[i] = head[c]
		}
		g.Head(texts...)
	}
}

// overOf is the column at which the title over a column begins, -1 for none.
func (f *folded) overOf(c int) int {
	at := -1
	for _, o := range f.laid.Over {
		if o.Column <= c {
			at = max(at, o.Column)
		}
	}
	return at
}

// has tells whether a row has anything in a part beside its name. The last part has what
// is of none.
func (f *folded) has(r *sheet.LaidRow, p *part) bool {
	if p.last {
		return true
	}
	for _, c := range p.columns[1:] {
		if t := r.Texts[c]; t.Text != "" || t.Field != "" || t.Act != "" {
			return true
		}
	}
	return false
}

// row adds a row with what stands under it.
func (f *folded) row(g *Grid, r *sheet.LaidRow, row int, p *part, show []int, places bool) {
	if !f.has(r, p) {
		return
	}
	if p.stacked {
		if name := r.Texts[0]; name.Act != "" || name.Field != "" {
			g.Across(0, f.view.cell(name, row))
		} else if name.Text != "" {
			g.Across(0, running(name.Mark.Sign()+name.Text, name.Mark, false))
		}
	}
	cells := make([]fyne.CanvasObject, 0, len(show)+1)
	for _, c := range show {
		cells = append(cells, f.view.cell(r.Texts[c], row))
	}
	if places && r.At != nil && !p.folded {
		cells = append(cells, f.view.show(*r.At))
	}
	g.Row(cells...)
	if places && r.At != nil && p.folded {
		g.Across(0, f.view.show(*r.At))
	}
	if !p.last {
		return
	}
	for _, t := range r.Under {
		g.Across(0, running(t.Mark.Sign()+t.Text, t.Mark, true))
	}
}

// running is a text that runs on over the columns, and on more lines where they are
// too narrow for it.
func running(text string, m sheet.Mark, bold bool) fyne.CanvasObject {
	s := &widget.TextSegment{Text: text, Style: widget.RichTextStyle{SizeName: theme.SizeNameText, ColorName: theme.ColorNameForeground}}
	switch {
	case bold && m == sheet.NoMark:
		s.Style.TextStyle.Bold = true
	case m == sheet.Bad:
		s.Style.ColorName, s.Style.TextStyle.Bold = theme.ColorNameError, true
	case m == sheet.Unsure, m == sheet.Aside:
		s.Style.ColorName = look.ColorQuiet
	}
	t := widget.NewRichText(s)
	t.Wrapping = fyne.TextWrapWord
	return t
}
