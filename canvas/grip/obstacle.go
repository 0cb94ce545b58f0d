package grip

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// ObstacleJob is what a gesture on an obstacle needs to know besides it.
type ObstacleJob struct {
	Carry  scene.Carry     // of the obstacle's carrier, in the pose shown
	Plan   bool            // seen from above: the hand changes y and x, and else y and z
	Step   float64         // mm of the snap grid
	Format scene.Formatter // nil stands for scene.Millimetres
	Levels []Level         // what the gesture snaps level with
}

// Level is a place in the picture that others may stand level with.
type Level struct {
	At   draw.Point
	Name string
}

// ObstacleResult is an obstacle under the hand.
type ObstacleResult struct {
	Obstacle clearance.Obstacle // places at rest
	Guides   []scene.Guide
	Snapped  string // what it snapped to in words; else empty
	Message  string // why it stops; else empty
}

// ObstacleDrag is one gesture on an end of an obstacle. It is read only after
// BeginObstacle, and like with Drag the same place gives the same bits. What
// the hand moves are the two coordinates at rest that the view shows; the third
// stays.
type ObstacleDrag struct {
	start clearance.Obstacle
	end   int
	job   ObstacleJob
	from  draw.Point
	// How a place in the picture follows the two numbers, and the unit way of the
	// rim of a circle.
	along [2]draw.Point
	det   float64
	rim   draw.Point
}

// leastDet: below it the shown pose turns the obstacle so far that the view
// does not tell the two coordinates apart.
const leastDet = 0.1

// BeginObstacle closes the hand on an end of an obstacle; see scene.OfObstacle.
// An end it has not, or a job without a step, is a caller's bug and panics.
func BeginObstacle(o clearance.Obstacle, end int, job ObstacleJob) *ObstacleDrag {
	seen := scene.Obstacle{Obstacle: o}
	if end < 0 || end >= seen.Ends() {
		panic(fmt.Sprintf("grip: the obstacle has no end %d", end))
	}
	if !(job.Step > 0) {
		panic(fmt.Sprintf("grip: step %g", job.Step))
	}
	d := &ObstacleDrag{start: o, end: end, job: job}
	d.from = d.seen(job.Carry.At(seen.Place(end, job.Plan, &d.job.Carry)))
	d.along[0] = d.seen(job.Carry.Turn(kinematics.Vec{Y: 1}))
	d.along[1] = d.seen(job.Carry.Turn(kinematics.Vec{Z: 1}))
	if job.Plan {
		d.along[1] = d.seen(job.Carry.Turn(kinematics.Vec{X: -1}))
	}
	d.det = d.along[0].X*d.along[1].Y - d.along[0].Y*d.along[1].X
	if d.isRim() {
		d.rim = d.seen(job.Carry.Turn(seen.Rim(job.Plan, &d.job.Carry)))
	}
	return d
}

func (d *ObstacleDrag) isRim() bool { return d.end == 1 && d.start.Shape == clearance.Circle }

// seen is where the view has a place.
func (d *ObstacleDrag) seen(v kinematics.Vec) draw.Point {
	if d.job.Plan {
		return draw.Point{X: v.Y, Y: -v.X}
	}
	return draw.Point{X: v.Y, Y: v.Z}
}

// Start returns the obstacle as it was.
func (d *ObstacleDrag) Start() clearance.Obstacle { return d.start }

// From returns where the handle was seen at the start.
func (d *ObstacleDrag) From() draw.Point { return d.from }

// Unchanged is the result of a hand that has not moved.
func (d *ObstacleDrag) Unchanged() ObstacleResult { return ObstacleResult{Obstacle: d.start} }

// place is the place at rest that the hand moves.
func (d *ObstacleDrag) place(o *clearance.Obstacle) *kinematics.Vec {
	switch {
	case d.end == 1 && o.Shape != clearance.Circle:
		return &o.B
	case d.end == 2:
		return &o.C
	}
	return &o.A
}

// setting returns the two numbers that the hand changes, aside and up in the
// picture.
func (d *ObstacleDrag) setting(o *clearance.Obstacle) setting {
	v := d.place(o)
	if d.job.Plan {
		return setting{v.Y, -v.X}
	}
	return setting{v.Y, v.Z}
}

// set returns the start with other numbers; what stays keeps its bits.
func (d *ObstacleDrag) set(q setting) clearance.Obstacle {
	o := d.start
	v, was := d.place(&o), d.setting(&d.start)
	put(&v.Y, was[0], q[0])
	if q[1] != was[1] {
		if d.job.Plan {
			v.X = tidy(-q[1]) + 0 // no negative zero
		} else {
			v.Z = tidy(q[1])
		}
	}
	return o
}

// To returns the obstacle with its end where the hand wishes it. A hand that is
// not at a finite place is a caller's bug and panics.
func (d *ObstacleDrag) To(hand Hand) ObstacleResult {
	sum := hand.At.X + hand.At.Y
	if sum-sum != 0 || !(hand.Zoom > 0) {
		panic(fmt.Sprintf("grip: hand at %v, zoom %g", hand.At, hand.Zoom))
	}
	if hand.At == d.from {
		return d.Unchanged()
	}
	if d.isRim() {
		way := hand.At.Sub(d.seen(d.job.Carry.At(d.start.A)))
		radius := way.X*d.rim.X + way.Y*d.rim.Y
		if to := round(radius, d.job.Step); !hand.Free && math.Abs(to-radius)*hand.Zoom <= SnapRadius {
			radius = to
		}
		return d.ofRadius(radius)
	}
	if math.Abs(d.det) < leastDet {
		r := d.Unchanged()
		r.Message = "In this pose the view shows the obstacle from its end. Move it at rest height, the wheels straight."
		return r
	}
	var r ObstacleResult
	free := [2]bool{true, true}
	if hand.Axis {
		keep := 1
		if math.Abs(hand.At.Y-d.from.Y) > math.Abs(hand.At.X-d.from.X) {
			keep = 0
			hand.At.X = d.from.X
		} else {
			hand.At.Y = d.from.Y
		}
		free[keep] = false
		r.Guides = append(r.Guides, scene.Guide{Y: d.from.X, Z: d.from.Y, Level: keep == 1})
	}
	level := free[1] && d.snap(&hand, &r)
	q := d.solve(hand.At)
	if !hand.Free {
		q = d.toGrid(q, hand, free, level)
	}
	return d.finish(q, r)
}

// solve returns the numbers that put the handle at a place of the picture.
func (d *ObstacleDrag) solve(at draw.Point) setting {
	if !d.job.Carry.Moves() {
		return setting{at.X, at.Y}
	}
	was, way := d.setting(&d.start), at.Sub(d.from)
	u, v := d.along[0], d.along[1]
	return setting{was[0] + (way.X*v.Y-way.Y*v.X)/d.det, was[1] + (u.X*way.Y-u.Y*way.X)/d.det}
}

// snap moves the hand level with the nearest place worth it.
func (d *ObstacleDrag) snap(hand *Hand, r *ObstacleResult) bool {
	if hand.Free {
		return false
	}
	nearest, found := SnapRadius/hand.Zoom, -1
	for i, l := range d.job.Levels {
		if away := math.Abs(l.At.Y - hand.At.Y); away < nearest {
			nearest, found = away, i
		}
	}
	if found < 0 {
		return false
	}
	l := &d.job.Levels[found]
	hand.At.Y = l.At.Y
	r.Guides = append(r.Guides, scene.Guide{Y: l.At.X, Z: l.At.Y, Level: true})
	r.Snapped = "level with the " + l.Name
	if d.job.Plan {
		r.Snapped = "abreast of the " + l.Name
	}
	return true
}

// toGrid rounds the numbers to the grid where it is within reach. An end that
// stands level with something stays so.
func (d *ObstacleDrag) toGrid(q setting, hand Hand, free [2]bool, level bool) setting {
	near := q
	for k := range near {
		if !free[k] || k == 1 && level {
			continue
		}
		if to := round(q[k], d.job.Step); math.Abs(to-q[k])*hand.Zoom <= SnapRadius {
			near[k] = to
		}
	}
	if up := d.along[1].Y; level && d.job.Carry.Moves() && near[0] != q[0] && math.Abs(up) > leastDet {
		near[1] = q[1] - d.along[0].Y*(near[0]-q[0])/up
	}
	return near
}

// By returns the obstacle with the numbers at rest changed: a nudge, right and
// up in the picture. The rim grows by either.
func (d *ObstacleDrag) By(right, up float64) ObstacleResult {
	if d.isRim() {
		by := up
		if by == 0 {
			by = right
		}
		return d.ofRadius(tidy(d.start.Radius + by))
	}
	q := d.setting(&d.start)
	q[0] += right
	q[1] += up
	return d.finish(q, ObstacleResult{})
}

// ofRadius is the circle with another radius, within its limits.
func (d *ObstacleDrag) ofRadius(radius float64) ObstacleResult {
	r := d.Unchanged()
	to := max(kinematics.MinSpan, min(radius, kinematics.MaxLength))
	if to != radius {
		r.Message = "Stops at a radius of " + length(d.job.Format, to) + "."
	}
	r.Obstacle.Radius = tidy(to)
	return r
}

// finish keeps the end within the limits of a job and off the other end.
func (d *ObstacleDrag) finish(q setting, r ObstacleResult) ObstacleResult {
	for k := range q {
		if to := max(-kinematics.MaxLength, min(q[k], kinematics.MaxLength)); to != q[k] {
			q[k] = to
			r.Message = "Stops at " + length(d.job.Format, kinematics.MaxLength) + " from the middle of the axle."
		}
	}
	r.Obstacle = d.set(q)
	if d.start.Shape == clearance.Arc {
		return d.arc(q, r)
	}
	if d.start.Shape != clearance.Line {
		return r
	}
	moved, other := d.place(&r.Obstacle), r.Obstacle.A
	if d.end == 0 {
		other = r.Obstacle.B
	}
	if r3.Norm(r3.Sub(*moved, other)) >= kinematics.MinSpan {
		return r
	}
	// A line needs two ends: beside the other one, on the side it came from.
	was := *d.place(&d.start)
	*moved = r3.Add(other, r3.Scale(endsApart, r3.Unit(r3.Sub(was, other))))
	r.Message = "Stops at the other end: a line needs two."
	return r
}

// arc keeps three places an arc: a hand that would bend it straight, or put two of
// them in one place, stops on its way there.
func (d *ObstacleDrag) arc(q setting, r ObstacleResult) ObstacleResult {
	if _, ok := r.Obstacle.Round(); ok {
		return r
	}
	const halvings = 40
	from := d.setting(&d.start)
	good, bad := 0.0, 1.0
	for range halvings {
		s := (good + bad) / 2
		o := d.set(setting{from[0] + s*(q[0]-from[0]), from[1] + s*(q[1]-from[1])})
		if _, ok := o.Round(); ok {
			good, r.Obstacle = s, o
		} else {
			bad = s
		}
	}
	if good == 0 {
		r.Obstacle = d.start
	}
	r.Message = "Stops: three places in line make no arc. Choose shape line for a straight edge."
	return r
}

// endsApart is the distance that is left between the ends of a line, mm: a
// little over what one must have, for rounding.
const endsApart = 1.001 * kinematics.MinSpan
