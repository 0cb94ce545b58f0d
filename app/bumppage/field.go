package bumppage

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/units"
)

// field is an entry with a width of its own. Enter and leaving it tell done; Esc
// puts back what it held.
type field struct {
	widget.Entry
	width float32
	held  string // what is held elsewhere, as it is shown
	done  func(text string)
	enter func() // instead of done, on Enter; may be nil
}

func newField(width float32) *field {
	f := &field{width: width}
	f.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	f.ExtendBaseWidget(f)
	return f
}

// MinSize is the width asked for.
func (f *field) MinSize() fyne.Size {
	return fyne.NewSize(f.width, f.Entry.MinSize().Height)
}

// hold shows what is held elsewhere, unless something else has been typed.
func (f *field) hold(text string) {
	if f.Text == f.held {
		f.held = text
		f.SetText(text)
		return
	}
	f.held = text
}

// owing tells whether something was typed that is not held elsewhere yet.
func (f *field) owing() bool { return f.Text != f.held }

// taken tells the field that what was typed is held now.
func (f *field) taken() { f.held = f.Text }

// TypedKey acts on Enter and Esc.
func (f *field) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if f.enter != nil {
			f.enter()
			return
		}
		f.hand()
	case fyne.KeyEscape:
		f.SetText(f.held)
		f.hand()
	default:
		f.Entry.TypedKey(e)
	}
}

// FocusLost hands in what was typed.
func (f *field) FocusLost() {
	f.Entry.FocusLost()
	if f.owing() {
		f.hand()
	}
}

func (f *field) hand() {
	if f.done != nil {
		f.done(f.Text)
	}
}

// number is a field of the page's own for a length or an angle. It follows the
// unit on display as long as what stands in it is one value.
type number struct {
	*field
	what  string // for messages
	angle bool
	unit  units.Unit
}

func newLength(what string, width float32) *number {
	return &number{field: newField(width), what: what}
}

func newAngle(what string, width float32) *number {
	return &number{field: newField(width), what: what, angle: true}
}

var errBlank = errors.New("is blank")

// value is what is typed, mm or rad. The error names the field.
func (n *number) value() (v float64, err error) {
	switch {
	case strings.TrimSpace(n.Text) == "":
		err = errBlank
	case n.angle:
		v, err = units.ParseAngle(n.Text)
	default:
		v, err = units.Parse(n.Text, n.unit)
	}
	if err != nil {
		return 0, fmt.Errorf("%s: %w", n.what, err)
	}
	return v, nil
}

// set puts a value in.
func (n *number) set(v float64, unit units.Unit) {
	n.unit = unit
	text := shortLength(v, unit)
	if n.angle {
		text = trimmed(v*degree, 4)
	}
	n.held = text
	n.SetText(text)
}

// show follows the unit on display.
func (n *number) show(unit units.Unit) {
	if unit == n.unit {
		return
	}
	if v, err := n.value(); err == nil {
		n.set(v, unit)
	}
	n.unit = unit
}

// jobLength is a length of the job that may be missing.
type jobLength struct {
	*field
	p    *Page
	name string // for Undo and messages
	of   func(j *job.Job) *job.Optional
	note *notice
}

func newJobLength(p *Page, name string, note *notice, of func(j *job.Job) *job.Optional) *jobLength {
	l := &jobLength{field: newField(82), p: p, name: name, of: of, note: note}
	l.done = l.take
	return l
}

func (l *jobLength) show() {
	text := ""
	if o := l.of(l.p.host.Job()); o.Given {
		text = shortLength(o.MM, l.p.setup.Unit)
	}
	l.hold(text)
}

func (l *jobLength) take(text string) {
	if !l.owing() {
		return
	}
	var next job.Optional
	if strings.TrimSpace(text) != "" {
		mm, err := units.Parse(text, l.p.setup.Unit)
		if err != nil {
			l.note.wrong(l.name+": ", err)
			return
		}
		next = job.Given(units.Length{MM: mm})
	}
	held := l.held
	l.taken()
	if err := l.p.host.Edit("type "+l.name, func(j *job.Job) { *l.of(j) = next }); err != nil {
		l.held = held
		l.note.wrong("", err)
		return
	}
	l.note.say("")
}
