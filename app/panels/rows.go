package panels

import (
	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/look"
)

// steady keeps a height that follows what is typed: at one width it grows and
// does not shrink again, so that nothing moves away under a hand that types or is
// about to click.
type steady struct{ width, height float32 }

func (s *steady) of(width, height float32) float32 {
	if width != s.width {
		s.width, s.height = width, 0
	}
	s.height = max(s.height, height)
	return s.height
}

// note is text in the colours of the theme, of one line or wrapped.
type note struct {
	widget.BaseWidget
	text   string
	size   fyne.ThemeSizeName
	colour fyne.ThemeColorName
	bold   bool
	right  bool // ends at the right edge
	step   float32
	lines  []*fynecanvas.Text
}

func newNote(text string, size fyne.ThemeSizeName, colour fyne.ThemeColorName) *note {
	n := &note{text: text, size: size, colour: colour, step: hintHeight}
	n.ExtendBaseWidget(n)
	return n
}

func quietNote(text string) *note {
	return newNote(text, theme.SizeNameCaptionText, look.ColorQuiet)
}

// say changes the text and its colour.
func (n *note) say(text string, colour fyne.ThemeColorName) {
	if n.text != text || n.colour != colour {
		n.text, n.colour = text, colour
		n.Refresh()
	}
}

func (n *note) style() fyne.TextStyle { return fyne.TextStyle{Bold: n.bold} }

// measure is the width of a text in the note's style.
func (n *note) measure(text string) float64 {
	return float64(fyne.MeasureText(text, theme.Size(n.size), n.style()).Width)
}

// height is that of the wrapped text at a width.
func (n *note) height(w float32) float32 {
	if n.text == "" {
		return 0
	}
	return n.step * float32(len(n.wrapped(w)))
}

func (n *note) wrapped(w float32) []string { return wrap(n.measure, n.text, float64(w)) }

// MinSize returns that of one line.
func (n *note) MinSize() fyne.Size { return fyne.NewSize(10, n.step) }

// CreateRenderer is for the toolkit.
func (n *note) CreateRenderer() fyne.WidgetRenderer {
	r := &noteRenderer{n}
	r.Refresh()
	return r
}

type noteRenderer struct{ n *note }

func (r *noteRenderer) Layout(fyne.Size)   { r.Refresh() }
func (r *noteRenderer) MinSize() fyne.Size { return r.n.MinSize() }
func (r *noteRenderer) Destroy()           {}

func (r *noteRenderer) Objects() []fyne.CanvasObject {
	list := make([]fyne.CanvasObject, len(r.n.lines))
	for i, t := range r.n.lines {
		list[i] = t
	}
	return list
}

func (r *noteRenderer) Refresh() {
	n := r.n
	n.lines = n.lines[:0]
	if n.text == "" {
		return
	}
	for i, text := range n.wrapped(n.Size().Width) {
		t := fynecanvas.NewText(text, theme.Color(n.colour))
		t.TextSize, t.TextStyle = theme.Size(n.size), n.style()
		min := t.MinSize()
		x := float32(0)
		if n.right {
			x = n.Size().Width - min.Width
		}
		t.Move(fyne.NewPos(x, n.step*float32(i)+(n.step-min.Height)/2))
		t.Resize(min)
		n.lines = append(n.lines, t)
	}
}

// headRow is a heading with a hairline over it.
type headRow struct {
	title *note
	rule  *widget.Separator
	first bool
}

func newHead(title string, first bool) *headRow {
	n := newNote(title, theme.SizeNameText, theme.ColorNameForeground)
	n.bold, n.step = true, 20
	return &headRow{n, widget.NewSeparator(), first}
}

func (r *headRow) objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.rule, r.title} }

func (r *headRow) height(float32) float32 {
	if r.first {
		return r.title.step + rowGap
	}
	return headSpace + r.title.step + rowGap
}

func (r *headRow) place(x, y, w float32) {
	if r.first {
		r.rule.Hide()
	} else {
		r.rule.Move(fyne.NewPos(x, y+5))
		r.rule.Resize(fyne.NewSize(w, 1))
		y += headSpace
	}
	r.title.Move(fyne.NewPos(x, y))
	r.title.Resize(fyne.NewSize(w, r.title.step))
}

// Widths of the field of a value, in points.
const (
	valueLeast = 64
	valueMost  = 120
)

// valueRow is a name, its field and under both a hint, which gives way to what
// a typed text means or why it was refused.
type valueRow struct {
	label *note
	*field
	under *note
	hint  string
	tint  fyne.ThemeColorName // of the hint
	wide  bool                // the field takes half the width, for a code
	form  *form
	room  steady // of under
}

func newValueRow(f *form, label string, fd *field) *valueRow {
	r := &valueRow{label: newNote(label, look.SizeSmall, theme.ColorNameForeground), field: fd, under: quietNote(""), tint: look.ColorQuiet, form: f}
	r.label.step = fieldHeight
	fd.say = r.say
	fd.onFocus = func(fd *field) { f.reveal(fd) }
	fd.grown = f.arrange
	return r
}

func (r *valueRow) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.label, r.field, r.under}
}

// explainWith changes the hint.
func (r *valueRow) explainWith(hint string) { r.cautionWith(hint, false) }

// cautionWith changes the hint; a caution is not quiet.
func (r *valueRow) cautionWith(hint string, caution bool) {
	r.tint = look.ColorQuiet
	if caution {
		r.tint = theme.ColorNameForeground
	}
	if was := r.hint; r.under.text == was {
		r.write(hint, r.tint)
	}
	r.hint = hint
}

// write fills the line under the field, and makes room where it takes more.
func (r *valueRow) write(text string, colour fyne.ThemeColorName) {
	w := r.form.width - 2*margin
	was := r.height(w)
	r.under.say(text, colour)
	if r.height(w) != was {
		r.form.arrange()
	}
}

func (r *valueRow) say(echo string, err error) {
	switch {
	case err != nil:
		r.write(r.form.reason(err), theme.ColorNameError)
	case echo != "":
		r.write(r.field.whole(echo), look.ColorQuiet)
	default:
		r.write(r.hint, r.tint)
	}
}

// crossed is a reason with its mark, so that colour is not alone.
func crossed(err error) string { return "✕ " + fault(err) }

// reason is crossed in the words of the form's axle.
func (f *form) reason(err error) string {
	if f.words == nil {
		return crossed(err)
	}
	return f.words(crossed(err))
}

// fieldWidth grows for a text in the making, up to the name.
func (r *valueRow) fieldWidth(w float32) float32 {
	fw := max(valueLeast, min(valueMost, (w-2*fieldGap)/3))
	if r.wide {
		fw = max(w/2, 110)
	}
	return max(fw, min(r.field.need(), w-fieldGap-float32(r.label.measure(r.label.text))))
}

func (r *valueRow) height(w float32) float32 {
	return fieldHeight + r.room.of(w, max(hintHeight, r.under.height(w))) + rowGap
}

func (r *valueRow) place(x, y, w float32) {
	fw := r.fieldWidth(w)
	r.label.Move(fyne.NewPos(x, y))
	r.label.Resize(fyne.NewSize(w-fw-fieldGap, fieldHeight))
	r.field.Move(fyne.NewPos(x+w-fw, y))
	r.field.Resize(fyne.NewSize(fw, fieldHeight))
	r.under.Move(fyne.NewPos(x, y+fieldHeight))
	r.under.Resize(fyne.NewSize(w, max(hintHeight, r.under.height(w))))
}

// factRow is a name and what follows from the rest.
type factRow struct {
	name, value *note
	room        steady
}

func newFact(name string) *factRow {
	r := &factRow{name: newNote(name, look.SizeSmall, look.ColorQuiet), value: newNote("", look.SizeSmall, theme.ColorNameForeground)}
	r.name.step, r.value.step, r.value.right = factHeight, factHeight, true
	return r
}

func (r *factRow) objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.name, r.value} }

// height is two lines where one is too narrow.
func (r *factRow) height(w float32) float32 {
	if r.tight(w) {
		return r.room.of(w, 2*factHeight)
	}
	return r.room.of(w, factHeight)
}

func (r *factRow) tight(w float32) bool {
	return float32(r.name.measure(r.name.text)+r.value.measure(r.value.text))+fieldGap > w
}

func (r *factRow) place(x, y, w float32) {
	r.name.Move(fyne.NewPos(x, y))
	r.name.Resize(fyne.NewSize(w, factHeight))
	if r.tight(w) {
		y += factHeight
	}
	r.value.Move(fyne.NewPos(x, y))
	r.value.Resize(fyne.NewSize(w, factHeight))
}
