package kinematics

import (
	"errors"
	"fmt"
	"math"
	"strconv"
)

// Errors of this package, for errors.Is.
var (
	// ErrGeometry: the points make no mechanism; see GeometryError.
	ErrGeometry = errors.New("the points make no mechanism")
	// ErrUnreachable: the linkage does not assemble there; see ReachError.
	ErrUnreachable = errors.New("the linkage does not reach")
)

// GeometryError is one thing wrong with a corner at rest.
type GeometryError struct {
	Point   Point  // the first point concerned
	Place   string // the part or parts concerned, in the trade's words
	Value   string // what was found, lengths in mm
	Problem string
	Cure    string

	form    string    // of Value, a %s for each length; empty where it names none
	lengths []float64 // mm
}

// Error names place, problem, value and cure in one line.
func (e *GeometryError) Error() string { return e.line(e.Value) }

// Say is Error with lengths printed in another unit.
func (e *GeometryError) Say(amount, _ func(mm float64) string) string {
	return e.line(e.ValueIn(amount))
}

// ValueIn is Value with lengths printed in another unit.
func (e *GeometryError) ValueIn(amount func(mm float64) string) string {
	if e.form == "" {
		return e.Value
	}
	texts := make([]any, len(e.lengths))
	for i, mm := range e.lengths {
		texts[i] = amount(mm)
	}
	return fmt.Sprintf(e.form, texts...)
}

func (e *GeometryError) line(value string) string {
	return fmt.Sprintf("%s: %s (%s); %s", e.Place, e.Problem, value, e.Cure)
}

// Is makes errors.Is(err, ErrGeometry) true.
func (e *GeometryError) Is(target error) bool { return target == ErrGeometry }

// Link names a member that can end the travel.
type Link uint8

// The members that can bind. NoLink is the zero value and binds nothing.
const (
	NoLink   Link = iota
	LowerArm      // stands on its dead point: the wheel can rise (or fall) no further
	UpperArm      // upper arm and upright cannot close the gap to the lower ball joint
	TieRodLink
)

// String returns the member's name in the trade's words.
func (l Link) String() string {
	switch l {
	case LowerArm:
		return "lower arm"
	case UpperArm:
		return "upper arm"
	case TieRodLink:
		return "tie rod"
	}
	return "no link"
}

// ReachError says which link keeps the linkage from the position asked for, and
// by how much. Either a link binds on the way there from rest (HasLimit), or the
// rack stands where the linkage does not even assemble with the lower arm as at
// rest; then no way begins, and Short is measured there.
type ReachError struct {
	Link    Link
	Short   float64 // mm the link lacks (or has too much, when TooLong), about; above zero
	TooLong bool
	Travel  float64 // mm asked for
	Rack    float64 // mm asked for
	// Limit is the last travel that is reached, mm, where the link binds; only if
	// HasLimit.
	Limit float64
	// HasLimit is false when no limit is known, because the linkage does not
	// assemble with the lower arm as at rest and the rack at Rack. At some other
	// travel it might.
	HasLimit bool
}

// Error names link, amount, position and limit in one line.
func (e *ReachError) Error() string { return e.Say(amountInMM, placeInMM) }

// Say is Error with amounts and places printed in another unit.
func (e *ReachError) Say(amount, place func(mm float64) string) string {
	what := "short"
	if e.TooLong {
		what = "too long"
	}
	at := "at travel " + place(e.Travel)
	if e.Rack != 0 {
		at += ", rack " + place(e.Rack)
	}
	text := fmt.Sprintf("%s is %s %s %s", e.Link, amount(e.Short), what, at)
	if !e.HasLimit {
		return text + "; with the rack there the corner does not assemble as it rests"
	}
	return text + "; it binds at " + place(e.Limit)
}

// amountInMM prints what a link lacks.
func amountInMM(mm float64) string {
	if mm < 0.1 {
		return fmt.Sprintf("%.2g mm", mm)
	}
	return fmt.Sprintf("%.1f mm", mm)
}

func placeInMM(mm float64) string { return Placed(mm) + " mm" }

// Is makes errors.Is(err, ErrUnreachable) true.
func (e *ReachError) Is(target error) bool { return target == ErrUnreachable }

// finite tells whether x is a number within MaxLength of zero.
func finite(x float64) bool { return math.Abs(x) <= MaxLength }

// Placed prints a place in travel or rack, mm, or an angle of roll, to a tenth
// with its sign; nought has neither.
func Placed(v float64) string {
	text := strconv.FormatFloat(math.Abs(v), 'f', 1, 64)
	switch {
	case text == "0.0":
		return "0"
	case v < 0:
		return "\u2212" + text
	}
	return "+" + text
}
