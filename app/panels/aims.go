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

// Aims is the form of the job's targets, one line to each: the least and the
// most that is asked for, or the most and the travel over which it is to hold.
// An empty field asks for nothing.
//
// All methods belong to the toolkit's goroutine.
type Aims struct {
	form

	// OnEdit asks the owner for a change of the job; it must be set before a hand
	// types.
	OnEdit func(name string, change func(j *job.Job)) error

	in   AimsInput
	rows [targets.Count]*aimRow
}

// AimsInput is what the form shows.
type AimsInput struct {
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

// columnsOfAim are the fields of a line, from left to right.
const (
	aimLeast = iota
	aimMost
	aimBump
	aimDroop
	aimColumns
)

// NewAims returns a form that shows nothing yet.
func NewAims() *Aims {
	a := &Aims{}
	a.form.init(a)
	a.top = newAimHead()
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
			a.rows[k] = a.aimRow(k)
			rows = append(rows, a.rows[k])
		}
	}
	a.setRows(rows)
	return a
}

// SetInput shows the targets of a job. What is being typed stays.
func (a *Aims) SetInput(in AimsInput) {
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
func (a *Aims) Field(k targets.Kind) fyne.Focusable {
	for _, f := range a.rows[k].fields {
		if f != nil {
			return f
		}
	}
	panic("panels: a target without a field")
}

// overTravel tells whether a target is asked over a travel.
func overTravel(k targets.Kind) bool { return k == targets.RideToe || k == targets.RollCentreMovement }

var columnNames = [aimColumns]string{"least", "most", "bump", "droop"}

func (a *Aims) aimRow(k targets.Kind) *aimRow {
	about := k.About()
	r := newAimRow(&a.form, about.Name, func() string { return aimUnit(k, a.in.Unit) })
	for column := range aimColumns {
		if overTravel(k) && column == aimLeast || !overTravel(k) && column > aimMost {
			continue
		}
		f := newField(lowerFirst(about.Name) + ", " + columnNames[column])
		f.check = func(text string) (string, error) { return a.check(k, column, text) }
		f.hand = func(text string) error { return a.hand(k, column, f.name, text) }
		r.add(column, f)
	}
	return r
}

// aimUnit is what a plain number means.
func aimUnit(k targets.Kind, unit units.Unit) string {
	switch k {
	case targets.Camber, targets.Caster, targets.RideToe:
		return "deg"
	case targets.CamberGain:
		return "deg/" + unit.String()
	case targets.MotionRatio:
		return ""
	}
	return unit.String()
}

// place is where a value stands in the job's targets; one of them is set.
type place struct {
	length *job.Optional
	angle  *job.OptionalDegrees
	slope  *job.OptionalSlope
	ratio  *job.OptionalRatio
	travel *units.Length
}

func placeIn(t *job.Targets, k targets.Kind, column int) place {
	ofLengths := func(r *job.LengthRange) place {
		return place{length: [...]*job.Optional{&r.Min, &r.Max}[column]}
	}
	ofAngles := func(r *job.AngleRange) place {
		return place{angle: [...]*job.OptionalDegrees{&r.Min, &r.Max}[column]}
	}
	ofTravel := func(over *job.Travel) place {
		return place{travel: map[int]*units.Length{aimBump: &over.Bump, aimDroop: &over.Droop}[column]}
	}
	switch k {
	case targets.ScrubRadius:
		return ofLengths(&t.ScrubRadius)
	case targets.RollCentreHeight:
		return ofLengths(&t.RollCentreHeight)
	case targets.SwingArm:
		return ofLengths(&t.SwingArm)
	case targets.Track:
		return ofLengths(&t.Track)
	case targets.Camber:
		return ofAngles(&t.Camber)
	case targets.Caster:
		return ofAngles(&t.Caster)
	case targets.CamberGain:
		return place{slope: [...]*job.OptionalSlope{&t.CamberGain.Min, &t.CamberGain.Max}[column]}
	case targets.MotionRatio:
		return place{ratio: [...]*job.OptionalRatio{&t.MotionRatio.Min, &t.MotionRatio.Max}[column]}
	case targets.RideToe:
		if column == aimMost {
			return place{angle: &t.RideToe.Max}
		}
		return ofTravel(&t.RideToe.Over)
	}
	if column == aimMost {
		return place{length: &t.RollCentreMovement.Max}
	}
	return ofTravel(&t.RollCentreMovement.Over)
}

// texts is what a field holds, at rest and while it is edited.
func (a *Aims) texts(k targets.Kind, column int) (short, full string) {
	t := &a.in.Job.Targets
	p := placeIn(t, k, column)
	switch {
	case p.length != nil && p.length.Given:
		return lengthTexts(p.length.Length, a.in.Unit)
	case p.travel != nil && overGiven(t, k):
		return lengthTexts(*p.travel, a.in.Unit)
	case p.angle != nil && p.angle.Given:
		text := units.Trimmed(float64(p.angle.Degrees), editDecimals)
		return text, text
	case p.ratio != nil && p.ratio.Given:
		text := units.AsTyped(p.ratio.Value)
		return text, text
	case p.slope != nil && p.slope.Given:
		text := slopeText(p.slope.Slope, a.in.Unit)
		return text, text
	}
	return "", ""
}

// slopeDecimals show a camber gain finer than any decides.
const slopeDecimals = 5

func slopeText(s job.Slope, unit units.Unit) string {
	if s.Per == unit {
		return units.Trimmed(float64(s.Degrees), slopeDecimals)
	}
	return units.Trimmed(s.PerMM()/degree/units.In(1, unit), slopeDecimals)
}

func overGiven(t *job.Targets, k targets.Kind) bool {
	if k == targets.RideToe {
		return t.RideToe.Given()
	}
	return t.RollCentreMovement.Given()
}

func blank(text string) bool { return strings.TrimSpace(text) == "" }

// check says what a text means.
func (a *Aims) check(k targets.Kind, column int, text string) (string, error) {
	var t job.Targets
	p := placeIn(&t, k, column)
	switch {
	case blank(text) && p.travel != nil:
		return "not held there", nil
	case blank(text):
		return "nothing asked", nil
	case p.angle != nil:
		d, err := job.ParseDegrees(text)
		if err != nil || overTravel(k) {
			return "", err
		}
		if k == targets.Camber {
			return leaning("camber", d), nil
		}
		return "", nil
	case p.ratio != nil:
		_, err := job.ParseRatio(text)
		return "spring over wheel, at rest", err
	case p.slope != nil:
		_, err := job.ParseSlope(text, a.in.Unit)
		return "", err
	}
	return echoLength(text, a.in.Unit)
}

var errMostFirst = errors.New("type first the most that it may change")

// hand puts a text into the job.
func (a *Aims) hand(k targets.Kind, column int, name, text string) error {
	next := a.in.Job.Targets
	p := placeIn(&next, k, column)
	switch {
	case p.travel != nil && !overGiven(&next, k):
		return errMostFirst
	case blank(text) && p.travel != nil:
		*p.travel = units.Length{}
	case blank(text) && overTravel(k): // with the most goes its travel
		if k == targets.RideToe {
			next.RideToe = job.AngleOver{}
		} else {
			next.RollCentreMovement = job.LengthOver{}
		}
	case blank(text):
		p.drop()
	default:
		if err := p.set(text, a.in.Unit); err != nil {
			return err
		}
		a.firstTravel(&next, k)
	}
	return a.OnEdit("type target "+name, func(j *job.Job) { j.Targets = next })
}

func (p place) drop() {
	switch {
	case p.length != nil:
		*p.length = job.Optional{}
	case p.angle != nil:
		*p.angle = job.OptionalDegrees{}
	case p.slope != nil:
		*p.slope = job.OptionalSlope{}
	case p.ratio != nil:
		*p.ratio = job.OptionalRatio{}
	}
}

func (p place) set(text string, unit units.Unit) error {
	switch {
	case p.angle != nil:
		d, err := job.ParseDegrees(text)
		*p.angle = job.OptionalDegrees{Degrees: d, Given: true}
		return err
	case p.ratio != nil:
		v, err := job.ParseRatio(text)
		*p.ratio = job.OptionalRatio{Value: v, Given: true}
		return err
	case p.slope != nil:
		s, err := job.ParseSlope(text, unit)
		*p.slope = job.OptionalSlope{Slope: s, Given: true}
		return err
	}
	l, err := units.ParseLength(text, unit)
	if p.travel != nil {
		*p.travel = l
	} else {
		*p.length = job.Given(l)
	}
	return err
}

// usualTravel is the travel that a new target over travel begins with, each
// way: what a car uses on the road, as far as the job goes. Common practice, no
// source; it stands in the fields, to be typed over.
const usualTravel = 40.0 // mm

// firstTravel gives a target over travel that has none the usual one.
func (a *Aims) firstTravel(t *job.Targets, k targets.Kind) {
	over := &t.RideToe.Over
	if k == targets.RollCentreMovement {
		over = &t.RollCentreMovement.Over
	}
	if !overTravel(k) || over.Bump.MM != 0 || over.Droop.MM != 0 {
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
