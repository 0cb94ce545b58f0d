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
// used.
type Stance struct{ Travel, Rack, Roll float64 }

// Figure is a corner solved in a stance: where each handle is seen.
type Figure struct {
	Corner kinematics.Corner
	Pose   kinematics.Pose // of the left wheel; in ground axes when in roll

	sin, cos, about, lift float64 // how the body stands: turned about (0, about), then lifted
}

// Solve poses a mechanism. The error is one of [kinematics.Mechanism.At] or Roll.
func Solve(m *kinematics.Mechanism, at Stance) (Figure, error) {
	f := Figure{Corner: m.Corner(), cos: 1}
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
	f.lift = f.Pose.RackEnd.Z - f.body(end).Y
	return f, nil
}

// body returns where a point fixed to the body is seen.
func (f *Figure) body(v kinematics.Vec) draw.Point {
	if f.sin == 0 {
		return draw.Point{X: v.Y, Y: v.Z}
	}
	up := v.Z - f.about
	return draw.Point{X: f.cos*v.Y - f.sin*up, Y: f.sin*v.Y + f.cos*up + f.about + f.lift}
}

func front(v kinematics.Vec) draw.Point { return draw.Point{X: v.Y, Y: v.Z} }

// Place returns where a handle is seen, mm: a point where it stands, the
// upright midway between its ball joints, the wheel at its centre and the
// ground under the tyre. Asking for a point the corner has not is a caller's
// bug and panics.
func (f *Figure) Place(h scene.Handle) draw.Point {
	switch h {
	case scene.UprightBody:
		return front(f.Pose.LowerBall).Add(front(f.Pose.UpperBall)).Mul(0.5)
	case scene.WheelOutline:
		return front(f.Pose.WheelCentre)
	case scene.GroundLine:
		return front(f.Pose.Contact)
	}
	p, ok := h.Point()
	if !ok || !f.Corner.Has(p) {
		panic(fmt.Sprintf("grip: the corner has no handle %d", h))
	}
	switch p {
	case kinematics.UpperBall:
		return front(f.Pose.UpperBall)
	case kinematics.LowerBall:
		return front(f.Pose.LowerBall)
	case kinematics.OuterEnd:
		return front(f.Pose.OuterEnd)
	case kinematics.HubFace:
		return front(f.Pose.Hub)
	case kinematics.RackEnd:
		return front(f.Pose.RackEnd)
	case kinematics.SpringMoving:
		return front(f.Pose.SpringMoving)
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
