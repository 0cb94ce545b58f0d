package job

import (
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Range is how far either way a value is likely to lie from what stands there
// while it is assumed, in mm, of camber and toe in degrees: about what road and
// competition cars span. Common practice, no source. What moves nothing has 0.
func (x Value) Range() float64 {
	switch x {
	case CamberValue:
		return 2
	case ToeValue:
		return 0.3
	case OffsetValue:
		return 20
	case RimWidthValue:
		return 0
	}
	return ranges[kinematics.Point(x/3)][x%3]
}

// ranges of the coordinates x, y and z, mm. Beside the pivots the ball joints
// stand close to the wheel, which bounds them.
var ranges = [pointCount][3]float64{
	kinematics.UpperFront:   {60, 80, 50},
	kinematics.UpperRear:    {60, 80, 50},
	kinematics.UpperBall:    {20, 40, 40},
	kinematics.LowerFront:   {60, 80, 50},
	kinematics.LowerRear:    {60, 80, 50},
	kinematics.LowerBall:    {20, 40, 40},
	kinematics.RackEnd:      {40, 80, 50},
	kinematics.OuterEnd:     {40, 40, 40},
	kinematics.HubFace:      {10, 60, 25},
	kinematics.SpringMoving: {60, 80, 80},
	kinematics.SpringBody:   {60, 80, 80},
}

// Doubt is one number of a variant that may be off.
type Doubt struct {
	Value Value
	Half  float64 // how far either way: mm, of camber and toe rad
	// Assumed: nobody has measured it, and Half is its range.
	Assumed bool
}

// Doubts lists every number of a variant that may be off, each independent of
// the others: the coordinates first, in their order, then what is assumed of the
// angles and the wheel. It is the one place that says how well a variant is known.
func (j *Job) Doubts(v *Variant) []Doubt {
	var list []Doubt
	common := j.Within(v)
	for _, x := range v.values() {
		d := Doubt{Value: x, Half: common, Assumed: v.Assumed.Has(x)}
		at, isCoordinate := x.Coordinate()
		switch own, ok := v.ownOf(at, isCoordinate); {
		case d.Assumed:
			d.Half = x.Range()
		case !isCoordinate:
			d.Half = 0 // taken as typed
		case ok:
			d.Half = own
		}
		if x == CamberValue || x == ToeValue {
			d.Half = Degrees(d.Half).Radians()
		}
		if isCoordinate || d.Half > 0 {
			list = append(list, d)
		}
	}
	return list
}

func (v *Variant) ownOf(at kinematics.Coordinate, isCoordinate bool) (mm float64, ok bool) {
	if !isCoordinate {
		return 0, false
	}
	return v.OwnWithin(at)
}

// Coordinate returns which coordinate the value is; false for the others.
func (x Value) Coordinate() (at kinematics.Coordinate, ok bool) {
	if x >= CamberValue {
		return at, false
	}
	return kinematics.Coordinate{Point: kinematics.Point(x / 3), Axis: int(x % 3)}, true
}

// AssumedWords says of a value that it is assumed, and how far off it may be.
func (x Value) AssumedWords(unit units.Unit) string {
	switch half := x.Range(); {
	case half == 0:
		return "assumed"
	case x == CamberValue || x == ToeValue:
		return "assumed ±" + units.AsTyped(half) + "°"
	default:
		return "assumed ±" + units.ShortLength(half, unit)
	}
}

// Assumptions lists the values of a variant that are assumed, in the order in
// which they are typed over.
func (v *Variant) Assumptions() []Value {
	var list []Value
	for _, x := range v.values() {
		if v.Assumed.Has(x) {
			list = append(list, x)
		}
	}
	return list
}
