package effort

import (
	"fmt"
	"math"

	"armscribe/kinematics"
)

// Conditions are what the three cases assume. None of it follows from the
// geometry: print it beside the answers.
type Conditions struct {
	Load                  float64 // N on each wheel at rest
	Tread                 float64 // mm, width of the tread on the ground
	Parking               float64 // grip of the standing tyre on dry ground
	BrakeLeft, BrakeRight float64 // grip under either wheel
	BumpTravel            float64 // mm of the left wheel
	BumpLoad, BumpKick    float64 // N more upward and N rearward on it
}

// Usual returns conditions to compare layouts under: grip of 0.7 for parking,
// 0.8 left and 0.3 right for braking, and a bump that doubles the load on the
// left wheel, pushes it back with half of it and lifts it by 30 mm. Common
// practice, no source. Load is N on each wheel, tread mm.
func Usual(load, tread float64) Conditions {
	return Conditions{Load: load, Tread: tread, Parking: 0.7, BrakeLeft: 0.8, BrakeRight: 0.3,
		BumpTravel: 30, BumpLoad: load, BumpKick: load / 2}
}

// Limits of the conditions.
const (
	maxGrip  = 3.0
	maxTread = 1000.0 // mm
)

// check returns an error that matches ErrInput for the first number that makes
// no conditions.
func (c Conditions) check() error {
	for _, v := range []struct {
		name string
		x    float64
		up   float64
	}{
		{"wheel load", c.Load, maxForce / 10}, {"tread width", c.Tread, maxTread},
		{"grip for parking", c.Parking, maxGrip}, {"grip on the left", c.BrakeLeft, maxGrip}, {"grip on the right", c.BrakeRight, maxGrip},
		{"load of the bump", c.BumpLoad, maxForce / 10}, {"push of the bump", c.BumpKick, maxForce / 10},
	} {
		if !(v.x >= 0 && v.x <= v.up) {
			return fmt.Errorf("%s %g is not between 0 and %g; check the number and its unit: %w", v.name, v.x, v.up, ErrInput)
		}
	}
	if !(math.Abs(c.BumpTravel) <= kinematics.MaxLength) {
		return fmt.Errorf("travel of the bump %g mm is not within ±10 m: %w", c.BumpTravel, ErrInput)
	}
	return nil
}

// ParkingTorque returns the moment in N mm that the ground sets against
// turning a standing tyre about an axis that meets the ground `arm` mm from the
// contact centre: grip x load x sqrt(tread^2/8 + arm^2).
//
// Source: J. J. Taborek, Mechanics of Vehicles (Machine Design, 1957), from
// memory. It is the grip on a round patch of evenly loaded ground as wide as
// the tread, at the root-mean-square distance from the axis: tread^2/8 about
// its own centre, and arm^2 by the parallel-axis theorem. The wheel is taken as
// braked; one that is free to roll about the axis needs less.
func ParkingTorque(grip, load, tread, arm float64) float64 {
	return scrub(grip, load, tread, arm, 0).Value()
}

func scrub(grip, load, tread, x, y float64) kinematics.Root {
	return kinematics.Root{Gain: grip * load, Base: tread / math.Sqrt(8), X: x, Y: y}
}

// ParkingTorqueByPressure returns the same for an axis through the contact
// centre from the tyre's pressure in N/mm^2 (0.2 is 2 bar): grip / 3 x
// sqrt(load^3 / pressure), in N mm. It knows no scrub radius.
//
// Source: V. E. Gough's empirical formula, as textbooks on car design quote
// it, from memory.
func ParkingTorqueByPressure(grip, load, pressure float64) float64 {
	return grip / 3 * math.Sqrt(load*load*load/pressure)
}

// Parking is turning the standing wheels to the left at rest height with the
// rack in the middle: the ground's torque against both, and the load that the
// turning lifts. Errors match ErrInput, or are those of
// [kinematics.Mechanism.At].
func Parking(m *kinematics.Mechanism, c Conditions) (Case, error) {
	if err := c.check(); err != nil {
		return Case{}, err
	}
	p, err := m.At(0, 0)
	if err != nil {
		return Case{}, err
	}
	var x, y float64
	if p.HasAxisAtGround {
		x, y = p.Contact.X-p.AxisAtGround.X, p.Contact.Y-p.AxisAtGround.Y
	}
	s := scrub(c.Parking, c.Load, c.Tread, x, y)
	torque, load := s.Value(), Vec{Z: c.Load}
	return Case{Left: Side{Force: load, Couple: -torque}, Right: Side{Force: load, Couple: torque}, Scrub: s}, nil
}

// SplitBraking is braking both wheels at rest height on ground of different
// grip, with brakes on the uprights: the force acts at the contact centre.
// Errors match ErrInput.
func SplitBraking(c Conditions) (Case, error) {
	if err := c.check(); err != nil {
		return Case{}, err
	}
	return Case{Left: Side{Force: Vec{X: -c.BrakeLeft * c.Load, Z: c.Load}},
		Right: Side{Force: Vec{X: -c.BrakeRight * c.Load, Z: c.Load}}}, nil
}

// OneWheelBump is the left wheel on a bump, which lifts it, loads it and pushes
// it back as it rolls, the right one at rest. Errors match ErrInput.
func OneWheelBump(c Conditions) (Case, error) {
	if err := c.check(); err != nil {
		return Case{}, err
	}
	return Case{Left: Side{Travel: c.BumpTravel, Force: Vec{X: -c.BumpKick, Z: c.Load + c.BumpLoad}, Rolling: true},
		Right: Side{Force: Vec{Z: c.Load}, Rolling: true}}, nil
}
