// Package newjob makes a job from the fewest numbers: whatever is not typed is
// filled in by rules of thumb, and marked as assumed until it is typed over.
// What comes out always assembles over its travel. It knows no window.
//
// The rules of thumb are common practice, no source; they only have to look
// like a car, for every one of them is to be measured.
package newjob

import (
	"fmt"
	"strings"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Field is a number that can be typed; none has to be.
type Field uint8

// The fields, in the order in which they are asked for. Heights are above the
// floor, side distances from the car's centre plane.
const (
	Track Field = iota
	HubHeight
	Offset
	LowerPivotSide
	LowerPivotHeight
	LowerBallSide
	LowerBallHeight
	UpperPivotSide
	UpperPivotHeight
	UpperBallSide
	UpperBallHeight
	RackEndSide
	RackEndHeight
	OuterEndSide
	OuterEndHeight
	RimWidth
	Bump
	Droop
	Camber
	Toe
	RodAhead
	LowerFrontAhead
	LowerRearBehind
	LowerRearSide
	LowerRearHeight
	UpperFrontAhead
	UpperRearBehind
	UpperRearSide
	UpperRearHeight
	FieldCount
)

// IsAngle tells whether the field takes degrees; the others take lengths.
func (f Field) IsAngle() bool { return f == Camber || f == Toe }

// About describes a field: its name, and where to put the tape.
type About struct{ Name, Hint string }

var about = [FieldCount]About{
	Track:            {"Track", "between the middles of both tyres, on the ground"},
	HubHeight:        {"Wheel centre height", "from the ground up to the middle of the wheel, car at ride height"},
	Offset:           {"Wheel offset", "stamped on the wheel; positive when the mounting face is outboard of the rim's middle"},
	LowerPivotSide:   {"Lower pivot, from the middle", "from the car's centre plane out to the lower arm's pivot axis"},
	LowerPivotHeight: {"Lower pivot height", "from the floor up to the lower arm's pivot axis"},
	LowerBallSide:    {"Lower ball joint, from the middle", "from the car's centre plane out to the middle of the lower ball"},
	LowerBallHeight:  {"Lower ball joint height", "from the floor up to the middle of the lower ball"},
	UpperPivotSide:   {"Upper pivot, from the middle", "from the car's centre plane out to the upper arm's pivot axis"},
	UpperPivotHeight: {"Upper pivot height", "from the floor up to the upper arm's pivot axis"},
	UpperBallSide:    {"Upper ball joint, from the middle", "from the car's centre plane out to the middle of the upper ball"},
	UpperBallHeight:  {"Upper ball joint height", "from the floor up to the middle of the upper ball"},
	RackEndSide:      {"Rack end, from the middle", "from the car's centre plane out to the middle of the inner tie-rod joint"},
	RackEndHeight:    {"Rack end height", "from the floor up to the middle of the inner tie-rod joint"},
	OuterEndSide:     {"Outer tie-rod end, from the middle", "from the car's centre plane out to the middle of the outer tie-rod joint"},
	OuterEndHeight:   {"Outer tie-rod end height", "from the floor up to the middle of the outer tie-rod joint"},
	RimWidth:         {"Rim width", "between the bead seats"},
	Bump:             {"Bump", "how far the wheel goes up from rest"},
	Droop:            {"Droop", "how far the wheel goes down from rest"},
	Camber:           {"Camber", "of the wheel at rest, by a gauge on the rim; negative when its top leans inboard"},
	Toe:              {"Toe", "of one wheel at rest, positive when it toes in; a length with its unit is taken across the rim"},
	RodAhead:         {"Tie rod from the axle line", "along the car from the wheel centre to the tie rod, whichever side it is on"},
	LowerFrontAhead:  {"Lower front pivot, ahead", "along the car from the axle line forward to the lower arm's front pivot"},
	LowerRearBehind:  {"Lower rear pivot, behind", "along the car from the axle line back to the lower arm's rear pivot"},
	LowerRearSide:    {"Lower rear pivot, from the middle", "from the car's centre plane out to the lower arm's rear pivot"},
	LowerRearHeight:  {"Lower rear pivot height", "from the floor up to the lower arm's rear pivot"},
	UpperFrontAhead:  {"Upper front pivot, ahead", "along the car from the axle line forward to the upper arm's front pivot"},
	UpperRearBehind:  {"Upper rear pivot, behind", "along the car from the axle line back to the upper arm's rear pivot"},
	UpperRearSide:    {"Upper rear pivot, from the middle", "from the car's centre plane out to the upper arm's rear pivot"},
	UpperRearHeight:  {"Upper rear pivot height", "from the floor up to the upper arm's rear pivot"},
}

// About returns the words for the field.
func (f Field) About() About {
	if f >= FieldCount {
		panic(fmt.Sprintf("newjob: no field %d", f))
	}
	return about[f]
}

// About returns the words for a field as the form asks for it: of an arm with
// both pivots measured, the pivot's fields are the front one's.
func (f *Form) About(x Field) About {
	a, arm := x.About(), 0
	switch x {
	case LowerPivotSide, LowerPivotHeight:
	case UpperPivotSide, UpperPivotHeight:
		arm = 1
	default:
		return a
	}
	if f.TwoPivots[arm] {
		a.Name = strings.Replace(a.Name, "pivot", "front pivot", 1)
		a.Hint = strings.Replace(a.Hint, "pivot axis", "front pivot", 1)
	}
	return a
}

// Form is what has been typed so far. The zero form, with an axle and units, is
// a fine one.
type Form struct {
	Name  string // of the job; empty for a stand-in
	Axle  job.Axle
	Units units.Unit
	Tyre  string             // size code; empty for a default
	Typed [FieldCount]string // empty for a default
	Rod   RodSide
	// TwoPivots: of the lower and the upper arm, both pivots are measured, the
	// front one by the pivot's fields.
	TwoPivots [2]bool
}

// RodSide is where rack and tie rod are, seen from the axle line.
type RodSide uint8

// The sides. Not asked, it is ahead on a front axle and behind on a rear one.
const (
	RodNotAsked RodSide = iota
	RodAheadOfAxle
	RodBehindAxle
)

// RodBehind tells whether the tie rod goes behind the axle line.
func (f *Form) RodBehind() bool {
	return f.Rod == RodBehindAxle || f.Rod == RodNotAsked && f.Axle == job.Rear
}

// Asks tells whether the form takes a field: those of rear pivots only of arms
// that have them.
func (f *Form) Asks(x Field) bool {
	switch {
	case x >= UpperFrontAhead:
		return f.TwoPivots[1]
	case x >= LowerFrontAhead:
		return f.TwoPivots[0]
	}
	return true
}

// sides and heights are the fields of the points that can be dropped on a
// picture.
var places = map[kinematics.Point][2]Field{
	kinematics.LowerFront: {LowerPivotSide, LowerPivotHeight},
	kinematics.LowerRear:  {LowerRearSide, LowerRearHeight},
	kinematics.UpperRear:  {UpperRearSide, UpperRearHeight},
	kinematics.LowerBall:  {LowerBallSide, LowerBallHeight},
	kinematics.UpperFront: {UpperPivotSide, UpperPivotHeight},
	kinematics.UpperBall:  {UpperBallSide, UpperBallHeight},
	kinematics.RackEnd:    {RackEndSide, RackEndHeight},
	kinematics.OuterEnd:   {OuterEndSide, OuterEndHeight},
}

// alongs are the fields of the points' places along the car, where they are
// asked for.
var alongs = map[kinematics.Point]Field{
	kinematics.LowerFront: LowerFrontAhead, kinematics.LowerRear: LowerRearBehind, kinematics.UpperFront: UpperFrontAhead,
	kinematics.UpperRear: UpperRearBehind, kinematics.RackEnd: RodAhead, kinematics.OuterEnd: RodAhead,
}

// placeDigits of a mm are finer than any picture is.
const placeDigits = 0.1 // mm

// Place types the side distance and height of a point that was dropped on a
// picture, mm. ok is false for a point that the form does not ask for.
func (f *Form) Place(p kinematics.Point, y, z float64) (ok bool) {
	fields, ok := places[p]
	if ok {
		for i, mm := range [2]float64{y, z} {
			f.Typed[fields[i]] = fmt.Sprintf("%.1f mm", roundTo(mm, placeDigits))
		}
	}
	return ok
}

// Problem is what is wrong with one field, or with several together.
type Problem struct {
	Field Field // FieldCount for the tyre, or none in particular
	Name  string
	Value string // as typed; may be empty
	What  string
	Cure  string
	Err   error // what lies beneath; may be nil
}

// Error names field, value, problem and cure in one line.
func (p Problem) Error() string {
	text := p.Name
	if p.Value != "" {
		text += fmt.Sprintf(" = %q", p.Value)
	}
	if text != "" {
		text += ": "
	}
	return text + p.What + "; " + p.Cure
}

// Unwrap returns what lies beneath.
func (p Problem) Unwrap() error { return p.Err }

// Problems is everything wrong with a form.
type Problems []Problem

// Error gives one line to each.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i := range ps {
		lines[i] = ps[i].Error()
	}
	return strings.Join(lines, "\n")
}

// Result is the job made, with what its numbers came to.
type Result struct {
	Job *job.Job
	// Values are mm, of angles degrees; those of Default were filled in.
	Values      [FieldCount]float64
	Default     [FieldCount]bool
	Tyre        string
	TyreDefault bool
	// Shortened says which travel, that nobody typed, is shorter than usual because
	// the linkage does not reach it; empty if none.
	Shortened string

	rodBehind bool
}
