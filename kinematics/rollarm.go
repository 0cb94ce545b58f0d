package kinematics

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics/internal/peak"
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

// Upper arms that are named: from ShorterArm to LongerArm of the present length, and
// with camber at rest from LeastRestCamber to MostRestCamber, or up to what it is
// where that is beyond. Farther is another layout, or a camber that no builder sets.
// Common practice, no source.
const (
	ShorterArm      = 0.7
	LongerArm       = 1.4
	LeastRestCamber = -5 * math.Pi / 180
	MostRestCamber  = 2 * math.Pi / 180
)

// armSteps is how many arms are looked at each way.
const armSteps = 30

// armPlace is how closely the end of what is searched, and an arm that leaves the
// least, are placed, mm.
const armPlace = 1e-3

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

// ArmLimit says what ends the arms that are searched.
type ArmLimit uint8

// What ends them. ArmReach: a little farther the parts do not go together or do not
// reach the roll.
const (
	NoArmLimit ArmLimit = iota
	ArmShare
	RestCamber
	ArmReach
)

// RollArm is an upper arm for a roll angle.
type RollArm struct {
	Longer            float64 // mm, than the arm is; below zero: shorter
	Corner            Corner  // with it
	Left              float64 // what camber of the outer wheel still changes, rad: nought where an arm keeps it, else the least
	Found             bool
	Shortest, Longest float64  // mm, arms that were searched
	Limit             ArmLimit // what ends them where the arm is, if it does not keep the camber
}

// UpperArmForRoll returns the upper arm, changed at an end, with which the outer
// wheel has the same camber to the ground in roll as at rest: of several the one
// nearest to what is there, and where none does the one that leaves least, both of
// arms that can be built: ShorterArm to LongerArm, camber at rest as of
// LeastRestCamber, as far as they go together and reach the roll. Errors: those of
// New and of Roll for the corner as it is.
func UpperArmForRoll(c Corner, angle float64, end ArmEnd) (RollArm, error) {
	m, err := New(&c)
	if err != nil {
		return RollArm{}, err
	}
	now, err := m.OuterCamberInRoll(angle)
	if err != nil {
		return RollArm{}, fmt.Errorf("with the upper arm as it is: %w", err)
	}
	s := &armSearch{c: c, angle: angle, end: end, now: now}
	best := RollArm{Left: now}
	length := m.upper.radius
	for _, to := range [...]float64{(ShorterArm - 1) * length, (LongerArm - 1) * length} {
		side, last := s.side(to)
		if to < 0 {
			best.Shortest = length + last
		} else {
			best.Longest = length + last
		}
		nearer := math.Abs(side.Longer) < math.Abs(best.Longer)
		less := math.Abs(side.Left) < math.Abs(best.Left) || side.Longer == best.Longer && side.Limit != NoArmLimit
		if side.Found && (!best.Found || nearer) || !side.Found && !best.Found && less {
			best.Longer, best.Left, best.Found, best.Limit = side.Longer, side.Left, side.Found, side.Limit
		}
	}
	best.Corner, err = WithUpperArm(c, best.Longer, end)
	return best, err
}

// armSearch looks for an upper arm.
type armSearch struct {
	c     Corner
	angle float64
	end   ArmEnd
	now   float64 // left by the arm as it is
}

// left is what an arm leaves, or what is in its way.
func (s *armSearch) left(mm float64) (float64, ArmLimit) {
	with, err := WithUpperArm(s.c, mm, s.end)
	if err != nil {
		return 0, ArmReach
	}
	m, err := New(&with)
	if err != nil {
		return 0, ArmReach
	}
	if with.Camber < min(LeastRestCamber, s.c.Camber) || with.Camber > max(MostRestCamber, s.c.Camber) {
		return 0, RestCamber
	}
	by, err := m.OuterCamberInRoll(s.angle)
	if err != nil {
		return 0, ArmReach
	}
	return by, NoArmLimit
}

// side returns the best of the arms up to one that is longer by mm, and by how much
// the last that can be built is longer.
func (s *armSearch) side(to float64) (best RollArm, last float64) {
	longer, left := []float64{0}, []float64{s.now}
	limit := ArmShare
	for i := 1; i <= armSteps && limit == ArmShare; i++ {
		next := to * float64(i) / armSteps
		by, wrong := s.left(next)
		if wrong != NoArmLimit {
			limit = wrong
			if next, by = s.edge(last, next); next == last {
				break
			}
		}
		longer, left, last = append(longer, next), append(left, by), next
	}
	least := 0
	for i, by := range left {
		if i > 0 && by*left[i-1] <= 0 {
			return s.zero(longer[i-1], longer[i]), last
		}
		if math.Abs(by) < math.Abs(left[least]) {
			least = i
		}
	}
	// Between the arms looked at one may leave less, or nothing.
	before, after := longer[max(least-1, 0)], longer[min(least+1, len(longer)-1)]
	at, most := peak.About(s.spared, min(before, after), longer[least], max(before, after), -math.Abs(left[least]), armPlace)
	if most >= 0 {
		return s.zero(before, at), last
	}
	best = RollArm{Longer: at, Left: math.Copysign(most, s.now)}
	if at == last {
		best.Limit = limit
	}
	return best, last
}

// spared is what an arm leaves with the sign turned, so that the least is the largest:
// above zero past an arm that leaves nothing.
func (s *armSearch) spared(mm float64) float64 {
	by, wrong := s.left(mm)
	if wrong != NoArmLimit {
		return math.Inf(-1)
	}
	return -math.Copysign(by, by*s.now)
}

// edge is the farthest arm that can be built between one that can and one that
// cannot, and what it leaves.
func (s *armSearch) edge(can, cannot float64) (at, left float64) {
	for math.Abs(cannot-can) > armPlace {
		mid := (can + cannot) / 2
		if by, wrong := s.left(mid); wrong == NoArmLimit {
			can, left = mid, by
		} else {
			cannot = mid
		}
	}
	return can, left
}

// zero is the arm that leaves nothing between two with opposite signs.
func (s *armSearch) zero(a, b float64) RollArm {
	return RollArm{Longer: root(func(x float64) float64 { by, _ := s.left(x); return by }, a, b, armTolerance), Found: true}
}
