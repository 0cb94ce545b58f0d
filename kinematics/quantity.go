package kinematics

import "fmt"

// Quantity names one reading.
type Quantity uint8

// The readings, in the order in which they are listed everywhere.
const (
	Camber                  Quantity = iota // top of the wheel outboard is positive; in roll, to the ground
	Toe                                     // toe-in is
	Caster                                  // top of the steering axis rearward
	SteeringAxisInclination                 // top of the steering axis inboard
	ScrubRadius                             // axis meets the ground inboard of the tyre centre
	Trail                                   // axis meets the ground ahead of it
	HalfTrack                               // from the centre plane to the contact
	InstantCentreY                          // on this side of the centre plane
	InstantCentreZ                          // above the floor of the points
	SwingArm                                // instant centre inboard of the tyre
	RollCentreY                             // toward the car's left
	RollCentreHeight                        // above ground
	TieRodError                             // rod too short for the wheel to keep the toe that it has at rest
	CamberGain                              // camber grows in bump
	RideToe                                 // toes in in bump
	MotionRatio                             // spring over wheel
	SpringLength
	QuantityCount
)

// The set of known quantities is a uint32, here and in Bands: one quantity too
// many does not compile.
const _ = 32 - QuantityCount

// Kind tells how a quantity is measured inside this package.
type Kind uint8

// The kinds of quantity.
const (
	Length Kind = iota // mm
	Angle              // rad
	Slope              // rad per mm of travel
	Ratio              // no unit
)

// about is each quantity's name in files, lower case with underscores and without
// the unit, and its kind.
var about = [QuantityCount]struct {
	key  string
	kind Kind
}{
	Camber:                  {"camber", Angle},
	Toe:                     {"toe", Angle},
	Caster:                  {"caster", Angle},
	SteeringAxisInclination: {"steering_axis_inclination", Angle},
	ScrubRadius:             {"scrub_radius", Length},
	Trail:                   {"trail", Length},
	HalfTrack:               {"half_track", Length},
	InstantCentreY:          {"instant_centre_y", Length},
	InstantCentreZ:          {"instant_centre_z", Length},
	SwingArm:                {"swing_arm", Length},
	RollCentreY:             {"roll_centre_y", Length},
	RollCentreHeight:        {"roll_centre_height", Length},
	TieRodError:             {"tie_rod_error", Length},
	CamberGain:              {"camber_gain", Slope},
	RideToe:                 {"ride_toe", Slope},
	MotionRatio:             {"motion_ratio", Ratio},
	SpringLength:            {"spring_length", Length},
}

// Kind tells how the quantity is measured.
func (q Quantity) Kind() Kind { return about[q.known()].kind }

// String returns the quantity's name in files.
func (q Quantity) String() string { return about[q.known()].key }

func (q Quantity) known() Quantity {
	if q >= QuantityCount {
		panic(fmt.Sprintf("kinematics: no quantity %d", uint8(q)))
	}
	return q
}
