package panels

import (
	"errors"
	"fmt"
	"strings"

	"armscribe/canvas"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics/tyre"
)

// field is an entry for one value of the variant. Enter or leaving it hands in
// what was typed, Esc gives back what the job holds. What is refused stays in
// the field with the reason beside it, and nothing that is shown meanwhile
// overwrites it.
type field struct {
	widget.Entry

	name  string // of the edit, after "type": "lower ball joint z"
	short string // what the job holds, as it fits into the field
	full  string // the same while the field is being edited
	owner string // of short and full

	// check says what a text means, or why it means nothing.
	check func(text string) (echo string, err error)
	// hand hands a text in.
	hand func(text string) error
	// say shows the meaning or the reason beside the field; both empty at rest.
	say func(echo string, err error)
	// onFocus is told when the field gets the keyboard.
	onFocus func(f *field)
	// grown is told when the text needs more or less room than the field has.
	grown func()

	// assumed: nobody has measured what stands there, so that the same typed over
	// it counts.
	assumed bool

	refused error // why what stands there was not taken
	focused bool
	owing   bool // typed and not handed in
	foreign bool // typed while another variant was shown
	grew    bool // has asked for room
	setting bool // the text changes by the program
}

var errForeign = errors.New("typed while another variant was shown; press Enter to set it here, Esc to drop it")

func newField(name string) *field {
	f := &field{name: name}
	f.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	f.OnChanged = f.changed
	f.ExtendBaseWidget(f)
	return f
}

// hold shows what the job holds. What is being typed stays.
func (f *field) hold(owner, short, full string) {
	f.short, f.full = short, full
	if f.owing {
		if f.foreign = owner != f.owner; f.foreign {
			f.say("", errForeign)
		}
		return
	}
	f.owner = owner
	f.put()
}

// put shows what the job holds, in full while edited.
func (f *field) put() {
	text := f.short
	if f.focused {
		text = f.full
	}
	f.owing, f.foreign = false, false
	if f.Text == text {
		return
	}
	f.setting = true
	f.SetText(text)
	f.setting = false
}

// changed says what the text means as it grows.
func (f *field) changed(text string) {
	if f.setting {
		return
	}
	f.owing = text != f.full && text != f.short || f.assumed
	if !f.owing {
		f.foreign = false
	}
	f.fit()
	f.explain()
}

// Points beside the text of an entry, for its paddings and the cursor.
const entrySides = 22

// need is the width that shows the whole text while it is edited, else 0.
func (f *field) need() float32 {
	if !f.focused {
		return 0
	}
	return fyne.MeasureText(f.Text, theme.Size(theme.SizeNameText), f.TextStyle).Width + entrySides
}

// fit asks for the room that the text needs.
func (f *field) fit() {
	if f.grown != nil && (f.grew || f.need() > f.Size().Width) {
		f.grown()
		f.grew = f.focused
	}
}

// whole puts the text before its echo where the field is too narrow to show it.
func (f *field) whole(echo string) string {
	if f.need() <= f.Size().Width {
		return echo
	}
	return f.Text + " = " + echo
}

// explain says what the present text means. A text in the making is not yet
// wrong: reasons come when it is handed in.
func (f *field) explain() {
	if f.foreign {
		f.say("", errForeign)
		return
	}
	echo, err := f.check(f.Text)
	if err != nil {
		echo = ""
	}
	f.say(echo, nil)
}

// finish hands in what was typed and tells whether it was taken.
func (f *field) finish(owner string) bool {
	if !f.owing {
		return true
	}
	_, err := f.check(f.Text)
	if err == nil {
		err = f.hand(f.Text)
	}
	if err != nil {
		f.say("", err)
		return false
	}
	f.owing, f.foreign, f.owner = false, false, owner
	f.put()
	return true
}

// TypedKey acts on Enter and Esc, and edits with the others.
func (f *field) TypedKey(e *fyne.KeyEvent) {
	if canvas.MenuKey(f, e) {
		return
	}
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		owner := f.owner
		if f.foreign {
			owner = "" // set when the owner shows the edit
		}
		if f.finish(owner) {
			f.fit()
			f.explain()
			f.selectAll()
		}
	case fyne.KeyEscape:
		if !f.owing { // nothing to give back
			canvas.PassKey(f, e)
			return
		}
		f.put()
		f.fit()
		f.explain()
		f.selectAll()
	default:
		f.Entry.TypedKey(e)
	}
}

// selectAll selects what stands there to be typed over. Where nothing does, what
// was selected of an older text is forgotten: the toolkit would put the second
// letter in place of the first.
func (f *field) selectAll() {
	if f.Text == "" {
		f.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
		return
	}
	f.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// FocusGained shows the value in full, ready to be typed over.
func (f *field) FocusGained() {
	f.focused = true
	if !f.owing {
		f.put()
	}
	f.Entry.FocusGained()
	f.fit()
	if !f.owing {
		f.selectAll()
		f.explain()
	}
	if f.onFocus != nil {
		f.onFocus(f)
	}
}

// FocusLost hands in what was typed, unless it was typed for another variant.
func (f *field) FocusLost() {
	f.focused = false
	f.Entry.FocusLost()
	f.fit()
	if f.foreign || !f.finish(f.owner) {
		return
	}
	f.put()
	f.say("", nil)
}

// sayFor has a field speak in a row that it shares with others: what was refused
// of one stays said while the keyboard goes through the others.
func (f *field) sayFor(row func(echo string, err error), others []*field) {
	f.say = func(echo string, err error) {
		f.refused = err
		for _, o := range others {
			if err == nil && o != nil && o.owing {
				err = o.refused
			}
		}
		row(echo, err)
	}
}

// fault puts an error into words that stand beside its field.
func fault(err error) string {
	var entry *units.EntryError
	var code *tyre.CodeError
	var problems job.Problems
	switch {
	case errors.As(err, &entry) && entry.At > 0:
		return fmt.Sprintf("Character %d: %s; %s.", entry.At, entry.Problem, entry.Cure)
	case errors.As(err, &entry):
		return upperFirst(entry.Problem) + "; " + entry.Cure + "."
	case errors.As(err, &problems):
		list := make([]string, len(problems))
		for i, p := range problems {
			list[i] = upperFirst(p.What)
			if p.Cure != "" {
				list[i] += "; " + p.Cure
			}
			list[i] += "."
		}
		return strings.Join(list, " ")
	case errors.As(err, &code):
		return upperFirst(code.Problem) + "; " + code.Cure + "."
	}
	return upperFirst(err.Error()) + "."
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
