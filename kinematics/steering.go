package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// straightAhead is the steering angle, rad, below which a wheel counts as
// straight: a turning circle beyond a hundred kilometres is a straight line.
const straightAhead = 1e-5

// Steering is how an axle steers at one rack position, at rest height.
type Steering struct {
	Rack        float64
	Left, Right float64 // rad, positive for a left turn, toe included
	// AckermannError is how much farther the outer wheel is turned than it
	// would be if both wheels rolled about one point of the rear-axle line,
	// rad. Positive: turned too far, toward parallel steering; negative:
	// turned less. Only if HasError.
	AckermannError float64
	HasError       bool // wheelbase given, and both wheels turned the same way
}

// RackSense is +1 where the wheels turn left as the rack moves to the car's
// left, as with tie rods ahead of the steering axes, and -1 where they turn
// right, as with tie rods behind them: the gear between hand and rack is built
// to suit. It is that at rest; a tie rod in one plane with the axis, which steers
// neither way, counts as +1.
func (m *Mechanism) RackSense() float64 {
	p, err := m.At(0, 0)
	if err != nil {
		panic("kinematics: a mechanism that does not assemble at rest: " + err.Error())
	}
	rod := r3.Sub(p.OuterEnd, p.RackEnd)
	// Pushed along the rod, the outer end turns the wheel about the axis.
	turn := r3.Dot(p.SteeringAxis(), r3.Cross(r3.Sub(p.OuterEnd, p.LowerBall), rod))
	if turn*rod.Y < 0 {
		return -1
	}
	return 1
}

// Steering returns the steering angles at a rack position. wheelbase, mm, is
// the distance to the rear axle line; 0 leaves the Ackermann error out.
//
// Source: the condition is the textbook one, cot(outer) - cot(inner) =
// distance / wheelbase, taken here exactly from both tyres' contact centres
// and headings.
func (m *Mechanism) Steering(rack, wheelbase float64) (Steering, error) {
	left, err := m.At(0, rack)
	if err != nil {
		return Steering{}, sided("left", err)
	}
	right, err := m.At(0, -rack)
	if err != nil {
		return Steering{}, sided("right", err)
	}
	s := Steering{Rack: rack,
		Left:  -math.Atan2(left.Spin.X, left.Spin.Y),
		Right: math.Atan2(right.Spin.X, right.Spin.Y)}
	if wheelbase <= 0 || math.Min(math.Abs(s.Left), math.Abs(s.Right)) < straightAhead || s.Left*s.Right < 0 {
		return s, nil
	}
	inner, outer, actual := s.Left, 1.0, s.Right
	ci, co := left.Contact, right.Contact
	if s.Left < 0 { // a right turn is its mirror image
		inner, outer, actual = -s.Right, 1.0, -s.Left
		ci, co = right.Contact, left.Contact
	}
	// Turn centre on the rear-axle line, on the inner wheel's side; y outboard there.
	y := ci.Y + (ci.X+wheelbase)/math.Tan(inner)
	outer = math.Atan2(co.X+wheelbase, y+co.Y)
	s.AckermannError, s.HasError = actual-outer, true
	return s, nil
}
