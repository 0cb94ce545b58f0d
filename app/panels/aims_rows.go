package panels

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"armscribe/app/look"
	"armscribe/app/targets"
)

// Sizes of a line of targets in points.
const (
	aimField    = 76
	aimUnitWide = 54
)

// aimHead names the columns of fields.
type aimHead struct{ names [aimColumns]*note }

func newAimHead() *aimHead {
	h := &aimHead{}
	for i, text := range [aimColumns]string{"at least", "at most", "over bump", "and droop"} {
		h.names[i] = quietNote(text)
	}
	return h
}

func (h *aimHead) objects() []fyne.CanvasObject {
	list := make([]fyne.CanvasObject, aimColumns)
	for i, n := range h.names {
		list[i] = n
	}
	return list
}

func (h *aimHead) height(float32) float32 { return hintHeight }

func (h *aimHead) place(x, y, w float32) {
	for i, n := range h.names {
		n.Move(fyne.NewPos(aimColumn(x, w, i)+4, y))
		n.Resize(fyne.NewSize(aimField, hintHeight))
	}
}

// aimColumn is the left edge of a column of fields in a form of a width.
func aimColumn(x, w float32, column int) float32 {
	edge := x + w - aimColumns*(aimField+fieldGap) - aimUnitWide + fieldGap
	edge += float32(column) * (aimField + fieldGap)
	if column > aimMost { // the unit stands after the most
		edge += aimUnitWide
	}
	return edge
}

// aimRow is a target: its name, its fields, and under them how it stands, what
// a typed text means or why it was refused.
type aimRow struct {
	name, unit *note
	fields     [aimColumns]*field
	under      *note
	form       *form
	room       steady // of under
	standing   Standing
	unitText   func() string
}

func newAimRow(f *form, name string, unit func() string) *aimRow {
	r := &aimRow{name: newNote(name, look.SizeSmall, theme.ColorNameForeground), unit: quietNote(""), under: quietNote(""), form: f, unitText: unit}
	r.name.step, r.unit.step = fieldHeight, fieldHeight
	return r
}

func (r *aimRow) add(column int, f *field) {
	r.fields[column] = f
	f.sayFor(r.say, r.fields[:])
	f.onFocus = func(f *field) { r.form.reveal(f) }
}

func (r *aimRow) objects() []fyne.CanvasObject {
	list := []fyne.CanvasObject{r.name}
	for _, f := range r.fields {
		if f != nil {
			list = append(list, f)
		}
	}
	return append(list, r.unit, r.under)
}

// stand changes what is said while nothing is typed.
func (r *aimRow) stand(s Standing) {
	r.unit.say(r.unitText(), look.ColorQuiet)
	atRest := r.under.text == r.standing.text()
	r.standing = s
	if atRest {
		r.write(s.text(), s.colour())
	}
}

func (s Standing) text() string {
	if s.Words == "" {
		return ""
	}
	return s.Verdict.Mark().Sign() + s.Words // colour is never alone
}

func (s Standing) colour() fyne.ThemeColorName {
	switch s.Verdict {
	case targets.Met:
		return theme.ColorNameSuccess
	case targets.Undecided:
		return look.ColorQuiet
	}
	return theme.ColorNameWarning
}

func (r *aimRow) say(echo string, err error) {
	switch {
	case err != nil:
		r.write(crossed(err), theme.ColorNameError)
	case echo != "":
		r.write(echo, look.ColorQuiet)
	default:
		r.write(r.standing.text(), r.standing.colour())
	}
}

func (r *aimRow) write(text string, colour fyne.ThemeColorName) {
	w := r.form.width - 2*margin
	was := r.height(w)
	r.under.say(text, colour)
	if r.height(w) != was {
		r.form.arrange()
	}
}

func (r *aimRow) height(w float32) float32 {
	return fieldHeight + r.room.of(w, r.under.height(w)) + rowGap
}

func (r *aimRow) place(x, y, w float32) {
	put := func(o fyne.CanvasObject, x, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	put(r.name, x, aimColumn(x, w, 0)-x, fieldHeight)
	for i, f := range r.fields {
		if f != nil {
			put(f, aimColumn(x, w, i), aimField, fieldHeight)
		}
	}
	put(r.unit, aimColumn(x, w, aimMost)+aimField+fieldGap, aimUnitWide, fieldHeight)
	y += fieldHeight
	put(r.under, x, w, r.under.height(w))
}
