package job

import (
	"fmt"
	"math"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// Position is a point on the car; see the conventions of package kinematics.
type Position struct {
	X, Y, Z units.Length
	Within  Within // its own, of a measured point
}

// At returns the position of plain numbers, in mm.
func At(v kinematics.Vec) Position {
	return Position{X: units.Length{MM: v.X}, Y: units.Length{MM: v.Y}, Z: units.Length{MM: v.Z}}
}

// Vec returns the point in mm.
func (p Position) Vec() kinematics.Vec {
	return kinematics.Vec{X: p.X.MM, Y: p.Y.MM, Z: p.Z.MM}
}

// Set moves the point. A coordinate that stays keeps the way it was typed.
func (p *Position) Set(v kinematics.Vec) {
	setLength(&p.X, v.X)
	setLength(&p.Y, v.Y)
	setLength(&p.Z, v.Z)
}

func setLength(l *units.Length, mm float64) {
	if l.MM != mm {
		*l = units.Length{MM: mm}
	}
}

// radPerDegree turns the file's angles into the mechanism's.
const radPerDegree = math.Pi / 180

// Radians returns the angle as the mechanism takes it.
func (d Degrees) Radians() float64 { return float64(d) * radPerDegree }

// DegreesOf returns an angle in radians as the file states it.
func DegreesOf(rad float64) Degrees { return Degrees(rad / radPerDegree) }

// Corner returns the variant as the mechanism takes it.
func (v *Variant) Corner() kinematics.Corner {
	radius, _ := v.LoadedRadius()
	return kinematics.Corner{
		Upper:  v.UpperArm.arm(),
		Lower:  v.LowerArm.arm(),
		TieRod: kinematics.TieRod{RackEnd: v.TieRod.RackEnd.Vec(), OuterEnd: v.TieRod.OuterEnd.Vec()},
		Hub:    v.Hub.Vec(),
		Camber: v.Camber.Radians(),
		Toe:    v.Toe.Radians(),
		Wheel:  kinematics.Wheel{Offset: v.Wheel.Offset.MM, Spacer: v.Wheel.Spacer.MM, LoadedRadius: radius},
		Spring: kinematics.Spring{Carrier: v.Spring.CarriedBy, Moving: v.Spring.Moving.Vec(), Body: v.Spring.Body.Vec()},
	}
}

func (a *Arm) arm() kinematics.Arm {
	if a.Flat {
		return kinematics.FlatArm(a.Front.Vec(), a.Ball.Vec())
	}
	return kinematics.Arm{Front: a.Front.Vec(), Rear: a.Rear.Vec(), Ball: a.Ball.Vec()}
}

// Position returns the named point in place, with the way it was typed.
func (v *Variant) Position(p kinematics.Point) *Position {
	switch p {
	case kinematics.UpperFront:
		return &v.UpperArm.Front
	case kinematics.UpperRear:
		return &v.UpperArm.Rear
	case kinematics.UpperBall:
		return &v.UpperArm.Ball
	case kinematics.LowerFront:
		return &v.LowerArm.Front
	case kinematics.LowerRear:
		return &v.LowerArm.Rear
	case kinematics.LowerBall:
		return &v.LowerArm.Ball
	case kinematics.RackEnd:
		return &v.TieRod.RackEnd
	case kinematics.OuterEnd:
		return &v.TieRod.OuterEnd
	case kinematics.HubFace:
		return &v.Hub
	case kinematics.SpringMoving:
		return &v.Spring.Moving
	case kinematics.SpringBody:
		return &v.Spring.Body
	}
	panic(fmt.Sprintf("job: no point %d", p))
}

// Point returns the named point in mm.
func (v *Variant) Point(p kinematics.Point) kinematics.Vec { return v.Position(p).Vec() }

// SetPoint moves the named point, in mm. A coordinate that stays keeps the way
// it was typed.
func (v *Variant) SetPoint(p kinematics.Point, to kinematics.Vec) { v.Position(p).Set(to) }

// pointKey is the point's key inside its variant.
func (v *Variant) pointKey(p kinematics.Point) string {
	switch {
	case p == kinematics.UpperFront && v.UpperArm.Flat:
		return "upper_arm.pivot"
	case p == kinematics.LowerFront && v.LowerArm.Flat:
		return "lower_arm.pivot"
	}
	return pointKeys[p]
}

var pointKeys = map[kinematics.Point]string{
	kinematics.UpperFront:   "upper_arm.front_pivot",
	kinematics.UpperRear:    "upper_arm.rear_pivot",
	kinematics.UpperBall:    "upper_arm.ball_joint",
	kinematics.LowerFront:   "lower_arm.front_pivot",
	kinematics.LowerRear:    "lower_arm.rear_pivot",
	kinematics.LowerBall:    "lower_arm.ball_joint",
	kinematics.RackEnd:      "tie_rod.rack_end",
	kinematics.OuterEnd:     "tie_rod.outer_end",
	kinematics.HubFace:      "hub",
	kinematics.SpringMoving: "spring.moving_end",
	kinematics.SpringBody:   "spring.body_end",
}
