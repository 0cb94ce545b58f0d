package widen

import (
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/jointangle"
)

// looked is one corner, its measures, and how they move with every coordinate.
type looked struct {
	setup  *Setup
	is     measures
	linear kinematics.Linear
}

// places are where the largest of a corner stand.
type places struct {
	ride [len(rideMeasures)]float64 // mm of travel
	tilt [jointangle.JointCount]jointangle.Most
}

// look measures a corner whose upright has moved out.
func (s *Setup) look(c kinematics.Corner, out float64) looked {
	l := looked{setup: s}
	var at places
	l.is, at = s.measure(c, out)
	base := s.values(c, out, &at, nil)
	l.linear, _ = kinematics.Linearise(&c, s.Within, func(x *kinematics.Corner) ([]kinematics.Value, error) {
		if *x == c {
			return base, nil
		}
		if springOnly(x, &c) {
			return s.springValues(*x, base), nil
		}
		return s.values(*x, out, &at, alike(x, &c, base)), nil
	})
	return l
}

// springOnly tells whether two corners differ by nothing but the ends of the
// spring: these move nothing else, and turn nothing but an upright that they
// stand on.
func springOnly(a, b *kinematics.Corner) bool {
	with := *a
	with.Spring = b.Spring
	return with == *b
}

// alike returns the values of a corner on which wheel and ball joints stand like
// those of another; else nil. At rest nothing but these moves the tyre and its
// axis.
func alike(a, b *kinematics.Corner, values []kinematics.Value) []kinematics.Value {
	if a.Hub == b.Hub && a.Upper.Ball == b.Upper.Ball && a.Lower.Ball == b.Lower.Ball && a.Camber == b.Camber && a.Toe == b.Toe && a.Wheel == b.Wheel {
		return values
	}
	return nil
}

// Values follow each other: the measures, of which those that are the largest of
// several are left out; both shoulders' swings, ahead of the axle and behind it;
// the toe changes of every way of the rods at every travel and where the largest
// is; and the tilts at every travel and rack, and where each is largest.
const (
	swingFrontAt = int(MeasureCount)
	swingRearAt  = swingFrontAt + 2
	rideAt       = swingRearAt + 2
)

// group lists the values of which a measure is the largest; nil where it is a
// value of its own.
func (s *Setup) group(k Measure) []int {
	from, n, step := 0, 0, 1
	rides := len(s.Travel) + 1
	tiltAt := rideAt + len(rideMeasures)*rides
	switch k {
	case SwingFront, SwingRear:
		from, n = swingFrontAt+2*int(k-SwingFront), 2
	case RideToeMost, RideToeRodKept, RideToeRefitted:
		from, n = rideAt+int(k-RideToeMost)*rides, rides
	case UpperBallTilt, LowerBallTilt, OuterEndTilt, RackEndTilt:
		from, n, step = tiltAt, len(s.Travel)*len(s.Rack)+1, int(jointangle.JointCount)
		for j, m := range tiltMeasures {
			if m == k {
				from += j
			}
		}
	}
	list := make([]int, n)
	for i := range list {
		list[i] = from + i*step
	}
	return list
}

// values works out the values of a corner, with the largest looked for about
// where they stand. The tyre's are taken from another corner's, if these are
// given: they are most of the work.
func (s *Setup) values(c kinematics.Corner, out float64, at *places, like []kinematics.Value) []kinematics.Value {
	if s.work != nil {
		*s.work++
	}
	rides := len(s.Travel) + 1
	tiltAt := rideAt + len(rideMeasures)*rides
	list := make([]kinematics.Value, tiltAt+int(jointangle.JointCount)*(len(s.Travel)*len(s.Rack)+1))
	m, err := kinematics.New(&c)
	if err != nil {
		return list // unknown, all of it
	}
	p, err := m.At(0, 0)
	if err != nil {
		return list
	}
	for k, x := range s.rest(&m, &p) {
		list[k] = x
	}
	switch {
	case like != nil:
		list[Face] = like[Face]
		copy(list[swingFrontAt:rideAt], like[swingFrontAt:rideAt])
	case s.Tyre != (clearance.Tyre{}):
		list[Face] = kinematics.Number(s.Tyre.Face(&p), true)
		swing := clearance.SwingOf(&p, s.Tyre)
		for i, x := range [...]float64{swing.InnerFront, swing.OuterFront, swing.InnerRear, swing.OuterRear} {
			list[swingFrontAt+i] = kinematics.Number(x, true)
		}
	}
	s.efforts(&m, func(k Measure, x kinematics.Value) { list[k] = x })
	for i, with := range s.rods(c, out) {
		if with != nil {
			s.rideValues(with, at.ride[i], list[rideAt+i*rides:][:rides])
		}
	}
	s.tiltValues(&m, at, list[tiltAt:])
	return list
}

func (s *Setup) rideValues(m *kinematics.Mechanism, at float64, list []kinematics.Value) {
	c := m.Corner()
	for i := range list {
		h := at
		if i < len(s.Travel) {
			h = s.Travel[i]
		}
		if p, err := m.At(h, 0); err == nil {
			r := p.Readings()
			toe, ok := r.Of(kinematics.Toe)
			list[i] = kinematics.Number(toe-c.Toe, ok)
		}
	}
}

func (s *Setup) tiltValues(m *kinematics.Mechanism, at *places, list []kinematics.Value) {
	n := int(jointangle.JointCount)
	for i, h := range s.Travel {
		for k, rack := range s.Rack {
			tilts, err := jointangle.Of(m, h, rack)
			for j, tilt := range tilts {
				list[(i*len(s.Rack)+k)*n+j] = kinematics.Number(tilt, err == nil)
			}
		}
	}
	for j, most := range at.tilt {
		tilts, err := jointangle.Of(m, most.Travel, most.Rack)
		list[len(list)-n+j] = kinematics.Number(tilts[j], err == nil)
	}
}

// springValues are those of a corner that differs by its spring alone.
func (s *Setup) springValues(c kinematics.Corner, base []kinematics.Value) []kinematics.Value {
	list := append([]kinematics.Value(nil), base...)
	list[MotionRatio], list[SpringForce] = kinematics.Value{}, kinematics.Value{}
	m, err := kinematics.New(&c)
	if err != nil {
		return list
	}
	p, err := m.At(0, 0)
	if err != nil {
		return list
	}
	rest := s.rest(&m, &p)
	list[MotionRatio], list[SpringForce] = rest[MotionRatio], rest[SpringForce]
	if c.Spring.Carrier == kinematics.OnUpright {
		s.efforts(&m, func(k Measure, x kinematics.Value) { list[k] = x })
	}
	return list
}

// bands are those of a corner's measures themselves; none of a corner that was
// not looked at.
func (l *looked) bands() (band measures) {
	if l.linear.Base == nil {
		return band
	}
	for k := range MeasureCount {
		if group := l.setup.group(k); len(group) > 0 {
			band[k].Value, band[k].OK = l.linear.Largest(group)
		} else {
			band[k].Value, band[k].OK = l.linear.Half(int(k))
		}
	}
	return band
}

// changeBands are the bands of the change from one corner to another.
func changeBands(from, to *looked) (band measures) {
	both, second := kinematics.Beside(&from.linear, &to.linear), len(from.linear.Base)
	for k := range MeasureCount {
		group := from.setup.group(k)
		if len(group) == 0 {
			band[k].Value, band[k].OK = both.Change(int(k), second+int(k))
			continue
		}
		after := make([]int, len(group))
		for i, at := range group {
			after[i] = second + at
		}
		band[k].Value, band[k].OK = both.LargestChange(group, after)
	}
	return band
}
