package grip

import (
	"fmt"
	"math"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// Job is what a gesture needs to know besides the corner.
type Job struct {
	Stance              // as shown
	Bump, Droop float64 // mm the car uses, magnitudes; a gesture warns when they are lost
	Locks       Locks
	Step        float64         // mm of the snap grid: 1, or 25.4/32 where lengths are in inches
	Format      scene.Formatter // for messages; nil stands for scene.Millimetres
	Section     scene.Section   // bounds the loaded radius; zero where the tyre is not known
	// Began is what changes are counted from in words; nil for the corner at the
	// start of the gesture.
	Began *kinematics.Corner
}

// Hand is where the pointer is and what is held down.
type Hand struct {
	At   draw.Point // where the handle is wished, in the shown picture, mm
	Zoom float64    // points per mm: snapping reaches SnapRadius points
	Free bool       // no snapping
	Axis bool       // keep to the nearer axis
}

// Result is a corner under the hand.
type Result struct {
	Corner  kinematics.Corner
	At      draw.Point    // where the handle is seen now
	Guides  []scene.Guide // what it snapped to or is kept on
	Snapped string        // the same in words; empty if it snapped to the grid or to nothing
	Message string        // why it stops, or what was lost; else empty
	AtEdge  bool          // it stops before the pointer, since the linkage reaches no farther
}

// Drag is one gesture. It is read only after Begin.
type Drag struct {
	start  kinematics.Corner
	handle scene.Handle
	job    Job

	figure Figure     // the start corner as shown
	from   draw.Point // where the handle was seen
	q0     setting
	moved  PointSet
	free   [2]bool
	grows  grown

	// direct: the handle is seen where its coordinates say, but for `aside`.
	direct bool
	aside  float64
	// reached: whether the start corner reached droop and bump.
	reached [2]bool
}

// Begin closes the hand on a handle. The error says that the corner cannot be
// shown so. A handle the corner has not, or a job without a step, is a caller's
// bug and panics.
func Begin(start kinematics.Corner, h scene.Handle, job Job) (*Drag, error) {
	if !Has(&start, h) {
		panic(fmt.Sprintf("grip: the corner has no handle %d", h))
	}
	if !(job.Step > 0) {
		panic(fmt.Sprintf("grip: step %g", job.Step))
	}
	d := &Drag{start: start, handle: h, job: job, q0: startOf(&start, h, job.Plan)}
	d.moved, d.free = movedBy(&start, h)
	if d.grows = job.Locks.grows(h); d.grows != noneGrown {
		d.q0 = setting{}
		d.moved, _ = movedBy(&start, scene.UprightBody)
	}
	m, err := kinematics.New(&start)
	if err != nil {
		return nil, err
	}
	if d.figure, err = Solve(&m, job.Stance); err != nil {
		return nil, err
	}
	d.from = d.figure.Place(h)
	d.setDirect()
	for k, h := range d.span() {
		_, err := m.At(h, job.Rack)
		d.reached[k] = err == nil
	}
	return d, nil
}

func (d *Drag) setDirect() {
	if d.grows != noneGrown {
		return
	}
	still := d.job.Roll == 0 && d.job.Travel == 0 && d.job.Rack == 0
	p, isPoint := d.handle.Point()
	switch {
	case !isPoint:
		d.direct = still && d.handle == scene.UprightBody
	case p.OnBody():
		d.direct = d.job.Roll == 0
		if p == kinematics.RackEnd {
			d.aside = d.job.Rack
		}
	default:
		d.direct = still
	}
}

func (d *Drag) span() [2]float64 { return [2]float64{-d.job.Droop, d.job.Bump} }

// bound is what the locks leave of the gesture.
func (d *Drag) bound() bound {
	l := d.job.Locks.In(d.job.Plan)
	if d.grows != noneGrown {
		return l.growing(d.grows, d.moved)
	}
	return l.boundOf(d.moved, d.free)
}

// Handle returns what the hand holds.
func (d *Drag) Handle() scene.Handle { return d.handle }

// Start returns the corner as it was.
func (d *Drag) Start() kinematics.Corner { return d.start }

// From returns where the handle was seen at the start. A pointer that took it
// off its middle keeps that offset: Hand.At is From plus the pointer's way.
func (d *Drag) From() draw.Point { return d.from }

// To returns the corner with the handle where the hand wishes it, as near as
// locks and reach allow. A hand that is not at a finite place is a caller's bug
// and panics.
func (d *Drag) To(hand Hand) Result {
	sum := hand.At.X + hand.At.Y
	if sum-sum != 0 || !(hand.Zoom > 0) {
		panic(fmt.Sprintf("grip: hand at %v, zoom %g", hand.At, hand.Zoom))
	}
	b := d.bound()
	if b.fast() {
		return d.stay(&b)
	}
	if hand.At == d.from {
		return Result{Corner: d.start, At: d.from} // off the grid or on it
	}
	axis := -1
	if hand.Axis && len(b.curve) == 0 && b.free[0] && b.free[1] {
		axis = 0
		if math.Abs(hand.At.Y-d.from.Y) > math.Abs(hand.At.X-d.from.X) {
			axis = 1
		}
		b.free[1-axis] = false
	}
	start := spot{d.q0, d.from}
	snap := d.snap(hand, &b)
	to, err := d.seek(start, snap.at, &b)
	if err != nil && snap.level {
		snap = snapped{at: hand.At}
		to, err = d.seek(start, hand.At, &b)
	}
	r := Result{Guides: d.keptOn(&b, axis)}
	q := to.q
	if err == nil {
		if !hand.Free && len(b.curve) == 0 {
			q = d.toGrid(q, hand.Zoom, &b, &snap)
		}
		if snap.level {
			r.Guides, r.Snapped = append(r.Guides, snap.guide), snap.text
		}
	} else {
		q, r.Message = d.edge(hand.At, err, &b)
		r.AtEdge = true
	}
	d.finish(q, &r)
	return r
}

// By returns the corner with the resting coordinates of the handle changed by
// dy, dz mm: a nudge. The wheel takes dy only, the ground dz only.
func (d *Drag) By(dy, dz float64) Result {
	b := d.bound()
	if b.fast() {
		return d.stay(&b)
	}
	by := [2]float64{dy, dz}
	if d.handle == scene.GroundLine {
		by[1] = -dz // the ground rises as the loaded radius shrinks
	}
	r := Result{Guides: d.keptOn(&b, -1)}
	to, err := d.nudged(by, 1, &b)
	q := to.q
	if err != nil {
		q, r.Message = d.nudgeEdge(by, err, &b)
		r.AtEdge = true
	}
	d.finish(q, &r)
	return r
}

// stay is the answer where locks leave nothing to move.
func (d *Drag) stay(b *bound) Result {
	r := Result{Corner: d.start, At: d.from, Guides: d.keptOn(b, -1)}
	r.Message = "Nothing is left to move: " + b.words() + pick(b.count() == 1, " is", " are") + " held. Let one go to move the " + NameOf(&d.start, d.handle) + "."
	return r
}

// finish fills in the corner of a setting and what it lost.
func (d *Drag) finish(q setting, r *Result) {
	if to, why := d.loaded(q); why != "" {
		q, r.Message, r.AtEdge = to, why, true
	}
	if q == d.q0 {
		r.Corner, r.At = d.start, d.from
		return
	}
	var m kinematics.Mechanism
	var f Figure
	var err error
	if r.Corner, err = d.apply(q); err == nil {
		if m, err = kinematics.New(&r.Corner); err == nil {
			f, err = Solve(&m, d.job.Stance)
		}
	}
	if err != nil {
		panic(fmt.Sprintf("grip: a setting found to assemble does not: %v", err))
	}
	r.At = f.Place(d.handle)
	if r.Message == "" {
		r.Message = d.lost(&m)
	}
}
