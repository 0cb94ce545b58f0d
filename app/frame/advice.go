package frame

import (
	"fmt"
	"math"
	"strings"

	"armscribe/app/car"
	"armscribe/app/sheet"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Fault is what is most wrong with a toe curve.
type Fault uint8

// The faults.
const (
	NoFault   Fault = iota // the curve is as straight as this rod can make it, or nearly
	Undecided              // something shows, but measuring error could make it
	Slope                  // outer or inner end at the wrong height
	Bow                    // tie rod too long or too short
)

// Advice is the program's one sentence, in two parts, and what it would do.
type Advice struct {
	Fault Fault
	What  string // what is wrong and how sure that is
	Cure  string // what would cure it, and what is then left; may be empty
	// Raise is what the outer end goes up by, mm, when the advice is tried as a
	// variant, with Stack then under it; 0 for nothing to try.
	Raise float64
	Stack bumpsteer.Stack
}

// smallToe is the toe change over the travel that needs no cure, rad: 0.05
// degrees, half of what is commonly set as static toe. Common practice, no source.
const smallToe = 0.05 * math.Pi / 180

// Advise puts the diagnosis of the frame into words, lengths in the unit of the
// setup, spacers from its stock. ok is false while there is no diagnosis.
func (f *Frame) Advise(s *tune.Setup) (a Advice, ok bool) {
	a, ok = f.advise(s)
	if ok && f.restsOnAssumed() {
		a.What = "Rests on assumed values. " + a.What
	}
	return a, ok
}

// restsOnAssumed tells whether anything that moves the toe curve is assumed.
func (f *Frame) restsOnAssumed() bool {
	c := &f.Now.Study.Case
	for _, at := range c.Within.Coordinates(&c.Corner) {
		onSpring := at.Point == kinematics.SpringMoving || at.Point == kinematics.SpringBody
		if c.Within.RestsOn(at) && !onSpring && at.Point != kinematics.AtRest {
			return true
		}
	}
	return false
}

// advise is Advise, whatever it rests on.
func (f *Frame) advise(s *tune.Setup) (a Advice, ok bool) {
	unit := s.Unit
	if !f.HasAdvice {
		return Advice{Fault: Undecided, What: "The toe curve cannot be judged: " + f.whyNoToe(unit) + "."}, false
	}
	d, c := &f.Diagnosis, f.Now.Study.Case
	within := car.KnownOf(&c.Within, &c.Corner).Text(unit)
	slopes := d.Slopes()
	change := units.FormatDegrees(d.Change, 2)
	switch {
	case d.Change < smallToe:
		return Advice{Fault: NoFault, What: fmt.Sprintf("Toe changes by only %s over the travel: the %s suits the arms.", change, s.Rod())}, true
	case slopes && d.CanRaise && d.Slope.Decided():
		return f.slopeAdvice(s), true
	case !slopes && d.CanShift && d.Bow.Decided():
		return Advice{Fault: Bow,
			What: fmt.Sprintf("The toe curve bows: the %s is about %s too far %s, so the %s is too %s.", s.InnerEnd(),
				banded(math.Abs(d.Shift.Value), d.Shift.Half, unit), pick(d.Shift.Value > 0, "in", "out"), s.Rod(), pick(d.Shift.Value > 0, "long", "short")),
			Cure: fmt.Sprintf("It changes toe by %s; a spacer under the joint cannot take that away.", change)}, true
	case slopes && d.CanRaise:
		return Advice{Fault: Undecided,
			What: fmt.Sprintf("Toe changes by %s; outer end %s too %s: not decidable at ±%s, use a toe gauge.", change,
				banded(math.Abs(d.Raise.Value), d.Raise.Half, unit), pick(d.Raise.Value > 0, "low", "high"), within)}, true
	}
	return Advice{Fault: Undecided,
		What: fmt.Sprintf("Toe changes by %s over the travel; what causes it is not decidable at ±%s: use a toe gauge.", change, within)}, true
}

// whyNoToe says what of the travel keeps the toe curve from being judged.
func (f *Frame) whyNoToe(unit units.Unit) string {
	s := &f.Now.Study
	var list []string
	for _, end := range []struct {
		asked float64
		limit kinematics.TravelLimit
		name  string
	}{{s.Case.Span.Bump, s.Range.Bump, "bump"}, {s.Case.Span.Droop, s.Range.Droop, "droop"}} {
		switch reach := math.Abs(end.limit.Travel); {
		case end.asked == 0:
			list = append(list, "the job states no "+end.name)
		case reach < end.asked:
			list = append(list, fmt.Sprintf("the %s binds at %s of %s, and the job asks for %s", end.limit.Link, units.Taped.Length(reach, unit), end.name, units.ShortLength(end.asked, unit)))
		}
	}
	if list == nil {
		return "the linkage stands too near its full reach at an end of the travel"
	}
	return strings.Join(list, "; ")
}

// slopeAdvice is the case that a spacer cures.
func (f *Frame) slopeAdvice(s *tune.Setup) Advice {
	d, unit := &f.Diagnosis, s.Unit
	a := Advice{Fault: Slope, What: fmt.Sprintf("The toe curve slopes: the outer end is about %s too %s.",
		banded(math.Abs(d.Raise.Value), d.Raise.Half, unit), pick(d.Raise.Value > 0, "low", "high"))}
	stack, ok := s.BestStack(f.Now.Study.Case.Corner, d.Raise.Value, bumpsteer.Goal{From: d.From, To: d.To})
	if !ok || stack.Measure.Change >= d.Change {
		return a
	}
	if stack.Height > 2*bumpsteer.TallStack {
		a.Cure = "That is more than spacers can safely make up: move the " + s.InnerEnd() + " or the steering arm instead."
		return a
	}
	a.Raise, a.Stack = stack.Raise-s.Stands(), stack
	size := units.ShortLength(stack.Height, unit)
	what := fmt.Sprintf("%s %s spacer %s it", article(size), size, pick(stack.Raise > 0, "that raises", "that lowers"))
	if there := s.InPlaceOf(&stack); there != "" {
		what = strings.ToUpper(there[:1]) + there[1:]
	}
	a.Cure = fmt.Sprintf("%s leaves %s of the %s over the travel.", what,
		units.FormatDegrees(stack.Measure.Change, 2), units.FormatDegrees(d.Change, 2))
	if stack.Tall {
		a.Cure += " A stack this tall bends the stud or bolt: ask someone qualified."
	}
	return a
}

// article is the one before a number: an 8, an 11, an 18, an 11/16; but a 1/8.
func article(number string) string {
	whole := strings.TrimLeft(number, "0123456789")
	switch digits := strings.TrimSuffix(number, whole); {
	case strings.HasPrefix(digits, "8"), digits == "11", digits == "18":
		return "An"
	}
	return "A"
}

// banded prints a length with its band and unit: "5 ± 3 mm".
func banded(mm, half float64, unit units.Unit) string {
	return sheet.Banded(sheet.Length, mm, half).Phrase(unit)
}

func pick(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}
