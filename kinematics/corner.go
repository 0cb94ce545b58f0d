package kinematics

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// Limits on what a corner may hold. Points of one car lie within MaxLength of
// its origin; below MinSpan two points are one point with a measuring error,
// not the ends of a link.
const (
	MaxLength = 10_000.0 // mm
	MinSpan   = 1.0      // mm
)

// Arm is one wishbone, or a lateral arm with two bushings, in its resting position.
type Arm struct {
	Front, Rear Vec // ends of the pivot axis on the body; Rear is not used when Flat
	Ball        Vec // ball joint on the upright
	// Flat marks the short form: one front-view pivot (Front), with the pivot
	// axis through it along x, square to the front view.
	Flat bool
}

// FlatArm returns the short form of an arm: one front-view pivot.
func FlatArm(pivot, ball Vec) Arm { return Arm{Front: pivot, Ball: ball, Flat: true} }

// axis returns a point on the pivot axis and its direction (not unit).
func (a *Arm) axis() (on, along Vec) {
	if a.Flat {
		// Nothing depends on the pivot's x: the axis runs along it.
		return Vec{Y: a.Front.Y, Z: a.Front.Z}, Vec{X: 1}
	}
	return a.Rear, Vec{X: a.Front.X - a.Rear.X, Y: a.Front.Y - a.Rear.Y, Z: a.Front.Z - a.Rear.Z}
}

// TieRod joins the rack end (or a fixed body point, on a rear axle) to the upright.
type TieRod struct {
	RackEnd, OuterEnd Vec
}

// Wheel says where the wheel stands on the hub face and how high it rolls.
type Wheel struct {
	Offset       float64 // mm, positive when the mounting face is outboard of the rim's centre
	Spacer       float64 // mm between hub face and wheel
	LoadedRadius float64 // mm, wheel centre to ground
}

// Carrier names the part that carries the moving end of a spring.
type Carrier uint8

// The parts that can carry a spring's moving end; NoSpring means none is given.
const (
	NoSpring Carrier = iota
	OnLowerArm
	OnUpperArm
	OnUpright
)

// Spring is a coil-over, or any strut whose length follows the wheel.
type Spring struct {
	Carrier Carrier
	Moving  Vec // end on the carrier, at rest
	Body    Vec // end on the body
}

// Corner is one corner in its resting position: what was measured on the car,
// or is proposed. It is a plain value; copy it freely.
type Corner struct {
	Upper, Lower Arm
	TieRod       TieRod
	Hub          Vec     // centre of the wheel mounting face
	Camber, Toe  float64 // rad, at rest
	Wheel        Wheel
	Spring       Spring
}

// Point names one of the points a corner is measured by.
type Point uint8

// The points of a corner, in the order in which they are listed everywhere.
const (
	UpperFront Point = iota // front pivot of the upper arm, or its one front-view pivot
	UpperRear
	UpperBall
	LowerFront // front pivot of the lower arm, or its one front-view pivot
	LowerRear
	LowerBall
	RackEnd
	OuterEnd
	HubFace
	SpringMoving
	SpringBody
	pointCount
)

var pointNames = [pointCount]string{
	"upper arm front pivot", "upper arm rear pivot", "upper ball joint",
	"lower arm front pivot", "lower arm rear pivot", "lower ball joint",
	"rack end", "outer tie-rod end", "hub face", "spring moving end", "spring body end",
}

// String returns the point's name in the trade's words.
func (p Point) String() string {
	if p >= pointCount {
		panic(fmt.Sprintf("kinematics: no point %d", p))
	}
	return pointNames[p]
}

// NameOf is String, but calls the one pivot of a flat arm by its plain name.
func (c *Corner) NameOf(p Point) string {
	switch {
	case p == UpperFront && c.Upper.Flat:
		return "upper arm pivot"
	case p == LowerFront && c.Lower.Flat:
		return "lower arm pivot"
	case p > AtRest:
		return "all that is off together"
	case p == AtRest:
		return "camber, toe or offset"
	}
	return p.String()
}

// OnBody tells whether the point is fixed to the body; the others move with the wheel.
func (p Point) OnBody() bool {
	switch p {
	case UpperFront, UpperRear, LowerFront, LowerRear, RackEnd, SpringBody:
		return true
	}
	return false
}

// At returns a pointer to the point, for reading and for editing in place.
func (c *Corner) At(p Point) *Vec {
	switch p {
	case UpperFront:
		return &c.Upper.Front
	case UpperRear:
		return &c.Upper.Rear
	case UpperBall:
		return &c.Upper.Ball
	case LowerFront:
		return &c.Lower.Front
	case LowerRear:
		return &c.Lower.Rear
	case LowerBall:
		return &c.Lower.Ball
	case RackEnd:
		return &c.TieRod.RackEnd
	case OuterEnd:
		return &c.TieRod.OuterEnd
	case HubFace:
		return &c.Hub
	case SpringMoving:
		return &c.Spring.Moving
	case SpringBody:
		return &c.Spring.Body
	}
	panic(fmt.Sprintf("kinematics: no point %d", p))
}

// Has tells whether the corner has the point: flat arms have no rear pivot,
// and the spring may be left out.
func (c *Corner) Has(p Point) bool {
	switch p {
	case UpperRear:
		return !c.Upper.Flat
	case LowerRear:
		return !c.Lower.Flat
	case SpringMoving, SpringBody:
		return c.Spring.Carrier != NoSpring
	}
	return p < pointCount
}

// Points lists the points the corner has, in the order of the Point constants.
func (c *Corner) Points() []Point {
	list := make([]Point, 0, pointCount)
	for p := range pointCount {
		if c.Has(p) {
			list = append(list, p)
		}
	}
	return list
}

// Coordinate names one measured number: a point and its axis (0 x, 1 y, 2 z).
type Coordinate struct {
	Point Point
	Axis  int
}

// maxCoordinates bounds the coordinates of any corner.
const maxCoordinates = 3 * errorRows // those of AtRest and of errors together too

// Coordinates lists every measured coordinate of the corner in a fixed order.
// The x of a flat arm's pivot is not among them: its axis runs along x, so
// nothing depends on it.
func (c *Corner) Coordinates() []Coordinate {
	return c.appendCoordinates(make([]Coordinate, 0, maxCoordinates))
}

func (c *Corner) appendCoordinates(list []Coordinate) []Coordinate {
	for p := range pointCount {
		if !c.Has(p) {
			continue
		}
		first := 0
		if p == UpperFront && c.Upper.Flat || p == LowerFront && c.Lower.Flat {
			first = 1
		}
		for axis := first; axis < 3; axis++ {
			list = append(list, Coordinate{p, axis})
		}
	}
	return list
}

// Shift adds mm to one coordinate.
func (c *Corner) Shift(at Coordinate, mm float64) {
	v := c.At(at.Point)
	switch at.Axis {
	case 0:
		v.X += mm
	case 1:
		v.Y += mm
	case 2:
		v.Z += mm
	default:
		panic(fmt.Sprintf("kinematics: no axis %d", at.Axis))
	}
}

// RestContact returns C of the package page at rest. It follows from hub, camber,
// toe and wheel alone, so that a corner that does not assemble has one too.
func (c *Corner) RestContact() Vec {
	s := spinAxis(c.Camber, c.Toe)
	p := Pose{Spin: s, WheelCentre: r3.Add(c.Hub, r3.Scale(c.Wheel.Spacer-c.Wheel.Offset, s))}
	p.touchGround(c.Wheel.LoadedRadius)
	return p.Contact
}
