package job

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// defaultWithin is how well points are measured unless the job says: a tape
// on a car comes to about 1 mm. Common practice, no source.
const defaultWithin = 1.0 // mm

// Axle says which end of the car the job is about.
type Axle uint8

// The axles. The zero value is none.
const (
	Front Axle = iota + 1
	Rear
)

// String returns the word the file uses.
func (a Axle) String() string { return wordOf(axleWords, a) }

// Optional is a length that a job may leave out.
type Optional struct {
	units.Length
	Given bool
}

// Given returns an Optional that holds a length.
func Given(l units.Length) Optional { return Optional{l, true} }

// Degrees is an angle as the file states it.
type Degrees float64

// Job is one axle of one car. Its copies share the variants: see Clone.
type Job struct {
	Name           string
	Invented       bool // an example: no such car was measured
	Axle           Axle
	Units          units.Unit // Millimetre or Inch: of plain numbers in the file
	MeasuredWithin units.Length
	Travel         Travel
	Rack           Rack
	Wheelbase      Optional
	Targets        Targets
	Spacers        Spacers
	ToeGauge       ToeGauge
	Adjusters      []Adjuster
	Obstacles      []Obstacle
	Steering       Steering
	CornerWeight   Weight // on each wheel of the axle, the car ready to drive
	Brake          Brake
	Housings       Housings
	JointLimits    JointLimits
	Wheels         []WheelChoice // that can be had
	Photo          Photo
	Variants       []Variant // the first is as measured, the others are proposals

	src     *yaml.Node // as read, for comments and order; shared, never changed
	crlf    bool       // lines end in CR LF in the file read
	version Version    // of the file read
	kept    []Kept     // see Kept; shared, never changed
}

// Travel is how far the wheel moves from rest; both are counted from 0 up.
type Travel struct {
	Bump, Droop units.Length
	Assumed     Sides // which of them nobody has measured
}

// Sides marks the two lengths of a Travel or Rack, in their order.
type Sides [2]bool

// Any tells whether either is marked.
func (s Sides) Any() bool { return s[0] || s[1] }

// without takes the mark off lengths that have another number than in a former state.
func (s *Sides) without(now, former [2]float64) {
	for i := range s {
		s[i] = s[i] && now[i] == former[i]
	}
}

// Measured settles what hangs on numbers that differ from a former state of the job,
// of travel, rack and each variant; see Variant.Measured.
func (j *Job) Measured(former *Job) {
	j.Travel.Assumed.without([2]float64{j.Travel.Bump.MM, j.Travel.Droop.MM}, [2]float64{former.Travel.Bump.MM, former.Travel.Droop.MM})
	j.Rack.Assumed.without([2]float64{j.Rack.Left.MM, j.Rack.Right.MM}, [2]float64{former.Rack.Left.MM, former.Rack.Right.MM})
	for i := range min(len(j.Variants), len(former.Variants)) {
		j.Variants[i].Measured(&former.Variants[i])
	}
}

// Rack is how far the rack moves from the middle; both are counted from 0 up.
// A rear axle with a fixed toe link has none.
type Rack struct {
	Left, Right units.Length
	Assumed     Sides // which of them nobody has measured
}

// Variant is one state of the left corner: as measured, or a proposal.
type Variant struct {
	Name, Notes    string
	MeasuredWithin Optional // its own, instead of the job's
	UpperArm       Arm
	LowerArm       Arm
	TieRod         TieRod
	Hub            Position
	Camber, Toe    Degrees // at rest
	// ToeTyped is the length that the toe was typed as, for as long as it comes to that;
	// empty for an angle. See ToeAsTyped.
	ToeTyped string
	// CamberWithin and ToeWithin are how well camber and toe are known, where they are no
	// plain readings of a gauge: picked in a photo, or following from the points after
	// another arm length; 0 is exact.
	CamberWithin, ToeWithin Degrees
	// Track is between the contacts, if that was measured: then hub.y follows
	// from it, whatever is typed of the wheel; see PlaceHub.
	Track   Optional
	Wheel   Wheel
	Spring  Spring
	Assumed Assumed // values that are not measured yet
	// ToeReadings were taken on the car as this variant describes it, in the
	// order in which they were written down.
	ToeReadings []ToeReading
	// FittedTo are readings that the points were corrected by, each as an angle:
	// together with them the toe curve is known better than by the tape; see Known.
	FittedTo []ToeReading
	// Together are errors that move many of the values at once.
	Together []Together
	Stack    Stack // between outer end and steering arm, as the points stand

	src   *yaml.Node         // as Job.src
	began *kinematics.Corner // see Began; never changed
}

// Begin has the variant's changes counted from what it is now.
func (v *Variant) Begin() {
	c := v.Corner()
	v.began = &c
}

// Began is the corner that the variant's changes are counted from: what the file
// held, or what the proposal was made from. It is nil before Begin, and no file
// holds it.
func (v *Variant) Began() *kinematics.Corner { return v.began }

// Arm is a wishbone with two pivots, or in its short form (Flat) with the one
// pivot of a front view, which is Front.
type Arm struct {
	Front, Rear, Ball Position
	Flat              bool
}

// TieRod joins the rack, or a point of the body on an axle that is not
// steered, to the upright.
type TieRod struct{ RackEnd, OuterEnd Position }

// Wheel is what stands on the hub face.
type Wheel struct {
	Tyre                     string // size code as typed
	RimWidth, Offset, Spacer units.Length
	LoadedRadius             Optional // as measured; see Loaded
	// RadiusTyre is the size that the loaded radius was measured with, as typed;
	// empty for that on the wheel.
	RadiusTyre string
}

// Spring is a spring or coil-over; without a carrier the job holds none.
type Spring struct {
	CarriedBy    kinematics.Carrier
	Moving, Body Position
}

// Clone returns a job that shares nothing that could change. It costs one
// copy of the variants.
func (j *Job) Clone() *Job {
	c := *j
	c.Variants = slices.Clone(j.Variants)
	for i := range c.Variants {
		c.Variants[i].cloneLists()
	}
	c.Spacers.Stock = slices.Clone(j.Spacers.Stock)
	c.Adjusters = slices.Clone(j.Adjusters)
	c.Obstacles = slices.Clone(j.Obstacles)
	c.Wheels = slices.Clone(j.Wheels)
	return &c
}

// Equal tells whether both jobs hold the same values, typed the same way.
// Comments and the order of keys do not count.
func (j *Job) Equal(other *Job) bool {
	return j.Name == other.Name && j.Invented == other.Invented && j.Axle == other.Axle && j.Units == other.Units &&
		j.MeasuredWithin == other.MeasuredWithin && j.Travel == other.Travel && j.Rack == other.Rack &&
		j.Wheelbase == other.Wheelbase && j.Targets == other.Targets && j.Photo == other.Photo &&
		sameSpacers(j.Spacers, other.Spacers) && j.ToeGauge == other.ToeGauge && slices.Equal(j.Adjusters, other.Adjusters) &&
		slices.Equal(j.Obstacles, other.Obstacles) && j.Steering == other.Steering && j.CornerWeight == other.CornerWeight &&
		j.Brake == other.Brake && j.Housings == other.Housings && j.JointLimits == other.JointLimits && slices.Equal(j.Wheels, other.Wheels) &&
		slices.EqualFunc(j.Variants, other.Variants, func(a, b Variant) bool {
			return sameVariant(a, b) && j.ToeAsTyped(&a) == other.ToeAsTyped(&b)
		})
}

func sameVariant(a, b Variant) bool {
	return a.Name == b.Name && a.Notes == b.Notes && a.MeasuredWithin == b.MeasuredWithin &&
		a.UpperArm == b.UpperArm && a.LowerArm == b.LowerArm && a.TieRod == b.TieRod && a.Hub == b.Hub &&
		a.Camber == b.Camber && a.CamberWithin == b.CamberWithin && a.ToeWithin == b.ToeWithin && a.Toe == b.Toe && a.Track == b.Track && a.Wheel == b.Wheel && a.Spring == b.Spring && a.Assumed == b.Assumed &&
		slices.Equal(a.ToeReadings, b.ToeReadings) && slices.Equal(a.FittedTo, b.FittedTo) && slices.Equal(a.Together, b.Together) &&
		a.Stack.Over == b.Stack.Over && slices.Equal(a.Stack.Pieces, b.Stack.Pieces)
}

func sameSpacers(a, b Spacers) bool {
	return a.Tallest == b.Tallest && a.Grip == b.Grip && a.LongestBolt == b.LongestBolt && slices.Equal(a.Stock, b.Stock)
}

// Title is the name as headings have it: one of an invented job says so.
func (j *Job) Title() string {
	if j.Invented {
		return j.Name + " (invented example)"
	}
	return j.Name
}

// Within is how well the variant's points are known: the half-width of the
// error on every coordinate, mm.
func (j *Job) Within(v *Variant) float64 {
	if v.MeasuredWithin.Given {
		return v.MeasuredWithin.MM
	}
	return j.MeasuredWithin.MM
}

// Find returns the variant of that name, in place.
func (j *Job) Find(name string) (v *Variant, ok bool) {
	for i := range j.Variants {
		if j.Variants[i].Name == name {
			return &j.Variants[i], true
		}
	}
	return nil, false
}

// FreeName returns the name, or the name with the first number that is not taken.
func FreeName(name string, taken func(name string) bool) string {
	free := name
	for n := 2; taken(free); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// FreeName is FreeName for one more variant.
func (j *Job) FreeName(name string) string {
	return FreeName(name, func(name string) bool {
		_, taken := j.Find(name)
		return taken
	})
}

// Names lists the variants' names in their order.
func (j *Job) Names() []string {
	names := make([]string, len(j.Variants))
	for i := range j.Variants {
		names[i] = j.Variants[i].Name
	}
	return names
}

// Proposal returns a variant that starts from v under another name. Comments
// in the file stay with v, and so do notes, readings and track: nobody has
// measured a proposal, and on it the hub stays where it is when the wheel changes. A
// stack under the outer end stays: its part of the height is in the points.
func (v *Variant) Proposal(name string) Variant {
	p := *v
	p.Name, p.Notes, p.src, p.ToeReadings, p.FittedTo, p.Track = name, "", nil, nil, nil, Optional{}
	p.Begin()
	return p
}
