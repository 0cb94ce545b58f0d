package report

import (
	"errors"
	"math"

	"armscribe/app/sheet"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// lockTravels is at how many places of the travel the lock is looked at.
const lockTravels = 21

// lockWork looks for the ends of the lock.
type lockWork struct {
	s       *Source
	m       *kinematics.Mechanism
	travel  []float64
	tyre    clearance.Tyre
	hasTyre bool
	// Those that come nearer than wished anywhere, and those that the tyre meets,
	// without their wishes.
	near, met []clearance.Obstacle
	asked     map[lockAsk]clearance.Lock // both ways ask the same where their stops are alike
}

type lockAsk struct {
	stop    float64
	touches bool
}

// sift leaves out the obstacles that stay clear over all the travel and rack.
func (w *lockWork) sift(around []clearance.Obstacle) error {
	if !w.hasTyre || len(around) == 0 {
		return nil
	}
	s := w.s
	far := max(s.RackLeft, s.RackRight) // either wheel steers both ways
	r, err := clearance.Sweep(w.m, clearance.Case{Tyre: w.tyre, Obstacles: around}, clearance.Fine(clearance.Span{Bump: s.Bump, Droop: s.Droop, Left: far, Right: far}))
	if err != nil {
		return err
	}
	for i, o := range around {
		if !r.Answers[i].Keeps() {
			w.near = append(w.near, o)
		}
		if r.Answers[i].Gap < 0 {
			o.Wish = 0
			w.met = append(w.met, o)
		}
	}
	return nil
}

func (w *lockWork) way(stop float64) (LockWay, error) {
	out := LockWay{Stop: stop}
	end := LockEnd{By: ByStop}
	end.Rack = stop
	if _, err := w.m.Steering(stop, 0); err != nil {
		end.By = ByLinkage
		end.Rack, end.Cause = w.reach(stop)
	}
	out.AtEnd = w.finish(end)
	out.Kept, out.Touch = out.AtEnd, out.AtEnd
	for _, k := range []struct {
		to      *LockEnd
		touches bool
	}{{&out.Kept, false}, {&out.Touch, true}} {
		e, err := w.free(end.Rack, k.touches)
		if err != nil {
			return out, err
		}
		if e.By == ByObstacle {
			*k.to = w.finish(e)
		}
	}
	return out, nil
}

// reach is how far toward a stop out of reach the linkage goes, and which link
// ends it.
func (w *lockWork) reach(stop float64) (rack float64, cause string) {
	good, bad := 0.0, stop
	cause = "it does not assemble"
	for range reachSteps {
		mid := good + (bad-good)/2
		_, err := w.m.Steering(mid, 0)
		if err == nil {
			good = mid
			continue
		}
		bad = mid
		if e := new(kinematics.ReachError); errors.As(err, &e) {
			cause = e.Link.String() + " binds"
		}
	}
	return good, cause
}

var sideNames = map[bool]string{true: "left", false: "right"}

// free is how far the rack goes until the first of both wheels comes too near
// to an obstacle, or touches one; the right side is the left one's mirror image.
func (w *lockWork) free(stop float64, touches bool) (LockEnd, error) {
	out := LockEnd{By: ByStop}
	out.Rack = stop
	around := w.near
	if touches {
		around = w.met
	}
	if len(around) == 0 {
		return out, nil
	}
	for _, sign := range [...]float64{1, -1} {
		ask := lockAsk{sign * stop, touches}
		l, ok := w.asked[ask]
		if !ok {
			var err error
			if l, err = clearance.LockLeft(w.m, clearance.Case{Tyre: w.tyre, Obstacles: around}, w.travel, ask.stop); err != nil {
				return out, err
			}
			w.asked[ask] = l
		}
		if l.Limited && (out.By == ByStop || math.Abs(l.Rack) < math.Abs(out.Rack)) {
			out.By, out.Rack, out.Travel = ByObstacle, sign*l.Rack+0, l.Travel
			out.Obstacle, out.Wheel = around[l.Obstacle].Name, sideNames[sign > 0]
			if out.Rack == 0 {
				out.Wheel = "either"
			}
		}
	}
	return out, nil
}

// Places of an end's facts: sizes of angles, and a circle's diameter.
const (
	leftFact = iota
	rightFact
	errorFact
	circleFact
)

// finish works out steering and circle at the end's place of the rack.
func (w *lockWork) finish(e LockEnd) LockEnd {
	e.LockRow = w.s.steered(w.m, []float64{e.Rack})[0]
	for i, sign := range [...]float64{1, -1} {
		if p, err := w.m.At(0, sign*e.Rack); err == nil {
			e.Contact[i] = kinematics.Vec{X: p.Contact.X, Y: sign * p.Contact.Y, Z: p.Contact.Z}
		} // else the row says so
	}
	of := func(m *kinematics.Mechanism) []kinematics.Value {
		st, err := m.Steering(e.Rack, w.s.Wheelbase)
		c, ok := w.kerb(m, e.Rack)
		return []kinematics.Value{leftFact: kinematics.Number(math.Abs(st.Left), err == nil), rightFact: kinematics.Number(math.Abs(st.Right), err == nil),
			errorFact: kinematics.Number(math.Abs(st.AckermannError), err == nil && st.HasError), circleFact: kinematics.Number(c.KerbToKerb, ok)}
	}
	e.Circle, e.HasCircle = w.kerb(w.m, e.Rack)
	if e.HasCircle && w.hasTyre {
		if c, err := clearance.TurningCircleAt(w.m, w.tyre, e.Rack, w.s.Wheelbase); err == nil { // else the tyre is none
			e.Circle, e.HasWall = c, true
		}
	}
	// No measured point moves the tyre's own size, so that both diameters move alike.
	e.linear = w.s.slopes(of)
	circle := bandAbove(sheet.Length.Rounding())(e.linear.Half(circleFact))
	e.CircleBand, e.HasCircleBand = circle.half, circle.ok
	return e
}

// kerb is the turning circle of the contact, if there is one.
func (w *lockWork) kerb(m *kinematics.Mechanism, rack float64) (clearance.TurningCircle, bool) {
	if w.s.Wheelbase <= 0 {
		return clearance.TurningCircle{}, false
	}
	c, err := clearance.KerbCircleAt(m, rack, w.s.Wheelbase)
	return c, err == nil // straight on there is none
}
