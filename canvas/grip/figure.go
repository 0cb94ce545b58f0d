package grip

import (
	"fmt"
	"math"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// Stance is the position in which a corner is shown: travel and rack in mm,
// roll in rad. In roll the travel is what the roll makes it, and Travel is not
// used. Plan shows it from above, the nose down, and else it is seen from the
// front.
type Stance struct {
	Travel, Rack, Roll float64
	Plan               bool
}

// Figure is a corner solved in a stance: where each handle is seen.
type Figure struct {
	Corner kinematics.Corner
	Pose   kinematics.Pose // of the left wheel; in ground axes when in roll

	plan                  bool
	sin, cos, about, lift float64 // how the body stands: turned about (0, about), then lifted
}

// Solve poses a mechanism. The error is one of [kinematics.Mechanism.At] or Roll.
func Solve(m *kinematics.Mechanism, at Stance) (Figure, error) {
	f := Figure{Corner: m.Corner(), cos: 1, plan: at.Plan}
	if at.Roll == 0 {
		var err error
		f.Pose, err = m.At(at.Travel, at.Rack)
		return f, err
	}
	rest, err := m.At(0, 0)
	if err != nil {
		return f, err
	}
	axle, err := m.Roll(at.Roll, at.Rack)
	if err != nil {
		return f, err
	}
	f.Pose = axle.Left
	f.sin, f.cos = math.Sincos(at.Roll)
	f.about = rest.Contact.Z
	// Kinematics says how far it lifted the body only by where its points went.
	end := f.Corner.TieRod.RackEnd
	end.Y += at.Rack
	f.lift = f.Pose.RackEnd.Z - f.turned(end).Z
	return f, nil
}

// turned returns where a point fixed to the body stands.
func (f *Figure) turned(v kinematics.Vec) kinematics.Vec {
	if f.sin != 0 {
		y, up := v.Y, v.Z-f.about
		v.Y, v.Z = f.cos*y-f.sin*up, f.sin*y+f.cos*up+f.about+f.lift
	}
	return v
}

// body returns where a point fixed to the body is seen.
func (f *Figure) body(v kinematics.Vec) draw.Point { return f.seen(f.turned(v)) }

// seen returns where a place is seen.
func (f *Figure) seen(v kinematics.Vec) draw.Point {
	if f.plan {
		return draw.Point{X: v.Y, Y: -v.X}
	}
	return draw.Point{X: v.Y, Y: v.Z}
}

// Place returns where a handle is seen, mm: a point where it stands, the
// upright midway between its ball joints, the wheel at its centre and the
// ground under the tyre. Asking for a point the corner has not is a caller's
// bug and panics.
func (f *Figure) Place(h scene.Handle) draw.Point {
	switch h {
	case scene.UprightBody:
		return f.seen(f.Pose.LowerBall).Add(f.seen(f.Pose.UpperBall)).Mul(0.5)
	case scene.WheelOutline:
		return f.seen(f.Pose.WheelCentre)
	case scene.GroundLine:
		return f.seen(f.Pose.Contact)
	}
	p, ok := h.Point()
	if !ok || !f.Corner.Has(p) {
		panic(fmt.Sprintf("grip: the corner has no handle %d", h))
	}
	switch p {
	case kinematics.UpperBall:
		return f.seen(f.Pose.UpperBall)
	case kinematics.LowerBall:
		return f.seen(f.Pose.LowerBall)
	case kinematics.OuterEnd:
		return f.seen(f.Pose.OuterEnd)
	case kinematics.HubFace:
		return f.seen(f.Pose.Hub)
	case kinematics.RackEnd:
		return f.seen(f.Pose.RackEnd)
	case kinematics.SpringMoving:
		return f.seen(f.Pose.SpringMoving)
	}
	return f.body(*f.Corner.At(p))
}

// Handles lists what can be taken hold of on a corner, in the fixed order of
// the keyboard: its points, then the upright, the wheel and the ground.
func Handles(c *kinematics.Corner) []scene.Handle {
	list := make([]scene.Handle, 0, 16)
	for _, p := range c.Points() {
		list = append(list, scene.OfPoint(p))
	}
	return append(list, scene.UprightBody, scene.WheelOutline, scene.GroundLine)
}

// Has tells whether a corner has a handle. No corner has NoHandle.
func Has(c *kinematics.Corner, h scene.Handle) bool {
	if p, ok := h.Point(); ok {
		return c.Has(p)
	}
	return h == scene.UprightBody || h == scene.WheelOutline || h == scene.GroundLine
}

// InPlan tells whether a corner's handle can be taken hold of from above: a
// point that has a place along the car. Bodies are moved in the front view.
func InPlan(c *kinematics.Corner, h scene.Handle) bool {
	p, ok := h.Point()
	return ok && c.Has(p) && !flatPivot(c, p)
}
