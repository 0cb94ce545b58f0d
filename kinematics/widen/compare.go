package widen

import (
	"math"

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

// Setup is what a comparison is made under.
type Setup struct {
	Travel, Rack []float64 // mm, over which the largest are taken
	Gear         effort.Gear
	Conditions   effort.Conditions
	Tyre         clearance.Tyre    // zero if not known: then no face and no swing
	Within       kinematics.Within // how well each coordinate is measured

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
}

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
	both, err := By(c, mm)
	if err != nil {
		return Table{}, err
	}
	if err := s.check(c, both.Arms, mm); err != nil {
		return Table{}, err
	}
	before := s.look(c, 0)
	arms := s.look(both.Arms, mm)
	armsBand := changeBands(&before, &arms)
	var spacers looked
	var spacersBand measures
	if both.HasSpacers {
		spacers = s.look(both.Spacers, 0)
		spacersBand = changeBands(&before, &spacers)
	}
	beforeOwn, spacersOwn, armsOwn := before.bands(), spacers.bands(), arms.bands()
	var t Table
	for i := range t {
		l := &t[i]
		l.Before, l.Spacers, l.Arms = before.is[i], spacers.is[i], arms.is[i]
		l.BeforeOwn, l.SpacersOwn, l.ArmsOwn = beforeOwn[i], spacersOwn[i], armsOwn[i]
		l.SpacersBand, l.ArmsBand = spacersBand[i], armsBand[i]
	}
	return t, nil
}

type measures [MeasureCount]Value

// measure works out every line of one corner; out is how far its upright has
// moved, for the rod that is kept. at is where the largest stand.
func (s *Setup) measure(c kinematics.Corner, out float64) (v measures, at places) {
	m, err := kinematics.New(&c)
	if err != nil {
		return v, at // unknown, all of it
	}
	p, err := m.At(0, 0)
	if err != nil {
		return v, at
	}
	for k, x := range s.rest(&m, &p) {
		v[k].Value, v[k].OK = x.Of()
	}
	for k, x := range s.tyre(&p) {
		v[k].Value, v[k].OK = x.Of()
	}
	s.efforts(&m, func(k Measure, x kinematics.Value) { v[k].Value, v[k].OK = x.Of() })
	for i, with := range s.rods(c, out) {
		if with == nil {
			continue
		}
		if ride, err := RideToeOver(with, s.Travel); err == nil {
			v[rideMeasures[i]], at.ride[i] = Value{ride.Most, true}, ride.At
		}
	}
	var unmet int
	at.tilt, unmet = jointangle.Over(&m, s.Travel, s.Rack)
	for j, k := range tiltMeasures {
		v[k] = Value{at.tilt[j].Tilt, unmet == 0}
	}
	return v, at
}

// rest are the measures at rest but for those of the tyre.
func (s *Setup) rest(m *kinematics.Mechanism, p *kinematics.Pose) map[Measure]kinematics.Value {
	r := p.Values()
	force, err := effort.SpringForce(m, s.Conditions.Load)
	return map[Measure]kinematics.Value{HalfTrack: r[kinematics.HalfTrack], ScrubRadius: r[kinematics.ScrubRadius], CamberGain: r[kinematics.CamberGain],
		RollCentre: r[kinematics.RollCentreHeight], MotionRatio: r[kinematics.MotionRatio], RideToeRate: r[kinematics.RideToe],
		SpringForce: kinematics.Number(force, err == nil)}
}

// tyre are the measures of a known tyre.
func (s *Setup) tyre(p *kinematics.Pose) map[Measure]kinematics.Value {
	if s.Tyre == (clearance.Tyre{}) {
		return nil
	}
	swing := clearance.SwingOf(p, s.Tyre)
	return map[Measure]kinematics.Value{Face: kinematics.Number(s.Tyre.Face(p), true),
		SwingFront: kinematics.Number(max(swing.InnerFront, swing.OuterFront), true), SwingRear: kinematics.Number(max(swing.InnerRear, swing.OuterRear), true)}
}

var rideMeasures = [...]Measure{RideToeMost, RideToeRodKept, RideToeRefitted}

var tiltMeasures = [jointangle.JointCount]Measure{jointangle.UpperBall: UpperBallTilt, jointangle.LowerBall: LowerBallTilt,
	jointangle.OuterEnd: OuterEndTilt, jointangle.RackEnd: RackEndTilt}

// rods are the mechanisms of rideMeasures; nil where there is none.
func (s *Setup) rods(c kinematics.Corner, out float64) (list [len(rideMeasures)]*kinematics.Mechanism) {
	kept := c
	kept.TieRod.RackEnd.Y += out
	fitted, _ := WithRods(c, 0, RackEndFitted, s.Travel) // of an error no corner, which New refuses
	for i, with := range [...]kinematics.Corner{c, kept, fitted} {
		if m, err := kinematics.New(&with); err == nil {
			list[i] = &m
		}
	}
	return list
}

func (s *Setup) efforts(m *kinematics.Mechanism, set func(Measure, kinematics.Value)) {
	parking, err := effort.Parking(m, s.Conditions)
	braking, err2 := effort.SplitBraking(s.Conditions)
	bump, err3 := effort.OneWheelBump(s.Conditions)
	for _, l := range []struct {
		load               effort.Case
		err                error
		moment, rack, pull Measure
	}{{parking, err, ParkingMoment, ParkingRack, ParkingPull}, {braking, err2, BrakingMoment, BrakingRack, BrakingPull}, {bump, err3, BumpMoment, BumpRack, BumpPull}} {
		var a, per effort.Answer
		if l.err == nil {
			a, l.err = effort.Solve(m, s.Gear, l.load)
		}
		if l.err == nil {
			per, l.err = effort.PerScrub(m, s.Gear, l.load)
		}
		put := func(at Measure, x, per float64, ok bool) {
			v := kinematics.Number(x, ok && l.err == nil)
			v.Root = l.load.Scrub.Times(per)
			set(at, v)
		}
		put(l.moment, a.Left.Moment, per.Left.Moment, true)
		if l.rack == ParkingRack {
			rack, pull := math.Copysign(1, a.Rack), math.Copysign(1, a.RimPull)
			a.Rack, a.RimPull, per.Rack, per.RimPull = rack*a.Rack, pull*a.RimPull, rack*per.Rack, pull*per.RimPull
		}
		put(l.rack, a.Rack, per.Rack, true)
		put(l.pull, a.RimPull, per.RimPull, a.HasWheel)
	}
}
