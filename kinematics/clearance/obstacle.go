package clearance

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// Shape is what an obstacle looks like.
type Shape uint8

// The shapes: a point, a straight line between two, the line of a circle (the rim
// of a strut cap), which is no disc, and a part of such a line (an arch lip).
const (
	Point Shape = iota
	Line
	Circle
	Arc
)

// Carrier names what an obstacle is fixed to.
type Carrier uint8

// The carriers. OnDamper is a part of a spring or damper between its body end
// and its moving end, which swings about its body end.
const (
	OnBody Carrier = iota
	OnUpright
	OnDamper
)

// DefaultWish is the gap to the body that is wished unless another is given,
// mm. Common practice, no source.
const DefaultWish = 10.0

// WishInRim is the least gap to keep between the barrel and what stands inside
// it, mm: 3 to 5, more with joints that have play. Common practice, no source.
const WishInRim = 5.0

// Obstacle is something the wheel must not touch. Its places are those at
// rest, in the axes of package kinematics.
type Obstacle struct {
	Name    string
	Shape   Shape
	Carrier Carrier
	A       Vec // the point, one end of the line or arc, the centre of the circle
	B       Vec // the other end of the line or arc; a direction square to the circle
	C       Vec // a place of the arc between its ends
	Radius  float64
	// Thick is how far the surface stands from point or line, mm: half the
	// diameter of a tube, of a damper body, of a joint's housing. 0 is an edge.
	Thick float64
	Wish  float64 // wished gap, mm
}

// Errors of this package, for errors.Is.
var (
	ErrObstacle = errors.New("the obstacle is not measured right") // see ObstacleError
	ErrInside   = errors.New("the obstacle stands inside the tyre at rest")
)

// ObstacleError is one thing wrong with an obstacle.
type ObstacleError struct {
	Index   int
	Name    string
	Problem string
	Value   string
	Cure    string
}

// Error names obstacle, problem, value and cure in one line.
func (e *ObstacleError) Error() string {
	name := fmt.Sprintf("obstacle %d", e.Index+1)
	if e.Name != "" {
		name = fmt.Sprintf("obstacle %q", e.Name)
	}
	return fmt.Sprintf("%s: %s (%s); %s", name, e.Problem, e.Value, e.Cure)
}

// Is makes errors.Is(err, ErrObstacle) true.
func (e *ObstacleError) Is(target error) bool { return target == ErrObstacle }

// InsideError tells that an obstacle stands inside the tyre where the car
// stands at rest, so that one of both is measured wrong.
type InsideError struct {
	Name  string
	Depth float64 // mm, above zero
}

// Error names obstacle, depth and cure in one line.
func (e *InsideError) Error() string {
	return fmt.Sprintf("obstacle %q: stands %.1f mm inside tyre or rim at rest; check its place, and the wheel's offset and spacer", e.Name, e.Depth)
}

// Is makes errors.Is(err, ErrInside) true.
func (e *InsideError) Is(target error) bool { return target == ErrInside }

// maxWish, mm, catches a number in the wrong unit.
const maxWish = 500.0

// check returns what is wrong with the obstacle, each an *ObstacleError.
func (o *Obstacle) check(index int, c *kinematics.Corner, hasRing bool) (errs []error) {
	add := func(problem, value, cure string) {
		errs = append(errs, &ObstacleError{index, o.Name, problem, value, cure})
	}
	if !near(o.A) || o.Shape != Point && !near(o.B) || o.Shape == Arc && !near(o.C) {
		add("is not within ±10 m", fmt.Sprintf("%.6g, %.6g", o.A, o.B), "check the numbers and their unit")
		return errs
	}
	if !(o.Wish >= 0 && o.Wish <= maxWish) {
		add("the wished gap is not between 0 and 500 mm", fmt.Sprintf("%g mm", o.Wish), "give the gap to keep as 0 or more")
	}
	if !(o.Thick >= 0 && o.Thick <= maxWish) {
		add("the thickness is not between 0 and 500 mm", fmt.Sprintf("%g mm", o.Thick), "give half the diameter, or 0 for an edge")
	}
	switch o.Shape {
	case Point:
	case Line:
		if d := r3.Norm(r3.Sub(o.B, o.A)); d < kinematics.MinSpan {
			add("both ends stand in one place", fmt.Sprintf("%.3g mm apart", d), "give two ends, or a point")
		}
	case Circle:
		if !(o.Radius >= kinematics.MinSpan && o.Radius <= kinematics.MaxLength) {
			add("the circle's radius is not between 1 mm and 10 m", fmt.Sprintf("%g mm", o.Radius), "check the number and its unit")
		}
		if r3.Norm2(o.B) == 0 {
			add("the circle has no direction square to it", "0, 0, 0", "give the direction in which one looks through it")
		}
	case Arc:
		if _, ok := o.Round(); !ok {
			add("its three places make no arc", fmt.Sprintf("%.6g, %.6g, %.6g", o.A, o.C, o.B), "give both ends and a place between them that does not lie in line, or give a line")
		}
	default:
		panic(fmt.Sprintf("kinematics: clearance: no shape %d", o.Shape))
	}
	switch o.Carrier {
	case OnBody:
	case OnUpright:
		if !hasRing {
			add("is carried by the upright, but the rim is not known", "no inside diameter", "give the rim's inside diameter")
		}
	case OnDamper:
		if c.Spring.Carrier == kinematics.NoSpring {
			add("is part of a damper, but the corner has none", "no spring", "give the spring's ends, or fix it to the body")
		}
	default:
		panic(fmt.Sprintf("kinematics: clearance: no carrier %d", o.Carrier))
	}
	return errs
}

// near tells whether a point lies within the limits of a corner.
func near(v Vec) bool {
	return math.Abs(v.X) <= kinematics.MaxLength && math.Abs(v.Y) <= kinematics.MaxLength && math.Abs(v.Z) <= kinematics.MaxLength
}

// JointsInRim returns the outer tie-rod end, the lower and the upper ball joint
// of a corner as obstacles on the upright, with the radii of their housings in mm
// and the gap to keep to rim and tyre.
func JointsInRim(c *kinematics.Corner, outerEnd, lowerBall, upperBall, wish float64) []Obstacle {
	return []Obstacle{
		{Name: kinematics.OuterEnd.String(), Carrier: OnUpright, A: c.TieRod.OuterEnd, Thick: outerEnd, Wish: wish},
		{Name: kinematics.LowerBall.String(), Carrier: OnUpright, A: c.Lower.Ball, Thick: lowerBall, Wish: wish},
		{Name: kinematics.UpperBall.String(), Carrier: OnUpright, A: c.Upper.Ball, Thick: upperBall, Wish: wish},
	}
}
