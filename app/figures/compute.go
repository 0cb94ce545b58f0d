package figures

import (
	"armscribe/app/car"
	"armscribe/kinematics"
)

// Position is where figures are taken: mm, mm, and rad of roll.
type Position struct {
	Travel, Rack, Roll float64
	// Steering adds the steering angles at this rack position.
	Steering bool
}

// AtRest tells whether the slopes here are those at rest.
func (at Position) AtRest() bool { return at.Travel == 0 && at.Rack == 0 && at.Roll == 0 }

// Value is one figure of a corner before it is dressed for a person: mm, rad,
// rad/mm or plain; Value.OK is false where it does not exist.
type Value struct {
	*Figure
	V     float64
	OK    bool
	ratio kinematics.Value // of a reading that may go through infinity
	Refer Reference
	Binds kinematics.Link // what ends the travel
}

// Linear is the figure as kinematics.Linearise takes it.
func (v *Value) Linear() kinematics.Value {
	if v.ratio.OK {
		return v.ratio
	}
	return kinematics.Number(v.V, v.OK && !v.NoBand)
}

// Reference is a length that belongs to a figure, such as the diameter across
// which a toe is measured. None is the zero value.
type Reference struct {
	Words string
	MM    float64
	Place bool // of travel
}

// end is an end of the job's travel.
type end uint8

const (
	bump end = iota
	droop
)

// around is a corner in one position, with what figures need of its neighbourhood.
type around struct {
	car      *car.Car
	at       Position
	spring   bool
	here     kinematics.Readings
	values   []kinematics.Value
	rest     kinematics.Readings
	atRest   bool // rest holds
	ends     [2]kinematics.Readings
	reached  [2]bool
	roll     kinematics.RollRates
	rolls    bool
	limits   kinematics.TravelRange
	ranges   bool
	steering kinematics.Steering
	turned   bool
}

// Evaluate computes every figure of a corner that stands in for the car's own.
// The error is that of the position itself; what cannot be reached beside it is
// marked in its figure. Which figures there are, and in which order, follows from
// the car and the position alone, so that those of neighbouring corners can be set
// against each other.
func Evaluate(c *car.Car, corner *kinematics.Corner, at Position) ([]Value, error) {
	m, err := kinematics.New(corner)
	if err != nil {
		return nil, err
	}
	a := around{car: c, at: at, spring: m.Corner().Spring.Carrier != kinematics.NoSpring}
	if err := a.solve(&m); err != nil {
		return nil, err
	}
	list := make([]Value, 0, len(table))
	for i := range table {
		f := &table[i]
		if f.when != nil && !f.when(&a) {
			continue
		}
		v := Value{}
		if f.compute != nil {
			v = f.compute(&a)
		} else {
			v.V, v.OK = a.here.Of(f.Of)
			if a.values != nil {
				v.ratio = a.values[f.Of]
			}
		}
		v.Figure = f
		list = append(list, v)
	}
	return list, nil
}

func (a *around) solve(m *kinematics.Mechanism) error {
	if a.at.Roll != 0 {
		ax, err := m.Roll(a.at.Roll, a.at.Rack)
		if err != nil {
			return err
		}
		a.here, _ = ax.Readings()
	} else {
		p, err := m.At(a.at.Travel, a.at.Rack)
		if err != nil {
			return err
		}
		a.here, a.values = p.Readings(), p.Values()
	}
	if p, err := m.At(0, 0); err == nil {
		a.rest, a.atRest = p.Readings(), true
	}
	for e := range a.ends {
		if h := a.end(end(e)); h != 0 {
			p, err := m.At(h, 0)
			a.ends[e], a.reached[e] = p.Readings(), err == nil
		}
	}
	var err error
	a.roll, err = m.RollRates()
	a.rolls = err == nil
	if steers(a) {
		a.steering, err = m.Steering(a.at.Rack, a.car.Wheelbase)
		a.turned = err == nil
	}
	a.limits, err = m.Range(a.at.Rack)
	a.ranges = err == nil
	return nil
}

func (a *around) end(e end) float64 {
	if e == bump {
		return a.car.Bump
	}
	return -a.car.Droop
}

func hasRim(a *around) bool       { return a.car.RimDiameter > 0 }
func hasSpring(a *around) bool    { return a.spring }
func steers(a *around) bool       { return a.at.Steering && !a.car.Rear }
func hasAckermann(a *around) bool { return steers(a) && a.car.Wheelbase > 0 }

func toEnd(e end) func(a *around) bool { return func(a *around) bool { return a.end(e) != 0 } }

// toeAtRim is toe as a length: the angle times the rim's diameter.
func toeAtRim(a *around) Value {
	toe, ok := a.here.Of(kinematics.Toe)
	return Value{V: toe * a.car.RimDiameter, OK: ok, Refer: Reference{Words: "across", MM: a.car.RimDiameter}}
}

func inverse(a *around) Value {
	v, ok := Inverse(a.here.Of(kinematics.MotionRatio))
	return Value{V: v, OK: ok}
}

// Inverse is one over a motion ratio, which has none at a dead point.
func Inverse(ratio float64, ok bool) (float64, bool) {
	if !ok || !(ratio > 0) {
		return 0, false
	}
	return 1 / ratio, true
}

func atRest(q kinematics.Quantity) func(a *around) Value {
	return func(a *around) Value {
		v, ok := a.rest.Of(q)
		return Value{V: v, OK: ok}
	}
}

func camberRate(r *kinematics.RollRates) float64 { return r.Camber }
func toeRate(r *kinematics.RollRates) float64    { return r.Toe }

func inRoll(of func(r *kinematics.RollRates) float64) func(a *around) Value {
	return func(a *around) Value { return Value{V: of(&a.roll), OK: a.rolls} }
}

// changeTo is how much a reading changes from rest to an end of the job's travel.
func changeTo(e end, q kinematics.Quantity) func(a *around) Value {
	return func(a *around) Value {
		v, _ := a.ends[e].Of(q)
		v0, _ := a.rest.Of(q)
		return Value{V: v - v0, OK: a.reached[e] && a.atRest, Refer: Reference{"at travel", a.end(e), true}}
	}
}

func leftAngle(a *around) Value  { return Value{V: a.steering.Left, OK: a.turned} }
func rightAngle(a *around) Value { return Value{V: a.steering.Right, OK: a.turned} }

func ackermann(a *around) Value {
	return Value{V: a.steering.AckermannError, OK: a.steering.HasError, Refer: Reference{Words: "wheelbase", MM: a.car.Wheelbase}}
}

// limit is an end of the assembled travel at the rack position.
func limit(e end) func(a *around) Value {
	return func(a *around) Value {
		l := a.limits.Bump
		if e == droop {
			l = a.limits.Droop
		}
		return Value{V: l.Travel, OK: a.ranges, Binds: l.Link}
	}
}
