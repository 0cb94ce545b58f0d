package pages

import (
	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/look"
)

// Grid is a table of words, figures and fields: each column as wide as its
// widest cell, figures to the right.
type Grid struct {
	right   []bool // by column
	Tight   bool   // rows of fields stand closer
	close   bool   // so do columns
	flush   bool   // it begins at its own left edge
	cells   []fyne.CanvasObject
	across  map[int]bool // cells that run on over the columns after theirs
	Content *fyne.Container
}

// NewGrid makes a table; a letter for each column: l words, r figures.
func NewGrid(columns string) *Grid {
	g := &Grid{}
	g.SetColumns(columns)
	g.Content = container.New((*gridLayout)(g))
	return g
}

// SetColumns changes the columns of a table that is clear.
func (g *Grid) SetColumns(columns string) {
	g.right = g.right[:0]
	for _, c := range columns {
		g.right = append(g.right, c == 'r')
	}
}

// Clear takes all rows out.
func (g *Grid) Clear() {
	g.cells, g.across, g.Content.Objects = nil, nil, nil
}

// Across adds a row of one text that begins in a column and runs on over those
// after it: it widens none.
func (g *Grid) Across(column int, o fyne.CanvasObject) {
	if g.across == nil {
		g.across = map[int]bool{}
	}
	g.across[len(g.cells)+column] = true
	row := make([]fyne.CanvasObject, column+1)
	row[column] = o
	g.Row(row...)
}

// Head adds a row of quiet headings.
func (g *Grid) Head(texts ...string) {
	row := make([]fyne.CanvasObject, len(texts))
	for i, t := range texts {
		row[i] = Quiet(t)
	}
	g.Row(row...)
}

// Texts adds a row of plain texts.
func (g *Grid) Texts(texts ...string) {
	row := make([]fyne.CanvasObject, len(texts))
	for i, t := range texts {
		row[i] = Plain(t)
	}
	g.Row(row...)
}

// Row adds a row; nil leaves a cell empty, and cells may be left out at its end.
func (g *Grid) Row(cells ...fyne.CanvasObject) {
	for i := range g.right {
		var o fyne.CanvasObject
		if i < len(cells) {
			o = cells[i]
		}
		g.cells = append(g.cells, o)
		if o != nil {
			g.Content.Objects = append(g.Content.Objects, o)
		}
	}
}

// Done shows the rows that were added.
func (g *Grid) Done() { g.Content.Refresh() }

// word is a text of one line that follows the theme.
type word struct {
	widget.BaseWidget
	text *fynecanvas.Text
	name fyne.ThemeColorName
}

func newWord(text string, name fyne.ThemeColorName, bold bool) *word {
	w := &word{text: fynecanvas.NewText(text, nil), name: name}
	w.text.TextStyle.Bold = bold
	w.dress()
	w.ExtendBaseWidget(w)
	return w
}

func (w *word) dress() { w.text.Color, w.text.TextSize = theme.Color(w.name), theme.TextSize() }

// Refresh takes the colours of the theme.
func (w *word) Refresh() {
	w.dress()
	w.BaseWidget.Refresh()
}

// CreateRenderer is for the toolkit.
func (w *word) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(w.text) }

// Plain is a text of one line.
func Plain(text string) fyne.CanvasObject {
	return newWord(text, theme.ColorNameForeground, false)
}

// Quiet is one that stands back.
func Quiet(text string) fyne.CanvasObject { return newWord(text, look.ColorQuiet, false) }

// Bold is one that stands out.
func Bold(text string) fyne.CanvasObject { return newWord(text, theme.ColorNameForeground, true) }

// Marked stands out by weight and colour; the words say why.
func Marked(text string) fyne.CanvasObject { return newWord(text, theme.ColorNameError, true) }

// BoldLabel is a bold text that is cut where it has no room.
func BoldLabel(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.TextStyle.Bold = true
	l.Truncation = fyne.TextTruncateEllipsis
	return l
}

// Heading opens a part of a section.
func Heading(text string) fyne.CanvasObject {
	return container.NewPadded(Bold(text))
}

// Hint is a quiet text that wraps.
func Hint(text string) *widget.RichText {
	style := widget.RichTextStyleParagraph
	style.ColorName = look.ColorQuiet
	r := widget.NewRichText(&widget.TextSegment{Text: text, Style: style})
	r.Wrapping = fyne.TextWrapWord
	return r
}

// Sentence is what an answer begins with: what to do, or what is so.
type Sentence struct {
	*widget.RichText
	text *widget.TextSegment
}

// NewSentence makes one that says nothing, and is hidden.
func NewSentence() *Sentence {
	text := &widget.TextSegment{Style: widget.RichTextStyle{SizeName: theme.SizeNameSubHeadingText, TextStyle: fyne.TextStyle{Bold: true}}}
	s := &Sentence{widget.NewRichText(text), text}
	s.Wrapping = fyne.TextWrapWord
	s.Hide()
	return s
}

// Say shows a sentence; with an empty one it hides.
func (s *Sentence) Say(text string) {
	s.text.Text = text
	s.Hidden = text == ""
	s.Refresh()
}

// Prose is a text that wraps.
func Prose() *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	return l
}

// gridLayout lays the cells out.
type gridLayout Grid

const (
	columnGap = 14
	closeGap  = 8
	rowGap    = look.Step
	tightGap  = 1
	rowLeast  = 20
)

func (l *gridLayout) gap() float32 {
	if l.Tight {
		return tightGap
	}
	return rowGap
}

// inset is what the table begins right of its own edge, so that it stands under texts.
func (l *gridLayout) inset() float32 {
	if l.flush {
		return 0
	}
	return look.Step
}

// between is the gap between two columns.
func (l *gridLayout) between() float32 {
	if l.close {
		return closeGap
	}
	return columnGap
}

func (l *gridLayout) sizes() (widths, heights []float32) {
	n := len(l.right)
	widths, heights = make([]float32, n), make([]float32, len(l.cells)/n)
	for i, o := range l.cells {
		if heights[i/n] < rowLeast {
			heights[i/n] = rowLeast
		}
		if o == nil {
			continue
		}
		s := o.MinSize()
		heights[i/n] = max(heights[i/n], s.Height)
		if !l.across[i] {
			widths[i%n] = max(widths[i%n], s.Width)
		}
	}
	return widths, heights
}

// MinSize holds every cell.
func (l *gridLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	widths, heights := l.sizes()
	var s fyne.Size
	for _, w := range widths {
		s.Width += w + l.between()
	}
	for i := range l.across {
		if isRunning(l.cells[i]) {
			continue // it takes what there is
		}
		x := l.cells[i].MinSize().Width + l.between()
		for _, w := range widths[:i%len(widths)] {
			x += w + l.between()
		}
		s.Width = max(s.Width, x)
	}
	for _, h := range heights {
		s.Height += h + l.gap()
	}
	return fyne.NewSize(s.Width+2*l.inset(), s.Height)
}

// isRunning tells whether a cell runs on over the columns, on as many lines as it needs.
func isRunning(o fyne.CanvasObject) bool {
	_, is := o.(*widget.RichText)
	return is
}

// Layout places the cells in the middle of their rows.
func (l *gridLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	for i := range l.across {
		if o := l.cells[i]; isRunning(o) {
			o.Resize(fyne.NewSize(max(leastTable, size.Width-2*look.Step), o.MinSize().Height))
		}
	}
	widths, heights := l.sizes()
	n := len(l.right)
	y := float32(0)
	for r, h := range heights {
		x := l.inset()
		for c, w := range widths {
			if o := l.cells[r*n+c]; o != nil {
				s := o.MinSize()
				_, isText := o.(*word)
				switch {
				case isRunning(o):
					// The toolkit's texts have air around them, which words have not.
					o.Move(fyne.NewPos(x-theme.InnerPadding(), y))
					s = fyne.NewSize(o.Size().Width, h)
				case !isText:
					s.Width = w
					o.Move(fyne.NewPos(x, y+(h-s.Height)/2))
				case l.right[c]:
					o.Move(fyne.NewPos(x+w-s.Width, y+(h-s.Height)/2))
				default:
					o.Move(fyne.NewPos(x, y+(h-s.Height)/2))
				}
				o.Resize(s)
			}
			x += w + l.between()
		}
		y += h + l.gap()
	}
}

// Wide gives a widget a width.
func Wide(o fyne.CanvasObject, width float32) fyne.CanvasObject {
	return container.New(layout.NewGridWrapLayout(fyne.NewSize(width, o.MinSize().Height)), o)
}

// Notice is a line under a button: what came of it, or why nothing did.
type Notice struct{ *widget.Label }

// NewNotice makes one that is empty and takes no room.
func NewNotice() *Notice {
	n := &Notice{Prose()}
	n.Hide()
	return n
}

// Say shows a text; an empty one takes no room.
func (n *Notice) Say(text string) {
	if text == "" {
		n.Hide()
	} else {
		n.Show()
	}
	n.Importance = widget.MediumImportance
	n.SetText(text)
}

// Wrong says what went wrong.
func (n *Notice) Wrong(what string, err error) {
	n.Show()
	n.Importance = widget.DangerImportance
	n.SetText("✕ " + what + err.Error())
}
