package report

import (
	"errors"
	"fmt"
	"math"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// Over names what a sweep moves.
type Over uint8

// A sweep moves the wheel, the rack, or the body in roll.
const (
	OverTravel Over = iota
	OverRack
	OverRoll
)

// Defaults of a sweep. The rest of the range comes from the job.
const (
	DefaultRoll     = 4 * math.Pi / 180   // rad, either way
	DefaultRollStep = 0.5 * math.Pi / 180 // rad
	// MaxRows bounds what one sweep prints: a hundredth of a mm over a metre.
	MaxRows = 100_000
)

// DefaultStep is the step of a sweep over travel or rack that is round in a unit, mm.
func DefaultStep(u units.Unit) float64 {
	if u == units.Inch {
		return 25.4 / 4
	}
	return 5
}

// Spec says what a sweep moves and what it holds: mm, and radians of roll.
type Spec struct {
	Over         Over
	From, To     float64
	Step         float64 // above zero
	Travel, Rack float64 // held; travel only over the rack
}

// ErrSpec: a sweep was asked for that makes no sense, whatever the job.
var ErrSpec = errors.New("no such sweep")

// Check reports what is wrong with the numbers of a sweep; errors match ErrSpec.
func (sp *Spec) Check() error {
	switch {
	case !(sp.Step > 0):
		return fmt.Errorf("%w: the step must be above zero", ErrSpec)
	case sp.count()*sp.sides() > MaxRows:
		return fmt.Errorf("%w: it would print more than %d rows; make the step larger or the range shorter", ErrSpec, MaxRows)
	}
	return nil
}

func (sp *Spec) sides() float64 {
	if sp.Over == OverRoll {
		return 2
	}
	return 1
}

// wholeSlack is the share of a step by which rounding may keep a range from
// being a whole number of steps: 0.3 / 0.1 is not 3 in binary.
const wholeSlack = 1e-9

// count is how many positions the sweep has.
func (sp *Spec) count() float64 {
	return math.Ceil(math.Abs(sp.To-sp.From)/sp.Step-wholeSlack) + 1
}

// positions lists the places of a checked sweep: From, whole steps toward To,
// and To itself. Where the range is not a whole number of steps the last step
// is shorter. From may lie above To; the sweep then runs downward.
func (sp *Spec) positions() []float64 {
	n := int(sp.count())
	list := make([]float64, n)
	step := math.Copysign(sp.Step, sp.To-sp.From)
	for i := range list {
		list[i] = sp.From + float64(i)*step
		if math.Abs(list[i]) < wholeSlack*sp.Step {
			list[i] = 0 // what rounding leaves of nought is nought
		}
	}
	list[n-1] = sp.To
	return list
}

// Row is one line of a sweep.
type Row struct {
	Side     string // left or right
	Readings kinematics.Readings
	// bands over roll are those of the same wheel travel without roll.
	bands kinematics.Bands
}

// Sweep is a solved sweep.
type Sweep struct {
	Source Source
	Spec   Spec
	Rows   []Row
}

// SweepOf solves a sweep. It is whole or not at all: where a position is out
// of reach the error names link, amount and place, and the range in reach, and
// matches kinematics.ErrUnreachable. An error of the spec matches ErrSpec.
func SweepOf(s Source, sp Spec) (*Sweep, error) {
	if err := sp.Check(); err != nil {
		return nil, err
	}
	m, err := s.Mechanism()
	if err != nil {
		return nil, err
	}
	sweep := &Sweep{Source: s, Spec: sp}
	switch sp.Over {
	case OverTravel:
		err = sweep.overTravel(m)
	case OverRack:
		err = sweep.overRack(m)
	case OverRoll:
		err = sweep.overRoll(m)
	default:
		panic(fmt.Sprintf("report: no sweep %d", sp.Over))
	}
	if err == nil {
		err = sweep.measure()
	}
	if err != nil {
		return nil, err
	}
	return sweep, nil
}

func (w *Sweep) overTravel(m *kinematics.Mechanism) error {
	at := w.Spec.positions()
	r := make([]kinematics.Readings, len(at))
	if _, err := m.SweepTravel(r, at, w.Spec.Rack); err != nil {
		return w.Source.explain(err, w.Spec.Rack)
	}
	for i := range r {
		w.Rows = append(w.Rows, Row{Side: "left", Readings: r[i]})
	}
	return nil
}

func (w *Sweep) overRack(m *kinematics.Mechanism) error {
	at := w.Spec.positions()
	r := make([]kinematics.Readings, len(at))
	if _, err := m.SweepRack(r, w.Spec.Travel, at); err != nil {
		return w.beyond(err, at, func(x float64) string { return units.Place(x, w.Source.Unit) + " of rack" }, func(x float64) error {
			_, err := m.At(w.Spec.Travel, x)
			return err
		})
	}
	for i := range r {
		w.Rows = append(w.Rows, Row{Side: "left", Readings: r[i]})
	}
	return nil
}

// overRoll writes both wheels of each angle. Travel is each wheel's own,
// relative to the body.
func (w *Sweep) overRoll(m *kinematics.Mechanism) error {
	at := w.Spec.positions()
	for _, angle := range at {
		ax, err := m.Roll(angle, w.Spec.Rack)
		if err != nil {
			return w.beyond(err, at, func(x float64) string { return units.Signed(units.Trimmed(degrees(x), 2)) + " deg of roll" }, func(x float64) error {
				_, err := m.Roll(x, w.Spec.Rack)
				return err
			})
		}
		l, r := ax.Readings()
		l.Travel, r.Travel = ax.Left.Travel, ax.Right.Travel
		w.Rows = append(w.Rows, Row{Side: "left", Readings: l}, Row{Side: "right", Readings: r})
	}
	return nil
}

// reachSteps halve the way from rest to a position out of reach, to a
// millionth of it.
const reachSteps = 20

// beyond adds to an error of reach how far the sweep could go.
func (w *Sweep) beyond(err error, at []float64, words func(float64) string, solve func(float64) error) error {
	if solve(0) != nil {
		return w.Source.Named(err)
	}
	end := func(x float64) float64 {
		if solve(x) == nil {
			return x
		}
		good, bad := 0.0, x
		for range reachSteps {
			mid := good + (bad-good)/2
			if solve(mid) == nil {
				good = mid
			} else {
				bad = mid
			}
		}
		return good
	}
	lo, hi := end(min(at[0], at[len(at)-1])), end(max(at[0], at[len(at)-1]))
	return w.Source.Named(fmt.Errorf("%w; the sweep is in reach from %s to %s", err, words(lo), words(hi)))
}

// measure finds the bands.
func (w *Sweep) measure() error {
	m, err := w.Source.Mechanism()
	if err != nil {
		return err
	}
	for i := range w.Rows {
		r := &w.Rows[i]
		travel, rack := r.Readings.Travel, r.Readings.Rack
		if r.Side == "right" {
			rack = -rack
		}
		if r.bands, err = m.Bands(w.Source.Within, travel, rack); err != nil {
			return w.Source.Named(err)
		}
	}
	return nil
}
