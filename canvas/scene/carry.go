package scene

import (
	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// Carry takes places at rest to where the pose shown has them, for what one
// carrier carries. It is a turn and a shift. The zero Carry leaves everything
// where it is, bit for bit.
type Carry struct {
	moves    bool
	rows     [3]kinematics.Vec // of the turn
	from, to kinematics.Vec    // a place at rest, and the same place in the pose
}

// Moves tells whether places are elsewhere than at rest.
func (c *Carry) Moves() bool { return c.moves }

// At returns where a place at rest is in the pose shown.
func (c *Carry) At(v kinematics.Vec) kinematics.Vec {
	if !c.moves {
		return v
	}
	return r3.Add(c.to, c.Turn(r3.Sub(v, c.from)))
}

// Turn returns a direction at rest as the pose shown has it.
func (c *Carry) Turn(v kinematics.Vec) kinematics.Vec {
	if !c.moves {
		return v
	}
	return kinematics.Vec{X: r3.Dot(c.rows[0], v), Y: r3.Dot(c.rows[1], v), Z: r3.Dot(c.rows[2], v)}
}

// frame is three directions square to each other.
type frame [3]kinematics.Vec

// turnOf is the turn that takes one frame to another.
func turnOf(from, to frame) (rows [3]kinematics.Vec) {
	for k := range from {
		rows[0] = r3.Add(rows[0], r3.Scale(to[k].X, from[k]))
		rows[1] = r3.Add(rows[1], r3.Scale(to[k].Y, from[k]))
		rows[2] = r3.Add(rows[2], r3.Scale(to[k].Z, from[k]))
	}
	return rows
}

// frameOf is the frame of a direction and of another roughly square to it.
func frameOf(along, aside kinematics.Vec) frame {
	a := r3.Unit(along)
	e := r3.Unit(r3.Sub(aside, r3.Scale(r3.Dot(aside, a), a)))
	return frame{a, e, r3.Cross(a, e)}
}

// carries returns how the corner of a side carries, by clearance.Carrier: rest
// is its pose at rest.
func (s *side) carries(rest *kinematics.Pose) (list [3]Carry) {
	body := &list[clearance.OnBody]
	if s.sin != 0 || s.lift != 0 {
		*body = Carry{moves: true, rows: [3]kinematics.Vec{{X: 1}, {Y: s.cos, Z: -s.sin}, {Y: s.sin, Z: s.cos}},
			from: kinematics.Vec{Z: s.about}, to: kinematics.Vec{Z: s.about + s.lift}}
	}
	if s.pose.Travel == 0 && s.pose.Rack == 0 && !body.moves {
		return list
	}
	list[clearance.OnUpright] = Carry{moves: true, from: rest.LowerBall, to: s.pose.LowerBall,
		rows: turnOf(frameOf(rest.SteeringAxis(), rest.Spin), frameOf(s.pose.SteeringAxis(), s.pose.Spin))}
	list[clearance.OnDamper] = s.damper(body)
	return list
}

// damper is how the spring carries what is part of it: it swings about its end
// on the body, the shortest way, as seen from the body. Without a spring it is
// the body.
func (s *side) damper(body *Carry) Carry {
	if s.c.Spring.Carrier == kinematics.NoSpring {
		return *body
	}
	was := r3.Sub(s.c.Spring.Moving, s.c.Spring.Body)
	is := r3.Sub(s.pose.SpringMoving, s.pose.SpringBody)
	// The body's own turn first, then the swing from there.
	was = body.Turn(was)
	swing := swingOf(was, is)
	c := Carry{moves: true, from: s.c.Spring.Body, to: s.pose.SpringBody, rows: swing}
	if body.moves {
		for k := range c.rows {
			c.rows[k] = r3.Add(r3.Add(r3.Scale(swing[k].X, body.rows[0]), r3.Scale(swing[k].Y, body.rows[1])), r3.Scale(swing[k].Z, body.rows[2]))
		}
	}
	return c
}

// turnedOver keeps the formula of swingOf finite for a strut turned right over,
// which none is.
const turnedOver = 1e-12

// swingOf is the turn that takes a direction to another the shortest way, after
// Rodrigues, with the sine in the axis.
func swingOf(was, is kinematics.Vec) [3]kinematics.Vec {
	was, is = r3.Unit(was), r3.Unit(is)
	k, cos := r3.Cross(was, is), r3.Dot(was, is)
	f := 1 / max(1+cos, turnedOver)
	return [3]kinematics.Vec{
		{X: cos + f*k.X*k.X, Y: f*k.X*k.Y - k.Z, Z: f*k.X*k.Z + k.Y},
		{X: f*k.X*k.Y + k.Z, Y: cos + f*k.Y*k.Y, Z: f*k.Y*k.Z - k.X},
		{X: f*k.X*k.Z - k.Y, Y: f*k.Y*k.Z + k.X, Z: cos + f*k.Z*k.Z},
	}
}
