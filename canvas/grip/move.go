package grip

import (
	"math"

	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// setting is the pair of numbers a gesture changes. What they are depends on
// the handle: a point's resting y and z, from above y and -x, so that the second
// always runs up in the picture; the way the upright goes aside and up;
// for the wheel the spacer, counted on below zero, where it stands for offset;
// for the ground, in the second place, the loaded radius; with the upright held,
// in the first, by how much the member that is pulled at grows. All mm.
type setting [2]float64

// startOf returns the setting of a corner as it is, seen from above if plan.
func startOf(c *kinematics.Corner, h scene.Handle, plan bool) setting {
	switch h {
	case scene.UprightBody:
		return setting{}
	case scene.WheelOutline:
		return setting{c.Wheel.Spacer, 0}
	case scene.GroundLine:
		return setting{0, c.Wheel.LoadedRadius}
	}
	p, _ := h.Point()
	v := c.At(p)
	if plan {
		return setting{v.Y, -v.X}
	}
	return setting{v.Y, v.Z}
}

// movedBy returns the points that go with a handle, and in which directions it
// can go: aside, up.
func movedBy(c *kinematics.Corner, h scene.Handle) (moved PointSet, free [2]bool) {
	switch h {
	case scene.WheelOutline:
		return 0, [2]bool{true, false}
	case scene.GroundLine:
		return 0, [2]bool{false, true}
	case scene.UprightBody:
		moved = setOf(kinematics.UpperBall, kinematics.LowerBall, kinematics.OuterEnd, kinematics.HubFace)
		return moved.With(kinematics.SpringMoving, c.Spring.Carrier == kinematics.OnUpright), [2]bool{true, true}
	}
	p, _ := h.Point()
	return setOf(p), [2]bool{true, true}
}

// apply returns the start corner with the handle at a setting. What the setting
// leaves alone keeps its bits. Only what grows may fail to go together.
func (d *Drag) apply(q setting) (kinematics.Corner, error) {
	if d.grows != noneGrown {
		return kinematics.Reassemble(d.start, d.grows.change(q[0], d.job.Locks.TieRod))
	}
	return d.placed(q), nil
}

// placed is apply for a handle that moves by its coordinates.
func (d *Drag) placed(q setting) kinematics.Corner {
	c := d.start
	switch d.handle {
	case scene.WheelOutline:
		setWheel(&c.Wheel, q[0])
	case scene.GroundLine:
		put(&c.Wheel.LoadedRadius, d.q0[1], q[1])
	case scene.UprightBody:
		for _, p := range c.Points() {
			if d.moved.Has(p) {
				v := c.At(p)
				put(&v.Y, 0, q[0])
				put(&v.Z, 0, q[1])
			}
		}
	default:
		p, _ := d.handle.Point()
		v := c.At(p)
		put(&v.Y, v.Y, q[0])
		if d.job.Plan {
			put(&v.X, v.X, -q[1])
		} else {
			put(&v.Z, v.Z, q[1])
		}
	}
	return c
}

// put adds to - from to x, or nothing if they are equal.
func put(x *float64, from, to float64) {
	switch {
	case to == from:
	case *x == from:
		*x = tidy(to)
	default:
		*x = tidy(*x + (to - from))
	}
}

// setWheel moves the wheel to a spacer that may be below zero. Pushed out, a
// wheel gets more spacer. Pulled in, it first loses its spacer and then gets
// more offset. A spacer below zero, were one given, is not made more so.
func setWheel(w *kinematics.Wheel, spacer float64) {
	least := min(0, w.Spacer)
	if spacer >= least {
		put(&w.Spacer, w.Spacer, spacer)
		return
	}
	w.Spacer = least
	put(&w.Offset, 0, least-spacer)
}

// Adding and rounding leave 612.1 + 0.1 a few times 1e-13 beside 612.2. tidy
// returns the number with six decimals where x is one but for such dust; six
// hold a tenth of 1/32 in exactly.
const (
	tidyDecimals = 1e6
	dust         = 1e-11
)

func tidy(x float64) float64 {
	if t := math.Round(x*tidyDecimals) / tidyDecimals; math.Abs(t-x) < dust {
		return t
	}
	return x
}
