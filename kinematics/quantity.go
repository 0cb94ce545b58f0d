package kinematics

import "fmt"

// Quantity names one reading.
type Quantity uint8

// The readings, in the order in which they are listed everywhere.
const (
	Camber Quantity = iota
	Toe
	Caster
	SteeringAxisInclination
	ScrubRadius
	Trail
	HalfTrack
	InstantCentreY
	InstantCentreZ
	SwingArm
	RollCentreY
	RollCentreHeight
	TieRodError
	CamberGain
	RideToe
	MotionRatio
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

// About describes a quantity in words, for every table, tooltip and file.
type About struct {
	Key      string // stable name for files: lower case, underscores, no unit
	Name     string // the trade's name
	Kind     Kind
	Positive string // when the value is positive
	Meaning  string // one sentence: what it is, and what a front view can and cannot tell of it
}

var about = [QuantityCount]About{
	Camber: {"camber", "Camber", Angle, "top of the wheel leans outboard",
		"Lean of the wheel from the vertical, seen from the front; in roll, to the ground."},
	Toe: {"toe", "Toe", Angle, "toe-in",
		"Angle of one wheel to straight ahead, seen from above; a front view shows it only as bump steer."},
	Caster: {"caster", "Caster", Angle, "top of the steering axis leans rearward",
		"Lean of the steering axis in side view; it comes from the x of the ball joints, which a front view cannot show."},
	SteeringAxisInclination: {"steering_axis_inclination", "Axis inclination", Angle, "top of the steering axis leans inboard",
		"Lean of the line through both ball joints, seen from the front."},
	ScrubRadius: {"scrub_radius", "Scrub radius", Length, "steering axis meets the ground inboard of the tyre centre",
		"Distance at the ground between the tyre's centre line and the line through both ball joints, square to the wheel's heading."},
	Trail: {"trail", "Trail", Length, "steering axis meets the ground ahead of the tyre centre",
		"Distance at the ground from the tyre centre forward to the steering axis; like caster it needs the x of the ball joints."},
	HalfTrack: {"half_track", "Half track", Length, "always",
		"From the car's centre plane to the tyre's contact centre."},
	InstantCentreY: {"instant_centre_y", "Instant centre, out", Length, "on this side of the centre plane",
		"Where the lines of both arms meet, from the centre plane; the wheel turns about it for a moment. Parallel arms have none."},
	InstantCentreZ: {"instant_centre_z", "Instant centre, up", Length, "above the floor the points were measured from",
		"Height of the instant centre in the file's own heights."},
	SwingArm: {"swing_arm", "Swing arm", Length, "instant centre inboard of the tyre",
		"Horizontal distance from the tyre's contact centre to the instant centre: the longer, the less camber changes with travel."},
	RollCentreY: {"roll_centre_y", "Roll centre, aside", Length, "toward the car's left",
		"Sideways place of the roll centre; in the centre plane unless the axle is in roll."},
	RollCentreHeight: {"roll_centre_height", "Roll centre", Length, "above ground",
		"Height at which the line from tyre to instant centre crosses the centre plane: a construction from geometry, not a pivot that the body really turns about."},
	TieRodError: {"tie_rod_error", "Tie-rod error", Length, "rod too short for the wheel to stay straight",
		"How much longer the tie rod would have to be, at this travel, to hold the wheel at the toe that it has at rest with the rack in this place."},
	CamberGain: {"camber_gain", "Camber gain", Slope, "camber grows in bump",
		"Change of camber for each mm of wheel travel, at this travel."},
	RideToe: {"ride_toe", "Ride toe", Slope, "toes in as the wheel rises",
		"Change of toe for each mm of wheel travel, at this travel: the bump steer."},
	MotionRatio: {"motion_ratio", "Motion ratio", Ratio, "always",
		"Spring travel for each mm of wheel travel; the reciprocal, wheel over spring, is also in use and printed beside it."},
	SpringLength: {"spring_length", "Spring length", Length, "always",
		"Between the two ends of the spring."},
}

// About returns the words for the quantity.
func (q Quantity) About() About {
	if q >= QuantityCount {
		panic(fmt.Sprintf("kinematics: no quantity %d", q))
	}
	return about[q]
}

// String returns the quantity's key.
func (q Quantity) String() string { return q.About().Key }
