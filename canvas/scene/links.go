package scene

import (
	"armscribe/canvas/draw"
	"armscribe/kinematics"

	"gonum.org/v1/gonum/spatial/r3"
)

func vec(y, z float64) kinematics.Vec { return kinematics.Vec{Y: y, Z: z} }

// corners draws the corner shown, in roll both.
func (b *builder) corners() {
	b.corner(&b.left)
	if b.out.Rolled {
		b.corner(&b.right)
	}
	b.out.Upright = [2]draw.Point{b.left.at(b.left.pose.LowerBall), b.left.at(b.left.pose.UpperBall)}
}

func (b *builder) corner(s *side) {
	b.wheel(s)
	b.spring(s)
	b.links(s)
}

// links draws arms, upright and tie rod. An arm is the line from its front-view
// pivot to the ball joint, with its legs drawn thin to the bushings.
func (b *builder) links(s *side) {
	l, p := b.l, s.pose
	upper, lower, outer := s.at(p.UpperBall), s.at(p.LowerBall), s.at(p.OuterEnd)
	if s == &b.left && (b.in.Hover == UprightBody || b.in.Selected == UprightBody) {
		b.glow(true, lower, upper)
	}
	l.On(draw.LayerLinks)
	b.legs(s, &s.c.Upper, kinematics.UpperFront, upper)
	b.legs(s, &s.c.Lower, kinematics.LowerFront, lower)
	l.Line(draw.OutlineInner, s.at(s.steeringArmFoot()), outer)
	l.Line(draw.Upright, lower, upper)
	l.Line(draw.Arm, s.pivot(&s.c.Upper), upper)
	l.Line(draw.Arm, s.pivot(&s.c.Lower), lower)
	l.Line(draw.TieRod, s.at(p.RackEnd), outer)
}

func (b *builder) legs(s *side, a *kinematics.Arm, front kinematics.Point, ball draw.Point) {
	if a.Flat {
		return
	}
	f, r := s.place(front), s.place(front+1)
	b.l.Line(draw.OutlineInner, f, ball)
	b.l.Line(draw.OutlineInner, r, ball)
	b.l.Line(draw.Construction, f, r)
}

// steeringArmFoot is the point of the steering axis nearest to the outer end.
func (s *side) steeringArmFoot() kinematics.Vec {
	p := s.pose
	axis := p.SteeringAxis()
	return r3.Add(p.LowerBall, r3.Scale(r3.Dot(r3.Sub(p.OuterEnd, p.LowerBall), axis), axis))
}

// Sizes of the spring's symbol: mm, and shares of its length.
const (
	coilHalf   = 19.0 // half width
	coilFrom   = 0.34
	coilTo     = 0.88
	coilTurns  = 8
	damperHalf = 12.0
	damperFrom = 0.08
)

// spring draws a coil-over between its ends; its width is a symbol.
func (b *builder) spring(s *side) {
	if s.c.Spring.Carrier == kinematics.NoSpring {
		return
	}
	from, to := s.at(s.pose.SpringMoving), s.at(s.pose.SpringBody)
	d := to.Sub(from)
	n := d.Len()
	if n < kinematics.MinSpan {
		return // seen from its end
	}
	u := d.Mul(1 / n)
	side := draw.Point{X: -u.Y, Y: u.X}
	at := func(t, across float64) draw.Point { return from.Add(d.Mul(t)).Add(side.Mul(across)) }
	b.glow(b.lit&SpringLine != 0, from, to)
	l := b.l
	l.On(draw.LayerOutlines)
	half, damper := min(coilHalf, n/6), min(damperHalf, n/10)
	// The damper's body at the moving end, the coil around its rod at the other.
	l.Polygon(draw.OutlineInner, at(damperFrom, -damper), at(coilFrom, -damper), at(coilFrom, damper), at(damperFrom, damper))
	l.Line(draw.OutlineInner, from, at(damperFrom, 0))
	l.Line(draw.OutlineInner, at(coilTo, 0), to)
	l.Line(draw.OutlineInner, at(coilFrom, -half), at(coilFrom, half))
	l.Line(draw.OutlineInner, at(coilTo, -half), at(coilTo, half))
	step := (coilTo - coilFrom) / (2*coilTurns + 1)
	l.Add(draw.On(at(coilFrom, -half)))
	for i := 1; i <= 2*coilTurns+1; i++ {
		l.Add(draw.On(at(coilFrom+step*float64(i), half*float64(i%2*2-1))))
	}
	l.End(draw.OutlineInner, false)
}
