package clearance

import (
	"math"

	"armscribe/kinematics"
)

// Face returns how far outboard the upper half of the tyre reaches in a pose,
// as y in mm: what meets the edge of the wing. With the top leaning inboard it
// is the side wall at the height of the spin axis. It panics for a tyre that
// Validate refuses.
//
// Off the spin axis the tyre's points go round in the wheel's plane, and over
// its upper half their y is v (cos t e + sin t f) with e and f the y of the
// plane's upward and forward directions; the largest of that and the reach
// along the spin axis make the support of the section.
func (t Tyre) Face(p *kinematics.Pose) float64 {
	t.must()
	prof := t.profile()
	forward, _ := p.Heading()
	s := p.Spin
	up := -forward.X * s.Z // y of forward x spin, which points up
	off := math.Abs(forward.Y)
	if up > 0 {
		off = math.Hypot(up, forward.Y)
	}
	return p.WheelCentre.Y + max(prof.au*s.Y+prof.av*off+prof.r*math.Hypot(s.Y, off), prof.half*s.Y+prof.widest*off)
}
