package bumpsteer

import (
	"errors"
	"fmt"
	"math"

	"armscribe/kinematics"
)

// Over tells what the toe curve runs over.
type Over uint8

// What a toe curve can run over.
const (
	OverTravel Over = iota // wheel travel, mm
	OverRoll               // body roll, rad, both tyres on the ground
)

// Goal is the toe curve that is wanted: toe change from rest equal to
// Slope times travel (or roll) from From to To, which hold zero between them.
// The measure of a corner is the largest distance from that line.
//
// Over roll the left wheel is looked at; positive roll lifts the car's left
// side, so the left wheel is the inner one there, and the range from a
// negative to a positive roll shows the wheel on both sides of a bend. Toe is
// then to the ground.
type Goal struct {
	Over     Over
	From, To float64 // mm of travel, or rad of roll
	Slope    float64 // rad/mm over travel, rad/rad over roll; zero asks for no toe change
}

// RangeError is a travel or roll range that cannot be used. It matches ErrRange.
type RangeError struct {
	Goal    Goal
	Problem string
}

// Error names the range and what is wrong with it.
func (e *RangeError) Error() string {
	if e.Goal.Over == OverRoll {
		return fmt.Sprintf("roll from %+.4g to %+.4g degrees %s", e.Goal.From*180/math.Pi, e.Goal.To*180/math.Pi, e.Problem)
	}
	return fmt.Sprintf("travel from %+.4g to %+.4g mm %s", e.Goal.From+0, e.Goal.To+0, e.Problem)
}

// Say is Error with travels printed in another unit.
func (e *RangeError) Say(_, place func(mm float64) string) string {
	if e.Goal.Over == OverRoll {
		return e.Error()
	}
	return fmt.Sprintf("travel from %s to %s %s", place(e.Goal.From+0), place(e.Goal.To+0), e.Problem)
}

// Is makes errors.Is(err, ErrRange) true.
func (e *RangeError) Is(target error) bool { return target == ErrRange }

func (g *Goal) check() error {
	limit, words := kinematics.MaxLength, "must lie within ±10 m"
	if g.Over == OverRoll {
		limit, words = kinematics.MaxRoll, "must lie within ±30 degrees"
	}
	switch {
	case !(math.Abs(g.From) <= limit && math.Abs(g.To) <= limit):
		return &RangeError{*g, words}
	case !(g.From < 0 && g.To > 0):
		return &RangeError{*g, "must run from below zero to above zero, so that rest lies inside"}
	case !(math.Abs(g.Slope) <= math.Pi):
		return &RangeError{*g, fmt.Sprintf("has a wanted slope of %g rad for each mm or rad: check the number and its unit", g.Slope)}
	case g.Over > OverRoll:
		panic(fmt.Sprintf("kinematics: no range %d", g.Over))
	}
	return nil
}

// steps spreads n places evenly over the range, both ends included.
func (g *Goal) steps(n int) []float64 {
	at := make([]float64, n)
	for i := range at {
		f := float64(i) / float64(n-1)
		at[i] = g.From*(1-f) + g.To*f
	}
	return at
}

// Curve is a toe curve.
type Curve struct {
	At  []float64 // mm of travel, or rad of roll
	Toe []float64 // rad, change from rest, positive toward toe-in
}

// ToeCurve returns the toe change from rest at each travel or roll. Errors are
// those of kinematics.New, Mechanism.At and Mechanism.Roll.
func ToeCurve(c kinematics.Corner, over Over, at []float64) (Curve, error) {
	c.Spring = kinematics.Spring{} // no toe depends on it
	curve := Curve{At: append([]float64(nil), at...), Toe: make([]float64, len(at))}
	m, err := kinematics.New(&c)
	if err != nil {
		return Curve{}, err
	}
	return curve, toeChanges(&m, over, at, curve.Toe)
}

// toeChanges writes the toe change from rest at each place.
func toeChanges(m *kinematics.Mechanism, over Over, at, dst []float64) error {
	c := m.Corner()
	for i, h := range at {
		var spin kinematics.Vec
		if over == OverRoll {
			ax, err := m.Roll(h, 0)
			if err != nil {
				return err
			}
			spin = ax.Left.Spin
		} else {
			p, err := m.At(h, 0)
			if err != nil {
				return err
			}
			spin = p.Spin
		}
		dst[i] = math.Atan2(spin.X, spin.Y) - c.Toe
	}
	return nil
}

// misses writes the toe changes less the wanted line.
func (g *Goal) misses(c *kinematics.Corner, at, dst []float64) error {
	m, err := kinematics.New(c)
	if err != nil {
		return err
	}
	if err := toeChanges(&m, g.Over, at, dst); err != nil {
		return err
	}
	for i, h := range at {
		dst[i] -= g.Slope * h
	}
	return nil
}

// Number of places at which a toe curve is looked at. A curve with a bump of
// third order is measured to 1 % by 25 places, 0.2 % by 61 and 0.03 % by 161;
// an axle in roll costs thirty times a corner in travel and bends less.
const (
	scanTravel, scanRoll     = 13, 7
	searchTravel, searchRoll = 25, 9
	polishTravel, polishRoll = 61, 13
	curveTravel, curveRoll   = 161, 41
)

func (g *Goal) pick(travel, roll int) []float64 {
	if g.Over == OverRoll {
		return g.steps(roll)
	}
	return g.steps(travel)
}

// Measure is how far a corner's toe curve is from a goal.
type Measure struct {
	Largest   float64 // rad, the largest distance from the wanted line
	At        float64 // mm of travel or rad of roll where that is
	Change    float64 // rad, the largest toe change from rest
	ChangeAt  float64
	ToeChange Curve
}

// Measured measures a corner against a goal. Errors match ErrRange or are those
// of ToeCurve.
func Measured(c kinematics.Corner, g Goal) (Measure, error) {
	if err := g.check(); err != nil {
		return Measure{}, err
	}
	curve, err := ToeCurve(c, g.Over, g.pick(curveTravel, curveRoll))
	if err != nil {
		return Measure{}, err
	}
	m := Measure{ToeChange: curve}
	for i, h := range curve.At {
		if v := math.Abs(curve.Toe[i] - g.Slope*h); v > m.Largest {
			m.Largest, m.At = v, h
		}
		if v := math.Abs(curve.Toe[i]); v > m.Change {
			m.Change, m.ChangeAt = v, h
		}
	}
	return m, nil
}

// outOfReach is the penalty, rad, of a corner that does not assemble over the
// whole range: more than any toe change. What is short adds to it, so that a
// search is drawn back into reach.
const outOfReach = 10.0

// penalty turns an error into a finite cost.
func (g *Goal) penalty(err error) float64 {
	var reach *kinematics.ReachError
	if errors.As(err, &reach) && reach.HasLimit {
		return outOfReach * (1 + math.Abs(reach.Travel-reach.Limit)/kinematics.MaxLength)
	}
	return 3 * outOfReach
}
