// Package jobcard is the fabricator's way through a job, from the tape measure
// to the hand-over: what of each step is open, met or not decidable, what it
// needs next, and where in the program that is done. It knows no window.
package jobcard

import (
	"armscribe/app/clearance"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/app/units"
)

// Status is how a line or a step stands.
type Status uint8

// The statuses, the most pressing first.
const (
	Open      Status = iota // something is still to be done
	Missed                  // done, and not as aimed at
	Undecided               // the measuring error leaves it open
	Met
)

// String returns the status in words.
func (s Status) String() string {
	switch s {
	case Open:
		return "open"
	case Missed:
		return "not met"
	case Undecided:
		return "not decidable"
	}
	return "met"
}

// Place is where in the program a line is done.
type Place uint8

// The places.
const (
	Points   Place = iota // the table of points
	Wheel                 // wheel and tyre
	Travel                // how far wheel and rack go
	Variants              // the list of variants
	Targets               // the targets
	Toe                   // the toe curve and its advice
	Spring                // the spring's ends
	Notes                 // the variant's notes
	Save                  // saving the file
	Papers                // the drawing for the shop
	Room                  // gaps between the tyre and what stands around it
	Offset                // the wheel's offset
	placeCount
)

// Places is a set of places.
type Places uint32

// PlacesOf returns the set of places.
func PlacesOf(list ...Place) Places {
	var s Places
	for _, p := range list {
		s |= 1 << p
	}
	return s
}

// Has tells whether the place is in the set.
func (s Places) Has(p Place) bool { return s&(1<<p) != 0 }

// Step is a part of the fabricator's work.
type Step uint8

// The steps, in their order.
const (
	Measure Step = iota
	Fit
	Arms
	Steering
	Ride
	Check
	HandOver
)

var stepNames = [...]string{Measure: "Measure", Fit: "Fit", Arms: "Arms", Steering: "Steering", Ride: "Ride", Check: "Check", HandOver: "Hand over"}

// String returns the step's name.
func (s Step) String() string { return stepNames[s] }

// Line is one thing of a step.
type Line struct {
	What   string
	Status Status
	Need   string // what to do next; empty when it is met
	Place  Place
	// Assumed: it is about the values that nobody has measured.
	Assumed bool
	// Target is the aim that the line is about, only if HasTarget.
	Target    targets.Kind
	HasTarget bool
	// Step: it is about a step before.
	Step bool
}

// Entry is a step with its lines.
type Entry struct {
	Step   Step
	Status Status // of its most pressing line
	Next   string // what the step needs next; empty when it is met
	Lines  []Line
}

// Input is what the card follows from.
type Input struct {
	Job     *job.Job
	Variant int              // the one that the card is about
	Results []targets.Result // of that variant
	// Advice on the toe curve of that variant, only if HasAdvice.
	Advice    frame.Advice
	HasAdvice bool
	Saved     bool       // the file holds the job as it is
	Drawn     bool       // a drawing of the variant as it is has been saved
	Unit      units.Unit // of display
	// Clear is how the wheel of that variant stands to all that it must not meet.
	Clear clearance.Judgement
	// Places there are: a line that leads to another is left out, and a step
	// without lines too.
	Places Places
}

// Card lists the steps. One is met when its aims are set and met and nothing in
// it is left open; the last, when all before it are.
func Card(in Input) []Entry {
	var card []Entry
	for s, lines := range [...][]Line{
		Measure: in.measure(), Fit: in.fit(), Arms: in.arms(), Steering: in.steering(),
		Ride: in.ride(), Check: in.check(), HandOver: in.handOver(),
	} {
		if Step(s) == HandOver {
			lines = append(lines, before(card)...)
		}
		if e, ok := in.entry(Step(s), lines); ok {
			card = append(card, e)
		}
	}
	return card
}

// before has a line for what the steps so far leave open.
func before(card []Entry) []Line {
	for i := range card {
		e := &card[i]
		if e.Status == Met {
			continue
		}
		for _, l := range e.Lines {
			if l.Status == e.Status {
				return []Line{{What: "Step " + e.Step.String() + " is " + e.Status.String(), Status: Open, Need: e.Next, Place: l.Place,
					Assumed: l.Assumed, Target: l.Target, HasTarget: l.HasTarget, Step: true}}
			}
		}
	}
	return nil
}

func (in *Input) entry(s Step, lines []Line) (Entry, bool) {
	e := Entry{Step: s, Status: Met}
	for _, l := range lines {
		if !in.Places.Has(l.Place) {
			continue
		}
		e.Lines = append(e.Lines, l)
		if l.Status < e.Status {
			e.Status, e.Next = l.Status, l.Need
		}
	}
	return e, len(e.Lines) > 0
}

// Done counts the steps that are met.
func Done(card []Entry) int {
	n := 0
	for i := range card {
		if card[i].Status == Met {
			n++
		}
	}
	return n
}
