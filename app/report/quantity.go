package report

import (
	"math"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// group is a heading of the table of readings. They stand in this order.
type group uint8

const (
	noGroup group = iota
	wheelGroup
	axisGroup
	centreGroup
	rodGroup
	springGroup
	hereGroup
	restGroup
	travelGroup
	steeringGroup
	rangeGroup
)

var groupNames = [...]string{
	wheelGroup: "Wheel", axisGroup: "Steering axis", centreGroup: "Centres in the front view",
	rodGroup: "Tie rod", springGroup: "Spring", hereGroup: "Slopes at this position",
	restGroup: "Slopes at rest", travelGroup: "Over the travel of the job",
	steeringGroup: "Steering, at rest height", rangeGroup: "Travel over which the linkage assembles",
}

func (g group) String() string { return groupNames[g] }

// Quantity describes one line of the readings: a quantity of kinematics, or
// one that follows from several poses.
type Quantity struct {
	Key      string // stable name in files, without the unit
	Name     string
	Kind     kinematics.Kind
	Positive string // when the value is positive
	group    group
	perAngle bool   // Ratio of two angles: its unit is deg/deg
	noBand   bool   // no band is computed for it
	missing  string // what to say where it does not exist
}

// groups tells under which heading each quantity of kinematics stands.
var groups = [kinematics.QuantityCount]group{
	kinematics.Camber: wheelGroup, kinematics.Toe: wheelGroup, kinematics.HalfTrack: wheelGroup,
	kinematics.Caster: axisGroup, kinematics.SteeringAxisInclination: axisGroup,
	kinematics.ScrubRadius: axisGroup, kinematics.Trail: axisGroup,
	kinematics.InstantCentreY: centreGroup, kinematics.InstantCentreZ: centreGroup, kinematics.SwingArm: centreGroup,
	kinematics.RollCentreY: centreGroup, kinematics.RollCentreHeight: centreGroup,
	kinematics.TieRodError: rodGroup,
	kinematics.CamberGain:  hereGroup, kinematics.RideToe: hereGroup,
	kinematics.MotionRatio: springGroup, kinematics.SpringLength: springGroup,
}

// Words for a quantity that does not exist in a pose.
const (
	atInfinity = "at infinity"
	outOfReach = "out of reach"
)

func missingWord(q kinematics.Quantity) string {
	switch q {
	case kinematics.ScrubRadius, kinematics.Trail:
		return "axis does not meet the ground"
	case kinematics.TieRodError:
		return "resting toe not to be held"
	case kinematics.CamberGain, kinematics.RideToe, kinematics.MotionRatio:
		return "at a dead point"
	}
	return atInfinity
}

// known describes a quantity of kinematics.
func known(q kinematics.Quantity) Quantity {
	a := q.About()
	return Quantity{Key: a.Key, Name: a.Name, Kind: a.Kind, Positive: a.Positive, group: groups[q], missing: missingWord(q)}
}

// inUnit converts a value of the kind from mm and radians to the unit of a
// table, and names that unit.
func (q *Quantity) inUnit(v float64, length units.Unit) (float64, string) {
	v, unit := units.InKind(q.Kind, v, length)
	if q.perAngle {
		unit = "deg/deg"
	}
	return v, unit
}

// signed tells whether the sign carries a meaning.
func (q *Quantity) signed() bool { return q.Positive != always }

// always is the word of kinematics for a quantity that has no sign.
const always = "always"

func degrees(rad float64) float64 { return rad * (180 / math.Pi) }
