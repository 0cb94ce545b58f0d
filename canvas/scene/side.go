package scene

import (
	"math"

	"armscribe/canvas/draw"
	"armscribe/kinematics"

	"gonum.org/v1/gonum/spatial/r3"
)

// side is one corner as it stands in the picture: the left one, or the right
// one in its own mirror image.
type side struct {
	mirror  float64 // 1 left, -1 right
	pose    *kinematics.Pose
	c       *kinematics.Corner
	section Section
	plan    bool // seen from above

	// The turn of the body in roll: about the point of the centre plane at the
	// height about, then up by lift.
	sin, cos    float64
	about, lift float64
}

// set makes s show pose, with the body turned by roll in s's own mirror image.
func (s *side) set(mirror float64, pose *kinematics.Pose, c *kinematics.Corner, sec Section, roll, rack float64) {
	*s = side{mirror: mirror, pose: pose, c: c, section: sec, plan: s.plan, cos: 1}
	if roll == 0 {
		return
	}
	s.sin, s.cos = math.Sincos(roll)
	s.about = restGround(c)
	// The rack end is fixed to the body but for its own travel; where the pose
	// has it tells how far the body was lifted.
	end := c.TieRod.RackEnd
	end.Y += rack
	s.lift = pose.RackEnd.Z - s.turned(end).Z
}

// restGround is the height of the ground at rest: that of the contact centre.
func restGround(c *kinematics.Corner) float64 {
	sin, cos := math.Sincos(c.Camber)
	return c.Hub.Z - (c.Wheel.Spacer-c.Wheel.Offset)*sin - c.Wheel.LoadedRadius*cos
}

// at returns where a point of the pose is drawn.
func (s *side) at(v kinematics.Vec) draw.Point {
	if s.plan {
		return draw.Point{X: s.mirror * v.Y, Y: -v.X}
	}
	return draw.Point{X: s.mirror * v.Y, Y: v.Z}
}

// turned returns where a point of the resting body stands.
func (s *side) turned(v kinematics.Vec) kinematics.Vec {
	y, z := v.Y, v.Z-s.about
	v.Y, v.Z = s.cos*y-s.sin*z, s.sin*y+s.cos*z+s.about+s.lift
	return v
}

// body returns where a point of the resting body is drawn.
func (s *side) body(v kinematics.Vec) draw.Point { return s.at(s.turned(v)) }

// place returns where a measured point is drawn.
func (s *side) place(p kinematics.Point) draw.Point {
	switch p {
	case kinematics.UpperBall:
		return s.at(s.pose.UpperBall)
	case kinematics.LowerBall:
		return s.at(s.pose.LowerBall)
	case kinematics.RackEnd:
		return s.at(s.pose.RackEnd)
	case kinematics.OuterEnd:
		return s.at(s.pose.OuterEnd)
	case kinematics.HubFace:
		return s.at(s.pose.Hub)
	case kinematics.SpringMoving:
		return s.at(s.pose.SpringMoving)
	case kinematics.SpringBody:
		return s.at(s.pose.SpringBody)
	}
	return s.body(*s.c.At(p))
}

// axisShare is where the pivot axis of an arm crosses the transverse plane
// through the tyre's contact, as a share of the way from rear to front pivot.
// ok is false if the axis runs across the car and never crosses it.
func (s *side) axisShare(a *kinematics.Arm) (t float64, ok bool) {
	const leastAlong = 0.05 // sine of the axis to the transverse plane
	d := r3.Sub(a.Front, a.Rear)
	if a.Flat || math.Abs(d.X) < leastAlong*r3.Norm(d) {
		return 0.5, a.Flat
	}
	return (s.pose.Contact.X - a.Rear.X) / d.X, true
}

// axisPoint returns a point of the arm's pivot axis.
func (s *side) axisPoint(a *kinematics.Arm, t float64) draw.Point {
	if a.Flat {
		return s.body(a.Front)
	}
	return s.body(r3.Add(a.Rear, r3.Scale(t, r3.Sub(a.Front, a.Rear))))
}

// pivot returns the front-view pivot of an arm: where its axis crosses the
// transverse plane through the contact, but not far outside its own bushings.
func (s *side) pivot(a *kinematics.Arm) draw.Point {
	const beyond = 0.5
	t, _ := s.axisShare(a)
	return s.axisPoint(a, min(max(t, -beyond), 1+beyond))
}

// Pivot is where a corner at rest has the front-view pivot of one of its arms.
func Pivot(c *kinematics.Corner, p *kinematics.Pose, a *kinematics.Arm) draw.Point {
	var s side
	s.set(1, p, c, Section{}, 0, 0)
	return s.pivot(a)
}

// wheelAxes returns the unit directions of the drawing out along the spin axis
// and up in the wheel's plane.
func (s *side) wheelAxes() (out, up draw.Point) {
	n := math.Hypot(s.pose.Spin.Y, s.pose.Spin.Z)
	if n == 0 {
		return draw.Point{X: s.mirror}, draw.Point{Y: 1}
	}
	y, z := s.pose.Spin.Y/n, s.pose.Spin.Z/n
	return draw.Point{X: s.mirror * y, Y: z}, draw.Point{X: -s.mirror * z, Y: y}
}
