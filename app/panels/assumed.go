package panels

import (
	"strings"

	"fyne.io/fyne/v2"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

func valueAt(p kinematics.Point, axis int) job.Value {
	return job.Coordinate(kinematics.Coordinate{Point: p, Axis: axis})
}

// assumedHint is the hint of a value, behind the mark that it is assumed if it is.
func assumedHint(v *job.Variant, x job.Value, unit units.Unit, hint string) string {
	switch {
	case v.Assumed.Has(x):
	case x == job.CamberValue && v.CamberWithin > 0:
		return "±" + units.AsTyped(float64(v.CamberWithin)) + "°; " + hint
	case x == job.ToeValue && v.ToeWithin > 0:
		return "±" + units.AsTyped(float64(v.ToeWithin)) + "°; " + hint
	default:
		return hint
	}
	return x.AssumedWords(unit) + "; " + hint
}

// knownMark says how well a point is known where that differs from the others: what
// of it is assumed, else its own error.
func knownMark(v *job.Variant, at kinematics.Point, fields [3]*field, unit units.Unit) string {
	var list []string
	for axis, letter := range "xyz" {
		x := valueAt(at, axis)
		c := kinematics.Coordinate{Point: at, Axis: axis}
		own, _ := v.OwnWithin(c)
		within, known := v.WithinOf(c)
		switch {
		case fields[axis] == nil:
		case v.Assumed.Has(x):
			list = append(list, string(letter)+" "+x.AssumedWords(unit))
		case known && within != own: // moved together with others
			list = append(list, string(letter)+" ±"+units.Taped.Length(within, unit))
		case known:
			list = append(list, string(letter)+" ±"+units.ShortLength(own, unit))
		}
	}
	return strings.Join(list, ", ")
}

// pivotRow asks whether an arm has one pivot, as the front view shows it, or two.
func (p *Points) pivotRow(upper bool) *choiceRow {
	var c *choiceRow
	c = newChoiceRow("pivots", []string{"one", "front and rear"}, func(i int) error {
		if probe := *p.in.Variant; i == 0 {
			if err := probe.OnePivot(upper); err != nil {
				c.choose(1)
				return err
			}
		}
		return p.OnEdit(pivotEdit(upper, i == 1), func(v *job.Variant) { setPivots(v, upper, i == 1) })
	})
	if flat := p.shape.lowerFlat; upper && p.shape.upperFlat || !upper && flat {
		c.choose(0)
	} else {
		c.choose(1)
	}
	return c
}

func pivotEdit(upper, two bool) string {
	arm, pivots := "lower", "one pivot"
	if upper {
		arm = "upper"
	}
	if two {
		pivots = "front and rear pivot"
	}
	return "give " + arm + " arm " + pivots
}

// PivotChange is what a menu offers for an arm's pivots.
type PivotChange struct {
	Words, Edit string
	Change      func(v *job.Variant)
}

// PivotChangeOf returns the change from one pivot to two, or back, for a pivot of
// an arm; false for another point.
func PivotChangeOf(v *job.Variant, at kinematics.Point) (c PivotChange, ok bool) {
	upper := at == kinematics.UpperFront || at == kinematics.UpperRear
	if !upper && at != kinematics.LowerFront && at != kinematics.LowerRear {
		return c, false
	}
	two := upper && v.UpperArm.Flat || !upper && v.LowerArm.Flat
	c = PivotChange{Words: "Make it one pivot, as the front view shows it", Edit: pivotEdit(upper, two), Change: func(v *job.Variant) { setPivots(v, upper, two) }}
	if two {
		c.Words = "Give it a front and a rear pivot"
	}
	return c, true
}

// setPivots changes how many pivots an arm has. An axis across the car has no one
// pivot in the front view; then nothing changes, and the caller says so.
func setPivots(v *job.Variant, upper, two bool) {
	if two {
		v.TwoPivots(upper)
	} else if err := v.OnePivot(upper); err != nil {
		return
	}
}

// ValueField is the field of a value, for the keyboard; nil if it is not here.
func (p *Points) ValueField(x job.Value) fyne.Focusable {
	at, ok := x.Coordinate()
	switch {
	case x == job.CamberValue:
		return p.camber.field
	case x == job.ToeValue:
		return p.toe.field
	case !ok || p.points[at.Point] == nil || p.points[at.Point].fields[at.Axis] == nil:
		return nil
	}
	return p.points[at.Point].fields[at.Axis]
}

// ValueField is the field of a value, for the keyboard; nil if it is not here.
func (w *Wheel) ValueField(x job.Value) fyne.Focusable {
	switch x {
	case job.RimWidthValue:
		return w.rim.field
	case job.OffsetValue:
		return w.offset.field
	}
	return nil
}
