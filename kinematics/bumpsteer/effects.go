package bumpsteer

import (
	"fmt"
	"math"

	"armscribe/kinematics"
)

// Adjusted lists the quantities of the adjuster table, in its order.
var adjusted = [...]kinematics.Quantity{
	kinematics.Camber, kinematics.Caster, kinematics.Toe, kinematics.ScrubRadius,
	kinematics.HalfTrack, kinematics.RollCentreHeight, kinematics.RideToe,
}

// Adjusted returns the quantities of the adjuster table, in its order.
func Adjusted() []kinematics.Quantity { return append([]kinematics.Quantity(nil), adjusted[:]...) }

// Effect is what one unit of an adjuster does at rest, the ride height held as
// of kinematics.Reassemble: a derivative, in the quantity's own unit for each turn or mm.
type Effect struct {
	values [kinematics.QuantityCount]float64
	known  [kinematics.QuantityCount]bool
}

// Of returns the effect on a quantity; false for those that are not in the
// table and where the quantity does not exist (the roll centre of some corners).
func (e *Effect) Of(q kinematics.Quantity) (perUnit float64, ok bool) {
	return e.values[q], e.known[q]
}

// effectStep is the largest change of any part by which effects are measured, mm.
const effectStep = 0.02

// Effects returns the table: one Effect for each adjuster, by central
// differences on the exact mechanism. Errors match ErrAdjuster or are those of
// kinematics.Reassemble.
func Effects(c kinematics.Corner, adjusters []Adjuster) ([]Effect, error) {
	if err := checkAdjusters(&c, adjusters); err != nil {
		return nil, err
	}
	table := make([]Effect, len(adjusters))
	for i, a := range adjusters {
		units := effectStep / a.Per.Size()
		up, err := restOf(c, a.Per.Times(units))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", a.Name, err)
		}
		down, err := restOf(c, a.Per.Times(-units))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", a.Name, err)
		}
		for _, q := range adjusted {
			u, ok := up.Of(q)
			d, ok2 := down.Of(q)
			if ok && ok2 {
				table[i].values[q], table[i].known[q] = (u-d)/(2*units), true
			}
		}
	}
	return table, nil
}

// restOf returns the readings at rest after a change.
func restOf(c kinematics.Corner, ch kinematics.Change) (kinematics.Readings, error) {
	n, err := kinematics.Reassemble(c, ch)
	if err != nil {
		return kinematics.Readings{}, err
	}
	m, err := kinematics.New(&n)
	if err != nil {
		return kinematics.Readings{}, err
	}
	p, err := m.At(0, 0)
	if err != nil {
		return kinematics.Readings{}, err
	}
	return p.Readings(), nil
}

// Job is an adjuster together with what it is meant to set.
type Job struct {
	Effect Effect
	Sets   kinematics.Quantity
}

// mostOrdered adjusters are ordered by trying every order.
const mostOrdered = 8

// Order returns the order in which to set adjusters, as indices into jobs, so
// that what is set later disturbs least what was set before; ties keep the
// order given. disturbance is what is left, summed over all pairs: by how much
// the later adjuster, in setting its own quantity by one rad or mm, moves the
// quantity of the earlier. Quantities of different kinds are compared as 1 mrad
// to 1 mm, and slopes by their angle over 50 mm of travel.
//
// With the usual adjusters the answer is caster, camber, toe: a rod end of one
// arm leg moves caster and camber both, shims under both pivots move camber and
// hardly caster, and the tie rod moves toe alone. More than eight jobs, and an
// adjuster that does not move what it is meant to set, match ErrAdjuster.
func Order(jobs []Job) (order []int, disturbance float64, err error) {
	n := len(jobs)
	if n > mostOrdered {
		return nil, 0, fmt.Errorf("%d adjusters to put in order, at most %d: %w", n, mostOrdered, ErrAdjuster)
	}
	spoils := make([][]float64, n) // spoils[later][earlier]
	for j, later := range jobs {
		own, ok := later.Effect.Of(later.Sets)
		if !ok || math.Abs(own) < idle {
			return nil, 0, fmt.Errorf("adjuster %d does not move %s: %w", j+1, later.Sets, ErrAdjuster)
		}
		spoils[j] = make([]float64, n)
		for i, earlier := range jobs {
			if i == j {
				continue
			}
			cross, _ := later.Effect.Of(earlier.Sets)
			spoils[j][i] = math.Abs(cross*weight(earlier.Sets)) / math.Abs(own*weight(later.Sets))
		}
	}
	trial, used := make([]int, 0, n), make([]bool, n)
	best := math.Inf(1)
	var extend func(sum float64)
	extend = func(sum float64) {
		if sum >= best-sameDisturbance {
			return
		}
		if len(trial) == n {
			best, order = sum, append([]int(nil), trial...)
			return
		}
		for j := range n {
			if used[j] {
				continue
			}
			more := 0.0
			for _, i := range trial {
				more += spoils[j][i]
			}
			used[j], trial = true, append(trial, j)
			extend(sum + more)
			used[j], trial = false, trial[:len(trial)-1]
		}
	}
	extend(0)
	return order, best, nil
}

const (
	// idle is the effect per unit, rad or mm, that counts as none.
	idle = 1e-9
	// sameDisturbance, rad for each rad: no one sees the difference.
	sameDisturbance = 1e-9
)

// weight makes other kinds comparable with angles: a mm counts as a mrad, and a
// slope as its angle over slopeTravel.
func weight(q kinematics.Quantity) float64 {
	switch q.Kind() {
	case kinematics.Length:
		return 1e-3
	case kinematics.Slope:
		return slopeTravel
	}
	return 1
}

// slopeTravel, mm, is about what a car uses each way.
const slopeTravel = 50.0
