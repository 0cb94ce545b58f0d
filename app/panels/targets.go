package panels

import (
	"errors"
	"math"
	"strings"

	"fyne.io/fyne/v2"

	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/app/units"
)

// Targets is the form of the job's targets, one line to each: the least and the
// most that is asked for, or the most and the travel over which it is to hold.
// An empty field asks for nothing.
//
// All methods belong to the toolkit's goroutine.
type Targets struct {
	form

	// OnEdit asks the owner for a change of the job; it must be set before a hand
	// types.
	OnEdit func(name string, change func(j *job.Job)) error

	in   TargetsInput
	rows [targets.Count]*targetRow
}

// TargetsInput is what the form shows.
type TargetsInput struct {
	Job  *job.Job
	Unit units.Unit // of display: Millimetre or Inch
	// Standing says of every target how the variant shown meets it.
	Standing [targets.Count]Standing
}

// Standing is how a target is met, in words; empty where it is not asked for.
type Standing struct {
	Verdict targets.Verdict
	Words   string
}

// columnsOfTarget are the fields of a line, from left to right.
const (
	ofLeast = iota
	ofMost
	ofBump
	ofDroop
	targetColumns
)

// NewTargets returns a form that shows nothing yet.
func NewTargets() *Targets {
	a := &Targets{}
	a.form.init(a)
	a.top = newTargetHead()
	groups := []struct {
		title string
		kinds []targets.Kind
	}{
		{"Wheel", []targets.Kind{targets.Track, targets.ScrubRadius, targets.Camber, targets.Caster}},
		{"Arms", []targets.Kind{targets.CamberGain, targets.SwingArm, targets.RollCentreHeight, targets.RollCentreMovement, targets.MotionRatio}},
		{"Steering", []targets.Kind{targets.RideToe}},
	}
	var rows []row
	for i, g := range groups {
		rows = append(rows, newHead(g.title, i == 0))
		for _, k := range g.kinds {
			a.rows[k] = a.targetRow(k)
			rows = append(rows, a.rows[k])
		}
	}
	a.setRows(rows)
	return a
}

// SetInput shows the targets of a job. What is being typed stays.
func (a *Targets) SetInput(in TargetsInput) {
	a.in = in
	for k := range targets.Count {
		r := a.rows[k]
		for column, f := range r.fields {
			if f != nil {
				short, full := a.texts(k, column)
				f.hold(in.Job.Name, short, full)
			}
		}
		r.stand(in.Standing[k])
	}
}

// Field returns the first field of a target, for the keyboard.
func (a *Targets) Field(k targets.Kind) fyne.Focusable {
	for _, f := range a.rows[k].fields {
		if f != nil {
			return f
		}
	}
	panic("panels: a target without a field")
}

var columnNames = [targetColumns]string{"least", "most", "bump", "droop"}

func (a *Targets) targetRow(k targets.Kind) *targetRow {
	about := k.About()
	r := newTargetRow(&a.form, about.Name, func() string { return targetUnit(k, a.in.Unit) })
	for column := range targetColumns {
		if about.Over && column == ofLeast || !about.Over && column > ofMost {
			continue
		}
		f := newField(lowerFirst(about.Name) + ", " + columnNames[column])
		f.check = func(text string) (string, error) { return a.check(k, column, text) }
		f.hand = func(text string) error { return a.hand(k, column, f.name, text) }
		r.add(column, f)
	}
	return r
}

// targetUnit is what a plain number means.
func targetUnit(k targets.Kind, unit units.Unit) string {
	_, name := k.About().Kind.In(0, unit)
	return name
}

// valueIn is where a value stands in the job's targets: one of targets.Ends, or a
// *units.Length of travel.
func valueIn(t *job.Targets, k targets.Kind, column int) any {
	ends := k.About().In(t)
	switch column {
	case ofLeast:
		return ends.Min
	case ofMost:
		return ends.Max
	case ofBump:
		return &ends.Over.Bump
	}
	return &ends.Over.Droop
}

// texts is what a field holds, at rest and while it is edited.
func (a *Targets) texts(k targets.Kind, column int) (short, full string) {
	t, unit := &a.in.Job.Targets, a.in.Unit
	switch x := valueIn(t, k, column).(type) {
	case *job.Optional:
		if x.Given {
			return lengthTexts(x.Length, unit)
		}
	case *units.Length:
		if asked(t, k) {
			return lengthTexts(*x, unit)
		}
	case *job.OptionalDegrees:
		if x.Given {
			short = units.Trimmed(float64(x.Degrees), editDecimals)
		}
	case *job.OptionalRatio:
		if x.Given {
			short = units.AsTyped(x.Value)
		}
	case *job.OptionalSlope:
		if x.Given {
			short = slopeText(x.Slope, unit)
		}
	}
	return short, short
}

// slopeDecimals show a camber gain finer than any decides.
const slopeDecimals = 5

func slopeText(s job.Slope, unit units.Unit) string {
	if s.Per == unit {
		return units.Trimmed(float64(s.Degrees), slopeDecimals)
	}
	return units.Trimmed(s.PerMM()/degree/units.In(1, unit), slopeDecimals)
}

func asked(t *job.Targets, k targets.Kind) bool {
	_, ok := targets.Asked(t, k)
	return ok
}

func blank(text string) bool { return strings.TrimSpace(text) == "" }

// check says what a text means.
func (a *Targets) check(k targets.Kind, column int, text string) (string, error) {
	var t job.Targets
	value := valueIn(&t, k, column)
	_, travel := value.(*units.Length)
	switch {
	case blank(text) && travel:
		return "not held there", nil
	case blank(text):
		return "nothing asked", nil
	}
	err := read(value, text, a.in.Unit)
	if err != nil {
		return "", err
	}
	switch x := value.(type) {
	case *job.Optional, *units.Length:
		return echoLength(text, a.in.Unit)
	case *job.OptionalRatio:
		return "spring over wheel, at rest", nil
	case *job.OptionalDegrees:
		if k == targets.Camber {
			return leaning("camber", x.Degrees), nil
		}
	}
	return "", nil
}

var errMostFirst = errors.New("type first the most that it may change")

// hand puts a text into the job.
func (a *Targets) hand(k targets.Kind, column int, name, text string) error {
	next := a.in.Job.Targets
	value, over := valueIn(&next, k, column), k.About().In(&next).Over
	length, travel := value.(*units.Length)
	switch {
	case travel && !asked(&next, k):
		return errMostFirst
	case blank(text) && travel:
		*length = units.Length{}
	case blank(text):
		forget(value)
		if over != nil { // with the most goes its travel
			*over = job.Travel{}
		}
	default:
		if err := read(value, text, a.in.Unit); err != nil {
			return err
		}
		a.firstTravel(over)
	}
	return a.OnEdit("type target "+name, func(j *job.Job) { j.Targets = next })
}

// forget leaves a value of a target open.
func forget(value any) {
	switch x := value.(type) {
	case *job.Optional:
		*x = job.Optional{}
	case *job.OptionalDegrees:
		*x = job.OptionalDegrees{}
	case *job.OptionalSlope:
		*x = job.OptionalSlope{}
	case *job.OptionalRatio:
		*x = job.OptionalRatio{}
	}
}

// read sets a value of a target as typed.
func read(value any, text string, unit units.Unit) (err error) {
	switch x := value.(type) {
	case *job.OptionalDegrees:
		x.Given = true
		x.Degrees, err = job.ParseDegrees(text)
	case *job.OptionalRatio:
		x.Given = true
		x.Value, err = job.ParseRatio(text)
	case *job.OptionalSlope:
		x.Given = true
		x.Slope, err = job.ParseSlope(text, unit)
	case *job.Optional:
		x.Given = true
		x.Length, err = units.ParseLength(text, unit)
	case *units.Length:
		*x, err = units.ParseLength(text, unit)
	}
	return err
}

// usualTravel is the travel that a new target over travel begins with, each
// way: what a car uses on the road, as far as the job goes. Common practice, no
// source; it stands in the fields, to be typed over.
const usualTravel = 40.0 // mm

// firstTravel gives a target over travel that has none the usual one; nil for one at
// rest.
func (a *Targets) firstTravel(over *job.Travel) {
	if over == nil || over.Bump.MM != 0 || over.Droop.MM != 0 {
		return
	}
	usual := func(reach units.Length) units.Length {
		if reach.MM > 0 {
			return units.Length{MM: math.Min(usualTravel, reach.MM)}
		}
		return units.Length{MM: usualTravel}
	}
	over.Bump, over.Droop = usual(a.in.Job.Travel.Bump), usual(a.in.Job.Travel.Droop)
}
