package panels

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"armscribe/app/look"
)

// pointRow is a point: its name, beside it what a typed text means, and three
// fields; under them why one was refused.
type pointRow struct {
	label, echo, under *note
	fields             [3]*field // nil where the point has no such coordinate
	mark               string    // how well it is known, while nothing is typed
	form               *form
	room               steady // of under
}

func newPointRow(f *form, label string, fields [3]*field) *pointRow {
	r := &pointRow{label: newNote(label, look.SizeSmall, theme.ColorNameForeground), echo: quietNote(""), under: quietNote(""), fields: fields, form: f}
	r.label.step, r.echo.step, r.echo.right = nameHeight, nameHeight, true
	for _, fd := range fields {
		if fd != nil {
			fd.sayFor(r.say, r.fields[:])
			fd.onFocus = func(fd *field) { f.reveal(fd) }
			fd.grown = f.arrange
		}
	}
	return r
}

func (r *pointRow) objects() []fyne.CanvasObject {
	list := []fyne.CanvasObject{r.label, r.echo, r.under}
	for _, fd := range r.fields {
		if fd != nil {
			list = append(list, fd)
		}
	}
	return list
}

// markWith says how well the point is known.
func (r *pointRow) markWith(text string) {
	if was := r.mark; text != was {
		if r.mark = text; r.echo.text+r.under.text == was {
			r.say("", r.refused())
		}
	}
}

func (r *pointRow) say(echo string, err error) {
	if echo == "" && err == nil {
		echo = r.mark
	} else if fd := r.focused(); fd != nil && echo != "" {
		echo = fd.whole(echo)
	}
	text, colour := "", theme.ColorNameError
	switch {
	case err != nil:
		text = r.form.reason(err)
	case !r.fits(echo):
		echo, text, colour = "", echo, look.ColorQuiet
	}
	r.echo.say(echo, look.ColorQuiet)
	if r.under.text != text {
		r.under.say(text, colour)
		r.form.arrange()
	}
}

// fits tells whether a text has room beside the name.
func (r *pointRow) fits(echo string) bool {
	return float32(r.label.measure(r.label.text)+r.echo.measure(echo))+fieldGap <= r.form.width-2*margin
}

func (r *pointRow) height(w float32) float32 {
	return nameHeight + fieldHeight + r.room.of(w, r.under.height(w)) + rowGap
}

func (r *pointRow) place(x, y, w float32) {
	name := min(w/2, float32(r.label.measure(r.label.text))+fieldGap)
	r.label.Move(fyne.NewPos(x, y))
	r.label.Resize(fyne.NewSize(name, nameHeight))
	r.echo.Move(fyne.NewPos(x+name, y))
	r.echo.Resize(fyne.NewSize(w-name, nameHeight))
	left := x
	for i, fw := range r.widths(w) {
		if fd := r.fields[i]; fd != nil {
			fd.Move(fyne.NewPos(left, y+nameHeight))
			fd.Resize(fyne.NewSize(fw, fieldHeight))
		}
		left += fw + fieldGap
	}
	r.under.Move(fyne.NewPos(x, y+nameHeight+fieldHeight))
	r.under.Resize(fyne.NewSize(w, r.under.height(w)))
}

// refused is why a field's text was not taken; nil where all were.
func (r *pointRow) refused() error {
	for _, fd := range r.fields {
		if fd != nil && fd.owing && fd.refused != nil {
			return fd.refused
		}
	}
	return nil
}

// focused is the field that has the keyboard, nil if none of the row has.
func (r *pointRow) focused() *field {
	for _, fd := range r.fields {
		if fd != nil && fd.focused {
			return fd
		}
	}
	return nil
}

// fieldLeast is what is left of a field beside one whose text needs room.
const fieldLeast = 26

// widths are those of the three columns: equal, but the field with the keyboard
// grows with its text at the others' cost.
func (r *pointRow) widths(w float32) [3]float32 {
	fw := columnWidth(w)
	list := [3]float32{fw, fw, fw}
	at := r.focused()
	if at == nil || at.need() <= fw {
		return list
	}
	need := min(at.need(), 3*fw-2*fieldLeast)
	for i, fd := range r.fields {
		list[i] = (3*fw - need) / 2
		if fd == at {
			list[i] = need
		}
	}
	return list
}

// columnWidth is the width of one of three fields.
func columnWidth(w float32) float32 { return min(valueMost, (w-2*fieldGap)/3) }

// axesRow heads the three columns of the points.
type axesRow struct{ notes [3]*note }

func newAxes() *axesRow {
	return &axesRow{[3]*note{quietNote("x, forward"), quietNote("y, outboard"), quietNote("z, up")}}
}

func (r *axesRow) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.notes[0], r.notes[1], r.notes[2]}
}

func (r *axesRow) height(float32) float32 { return hintHeight }

func (r *axesRow) place(x, y, w float32) {
	fw := columnWidth(w)
	for i, n := range r.notes {
		n.Move(fyne.NewPos(x+float32(i)*(fw+fieldGap), y))
		n.Resize(fyne.NewSize(fw, hintHeight))
	}
}
