package bumpsteer

import (
	"errors"

	"armscribe/kinematics"
)

// FanCurve is the toe curve with the tie rod's ends moved.
type FanCurve struct {
	Moves map[Freedom]float64 // mm
	Curve Curve               // as far as it reaches
	// Err says why the curve ends early: an error matching
	// kinematics.ErrUnreachable or ErrGeometry; nil for a whole curve.
	Err error
}

// Fan returns one toe curve for each value, mm, by which one freedom is moved
// from its present place, the rod cut each time to keep the resting toe: what
// happens to the toe curve if the rack is moved. Zero among the values gives
// the present curve. A curve that does not reach over the whole range holds
// the places, in order, that it reaches. The error matches ErrRange.
func Fan(c kinematics.Corner, f Freedom, values []float64, g Goal) ([]FanCurve, error) {
	moves := make([]map[Freedom]float64, len(values))
	for i, v := range values {
		moves[i] = map[Freedom]float64{f: v}
	}
	return FanOf(c, moves, g)
}

// FanOf is Fan with several freedoms moved together in each curve.
func FanOf(c kinematics.Corner, moves []map[Freedom]float64, g Goal) ([]FanCurve, error) {
	if err := g.check(); err != nil {
		return nil, err
	}
	at := g.pick(polishTravel, polishRoll)
	fan := make([]FanCurve, len(moves))
	for i, list := range moves {
		moved := c
		for f := range FreedomCount {
			moved.Shift(f.Coordinate(), list[f])
		}
		fan[i] = FanCurve{Moves: list}
		fan[i].Curve, fan[i].Err = reached(moved, g.Over, at)
	}
	return fan, nil
}

// reached returns the places, in order, at which the corner assembles, and the
// error of the first that it does not.
func reached(c kinematics.Corner, over Over, at []float64) (Curve, error) {
	m, err := kinematics.New(&c)
	if err != nil {
		return Curve{}, err
	}
	var curve Curve
	var first error
	for _, h := range at {
		var toe [1]float64
		if err := toeChanges(&m, over, []float64{h}, toe[:]); err != nil {
			if !errors.Is(err, kinematics.ErrUnreachable) {
				return Curve{}, err
			}
			if first == nil {
				first = err
			}
			continue
		}
		curve.At, curve.Toe = append(curve.At, h), append(curve.Toe, toe[0])
	}
	return curve, first
}
