package panels

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/newjob"
	"armscribe/app/units"
)

// asking is a form in a window, with what it made.
type asking struct {
	*NewJob
	win  fyne.Window
	made *newjob.Result
}

func ask(t *testing.T, unit units.Unit, mode look.Mode) *asking {
	t.Helper()
	a := &asking{win: show(t, widget.NewLabel(""), mode, 980, 600)}
	a.NewJob = NewNewJob(newjob.Form{Axle: job.Front, Units: unit})
	a.OnMade = func(r *newjob.Result) { a.made = r }
	a.win.SetContent(a.NewJob)
	return a
}

func (a *asking) typeInto(f newjob.Field, text string) {
	a.win.Canvas().Focus(a.rows[f].entry)
	test.Type(a.rows[f].entry, text)
}

func TestNewJobMarksEveryDefault(t *testing.T) {
	a := ask(t, units.Millimetre, look.Light)
	for f := range newjob.FieldCount {
		r := a.rows[f]
		if r == nil || r.state.text != "default" || r.entry.PlaceHolder == "" || r.entry.Text != "" || !strings.EqualFold(r.under.text, r.hint+".") {
			t.Fatalf("%s: %+v", f.About().Name, r)
		}
	}
	a.typeInto(newjob.Track, "1612")
	if r := a.rows[newjob.Track]; r.state.text != "typed" || r.under.text != units.FormatBoth(1612) {
		t.Errorf("track: %q, %q", r.state.text, r.under.text)
	}
	if a.rows[newjob.LowerBallSide].entry.PlaceHolder == NewNewJob(newjob.Form{Axle: job.Front, Units: units.Millimetre}).rows[newjob.LowerBallSide].entry.PlaceHolder {
		t.Error("the other defaults do not follow the track")
	}
	a.Make()
	if a.made == nil || a.made.Values[newjob.Track] != 1612 || a.made.Default[newjob.Track] || !a.made.Default[newjob.HubHeight] {
		t.Errorf("made %+v", a.made)
	}
}

// A number in the making is not called wrong; a wrong one is, at its field,
// and nothing is made of it.
func TestNewJobSaysWhatIsWrongAtTheField(t *testing.T) {
	a := ask(t, units.Millimetre, look.Light)
	a.typeInto(newjob.UpperPivotHeight, "47 stones")
	r := a.rows[newjob.UpperPivotHeight]
	if strings.Contains(r.under.text, "✕") {
		t.Errorf("called wrong while typed: %q", r.under.text)
	}
	a.win.Canvas().Focus(a.rows[newjob.Track].entry)
	if !strings.HasPrefix(r.under.text, "✕ ") || r.state.text != "✕" || r.entry.Text != "47 stones" {
		t.Errorf("left: %q, %q, %q", r.under.text, r.state.text, r.entry.Text)
	}
	a.Make()
	if a.made != nil || a.win.Canvas().Focused() != fyne.Focusable(r.entry) {
		t.Errorf("made %v, the keyboard is at %v", a.made, a.win.Canvas().Focused())
	}
	r.entry.SetText("470")
	a.Make()
	if a.made == nil || a.made.Values[newjob.UpperPivotHeight] != 470 {
		t.Error("not made of the cured form")
	}
}

func TestNewJobShowsProblemsOfTyreAndOfTheWhole(t *testing.T) {
	a := ask(t, units.Millimetre, look.Light)
	a.tyre.entry.SetText("round")
	a.Make()
	if a.made != nil || !strings.HasPrefix(a.tyre.under.text, "✕ ") {
		t.Errorf("tyre: %q", a.tyre.under.text)
	}
	a.tyre.entry.SetText("205/65R15")
	a.rows[newjob.Offset].entry.SetText("9 m") // the job refuses it, not the form
	a.Make()
	if a.made != nil || !strings.Contains(a.general.text, "offset") {
		t.Errorf("in general: %q", a.general.text)
	}
}

// What is typed keeps its meaning when the unit changes.
func TestNewJobUnits(t *testing.T) {
	a := ask(t, units.Millimetre, look.Light)
	a.typeInto(newjob.Track, "1612")
	a.typeInto(newjob.HubHeight, "12 1/2 in")
	a.unit.SetSelected("in")
	if got := a.rows[newjob.Track].entry.Text; got != "1612 mm" {
		t.Errorf("track %q", got)
	}
	a.typeInto(newjob.LowerPivotHeight, "8 1/4")
	a.Make()
	if a.made == nil || a.made.Values[newjob.Track] != 1612 || a.made.Values[newjob.HubHeight] != 317.5 || a.made.Values[newjob.LowerPivotHeight] != 209.55 || a.made.Job.Units != units.Inch {
		t.Fatalf("%+v", a.made)
	}
	if a.rows[newjob.Bump].entry.PlaceHolder != "2 3/8" || math.Abs(a.made.Values[newjob.Bump]-60.325) > 1e-9 {
		t.Errorf("bump %q, %g mm", a.rows[newjob.Bump].entry.PlaceHolder, a.made.Values[newjob.Bump])
	}
	a.axle.SetSelected("Rear axle")
	a.name.SetText("Forest estate")
	a.Make()
	if a.made.Job.Axle != job.Rear || a.made.Job.Name != "Forest estate" {
		t.Errorf("%v %q", a.made.Job.Axle, a.made.Job.Name)
	}
}

func TestNewJobLightsTheDimensionOfTheField(t *testing.T) {
	a := ask(t, units.Millimetre, look.Light)
	a.choices[lowerPivots].list.SetSelectedIndex(1)
	a.choices[upperPivots].list.SetSelectedIndex(1)
	for f := range newjob.FieldCount {
		a.win.Canvas().Focus(a.rows[f].entry)
		if !a.picture.isLit(f) {
			t.Errorf("%s is not lit", f.About().Name)
		}
	}
	a.win.Canvas().Focus(a.tyre.entry)
	if !a.picture.isLit(newjob.FieldCount) {
		t.Error("the tyre is not lit")
	}
	seen := map[string]bool{}
	for f := range newjob.FieldCount {
		if n := numberOf(f); onPicture(f) && (seen[n] || n == "0") {
			t.Errorf("%s has number %s", f.About().Name, n)
		} else {
			seen[n] = true
		}
	}
}

// A name too long for one line stands in two beside its field, not in the hint;
// with both pivots measured, the first is called the front one.
func TestNewJobNamesHaveRoom(t *testing.T) {
	a := ask(t, units.Inch, look.Light)
	a.choices[lowerPivots].list.SetSelectedIndex(1)
	for f := range newjob.FieldCount {
		if r := a.rows[f]; a.form.Asks(f) && r.label.height(r.label.Size().Width) > fieldHeight {
			t.Errorf("%q is %g high", r.label.text, r.label.height(r.label.Size().Width))
		}
	}
	for f, want := range map[newjob.Field]string{newjob.LowerPivotSide: "5  Lower front pivot, from the middle", newjob.UpperPivotSide: "9  Upper pivot, from the middle"} {
		if got := a.rows[f].label.text; got != want {
			t.Errorf("named %q, want %q", got, want)
		}
	}
	if hint := a.rows[newjob.LowerPivotHeight].under.text; !strings.Contains(hint, "lower arm's front pivot") {
		t.Errorf("hint %q", hint)
	}
}

func TestNewJobPictures(t *testing.T) {
	for name, mode := range modes {
		a := ask(t, units.Millimetre, mode)
		picture(t, "newjob-"+name, a.win)
		a.typeInto(newjob.Track, "1612")
		a.typeInto(newjob.UpperPivotHeight, "47 stones")
		a.win.Canvas().Focus(a.rows[newjob.LowerBallSide].entry)
		picture(t, "newjob-lit-"+name, a.win)
	}
}
