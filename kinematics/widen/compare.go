package widen

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/effort"
	"armscribe/kinematics/jointangle"
)

// Measure names one line of a comparison.
type Measure uint8

// The lines, at rest unless they say otherwise. Moments are the left wheel's
// about its steering axis; rack and rim those of both wheels together, positive
// to the left as in package effort, but for parking as magnitudes: there the
// ground always resists.
const (
	HalfTrack       Measure = iota // mm
	ScrubRadius                    // mm
	Face                           // mm, y of the tyre's outer face
	SwingFront                     // mm, the larger of both shoulders ahead of the axle
	SwingRear                      // mm, behind it
	CamberGain                     // rad/mm
	RollCentre                     // mm above ground
	MotionRatio                    // spring / wheel
	SpringForce                    // N, under the load of the conditions
	RideToeRate                    // rad/mm, the tie rod lengthened with the arms
	RideToeMost                    // rad over the travel, likewise
	RideToeRodKept                 // rad over the travel, the old rod and the rack's end moved out
	RideToeRefitted                // rad over the travel, the rack's end put where the wheel steers itself least
	ParkingMoment                  // N mm
	ParkingRack                    // N
	ParkingPull                    // N at the rim
	BrakingMoment
	BrakingRack
	BrakingPull
	BumpMoment
	BumpRack
	BumpPull
	UpperBallTilt // rad, the most over travel and rack
	LowerBallTilt
	OuterEndTilt
	RackEndTilt
	MeasureCount
)

// Sense is what makes a measure better.
type Sense uint8

// The senses. Wished measures are what the widening is for; of Smaller ones the
// magnitude should be small; Kept ones were chosen once and should stay.
const (
	Wished Sense = iota
	Smaller
	Kept
)

// Sense tells what makes the measure better.
func (m Measure) Sense() Sense {
	switch m {
	case HalfTrack, Face:
		return Wished
	case CamberGain, RollCentre, MotionRatio, SpringForce:
		return Kept
	}
	if m >= MeasureCount {
		panic(fmt.Sprintf("kinematics: widen: no measure %d", m))
	}
	return Smaller
}

// pulls tells whether the sign of a measure is felt: a steering axis on the
// other side of the contact, or a wheel that pulls the other way.
func (m Measure) pulls() bool {
	switch m {
	case ScrubRadius, BrakingMoment, BrakingRack, BrakingPull, BumpMoment, BumpRack, BumpPull:
		return true
	}
	return false
}

// Setup is what a comparison is made under.
type Setup struct {
	Travel, Rack []float64 // mm, over which the largest are taken
	Gear         effort.Gear
	Conditions   effort.Conditions
	Tyre         clearance.Tyre // zero if not known: then no face and no swing
	Within       float64        // mm, how well each coordinate is measured

	work *int // counts the corners that are measured whole; may be nil
}

// Value is a number that may not exist.
type Value struct {
	Value float64
	OK    bool
}

// Line is one measure of the measured corner and of both proposals; of spacers
// nothing is known where there are none. Own bands are the 95 % half-widths of the
// values themselves; the others those of the change from the measured corner, as of
// [kinematics.ChangeBands]: a coordinate that both corners share carries one
// error.
type Line struct {
	Before, Spacers, Arms          Value
	BeforeOwn, SpacersOwn, ArmsOwn Value
	SpacersBand, ArmsBand          Value
	SpacersBetter, ArmsBetter      Verdict
}

// Verdict tells how a proposal does against the measured corner.
type Verdict int8

// The verdicts. Same is a change within its band, or within rounding where the
// band is nothing; NoVerdict is for wished measures and where a value is missing.
// Turned is a scrub radius, or what a force does to the steering, whose sign has
// changed for sure: the wheel pulls the other way, which a smaller size does not
// make better.
const (
	NoVerdict Verdict = iota
	Same
	Better
	Worse
	Turned
)

// sameShare is the share of a value, or of 1, by which rounding may change it.
const sameShare = 1e-9

// Table is a comparison.
type Table [MeasureCount]Line

// Compare sets both ways of widening by mm a side beside the measured corner.
// Errors are those of By and of package effort for the conditions, and one that
// matches [kinematics.ErrGeometry] for a corner on which too much would have to be
// tried; a measure that does not exist on a corner (no spring, no rack moved, out
// of reach) is marked instead.
func Compare(c kinematics.Corner, mm float64, s Setup) (Table, error) {
	if _, err := effort.SplitBraking(s.Conditions); err != nil {
		return Table{}, err
	}
	if s.Tyre != (clearance.Tyre{}) {
		if err := s.Tyre.Validate(); err != nil {
			return Table{}, err
		}
	}
	if !(s.Within >= 0 && s.Within <= kinematics.MaxLength) {
		return Table{}, faultf("measured within %s mm is not between 0 and %s mm", num(s.Within), num(kinematics.MaxLength))
	}
	both, err := By(c, mm)
	if err != nil {
		return Table{}, err
	}
	if err := s.check(c, both.Arms, mm); err != nil {
		return Table{}, err
	}
	before := s.look(c, 0)
	arms := s.look(both.Arms, mm)
	armsBand := s.changeBands(&before, &arms)
	var spacers looked
	var spacersBand measures
	if both.HasSpacers {
		spacers = s.look(both.Spacers, 0)
		spacersBand = s.changeBands(&before, &spacers)
	}
	beforeOwn, spacersOwn, armsOwn := s.ownBands(&before), s.ownBands(&spacers), s.ownBands(&arms)
	var t Table
	for i := range t {
		l := &t[i]
		l.Before, l.Spacers, l.Arms = before.is[i], spacers.is[i], arms.is[i]
		l.BeforeOwn, l.SpacersOwn, l.ArmsOwn = beforeOwn[i], spacersOwn[i], armsOwn[i]
		l.SpacersBand, l.ArmsBand = spacersBand[i], armsBand[i]
		l.SpacersBetter = verdict(Measure(i), known{l.Before, l.BeforeOwn}, known{l.Spacers, l.SpacersOwn}, l.SpacersBand)
		l.ArmsBetter = verdict(Measure(i), known{l.Before, l.BeforeOwn}, known{l.Arms, l.ArmsOwn}, l.ArmsBand)
	}
	return t, nil
}

// known is a value with its own band.
type known struct{ is, own Value }

// sure tells whether the sign is known.
func (k known) sure() bool { return k.own.OK && math.Abs(k.is.Value) > k.own.Value }

func verdict(m Measure, was, now known, band Value) Verdict {
	s, before, after := m.Sense(), was.is, now.is
	if s == Wished || !before.OK || !after.OK {
		return NoVerdict
	}
	change := after.Value - before.Value
	if math.Abs(change) <= max(band.Value, sameShare*math.Abs(before.Value), sameShare*math.Abs(after.Value)) {
		return Same
	}
	if m.pulls() && before.Value*after.Value < 0 && was.sure() && now.sure() {
		return Turned
	}
	if s == Smaller && math.Abs(after.Value) < math.Abs(before.Value) {
		return Better
	}
	return Worse
}

type measures [MeasureCount]Value

// measure works out every line of one corner; out is how far its upright has
// moved, for the rod that is kept. Face and swing are taken from another corner,
// if one is given on which wheel and ball joints stand alike: they are most of
// the work.
func (s *Setup) measure(c kinematics.Corner, out float64, alike *measures) (v measures) {
	if s.work != nil {
		*s.work++
	}
	m, err := kinematics.New(&c)
	if err != nil {
		return v // unknown, all of it
	}
	p, err := m.At(0, 0)
	if err != nil {
		return v
	}
	r := p.Readings()
	for at, q := range map[Measure]kinematics.Quantity{HalfTrack: kinematics.HalfTrack, ScrubRadius: kinematics.ScrubRadius, CamberGain: kinematics.CamberGain,
		RollCentre: kinematics.RollCentreHeight, MotionRatio: kinematics.MotionRatio, RideToeRate: kinematics.RideToe} {
		v[at].Value, v[at].OK = r.Of(q)
	}
	set := func(at Measure, x float64, err error) { v[at] = Value{x, err == nil} }
	switch {
	case alike != nil:
		v[Face], v[SwingFront], v[SwingRear] = alike[Face], alike[SwingFront], alike[SwingRear]
	case s.Tyre != (clearance.Tyre{}):
		swing := clearance.SwingOf(&p, s.Tyre)
		set(Face, s.Tyre.Face(&p), nil)
		set(SwingFront, max(swing.InnerFront, swing.OuterFront), nil)
		set(SwingRear, max(swing.InnerRear, swing.OuterRear), nil)
	}
	v[SpringForce] = s.springForce(&m)
	ride, err := RideToeOver(&m, s.Travel)
	set(RideToeMost, ride.Most, err)
	kept := c
	kept.TieRod.RackEnd.Y += out
	ride.Most, err = s.rideToeMost(kept)
	set(RideToeRodKept, ride.Most, err)
	fitted, err := WithRods(c, 0, RackEndFitted, s.Travel)
	if err == nil {
		ride.Most, err = s.rideToeMost(fitted)
	}
	set(RideToeRefitted, ride.Most, err)
	s.efforts(&m, set)
	most, unmet := jointangle.Over(&m, s.Travel, s.Rack)
	for j, at := range [...]Measure{jointangle.UpperBall: UpperBallTilt, jointangle.LowerBall: LowerBallTilt,
		jointangle.OuterEnd: OuterEndTilt, jointangle.RackEnd: RackEndTilt} {
		v[at] = Value{most[j].Tilt, unmet == 0}
	}
	return v
}

func (s *Setup) springForce(m *kinematics.Mechanism) Value {
	force, err := effort.SpringForce(m, s.Conditions.Load)
	return Value{force, err == nil}
}

// spring is what measure says of a corner that differs from another by the ends
// of its spring alone: these move nothing else, and turn nothing but an upright
// that they stand on.
func (s *Setup) spring(c kinematics.Corner, alike *measures) measures {
	v := *alike
	v[MotionRatio], v[SpringForce] = Value{}, Value{}
	m, err := kinematics.New(&c)
	if err != nil {
		return v
	}
	p, err := m.At(0, 0)
	if err != nil {
		return v
	}
	r := p.Readings()
	v[MotionRatio].Value, v[MotionRatio].OK = r.Of(kinematics.MotionRatio)
	v[SpringForce] = s.springForce(&m)
	if c.Spring.Carrier == kinematics.OnUpright {
		s.efforts(&m, func(at Measure, x float64, err error) { v[at] = Value{x, err == nil} })
	}
	return v
}

func (s *Setup) rideToeMost(c kinematics.Corner) (float64, error) {
	m, err := kinematics.New(&c)
	if err != nil {
		return 0, err
	}
	ride, err := RideToeOver(&m, s.Travel)
	return ride.Most, err
}

var errNoWheel = errors.New("no steering wheel")

func (s *Setup) efforts(m *kinematics.Mechanism, set func(Measure, float64, error)) {
	parking, err := effort.Parking(m, s.Conditions)
	braking, err2 := effort.SplitBraking(s.Conditions)
	bump, err3 := effort.OneWheelBump(s.Conditions)
	for _, l := range []struct {
		load               effort.Case
		err                error
		moment, rack, pull Measure
	}{{parking, err, ParkingMoment, ParkingRack, ParkingPull}, {braking, err2, BrakingMoment, BrakingRack, BrakingPull}, {bump, err3, BumpMoment, BumpRack, BumpPull}} {
		var a effort.Answer
		if l.err == nil {
			a, l.err = effort.Solve(m, s.Gear, l.load)
		}
		set(l.moment, a.Left.Moment, l.err)
		if !l.rack.pulls() {
			a.Rack, a.RimPull = math.Abs(a.Rack), math.Abs(a.RimPull)
		}
		set(l.rack, a.Rack, l.err)
		if l.err == nil && !a.HasWheel {
			l.err = errNoWheel
		}
		set(l.pull, a.RimPull, l.err)
	}
}

// Sizes of the bands.
const (
	// step is half a central difference, mm: small against a corner, and large
	// against the rounding of the measures.
	step = 1e-3
	// normal95: a sum of many small errors lies within ±1.96 standard deviations
	// 95 times in 100. Source: any table of the normal distribution.
	normal95 = 1.959963984540054
)

// looked is one corner, its measures, and how they move with every coordinate.
type looked struct {
	corner kinematics.Corner
	is     measures
	of     []kinematics.Coordinate
	by     []measures // by the coordinates in their order, per mm
}

// look measures a corner whose upright has moved out.
func (s *Setup) look(c kinematics.Corner, out float64) looked {
	l := looked{corner: c, is: s.measure(c, out, nil), of: c.Coordinates()}
	for _, at := range l.of {
		l.by = append(l.by, s.slope(c, at, out, &l.is))
	}
	return l
}

// squares sums squares of slopes.
type squares struct{ sum measures }

func newSquares() *squares {
	q := &squares{}
	for i := range q.sum {
		q.sum[i].OK = true
	}
	return q
}

// add adds the slopes by one coordinate less those in another corner, if any.
func (q *squares) add(plus, minus *measures) {
	for i := range q.sum {
		d, ok := plus[i].Value, plus[i].OK
		if minus != nil {
			d, ok = d-minus[i].Value, ok && minus[i].OK
		}
		q.sum[i].Value += d * d
		q.sum[i].OK = q.sum[i].OK && ok
	}
}

// bands are half-widths to first order: errors uniform within ±within, root sum
// of squares.
func (q *squares) bands(within float64) (band measures) {
	for i := range band {
		band[i] = Value{normal95 / math.Sqrt(3) * within * math.Sqrt(q.sum[i].Value), q.sum[i].OK}
	}
	return band
}

// changeBands are the bands of the change from one corner to another.
func (s *Setup) changeBands(from, to *looked) measures {
	q := newSquares()
	for i, at := range from.of {
		if from.corner.Shares(&to.corner, at) {
			q.add(&to.by[slices.Index(to.of, at)], &from.by[i])
			continue
		}
		q.add(&from.by[i], nil)
	}
	for i, at := range to.of {
		if !from.corner.Shares(&to.corner, at) {
			q.add(&to.by[i], nil)
		}
	}
	return q.bands(s.Within)
}

// ownBands are the bands of a corner's measures themselves; none of a corner that
// was not looked at.
func (s *Setup) ownBands(l *looked) measures {
	if l.of == nil {
		return measures{}
	}
	q := newSquares()
	for i := range l.by {
		q.add(&l.by[i], nil)
	}
	return q.bands(s.Within)
}

// slope is the derivative of every measure by one coordinate, per mm. At rest
// nothing but the ball joints and the hub moves the tyre and its axis.
func (s *Setup) slope(c kinematics.Corner, at kinematics.Coordinate, out float64, is *measures) (g measures) {
	up, down := c, c
	up.Shift(at, step)
	down.Shift(at, -step)
	var a, b measures
	switch at.Point {
	case kinematics.SpringMoving, kinematics.SpringBody:
		a, b = s.spring(up, is), s.spring(down, is)
	case kinematics.UpperBall, kinematics.LowerBall, kinematics.HubFace:
		a, b = s.measure(up, out, nil), s.measure(down, out, nil)
	default:
		a, b = s.measure(up, out, is), s.measure(down, out, is)
	}
	for i := range g {
		g[i] = Value{(a[i].Value - b[i].Value) / (2 * step), a[i].OK && b[i].OK}
	}
	return g
}
