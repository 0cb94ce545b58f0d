package grip

import (
	"math"
	"math/bits"

	"armscribe/canvas/scene"
	"armscribe/kinematics"

	"gonum.org/v1/gonum/spatial/r3"
)

// PointSet is a set of points of a corner; the zero set is empty.
type PointSet uint16

// Has tells whether p is in the set.
func (s PointSet) Has(p kinematics.Point) bool { return s&(1<<p) != 0 }

// With returns the set with p in it, or without it.
func (s PointSet) With(p kinematics.Point, in bool) PointSet {
	if in {
		return s | 1<<p
	}
	return s &^ (1 << p)
}

// Locks say what gestures leave as it is. The zero Locks hold nothing. They
// bind the hand only: typed numbers and files go past them.
type Locks struct {
	UpperArm, LowerArm bool // length: ball joint off its pivot axis
	TieRod             bool // length: rack end to outer end
	// Upright keeps the upright as it is: pulling at a ball joint makes its arm
	// longer, and at the outer end the tie rod, and the corner is put together
	// again at its ride height. Else a joint moves in the upright.
	Upright bool
	Height  PointSet
	Side    PointSet // distance from the centre plane
}

// In returns the locks that count in a view: from above no height is changed.
func (l Locks) In(plan bool) Locks {
	if plan {
		l.Height = 0
	}
	return l
}

// Held lists the points of a corner that some lock concerns, for their rings.
func (l Locks) Held(c *kinematics.Corner) []scene.Handle {
	set := l.Height | l.Side
	if l.Upright {
		set |= setOf(kinematics.UpperBall, kinematics.LowerBall, kinematics.OuterEnd)
	}
	for k, on := range [...]bool{l.UpperArm, l.LowerArm, l.TieRod} {
		if on {
			set |= lengths[k].ends
		}
	}
	held := make([]scene.Handle, 0, bits.OnesCount16(uint16(set)))
	for _, p := range c.Points() {
		if set.Has(p) {
			held = append(held, scene.OfPoint(p))
		}
	}
	return held
}

// held is a length that a lock keeps.
type held struct {
	name    string
	ends    PointSet // the points it is measured between
	measure func(*kinematics.Corner) float64
}

func setOf(points ...kinematics.Point) (s PointSet) {
	for _, p := range points {
		s = s.With(p, true)
	}
	return s
}

var lengths = [3]held{
	{"upper arm", setOf(kinematics.UpperFront, kinematics.UpperRear, kinematics.UpperBall),
		func(c *kinematics.Corner) float64 { return armLength(&c.Upper) }},
	{"lower arm", setOf(kinematics.LowerFront, kinematics.LowerRear, kinematics.LowerBall),
		func(c *kinematics.Corner) float64 { return armLength(&c.Lower) }},
	{"tie rod", setOf(kinematics.RackEnd, kinematics.OuterEnd),
		func(c *kinematics.Corner) float64 { return norm(r3.Sub(c.TieRod.OuterEnd, c.TieRod.RackEnd)) }},
}

// armLength is the distance of an arm's ball joint from its pivot axis, mm, as
// Mechanism.ArmLengths has it; 0 when the axis has no direction.
func armLength(a *kinematics.Arm) float64 {
	off := r3.Sub(a.Ball, a.Front)
	if a.Flat {
		return math.Hypot(off.Y, off.Z)
	}
	axis := r3.Sub(a.Front, a.Rear)
	n := norm(axis)
	if n == 0 {
		return 0
	}
	return norm(r3.Cross(off, axis)) / n
}

func norm(v kinematics.Vec) float64 { return math.Sqrt(r3.Dot(v, v)) }

// bound is what the locks leave of one gesture.
type bound struct {
	free    [2]bool // whether the handle may go aside, and up
	curve   []held  // lengths it must keep
	upright bool    // it is held, and what is pulled at grows
	height  bool    // some moved point's height is held
	side    bool
}

// count is how many things are held.
func (b *bound) count() int {
	n := len(b.curve)
	for _, on := range [...]bool{b.upright, b.height, b.side} {
		if on {
			n++
		}
	}
	return n
}

// fast tells whether nothing is left to move.
func (b *bound) fast() bool {
	axes := 0
	for _, f := range b.free {
		if f {
			axes++
		}
	}
	return axes <= len(b.curve)
}

// boundOf gathers the locks that concern the moved points.
func (l Locks) boundOf(moved PointSet, free [2]bool) bound {
	b := bound{free: free, height: moved&l.Height != 0, side: moved&l.Side != 0}
	b.free[0] = b.free[0] && !b.side
	b.free[1] = b.free[1] && !b.height
	for k, on := range [...]bool{l.UpperArm, l.LowerArm, l.TieRod} {
		if on && moved&lengths[k].ends != 0 {
			b.curve = append(b.curve, lengths[k])
		}
	}
	return b
}
