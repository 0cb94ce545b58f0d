package panels

import (
	"fmt"
	"math"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Points is the table of the variant's points: x, y and z of each, the lengths
// of arms and tie rod, and the angles at rest, all to be typed. Enter or leaving
// a field sets it, Esc gives back what was there.
//
// All methods belong to the toolkit's goroutine.
type Points struct {
	form

	// OnEdit asks the owner for a change; it must be set before a hand types.
	OnEdit Edit

	in      Input
	corner  kinematics.Corner // of the variant shown, or the one in the hand
	moving  bool              // corner is in the hand
	shape   pointsShape
	points  map[kinematics.Point]*pointRow
	lengths [len(links)]*valueRow
	cutRod  *checkRow     // a longer arm has its rod cut anew, and keeps the toe
	pivots  [2]*choiceRow // of the upper and the lower arm
	camber  *valueRow
	toe     *valueRow
}

// pointsShape is which rows there are.
type pointsShape struct {
	built                        bool
	upperFlat, lowerFlat, spring bool
	axle                         job.Axle
}

// NewPoints returns a table that shows nothing yet.
func NewPoints() *Points {
	p := &Points{}
	p.form.words = p.words
	p.form.init(p)
	return p
}

// SetInput shows a variant. What is being typed stays; a field that holds a
// text typed for another variant says so.
func (p *Points) SetInput(in Input) {
	if in.Variant == p.in.Variant && in.Unit == p.in.Unit && p.shape.built && !p.moving {
		return // an edit makes a new variant
	}
	p.in, p.corner, p.moving = in, in.Variant.Corner(), false
	shape := pointsShape{true, p.corner.Upper.Flat, p.corner.Lower.Flat, p.corner.Spring.Carrier != kinematics.NoSpring, in.Job.Axle}
	if shape != p.shape {
		p.shape = shape
		p.build()
	}
	p.fill(nil)
}

// Follow shows the numbers of a corner that a hand is moving, of the shape of
// the variant shown; SetInput ends it. What is being typed stays.
func (p *Points) Follow(c kinematics.Corner) {
	if !p.shape.built || c == p.corner {
		return
	}
	was := p.corner
	p.corner, p.moving = c, true
	p.fill(&was)
}

// Focus takes the keyboard to the first field of a point, and returns false if
// the variant has no such point.
func (p *Points) Focus(at kinematics.Point) bool {
	r, ok := p.points[at]
	if !ok {
		return false
	}
	for _, f := range r.fields {
		if f != nil {
			return focusOn(f)
		}
	}
	return false
}

// focusOn takes the keyboard to a field that is on a canvas.
func focusOn(f *field) bool {
	c := canvasOf(f)
	if c == nil {
		return false
	}
	c.Focus(f)
	return true
}

// build makes the rows for the present shape.
func (p *Points) build() {
	p.points = map[kinematics.Point]*pointRow{}
	p.top = newAxes()
	if was := p.cutRod; was == nil || was.check.Text != p.words(cutRodWords) {
		p.cutRod = &checkRow{keyed.NewCheck(p.words(cutRodWords), nil)}
		p.cutRod.check.Checked = was == nil || was.check.Checked
	}
	var rows []row
	head := func(title string, points ...kinematics.Point) {
		rows = append(rows, newHead(title, len(rows) == 0))
		for _, at := range points {
			if p.corner.Has(at) {
				rows = append(rows, p.pointRow(at))
			}
		}
	}
	rod := "Tie rod"
	if p.in.Job.Axle == job.Rear {
		rod = "Toe link"
	}
	p.pivots = [2]*choiceRow{p.pivotRow(true), p.pivotRow(false)}
	head("Upper arm", kinematics.UpperFront, kinematics.UpperRear, kinematics.UpperBall)
	rows = append(rows, p.pivots[0], p.lengthRow(0))
	head("Lower arm", kinematics.LowerFront, kinematics.LowerRear, kinematics.LowerBall)
	rows = append(rows, p.pivots[1], p.lengthRow(1), p.cutRod)
	head(rod, kinematics.RackEnd, kinematics.OuterEnd)
	rows = append(rows, p.lengthRow(2))
	head("Wheel", kinematics.HubFace)
	p.camber = p.angleRow("Camber at rest", "camber", job.CamberValue, justDegrees, func(v *job.Variant, d job.Degrees, _ string) { v.Camber = d })
	p.toe = p.angleRow("Toe at rest", "toe", job.ToeValue, p.parseToe, func(v *job.Variant, d job.Degrees, typed string) { v.Toe, v.ToeTyped = d, typed })
	rows = append(rows, p.camber, p.toe)
	if p.shape.spring {
		head("Spring", kinematics.SpringMoving, kinematics.SpringBody)
	}
	p.setRows(rows)
}

const cutRodWords = "Cut the tie rod to keep toe"

// shortNames leave out what the heading says.
var shortNames = map[kinematics.Point]string{
	kinematics.UpperFront: "front pivot", kinematics.UpperRear: "rear pivot", kinematics.UpperBall: "ball joint",
	kinematics.LowerFront: "front pivot", kinematics.LowerRear: "rear pivot", kinematics.LowerBall: "ball joint",
	kinematics.RackEnd: "rack end", kinematics.OuterEnd: "outer end", kinematics.HubFace: "hub face",
	kinematics.SpringMoving: "moving end", kinematics.SpringBody: "body end",
}

func (p *Points) shortName(at kinematics.Point) string {
	switch {
	case at == kinematics.UpperFront && p.shape.upperFlat, at == kinematics.LowerFront && p.shape.lowerFlat:
		return "pivot"
	case at == kinematics.RackEnd && p.in.Job.Axle == job.Rear:
		return "inner end"
	}
	return shortNames[at]
}

// pointRow makes the fields of a point. The pivot of a flat arm has no x:
// nothing depends on it.
func (p *Points) pointRow(at kinematics.Point) *pointRow {
	var fields [3]*field
	for axis, letter := range "xyz" {
		if axis == 0 && p.shortName(at) == "pivot" {
			continue
		}
		f := newField(p.words(p.corner.NameOf(at)) + " " + string(letter))
		f.check = func(text string) (string, error) { return echoLength(text, p.in.Unit) }
		f.hand = func(text string) error {
			l, err := units.ParseLength(text, p.in.Unit)
			if err != nil {
				return err
			}
			return p.OnEdit("type "+f.name, func(v *job.Variant) {
				*coordinate(v.Position(at), axis) = l
				v.Assumed = v.Assumed.With(valueAt(at, axis), false)
			})
		}
		fields[axis] = f
	}
	r := newPointRow(&p.form, p.shortName(at), fields)
	p.points[at] = r
	return r
}

func coordinate(p *job.Position, axis int) *units.Length {
	return [...]*units.Length{&p.X, &p.Y, &p.Z}[axis]
}

// angleRow makes the field of an angle at rest, read by parse, which may take it as a
// length, and then set.
func (p *Points) angleRow(label, name string, x job.Value, parse func(string) (job.Degrees, string, error), set func(*job.Variant, job.Degrees, string)) *valueRow {
	f := newField(name + " at rest")
	f.check = func(text string) (string, error) {
		d, _, err := parse(text)
		if err != nil {
			return "", err
		}
		return p.leaning(name, d), nil
	}
	f.hand = func(text string) error {
		d, typed, err := parse(text)
		if err != nil {
			return err
		}
		return p.OnEdit("type "+f.name, func(v *job.Variant) {
			set(v, d, typed)
			v.Assumed = v.Assumed.With(x, false)
		})
	}
	return newValueRow(&p.form, label, f)
}

func justDegrees(text string) (job.Degrees, string, error) {
	d, err := job.ParseDegrees(text)
	return d, "", err
}

func (p *Points) parseToe(text string) (job.Degrees, string, error) {
	width, _ := p.in.Job.ToeWidth(p.in.Variant)
	return job.ParseToe(text, width)
}

// leaning is what an angle does, and what a toe comes to across the gauge.
func (p *Points) leaning(name string, d job.Degrees) string {
	width, _ := p.in.Job.ToeWidth(p.in.Variant)
	if name != "toe" || d == 0 || width == 0 {
		return leaning(name, d)
	}
	across := bumpsteer.Gauge{Width: width}.Length(math.Abs(d.Radians()))
	return fmt.Sprintf("%s, %s across %s", leaning(name, d), units.Built.Length(across, p.in.Unit), units.ShortLength(width, p.in.Unit))
}

// leaning says in words which way an angle goes.
func leaning(name string, d job.Degrees) string {
	size := units.FormatNumber(max(float64(d), -float64(d)), restDecimals) + "°"
	switch {
	case d == 0 && name == "toe":
		return "straight ahead"
	case d == 0:
		return "upright"
	case name == "toe" && d > 0:
		return "toes in by " + size
	case name == "toe":
		return "toes out by " + size
	case d > 0:
		return "top leans outboard by " + size
	}
	return "top leans inboard by " + size
}

// fill puts the values into the fields; of a corner that was shown before, only
// those that changed.
func (p *Points) fill(was *kinematics.Corner) {
	owner, v, unit := p.in.owner(), p.in.Variant, p.in.Unit
	for at, r := range p.points {
		if was != nil && *was.At(at) == *p.corner.At(at) {
			continue
		}
		for axis, f := range r.fields {
			if f != nil {
				short, full := lengthTexts(p.shown(v, at, axis), unit)
				f.assumed = v.Assumed.Has(valueAt(at, axis))
				f.hold(owner, short, full)
			}
		}
		r.markWith(knownMark(v, at, r.fields, unit))
	}
	for i, r := range p.lengths {
		r.explainWith(p.words(links[i].hinted(unit)))
		if was != nil && links[i].length(was) == links[i].length(&p.corner) {
			continue
		}
		short, full := lengthTexts(units.Length{MM: links[i].length(&p.corner)}, unit)
		r.field.hold(owner, short, full)
	}
	for _, a := range []struct {
		row  *valueRow
		name string
		x    job.Value
		d    job.Degrees
	}{{p.camber, "camber", job.CamberValue, degreesOf(v.Camber, p.corner.Camber)}, {p.toe, "toe", job.ToeValue, degreesOf(v.Toe, p.corner.Toe)}} {
		text := units.Trimmed(float64(a.d), editDecimals) + "°"
		if typed := p.in.Job.ToeAsTyped(v); a.row == p.toe && typed != "" && a.d == v.Toe {
			text = typed
		}
		a.row.field.assumed = v.Assumed.Has(a.x)
		a.row.field.hold(owner, text, text)
		a.row.explainWith(assumedHint(v, a.x, unit, p.leaning(a.name, a.d)))
	}
}

// shown is a coordinate: the variant's, as it was typed, unless the hand has
// moved it.
func (p *Points) shown(v *job.Variant, at kinematics.Point, axis int) units.Length {
	l, to := *coordinate(v.Position(at), axis), p.corner.At(at)
	if mm := [...]float64{to.X, to.Y, to.Z}[axis]; l.MM != mm {
		return units.Length{MM: mm}
	}
	return l
}

// degreesOf is the angle in radians, as it was typed if that is the same.
func degreesOf(typed job.Degrees, rad float64) job.Degrees {
	if typed.Radians() == rad {
		return typed
	}
	return job.DegreesOf(rad)
}

// words speaks of a toe link at a rear axle.
func (p *Points) words(text string) string {
	if p.in.Job == nil || p.in.Job.Axle != job.Rear {
		return text
	}
	return rearWords.Replace(text)
}
