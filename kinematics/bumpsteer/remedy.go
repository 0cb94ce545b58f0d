package bumpsteer

import (
	"math"

	"armscribe/kinematics"
)

// remedy is a move that takes one part of a toe curve away.
type remedy struct {
	freedom Freedom
	part    func(parts) float64
	// blind is the least change of the part for each mm that counts: below it
	// the move would be metres.
	blind float64
}

var (
	slopeRemedy = remedy{OuterEndHeight, func(p parts) float64 { return p.slope }, 1e-9}
	bowRemedy   = remedy{RackEndSide, func(p parts) float64 { return p.bow }, 1e-12}
)

// remedied is where a remedy ends: the move, mm, and the change of the part for
// each further mm.
type remedied struct{ mm, rate float64 }

// Sizes of the search for a remedy.
const (
	remedySteps  = 40
	remedyHalves = 20
	// remedyEnd is the step, mm, at which the move is found.
	remedyEnd = 1e-9
	// remedyFirst is the longest first step, mm; later ones may double the way made.
	remedyFirst = 25.0
	// remedyMost is the longest move looked for, mm: no rack end is moved farther.
	remedyMost = 1000.0
)

// find moves the freedom until the part is zero: Newton steps on the exact toe
// curve, halved while they leave the reach or make the part larger, so that the
// zero nearest to the present place is come to. A step of first order alone is
// a fifth off where the rod is far from right. False where no zero is within
// reach. The corner returned has the move made.
//
// A small error of a point moves the zero by the change of the part there, over
// its rate there: both belong to the corner as cured, not to the present one.
func (r *remedy) find(c kinematics.Corner, from, to float64) (cured kinematics.Corner, found remedied, ok bool) {
	at := r.freedom.Coordinate()
	value := func(mm float64) (float64, bool) {
		moved := c
		moved.Shift(at, mm)
		p, err := split(moved, from, to)
		return r.part(p), err == nil
	}
	v, ok := value(0)
	if !ok {
		return c, found, false
	}
	for range remedySteps {
		up, ok1 := value(found.mm + step)
		down, ok2 := value(found.mm - step)
		found.rate = (up - down) / (2 * step)
		if !ok1 || !ok2 || !(math.Abs(found.rate) > r.blind) {
			return c, found, false
		}
		by := -v / found.rate
		if math.Abs(by) < remedyEnd {
			c.Shift(at, found.mm)
			return c, found, true
		}
		longest := max(remedyFirst, math.Abs(found.mm))
		by = min(longest, max(-longest, by))
		better := false
		for range remedyHalves {
			next, reaches := value(found.mm + by)
			if better = reaches && math.Abs(next) < math.Abs(v); better {
				found.mm, v = found.mm+by, next
				break
			}
			by /= 2
		}
		if !better || math.Abs(found.mm) > remedyMost {
			return c, found, false
		}
	}
	return c, found, false
}
