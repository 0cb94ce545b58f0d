package kinematics

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the reassembly.
const (
	// heightTolerance: how closely the ride height is met, mm.
	heightTolerance = 1e-10
	// heightReach is how far the lower arm is turned to find it, rad.
	heightReach = math.Pi / 2
)

// AssemblyError says that changed parts do not go together with the car at its
// ride height, which link keeps them apart, and by how much. It matches
// ErrUnreachable.
type AssemblyError struct {
	Link    Link
	Short   float64 // mm the link lacks (or has too much, when TooLong), about
	TooLong bool
}

// Error names link and amount in one line.
func (e *AssemblyError) Error() string { return e.Say(amountInMM, placeInMM) }

// Say is Error with amounts printed in another unit; it names no place.
func (e *AssemblyError) Say(amount, _ func(mm float64) string) string {
	what := "short"
	if e.Short == 0 {
		return fmt.Sprintf("%s: no length of it holds the toe at rest with these parts", e.Link)
	}
	if e.TooLong {
		what = "too long"
	}
	return fmt.Sprintf("%s is %s %s: with these parts the corner does not go together at its ride height", e.Link, amount(e.Short), what)
}

// Is makes errors.Is(err, ErrUnreachable) true.
func (e *AssemblyError) Is(target error) bool { return target == ErrUnreachable }

// Reassemble returns the corner in its resting position after a change of its
// parts: bolted together again with the body at the height above the ground
// that it had, as a car has that is set on its springs to its ride height. The
// upright, its hub face and its steering arm are as before, the rack is where
// it was, and whatever is not in the change keeps its length. Camber at rest
// follows, and toe where the rod is not cut anew. The wheel centre moves in x
// and y, and with camber a little in z; x = 0 stays where it was on the body.
// A spring's end that an arm carries stays where it was on the arm, from its
// pivots.
//
// The same circles and spheres meet, on the same sides, as of Mechanism. Errors
// are those of New, and an *AssemblyError where the changed parts do not meet. A
// change of a leg or pivot that the arm does not have is a caller's bug.
func Reassemble(c Corner, ch Change) (Corner, error) {
	m, err := New(&c)
	if err != nil || ch == (Change{}) || ch == (Change{CutRod: true}) {
		return c, err
	}
	a := assembly{m: m, change: &ch, old: c}
	a.m.assemble(0, 1, 0, &a.pose)
	a.steering = a.pose.upright.b
	a.pose.touchRest(&m)
	a.ground = a.pose.Contact.Z
	if err := a.parts(); err != nil {
		return Corner{}, err
	}
	if err := a.level(); err != nil {
		return Corner{}, err
	}
	next := a.corner()
	if _, err := New(&next); err != nil {
		return Corner{}, err
	}
	return next, nil
}

// touchRest completes an assembled pose as far as the ground needs it.
func (p *Pose) touchRest(m *Mechanism) {
	p.Spin = p.upright.space(m.spin)
	p.touchGround(m.corner.Wheel.LoadedRadius)
}

// assembly is a corner being put together: the mechanism with the changed parts,
// whose drive angle counts from where the lower ball joint was.
type assembly struct {
	m        Mechanism
	old      Corner
	change   *Change
	steering Vec     // from the steering axis to the outer end as it was, unit
	ground   float64 // height of the contact centre, to be met
	pose     Pose    // as last put together
}

// parts gives the mechanism its changed arms and rod.
func (a *assembly) parts() error {
	m, ch := &a.m, a.change
	var err error
	if m.lower, err = changedPath(&a.old.Lower, LowerArm, m.lower.radius, ch.Lower,
		ch.Longer[LowerFrontLeg], ch.Longer[LowerRearLeg], ch.Moved[LowerFront], ch.Moved[LowerRear]); err != nil {
		return err
	}
	if m.upper, err = changedPath(&a.old.Upper, UpperArm, m.upper.radius, ch.Upper,
		ch.Longer[UpperFrontLeg], ch.Longer[UpperRearLeg], ch.Moved[UpperFront], ch.Moved[UpperRear]); err != nil {
		return err
	}
	out := r3.Sub(a.old.Lower.Ball, m.lower.centre)
	out = r3.Sub(out, r3.Scale(r3.Dot(out, m.lower.axis), m.lower.axis))
	if length(out) < MinSpan {
		return &AssemblyError{Link: LowerArm, Short: MinSpan - length(out)}
	}
	m.lower0 = r3.Scale(m.lower.radius/length(out), out)
	m.lower90 = r3.Cross(m.lower.axis, m.lower0)
	m.corner.TieRod.RackEnd = r3.Add(a.old.TieRod.RackEnd, ch.Moved[RackEnd])
	m.rod += ch.Longer[TieRodLeg]
	if m.rod < MinSpan {
		return &AssemblyError{Link: TieRodLink, Short: MinSpan - m.rod}
	}
	return nil
}

// changedPath returns the path of an arm's ball joint: first the legs grow,
// then the arm as a whole.
func changedPath(arm *Arm, link Link, radius, grown, frontLonger, rearLonger float64, front, rear Vec) (circle, error) {
	var c circle
	if arm.Flat {
		if rearLonger != 0 || rear != (Vec{}) {
			panic("kinematics: an arm with one front-view pivot has no rear leg")
		}
		c = circle{r3.Add(Vec{X: arm.Ball.X, Y: arm.Front.Y, Z: arm.Front.Z}, front), Vec{X: 1}, radius + frontLonger}
	} else {
		at, back := r3.Add(arm.Front, front), r3.Add(arm.Rear, rear)
		span := r3.Sub(at, back)
		d := length(span)
		if d < MinSpan {
			return c, &AssemblyError{Link: link, Short: MinSpan - d}
		}
		f, b := length(r3.Sub(arm.Ball, arm.Front))+frontLonger, length(r3.Sub(arm.Ball, arm.Rear))+rearLonger
		along := (b*b - f*f + d*d) / (2 * d)
		square := (b - along) * (b + along)
		if !(f > 0 && b > 0 && square > 0) { // the legs do not meet
			return c, &AssemblyError{Link: link, Short: max(d-f-b, math.Abs(f-b)-d, -f, -b)}
		}
		c.axis = r3.Scale(1/d, span)
		c.centre, c.radius = r3.Add(back, r3.Scale(along, c.axis)), math.Sqrt(square)
	}
	if c.radius += grown; c.radius < MinSpan {
		return c, &AssemblyError{Link: link, Short: MinSpan - c.radius}
	}
	return c, nil
}

// put assembles the corner at a drive angle, and returns how much too high its
// contact centre then is.
func (a *assembly) put(t float64) (high float64, link Link) {
	m, p := &a.m, &a.pose
	link = m.assemble(math.Sin(t), math.Cos(t), 0, p)
	if link != UpperArm && a.change.CutRod {
		link = a.cutRod()
	}
	if link != NoLink {
		return 0, link
	}
	p.touchRest(m)
	return p.Contact.Z - a.ground, NoLink
}

// cutRod turns the upright of a pose to the resting toe.
func (a *assembly) cutRod() Link {
	m, p := &a.m, &a.pose
	b := r3.Sub(a.steering, r3.Scale(r3.Dot(a.steering, p.axis), p.axis))
	if length(b) < parallelSine {
		return TieRodLink
	}
	turnedTo := func(b Vec) {
		b = unit(b)
		p.upright = frame{p.axis, b, r3.Cross(p.axis, b)}
		p.Spin = p.upright.space(m.spin)
	}
	turnedTo(b)
	outer, ok := m.heldOuterEnd(p, m.atRest)
	if !ok {
		return TieRodLink
	}
	turnedTo(r3.Sub(outer, m.steeringCircle(p).centre))
	p.OuterEnd = outer
	p.WheelCentre = r3.Add(p.LowerBall, p.upright.space(m.wheel))
	return NoLink
}

// level turns the lower arm until the ride height is met: from where its ball
// joint is as high as it was, outward both ways until something assembles, and
// from there step by step toward the height and over it.
func (a *assembly) level() error {
	start := 0.0
	if sin, cos, ok := a.m.raiseBall(a.old.Lower.Ball.Z); ok {
		start = math.Atan2(sin, cos)
	}
	t, high, ok := a.someAssembly(start)
	if !ok {
		return a.apart(start)
	}
	if math.Abs(high) <= heightTolerance {
		return nil
	}
	dir, rise := 1.0, a.m.rise
	a.put(t)
	if v, ok := a.m.move(&a.pose); ok {
		rise = v.rise(&a.pose)
	}
	if (high > 0) == (rise > 0) {
		dir = -1
	}
	for step := walkStep; step > bindTolerance && math.Abs(t-start) < heightReach; {
		next, link := a.put(t + dir*step)
		switch {
		case link != NoLink || math.Abs(next) >= math.Abs(high) && next*high > 0:
			step /= 2 // up to where a link binds, or the wheel turns back
		case next*high <= 0:
			at := root(func(x float64) float64 { h, _ := a.put(x); return h }, t, t+dir*step, heightTolerance)
			if h, link := a.put(at); link == NoLink && math.Abs(h) <= fullReachSlack {
				return nil
			}
			return a.apart(at)
		default:
			t, high = t+dir*step, next
		}
	}
	// What is short is measured where the lower ball joint is as high as it was.
	if _, link := a.put(start); link != NoLink {
		return a.apart(start)
	}
	return &AssemblyError{Link: LowerArm, Short: math.Abs(high)}
}

// someAssembly returns the drive angle nearest to a start at which the parts
// meet, and how much too high the contact centre is there.
func (a *assembly) someAssembly(start float64) (t, high float64, ok bool) {
	for off := 0.0; off < heightReach; off += walkStep {
		for _, t := range [...]float64{start + off, start - off} {
			if high, link := a.put(t); link == NoLink {
				return t, high, true
			}
		}
	}
	return 0, 0, false
}

// apart says what keeps the parts from meeting at a drive angle.
func (a *assembly) apart(t float64) error {
	high, link := a.put(t)
	if link == NoLink {
		return &AssemblyError{Link: LowerArm, Short: math.Abs(high)}
	}
	e := &AssemblyError{Link: link}
	e.Short, e.TooLong = a.m.lacks(link, &a.pose)
	return e
}

// corner returns the assembled corner at rest.
func (a *assembly) corner() Corner {
	m, p, c := &a.m, &a.pose, a.old
	for at, by := range a.change.Moved {
		if Point(at).OnBody() && c.Has(Point(at)) {
			*c.At(Point(at)) = r3.Add(*c.At(Point(at)), by)
		}
	}
	c.Lower.Ball, c.Upper.Ball, c.TieRod.OuterEnd = p.LowerBall, p.UpperBall, p.OuterEnd
	c.Hub = r3.Add(p.LowerBall, p.upright.space(m.hub))
	c.Camber = -math.Asin(max(-1, min(1, p.Spin.Z)))
	if !a.change.CutRod {
		c.Toe = math.Atan2(p.Spin.X, p.Spin.Y)
	}
	switch c.Spring.Carrier {
	case OnUpright:
		c.Spring.Moving = r3.Add(p.LowerBall, p.upright.space(m.springUpright))
	case OnLowerArm:
		c.Spring.Moving = carried(m.springTurn, &a.old.Lower, &c.Lower, &m.lower)
	case OnUpperArm:
		c.Spring.Moving = carried(m.springTurn, &a.old.Upper, &c.Upper, &m.upper)
	}
	return c
}

// carried returns where a point of an arm stands on the arm as it is now. Along
// the axis it keeps its distance from the pivots, while the foot of a ball joint
// whose legs have grown unlike has moved.
func carried(at arm, was, is *Arm, path *circle) Vec {
	if !was.Flat {
		on, along := was.axis()
		foot := func(ball, on Vec, axis Vec) float64 { return r3.Dot(r3.Sub(ball, on), axis) }
		at.along += foot(was.Ball, on, unit(along)) - foot(is.Ball, is.Rear, path.axis)
	}
	return at.place(path, is.Ball)
}
