package frame

import (
	"math"

	"armscribe/kinematics"
	"armscribe/kinematics/study"
)

// Over is what a curve runs over.
type Over uint8

// The variables.
const (
	OverTravel Over = iota
	OverRack        // at the present travel
	OverRoll        // rack straight ahead
)

// Curve names what a curve shows: a kinematics.Quantity by its own number, or
// one of the steering curves, which exist over the rack only.
type Curve uint8

// The curves that are no kinematics.Quantity.
const (
	SteerLeft     Curve = 200 + iota // steering angle of the left wheel, positive for a left turn
	SteerRight                       // of the right wheel
	AckermannOver                    // how much farther the outer wheel turns than it should
)

// CurveOf returns the curve of a quantity.
func CurveOf(q kinematics.Quantity) Curve { return Curve(q) }

// Quantity returns the quantity a curve shows; false for the steering curves.
func (c Curve) Quantity() (kinematics.Quantity, bool) {
	return kinematics.Quantity(c), c < SteerLeft
}

// MaxRoll is how far curves over roll run to both sides, rad: 4 degrees, about
// what a road car reaches. Common practice, no source.
const MaxRoll = 4 * math.Pi / 180

// stations of the curves over rack and roll.
const stations = 41

// Series is one curve: At rises; where OK is false the value does not exist.
// Half is the 95 % half-width, 0 where it is not computed. Fill reuses memory.
type Series struct {
	At, Value, Half []float64
	OK              []bool
}

func (c *Series) reset() {
	c.At, c.Value, c.Half, c.OK = c.At[:0], c.Value[:0], c.Half[:0], c.OK[:0]
}

func (c *Series) add(at, value, half float64, ok bool) {
	if !ok {
		value, half = 0, 0
	}
	c.At, c.Value = append(c.At, at), append(c.Value, value)
	c.Half, c.OK = append(c.Half, half), append(c.OK, ok)
}

// sweepKey is what a kept sweep was made of.
type sweepKey struct {
	over   Over
	travel float64
	c      study.Case
}

// sweep holds the readings over rack or roll; it is made when first asked for.
type sweep struct {
	key      sweepKey
	made     bool
	at       [stations]float64
	ok       [stations]bool
	readings [stations]kinematics.Readings
	steering [stations]kinematics.Steering
}

// Fill puts a curve of the side into c. Over travel the bands are computed too.
func (s *Side) Fill(c *Series, over Over, curve Curve, travel float64) {
	c.reset()
	if over == OverTravel {
		q, ok := curve.Quantity()
		if !ok {
			return
		}
		for i, h := range s.Study.Travel {
			v, ok := s.Study.Readings[i].Of(q)
			half, _ := s.Study.BandAt(q, h)
			if q.OfCentre() { // nobody knows on which side
				arm, known := s.Study.Readings[i].Of(kinematics.SwingArm)
				ok = ok && s.Study.FarAt(arm, known, h) != kinematics.FarEither
			}
			c.add(h, v, half, ok)
		}
		return
	}
	w := s.sweepOver(over, travel)
	for i, at := range w.at {
		v, ok := w.value(curve, i)
		c.add(at, v, 0, ok && w.ok[i])
	}
}

func (w *sweep) value(curve Curve, i int) (float64, bool) {
	if q, ok := curve.Quantity(); ok {
		return w.readings[i].Of(q)
	}
	st := &w.steering[i]
	switch {
	case w.key.over != OverRack:
		return 0, false
	case curve == SteerLeft:
		return st.Left, true
	case curve == SteerRight:
		return st.Right, true
	}
	return st.AckermannError, st.HasError
}

// sweepOver returns the kept sweep, made anew when the corner has changed.
func (s *Side) sweepOver(over Over, travel float64) *sweep {
	w := &s.sweeps[over]
	if over == OverRoll {
		travel = 0
	}
	key := sweepKey{over, travel, s.Study.Case}
	if w.made && w.key == key {
		return w
	}
	w.key, w.made = key, true
	m, span := &s.Study.Mechanism, s.Study.Case.Span
	from, to := -span.Right, span.Left
	if over == OverRoll {
		from, to = -MaxRoll, MaxRoll
	}
	for i := range w.at {
		f := float64(i) / (stations - 1)
		w.at[i] = from*(1-f) + to*f
		w.ok[i] = w.solve(m, i, s.Study.Case.Wheelbase)
	}
	return w
}

// solve makes one station; false where the linkage does not reach it.
func (w *sweep) solve(m *kinematics.Mechanism, i int, wheelbase float64) bool {
	if w.key.over == OverRoll {
		ax, err := m.Roll(w.at[i], 0)
		if err == nil {
			w.readings[i], _ = ax.Readings()
		}
		return err == nil
	}
	p, err := m.At(w.key.travel, w.at[i])
	if err != nil {
		return false
	}
	w.readings[i] = p.Readings()
	w.steering[i], err = m.Steering(w.at[i], wheelbase)
	return err == nil
}
