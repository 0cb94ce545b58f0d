package panels

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"armscribe/app/keyed"
	"armscribe/app/look"
	"armscribe/app/newjob"
)

// askGroups are the fields as they are asked for. The tyre stands after the
// wheel centre's height.
var askGroups = []struct {
	title  string
	choice askChoice // above the fields
	fields []newjob.Field
}{
	{"Wheel", noChoice, []newjob.Field{newjob.Track, newjob.HubHeight, newjob.FieldCount, newjob.RimWidth, newjob.Offset, newjob.Camber, newjob.Toe}},
	{"Lower arm", lowerPivots, []newjob.Field{newjob.LowerPivotSide, newjob.LowerPivotHeight, newjob.LowerFrontAhead,
		newjob.LowerRearSide, newjob.LowerRearHeight, newjob.LowerRearBehind, newjob.LowerBallSide, newjob.LowerBallHeight}},
	{"Upper arm", upperPivots, []newjob.Field{newjob.UpperPivotSide, newjob.UpperPivotHeight, newjob.UpperFrontAhead,
		newjob.UpperRearSide, newjob.UpperRearHeight, newjob.UpperRearBehind, newjob.UpperBallSide, newjob.UpperBallHeight}},
	{"Tie rod or toe link", rodSide, []newjob.Field{newjob.RackEndSide, newjob.RackEndHeight, newjob.OuterEndSide, newjob.OuterEndHeight, newjob.RodAhead}},
	{"Travel", noChoice, []newjob.Field{newjob.Bump, newjob.Droop}},
}

// askChoice is what is chosen instead of typed.
type askChoice uint8

const (
	noChoice askChoice = iota
	lowerPivots
	upperPivots
	rodSide
	askChoices
)

// onPicture tells whether the picture shows where a field is measured: it is a
// front view.
func onPicture(f newjob.Field) bool { return f < newjob.Camber }

// order numbers the fields of the picture, from 1, as they are asked for.
var order = func() (n [newjob.FieldCount]int) {
	next := 1
	for _, g := range askGroups {
		for _, f := range g.fields {
			if f < newjob.FieldCount && onPicture(f) {
				n[f], next = next, next+1
			}
		}
	}
	return n
}()

// makeRows makes the column of fields.
func (n *NewJob) makeRows() {
	n.column = newAskColumn()
	n.choices = [askChoices]*choiceRow{lowerPivots: n.pivotChoice(0), upperPivots: n.pivotChoice(1), rodSide: n.rodChoice()}
	for _, g := range askGroups {
		for _, f := range g.fields {
			n.newRow(f)
		}
	}
	n.showRows()
}

// showRows shows the fields that the form asks for.
func (n *NewJob) showRows() {
	var rows []row
	for i, g := range askGroups {
		rows = append(rows, newHead(g.title, i == 0))
		if c := n.choices[g.choice]; c != nil {
			rows = append(rows, c)
		}
		for _, f := range g.fields {
			if f == newjob.FieldCount {
				rows = append(rows, n.tyre)
			} else if n.form.Asks(f) {
				n.rows[f].call(n.form.About(f))
				rows = append(rows, n.rows[f])
			}
		}
	}
	n.column.setRows(rows)
}

// pivotChoice asks whether one pivot of an arm is known or both.
func (n *NewJob) pivotChoice(arm int) *choiceRow {
	c := newChoiceRow("Pivots", []string{"one, as seen from in front", "front and rear"}, func(i int) error {
		n.form.TwoPivots[arm] = i == 1
		n.showRows()
		n.compute()
		return nil
	})
	c.choose(0)
	if n.form.TwoPivots[arm] {
		c.choose(1)
	}
	return c
}

// rodChoice asks on which side of the axle line the tie rod is.
func (n *NewJob) rodChoice() *choiceRow {
	return newChoiceRow("Rack and tie rod", []string{"ahead of the axle", "behind the axle"}, func(i int) error {
		n.form.Rod = [...]newjob.RodSide{newjob.RodAheadOfAxle, newjob.RodBehindAxle}[i]
		n.compute()
		return nil
	})
}

// showRod shows the side of the tie rod, and that nobody has said it.
func (n *NewJob) showRod() {
	c, i, text := n.choices[rodSide], 0, ""
	if n.form.RodBehind() {
		i = 1
	}
	if n.form.Rod == newjob.RodNotAsked {
		text = "Default: look which it is, and choose it."
	}
	c.choose(i)
	if c.under.text != text {
		c.under.say(text, look.ColorQuiet)
		n.column.arrange()
	}
}

func (n *NewJob) newRow(f newjob.Field) *askRow {
	r := newAskRow(&n.column.form, f)
	if f == newjob.FieldCount {
		n.tyre = r
		r.entry.SetText(n.form.Tyre)
	} else {
		n.rows[f] = r
		r.entry.SetText(n.form.Typed[f])
	}
	r.judged = true
	r.entry.OnChanged = func(text string) { n.typedInto(r, text) }
	r.entry.onFocus = func() { n.focused(r) }
	r.entry.onLeave = func() { n.left(r) }
	r.entry.OnSubmitted = func(string) { n.goOn(r) }
	return r
}

// askColumn is the column of fields of a NewJob.
type askColumn struct{ form }

func newAskColumn() *askColumn {
	c := &askColumn{}
	c.form.init(c)
	return c
}

// askRow is a number of the picture, a name, a field, the mark that its value
// is a default, and under them the line with the hint.
type askRow struct {
	field  newjob.Field // FieldCount for the tyre
	label  *note
	state  *note // "default", until typed over
	entry  *askEntry
	under  *note
	hint   string
	judged bool // what is wrong may be shown
	form   *form
	room   steady // of under
}

const (
	askField = 92 // width of a field, points
	askState = 52 // width of its mark
	askWide  = 120
)

func newAskRow(f *form, field newjob.Field) *askRow {
	r := &askRow{field: field, form: f, entry: newAskEntry(), under: quietNote(""), state: quietNote("")}
	name := tyreName + " size"
	r.hint = "as it stands on the side wall"
	if field < newjob.FieldCount {
		about := field.About()
		name, r.hint = r.numbered(about.Name), about.Hint
	}
	r.label = newNote(name, look.SizeSmall, theme.ColorNameForeground)
	r.label.step, r.state.step = fieldHeight, fieldHeight
	return r
}

// numbered puts the number of the picture before a name.
func (r *askRow) numbered(name string) string {
	if onPicture(r.field) {
		return numberOf(r.field) + "  " + name
	}
	return name
}

// call gives the row its words.
func (r *askRow) call(a newjob.About) {
	r.label.say(r.numbered(a.Name), theme.ColorNameForeground)
	r.hint = a.Hint
}

// mark says whether the value shown is a default.
func (r *askRow) mark(typed, wrong bool) {
	switch {
	case wrong:
		r.state.say("✕", theme.ColorNameError)
	case typed:
		r.state.say("typed", theme.ColorNameForeground)
	default:
		r.state.say("default", look.ColorQuiet)
	}
}

// write fills the line under the field, and makes room where it takes more.
func (r *askRow) write(text string, colour fyne.ThemeColorName) {
	w := r.form.width - 2*margin
	was := r.height(w)
	r.under.say(text, colour)
	if r.height(w) != was {
		r.form.arrange()
	}
}

func (r *askRow) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.label, r.entry, r.state, r.under}
}

func (r *askRow) fieldWidth() float32 {
	if r.field == newjob.FieldCount {
		return askWide
	}
	return askField
}

func (r *askRow) height(w float32) float32 {
	return fieldHeight + r.room.of(w, max(hintHeight, r.under.height(w))) + rowGap
}

func (r *askRow) place(x, y, w float32) {
	fw := r.fieldWidth()
	right := x + w - askState
	name := max(10, w-fw-askState-2*fieldGap)
	r.label.step = fieldHeight / float32(max(1, len(r.label.wrapped(name)))) // two lines stand beside the field too
	r.label.Move(fyne.NewPos(x, y))
	r.label.Resize(fyne.NewSize(name, fieldHeight))
	r.entry.Move(fyne.NewPos(right-fw-fieldGap, y))
	r.entry.Resize(fyne.NewSize(fw, fieldHeight))
	r.state.Move(fyne.NewPos(right, y))
	r.state.Resize(fyne.NewSize(askState, fieldHeight))
	r.under.Move(fyne.NewPos(x, y+fieldHeight))
	r.under.Resize(fyne.NewSize(w, max(hintHeight, r.under.height(w))))
}

// askEntry is an entry that tells when it gets and loses the keyboard.
type askEntry struct {
	keyed.Entry
	onFocus, onLeave func()
}

func newAskEntry() *askEntry {
	e := &askEntry{}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	e.ExtendBaseWidget(e)
	return e
}

// FocusGained tells, and selects all to be typed over.
func (e *askEntry) FocusGained() {
	e.Entry.FocusGained()
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
	e.onFocus()
}

// FocusLost tells.
func (e *askEntry) FocusLost() {
	e.Entry.FocusLost()
	e.onLeave()
}

// newJobLayout puts name and choices over the fields, and the picture beside
// them. Its objects are name, choices, fields, picture and the line of what is
// wrong in general.
type newJobLayout struct{ n *NewJob }

const (
	columnLeast  = 330
	columnMost   = 400
	choiceHeight = 36
)

// MinSize leaves room for some fields and a small picture.
func (*newJobLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(600, 330) }

// Layout places the parts.
func (l *newJobLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	column := max(columnLeast, min(columnMost, size.Width*0.45))
	wrong := l.n.general.height(size.Width)
	if wrong > 0 {
		wrong += rowGap
	}
	put(o[0], 0, 0, column, choiceHeight)
	put(o[1], column+2*fieldGap, 0, size.Width-column-2*fieldGap, choiceHeight)
	top := float32(choiceHeight + rowGap)
	put(o[2], 0, top, column, size.Height-top-wrong)
	put(o[3], column+2*fieldGap, top, size.Width-column-2*fieldGap, size.Height-top-wrong)
	put(o[4], 0, size.Height-wrong+rowGap, size.Width, max(0, wrong-rowGap))
}
