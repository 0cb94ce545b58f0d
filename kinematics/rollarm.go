package kinematics

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// ArmEnd is the end at which an arm's length is changed.
type ArmEnd uint8

// The ends. AtPivot moves the pivot axis on the body, square to itself in the
// plane of the arm: the upright, camber at rest and the instant centre stay.
// AtBall makes another arm on the same pivots: the corner is put together again
// as of Reassemble with the rod cut for the toe, and camber at rest follows.
const (
	AtPivot ArmEnd = iota
	AtBall
)

// Bounds of the search for an arm, as shares of its length.
const (
	shortestArm = 0.25
	longestArm  = 2.5
	armSteps    = 90 // of the search
)

// Shares of an arm's length within which one is named that does not keep the camber:
// what goes farther is another layout. Choices of the program's, no source.
const (
	ShorterArm = 0.7
	LongerArm  = 1.4
)

// armSlack is a rounding of a share of an arm's length.
const armSlack = 1e-9

// armTolerance: how closely camber in roll is brought to that at rest, rad.
const armTolerance = 1e-11

// WithUpperArm returns the corner with its upper arm longer by mm at an end.
// Errors are those of New and Reassemble.
func WithUpperArm(c Corner, mm float64, end ArmEnd) (Corner, error) {
	if end == AtBall {
		return Reassemble(c, Change{Upper: mm, CutRod: true})
	}
	m, err := New(&c)
	if err != nil {
		return c, err
	}
	if m.upper.radius+mm < MinSpan {
		return c, &AssemblyError{Link: UpperArm, Short: MinSpan - m.upper.radius - mm}
	}
	in := r3.Scale(mm/m.upper.radius, r3.Sub(m.upper.centre, c.Upper.Ball))
	c.Upper.Front = r3.Add(c.Upper.Front, in)
	if !c.Upper.Flat {
		c.Upper.Rear = r3.Add(c.Upper.Rear, in)
	}
	_, err = New(&c)
	return c, err
}

// OuterCamberInRoll returns by how much camber to the ground of the outer wheel
// changes from rest to a roll angle, rad, the rack in the middle: above zero
// where the top leans outboard. Which way the body rolls does not matter. Errors
// are those of Roll.
func (m *Mechanism) OuterCamberInRoll(angle float64) (float64, error) {
	ax, err := m.Roll(math.Abs(angle), 0) // the left side up: the right wheel is outer
	if err != nil {
		return 0, err
	}
	return -math.Asin(max(-1, min(1, ax.Right.Spin.Z))) - m.corner.Camber, nil
}

// RollArm is an upper arm for a roll angle.
type RollArm struct {
	Longer float64 // mm, than the arm is; below zero: shorter
	Corner Corner  // with it
	// Left is what camber of the outer wheel still changes, rad: nought where an
	// arm keeps it, and else the least of arms from ShorterArm to LongerArm of the
	// present length.
	Left  float64
	Found bool
}

// UpperArmForRoll returns the upper arm, changed at an end, with which the outer
// wheel has the same camber to the ground in roll as at rest: of several the one
// nearest to what is there. Arms from a quarter of the present length to two and
// a half times are looked at, as far as they go together and reach the roll.
// Errors: those of New and of Roll for the corner as it is.
func UpperArmForRoll(c Corner, angle float64, end ArmEnd) (RollArm, error) {
	m, err := New(&c)
	if err != nil {
		return RollArm{}, err
	}
	now, err := m.OuterCamberInRoll(angle)
	if err != nil {
		return RollArm{}, fmt.Errorf("with the upper arm as it is: %w", err)
	}
	left := func(mm float64) (float64, bool) {
		with, err := WithUpperArm(c, mm, end)
		if err != nil {
			return 0, false
		}
		m, err := New(&with)
		if err != nil {
			return 0, false
		}
		by, err := m.OuterCamberInRoll(angle)
		return by, err == nil
	}
	best := RollArm{Corner: c, Left: now}
	for _, to := range [...]float64{(shortestArm - 1) * m.upper.radius, (longestArm - 1) * m.upper.radius} {
		at, was := 0.0, now
		for i := 1; i <= armSteps; i++ {
			next := to * float64(i) / armSteps
			by, ok := left(next)
			if !ok {
				break
			}
			length := 1 + next/m.upper.radius
			if math.Abs(by) < math.Abs(best.Left) && !best.Found && length >= ShorterArm-armSlack && length <= LongerArm+armSlack {
				best.Longer, best.Left = next, by
			}
			if by*was <= 0 {
				zero := root(func(x float64) float64 { y, _ := left(x); return y }, at, next, armTolerance)
				if y, ok := left(zero); ok && math.Abs(y) <= 1e-8 && (!best.Found || math.Abs(zero) < math.Abs(best.Longer)) {
					best.Longer, best.Left, best.Found = zero, 0, true
				}
				break
			}
			at, was = next, by
		}
	}
	best.Corner, err = WithUpperArm(c, best.Longer, end)
	return best, err
}
