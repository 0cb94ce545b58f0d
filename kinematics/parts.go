package kinematics

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Leg names a member whose length can be adjusted.
type Leg uint8

// The legs. An arm with one front-view pivot has its front leg only, which is
// the whole arm.
const (
	UpperFrontLeg Leg = iota
	UpperRearLeg
	LowerFrontLeg
	LowerRearLeg
	TieRodLeg
	LegCount
)

var legNames = [LegCount]string{"upper arm front leg", "upper arm rear leg", "lower arm front leg", "lower arm rear leg", "tie rod"}

// String returns the leg in the trade's words.
func (l Leg) String() string {
	if l >= LegCount {
		panic(fmt.Sprintf("kinematics: no leg %d", l))
	}
	return legNames[l]
}

// Change is what is done to the parts of a corner, in mm; see Reassemble. The
// upright, with its ball joints, hub face and steering arm, is never among them.
type Change struct {
	// Upper and Lower are by how much the arms grow at their ball joints, square
	// to the pivot axis: what a length of Mechanism.ArmLengths grows by. Both legs
	// of an arm follow, each by its own slant.
	Upper, Lower float64
	Longer       [LegCount]float64 // by which each leg grows, pivot to ball joint or rack end to outer end
	Moved        [RackEnd + 1]Vec  // of the points that are fixed to the body: the arms' pivots and the rack end
	// CutRod cuts the tie rod anew so that toe at rest stays as it was: whatever
	// the change says of its length does not count.
	CutRod bool
}

// Times returns the change done f times over.
func (ch Change) Times(f float64) Change {
	ch.Upper, ch.Lower = ch.Upper*f, ch.Lower*f
	for i := range ch.Longer {
		ch.Longer[i] *= f
	}
	for i := range ch.Moved {
		ch.Moved[i] = r3.Scale(f, ch.Moved[i])
	}
	return ch
}

// Plus returns both changes together.
func (ch Change) Plus(other Change) Change {
	ch.Upper, ch.Lower = ch.Upper+other.Upper, ch.Lower+other.Lower
	for i := range ch.Longer {
		ch.Longer[i] += other.Longer[i]
	}
	for i := range ch.Moved {
		ch.Moved[i] = r3.Add(ch.Moved[i], other.Moved[i])
	}
	ch.CutRod = ch.CutRod || other.CutRod
	return ch
}

// Size is the largest length in the change, mm.
func (ch Change) Size() float64 {
	v := max(math.Abs(ch.Upper), math.Abs(ch.Lower))
	for _, x := range ch.Longer {
		v = max(v, math.Abs(x))
	}
	for _, x := range ch.Moved {
		v = max(v, r3.Norm(x))
	}
	return v
}
