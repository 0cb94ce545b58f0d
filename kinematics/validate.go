package kinematics

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Limits on angles and on how squarely parts must stand to each other. They
// keep out what no car has and what a typing slip makes.
const (
	MaxStaticAngle = math.Pi / 4 // rad, camber and toe at rest
	// minAxisSine is the least sine of the angle between steering axis and
	// wheel spin axis: below it, turning the upright would not steer the wheel.
	minAxisSine = 0.05
	// minRise is the least rise of the wheel centre per radian of lower arm,
	// mm: below it the arm stands on its dead point and the wheel has no travel.
	minRise = 1.0
)

// Validate reports everything that keeps the corner from being a mechanism at
// rest, joined with errors.Join; each part is a *GeometryError and matches
// ErrGeometry. It returns nil for a corner that New accepts.
func (c *Corner) Validate() error {
	var v validation
	v.coordinates(c)
	if len(v.errs) > 0 {
		return errors.Join(v.errs...) // distances between wild numbers would only repeat it
	}
	v.arm("upper arm", &c.Upper, UpperFront, UpperRear, UpperBall)
	v.arm("lower arm", &c.Lower, LowerFront, LowerRear, LowerBall)
	v.upright(c)
	v.guide(c)
	v.wheel(c)
	if len(v.errs) == 0 {
		v.deadPoint(c)
	}
	return errors.Join(v.errs...)
}

type validation struct{ errs []error }

func (v *validation) add(p Point, place, problem, value, cure string) {
	v.errs = append(v.errs, &GeometryError{Point: p, Place: place, Problem: problem, Value: value, Cure: cure})
}

// measured adds a problem with lengths that were found: form names each as %s.
func (v *validation) measured(p Point, place, problem, form, cure string, lengths ...float64) {
	e := &GeometryError{Point: p, Place: place, Problem: problem, Cure: cure, form: form, lengths: lengths}
	e.Value = e.ValueIn(func(mm float64) string {
		if math.Abs(mm) < 1 {
			return fmt.Sprintf("%.3g mm", mm)
		}
		return fmt.Sprintf("%.5g mm", mm)
	})
	v.errs = append(v.errs, e)
}

func (v *validation) coordinates(c *Corner) {
	for _, at := range c.Coordinates() {
		p := *c.At(at.Point)
		x := [3]float64{p.X, p.Y, p.Z}[at.Axis]
		if !finite(x) {
			v.add(at.Point, c.NameOf(at.Point), fmt.Sprintf("%c is not within ±10 m", "xyz"[at.Axis]),
				fmt.Sprintf("%.5g mm", x), "check the number and its unit")
		}
	}
	for _, s := range []struct {
		place string
		x     float64
	}{{"wheel offset", c.Wheel.Offset}, {"wheel spacer", c.Wheel.Spacer}, {"loaded radius", c.Wheel.LoadedRadius}} {
		if !finite(s.x) {
			v.add(HubFace, s.place, "is not within ±10 m", fmt.Sprintf("%.5g mm", s.x), "check the number and its unit")
		}
	}
	for _, s := range []struct {
		place string
		x     float64
	}{{"camber at rest", c.Camber}, {"toe at rest", c.Toe}} {
		if !(math.Abs(s.x) <= MaxStaticAngle) {
			v.add(HubFace, s.place, "is not within ±45 degrees", fmt.Sprintf("%.5g degrees", s.x*180/math.Pi), "check the number and its unit")
		}
	}
}

func (v *validation) arm(place string, a *Arm, front, rear, ball Point) {
	on, along := a.axis()
	if !a.Flat {
		if d := length(along); d < MinSpan {
			v.measured(front, place+", front and rear pivot", "two pivots stand in one place",
				"%s apart", "measure both ends of the pivot axis, or give one front-view pivot", d)
			return
		}
	}
	if r := circleThrough(a.Ball, on, unit(along)).radius; r < MinSpan {
		v.measured(ball, place, "is too short to reach: its ball joint stands on its own pivot axis",
			"%s off the axis", "check ball joint and pivots", r)
	}
}

func (v *validation) upright(c *Corner) {
	axis := r3.Sub(c.Upper.Ball, c.Lower.Ball)
	if d := length(axis); d < MinSpan {
		v.measured(UpperBall, "upper and lower ball joint", "both ball joints stand in one place",
			"%s apart", "check both ball joints", d)
		return
	}
	a := unit(axis)
	if c.Upper.Ball.Z <= c.Lower.Ball.Z {
		v.measured(UpperBall, "upper and lower ball joint", "the upper ball joint is not above the lower one",
			"z %s and %s", "check both heights", c.Upper.Ball.Z, c.Lower.Ball.Z)
	}
	if r := circleThrough(c.TieRod.OuterEnd, c.Lower.Ball, a).radius; r < MinSpan {
		v.measured(OuterEnd, "outer tie-rod end", "stands on the steering axis, so there is no steering arm",
			"%s off the axis", "check the outer end and both ball joints", r)
	}
	if r := circleThrough(c.TieRod.RackEnd, c.Lower.Ball, a).radius; r < MinSpan {
		v.measured(RackEnd, "rack end", "stands on the steering axis, so the tie rod cannot steer",
			"%s off the axis", "check the rack end", r)
	}
	if d := length(r3.Sub(c.TieRod.OuterEnd, c.TieRod.RackEnd)); d < MinSpan {
		v.measured(OuterEnd, "tie rod", "rack end and outer end stand in one place",
			"%s apart", "check both ends", d)
	}
	if s := length(r3.Cross(a, spinAxis(c.Camber, c.Toe))); s < minAxisSine {
		v.add(UpperBall, "ball joints and hub", "the steering axis runs along the wheel's spin axis",
			fmt.Sprintf("%.2f degrees apart", math.Asin(s)*180/math.Pi), "check the ball joints")
	}
}

// guide: seen from a point of its own pivot axis the upper ball joint is always
// equally far, so with the lower ball joint there the upper arm guides nothing.
func (v *validation) guide(c *Corner) {
	on, along := c.Upper.axis()
	if length(along) == 0 {
		return // reported with the arm
	}
	if r := circleThrough(c.Lower.Ball, on, unit(along)).radius; r < MinSpan {
		v.measured(LowerBall, "lower ball joint", "stands on the upper arm's pivot axis, so the upper arm does not hold the upright",
			"%s off the axis", "check lower ball joint and upper pivots", r)
	}
}

func (v *validation) wheel(c *Corner) {
	if r := c.Wheel.LoadedRadius; r < MinSpan {
		v.measured(HubFace, "loaded radius", "must be above zero", "%s",
			"measure from the wheel centre down to the ground", r)
	}
	if s := c.Spring; s.Carrier != NoSpring {
		if d := length(r3.Sub(s.Moving, s.Body)); d < MinSpan {
			v.measured(SpringMoving, "spring", "both ends stand in one place", "%s apart", "check both ends", d)
		}
		if s.Carrier > OnUpright {
			panic(fmt.Sprintf("kinematics: no carrier %d", s.Carrier))
		}
	}
}

func (v *validation) deadPoint(c *Corner) {
	m := build(c)
	if math.Abs(m.rise) < minRise {
		v.measured(LowerBall, "lower arm", "stands on its dead point: turning it does not lift the wheel",
			"%s per radian", "check pivots and ball joint", m.rise)
	}
}
