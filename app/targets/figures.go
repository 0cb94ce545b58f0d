package targets

import (
	"math"
	"slices"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/kinematics"
)

// stations of travel on each side of rest at which a target over travel is tried:
// over 40 mm every 4 mm. Between two of them a bowed curve strays by an eighth of
// what it bows over both, which is far below any band.
const stations = 10

// row is where a target's first figure stands, and how many it has.
type row struct {
	kind Kind
	at   int
	n    int // 1, or a station each
}

// plan lists which figures the targets ask for.
type plan struct {
	rows   []row
	travel [][]float64 // of each row with stations
	size   int
}

func planOf(t *job.Targets) plan {
	var p plan
	for k := range Count {
		r, ok := Asked(t, k)
		if !ok {
			continue
		}
		var travel []float64
		for i := stations; i > 0 && r.Droop > 0; i-- {
			travel = append(travel, -r.Droop*float64(i)/stations)
		}
		for i := 1; i <= stations && r.Bump > 0; i++ {
			travel = append(travel, r.Bump*float64(i)/stations)
		}
		p.rows = append(p.rows, row{k, p.size, max(1, len(travel))})
		p.travel = append(p.travel, travel)
		p.size += max(1, len(travel))
	}
	return p
}

// evaluate computes the figures of one corner. The error is that of a corner
// which is no mechanism.
func (p *plan) evaluate(c *kinematics.Corner) ([]kinematics.Value, error) {
	return p.fill(c, make([]kinematics.Value, p.size), nil)
}

// evaluator is evaluate for Linearise, without new memory for every neighbour.
func (p *plan) evaluator() func(c *kinematics.Corner) ([]kinematics.Value, error) {
	var kept [2][]kinematics.Value
	rest := make([]kinematics.Value, 0, kinematics.QuantityCount)
	n := 0
	return func(c *kinematics.Corner) ([]kinematics.Value, error) {
		if n++; n <= 3 { // the first are the corner's own, and stay
			kept[n%2] = make([]kinematics.Value, p.size)
		}
		return p.fill(c, kept[n%2], rest)
	}
}

// fill writes every figure of one corner into a list; rest is memory.
func (p *plan) fill(c *kinematics.Corner, list, rest []kinematics.Value) ([]kinematics.Value, error) {
	m, err := kinematics.New(c)
	if err != nil {
		return nil, err
	}
	pose, err := m.At(0, 0)
	if err != nil {
		return nil, err
	}
	rest = pose.AppendValues(rest[:0])
	for i, r := range p.rows {
		q := about[r.kind].Of
		v := rest[q]
		if travel := p.travel[i]; len(travel) > 0 {
			for s, h := range travel {
				list[r.at+s] = changed(&m, q, h, v)
			}
			continue
		}
		switch r.kind {
		case SwingArm: // its reciprocal, which goes through parallel arms evenly
			v = v.Inverse()
		case Track:
			v.Num *= 2
		}
		list[r.at] = v
	}
	return list, nil
}

// changed is how far a reading at a travel lies from its value at rest.
func changed(m *kinematics.Mechanism, q kinematics.Quantity, travel float64, rest kinematics.Value) kinematics.Value {
	pose, err := m.At(travel, 0)
	if err != nil {
		return kinematics.Value{}
	}
	r := pose.Readings()
	v, ok := r.Of(q)
	was, okWas := rest.Of()
	return kinematics.Number(v-was, ok && okWas)
}

// solved is a corner's figures and how they move with the measuring error.
type solved struct {
	plan   plan
	known  car.Known
	linear kinematics.Linear
	// low and high are the figures at both ends of an estimated radius' span.
	low, high []kinematics.Value
	edge      bool  // an end of that span makes no mechanism
	err       error // the corner is no mechanism
}

func solve(s *car.Car, p plan) *solved {
	v := &solved{plan: p, known: s.Known()}
	c := s.Corner
	if !slices.ContainsFunc(p.rows, func(r row) bool { return r.kind == MotionRatio }) {
		c.Spring = kinematics.Spring{} // nothing else depends on it
	}
	if v.linear, v.err = kinematics.Linearise(&c, s.Within, p.evaluator()); v.err != nil {
		return v
	}
	if s.RadiusHigh > s.RadiusLow {
		v.low, v.high = v.with(s, s.RadiusLow), v.with(s, s.RadiusHigh)
	}
	return v
}

// with is the figures with another loaded radius.
func (v *solved) with(s *car.Car, radius float64) []kinematics.Value {
	c := s.Corner
	c.Wheel.LoadedRadius = radius
	list, err := v.plan.evaluate(&c)
	v.edge = v.edge || err != nil
	return list
}

// size is what a row's target is held against: its figure, of one over travel the
// largest size at any station; ok is false where one of them does not exist.
func (r row) size(list []kinematics.Value) (size float64, ok bool) {
	if len(list) == 0 {
		return 0, false
	}
	for k := r.at; k < r.at+r.n; k++ {
		x, ok := list[k].Of()
		if !ok {
			return 0, false
		}
		if !about[r.kind].Over {
			return x, true
		}
		size = max(size, math.Abs(x))
	}
	return size, true
}

// group lists a row's figures.
func (r row) group() []int {
	list := make([]int, r.n)
	for i := range list {
		list[i] = r.at + i
	}
	return list
}

// interval is where a row's size lies by the measuring error, and how much an
// estimated radius adds either way; ok is false where that is not known.
func (v *solved) interval(r row) (i kinematics.Interval, estimate float64, ok bool) {
	if about[r.kind].Over {
		half, known := v.linear.Largest(r.group())
		size, _ := r.size(v.linear.Base)
		i, ok = kinematics.Interval{Low: size - half, High: size + half}, known
	} else {
		i, ok = v.linear.Interval(r.at)
	}
	if v.low != nil || v.high != nil {
		low, okLow := r.size(v.low)
		high, okHigh := r.size(v.high)
		ok = ok && okLow && okHigh && !v.edge
		estimate = math.Abs(high-low) / 2
	}
	return i, estimate, ok
}
