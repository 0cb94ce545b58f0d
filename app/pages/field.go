package pages

import (
	"errors"
	"fmt"
	"strings"

	"armscribe/canvas"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/units"
)

// Field is an entry with a width of its own. Enter and leaving it tell done; Esc
// puts back what it held.
type Field struct {
	widget.Entry
	width   float32
	Held    string // what is held elsewhere, as it is shown
	Done    func(text string)
	Entered func() // instead of done, on Enter; may be nil
	// Live tells that a text works while it is typed: Enter and leaving hold it,
	// and Esc puts back what was held before.
	Live bool
}

// NewField makes a field of a width in points.
func NewField(width float32) *Field {
	f := &Field{width: width}
	f.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	f.ExtendBaseWidget(f)
	return f
}

// MinSize is the width asked for.
func (f *Field) MinSize() fyne.Size {
	return fyne.NewSize(f.width, f.Entry.MinSize().Height)
}

// Hold shows what is held elsewhere, unless something else has been typed.
func (f *Field) Hold(text string) {
	if f.Text == f.Held {
		f.Held = text
		f.SetText(text)
		return
	}
	f.Held = text
}

// Owing tells whether something was typed that is not held elsewhere yet.
func (f *Field) Owing() bool { return f.Text != f.Held }

// Taken tells the field that what was typed is held now.
func (f *Field) Taken() { f.Held = f.Text }

// TypedKey acts on Enter and Esc.
func (f *Field) TypedKey(e *fyne.KeyEvent) {
	if canvas.MenuKey(f, e) {
		return
	}
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if f.Entered != nil {
			f.Entered()
			return
		}
		f.Hand()
	case fyne.KeyEscape:
		if !f.Owing() {
			f.leave()
			return
		}
		f.SetText(f.Held)
		f.Hand()
	default:
		f.Entry.TypedKey(e)
	}
}

// FocusLost hands in what was typed.
func (f *Field) FocusLost() {
	f.Entry.FocusLost()
	if f.Owing() {
		f.Hand()
	}
}

// Hand hands in what stands in the field.
func (f *Field) Hand() {
	if f.Live {
		f.Taken()
	}
	if f.Done != nil {
		f.Done(f.Text)
	}
}

// leave gives the keyboard away, so that the next Esc is the page's.
func (f *Field) leave() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(f); c != nil {
		c.Unfocus()
	}
}

// Number is a field of the page's own for a length or an angle. It follows the
// unit on display as long as what stands in it is one value.
type Number struct {
	*Field
	What  string // for messages
	angle bool
	unit  units.Unit
}

// NewLength makes a field for a length; what names it in messages.
func NewLength(what string, width float32) *Number {
	return &Number{Field: NewField(width), What: what}
}

// NewAngle makes a field for an angle in degrees.
func NewAngle(what string, width float32) *Number {
	return &Number{Field: NewField(width), What: what, angle: true}
}

// ErrBlank is the error of a field in which nothing stands.
var ErrBlank = errors.New("is blank")

// Value is what is typed, mm or rad. The error names the field.
func (n *Number) Value() (v float64, err error) {
	switch {
	case strings.TrimSpace(n.Text) == "":
		err = ErrBlank
	case n.angle:
		v, err = units.ParseAngle(n.Text)
	default:
		v, err = units.Parse(n.Text, n.unit)
	}
	if err != nil {
		return 0, fmt.Errorf("%s: %w", n.What, err)
	}
	return v, nil
}

// Set puts a value in.
func (n *Number) Set(v float64, unit units.Unit) {
	n.unit = unit
	text := ShortLength(v, unit)
	if n.angle {
		text = units.Trimmed(v*Degree, 4)
	}
	n.Held = text
	n.SetText(text)
}

// Suggest puts in a length of the program's own choice, as round as one marks
// it in the job's unit: in inches to an eighth.
func (n *Number) Suggest(mm float64, unit units.Unit) {
	n.Set(units.Suggested(mm, unit), unit)
}

// Show follows the unit on display.
func (n *Number) Show(unit units.Unit) {
	if unit == n.unit {
		return
	}
	if v, err := n.Value(); err == nil {
		n.Set(v, unit)
	}
	n.unit = unit
}
