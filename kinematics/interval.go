package kinematics

import "math"

// beyondInfinity: a denominator smaller than this share of its numerator is
// nought, so that nothing overflows.
const beyondInfinity = 1e-100

// Interval is where a value lies 95 times in 100.
type Interval struct {
	Low, High float64
	// Infinite tells that it goes through infinity, as that of the swing arm of
	// arms that may be parallel: the value is Low or more, or else High or less,
	// and Low is then above High.
	Infinite bool
	// Any tells that nothing is known of the value; the ends mean nothing.
	Any bool
}

// Holds tells whether v lies in the interval.
func (i Interval) Holds(v float64) bool {
	switch {
	case i.Any:
		return true
	case i.Infinite:
		return v >= i.Low || v <= i.High
	}
	return i.Low <= v && v <= i.High
}

// Half returns half of its width; false where it has none. Laid about the value
// itself it holds about as often as the interval, though that is lopsided: what is
// lost on one side is won on the other.
func (i Interval) Half() (half float64, ok bool) {
	if i.Infinite || i.Any {
		return 0, false
	}
	return (i.High - i.Low) / 2, true
}

// Between is the interval a share f of the way from i to j, as of a reading between
// two travels: through infinity it goes evenly in 1/x.
func (i Interval) Between(j Interval, f float64) Interval {
	switch {
	case i.Any || j.Any:
		return Interval{Any: true}
	case i.Infinite || j.Infinite:
		i, j = i.reciprocal(), j.reciprocal()
		if i.Infinite || j.Infinite {
			return Interval{Any: true}
		}
		return i.Between(j, f).reciprocal()
	}
	return Interval{Low: i.Low*(1-f) + j.Low*f, High: i.High*(1-f) + j.High*f}
}

// around is the interval with the same band both ways.
func around(v, half float64) Interval { return Interval{Low: v - half, High: v + half} }

// reciprocal is the interval of 1/x.
func (i Interval) reciprocal() Interval {
	switch {
	case i.Any:
		return i
	case i.Infinite && i.Low > 0 && i.High < 0: // all but what is near nought
		return Interval{Low: inverse(i.High, -1), High: inverse(i.Low, 1)}
	case i.Infinite || i.Low > 0 || i.High < 0:
		return Interval{Low: inverse(i.High, 1), High: inverse(i.Low, 1), Infinite: i.Infinite}
	}
	return Interval{Low: inverse(i.High, 1), High: inverse(i.Low, -1), Infinite: true}
}

// inverse is 1/x, kept finite; a nought counts as on the side of sign.
func inverse(x, sign float64) float64 {
	if math.Abs(x) <= 1/math.MaxFloat64 {
		return math.Copysign(math.MaxFloat64, sign)
	}
	return 1 / x
}

// ratioSpread gathers what errors do to a ratio num/den of two values that both
// move evenly with them, also where den goes through nought. It works on the
// residual r = num - v den, which is nought at the ratio v: the interval is all x
// for which num - x den is within its own band of nought (Fieller's way with a
// ratio, from memory). Far from infinity that is the band to first order; near it,
// the band to first order of the reciprocal.
type ratioSpread struct {
	residual, den spread
	cross         float64 // sum of r den, with the squares of the errors
}

func (s *ratioSpread) add(r, den float64, e errorSize) {
	s.residual.add(r, e)
	s.den.add(den, e)
	s.cross += r * den * e.squares()
}

// interval of the ratio, which is v, with den under it.
func (s *ratioSpread) interval(v, den float64) Interval {
	half := s.residual.half()
	if half == 0 {
		return Interval{Low: v, High: v}
	}
	// Of x = v + t: t² den² <= k (squares - 2 t cross + t² s.den).
	k, cross := half*half/s.residual.left(), s.cross
	for i, t := range s.residual.taught {
		cross -= t * s.den.taught[i]
	}
	a, b, c := den*den-k*s.den.left(), k*cross, half*half
	root := b*b + a*c
	if root <= 0 {
		return Interval{Any: true}
	}
	q := -(b + math.Copysign(math.Sqrt(root), b))
	t1, t2 := -c/q, 0.0
	switch {
	case math.Abs(a) > math.Abs(q)/math.MaxFloat64:
		t2 = q / a
	case a > 0:
		t2 = math.Copysign(math.MaxFloat64, q)
	default:
		t2 = math.Copysign(math.MaxFloat64, -q)
	}
	out := Interval{Low: v + min(t1, t2), High: v + max(t1, t2)}
	if a <= 0 {
		out.Low, out.High, out.Infinite = out.High, out.Low, true
	}
	return out
}
