package grip

import (
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// grown is the member that a hand makes longer by pulling at its outer joint
// with the upright held.
type grown uint8

const (
	noneGrown grown = iota
	upperArm
	lowerArm
	tieRod
)

// grows tells what pulling at a handle makes longer. Without a held upright a
// pull moves the joint in the upright, and nothing grows.
func (l Locks) grows(h scene.Handle) grown {
	if p, ok := h.Point(); ok && l.Upright {
		switch p {
		case kinematics.UpperBall:
			return upperArm
		case kinematics.LowerBall:
			return lowerArm
		case kinematics.OuterEnd:
			return tieRod
		}
	}
	return noneGrown
}

// Remakes tells whether pulling at a handle makes another upright: a ball joint
// that is not held to it.
func (l Locks) Remakes(h scene.Handle) bool {
	p, ok := h.Point()
	return ok && !l.Upright && (p == kinematics.UpperBall || p == kinematics.LowerBall)
}

// name is that of the member.
func (g grown) name() string { return lengths[g-1].name }

// change makes the member mm longer. The tie rod is cut anew for the toe, unless
// its length is held.
func (g grown) change(mm float64, rodHeld bool) kinematics.Change {
	ch := kinematics.Change{CutRod: !rodHeld}
	switch g {
	case upperArm:
		ch.Upper = mm
	case lowerArm:
		ch.Lower = mm
	case tieRod:
		ch.CutRod = false
		ch.Longer[kinematics.TieRodLeg] = mm
	}
	return ch
}

// growing is bound for a member that grows: one number is free, which goes aside
// with the pointer, unless something is held that would have to move.
func (l Locks) growing(g grown, moved PointSet) bound {
	b := bound{free: [2]bool{true, false}, upright: true, height: moved&l.Height != 0, side: moved&l.Side != 0}
	if [...]bool{l.UpperArm, l.LowerArm, l.TieRod}[g-1] {
		b.curve = []held{lengths[g-1]}
	}
	b.free[0] = !b.height && !b.side && len(b.curve) == 0
	return b
}
