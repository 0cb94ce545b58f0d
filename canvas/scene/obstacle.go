package scene

import (
	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// GapState says how the least gap of an obstacle stands to the wished one.
type GapState uint8

// The states, from harmless to bad. GapInside stands inside the tyre at rest
// already, so that something is measured wrong.
const (
	GapUnknown GapState = iota
	GapKept
	GapLess
	GapTouches
	GapInside
)

// Short tells whether the gap is less than wished, or none.
func (s GapState) Short() bool { return s >= GapLess }

// Obstacle is something the wheel must not touch, and what is known of its gap.
// Places are those at rest; it is drawn where its carrier has it in the pose
// shown.
type Obstacle struct {
	clearance.Obstacle
	State  GapState
	HasGap bool
	Gap    float64 // least gap, mm, below zero by the depth of the overlap; only if HasGap
	// At is the place on the obstacle where the gap is least, in the pose where it
	// is; Travel, Rack and Roll are that pose. Only if HasGap.
	At                 kinematics.Vec
	Travel, Rack, Roll float64
}

// ObstacleOf puts an obstacle and the answer about its gap together; a nil
// answer is one not known yet.
func ObstacleOf(o clearance.Obstacle, a *clearance.Answer) Obstacle {
	out := Obstacle{Obstacle: o}
	if a == nil {
		return out
	}
	out.HasGap, out.Gap, out.At = true, a.Gap, a.At
	out.Travel, out.Rack, out.Roll = a.Travel, a.Rack, a.Roll
	switch {
	case a.Rest < 0:
		out.State = GapInside
	case a.Gap < 0:
		out.State = GapTouches
	case !a.Keeps():
		out.State = GapLess
	default:
		out.State = GapKept
	}
	return out
}

// Handles of obstacles follow those of the bodies, three for each.
const (
	firstObstacle = Handle(96)
	ends          = 3
	// MaxObstacles is how many obstacles have handles. More are drawn only.
	MaxObstacles = int(NoHandle-firstObstacle) / ends
)

// OfObstacle returns the handle of a place of an obstacle, by its index in
// Input.Obstacles. End 0 is A: the point, an end of line or arc, the centre of the
// circle. End 1 is the other end of line or arc, or the circle's rim, where a hand
// sets its radius; a point has none. End 2 is an arc's place between. An index past MaxObstacles, or another
// end, is a caller's bug and panics.
func OfObstacle(index, end int) Handle {
	if index < 0 || index >= MaxObstacles || end < 0 || end >= ends {
		panic("scene: no handle of an obstacle")
	}
	return firstObstacle + Handle(index*ends+end)
}

// Obstacle returns which obstacle a handle belongs to, and which end of it;
// false for other handles.
func (h Handle) Obstacle() (index, end int, ok bool) {
	if h < firstObstacle || h == NoHandle {
		return 0, 0, false
	}
	n := int(h - firstObstacle)
	return n / ends, n % ends, true
}

// Ends is how many handles an obstacle has.
func (o *Obstacle) Ends() int {
	switch o.Shape {
	case clearance.Point:
		return 1
	case clearance.Arc:
		return ends
	}
	return 2
}

// IsPlace tells whether a handle is a single place: a point of the linkage or
// an end of an obstacle. A body is not.
func (h Handle) IsPlace() bool {
	_, isPoint := h.Point()
	_, _, isObstacle := h.Obstacle()
	return isPoint || isObstacle
}

// Place returns the place at rest of an end of an obstacle; see OfObstacle. A
// circle's rim is where it is seen best, from above if plan and else from the
// front, as c carries it.
func (o *Obstacle) Place(end int, plan bool, c *Carry) kinematics.Vec {
	switch {
	case end == 0:
		return o.A
	case end == 2:
		return o.C
	case o.Shape == clearance.Circle:
		return r3.Add(o.A, r3.Scale(o.Radius, o.Rim(plan, c)))
	}
	return o.B
}
