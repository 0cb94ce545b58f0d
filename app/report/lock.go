package report

import (
	"errors"
	"fmt"
	"math"

	"armscribe/app/job"
	"armscribe/app/room"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// ErrNoSteering: the axle has no rack; for errors.Is.
var ErrNoSteering = errors.New("this is a rear axle with a fixed toe link: it does not steer, and has neither lock nor turning circle")

// Lock is how one variant's front wheels steer from stop to stop of the rack, at
// rest height, what ends the lock, and the circle there.
type Lock struct {
	Source    Source
	Rows      []LockRow  // from the right stop to the left
	Ways      [2]LockWay // to the right, to the left
	Obstacles int        // of the job that the steered wheel can meet
	NoTyre    bool       // the tyre's size is not known: neither obstacles nor circle
}

// LockRow is the steering at one place of the rack.
type LockRow struct {
	kinematics.Steering
	LeftBand, RightBand, ErrorBand float64 // 95 %, rad
	Missing                        string  // why there are no angles; empty when there are
}

// Ideal is the angle that the outer wheel would have to turn for both to roll
// about one point, rad, positive to the left; ok is false where the Ackermann
// error is not known. left tells that the left wheel is the outer one.
func (r *LockRow) Ideal() (angle float64, left, ok bool) {
	if !r.HasError || r.Missing != "" {
		return 0, false, false
	}
	if r.Left < 0 { // a right turn
		return r.Left + r.AckermannError, true, true
	}
	return r.Right - r.AckermannError, false, true
}

// EndedBy says what ends the rack's way.
type EndedBy uint8

// What ends a way.
const (
	ByStop     EndedBy = iota
	ByObstacle         // of the job
	ByLinkage          // the linkage reaches no farther
)

// LockWay is the lock one way.
type LockWay struct {
	Stop  float64 // mm of rack, with its sign
	AtEnd LockEnd // as far as the rack goes
	// Kept is as far as every wished gap is kept, Touch as far as nothing touches.
	// Both are AtEnd where no obstacle comes so near.
	Kept, Touch LockEnd
}

// LockEnd is one place at which a way may end.
type LockEnd struct {
	LockRow
	By       EndedBy
	Obstacle string // ByObstacle: which,
	Wheel    string // to which wheel: left, right, or either with the rack in the middle,
	Travel   float64
	Cause    string // ByLinkage: which link lacks how much
	// Circle is the turning circle there, with its 95 % bands; only if HasCircle.
	Circle             clearance.TurningCircle
	WallBand, KerbBand float64 // mm
	HasCircle          bool
	// Contact is where the left and the right tyre meet the ground, mm, the right
	// one's y below zero; only without Missing.
	Contact [2]kinematics.Vec

	gradient gradient // of its facts
}

// lockTravels is at how many places of the travel the lock is looked at.
const lockTravels = 21

// LockOf steers one variant of a job without problems from stop to stop, in
// steps of mm; 0 chooses a round one. Errors match ErrNoSteering or ErrSpec, or
// name the variant and are those of its geometry and of package clearance.
func LockOf(j *job.Job, variant int, step float64) (*Lock, error) {
	l := &Lock{Source: SourceOf(j, variant)}
	s := &l.Source
	if s.Rear {
		return nil, ErrNoSteering
	}
	if step == 0 {
		step = roundStep(max(s.RackLeft, s.RackRight), s.Unit)
	}
	if sp := (Spec{From: -s.RackRight, To: s.RackLeft, Step: step}); sp.Check() != nil {
		return nil, sp.Check()
	}
	m, err := s.mechanism()
	if err != nil {
		return nil, err
	}
	racks := rackPlaces(s.RackRight, s.RackLeft, step)
	l.Rows = s.steered(m, racks)
	w := lockWork{s: s, m: m, travel: places(-s.Droop, s.Bump, lockTravels)}
	body, ok := room.TyreOf(&j.Variants[variant])
	l.NoTyre = !ok
	w.around, w.hasTyre = clearance.Case{Tyre: body}, ok
	for i := range j.Obstacles {
		if j.Obstacles[i].On != job.OnUpright {
			w.around.Obstacles = append(w.around.Obstacles, room.ObstacleOf(&j.Obstacles[i], kinematics.Vec{}))
		}
	}
	l.Obstacles = len(w.around.Obstacles)
	for i, stop := range [...]float64{-s.RackRight, s.RackLeft} {
		if l.Ways[i], err = w.way(stop); err != nil {
			return nil, s.named(err)
		}
	}
	return l, nil
}

// LockCurve is the steering of one variant of a job without problems at n+1 even
// places from the right stop to the left. Errors as of LockOf.
func LockCurve(j *job.Job, variant, n int) ([]LockRow, error) {
	s := SourceOf(j, variant)
	if s.Rear {
		return nil, ErrNoSteering
	}
	m, err := s.mechanism()
	if err != nil {
		return nil, err
	}
	return s.steered(m, places(-s.RackRight, s.RackLeft, n+1)), nil
}

// lockStations is into how many steps, about, a chosen step cuts the longer way.
const lockStations = 6

// roundStep is a step of 1, 2 or 5 tenfolds, mm, or of halves of an inch.
func roundStep(way float64, u units.Unit) float64 {
	least := way / lockStations
	unit := units.In(1, u)
	if !(least > 0) {
		return 1
	}
	ten := math.Pow10(int(math.Floor(math.Log10(least * unit))))
	for _, k := range [...]float64{1, 2, 5} {
		if k*ten >= least*unit {
			return k * ten / unit
		}
	}
	return 10 * ten / unit
}

// rackPlaces are whole steps both ways from the middle, and both stops. A step
// that would fall within half of one before a stop is left out.
func rackPlaces(right, left, step float64) []float64 {
	const crowded = 0.5
	side := func(stop float64) []float64 {
		var list []float64
		for k := 1.0; k*step < stop-crowded*step; k++ {
			list = append(list, k*step)
		}
		if stop > 0 {
			list = append(list, stop)
		}
		return list
	}
	var list []float64
	r := side(right)
	for i := len(r) - 1; i >= 0; i-- {
		list = append(list, -r[i])
	}
	return append(append(list, 0), side(left)...)
}

// steered solves places of the rack, with the bands of the angles.
func (s *Source) steered(m *kinematics.Mechanism, racks []float64) []LockRow {
	const each = 3 // facts at a place
	rows := make([]LockRow, len(racks))
	for i, rack := range racks {
		rows[i].Rack = rack
		st, err := m.Steering(rack, s.Wheelbase)
		if err != nil {
			rows[i].Missing = oneLine(err.Error())
			continue
		}
		rows[i].Steering = st
	}
	of := func(m *kinematics.Mechanism) []fact {
		list := make([]fact, 0, each*len(racks))
		for _, rack := range racks {
			st, err := m.Steering(rack, s.Wheelbase)
			list = append(list, fact{st.Left, err == nil}, fact{st.Right, err == nil}, fact{st.AckermannError, err == nil && st.HasError})
		}
		return list
	}
	g := s.slopes(of(m), of)
	for i := range rows {
		r := &rows[i]
		least := rounding(kinematics.Angle)
		r.LeftBand, r.RightBand, r.ErrorBand = g.half(s.Within, each*i, least).half, g.half(s.Within, each*i+1, least).half, g.half(s.Within, each*i+2, least).half
	}
	return rows
}

// lockWork looks for the ends of the lock.
type lockWork struct {
	s       *Source
	m       *kinematics.Mechanism
	travel  []float64
	around  clearance.Case
	hasTyre bool
}

func (w *lockWork) way(stop float64) (LockWay, error) {
	out := LockWay{Stop: stop}
	end := LockEnd{By: ByStop}
	end.Rack = stop
	if _, err := w.m.Steering(stop, 0); err != nil {
		end.By, end.Cause, end.Rack = ByLinkage, oneLine(err.Error()), w.reach(stop)
	}
	out.AtEnd = w.finish(end)
	out.Kept, out.Touch = out.AtEnd, out.AtEnd
	if !w.hasTyre || len(w.around.Obstacles) == 0 {
		return out, nil
	}
	kept, err := w.free(end.Rack, w.around)
	if err != nil || kept.By != ByObstacle {
		return out, err
	}
	out.Kept = w.finish(kept)
	bare := w.around
	bare.Obstacles = append([]clearance.Obstacle{}, bare.Obstacles...)
	for i := range bare.Obstacles {
		bare.Obstacles[i].Wish = 0
	}
	touch, err := w.free(end.Rack, bare)
	if err == nil && touch.By == ByObstacle {
		out.Touch = w.finish(touch)
	}
	return out, err
}

// reach is how far toward a stop out of reach the linkage goes.
func (w *lockWork) reach(stop float64) float64 {
	good, bad := 0.0, stop
	for range reachSteps {
		mid := good + (bad-good)/2
		if _, err := w.m.Steering(mid, 0); err == nil {
			good = mid
		} else {
			bad = mid
		}
	}
	return good
}

var sideNames = map[bool]string{true: "left", false: "right"}

// free is how far the rack goes until the first of both wheels comes too near
// to an obstacle; the right side is the left one's mirror image.
func (w *lockWork) free(stop float64, around clearance.Case) (LockEnd, error) {
	out := LockEnd{By: ByStop}
	out.Rack = stop
	for _, sign := range [...]float64{1, -1} {
		l, err := clearance.LockLeft(w.m, around, w.travel, sign*stop)
		if err != nil {
			return out, err
		}
		if l.Limited && (out.By == ByStop || math.Abs(l.Rack) < math.Abs(out.Rack)) {
			out.By, out.Rack, out.Travel = ByObstacle, sign*l.Rack+0, l.Travel
			out.Obstacle, out.Wheel = around.Obstacles[l.Obstacle].Name, sideNames[sign > 0]
			if out.Rack == 0 {
				out.Wheel = "either"
			}
		}
	}
	return out, nil
}

// Places of an end's facts: sizes of angles, and of the circle.
const (
	leftFact = iota
	rightFact
	errorFact
	wallFact
	kerbFact
)

// finish works out steering and circle at the end's place of the rack.
func (w *lockWork) finish(e LockEnd) LockEnd {
	e.LockRow = w.s.steered(w.m, []float64{e.Rack})[0]
	for i, sign := range [...]float64{1, -1} {
		if p, err := w.m.At(0, sign*e.Rack); err == nil {
			e.Contact[i] = kinematics.Vec{X: p.Contact.X, Y: sign * p.Contact.Y, Z: p.Contact.Z}
		} // else the row says so
	}
	circle := func(m *kinematics.Mechanism) (clearance.TurningCircle, bool) {
		if !w.hasTyre || w.s.Wheelbase <= 0 {
			return clearance.TurningCircle{}, false
		}
		c, err := clearance.TurningCircleAt(m, w.around.Tyre, e.Rack, w.s.Wheelbase)
		return c, err == nil // straight on there is none
	}
	of := func(m *kinematics.Mechanism) []fact {
		st, err := m.Steering(e.Rack, w.s.Wheelbase)
		c, ok := circle(m)
		return []fact{leftFact: {math.Abs(st.Left), err == nil}, rightFact: {math.Abs(st.Right), err == nil},
			errorFact: {math.Abs(st.AckermannError), err == nil && st.HasError}, wallFact: {c.WallToWall, ok}, kerbFact: {c.KerbToKerb, ok}}
	}
	e.Circle, e.HasCircle = circle(w.m)
	e.gradient = w.s.slopes(of(w.m), of)
	least := rounding(kinematics.Length)
	e.WallBand, e.KerbBand = e.gradient.half(w.s.Within, wallFact, least).half, e.gradient.half(w.s.Within, kerbFact, least).half
	return e
}

// Words say what ends a way.
func (e *LockEnd) Words(u units.Unit) string {
	switch e.By {
	case ByObstacle:
		if e.Rack == 0 {
			return fmt.Sprintf("%s, either wheel: too near with the rack in the middle, at travel %s", oneLine(e.Obstacle), signedLength(e.Travel, u))
		}
		return fmt.Sprintf("%s, %s wheel, at travel %s", oneLine(e.Obstacle), e.Wheel, signedLength(e.Travel, u))
	case ByLinkage:
		return "the linkage: " + e.Cause
	}
	return "rack stop"
}
