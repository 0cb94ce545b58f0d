package panels

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/look"
	"armscribe/app/newjob"
	"armscribe/app/units"
	"armscribe/kinematics/tyre"
)

// NewJob is the form of a new job: the fewest numbers that make a corner, and
// beside them a picture of where to put the tape. Whatever is not typed shows
// the value that is assumed for it, and says so.
//
// All methods belong to the toolkit's goroutine.
type NewJob struct {
	widget.BaseWidget

	// OnMade gets the job of the form. It must be set before a hand types.
	OnMade func(r *newjob.Result)

	form    newjob.Form
	last    *newjob.Result // of the last form that made a job
	wrong   newjob.Problems
	rows    [newjob.FieldCount]*askRow
	tyre    *askRow
	choices [askChoices]*choiceRow
	general *note // what is wrong with no field in particular
	name    *askEntry
	axle    *keyed.Radio
	unit    *keyed.Radio
	column  *askColumn
	picture *tapePicture
	content *fyne.Container
}

// axleWords are the axles as the form has them.
var axleWords = []struct {
	axle job.Axle
	word string
}{{job.Front, "Front axle"}, {job.Rear, "Rear axle"}}

// unitWords are the units that bare numbers may be in.
var unitWords = []struct {
	unit units.Unit
	word string
}{{units.Millimetre, "mm"}, {units.Inch, "in"}}

// NewNewJob returns the form with what is typed already; f needs an axle and a
// unit.
func NewNewJob(f newjob.Form) *NewJob {
	n := &NewJob{form: f, general: newNote("", look.SizeSmall, theme.ColorNameError)}
	n.general.step = 17
	n.picture = newTapePicture(func(f newjob.Field) newjob.About { return n.form.About(f) })
	n.makeHead()
	n.makeRows()
	n.content = container.New(&newJobLayout{n})
	n.content.Objects = []fyne.CanvasObject{n.name, container.NewHBox(n.axle, n.unit), n.column, n.picture, n.general}
	n.compute()
	n.ExtendBaseWidget(n)
	return n
}

// CreateRenderer is for the toolkit.
func (n *NewJob) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(n.content) }

// Form returns what is typed.
func (n *NewJob) Form() newjob.Form { return n.form }

// First is the field that takes the keyboard first.
func (n *NewJob) First() fyne.Focusable { return n.name }

// goOn is Enter in a field: the next one has the keyboard then, and behind the
// last the job is made.
func (n *NewJob) goOn(r *askRow) {
	n.left(r)
	if r == n.rows[newjob.Droop] {
		n.Make()
		return
	}
	n.next(r.entry)
}

func (n *NewJob) next(from fyne.CanvasObject) {
	if c := canvasOf(from); c != nil {
		c.FocusNext()
	}
}

func (n *NewJob) makeHead() {
	n.name = newAskEntry()
	n.name.onFocus, n.name.onLeave = func() {}, func() {}
	n.name.OnSubmitted = func(string) { n.next(n.name) }
	n.name.SetText(n.form.Name)
	n.name.SetPlaceHolder("Name of the job")
	n.name.OnChanged = func(text string) { n.form.Name = text }
	n.axle = keyed.NewRadio([]string{axleWords[0].word, axleWords[1].word}, nil)
	n.unit = keyed.NewRadio([]string{unitWords[0].word, unitWords[1].word}, nil)
	for _, a := range axleWords {
		if a.axle == n.form.Axle {
			n.axle.SetSelected(a.word)
		}
	}
	for _, u := range unitWords {
		if u.unit == n.form.Units {
			n.unit.SetSelected(u.word)
		}
	}
	n.axle.OnChanged = func(word string) {
		for _, a := range axleWords {
			if a.word == word {
				n.form.Axle = a.axle
				n.compute()
			}
		}
	}
	n.unit.OnChanged = func(word string) {
		for _, u := range unitWords {
			if u.word == word {
				n.setUnit(u.unit)
			}
		}
	}
}

// setUnit reads bare numbers in another unit from now on. What is typed
// already keeps its meaning: its own unit is written behind it.
func (n *NewJob) setUnit(u units.Unit) {
	was := n.form.Units
	if u == was {
		return
	}
	n.form.Units = u
	for f, r := range n.rows {
		if newjob.Field(f).IsAngle() {
			continue
		}
		text := strings.TrimSpace(r.entry.Text)
		if text == "" {
			continue
		}
		if l, err := units.ParseLength(text, was); err == nil {
			if l.Typed == "" {
				text += " " + was.String()
			} else {
				text = l.Typed
			}
			r.entry.SetText(text)
		}
	}
	n.compute()
}

// Make hands over the job of the form, or shows what is wrong at its fields.
func (n *NewJob) Make() {
	for _, r := range n.all() {
		r.judged = true
	}
	n.compute()
	if n.wrong == nil {
		n.OnMade(n.last)
		return
	}
	for _, r := range n.all() {
		if len(n.problemsOf(r)) > 0 {
			n.column.reveal(r.entry)
			if c := canvasOf(r.entry); c != nil {
				c.Focus(r.entry)
			}
			return
		}
	}
}

// compute makes the job of what is typed, and shows what came of it.
func (n *NewJob) compute() {
	r, err := newjob.Make(n.form)
	n.wrong = nil
	if err == nil {
		n.last = r
	} else if !errors.As(err, &n.wrong) {
		n.wrong = newjob.Problems{{Field: newjob.FieldCount, What: err.Error(), Err: err}}
	}
	for _, row := range n.all() {
		n.showRow(row)
	}
	n.showRod()
	n.showGeneral()
}

func (n *NewJob) all() []*askRow { return append(n.rows[:len(n.rows):len(n.rows)], n.tyre) }

// problemsOf lists what is wrong with a row's value.
func (n *NewJob) problemsOf(r *askRow) []newjob.Problem {
	var list []newjob.Problem
	for _, p := range n.wrong {
		if p.Field == r.field && (r.field < newjob.FieldCount || p.Name == tyreName) {
			list = append(list, p)
		}
	}
	return list
}

// tyreName is what newjob calls the tyre in its problems.
const tyreName = "Tyre"

// showGeneral shows what is wrong with no field in particular.
func (n *NewJob) showGeneral() {
	var lines []string
	for _, p := range n.wrong {
		if p.Field == newjob.FieldCount && p.Name != tyreName {
			lines = append(lines, "✕ "+p.Error())
		}
	}
	if len(n.wrong) == 0 && n.last != nil && n.last.Shortened != "" {
		n.general.say(n.last.Shortened, look.ColorQuiet)
	} else {
		n.general.say(strings.Join(lines, " "), theme.ColorNameError)
	}
	n.content.Refresh()
}

// showRow shows the assumed value in an empty field, and under each what is
// wrong with it, what it means, or where the tape goes.
func (n *NewJob) showRow(r *askRow) {
	typed := strings.TrimSpace(r.entry.Text) != ""
	assumed := n.assumed(r.field)
	r.entry.SetPlaceHolder(assumed)
	wrong := n.problemsOf(r)
	r.mark(typed, len(wrong) > 0 && r.judged)
	switch {
	case len(wrong) > 0 && r.judged:
		r.write("✕ "+upperFirst(wrong[0].What)+"; "+wrong[0].Cure+".", theme.ColorNameError)
	case !typed:
		r.write(upperFirst(r.hint)+".", look.ColorQuiet)
	case r.field == newjob.FieldCount:
		r.write("As it stands on the side wall.", look.ColorQuiet)
	default:
		echo, err := n.echo(r)
		if err != nil {
			echo = upperFirst(r.hint) + "."
		}
		r.write(echo, look.ColorQuiet)
	}
}

// echo says what is typed in other words.
func (n *NewJob) echo(r *askRow) (string, error) {
	if !r.field.IsAngle() {
		return echoLength(r.entry.Text, n.form.Units)
	}
	name, parse := "camber", justDegrees
	if r.field == newjob.Toe {
		name, parse = "toe", n.parseToe
	}
	d, _, err := parse(r.entry.Text)
	if err != nil {
		return "", err
	}
	return upperFirst(leaning(name, d)) + ".", nil
}

// parseToe reads a toe, as a length across the rim of the tyre typed.
func (n *NewJob) parseToe(text string) (job.Degrees, string, error) {
	code := n.form.Tyre
	if strings.TrimSpace(code) == "" && n.last != nil {
		code = n.last.Tyre
	}
	t, _ := tyre.Parse(code) // reported at the tyre's own field
	return job.ParseToe(text, t.RimDiameter())
}

// assumed is the value that stands for an empty field, of the last form that
// made a job.
func (n *NewJob) assumed(f newjob.Field) string {
	switch {
	case n.last == nil:
		return ""
	case f == newjob.FieldCount:
		return n.last.Tyre
	case f.IsAngle():
		return units.Trimmed(n.last.Values[f], restDecimals) + "°"
	case n.form.Units == units.Inch:
		return units.ShortNumber(n.last.Values[f], units.Inch)
	}
	return units.FormatNumber(n.last.Values[f], 0)
}

// typedInto takes over a text as it grows. It is not called wrong before it is
// left.
func (n *NewJob) typedInto(r *askRow, text string) {
	if r.field < newjob.FieldCount {
		n.form.Typed[r.field] = text
	} else {
		n.form.Tyre = text
	}
	r.judged = false
	n.compute()
}

// focused lights where the tape goes.
func (n *NewJob) focused(r *askRow) {
	n.column.reveal(r.entry)
	n.picture.light(r.field)
}

func (n *NewJob) left(r *askRow) {
	r.judged = true
	n.showRow(r)
}

// numberOf is the number of a field on the picture, as in "4".
func numberOf(f newjob.Field) string { return fmt.Sprint(order[f]) }
