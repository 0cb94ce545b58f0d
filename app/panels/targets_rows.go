package panels

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"armscribe/app/look"
	"armscribe/app/targets"
)

// Sizes of a line of targets in points.
const (
	targetField      = 76
	targetFieldLeast = 44
	targetUnitWide   = 54
)

// targetHead names the columns of fields.
type targetHead struct{ names [targetColumns]*note }

func newTargetHead() *targetHead {
	h := &targetHead{}
	for i, text := range [targetColumns]string{"at least", "at most", "over bump", "and droop"} {
		h.names[i] = quietNote(text)
	}
	return h
}

func (h *targetHead) objects() []fyne.CanvasObject {
	list := make([]fyne.CanvasObject, targetColumns)
	for i, n := range h.names {
		list[i] = n
	}
	return list
}

func (h *targetHead) height(float32) float32 { return hintHeight }

func (h *targetHead) place(x, y, w float32) {
	for i, n := range h.names {
		n.Move(fyne.NewPos(targetColumn(x, w, i)+4, y))
		n.Resize(fyne.NewSize(fieldWidth(w), hintHeight))
	}
}

// fieldWidth is that of a field in a form of a width: as wide as it may be.
func fieldWidth(w float32) float32 {
	return max(targetFieldLeast, min((w-targetUnitWide-targetColumns*fieldGap)/targetColumns, targetField))
}

// targetColumn is the left edge of a column of fields in a form of a width.
func targetColumn(x, w float32, column int) float32 {
	edge := x + float32(column)*(fieldWidth(w)+fieldGap)
	if column > ofMost { // the unit stands after the most
		edge += targetUnitWide
	}
	return edge
}

// targetRow is a target: its name, its fields, and under them how it stands, what
// a typed text means or why it was refused.
type targetRow struct {
	name, unit *note
	fields     [targetColumns]*field
	under      *note
	form       *form
	room       steady // of under
	standing   Standing
	unitText   func() string
}

func newTargetRow(f *form, name string, unit func() string) *targetRow {
	r := &targetRow{name: newNote(name, look.SizeSmall, theme.ColorNameForeground), unit: quietNote(""), under: quietNote(""), form: f, unitText: unit}
	r.name.step, r.unit.step = nameHeight, fieldHeight
	return r
}

func (r *targetRow) add(column int, f *field) {
	r.fields[column] = f
	f.sayFor(r.say, r.fields[:])
	f.onFocus = func(f *field) { r.form.reveal(f) }
}

func (r *targetRow) objects() []fyne.CanvasObject {
	list := []fyne.CanvasObject{r.name}
	for _, f := range r.fields {
		if f != nil {
			list = append(list, f)
		}
	}
	return append(list, r.unit, r.under)
}

// stand changes what is said while nothing is typed.
func (r *targetRow) stand(s Standing) {
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

func (r *targetRow) say(echo string, err error) {
	switch {
	case err != nil:
		r.write(crossed(err), theme.ColorNameError)
	case echo != "":
		r.write(echo, look.ColorQuiet)
	default:
		r.write(r.standing.text(), r.standing.colour())
	}
}

func (r *targetRow) write(text string, colour fyne.ThemeColorName) {
	w := r.form.width - 2*margin
	was := r.height(w)
	r.under.say(text, colour)
	if r.height(w) != was {
		r.form.arrange()
	}
}

func (r *targetRow) height(w float32) float32 {
	return nameHeight + fieldHeight + r.room.of(w, r.under.height(w)) + rowGap
}

func (r *targetRow) place(x, y, w float32) {
	put := func(o fyne.CanvasObject, x, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	put(r.name, x, w, nameHeight)
	y += nameHeight
	for i, f := range r.fields {
		if f != nil {
			put(f, targetColumn(x, w, i), fieldWidth(w), fieldHeight)
		}
	}
	put(r.unit, targetColumn(x, w, ofMost)+fieldWidth(w)+fieldGap, targetUnitWide, fieldHeight)
	y += fieldHeight
	put(r.under, x, w, r.under.height(w))
}
