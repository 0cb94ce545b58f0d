package bumpsteer

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// Leg names a member whose length can be adjusted.
type Leg uint8

// The legs. An arm with one front-view pivot has its front leg only, which is
// the whole arm.
const (
	UpperFrontLeg Leg = iota
	UpperRearLeg
	LowerFrontLeg
	LowerRearLeg
	TieRodLeg
	LegCount
)

var legNames = [LegCount]string{"upper arm front leg", "upper arm rear leg", "lower arm front leg", "lower arm rear leg", "tie rod"}

// String returns the leg in the trade's words.
func (l Leg) String() string {
	if l >= LegCount {
		panic(fmt.Sprintf("kinematics: no leg %d", l))
	}
	return legNames[l]
}

// Change is what an adjustment does to the parts of a corner.
type Change struct {
	Longer [LegCount]float64 // mm by which each leg grows, pivot to ball joint or rack end to outer end
	// Moved shifts points that are fixed to the body, mm, by kinematics.Point:
	// the arms' pivots and the rack end.
	Moved [kinematics.RackEnd + 1]kinematics.Vec
}

// times scales a change.
func (ch Change) times(f float64) Change {
	for i := range ch.Longer {
		ch.Longer[i] *= f
	}
	for i := range ch.Moved {
		ch.Moved[i] = r3.Scale(f, ch.Moved[i])
	}
	return ch
}

func (ch Change) plus(other Change) Change {
	for i := range ch.Longer {
		ch.Longer[i] += other.Longer[i]
	}
	for i := range ch.Moved {
		ch.Moved[i] = r3.Add(ch.Moved[i], other.Moved[i])
	}
	return ch
}

// size is the largest length in a change, mm.
func (ch Change) size() float64 {
	v := 0.0
	for _, x := range ch.Longer {
		v = max(v, math.Abs(x))
	}
	for _, x := range ch.Moved {
		v = max(v, r3.Norm(x))
	}
	return v
}

// Sizes of the reassembly.
const (
	// flatSpread sets two pivots on the axis of an arm that has one front-view
	// pivot, this far either way from its ball joint, mm; their legs keep the
	// arm square to the axis.
	flatSpread = 100.0
	// heightTolerance: how closely the wheel centre is brought to its height, mm.
	heightTolerance = 1e-10
	heightSteps     = 60
	firstTurn       = 1e-3 // rad of lower arm, the secant's first step
)

// Reassemble returns the corner in its resting position after a change of its
// parts: bolted together again with the wheel centre at the height it had
// relative to the body, so that the ride height at the wheel centre holds. (The
// floor under the tyre then moves by the loaded radius times the change of the
// cosine of camber: 0.4 mm for the first 3 degrees.) The upright, its hub face
// and its steering arm are as before, the rack is where it was, and whatever
// is not in the change keeps its length; camber and toe at rest follow. The
// wheel centre moves in x and y, and x = 0 stays where it was on the body.
//
// The lower ball joint's circle is where the spheres of both lower legs meet;
// upper ball joint and outer end are each the meeting of three spheres, on the
// side where they were. Errors are those of kinematics.New, and an error
// matching kinematics.ErrUnreachable where the changed parts do not meet. A
// change of a leg that the arm does not have is a caller's bug.
func Reassemble(c kinematics.Corner, ch Change) (kinematics.Corner, error) {
	if _, err := kinematics.New(&c); err != nil {
		return kinematics.Corner{}, err
	}
	a := assembly{old: c, upright: r3.Norm(r3.Sub(c.Upper.Ball, c.Lower.Ball)),
		outerLow: r3.Norm(r3.Sub(c.TieRod.OuterEnd, c.Lower.Ball)), outerUp: r3.Norm(r3.Sub(c.TieRod.OuterEnd, c.Upper.Ball)),
		rod: rodLength(&c) + ch.Longer[TieRodLeg], rack: r3.Add(c.TieRod.RackEnd, ch.Moved[kinematics.RackEnd])}
	a.upper = legsOf(&c.Upper, ch.Moved[kinematics.UpperFront], ch.Moved[kinematics.UpperRear],
		ch.Longer[UpperFrontLeg], ch.Longer[UpperRearLeg])
	a.lower = legsOf(&c.Lower, ch.Moved[kinematics.LowerFront], ch.Moved[kinematics.LowerRear],
		ch.Longer[LowerFrontLeg], ch.Longer[LowerRearLeg])
	old := legsOf(&c.Upper, kinematics.Vec{}, kinematics.Vec{}, 0, 0)
	a.upperSide = sideOf(c.Upper.Ball, old.front, old.rear, c.Lower.Ball)
	a.outerSide = sideOf(c.TieRod.OuterEnd, c.Lower.Ball, c.Upper.Ball, c.TieRod.RackEnd)
	if err := a.level(); err != nil {
		return kinematics.Corner{}, err
	}
	next := a.corner(ch)
	if _, err := kinematics.New(&next); err != nil {
		return kinematics.Corner{}, err
	}
	return next, nil
}

// legs are the two pivots of an arm and the lengths from them to its ball joint.
type legs struct {
	front, rear             kinematics.Vec
	frontLength, rearLength float64
}

func legsOf(arm *kinematics.Arm, front, rear kinematics.Vec, frontLonger, rearLonger float64) legs {
	if !arm.Flat {
		return legs{r3.Add(arm.Front, front), r3.Add(arm.Rear, rear),
			r3.Norm(r3.Sub(arm.Ball, arm.Front)) + frontLonger, r3.Norm(r3.Sub(arm.Ball, arm.Rear)) + rearLonger}
	}
	if rearLonger != 0 || rear != (kinematics.Vec{}) {
		panic("kinematics: an arm with one front-view pivot has no rear leg")
	}
	at := r3.Add(kinematics.Vec{X: arm.Ball.X, Y: arm.Front.Y, Z: arm.Front.Z}, front)
	radius := math.Hypot(arm.Ball.Y-arm.Front.Y, arm.Ball.Z-arm.Front.Z) + frontLonger
	leg := math.Hypot(radius, flatSpread)
	spread := kinematics.Vec{X: flatSpread}
	return legs{r3.Add(at, spread), r3.Sub(at, spread), leg, leg}
}

// assembly is a corner being put together.
type assembly struct {
	old                        kinematics.Corner
	upper, lower               legs
	upright, outerLow, outerUp float64
	rod                        float64
	rack                       kinematics.Vec
	upperSide, outerSide       float64

	lowerBall, upperBall, outerEnd kinematics.Vec
	hub, spin                      kinematics.Vec
}

// level turns the lower arm until the wheel centre has its old height: secant
// steps, halved where a link does not reach.
func (a *assembly) level() error {
	circle, err := a.lowerCircle()
	if err != nil {
		return err
	}
	want := a.wheelCentre(a.old.Hub, spinAxis(a.old.Camber, a.old.Toe)).Z
	miss := func(t float64) (float64, error) {
		if err := a.put(circle.at(t)); err != nil {
			return 0, err
		}
		return a.wheelCentre(a.hub, a.spin).Z - want, nil
	}
	t0 := 0.0
	h0, err := miss(t0)
	if err != nil {
		return err
	}
	t1 := firstTurn
	for range heightSteps {
		h1, err := miss(t1)
		if err != nil {
			t1 = t0 + (t1-t0)/2
			continue
		}
		if math.Abs(h1) <= heightTolerance {
			return nil
		}
		if h1 == h0 {
			break
		}
		next := t1 - h1*(t1-t0)/(h1-h0)
		t0, h0, t1 = t1, h1, next
	}
	return fmt.Errorf("with the adjusted lengths the wheel does not come to its height: %w", kinematics.ErrUnreachable)
}

// turning is the path of the lower ball joint; zero is the direction in which it was.
type turning struct{ centre, zero, quarter kinematics.Vec }

func (c *turning) at(t float64) kinematics.Vec {
	return r3.Add(c.centre, r3.Add(r3.Scale(math.Cos(t), c.zero), r3.Scale(math.Sin(t), c.quarter)))
}

func (a *assembly) lowerCircle() (turning, error) {
	span := r3.Sub(a.lower.front, a.lower.rear)
	d := r3.Norm(span)
	if d < kinematics.MinSpan {
		return turning{}, fmt.Errorf("both lower pivots come to one place: %w", kinematics.ErrUnreachable)
	}
	axis := r3.Scale(1/d, span)
	along := (a.lower.rearLength*a.lower.rearLength - a.lower.frontLength*a.lower.frontLength + d*d) / (2 * d)
	square := a.lower.rearLength*a.lower.rearLength - along*along
	centre := r3.Add(a.lower.rear, r3.Scale(along, axis))
	out := r3.Sub(a.old.Lower.Ball, centre)
	out = r3.Sub(out, r3.Scale(r3.Dot(out, axis), axis))
	if square < kinematics.MinSpan*kinematics.MinSpan || r3.Norm(out) < kinematics.MinSpan {
		return turning{}, fmt.Errorf("the lower arm's legs do not meet: %w", kinematics.ErrUnreachable)
	}
	zero := r3.Scale(math.Sqrt(square)/r3.Norm(out), out)
	return turning{centre, zero, r3.Cross(axis, zero)}, nil
}

// put assembles everything above a lower ball joint.
func (a *assembly) put(lowerBall kinematics.Vec) error {
	a.lowerBall = lowerBall
	var ok bool
	a.upperBall, ok = threeSpheres(a.upper.front, a.upper.frontLength, a.upper.rear, a.upper.rearLength, lowerBall, a.upright, a.upperSide)
	if !ok {
		return fmt.Errorf("upper arm and upright do not meet: %w", kinematics.ErrUnreachable)
	}
	a.outerEnd, ok = threeSpheres(lowerBall, a.outerLow, a.upperBall, a.outerUp, a.rack, a.rod, a.outerSide)
	if !ok {
		return fmt.Errorf("tie rod and steering arm do not meet: %w", kinematics.ErrUnreachable)
	}
	was, is := uprightAxes(a.old.Lower.Ball, a.old.Upper.Ball, a.old.TieRod.OuterEnd), uprightAxes(a.lowerBall, a.upperBall, a.outerEnd)
	a.hub = r3.Add(a.lowerBall, is.space(was.local(r3.Sub(a.old.Hub, a.old.Lower.Ball))))
	a.spin = is.space(was.local(spinAxis(a.old.Camber, a.old.Toe)))
	return nil
}

func (a *assembly) wheelCentre(hub, spin kinematics.Vec) kinematics.Vec {
	return r3.Add(hub, r3.Scale(a.old.Wheel.Spacer-a.old.Wheel.Offset, spin))
}

// corner returns the assembled corner at rest.
func (a *assembly) corner(ch Change) kinematics.Corner {
	c := a.old
	for p, by := range ch.Moved {
		if kinematics.Point(p).OnBody() && c.Has(kinematics.Point(p)) {
			at := c.At(kinematics.Point(p))
			*at = r3.Add(*at, by)
		}
	}
	c.Lower.Ball, c.Upper.Ball, c.TieRod.OuterEnd = a.lowerBall, a.upperBall, a.outerEnd
	c.Hub = a.hub
	c.Camber, c.Toe = -math.Asin(max(-1, min(1, a.spin.Z))), math.Atan2(a.spin.X, a.spin.Y)
	carry := func(was, is axes, from, to kinematics.Vec) {
		c.Spring.Moving = r3.Add(to, is.space(was.local(r3.Sub(a.old.Spring.Moving, from))))
	}
	switch c.Spring.Carrier {
	case kinematics.OnUpright:
		carry(uprightAxes(a.old.Lower.Ball, a.old.Upper.Ball, a.old.TieRod.OuterEnd),
			uprightAxes(a.lowerBall, a.upperBall, a.outerEnd), a.old.Lower.Ball, a.lowerBall)
	case kinematics.OnLowerArm:
		was := legsOf(&a.old.Lower, kinematics.Vec{}, kinematics.Vec{}, 0, 0)
		carry(uprightAxes(was.rear, was.front, a.old.Lower.Ball), uprightAxes(a.lower.rear, a.lower.front, a.lowerBall), was.rear, a.lower.rear)
	case kinematics.OnUpperArm:
		was := legsOf(&a.old.Upper, kinematics.Vec{}, kinematics.Vec{}, 0, 0)
		carry(uprightAxes(was.rear, was.front, a.old.Upper.Ball), uprightAxes(a.upper.rear, a.upper.front, a.upperBall), was.rear, a.upper.rear)
	}
	return c
}
