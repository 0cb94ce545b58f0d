package bumpsteer

import (
	"math"
	"math/rand/v2"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// The moves in words, over corners drawn at random: each takes its part of the
// curve away, and its band holds the move that the corner without measuring
// errors needs.
func TestMovesInWordsHoldTheTruth(t *testing.T) {
	const seed = 20260
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 7))
	var raise, shift, slope, bow struct{ held, of int }
	count := func(n *struct{ held, of int }, b, truth Banded) {
		n.of++
		if math.Abs(b.Value-truth.Value) <= b.Half {
			n.held++
		}
	}
	for n := range checkcorner.Trials(t, 400, 1000) {
		measured := checkcorner.Random(r)
		within := 0.2 + 1.3*r.Float64()
		d, err := Diagnose(measured, kinematics.Evenly(within), -50, 60)
		if err != nil {
			continue
		}
		truth, err := Diagnose(checkcorner.MeasuredWrong(r, measured, within), kinematics.Evenly(within), -50, 60)
		if err != nil {
			continue
		}
		count(&slope, d.Slope, truth.Slope)
		count(&bow, d.Bow, truth.Bow)
		if d.CanRaise && truth.CanRaise {
			count(&raise, d.Raise, truth.Raise)
			moved := measured
			moved.Shift(OuterEndHeight.Coordinate(), d.Raise.Value)
			if p, err := split(moved, -50, 60); err != nil || math.Abs(p.slope) > 1e-12 {
				t.Errorf("corner %d: raised by %g the slope is %g, %v", n, d.Raise.Value, p.slope, err)
			}
		}
		if d.CanShift && truth.CanShift && d.Bow.Decided() {
			count(&shift, d.Shift, truth.Shift)
			moved := measured
			moved.Shift(RackEndSide.Coordinate(), d.Shift.Value)
			if p, err := split(moved, -50, 60); err != nil || math.Abs(p.bow) > 1e-14 {
				t.Errorf("corner %d: shifted by %g the bow is %g, %v", n, d.Shift.Value, p.bow, err)
			}
		}
	}
	checkcorner.Covered(t, "slope", slope.held, slope.of)
	checkcorner.Covered(t, "bow", bow.held, bow.of)
	checkcorner.Covered(t, "raise", raise.held, raise.of)
	checkcorner.Covered(t, "shift", shift.held, shift.of)
}
