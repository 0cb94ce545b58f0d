package kinematics

import (
	"fmt"
	"math"
)

// Tolerances of the search for a travel.
const (
	// travelTolerance: how near the wheel centre comes to the wished travel, mm.
	travelTolerance = 1e-10
	// shortWaySteps: the first guess is within 1e-2 mm for any ordinary corner
	// and each step cubes that, about, so one is the rule and four leave room.
	shortWaySteps = 5
	// shortWayReach: largest drive angle, rad, the short way may use. Within it
	// no arm can have passed a dead point that the checks below would not show.
	shortWayReach = 0.5
	// shortWayRise: least share of the resting rise per radian at the answer.
	shortWayRise = 0.2
)

// shortWayClear is the least clearance of both roots, at rest and at the
// answer, for the short way; nearer to full reach the long way walks there. On
// a car both sphere's centres stand farther than 200 mm from the axes.
var shortWayClear = clearance{open: 0.02, near: 100}

// setStart prepares the first guess of every search, from the mechanism at
// rest and at one drive angle nearby: rise A (cos t - 1) + B sin t + C t^3,
// with first and second derivative as at rest and the third about so.
func (m *Mechanism) setStart() {
	const s = 0.0625 // rad, about 25 mm at the wheel
	var p Pose
	if m.assemble(0, 1, 0, &p) != NoLink {
		return
	}
	v, ok := m.move(&p)
	if !ok {
		m.rise = m.riseNearby()
		return
	}
	m.rise = v.rise(&p)
	if !m.isClear(&p, shortWayClear) {
		return
	}
	sin, cos := turn(0, 1, s)
	if m.assemble(sin, cos, 0, &p) != NoLink {
		return
	}
	v, m.fast = m.move(&p)
	// Hermite's cubic through height and slope at both angles.
	t := math.Asin(sin)
	height, slope := (p.WheelCentre.Z-m.restZ)/t, v.rise(&p)
	m.riseRate = (6*height - 4*m.rise - 2*slope) / t
	m.riseBend = ((3*m.rise+3*slope-6*height)/(t*t)*2 + m.rise) / 6
}

// riseNearby stands in for the rise of a corner that rests on a dead point of
// upright or tie rod, where the wheel may move without bound for a turn of the
// lower arm: the rise a hair away, on the side that assembles. Only its sign
// matters.
func (m *Mechanism) riseNearby() float64 {
	const hair = 1e-6 // rad, half a thousandth of a mm at the ball joint
	var p Pose
	for _, s := range [...]float64{hair, -hair} {
		if m.assemble(s, 1, 0, &p) != NoLink {
			continue
		}
		if v, ok := m.move(&p); ok {
			return v.rise(&p)
		}
	}
	return m.lower90.Z // it assembles at rest alone
}

// isClear tells whether both roots of a pose stand clear of full reach.
func (m *Mechanism) isClear(p *Pose, least clearance) bool {
	steer := m.steeringCircle(p)
	return m.upper.isClear(p.UpperBall, p.LowerBall, least) && steer.isClear(p.OuterEnd, p.RackEnd, least)
}

// At solves the corner at a travel and rack position. The answer depends on
// nothing else: the same arguments give the same bits. The error is a
// *ReachError and matches ErrUnreachable. Arguments must be finite.
func (m *Mechanism) At(travel, rack float64) (Pose, error) {
	var p Pose
	err := m.solve(travel, rack, &p)
	return p, err
}

func (m *Mechanism) solve(travel, rack float64, p *Pose) error {
	if !(math.Abs(travel) <= MaxLength && math.Abs(rack) <= MaxLength) {
		panic(fmt.Sprintf("kinematics: travel %g or rack %g is not within ±10 m", travel, rack))
	}
	var v motion
	moves, err := m.place(travel, rack, p, &v)
	if err != nil {
		return err
	}
	m.complete(p, &v, moves)
	return nil
}

// place sets the linkage up at a travel and rack position, with its motion, and
// no more; moves as of move.
func (m *Mechanism) place(travel, rack float64, p *Pose, v *motion) (moves bool, err error) {
	*p = Pose{Travel: travel, Rack: rack}
	if m.shortWay(travel, rack, p, v) {
		return true, nil
	}
	if err := m.longWay(travel, rack, p); err != nil {
		return false, err
	}
	*v, moves = m.move(p)
	return moves, nil
}

// shortWay is Newton's method from a close first guess, bent by the second
// derivative at rest (Chebyshev's method). It answers, with the pose and its
// motion, only where the checks show that no dead point lies between rest and
// the answer, so that the long way would find the same position.
func (m *Mechanism) shortWay(travel, rack float64, p *Pose, v *motion) bool {
	if !m.fast {
		return false
	}
	if rack != 0 && !m.startsClear(rack, p) {
		return false
	}
	sin, cos, ok := m.guess(travel)
	if !ok {
		return false
	}
	for range shortWaySteps {
		if m.assemble(sin, cos, rack, p) != NoLink {
			return false
		}
		if *v, ok = m.move(p); !ok {
			return false
		}
		rise := v.rise(p)
		if rise/m.rise < shortWayRise {
			return false
		}
		miss := p.WheelCentre.Z - m.restZ - travel
		if math.Abs(miss) <= travelTolerance {
			return cos > 0 && math.Abs(sin) < shortWayReach && m.isClear(p, shortWayClear)
		}
		n := 1 / rise
		d := -miss * n
		sin, cos = turn(sin, cos, d*(1-m.riseRate*n*d/2))
	}
	return false
}

// startsClear tells whether the place where the long way starts, the resting
// drive angle with the rack moved, is itself far from every dead point.
func (m *Mechanism) startsClear(rack float64, p *Pose) bool {
	if m.assemble(0, 1, rack, p) != NoLink {
		return false
	}
	v, ok := m.move(p)
	return ok && v.rise(p)/m.rise >= shortWayRise && m.isClear(p, shortWayClear)
}

// guess solves A (cos t - 1) + B sin t = travel near t = 0 and then allows for
// the third derivative.
func (m *Mechanism) guess(travel float64) (sin, cos float64, ok bool) {
	a, b := -m.riseRate, m.rise
	c := travel + a
	r2 := a*a + b*b
	s := r2 - c*c
	if s <= 0 {
		return 0, 1, false
	}
	root := math.Copysign(math.Sqrt(s), b)
	sin, cos = (b*c-a*root)/r2, (a*c+b*root)/r2
	slope := b*cos - a*sin
	sin, cos = turn(sin, cos, -m.riseBend*sin*sin*sin/slope)
	return sin, cos, true
}

// turn adds a small angle to one held as sine and cosine. The half-tangent
// form keeps sin^2 + cos^2 = 1 to rounding; it turns by 2 atan(d/2), which is
// d to third order, and Newton's method needs no more.
func turn(sin, cos, d float64) (s, c float64) {
	h := d / 2
	n := 1 / (1 + h*h)
	sd, cd := 2*h*n, (1-h*h)*n
	return sin*cd + cos*sd, cos*cd - sin*sd
}

// longWay walks from rest towards the travel until it is passed or a link
// binds, then closes the bracket.
func (m *Mechanism) longWay(travel, rack float64, p *Pose) error {
	w := walker{m: m, rack: rack}
	if err := w.start(travel); err != nil {
		return err
	}
	near := func(at waypoint) bool { return math.Abs(at.travel-travel) <= fullReachSlack }
	// The resting position is never searched for: at full reach its height is
	// blurred by the root of a rounding, and one way from there may be closed.
	if near(w.from) || travel == 0 && rack == 0 {
		m.assemble(0, 1, rack, p)
		return nil
	}
	switch {
	case w.walk(travel):
	case near(w.at):
		m.assemble(math.Sin(w.at.drive), math.Cos(w.at.drive), rack, p)
		return nil
	default:
		return w.unreachable(travel)
	}
	t := root(func(t float64) float64 {
		m.assemble(math.Sin(t), math.Cos(t), rack, p)
		return p.WheelCentre.Z - m.restZ - travel
	}, w.before.drive, w.at.drive, travelTolerance)
	if link := m.assemble(math.Sin(t), math.Cos(t), rack, p); link != NoLink {
		// The walk stepped over a gap narrower than its steps.
		w.at, w.link = w.before, link
		w.bind(t)
		return w.unreachable(travel)
	}
	return nil
}

// Looks returns at how many positions of the linkage [Mechanism.At] looks between
// rest and the place asked for: none on a corner clear of full reach, thousands
// where a link stays near it while an arm swings far. The work of At grows with
// them. Arguments are those of At.
func (m *Mechanism) Looks(travel, rack float64) int {
	var p Pose
	var v motion
	if m.shortWay(travel, rack, &p, &v) {
		return 0
	}
	w := walker{m: m, rack: rack}
	if w.start(travel) == nil {
		w.walk(travel)
	}
	return w.looks
}

// root finds a zero of f between a and b, where f changes sign: bracketed
// secant steps, halved whenever they do not shrink the bracket enough. It ends
// when |f| <= tol or the bracket holds no further number.
func root(f func(float64) float64, a, b, tol float64) float64 {
	fa, fb := f(a), f(b)
	if math.Abs(fa) <= tol {
		return a
	}
	if math.Abs(fb) <= tol {
		return b
	}
	for {
		x := b - fb*(b-a)/(fb-fa)
		if mid := a + (b-a)/2; !((x-a)*(x-b) < 0) || mid == a || mid == b {
			x = mid
		}
		fx := f(x)
		if math.Abs(fx) <= tol || x == a || x == b {
			return x
		}
		if (fx > 0) == (fb > 0) {
			// The same end again: halve the other's weight (Illinois rule,
			// Dowell and Jarratt, BIT 11, 1971).
			b, fb = x, fx
			fa /= 2
		} else {
			a, fa = b, fb
			b, fb = x, fx
		}
	}
}
