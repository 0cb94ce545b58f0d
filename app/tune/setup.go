// Package tune turns a job into what package bumpsteer is asked, and its
// answers into the trade's words: which spacers there are, how the toe gauge
// reads, what was read on the car, what can be adjusted, what is wrong with a
// toe curve. It knows neither window nor command line.
package tune

import (
	"fmt"
	"math"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Setup is one variant of a job with all that tuning it needs.
type Setup struct {
	Corner      kinematics.Corner
	Within      kinematics.Within // how well every coordinate is known
	Unit        units.Unit        // of lengths in words
	Rear        bool              // the tie rod is a fixed toe link
	Bump, Droop float64           // mm of travel, both counted from rest

	// Gauge is the job's, its width the rim's diameter unless the job says:
	// then FromRim. Without either the width is 0.
	Gauge       bumpsteer.Gauge
	FromRim     bool
	ReadsWithin float64 // rad, half-width of the error of one reading

	Spacers             []bumpsteer.Spacer
	Tallest, Grip, Bolt float64 // mm; 0 where the job does not say
	// Standing are the spacers between outer end and steering arm as the points
	// stand, mm, over the joint if Over.
	Standing  []float64
	Over      bool
	Adjusters []Adjuster
	Readings  []Taken // of this variant, as written down
}

// SetupOf reads one variant of a job without problems.
func SetupOf(j *job.Job, variant int) Setup {
	v := &j.Variants[variant]
	s := Setup{Corner: v.Corner(), Within: j.Known(v), Unit: j.Units, Rear: j.Axle == job.Rear,
		Bump: j.Travel.Bump.MM, Droop: j.Travel.Droop.MM,
		Gauge:       bumpsteer.Gauge{Spacing: j.ToeGauge.DialSpacing.MM},
		ReadsWithin: j.ReadingsWithin().Radians(),
		Tallest:     j.Spacers.Tallest.MM, Grip: j.Spacers.Grip.MM, Bolt: j.Spacers.LongestBolt.MM}
	s.Gauge.Width, s.FromRim = j.ToeWidth(v)
	for _, k := range j.Spacers.Stock {
		s.Spacers = append(s.Spacers, bumpsteer.Spacer{Thickness: k.Thickness.MM, Count: k.Count})
	}
	for _, p := range v.Stack.Pieces {
		s.Standing = append(s.Standing, p.MM)
	}
	s.Over = v.Stack.Over
	for i := range j.Adjusters {
		s.Adjusters = append(s.Adjusters, adjusterOf(&j.Adjusters[i], &s.Corner))
	}
	for i := range v.ToeReadings {
		s.Readings = append(s.Readings, s.taken(&v.ToeReadings[i], fmt.Sprintf("reading %d", i+1)))
	}
	return s
}

// Sigma is the standard deviation of one gauge reading, rad: that of an error
// anywhere within ±ReadsWithin, as for measured coordinates.
func (s *Setup) Sigma() float64 { return s.ReadsWithin / math.Sqrt(3) }

// Adjuster is an adjuster of the job.
type Adjuster struct {
	bumpsteer.Adjuster
	Kind job.AdjusterKind
	// Sets is what it is meant to set; only if HasSets. A tie rod sets toe
	// unless the job says otherwise.
	Sets    kinematics.Quantity
	HasSets bool
}

var legOf = map[job.Place]kinematics.Leg{
	job.UpperFrontPlace: kinematics.UpperFrontLeg, job.UpperRearPlace: kinematics.UpperRearLeg,
	job.LowerFrontPlace: kinematics.LowerFrontLeg, job.LowerRearPlace: kinematics.LowerRearLeg,
	job.TieRodPlace: kinematics.TieRodLeg,
}

var pivotsOf = map[job.Place][]kinematics.Point{
	job.UpperFrontPlace: {kinematics.UpperFront}, job.UpperRearPlace: {kinematics.UpperRear},
	job.LowerFrontPlace: {kinematics.LowerFront}, job.LowerRearPlace: {kinematics.LowerRear},
	job.UpperArmPlace: {kinematics.UpperFront, kinematics.UpperRear},
	job.LowerArmPlace: {kinematics.LowerFront, kinematics.LowerRear},
	job.RackEndPlace:  {kinematics.RackEnd},
}

var quantityOf = map[job.Sets]kinematics.Quantity{
	job.SetsCamber: kinematics.Camber, job.SetsCaster: kinematics.Caster, job.SetsToe: kinematics.Toe,
}

// pivotsAt are the points that move together at a place of a corner: an arm in
// the short form has one pivot, which is both.
func pivotsAt(at job.Place, c *kinematics.Corner) []kinematics.Point {
	list := pivotsOf[at]
	if at == job.UpperArmPlace && c.Upper.Flat || at == job.LowerArmPlace && c.Lower.Flat {
		return list[:1]
	}
	return list
}

func adjusterOf(a *job.Adjuster, c *kinematics.Corner) Adjuster {
	out := Adjuster{Kind: a.Kind}
	out.Sets, out.HasSets = quantityOf[a.Sets]
	switch a.Kind {
	case job.RodEnd:
		out.Adjuster = bumpsteer.RodEnd(a.Name, legOf[a.Leg], threadOf(a.Thread), a.Out.MM/a.Thread.Pitch.MM, a.In.MM/a.Thread.Pitch.MM)
	case job.RightLeft:
		turn := a.Thread.Pitch.MM + a.LeftThread.Pitch.MM
		out.Adjuster = bumpsteer.RightLeftPair(a.Name, legOf[a.Leg], threadOf(a.Thread), threadOf(a.LeftThread), a.Out.MM/turn, a.In.MM/turn)
	case job.Eccentric:
		out.Adjuster = bumpsteer.Eccentric(a.Name, pivotsOf[a.Pivot][0], a.Direction.Vec(), a.Throw.MM, a.Now.MM)
	case job.ShimPack:
		out.Adjuster = bumpsteer.Shims(a.Name, a.Direction.Vec(), a.Out.MM, a.In.MM, pivotsAt(a.Pivot, c)...)
	default:
		panic(fmt.Sprintf("tune: no adjuster of kind %d", a.Kind))
	}
	if !out.HasSets && out.Per.Longer[kinematics.TieRodLeg] != 0 {
		out.Sets, out.HasSets = kinematics.Toe, true
	}
	return out
}

func threadOf(t job.Thread) bumpsteer.Thread {
	return bumpsteer.Thread{Diameter: t.Diameter.MM, Pitch: t.Pitch.MM, Engaged: t.Engaged.MM}
}

// Moved adds a corner to a job as its last variant: the variant from, with the
// points where the corner has them and what stays typed as it was. A name that
// is taken gets a number. The job itself is not changed.
func Moved(j *job.Job, from int, name, notes string, c kinematics.Corner) *job.Job {
	next := j.Clone()
	v := next.Variants[from].Proposal(j.FreeName(name))
	v.Notes = notes
	for _, p := range c.Points() {
		v.SetPoint(p, *c.At(p))
	}
	next.Variants = append(next.Variants, v)
	return next
}

// Now is where an eccentric bolt has its pivot, mm from the middle; 0 for others.
func (a *Adjuster) Now() float64 {
	if a.Throw == 0 {
		return 0
	}
	return a.Throw - a.Max
}
