package targets

import (
	"math"

	"armscribe/app/job"
	"armscribe/kinematics"
)

// Source is what a variant's figures follow from. It is a plain value: two
// that are equal give the same results.
type Source struct {
	Corner kinematics.Corner
	Within float64 // mm, half-width of the error of every measured coordinate
	// RadiusLow and RadiusHigh, mm, are where an estimated loaded radius likely
	// lies; both nought when it was measured.
	RadiusLow, RadiusHigh float64
}

// SourceOf reads a variant of a job without problems.
func SourceOf(j *job.Job, v *job.Variant) Source {
	s := Source{Corner: v.Corner(), Within: j.Within(v)}
	if e := v.Wheel.Loaded(); e.Estimate {
		s.RadiusLow, s.RadiusHigh = e.Low, e.High
	}
	return s
}

// Constants of the figures.
const (
	// bandStep is half the central difference, mm: as in package kinematics.
	bandStep = 1e-3
	// normal95 is the 97.5 % point of the normal distribution; any table of it.
	normal95 = 1.959963984540054
	// stations of travel on each side of rest at which a target over travel is
	// tried: over 40 mm every 4 mm. Between two of them a bowed curve strays by
	// an eighth of what it bows over both, which is far below any band.
	stations = 10
)

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

// figure is one number of a corner; ok is false where it does not exist.
type figure struct {
	value float64
	ok    bool
}

// evaluate computes the figures of one corner into list. The error is that of
// a corner which is no mechanism.
func (p *plan) evaluate(c *kinematics.Corner, list []figure) error {
	m, err := kinematics.New(c)
	if err != nil {
		return err
	}
	pose, err := m.At(0, 0)
	if err != nil {
		return err
	}
	rest := pose.Readings()
	for i, r := range p.rows {
		q := about[r.kind].Quantity
		v, ok := rest.Of(q)
		if travel := p.travel[i]; len(travel) > 0 {
			for s, h := range travel {
				list[r.at+s] = changed(&m, q, h, v, ok)
			}
			continue
		}
		switch r.kind {
		case SwingArm: // its reciprocal, which goes through parallel arms evenly
			if ok {
				v = 1 / v
			}
			ok = true
		case Track:
			v *= 2
		}
		list[r.at] = figure{v, ok}
	}
	return nil
}

// changed is how far a reading at a travel lies from its value at rest.
func changed(m *kinematics.Mechanism, q kinematics.Quantity, travel, rest float64, ok bool) figure {
	pose, err := m.At(travel, 0)
	if err != nil || !ok {
		return figure{}
	}
	r := pose.Readings()
	v, ok := r.Of(q)
	return figure{v - rest, ok}
}

// solved is a corner's figures with their slopes by each measured coordinate.
type solved struct {
	source   *Source
	plan     plan
	base     []figure
	of       []kinematics.Coordinate
	by       [][]float64 // by[i][k]: figure k by coordinate i, per mm
	has      []bool      // figure k has slopes
	estimate []float64   // half of what figure k moves with an estimated radius
	err      error       // the corner is no mechanism
}

func solve(s *Source, p plan) *solved {
	v := &solved{source: s, plan: p, base: make([]figure, p.size), has: make([]bool, p.size), estimate: make([]float64, p.size)}
	if v.err = p.evaluate(&s.Corner, v.base); v.err != nil {
		return v
	}
	for k := range v.has {
		v.has[k] = v.base[k].ok
	}
	plus, minus := make([]figure, p.size), make([]figure, p.size)
	v.of = s.Corner.Coordinates()
	for _, at := range v.of {
		by := make([]float64, p.size)
		v.by = append(v.by, by)
		c := s.Corner
		c.Shift(at, bandStep)
		err := p.evaluate(&c, plus)
		c.Shift(at, -2*bandStep)
		if err2 := p.evaluate(&c, minus); err != nil || err2 != nil {
			clear(v.has)
			continue
		}
		for k := range by {
			by[k] = (plus[k].value - minus[k].value) / (2 * bandStep)
			v.has[k] = v.has[k] && plus[k].ok && minus[k].ok
		}
	}
	v.estimates(plus, minus)
	return v
}

// estimates notes what an estimated radius does over its likely span.
func (v *solved) estimates(low, high []figure) {
	s := v.source
	if s.RadiusHigh <= s.RadiusLow {
		return
	}
	c := s.Corner
	c.Wheel.LoadedRadius = s.RadiusLow
	err := v.plan.evaluate(&c, low)
	c.Wheel.LoadedRadius = s.RadiusHigh
	if err2 := v.plan.evaluate(&c, high); err != nil || err2 != nil {
		clear(v.has)
		return
	}
	for k := range v.estimate {
		v.estimate[k] = math.Abs(high[k].value-low[k].value) / 2
		v.has[k] = v.has[k] && low[k].ok && high[k].ok
	}
}

// half is the half-width of figure k's interval.
func (v *solved) half(k int) float64 {
	sum := 0.0
	for i := range v.by {
		sum += v.by[i][k] * v.by[i][k]
	}
	return normal95*v.source.Within/math.Sqrt(3)*math.Sqrt(sum) + v.estimate[k]
}

// worst is the station of a row that strays farthest; the row's own figure
// where it has but one.
func (v *solved) worst(r row) int {
	at := r.at
	for k := r.at; k < r.at+r.n; k++ {
		if math.Abs(v.base[k].value) > math.Abs(v.base[at].value) {
			at = k
		}
	}
	return at
}

// changeHalf is the half-width of the change between two variants of a figure
// that is signA times figure ka of a and signB times kb of b: a coordinate that
// both share has one error. See kinematics.ChangeBands.
func changeHalf(a, b *solved, ka, kb int, signA, signB float64) float64 {
	sum := 0.0
	add := func(within, d float64) { sum += within * within * d * d }
	common := max(a.source.Within, b.source.Within)
	slopes := make(map[kinematics.Coordinate]float64, len(b.of))
	for i, at := range b.of {
		slopes[at] = signB * b.by[i][kb]
	}
	for i, at := range a.of {
		d := signA * a.by[i][ka]
		if !a.source.Corner.Shares(&b.source.Corner, at) {
			add(a.source.Within, d)
			continue
		}
		add(common, slopes[at]-d)
		slopes[at] = 0
	}
	for _, at := range b.of {
		add(b.source.Within, slopes[at])
	}
	return normal95 / math.Sqrt(3) * math.Sqrt(sum)
}
