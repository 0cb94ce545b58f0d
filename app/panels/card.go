package panels

import (
	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/look"
)

// Card is the job card: the steps of the work, each with a mark, its name and
// what is left of it. A line leads to the place where it is done, by a click or
// with the keyboard by Enter or Space.
//
// All methods belong to the toolkit's goroutine.
type Card struct {
	form

	// OnHint is told what the line under the pointer or the cursor needs, empty
	// when there is none.
	OnHint func(text string)

	shown []CardStep
	steps []*cardStep
}

// CardMark is how a step or line stands.
type CardMark uint8

// The marks.
const (
	CardOpen CardMark = iota
	CardMissed
	CardUndecided
	CardMet
)

// CardStep is a part of the work.
type CardStep struct {
	Name  string
	Mark  CardMark
	Lines []CardLine
}

// CardLine is one thing of a step.
type CardLine struct {
	Text, Hint string
	Mark       CardMark
	Go         func()
}

// NewCard returns a card without steps.
func NewCard() *Card {
	c := &Card{}
	c.form.init(c)
	return c
}

// SetSteps shows steps. Lines that stay keep the keyboard.
func (c *Card) SetSteps(steps []CardStep) {
	if !c.fits(steps) {
		c.build(steps)
	}
	c.shown = steps
	for i := range steps {
		c.steps[i].fill(&steps[i])
	}
	c.arrange()
}

// Steps returns what is shown.
func (c *Card) Steps() []CardStep { return c.shown }

// Refresh paints anew, in the colours of the theme.
func (c *Card) Refresh() {
	for i := range c.shown {
		c.steps[i].fill(&c.shown[i])
	}
	c.form.Refresh()
}

// fits tells whether the present rows have a place for every line.
func (c *Card) fits(steps []CardStep) bool {
	if len(c.steps) != len(steps) {
		return false
	}
	for i := range steps {
		if len(c.steps[i].lines) != len(steps[i].Lines) {
			return false
		}
	}
	return true
}

func (c *Card) build(steps []CardStep) {
	c.steps = c.steps[:0]
	var rows []row
	for i := range steps {
		s := &cardStep{mark: newNote("", theme.SizeNameText, theme.ColorNameForeground), name: newNote("", theme.SizeNameText, theme.ColorNameForeground)}
		s.mark.step, s.name.step = cardNameHeight, cardNameHeight
		s.ring = fynecanvas.NewCircle(theme.Color(look.ColorPanel))
		for range steps[i].Lines {
			s.lines = append(s.lines, newCardButton(c))
		}
		c.steps = append(c.steps, s)
		rows = append(rows, s)
	}
	c.setRows(rows)
}

// Sizes of the card in points.
const (
	cardNameHeight = 20
	cardIndent     = 24
	cardRing       = 11
	cardGap        = 8
	cardLineLeast  = 24 // what a pointer can hit
)

// cardStep is the row of a step.
type cardStep struct {
	mark, name *note
	ring       *fynecanvas.Circle
	lines      []*cardButton
}

// cardSign is a mark as text; an open one is drawn as a ring.
func cardSign(m CardMark) (string, fyne.ThemeColorName) {
	switch m {
	case CardMet:
		return "✓", theme.ColorNameSuccess
	case CardMissed:
		return "✕", theme.ColorNameWarning
	case CardUndecided:
		return "≈", theme.ColorNameForeground
	}
	return "", look.ColorQuiet
}

func (s *cardStep) fill(from *CardStep) {
	text, colour := cardSign(from.Mark)
	s.mark.say(text, colour)
	s.ring.StrokeWidth, s.ring.StrokeColor = 2, theme.Color(look.ColorQuiet)
	s.ring.FillColor = theme.Color(look.ColorPanel)
	s.ring.Hidden = from.Mark != CardOpen
	s.ring.Refresh()
	s.name.bold = from.Mark == CardMissed
	s.name.text = from.Name
	s.name.Refresh()
	for i, b := range s.lines {
		b.fill(&from.Lines[i])
	}
}

func (s *cardStep) objects() []fyne.CanvasObject {
	list := []fyne.CanvasObject{s.ring, s.mark, s.name}
	for _, b := range s.lines {
		list = append(list, b)
	}
	return list
}

func (s *cardStep) height(w float32) float32 {
	h := float32(cardNameHeight + cardGap)
	for _, b := range s.lines {
		h += b.height(w - cardIndent)
	}
	return h
}

func (s *cardStep) place(x, y, w float32) {
	s.ring.Move(fyne.NewPos(x+1, y+(cardNameHeight-cardRing)/2))
	s.ring.Resize(fyne.NewSize(cardRing, cardRing))
	s.mark.Move(fyne.NewPos(x, y))
	s.mark.Resize(fyne.NewSize(cardIndent, cardNameHeight))
	s.name.Move(fyne.NewPos(x+cardIndent, y))
	s.name.Resize(fyne.NewSize(w-cardIndent, cardNameHeight))
	y += cardNameHeight
	for _, b := range s.lines {
		h := b.height(w - cardIndent)
		b.Move(fyne.NewPos(x+cardIndent-cardPad, y))
		b.Resize(fyne.NewSize(w-cardIndent+2*cardPad, h))
		y += h
	}
}

// cardPad is what a line's ground reaches beyond its text.
const cardPad = 5

// cardButton is a line that leads somewhere.
type cardButton struct {
	widget.BaseWidget
	card    *Card
	line    CardLine
	text    *note
	ground  *fynecanvas.Rectangle
	hovered bool
	focused bool
}

var (
	_ fyne.Tappable      = (*cardButton)(nil)
	_ fyne.Focusable     = (*cardButton)(nil)
	_ desktop.Hoverable  = (*cardButton)(nil)
	_ desktop.Cursorable = (*cardButton)(nil)
)

func newCardButton(c *Card) *cardButton {
	b := &cardButton{card: c, text: quietNote(""), ground: fynecanvas.NewRectangle(theme.Color(look.ColorPanel))}
	b.ground.CornerRadius = theme.InputRadiusSize()
	b.ExtendBaseWidget(b)
	return b
}

func (b *cardButton) fill(l *CardLine) {
	b.line = *l
	b.text.say(l.Text, b.colour())
	b.Refresh()
}

func (b *cardButton) colour() fyne.ThemeColorName {
	if b.line.Mark == CardMissed {
		return theme.ColorNameWarning
	}
	return look.ColorQuiet
}

func (b *cardButton) height(w float32) float32 {
	return max(cardLineLeast, b.text.height(w)+cardPad)
}

// Tapped goes to the place.
func (b *cardButton) Tapped(*fyne.PointEvent) { b.line.Go() }

// TypedKey goes to the place.
func (b *cardButton) TypedKey(e *fyne.KeyEvent) {
	if keyed.Pass(b, e) {
		return
	}
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.line.Go()
	}
}

// TypedRune takes no letters.
func (b *cardButton) TypedRune(rune) {}

// FocusGained shows the cursor and what the line needs.
func (b *cardButton) FocusGained() {
	b.focused = true
	b.card.reveal(b)
	b.hint()
}

// FocusLost takes it away.
func (b *cardButton) FocusLost() { b.focused = false; b.hint() }

// MouseIn says what the line needs.
func (b *cardButton) MouseIn(*desktop.MouseEvent) { b.hovered = true; b.hint() }

// MouseMoved changes nothing.
func (b *cardButton) MouseMoved(*desktop.MouseEvent) {}

// MouseOut forgets the pointer.
func (b *cardButton) MouseOut() { b.hovered = false; b.hint() }

// Cursor shows that the line leads somewhere.
func (b *cardButton) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (b *cardButton) hint() {
	b.Refresh()
	if b.card.OnHint == nil {
		return
	}
	if b.hovered || b.focused {
		b.card.OnHint(b.line.Hint)
	} else {
		b.card.OnHint("")
	}
}

// MinSize is that of one line.
func (b *cardButton) MinSize() fyne.Size { return fyne.NewSize(60, cardLineLeast) }

// CreateRenderer is for the toolkit.
func (b *cardButton) CreateRenderer() fyne.WidgetRenderer {
	b.ExtendBaseWidget(b)
	r := &cardButtonRenderer{b}
	r.Refresh()
	return r
}

type cardButtonRenderer struct{ b *cardButton }

func (r *cardButtonRenderer) Layout(size fyne.Size) {
	r.b.ground.Resize(size)
	r.b.text.Move(fyne.NewPos(cardPad, cardPad/2))
	r.b.text.Resize(fyne.NewSize(size.Width-2*cardPad, size.Height-cardPad))
}

func (r *cardButtonRenderer) MinSize() fyne.Size { return r.b.MinSize() }
func (r *cardButtonRenderer) Destroy()           {}

func (r *cardButtonRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.b.ground, r.b.text}
}

func (r *cardButtonRenderer) Refresh() {
	b := r.b
	b.ground.FillColor, b.ground.StrokeWidth = theme.Color(look.ColorPanel), 0
	if b.hovered {
		b.ground.FillColor = theme.Color(theme.ColorNameHover)
	}
	if b.focused {
		b.ground.StrokeWidth, b.ground.StrokeColor = 2, theme.Color(theme.ColorNamePrimary)
	}
	b.ground.Refresh()
	b.text.Refresh()
}
