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

// maxAngleWithin is more than any way of measuring camber or toe is off, degrees.
const maxAngleWithin = 10

// Known is how well every number of a variant is known: the one place that says so.
// What is assumed may be off by its range, a coordinate with an error of its own by
// that, every other one by the job's; errors that move many at once stand beside them; readings that it was fitted to bound them together.
func (j *Job) Known(v *Variant) kinematics.Within {
	w := kinematics.Evenly(j.Within(v))
	for _, x := range v.values() {
		at, isPoint := x.Coordinate()
		own, ok := 0.0, false
		if isPoint {
			own, ok = v.OwnWithin(at)
		}
		switch {
		case x == RimWidthValue: // moves nothing
		case x == CamberValue && !v.Assumed.Has(x) && v.CamberWithin > 0:
			w = w.Measured(at, v.CamberWithin.Radians())
		case x == ToeValue && !v.Assumed.Has(x) && v.ToeWithin > 0:
			w = w.Measured(at, v.ToeWithin.Radians())
		case v.Assumed.Has(x):
			half := x.Range()
			if x == CamberValue || x == ToeValue {
				half = Degrees(half).Radians()
			}
			if isPoint {
				w = w.Measured(at, 0)
			}
			w = w.Assumed(at, half)
		case ok:
			w = w.Measured(at, own)
		}
	}
	if first := &j.Variants[0]; v.Track.Given || first.Track.Given && v.Hub.Y.MM == first.Hub.Y.MM {
		w = w.TrackHeld() // of a proposal, that of the corner it came from
	}
	return j.taught(j.together(w, v), v)
}

// ValueOf returns the value that a coordinate is, or what stands under AtRest.
func ValueOf(at kinematics.Coordinate) Value {
	if at.Point != kinematics.AtRest {
		return Coordinate(at)
	}
	return [...]Value{kinematics.CamberAtRest: CamberValue, kinematics.ToeAtRest: ToeValue, kinematics.WheelOffset: OffsetValue}[at.Axis]
}

// KeyIn is the key, inside its variant, of a corner's coordinate, or of what stands
// under AtRest.
func KeyIn(c *kinematics.Corner, at kinematics.Coordinate) string {
	var v Variant
	v.UpperArm.Flat, v.LowerArm.Flat = c.Upper.Flat, c.Lower.Flat
	return v.KeyOf(ValueOf(at))
}

// NeedsWords say that a value says nothing before an assumption is measured, in few
// words and in full.
func NeedsWords(c *kinematics.Corner, at kinematics.Coordinate) (short, full string) {
	if at.Point != kinematics.AtRest {
		axis := "xyz"[at.Axis : at.Axis+1]
		return "needs " + axis, "needs " + axis + " of " + c.NameOf(at.Point)
	}
	short = [...]string{kinematics.CamberAtRest: "needs camber", kinematics.ToeAtRest: "needs toe", kinematics.WheelOffset: "needs offset"}[at.Axis]
	return short, short
}

// Coordinate returns which coordinate the value is, or what it is under AtRest;
// isPoint is false for these. The rim's width, which moves nothing, is the zero
// coordinate.
func (x Value) Coordinate() (at kinematics.Coordinate, isPoint bool) {
	switch x {
	case CamberValue:
		return kinematics.Coordinate{Point: kinematics.AtRest, Axis: kinematics.CamberAtRest}, false
	case ToeValue:
		return kinematics.Coordinate{Point: kinematics.AtRest, Axis: kinematics.ToeAtRest}, false
	case OffsetValue:
		return kinematics.Coordinate{Point: kinematics.AtRest, Axis: kinematics.WheelOffset}, false
	case RimWidthValue:
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
