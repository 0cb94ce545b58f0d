package figures

import (
	"armscribe/app/sheet"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// Words for what does not exist.
const (
	atInfinity = "at infinity"
	OutOfReach = "out of reach"
	deadPoint  = "at a dead point"
	levelAxis  = "axis is level"
)

// table is in the order in which figures are listed everywhere. Columns of files
// go by the order of kinematics.Quantity.
var table = [...]Figure{
	{Key: "camber", Name: "Camber", Short: "Camber", Head: "camber", Curve: Curve{"camber", "top out +", 2},
		Kind: sheet.Toe, Of: kinematics.Camber, Given: true, Lights: scene.CamberLine,
		Positive: "top of the wheel leans outboard", Missing: atInfinity,
		Meaning: "Lean of the wheel from the vertical, seen from the front; in roll, to the ground."},
	{Key: "toe", Name: "Toe", Short: "Toe, in +", Head: "toe", Curve: Curve{"toe", "in +", 1},
		Kind: sheet.Toe, Of: kinematics.Toe, Given: true, Lights: scene.TieRodArcs,
		Positive: "toe-in", Missing: atInfinity,
		Meaning: "Angle of one wheel to straight ahead, seen from above; a front view shows it only as bump steer."},
	{Key: "toe_at_rim", Name: "Toe at the rim", Kind: sheet.Length, Of: None, Positive: "toe-in",
		when: hasRim, compute: toeAtRim},
	{Key: "half_track", Name: "Half track", Short: "Half track", Head: "half track", Curve: Curve{"half track", "", 5},
		Kind: sheet.Length, Of: kinematics.HalfTrack, Ground: true, Lights: scene.HalfTrackLine, Missing: atInfinity,
		Meaning: "From the car's centre plane to the tyre's contact centre."},

	{Key: "caster", Name: "Caster", Short: "Caster", Head: "caster", Curve: Curve{"caster", "rear +", 7},
		Kind: sheet.Angle, Of: kinematics.Caster, Group: Axis, Lights: scene.ScrubAxis,
		Positive: "top of the steering axis leans rearward", Missing: atInfinity,
		Meaning: "Lean of the steering axis in side view; it comes from the x of the ball joints, which a front view cannot show."},
	{Key: "steering_axis_inclination", Name: "Axis inclination", Short: "Axis inclination", Head: "axis incl.",
		Kind: sheet.Angle, Of: kinematics.SteeringAxisInclination, Group: Axis, Lights: scene.ScrubAxis,
		Positive: "top of the steering axis leans inboard", Missing: atInfinity,
		Meaning: "Lean of the line through both ball joints, seen from the front."},
	{Key: "scrub_radius", Name: "Scrub radius", Short: "Scrub radius", Head: "scrub", Curve: Curve{"scrub radius", "", 4},
		Kind: sheet.Length, Of: kinematics.ScrubRadius, Group: Axis, Ground: true, Lights: scene.ScrubAxis,
		Positive: "steering axis meets the ground inboard of the tyre centre", Missing: levelAxis,
		Meaning: "Distance at the ground between the tyre's centre line and the line through both ball joints, square to the wheel's heading."},
	{Key: "trail", Name: "Trail", Short: "Trail", Head: "trail",
		Kind: sheet.Length, Of: kinematics.Trail, Group: Axis, Ground: true, Lights: scene.ScrubAxis,
		Positive: "steering axis meets the ground ahead of the tyre centre", Missing: levelAxis,
		Meaning: "Distance at the ground from the tyre centre forward to the steering axis; like caster it needs the x of the ball joints."},

	{Key: "instant_centre_y", Name: "Instant centre, out", Short: "Inst. centre, out", Head: "IC out",
		Kind: sheet.Length, Of: kinematics.InstantCentreY, Digits: -1, Group: Centres, Lights: scene.ArmLines,
		Positive: "on this side of the centre plane", Missing: atInfinity,
		Meaning: "Where the lines of both arms meet, from the centre plane; the wheel turns about it for a moment. Parallel arms have none."},
	{Key: "instant_centre_z", Name: "Instant centre, up", Short: "Inst. centre, up", Head: "IC up",
		Kind: sheet.Length, Of: kinematics.InstantCentreZ, Digits: -1, Group: Centres, Lights: scene.ArmLines,
		Positive: "above the floor the points were measured from", Missing: atInfinity,
		Meaning: "Height of the instant centre in the file's own heights."},
	{Key: "swing_arm", Name: "Swing arm", Short: "Swing arm", Head: "swing arm", Curve: Curve{"swing arm", "", 10},
		Kind: sheet.Length, Of: kinematics.SwingArm, Digits: -1, Group: Centres, Ground: true, Lights: scene.ArmLines,
		Positive: "instant centre inboard of the tyre", Missing: atInfinity,
		Meaning: "Horizontal distance from the tyre's contact centre to the instant centre: the longer, the less camber changes with travel."},
	{Key: "roll_centre_y", Name: "Roll centre, aside", Short: "Roll centre, aside", Head: "RC aside", Curve: Curve{"roll centre, aside", "left +", 11},
		Kind: sheet.Length, Of: kinematics.RollCentreY, Group: Centres, Ground: true, Axle: true, Lights: scene.RollCentre,
		Positive: "toward the car's left", Missing: atInfinity,
		Meaning: "Sideways place of the roll centre; in the centre plane unless the axle is in roll."},
	{Key: "roll_centre_height", Name: "Roll centre", Short: "Roll centre", Head: "RC height", Curve: Curve{"roll centre", "up +", 6},
		Kind: sheet.Length, Of: kinematics.RollCentreHeight, Group: Centres, Ground: true, Axle: true, Lights: scene.RollCentre,
		Positive: "above ground", Missing: atInfinity,
		Meaning: "Height at which the line from tyre to instant centre crosses the centre plane: a construction from geometry, not a pivot that the body really turns about."},

	{Key: "tie_rod_error", Name: "Tie-rod error", Short: "Tie-rod error", Head: "rod error", Curve: Curve{"tie-rod error", "short +", 3},
		Kind: sheet.Length, Of: kinematics.TieRodError, Digits: 1, Group: Rod, Lights: scene.TieRodArcs,
		Positive: "rod too short for the wheel to stay straight", Missing: "toe cannot be held",
		Meaning: "How much longer the tie rod would have to be, at this travel, to hold the wheel at the toe that it has at rest with the rack in this place."},

	{Key: "motion_ratio", Name: "Motion ratio, spring / wheel", Short: "Spring / wheel", Curve: Curve{"motion ratio", "spring / wheel", 12},
		Kind: sheet.Ratio, Of: kinematics.MotionRatio, Group: Spring, Lights: scene.SpringLine, Missing: deadPoint, when: hasSpring,
		Meaning: "Spring travel for each mm of wheel travel."},
	{Key: "motion_ratio_inverse", Name: "Motion ratio, wheel / spring", Short: "Wheel / spring",
		Kind: sheet.Ratio, Of: kinematics.MotionRatio, Group: Spring, Lights: scene.SpringLine, Missing: deadPoint, when: hasSpring, compute: inverse,
		Meaning: "Wheel travel for each mm of spring travel."},
	{Key: "spring_length", Name: "Spring length", Short: "Spring length", Curve: Curve{"spring length", "", 13},
		Kind: sheet.Length, Of: kinematics.SpringLength, Group: Spring, Lights: scene.SpringLine, Missing: atInfinity, when: hasSpring,
		Meaning: "Between the two ends of the spring."},

	{Key: "camber_gain", Name: "Camber gain", Short: "Camber gain", Curve: Curve{"camber gain", "", 9},
		Kind: sheet.Slope, Of: kinematics.CamberGain, Group: Here, Lights: scene.ArmLines,
		Positive: "camber grows in bump", Missing: deadPoint,
		Meaning: "Change of camber for each mm of wheel travel, at this travel."},
	{Key: "ride_toe", Name: "Ride toe", Short: "Ride toe", Curve: Curve{"ride toe", "", 8},
		Kind: sheet.Slope, Of: kinematics.RideToe, Group: Here, Sense: Less, Lights: scene.TieRodArcs,
		Positive: "toes in as the wheel rises", Missing: deadPoint,
		Meaning: "Change of toe for each mm of wheel travel, at this travel: the bump steer."},

	{Key: "camber_gain_at_rest", Name: "Camber gain", Kind: sheet.Slope, Of: None, Group: Rest,
		Positive: "camber grows in bump", Missing: deadPoint, compute: atRest(kinematics.CamberGain)},
	{Key: "ride_toe_at_rest", Name: "Ride toe", Kind: sheet.Slope, Of: None, Group: Rest, Sense: Less,
		Positive: "toes in as the wheel rises", Missing: deadPoint, compute: atRest(kinematics.RideToe)},
	{Key: "camber_in_roll_at_rest", Name: "Camber in roll", Kind: sheet.PerAngle, Of: None, Group: Rest,
		Positive: "camber to the ground grows as this side lifts", Missing: OutOfReach, compute: inRoll(camberRate)},
	{Key: "toe_in_roll_at_rest", Name: "Toe in roll", Kind: sheet.PerAngle, Of: None, Group: Rest,
		Positive: "toes in as this side lifts", Missing: OutOfReach, compute: inRoll(toeRate)},

	{Key: "camber_change_to_bump", Name: "Camber, rest to bump", Kind: sheet.Toe, Of: None, Group: Travel,
		Positive: "top moves outboard", Missing: OutOfReach, when: toEnd(bump), compute: changeTo(bump, kinematics.Camber)},
	{Key: "toe_change_to_bump", Name: "Toe, rest to bump", Kind: sheet.Toe, Of: None, Group: Travel,
		Positive: "toes in", Missing: OutOfReach, when: toEnd(bump), compute: changeTo(bump, kinematics.Toe)},
	{Key: "camber_change_to_droop", Name: "Camber, rest to droop", Kind: sheet.Toe, Of: None, Group: Travel,
		Positive: "top moves outboard", Missing: OutOfReach, when: toEnd(droop), compute: changeTo(droop, kinematics.Camber)},
	{Key: "toe_change_to_droop", Name: "Toe, rest to droop", Kind: sheet.Toe, Of: None, Group: Travel,
		Positive: "toes in", Missing: OutOfReach, when: toEnd(droop), compute: changeTo(droop, kinematics.Toe)},

	{Key: "steering_angle_left", Name: "Left wheel", Curve: Curve{"steer, left", "left +", 14}, Kind: sheet.Toe, Of: None, Group: Steering,
		Positive: "left turn, toe included", Missing: OutOfReach, when: steers, compute: leftAngle},
	{Key: "steering_angle_right", Name: "Right wheel", Curve: Curve{"steer, right", "left +", 15}, Kind: sheet.Toe, Of: None, Group: Steering,
		Positive: "left turn, toe included", Missing: OutOfReach, when: steers, compute: rightAngle},
	{Key: "ackermann_error", Name: "Ackermann error", Curve: Curve{"Ackermann", "outer more +", 16}, Kind: sheet.Toe, Of: None, Group: Steering,
		Positive: "outer wheel turned too far, toward parallel steering", Missing: "wheels not both turned one way", when: hasAckermann, compute: ackermann},

	{Key: DroopLimit, Name: "Droop ends at", Kind: sheet.Taped, Of: None, Group: Range, NoBand: true,
		Positive: "wheel up from rest", Missing: OutOfReach, compute: limit(droop)},
	{Key: BumpLimit, Name: "Bump ends at", Kind: sheet.Taped, Of: None, Group: Range, NoBand: true,
		Positive: "wheel up from rest", Missing: OutOfReach, compute: limit(bump)},
}

// Keys of the ends of the assembled travel. They carry no band: near a dead point a
// small error moves the end by its square root, and a band to first order would be
// wrong.
const (
	DroopLimit = "droop_limit"
	BumpLimit  = "bump_limit"
)
