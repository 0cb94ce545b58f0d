package trackpage

import (
	"math"

	"armscribe/app/clearance"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
)

// near is a part around the wheel in its section, with its least gap.
type near struct {
	out, up, thick float64 // mm from the hub face and the spin axis
	item           *clearance.Item
}

// Room about the wheel, mm, within which parts are shown.
const (
	nearOut = 160.0
	nearUp  = 90.0
)

// section is the corner that carries the wheel, seen along the car in the wheel's
// own axes: out along its spin axis from the hub face, up square to it.
func (c *corner) section(p kinematics.Vec) (out, up float64) {
	spin, hub := c.pose.Spin, c.pose.Hub
	n := math.Hypot(spin.Y, spin.Z)
	dy, dz := p.Y-hub.Y, p.Z-hub.Z
	return (dy*spin.Y + dz*spin.Z) / n, (dz*spin.Y - dy*spin.Z) / n
}

// nearby are the parts around the wheel that its section shows.
func (a *factsAnswer) nearby(o *outline) (list []near) {
	inner, outer := o.span()
	for i := range a.Gaps.Items {
		it := &a.Gaps.Items[i]
		if it.Err != nil || it.Place == clearance.Brake || it.Place == clearance.Face {
			continue
		}
		n := near{thick: it.Obstacle.Thick, item: it}
		n.out, n.up = a.corner.section(place(&it.Obstacle))
		if n.up > 0 && n.up < o.outer+nearUp && n.out > inner-nearOut && n.out < outer+nearOut {
			list = append(list, n)
		}
	}
	return list
}

// place is the point of an obstacle that a section across the axle shows: of what
// goes along the car where it passes the axle, of a circle or arc its top.
func place(o *swept.Obstacle) kinematics.Vec {
	switch o.Shape {
	case swept.Line:
		t := 0.0
		if d := o.B.X - o.A.X; d != 0 {
			t = max(0, min(-o.A.X/d, 1))
		}
		return kinematics.Vec{X: o.A.X + t*(o.B.X-o.A.X), Y: o.A.Y + t*(o.B.Y-o.A.Y), Z: o.A.Z + t*(o.B.Z-o.A.Z)}
	case swept.Circle:
		return kinematics.Vec{X: o.A.X, Y: o.A.Y, Z: o.A.Z + o.Radius}
	case swept.Arc:
		top := o.A
		for _, p := range []kinematics.Vec{o.B, o.C} {
			if p.Z > top.Z {
				top = p
			}
		}
		return top
	}
	return o.A
}

// links draws upright, upper arm and tie rod as far as the section shows them.
func (a *factsAnswer) links(l *draw.List, s *sketch, left float64) {
	c := &a.corner
	line := func(role draw.Role, from, to kinematics.Vec) {
		x0, y0 := c.section(from)
		x1, y1 := c.section(to)
		t := 1.0 // how much of it is shown, from its outer end
		if y1 < 0 && y0 > y1 {
			t = min(t, max(0, y0/(y0-y1)))
		}
		if x1 < left && x0 > x1 {
			t = min(t, max(0, (x0-left)/(x0-x1)))
		}
		if y0 > 0 && t > 0 {
			l.Line(role, s.at(x0, y0), s.at(x0+t*(x1-x0), y0+t*(y1-y0)))
		}
	}
	l.On(draw.LayerLinks)
	line(draw.Arm, c.pose.UpperBall, pivot(&c.c.Upper))
	line(draw.Arm, c.pose.LowerBall, pivot(&c.c.Lower))
	line(draw.TieRod, c.pose.OuterEnd, c.pose.RackEnd)
	line(draw.Upright, c.pose.UpperBall, c.pose.LowerBall)
	x0, y0 := c.section(c.pose.UpperBall)
	x1, y1 := c.section(c.pose.LowerBall)
	if y1 < 0 && y0 > 0 { // and the stub that carries the hub
		l.Line(draw.Upright, s.at(x0+y0/(y0-y1)*(x1-x0), 0), s.at(-hubThick, 0))
	}
	l.On(draw.LayerHandles)
	if x, y := c.section(c.pose.UpperBall); y > 0 {
		l.Circle(draw.HandleMoving, draw.On(s.at(x, y)), 0, 3.5)
	}
}

// leastPart is the least radius, points, in which a part is drawn.
const leastPart = 3.0

// parts draws what stands around the wheel, each with its name and gap.
func (f *facts) parts(l *draw.List, s *sketch, list []near, w float64) {
	var used []float64
	for i := range list {
		n := &list[i]
		role, words := draw.Obstacle, draw.TextSmall
		if n.item.Verdict != clearance.Kept {
			role, words = draw.ObstacleShort, draw.TextNow
		}
		at := s.at(n.out, n.up)
		l.On(draw.LayerOutlines)
		l.Circle(role, draw.On(at), 0, max(leastPart, s.scale*n.thick))
		text := n.item.Short(f.p.unit())
		if n.item.Verdict == clearance.Kept {
			text = n.item.Obstacle.Name + " " + units.Taped.Length(n.item.Gap.Gap, f.p.unit())
		}
		if r := s.scale * n.thick; n.item.Place == clearance.InRim { // over it runs the barrel
			l.On(draw.LayerNotes)
			l.Text(words, draw.At(at.X-r-4, at.Y-r-8), draw.Right, text)
			continue
		}
		y := at.Y + s.scale*n.thick + 8
		for _, v := range used {
			if math.Abs(v-y) < 14 {
				y = v + 15
			}
		}
		used = append(used, y)
		wide, _, _ := f.picture.Styles.TextSize(words, draw.OnScreen, []byte(text))
		x := max(8, min(at.X-wide/2, w-8-wide))
		l.On(draw.LayerNotes)
		l.Text(words, draw.At(x, y), draw.Left, text)
	}
}
