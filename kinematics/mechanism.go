package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Mechanism is a corner made ready to be solved. It is read only after New,
// so any number of goroutines may use one.
type Mechanism struct {
	corner Corner

	lower      circle // path of the lower ball joint
	lower0     Vec    // lower ball joint at rest, from the circle's centre
	lower90    Vec    // the same a quarter turn further about the axis
	upper      circle // path of the upper ball joint
	upperSide  float64
	upright    float64 // between the ball joints
	outerAlong float64 // outer end along the steering axis, from the lower ball joint
	outerArm   float64 // steering arm: outer end off the steering axis
	outerSide  float64
	rod        float64

	// The hub and what it carries, from the lower ball joint, in the upright's
	// frame: along the steering axis, toward the outer end, and square to both.
	hub, wheel, spin Vec
	springUpright    Vec // moving end of a spring on the upright
	springTurn       arm // moving end of a spring on an arm: the same in that arm's frame

	restZ          float64 // wheel centre at rest
	rise, riseRate float64 // first and second derivative of wheel height by drive angle at rest
	riseBend       float64 // what is left of the third, over 6; for the first guess only
	atRest         held    // the resting toe, rack in the middle
	fast           bool    // far enough from every dead point at rest for the short way
}

// arm holds a point of a turning arm in the arm's frame: along the axis,
// toward the ball joint, and square to both.
type arm struct{ along, out, square float64 }

// New prepares a corner. The error joins one *GeometryError for everything
// that is wrong and matches ErrGeometry.
func New(c *Corner) (Mechanism, error) {
	if !c.plausible() {
		if err := c.Validate(); err != nil {
			return Mechanism{}, err
		}
	}
	m := build(c)
	if math.Abs(m.rise) < minRise {
		return Mechanism{}, c.Validate()
	}
	return m, nil
}

// Corner returns the corner the mechanism was made from.
func (m *Mechanism) Corner() Corner { return m.corner }

// RodLength returns the tie rod's length, mm.
func (m *Mechanism) RodLength() float64 { return m.rod }

// ArmLengths returns the radii, mm, on which the two ball joints turn about
// their pivot axes.
func (m *Mechanism) ArmLengths() (upper, lower float64) { return m.upper.radius, m.lower.radius }

// spinAxis returns the unit spin axis of a wheel, pointing outboard.
func spinAxis(camber, toe float64) Vec {
	sc, cc := math.Sincos(camber)
	st, ct := math.Sincos(toe)
	return Vec{X: cc * st, Y: cc * ct, Z: -sc}
}

// wellClear keeps plausible off the limits of Validate by more than either of them
// rounds, a few times 1e-12 of 1 mm at 10 m from the origin.
const wellClear = 1 + 1e-9

// plausible is the cheap part of Validate: false sends the corner through the
// full one. It must be false for every corner Validate rejects.
func (c *Corner) plausible() bool {
	ok := finite(c.Wheel.Offset) && finite(c.Wheel.Spacer) && c.Wheel.LoadedRadius >= MinSpan && finite(c.Wheel.LoadedRadius) &&
		math.Abs(c.Camber) <= MaxStaticAngle && math.Abs(c.Toe) <= MaxStaticAngle && c.Spring.Carrier <= OnUpright
	for p := Point(0); ok && p < pointCount; p++ {
		v := c.At(p)
		ok = !c.Has(p) || finite(v.X) && finite(v.Y) && finite(v.Z)
	}
	if !ok {
		return false
	}
	apart := func(a, b Vec) bool { return length(r3.Sub(a, b)) >= MinSpan*wellClear }
	off := func(p, on, along Vec) bool {
		cr := r3.Cross(r3.Sub(p, on), along)
		return r3.Dot(cr, cr) >= MinSpan*MinSpan*wellClear*r3.Dot(along, along)
	}
	uOn, uAlong := c.Upper.axis()
	lOn, lAlong := c.Lower.axis()
	a := r3.Sub(c.Upper.Ball, c.Lower.Ball)
	aLen := length(a)
	return (c.Upper.Flat || apart(c.Upper.Front, c.Upper.Rear)) && (c.Lower.Flat || apart(c.Lower.Front, c.Lower.Rear)) &&
		off(c.Upper.Ball, uOn, uAlong) && off(c.Lower.Ball, lOn, lAlong) && off(c.Lower.Ball, uOn, uAlong) &&
		aLen >= MinSpan*wellClear && a.Z > 0 &&
		off(c.TieRod.OuterEnd, c.Lower.Ball, a) && off(c.TieRod.RackEnd, c.Lower.Ball, a) &&
		apart(c.TieRod.RackEnd, c.TieRod.OuterEnd) &&
		length(r3.Cross(a, spinAxis(c.Camber, c.Toe))) >= minAxisSine*wellClear*aLen &&
		(c.Spring.Carrier == NoSpring || apart(c.Spring.Moving, c.Spring.Body))
}

// build measures a valid corner in its resting position.
func build(c *Corner) Mechanism {
	m := Mechanism{corner: *c}
	on, along := c.Lower.axis()
	m.lower = circleThrough(c.Lower.Ball, on, unit(along))
	m.lower0 = r3.Sub(c.Lower.Ball, m.lower.centre)
	m.lower90 = r3.Cross(m.lower.axis, m.lower0)

	on, along = c.Upper.axis()
	m.upper = circleThrough(c.Upper.Ball, on, unit(along))
	m.upperSide = m.upper.sideOf(c.Upper.Ball, c.Lower.Ball)
	up := r3.Sub(c.Upper.Ball, c.Lower.Ball)
	m.upright = length(up)
	a := r3.Scale(1/m.upright, up)

	steer := circleThrough(c.TieRod.OuterEnd, c.Lower.Ball, a)
	m.outerAlong = r3.Dot(r3.Sub(c.TieRod.OuterEnd, c.Lower.Ball), a)
	m.outerArm = steer.radius
	m.outerSide = steer.sideOf(c.TieRod.OuterEnd, c.TieRod.RackEnd)
	m.rod = length(r3.Sub(c.TieRod.OuterEnd, c.TieRod.RackEnd))

	b := r3.Scale(1/steer.radius, r3.Sub(c.TieRod.OuterEnd, steer.centre))
	f := frame{a, b, r3.Cross(a, b)}
	s := spinAxis(c.Camber, c.Toe)
	centre := r3.Add(c.Hub, r3.Scale(c.Wheel.Spacer-c.Wheel.Offset, s))
	m.spin = f.local(s)
	m.hub = f.local(r3.Sub(c.Hub, c.Lower.Ball))
	m.wheel = f.local(r3.Sub(centre, c.Lower.Ball))
	m.restZ = centre.Z
	sin, cos := math.Sincos(c.Toe)
	m.atRest = holding(a, s, sin, cos)
	m.setSpring(f)
	m.setStart()
	return m
}

// setSpring keeps the spring's moving end in the frame of what carries it.
func (m *Mechanism) setSpring(upright frame) {
	c := &m.corner
	switch c.Spring.Carrier {
	case OnUpright:
		m.springUpright = upright.local(r3.Sub(c.Spring.Moving, c.Lower.Ball))
	case OnLowerArm:
		m.springTurn = armFrame(&m.lower, c.Lower.Ball, c.Spring.Moving)
	case OnUpperArm:
		m.springTurn = armFrame(&m.upper, c.Upper.Ball, c.Spring.Moving)
	}
}

func armFrame(c *circle, ball, p Vec) arm {
	out := r3.Scale(1/c.radius, r3.Sub(ball, c.centre))
	d := r3.Sub(p, c.centre)
	return arm{r3.Dot(d, c.axis), r3.Dot(d, out), r3.Dot(d, r3.Cross(c.axis, out))}
}

// place returns the arm's point with the ball joint at `ball`.
func (a arm) place(c *circle, ball Vec) Vec {
	out := r3.Scale(1/c.radius, r3.Sub(ball, c.centre))
	f := frame{c.axis, out, r3.Cross(c.axis, out)}
	return r3.Add(c.centre, f.space(Vec{X: a.along, Y: a.out, Z: a.square}))
}

// frame is a right-handed set of unit axes.
type frame struct{ a, b, c Vec }

func (f *frame) local(v Vec) Vec {
	return Vec{X: r3.Dot(v, f.a), Y: r3.Dot(v, f.b), Z: r3.Dot(v, f.c)}
}

func (f *frame) space(v Vec) Vec {
	return Vec{
		X: v.X*f.a.X + v.Y*f.b.X + v.Z*f.c.X,
		Y: v.X*f.a.Y + v.Y*f.b.Y + v.Z*f.c.Y,
		Z: v.X*f.a.Z + v.Y*f.b.Z + v.Z*f.c.Z,
	}
}
