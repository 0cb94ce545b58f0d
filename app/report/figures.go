package report

import (
	"slices"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// Position is where readings are taken.
type Position struct {
	Travel, Rack float64 // mm
	// Steering adds the steering angles at this rack position.
	Steering bool
}

// atRest tells whether the slopes here are those at rest.
func (at Position) atRest() bool { return at.Travel == 0 && at.Rack == 0 }

// figure is one value before it is dressed for a person: mm, rad, rad/mm.
type figure struct {
	Quantity
	value float64
	ok    bool
	ratio kinematics.Value // of a reading that may go through infinity
	refer reference
	binds kinematics.Link
}

// linear is the figure as kinematics.Linearise takes it.
func (f *figure) linear() kinematics.Value {
	if f.ratio.OK {
		return f.ratio
	}
	return kinematics.Number(f.value, f.ok && !f.noBand)
}

// reference is a length that belongs to a figure, such as the diameter across
// which a toe is measured. None is the zero value.
type reference struct {
	words  string
	mm     float64
	signed bool
}

func (r reference) text(unit units.Unit) string {
	if r.words == "" {
		return ""
	}
	if r.signed {
		return r.words + " " + units.Place(r.mm, unit)
	}
	return r.words + " " + lengthText(r.mm, unit)
}

// figures collects the values of one corner. Which figures there are, and in
// which order, follows from the source and the position alone, so that those
// of neighbouring corners can be set against each other.
type figures struct {
	source *Source
	at     Position
	m      kinematics.Mechanism
	list   []figure
}

// evaluate computes every figure of a corner that stands in for the source's
// own. The error is that of the position itself; what cannot be reached beside
// it is marked in its figure.
func evaluate(s *Source, c *kinematics.Corner, at Position) ([]figure, error) {
	m, err := kinematics.New(c)
	if err != nil {
		return nil, err
	}
	f := figures{source: s, at: at, m: m}
	p, err := m.At(at.Travel, at.Rack)
	if err != nil {
		return nil, err
	}
	f.pose(&p)
	f.rest()
	f.overTravel()
	if at.Steering && !s.Rear {
		f.steering()
	}
	f.inReach()
	slices.SortStableFunc(f.list, func(a, b figure) int { return int(a.group) - int(b.group) })
	return f.list, nil
}

func (f *figures) add(q Quantity, v float64, ok bool) *figure {
	f.list = append(f.list, figure{Quantity: q, value: v, ok: ok})
	return &f.list[len(f.list)-1]
}

// pose adds the readings of the position asked for.
func (f *figures) pose(p *kinematics.Pose) {
	r, values := p.Readings(), p.Values()
	spring := f.m.Corner().Spring.Carrier != kinematics.NoSpring
	for q := range kinematics.QuantityCount {
		if (q == kinematics.MotionRatio || q == kinematics.SpringLength) && !spring {
			continue
		}
		v, ok := r.Of(q)
		f.add(known(q), v, ok).ratio = values[q]
		switch q {
		case kinematics.Toe:
			f.toeLength(v, ok)
		case kinematics.MotionRatio:
			inverse := known(q)
			inverse.Key, inverse.Name = "motion_ratio_inverse", "Motion ratio, wheel / spring"
			f.list[len(f.list)-1].Name = "Motion ratio, spring / wheel"
			if ok = ok && v > 0; ok {
				v = 1 / v
			}
			f.add(inverse, v, ok)
		}
	}
}

// toeLength adds toe as a length: the angle times the rim's diameter.
func (f *figures) toeLength(toe float64, ok bool) {
	d := f.source.RimDiameter
	if d <= 0 {
		return
	}
	q := known(kinematics.Toe)
	q.Key, q.Name, q.Kind = "toe_at_rim", "Toe at the rim", kinematics.Length
	f.add(q, toe*d, ok).refer = reference{words: "across", mm: d}
}

// rest adds the slopes at rest, over travel and in roll.
func (f *figures) rest() {
	var r kinematics.Readings
	if p, err := f.m.At(0, 0); err == nil {
		r = p.Readings()
	}
	for _, q := range []kinematics.Quantity{kinematics.CamberGain, kinematics.RideToe} {
		at := known(q)
		at.Key, at.group = at.Key+"_at_rest", restGroup
		v, ok := r.Of(q)
		f.add(at, v, ok)
	}
	roll, err := f.m.RollRates()
	slope := Quantity{Kind: kinematics.Ratio, group: restGroup, perAngle: true, missing: outOfReach}
	slope.Key, slope.Name = "camber_in_roll_at_rest", "Camber in roll"
	slope.Positive = "camber to the ground grows as this side lifts"
	f.add(slope, roll.Camber, err == nil)
	slope.Key, slope.Name = "toe_in_roll_at_rest", "Toe in roll"
	slope.Positive = "toes in as this side lifts"
	f.add(slope, roll.Toe, err == nil)
}

// overTravel adds how camber and toe change from rest to both ends of the
// job's travel.
func (f *figures) overTravel() {
	rest, errRest := f.m.At(0, 0)
	base := rest.Readings()
	for _, end := range []struct {
		key    string
		travel float64
	}{{"bump", f.source.Bump}, {"droop", -f.source.Droop}} {
		if end.travel == 0 {
			continue
		}
		p, err := f.m.At(end.travel, 0)
		r := p.Readings()
		for _, of := range []struct {
			q        kinematics.Quantity
			positive string
		}{{kinematics.Camber, "top moves outboard"}, {kinematics.Toe, "toes in"}} {
			q := known(of.q)
			q.Key += "_change_to_" + end.key
			q.Name += ", rest to " + end.key
			q.Positive, q.group, q.missing = of.positive, travelGroup, outOfReach
			v, _ := r.Of(of.q)
			v0, _ := base.Of(of.q)
			f.add(q, v-v0, err == nil && errRest == nil).refer = reference{"at travel", end.travel, true}
		}
	}
}

// steering adds the steering angles and the Ackermann error.
func (f *figures) steering() {
	s, err := f.m.Steering(f.at.Rack, f.source.Wheelbase)
	q := Quantity{Kind: kinematics.Angle, group: steeringGroup, missing: outOfReach, Positive: "left turn, toe included"}
	q.Key, q.Name = "steering_angle_left", "Left wheel"
	f.add(q, s.Left, err == nil)
	q.Key, q.Name = "steering_angle_right", "Right wheel"
	f.add(q, s.Right, err == nil)
	if f.source.Wheelbase <= 0 {
		return
	}
	q.Key, q.Name = "ackermann_error", "Ackermann error"
	q.Positive, q.missing = "outer wheel turned too far, toward parallel steering", "wheels not both turned one way"
	f.add(q, s.AckermannError, s.HasError).refer = reference{words: "wheelbase", mm: f.source.Wheelbase}
}

// Keys of the ends of the assembled travel.
const (
	droopLimit = "droop_limit"
	bumpLimit  = "bump_limit"
)

// inReach adds the ends of the assembled travel at the rack position. They
// carry no band: near a dead point a small error moves the end by its square
// root, and a band to first order would be wrong.
func (f *figures) inReach() {
	r, err := f.m.Range(f.at.Rack)
	q := Quantity{Kind: kinematics.Length, group: rangeGroup, Positive: "wheel up from rest", missing: outOfReach, noBand: true}
	for _, end := range []struct {
		key, name string
		limit     kinematics.TravelLimit
	}{{droopLimit, "Droop ends at", r.Droop}, {bumpLimit, "Bump ends at", r.Bump}} {
		q.Key, q.Name = end.key, end.name
		f.add(q, end.limit.Travel, err == nil).binds = end.limit.Link
	}
}
