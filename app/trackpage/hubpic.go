package trackpage

import (
	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// Parts of a hub that no number tells, mm: drawn so that nothing floats.
const (
	hubThick  = 12.0
	discShare = 0.62 // of the tyre's radius: where a wheel's disc meets the rim, about so
)

// hub draws what holds the wheel: a stub from the upright, the hub, the spacer on
// its face and the wheel's disc on that.
func (v *frontView) hub(c *corner) {
	l, p := v.l, &c.pose
	put := func(along, high float64) draw.Point {
		return v.at(kinematics.Vec{Y: p.Hub.Y + along*p.Spin.Y - high*p.Spin.Z, Z: p.Hub.Z + along*p.Spin.Z + high*p.Spin.Y})
	}
	box := func(role draw.Role, from, to, high float64) {
		l.Polygon(role, put(from, -high), put(to, -high), put(to, high), put(from, high))
	}
	if up := p.UpperBall.Z - p.LowerBall.Z; up > hubRadius { // else there is no upright to see
		t := (p.Hub.Z - p.LowerBall.Z) / up
		l.Line(draw.Upright, v.at(kinematics.Vec{Y: p.LowerBall.Y + t*(p.UpperBall.Y-p.LowerBall.Y), Z: p.Hub.Z}), put(-hubThick, 0))
	}
	box(draw.OutlineInner, -hubThick, 0, hubRadius)
	l.Line(draw.Upright, put(0, -hubRadius), put(0, hubRadius))
	spacer := c.c.Wheel.Spacer
	box(draw.OutlineInner, spacer, spacer+discThick, discShare*c.c.Wheel.LoadedRadius)
	if spacer*v.scale >= leastDrawn {
		box(draw.Outline, 0, spacer, hubRadius)
		const strokes = 7
		for i := range strokes {
			y := -hubRadius + 2*hubRadius*float64(i)/strokes
			l.Line(draw.OutlineInner, put(0, y), put(spacer, y+2*hubRadius/strokes))
		}
	}
	if hubRadius*v.scale < leastNamed {
		return
	}
	l.On(draw.LayerNotes)
	name := draw.On(put(0, discShare*c.c.Wheel.LoadedRadius)).Off(6, 8)
	l.Text(draw.TextSmall, name, draw.Right, "hub face")
	l.LineBy(draw.Leader, name.Off(-6, -2), draw.On(put(0, hubRadius)))
}

// leastNamed is the least size on the picture, points, of a part that is named.
const leastNamed = 16.0

// centre draws the line of the wheel's centre from the ground to over the tyre.
func (v *frontView) centre(c *corner) {
	p := &c.pose
	foot := v.at(p.Contact)
	foot.Y -= 6
	dy, dz := p.WheelCentre.Y-p.Contact.Y, p.WheelCentre.Z-p.Contact.Z
	over := 2.0
	if c.has && dz > 0 {
		over = 1 + c.body.Radius/dz
	}
	top := v.at(kinematics.Vec{Y: p.Contact.Y + over*dy, Z: p.Contact.Z + over*dz})
	v.l.On(draw.LayerConstruction)
	v.l.Line(draw.CentrePlane, foot, draw.Point{X: top.X, Y: top.Y + 4})
	if hubRadius*v.scale < leastNamed {
		return
	}
	v.l.On(draw.LayerNotes)
	v.l.Text(draw.TextSmall, draw.At(top.X, top.Y+6), draw.Centre, "wheel centre")
}
