package panels

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"armscribe/app/keyed"
	"armscribe/app/look"
)

// Card is the job card, and the way through the work: the steps, each with a mark and
// what is open in it. A step is chosen by a click or with the keyboard by Enter or
// Space; the lines of the one that is chosen lead to where they are done. A narrow
// card shows marks alone.
//
// All methods belong to the toolkit's goroutine.
type Card struct {
	form

	// OnStep is told which step is chosen; it must be set before a hand chooses.
	OnStep func(i int)
	// OnHint is told what the line under the pointer or the cursor needs, empty
	// when there is none.
	OnHint func(text string)

	shown  []CardStep
	chosen int
	steps  []*cardStep
}

// CardMark is how a step or line stands.
type CardMark uint8

// The marks.
const (
	CardOpen CardMark = iota
	CardMissed
	CardUndecided
	CardMet
	CardNone // has no mark
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
	c.form.least = cardLeast
	return c
}

// SetSteps shows steps, one of them chosen. Lines that stay keep the keyboard.
func (c *Card) SetSteps(steps []CardStep, chosen int) {
	fits := c.fits(steps, chosen)
	c.shown, c.chosen = steps, chosen
	if !fits {
		c.build()
	}
	c.fill()
	c.arrange()
}

// Steps returns what is shown.
func (c *Card) Steps() []CardStep { return c.shown }

// Step is where a step is chosen, for the keyboard and for tests.
func (c *Card) Step(i int) fyne.CanvasObject { return c.steps[i].head }

// Refresh paints anew, in the colours of the theme.
func (c *Card) Refresh() {
	c.fill()
	c.form.Refresh()
}

func (c *Card) fill() {
	for i := range c.shown {
		c.steps[i].fill(&c.shown[i], i == c.chosen)
	}
}

// fits tells whether the present rows have a place for every line.
func (c *Card) fits(steps []CardStep, chosen int) bool {
	if len(c.steps) != len(steps) || chosen != c.chosen {
		return false
	}
	return len(c.steps[chosen].lines) == len(steps[chosen].Lines)
}

func (c *Card) build() {
	var rows []row
	for len(c.steps) < len(c.shown) {
		i := len(c.steps)
		c.steps = append(c.steps, &cardStep{card: c, head: newCardHead(c, i)})
	}
	c.steps = c.steps[:len(c.shown)]
	for i, s := range c.steps {
		s.lines = s.lines[:0]
		if i == c.chosen {
			for range c.shown[i].Lines {
				s.lines = append(s.lines, newCardButton(c))
			}
		}
		rows = append(rows, s)
	}
	c.setRows(rows)
}

// Sizes of the card in points.
const (
	cardLeast      = 40
	cardNarrow     = 100 // marks alone below this width
	cardHeadHeight = 32
	cardBar        = 3 // left of the step that is chosen
	cardIndent     = 24
	cardRing       = 11
	cardGap        = 4
	cardLineLeast  = keyed.TargetLeast
)

func (c *Card) narrow() bool { return c.width < cardNarrow }

// cardStep is the row of a step: its head, and the lines of the one that is chosen.
type cardStep struct {
	card  *Card
	head  *cardHead
	lines []*cardButton
}

func (s *cardStep) fill(from *CardStep, chosen bool) {
	s.head.fill(from, chosen)
	for i, b := range s.lines {
		b.fill(&from.Lines[i])
	}
}

func (s *cardStep) objects() []fyne.CanvasObject {
	list := []fyne.CanvasObject{s.head}
	for _, b := range s.lines {
		list = append(list, b)
	}
	return list
}

func (s *cardStep) height(w float32) float32 {
	h := s.head.height(w) + cardGap
	if !s.card.narrow() {
		for _, b := range s.lines {
			h += b.height(w - cardIndent)
		}
	}
	return h
}

func (s *cardStep) place(x, y, w float32) {
	h := s.head.height(w)
	s.head.Move(fyne.NewPos(0, y))
	s.head.Resize(fyne.NewSize(w+2*x, h))
	y += h
	for _, b := range s.lines {
		b.Hidden = s.card.narrow()
		h := b.height(w - cardIndent)
		b.Move(fyne.NewPos(x+cardIndent-cardPad, y))
		b.Resize(fyne.NewSize(w-cardIndent+2*cardPad, h))
		y += h
	}
}

// cardHead is the head of a step: mark, name, and of one that is not chosen the most
// pressing line.
type cardHead struct {
	keyed.Area
	card             *Card
	step             CardStep
	chosen           bool
	mark, name, line *note
	ring             *fynecanvas.Circle
	ground, bar      *fynecanvas.Rectangle
}

func newCardHead(c *Card, i int) *cardHead {
	text := func() *note {
		n := newNote("", theme.SizeNameText, theme.ColorNameForeground)
		n.step = cardHeadHeight - 12
		return n
	}
	h := &cardHead{card: c, mark: text(), name: text(), line: quietNote(""), ring: fynecanvas.NewCircle(nil), ground: fynecanvas.NewRectangle(nil), bar: fynecanvas.NewRectangle(nil)}
	h.OnTapped = func() { c.OnStep(i) }
	h.OnLook = func() {
		if h.Focused {
			c.reveal(h)
		}
		text := h.step.Name
		for _, l := range h.step.Lines {
			text += ". " + strings.TrimSuffix(l.Hint, ".")
		}
		c.hint(h.Hovered || h.Focused, text+".")
	}
	h.ExtendBaseWidget(h)
	return h
}

// Word is the step's name.
func (h *cardHead) Word() string { return h.step.Name }

// Word is the line's text.
func (b *cardButton) Word() string { return b.line.Text }

// hint tells what is under the pointer or has the keyboard.
func (c *Card) hint(on bool, text string) {
	if c.OnHint == nil {
		return
	}
	if !on {
		text = ""
	}
	c.OnHint(text)
}

func (h *cardHead) fill(from *CardStep, chosen bool) {
	h.step, h.chosen = *from, chosen
	h.Refresh()
}

// lineWidth is what the line under the name has, of the row's width.
func (h *cardHead) lineWidth(w float32) float32 { return w - cardIndent }

func (h *cardHead) hasLine() bool { return !h.chosen && len(h.step.Lines) > 0 && !h.card.narrow() }

func (h *cardHead) height(w float32) float32 {
	if !h.hasLine() {
		return cardHeadHeight
	}
	return cardHeadHeight + h.line.height(h.lineWidth(w))
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

// colourOf a line: that of warnings only where something is not met.
func colourOf(m CardMark) fyne.ThemeColorName {
	if m == CardMissed {
		return theme.ColorNameWarning
	}
	return look.ColorQuiet
}

// MinSize is that of a mark.
func (h *cardHead) MinSize() fyne.Size { return fyne.NewSize(cardLeast, cardHeadHeight) }

// CreateRenderer is for the toolkit.
func (h *cardHead) CreateRenderer() fyne.WidgetRenderer {
	h.ExtendBaseWidget(h)
	r := &cardHeadRenderer{h}
	r.dress()
	return h.Ring.Around(r)
}

type cardHeadRenderer struct{ h *cardHead }

func (r *cardHeadRenderer) Layout(size fyne.Size) {
	h := r.h
	x, row := float32(margin), float32(cardHeadHeight)
	h.ground.Resize(size)
	h.bar.Resize(fyne.NewSize(cardBar, size.Height))
	h.ring.Move(fyne.NewPos(x+1, (row-cardRing)/2))
	h.ring.Resize(fyne.NewSize(cardRing, cardRing))
	h.mark.Move(fyne.NewPos(x, (row-h.mark.step)/2))
	h.mark.Resize(fyne.NewSize(cardIndent, h.mark.step))
	h.name.Move(fyne.NewPos(x+cardIndent, (row-h.name.step)/2))
	h.name.Resize(fyne.NewSize(max(0, size.Width-x-cardIndent), h.name.step))
	h.line.Move(fyne.NewPos(x+cardIndent, row-4))
	h.line.Resize(fyne.NewSize(h.lineWidth(size.Width-2*x), max(0, size.Height-row+4)))
}

func (r *cardHeadRenderer) dress() {
	h := r.h
	sign, colour := cardSign(h.step.Mark)
	h.mark.text, h.mark.colour = sign, colour
	h.ring.StrokeWidth, h.ring.StrokeColor, h.ring.FillColor = 2, theme.Color(look.ColorQuiet), color.Transparent
	h.ring.Hidden = h.step.Mark != CardOpen
	h.name.text, h.name.bold = h.step.Name, h.chosen
	h.name.Hidden = h.card.narrow() && h.step.Mark != CardNone
	if h.card.narrow() {
		h.name.text = ""
		if h.step.Mark == CardNone {
			h.mark.text = "▾"
		}
	}
	h.line.Hidden = !h.hasLine()
	if h.hasLine() {
		h.line.text, h.line.colour = h.step.Lines[0].Text, colourOf(h.step.Lines[0].Mark)
	}
	h.ground.FillColor = color.Transparent
	switch {
	case h.chosen:
		h.ground.FillColor = theme.Color(look.ColorPaper)
	case h.Hovered:
		h.ground.FillColor = theme.Color(theme.ColorNameHover)
	}
	h.bar.FillColor = theme.Color(theme.ColorNamePrimary)
	h.bar.Hidden = !h.chosen
}

func (r *cardHeadRenderer) Refresh() {
	r.dress()
	r.Layout(r.h.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *cardHeadRenderer) MinSize() fyne.Size { return r.h.MinSize() }
func (r *cardHeadRenderer) Destroy()           {}

func (r *cardHeadRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.h.ground, r.h.bar, r.h.ring, r.h.mark, r.h.name, r.h.line}
}

// cardPad is what a line's ground reaches beyond its text.
const cardPad = 5

// cardButton is a line that leads somewhere.
type cardButton struct {
	keyed.Area
	line   CardLine
	text   *note
	ground *fynecanvas.Rectangle
}

func newCardButton(c *Card) *cardButton {
	b := &cardButton{text: quietNote(""), ground: fynecanvas.NewRectangle(nil)}
	b.ground.CornerRadius = theme.InputRadiusSize()
	b.OnTapped = func() { b.line.Go() }
	b.OnLook = func() {
		if b.Focused {
			c.reveal(b)
		}
		c.hint(b.Hovered || b.Focused, b.line.Hint)
	}
	b.ExtendBaseWidget(b)
	return b
}

func (b *cardButton) fill(l *CardLine) {
	b.line = *l
	b.text.say(l.Text, colourOf(l.Mark))
	b.Refresh()
}

func (b *cardButton) height(w float32) float32 {
	return max(cardLineLeast, b.text.height(w)+cardPad)
}

// MinSize is that of one line.
func (b *cardButton) MinSize() fyne.Size { return fyne.NewSize(60, cardLineLeast) }

// CreateRenderer is for the toolkit.
func (b *cardButton) CreateRenderer() fyne.WidgetRenderer {
	b.ExtendBaseWidget(b)
	r := &cardButtonRenderer{b}
	r.Refresh()
	return b.Ring.Around(r)
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
	b.ground.FillColor = color.Transparent
	if b.Hovered {
		b.ground.FillColor = theme.Color(theme.ColorNameHover)
	}
	b.ground.Refresh()
	b.text.Refresh()
}
