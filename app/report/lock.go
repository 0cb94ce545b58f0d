package report

import (
	"errors"
	"fmt"
	"math"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
)

// ErrNoSteering: the axle has no rack; for errors.Is.
var ErrNoSteering = errors.New("this is a rear axle with a fixed toe link: it does not steer, and has neither lock nor turning circle")

// Lock is how one variant's front wheels steer from stop to stop of the rack, at
// rest height, what ends the lock, and the circle there.
type Lock struct {
	Source    Source
	Rows      []LockRow  // from the right stop to the left
	Ways      [2]LockWay // turning right, turning left, whichever way the rack moves for it
	Obstacles int        // of the job that the steered wheel can meet
	NoTyre    bool       // the tyre's size is not known: neither obstacles nor circle
}

// LockRow is the steering at one place of the rack.
type LockRow struct {
	kinematics.Steering
	LeftBand, RightBand, ErrorBand float64 // 95 %, rad; only if HasBands
	// HasBands is false where the tape's error may put the place out of reach, as
	// at the end of the linkage: nobody knows the bands there.
	HasBands bool
	Missing  string // why there are no angles; empty when there are
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
	Cause    string // ByLinkage: which link binds
	// Circle is the turning circle there, with the 95 % band of both diameters;
	// only if HasCircle, and WallToWall only if HasWall.
	Circle             swept.TurningCircle
	CircleBand         float64 // mm; only if HasCircleBand
	HasCircle, HasWall bool
	HasCircleBand      bool
	// Contact is where the left and the right tyre meet the ground, mm, the right
	// one's y below zero; only without Missing.
	Contact [2]kinematics.Vec

	linear kinematics.Linear // of its facts
}

// LockOf steers one variant of a job without problems from stop to stop, in
// steps of mm; 0 chooses a round one. Errors match ErrNoSteering or ErrSpec, or
// name the variant and are those of its geometry and of kinematics/clearance.
func LockOf(j *job.Job, variant int, step float64) (*Lock, error) {
	l := &Lock{Source: SourceOf(j, variant)}
	s := &l.Source
	if s.Rear {
		return nil, ErrNoSteering
	}
	if step == 0 {
		step = RackStep(j, s.Unit)
	}
	if sp := (Spec{From: -s.RackRight, To: s.RackLeft, Step: step}); sp.Check() != nil {
		return nil, sp.Check()
	}
	m, err := s.Mechanism()
	if err != nil {
		return nil, err
	}
	racks := rackPlaces(s.RackRight, s.RackLeft, step)
	l.Rows = s.steered(m, racks)
	w := lockWork{s: s, m: m, travel: places(-s.Droop, s.Bump, lockTravels), asked: map[lockAsk]swept.Lock{}}
	w.tyre, w.hasTyre = clearance.TyreOf(&j.Variants[variant])
	l.NoTyre = !w.hasTyre
	var around []swept.Obstacle
	for i := range j.Obstacles {
		if j.Obstacles[i].On != job.OnUpright {
			around = append(around, clearance.ObstacleOf(&j.Obstacles[i], kinematics.Vec{}))
		}
	}
	l.Obstacles = len(around)
	if err := w.sift(around); err != nil {
		return nil, s.Named(err)
	}
	stops := [2]float64{-s.RackRight, s.RackLeft}
	if m.RackSense() < 0 {
		stops[0], stops[1] = stops[1], stops[0]
	}
	for i, stop := range stops {
		if l.Ways[i], err = w.way(stop); err != nil {
			return nil, s.Named(err)
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
	m, err := s.Mechanism()
	if err != nil {
		return nil, err
	}
	return s.steered(m, places(-s.RackRight, s.RackLeft, n+1)), nil
}

// lockStations is into how many steps, about, a chosen step cuts the longer way.
const lockStations = 6

// RackStep is the step of LockOf that is round in a unit of length, mm.
func RackStep(j *job.Job, u units.Unit) float64 {
	return roundStep(max(j.Rack.Left.MM, j.Rack.Right.MM), u)
}

// roundStep is a step of 1, 2 or 5 tenfolds of a unit, in mm.
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
	of := func(m *kinematics.Mechanism) []kinematics.Value {
		list := make([]kinematics.Value, 0, each*len(racks))
		for _, rack := range racks {
			st, err := m.Steering(rack, s.Wheelbase)
			list = append(list, kinematics.Number(st.Left, err == nil), kinematics.Number(st.Right, err == nil), kinematics.Number(st.AckermannError, err == nil && st.HasError))
		}
		return list
	}
	g := s.slopes(of)
	for i := range rows {
		r := &rows[i]
		half := bandAbove(sheet.Angle.Rounding())
		left, right, ackermann := half(g.Half(each*i)), half(g.Half(each*i+1)), half(g.Half(each*i+2))
		r.LeftBand, r.RightBand, r.ErrorBand = left.half, right.half, ackermann.half
		r.HasBands = left.ok && right.ok && (ackermann.ok || !r.HasError)
	}
	return rows
}

// Words say what ends a way.
func (e *LockEnd) Words(u units.Unit) string {
	switch e.By {
	case ByObstacle:
		if e.Rack == 0 {
			return fmt.Sprintf("%s, either wheel: too near with the rack in the middle, at travel %s", oneLine(e.Obstacle), units.Place(e.Travel, u))
		}
		return fmt.Sprintf("%s, %s wheel, at travel %s", oneLine(e.Obstacle), e.Wheel, units.Place(e.Travel, u))
	case ByLinkage:
		return "end of the linkage: " + e.Cause
	}
	return "rack stop"
}
