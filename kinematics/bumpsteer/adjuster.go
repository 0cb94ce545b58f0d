package bumpsteer

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// MinEngagement is the least length of thread in engagement, in diameters:
// rule of the trade, common practice, no source.
const MinEngagement = 1.5

// Unit is what an adjuster is counted in.
type Unit uint8

// The units of adjusters.
const (
	Turn       Unit = iota // of a rod end or sleeve, positive makes the leg longer
	Millimetre             // of pivot movement or shim
)

// Thread is one threaded end.
type Thread struct {
	Diameter float64 // mm
	Pitch    float64 // mm
	Engaged  float64 // mm of thread in engagement as it stands
}

// Adjuster is something on the car that can be set: a rod end, an eccentric
// bolt, a pack of shims.
type Adjuster struct {
	Name     string
	Unit     Unit
	Per      kinematics.Change // what one unit does
	Min, Max float64           // units from the present setting that it can go
	// Step is what it can be set in, units from the present setting; 0 for any.
	Step float64
	// Threads lose engagement by their pitch with each turn.
	Threads []Thread
	// Throw of an eccentric bolt, mm; 0 for others.
	Throw float64
}

// ErrAdjuster: an adjuster, or what is asked of it, cannot be used.
var ErrAdjuster = errors.New("the adjuster cannot be used")

func adjusterError(name, format string, args ...any) error {
	return fmt.Errorf("%s: %s: %w", name, fmt.Sprintf(format, args...), ErrAdjuster)
}

// HalfTurn is what a single rod end can be set in: it is unbolted, turned and
// bolted on again, its eye the same way up or upside down. Facts of the part.
const HalfTurn = 0.5

// RodEnd is a leg with one threaded rod end: one turn out makes it longer by
// the pitch. out and in are the turns that it can go either way, by half turns.
func RodEnd(name string, leg kinematics.Leg, thread Thread, out, in float64) Adjuster {
	return Adjuster{Name: name, Unit: Turn, Per: longer(leg, thread.Pitch), Min: -in, Max: out, Step: HalfTurn, Threads: []Thread{thread}}
}

// RightLeftPair is a leg with a right-hand and a left-hand thread: one turn of
// the sleeve, or of the tube between them, makes it longer by both pitches.
func RightLeftPair(name string, leg kinematics.Leg, right, left Thread, out, in float64) Adjuster {
	return Adjuster{Name: name, Unit: Turn, Per: longer(leg, right.Pitch+left.Pitch), Min: -in, Max: out, Threads: []Thread{right, left}}
}

func longer(leg kinematics.Leg, mm float64) kinematics.Change {
	var ch kinematics.Change
	ch.Longer[leg] = mm
	return ch
}

// Eccentric is a pivot on an eccentric bolt in a guide: it moves along the
// direction by throw times the sine of the bolt's turn from the middle, at most
// the throw either way. now is where it stands, mm from the middle. One unit is
// 1 mm along the direction, whose length does not matter.
func Eccentric(name string, pivot kinematics.Point, direction kinematics.Vec, throw, now float64) Adjuster {
	return Adjuster{Name: name, Unit: Millimetre, Per: shifted(direction, pivot), Min: -throw - now, Max: throw - now, Throw: throw}
}

// Shims move one pivot or several together along the direction; one unit is
// 1 mm of shim. out and in are the mm that can be added and taken out.
func Shims(name string, direction kinematics.Vec, out, in float64, pivots ...kinematics.Point) Adjuster {
	return Adjuster{Name: name, Unit: Millimetre, Per: shifted(direction, pivots...), Min: -in, Max: out}
}

// shifted is a move of 1 mm; no direction gives no move, which check reports.
func shifted(direction kinematics.Vec, pivots ...kinematics.Point) kinematics.Change {
	var ch kinematics.Change
	largest := max(math.Abs(direction.X), math.Abs(direction.Y), math.Abs(direction.Z))
	if !(largest > 0) || math.IsInf(largest, 0) {
		return ch
	}
	direction = kinematics.Vec{X: direction.X / largest, Y: direction.Y / largest, Z: direction.Z / largest}
	n := r3.Norm(direction)
	for _, p := range pivots {
		if int(p) >= len(ch.Moved) || !p.OnBody() {
			panic(fmt.Sprintf("kinematics: %v is not fixed to the body", p))
		}
		ch.Moved[p] = r3.Scale(1/n, direction)
	}
	return ch
}

// Check tells whether the adjuster can be used on a corner. The error matches
// ErrAdjuster and joins all that is wrong.
func (a *Adjuster) Check(c *kinematics.Corner) error {
	var errs []error
	wrong := func(format string, args ...any) { errs = append(errs, adjusterError(a.Name, format, args...)) }
	if size := a.Per.Size(); !(size > 0 && size <= kinematics.MaxLength) {
		wrong("moves nothing: give a pitch above zero, or a direction and a pivot")
	}
	if !(a.Min >= -kinematics.MaxLength && a.Max <= kinematics.MaxLength && a.Min < a.Max) {
		wrong("its range from %+.4g to %+.4g leaves nothing to set", a.Min, a.Max)
	}
	if !(a.Step >= 0) {
		wrong("steps of %g are below zero", a.Step)
	}
	if !(a.Throw >= 0) {
		wrong("throw %g mm is below zero", a.Throw)
	}
	for _, t := range a.Threads {
		if !(t.Diameter > 0 && t.Pitch > 0 && t.Engaged >= 0) || t.Diameter > kinematics.MaxLength || t.Engaged > kinematics.MaxLength {
			wrong("thread of diameter %g, pitch %g, %g mm engaged: diameter and pitch must be above zero", t.Diameter, t.Pitch, t.Engaged)
		}
	}
	for _, arm := range []struct {
		flat  bool
		name  string
		rear  kinematics.Leg
		point kinematics.Point
	}{{c.Upper.Flat, "upper arm", kinematics.UpperRearLeg, kinematics.UpperRear}, {c.Lower.Flat, "lower arm", kinematics.LowerRearLeg, kinematics.LowerRear}} {
		if arm.flat && (a.Per.Longer[arm.rear] != 0 || a.Per.Moved[arm.point] != (kinematics.Vec{})) {
			wrong("the %s has one front-view pivot and so no rear leg: measure both pivots, or adjust the front one", arm.name)
		}
	}
	return errors.Join(errs...)
}

// Engagement is what is left of one thread at a setting.
type Engagement struct {
	Engaged float64 // mm
	Least   float64 // mm, MinEngagement diameters
	Short   bool    // less than that: the leg may pull out
}

// Engagements returns what is left of each thread after turns out, mm.
func (a *Adjuster) Engagements(turns float64) []Engagement {
	list := make([]Engagement, len(a.Threads))
	for i, t := range a.Threads {
		e := Engagement{Engaged: t.Engaged - turns*t.Pitch, Least: MinEngagement * t.Diameter}
		e.Short = e.Engaged < e.Least-engagedSlack
		list[i] = e
	}
	return list
}

// engagedSlack, mm, keeps rounding from flagging a thread that stands exactly
// at the rule.
const engagedSlack = 1e-9

// BoltTurn returns how far an eccentric bolt is turned from the middle, rad,
// with the pivot mm from the middle; false beyond the throw or without one.
func (a *Adjuster) BoltTurn(mm float64) (angle float64, ok bool) {
	if !(a.Throw > 0 && math.Abs(mm) <= a.Throw) {
		return 0, false
	}
	return math.Asin(mm / a.Throw), true
}

// Set returns the corner with each adjuster moved by its units, put together
// again as of kinematics.Reassemble.
func Set(c kinematics.Corner, adjusters []Adjuster, units []float64) (kinematics.Corner, error) {
	if len(adjusters) != len(units) {
		panic("kinematics: each adjuster needs its units")
	}
	var ch kinematics.Change
	for i, a := range adjusters {
		ch = ch.Plus(a.Per.Times(units[i]))
	}
	return kinematics.Reassemble(c, ch)
}

func checkAdjusters(c *kinematics.Corner, adjusters []Adjuster) error {
	if len(adjusters) == 0 {
		return fmt.Errorf("no adjusters are given: state the rod ends, eccentrics or shims: %w", ErrAdjuster)
	}
	var errs []error
	for i := range adjusters {
		errs = append(errs, adjusters[i].Check(c))
	}
	return errors.Join(errs...)
}
