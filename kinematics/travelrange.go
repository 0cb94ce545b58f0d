package kinematics

import (
	"math"
)

// Steps of the walk from rest along the drive angle.
const (
	walkStep      = 1.0 / 64 // rad
	walkSmallStep = walkStep / 16
	// bindTolerance: how closely the drive angle of a limit is found, rad.
	// 1e-13 rad of a 500 mm arm is 5e-11 mm.
	bindTolerance = 1e-13
)

// walkClear is the clearance below which the walk takes small steps, lest it
// jump over a short stretch where the linkage does not assemble. A whole step
// of a 400 mm arm is 6 mm: it could pass an axis 20 mm away by.
var walkClear = clearance{open: 0.1, near: 20}

// TravelLimit is one end of the range over which the linkage assembles.
type TravelLimit struct {
	Travel float64 // mm
	Link   Link    // the member that binds there
}

// TravelRange is the travel over which the linkage assembles. Neither end lies
// farther off than MaxLength, the most that At can be asked for.
type TravelRange struct{ Droop, Bump TravelLimit }

// Range finds both ends of the travel at a rack position, walking from rest.
// The error is a *ReachError without a limit when the linkage does not assemble
// with the rack there and the lower arm as at rest, and matches ErrUnreachable.
func (m *Mechanism) Range(rack float64) (TravelRange, error) {
	var r TravelRange
	for _, dir := range []float64{-1, 1} {
		w := walker{m: m, rack: rack}
		if err := w.start(0); err != nil {
			return r, err
		}
		for w.step(dir) {
		}
		end := &r.Bump
		if (dir > 0) != (m.rise > 0) {
			end = &r.Droop
		}
		*end = TravelLimit{Travel: max(-MaxLength, min(w.at.travel, MaxLength)), Link: w.link}
	}
	return r, nil
}

// walker goes from the resting drive angle in one direction, step by step,
// until a link binds.
type walker struct {
	m                *Mechanism
	rack             float64
	pose             Pose
	from, before, at waypoint // first, last but one and last assembled
	link             Link     // what bound, once step has returned false
	looks            int      // positions assembled so far
}

type waypoint struct {
	drive, travel, rise float64
	moves, clear        bool // rise is known; clear of full reach
}

// start stands the walker at the resting drive angle.
func (w *walker) start(travel float64) error {
	at, link := w.look(0)
	if link != NoLink {
		short, tooLong := w.m.lacks(link, &w.pose)
		return &ReachError{Link: link, Short: short, TooLong: tooLong, Travel: travel, Rack: w.rack}
	}
	w.from, w.before, w.at = at, at, at
	return nil
}

// look assembles the linkage at a drive angle.
func (w *walker) look(drive float64) (waypoint, Link) {
	w.looks++
	if link := w.m.assemble(math.Sin(drive), math.Cos(drive), w.rack, &w.pose); link != NoLink {
		return waypoint{}, link
	}
	v, ok := w.m.move(&w.pose)
	rise := w.m.rise // at full reach of another link, which is no dead point of the lower arm
	if ok {
		rise = v.rise(&w.pose)
	}
	return waypoint{
		drive:  drive,
		travel: w.pose.WheelCentre.Z - w.m.restZ,
		rise:   rise,
		moves:  ok,
		clear:  w.m.isClear(&w.pose, walkClear),
	}, NoLink
}

// step goes on by one step, or up to the place where a link binds; then it
// returns false and stands there. The rise changing sign is a dead point of
// the lower arm: the wheel centre turns back although the arm goes on.
func (w *walker) step(dir float64) bool {
	size := walkStep
	if !w.at.clear {
		size = walkSmallStep
	}
	next, link := w.look(w.at.drive + dir*size)
	if link == NoLink && w.goesOn(next) {
		w.before, w.at = w.at, next
		return true
	}
	w.before = w.at
	w.bind(w.at.drive + dir*size)
	return false
}

// walk goes on until a travel is passed, and tells whether it was.
func (w *walker) walk(travel float64) bool {
	dir := 1.0
	if (travel < w.from.travel) != (w.m.rise < 0) {
		dir = -1
	}
	passed := func() bool { return (w.at.travel-travel)*(w.from.travel-travel) <= 0 }
	for w.step(dir) && !passed() {
	}
	return passed()
}

// goesOn tells whether the wheel moves on in its direction at the next place.
// Where another link is at full reach no rate says so, but the heights do: arms
// on one axis with the upright in their plane turn as one, for ever.
func (w *walker) goesOn(next waypoint) bool {
	if next.moves {
		return next.rise*w.m.rise > 0
	}
	return (next.travel-w.at.travel)*(next.drive-w.at.drive)*w.m.rise > 0
}

// bind halves the stretch between the last assembled place and one beyond it.
func (w *walker) bind(beyond float64) {
	for math.Abs(beyond-w.at.drive) > bindTolerance {
		mid := w.at.drive + (beyond-w.at.drive)/2
		next, link := w.look(mid)
		if link == NoLink && next.rise*w.m.rise <= 0 {
			link = LowerArm
		}
		if link == NoLink {
			w.at = next
		} else {
			beyond, w.link = mid, link
		}
	}
	if w.link == NoLink { // the first place beyond stood within the tolerance
		w.link = LowerArm
	}
}

// unreachable builds the error for a travel beyond the place where the walker
// stands: the lower arm is turned on until its ball joint has risen by what is
// missing, and the binding link measured there.
func (w *walker) unreachable(travel float64) error {
	m := w.m
	more := travel - w.at.travel
	e := &ReachError{Link: w.link, Short: math.Abs(more), Travel: travel, Rack: w.rack, Limit: w.at.travel, HasLimit: true}
	m.assemble(math.Sin(w.at.drive), math.Cos(w.at.drive), w.rack, &w.pose)
	sin, cos, ok := m.raiseBall(w.pose.LowerBall.Z + more)
	if !ok || w.link == LowerArm {
		return e
	}
	link := m.assemble(sin, cos, w.rack, &w.pose)
	if short, tooLong := m.lacks(link, &w.pose); short > 0 {
		e.Link, e.Short, e.TooLong = link, short, tooLong
	}
	return e
}

// lacks returns by how many mm a link that keeps a pose from assembling is
// short, or too long; 0 for one that does not.
func (m *Mechanism) lacks(link Link, p *Pose) (short float64, tooLong bool) {
	switch link {
	case UpperArm:
		short, tooLong = m.upper.miss(p.LowerBall, m.upright)
		// An upright that reaches past the whole circle wants a longer arm.
		return short, !tooLong && circleThrough(p.LowerBall, m.upper.centre, m.upper.axis).radius < m.upper.radius
	case TieRodLink:
		steer := m.steeringCircle(p)
		return steer.miss(p.RackEnd, m.rod)
	}
	return 0, false
}

// raiseBall turns the lower arm until its ball joint is at height z, on the
// side of its circle on which it rests.
func (m *Mechanism) raiseBall(z float64) (sin, cos float64, ok bool) {
	a, b, c := m.lower0.Z, m.lower90.Z, z-m.lower.centre.Z
	r2 := a*a + b*b
	s := r2 - c*c
	if s < 0 || r2 == 0 {
		return 0, 1, false
	}
	root := math.Copysign(math.Sqrt(s), b)
	return (b*c - a*root) / r2, (a*c + b*root) / r2, true
}
