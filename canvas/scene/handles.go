package scene

import (
	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// Points added to the mark of a handle, or kept round it.
const (
	pointedAt = 1.8 // hovered or selected
	handleGap = 9.0 // from a handle to its note
	// obstacleMark is the radius of an obstacle's mark: lesser than that of a point.
	obstacleMark = 3.5
)

// bodyMark is how far, mm, the mark of the ground stands outboard of the tyre.
const bodyMark = 24.0

// spots lists the handles and keeps texts and loupe off them.
func (b *builder) spots() {
	s, out := &b.left, b.out
	for p := kinematics.UpperFront; p <= kinematics.SpringBody; p++ {
		if s.c.Has(p) {
			out.Spots = append(out.Spots, Spot{OfPoint(p), s.place(p), roleOf(p), p.OnBody()})
		}
	}
	f := s.wheelFrame()
	half, r := b.tyreHalf(s), s.c.Wheel.LoadedRadius
	c := s.at(s.pose.Contact)
	out.Spots = append(out.Spots,
		Spot{UprightBody, mid(out.Upright[0], out.Upright[1]), draw.HandleMoving, false},
		Spot{WheelOutline, f.at(half, r/2), draw.HandleMoving, false},
		Spot{GroundLine, draw.Point{X: c.X + half + bodyMark, Y: out.Ground}, draw.HandleFixed, true})
	b.obstacleSpots()
	b.keepOffSpots()
}

// obstacleSpots adds the handles of the obstacles.
func (b *builder) obstacleSpots() {
	if b.show&Clearance == 0 {
		return
	}
	for i := range b.in.Obstacles[:min(len(b.in.Obstacles), MaxObstacles)] {
		o := &b.in.Obstacles[i]
		c := &b.out.Carries[o.Carrier]
		role, onBody := draw.HandleMoving, o.Carrier == clearance.OnBody
		if onBody {
			role = draw.HandleFixed
		}
		for end := range o.Ends() {
			b.out.Spots = append(b.out.Spots, Spot{OfObstacle(i, end), b.left.at(c.At(o.Place(end, b.plan, c))), role, onBody})
		}
	}
}

// keepOffSpots keeps texts and loupe off the handles.
func (b *builder) keepOffSpots() {
	for _, spot := range b.out.Spots {
		at := b.v.Sheet(draw.On(spot.At))
		box := draw.Box{Min: at, Max: at}.Grow(draw.HeldRadius)
		b.addBar(bar{box.Min, box.Max, true, coverHandle})
	}
}

// handles draws the marks of the handles.
func (b *builder) handles() {
	out := b.out
	b.l.On(draw.LayerHandles)
	if out.Rolled {
		b.plainMarks(&b.right)
	}
	// What is fixed first: what moves is taken hold of more often and lies on top.
	for _, onBody := range [2]bool{true, false} {
		for _, spot := range out.Spots {
			if spot.OnBody == onBody {
				b.mark(spot)
			}
		}
	}
}

// tyreHalf is half the width of the tyre as drawn.
func (b *builder) tyreHalf(s *side) float64 {
	t, ok := s.tyreShape()
	if !ok {
		return 0
	}
	return t.half
}

func roleOf(p kinematics.Point) draw.Role {
	switch {
	case p == kinematics.RackEnd:
		return draw.HandleFixedNow
	case p == kinematics.OuterEnd:
		return draw.HandleMovingNow
	case p.OnBody():
		return draw.HandleFixed
	}
	return draw.HandleMoving
}

// mark draws a handle: bodies only while pointed at.
func (b *builder) mark(s Spot) {
	in, l := b.in, b.l
	pointed := s.Handle == in.Hover || s.Handle == in.Selected
	if s.Handle.IsPlace() || pointed || s.Handle == in.Focus {
		by := float64(draw.HandleRadius)
		if _, _, ok := s.Handle.Obstacle(); ok {
			by = obstacleMark
		}
		if pointed {
			by += pointedAt
		}
		l.Circle(s.Role, draw.On(s.At), 0, by)
	}
	for _, h := range in.Held {
		if h == s.Handle {
			l.Held(draw.HandleHeld, s.At)
		}
	}
	if s.Handle == in.Focus {
		l.Circle(draw.Focus, draw.On(s.At), 0, draw.HeldRadius+3)
	}
}

// plainMarks draws the points of the other corner in roll, smaller: they cannot
// be taken hold of.
func (b *builder) plainMarks(s *side) {
	const small = 3.5 // points
	for p := kinematics.UpperFront; p <= kinematics.SpringBody; p++ {
		if s.c.Has(p) {
			b.l.Circle(roleOf(p), draw.On(s.place(p)), 0, small)
		}
	}
}
