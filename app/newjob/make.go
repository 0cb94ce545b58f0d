package newjob

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/tyre"
)

// Make makes the job of a form. The error is Problems; then there is no job.
func Make(f Form) (*Result, error) {
	m := maker{form: f}
	m.read()
	if len(m.problems) == 0 {
		m.fill()
		m.look()
	}
	if len(m.problems) > 0 {
		return nil, m.problems
	}
	m.build()
	if len(m.problems) > 0 {
		return nil, m.problems
	}
	return &m.result, nil
}

type maker struct {
	form     Form
	typed    [FieldCount]units.Length
	toeTyped string // the length that the toe was typed as, if it was one
	tyre     tyre.Tyre
	result   Result
	problems Problems
}

func (m *maker) add(f Field, what, cure string, err error) {
	p := Problem{Field: f, What: what, Cure: cure, Err: err}
	if f < FieldCount {
		p.Name, p.Value = m.form.About(f).Name, m.form.Typed[f]
	}
	m.problems = append(m.problems, p)
}

// defaultTyre stands for a wheel that nobody has looked at.
const defaultTyre = "205/55R16"

// read reads what is typed.
func (m *maker) read() {
	if m.form.Axle != job.Front && m.form.Axle != job.Rear {
		panic("newjob: neither front nor rear axle")
	}
	m.result.Tyre = strings.TrimSpace(m.form.Tyre)
	if m.result.TyreDefault = m.result.Tyre == ""; m.result.TyreDefault {
		m.result.Tyre = defaultTyre
	}
	var err error
	if m.tyre, err = tyre.Parse(m.result.Tyre); err != nil {
		var code *tyre.CodeError
		p := Problem{Field: FieldCount, Name: "Tyre", Value: m.form.Tyre, What: err.Error(), Cure: "write it as it stands on the side wall", Err: err}
		if errors.As(err, &code) {
			p.What, p.Cure = code.Problem, code.Cure
		}
		m.problems = append(m.problems, p)
	}
	for i := range FieldCount {
		text := strings.TrimSpace(m.form.Typed[i])
		if !m.form.Asks(i) {
			text = ""
		}
		if m.result.Default[i] = text == ""; m.result.Default[i] {
			continue
		}
		if i.IsAngle() {
			m.readAngle(i, text)
			continue
		}
		l, err := units.ParseLength(text, m.form.Units)
		if err != nil {
			m.refused(i, err)
			continue
		}
		m.typed[i], m.result.Values[i] = l, l.MM
		if low := leastOf(i); l.MM < low {
			m.add(i, "is less than "+units.ShortLength(low, m.form.Units), "check the number and its unit", nil)
		}
	}
}

func (m *maker) readAngle(f Field, text string) {
	d, err := job.ParseDegrees(text)
	if f == Toe {
		d, m.toeTyped, err = job.ParseToe(text, m.tyre.RimDiameter())
	}
	if err != nil {
		m.refused(f, err)
		return
	}
	m.result.Values[f] = float64(d)
}

func (m *maker) refused(f Field, err error) {
	var entry *units.EntryError
	if errors.As(err, &entry) {
		m.add(f, entry.Problem, entry.Cure, err)
		return
	}
	m.add(f, err.Error(), "check the number", err)
}

// Limits below which a number is a slip, mm.
const (
	leastTrack  = 300.0 // a kart has more
	leastRadius = 50.0
	// leastArm and leastPost keep arms and the distance between the ball joints
	// longer than the measuring error by far, so that all assembles.
	leastArm  = 60.0
	leastPost = 60.0
)

func leastOf(f Field) float64 {
	switch f {
	case Track:
		return leastTrack
	case HubHeight:
		return leastRadius
	case Offset:
		return -tyre.MaxOffset
	case RimWidth:
		return tyre.MinRimWidth
	}
	return 0
}

// Rules of thumb, for lengths as shares of the wheel's radius or of half the
// track: a plain double-wishbone corner.
const (
	usualTrack   = 1500.0
	usualOffset  = 35.0
	usualRim     = 177.8
	usualTravel  = 60.0
	usualRack    = 60.0
	usualAhead   = 120.0 // outer tie-rod end before or behind the wheel centre
	usualCamber  = -1.0  // degrees
	usualCaster  = 4.0   // degrees
	usualLean    = 9.0   // degrees, of the steering axis
	ballBelow    = 0.62  // lower ball joint's height, of the radius
	ballsApart   = 0.98  // in height, of the radius
	pivotAbove   = 0.05  // lower pivot over its ball joint, of the radius
	pivotBelow   = 0.08  // upper pivot under its ball joint, of the radius
	ballInside   = 0.09  // lower ball joint inboard of the hub face, of half the track
	lowerPivotAt = 0.44  // from the middle, of half the track
	upperPivotAt = 0.54  // likewise
	rodAbove     = 0.08  // outer end over the lower ball joint, of the radius
	rodInside    = 0.02  // outer end inboard of the lower ball joint, of half the track
)

// step is what a default is rounded to, mm: what stands on the tape.
func (m *maker) step() float64 {
	if m.form.Units == units.Inch {
		return 25.4 / 16
	}
	return 1
}

// usualWithin is how well a tape is read, mm: half the step between its marks
// in inches, a mark in millimetres.
func usualWithin(u units.Unit) float64 {
	if u == units.Inch {
		return 25.4 / 32
	}
	return 1
}

// fill finds what is not typed; a number that belongs to a typed one follows it.
func (m *maker) fill() {
	set := func(f Field, mm float64) {
		if m.result.Default[f] {
			m.result.Values[f] = roundTo(mm, m.step())
		}
	}
	v, typed := &m.result.Values, func(f Field) bool { return !m.result.Default[f] }
	set(Track, usualTrack)
	set(HubHeight, m.tyre.EstimateLoadedRadius().Radius)
	set(Offset, usualOffset)
	rim := usualRim
	if listed, ok := m.tyre.MeasuringRim(); ok {
		rim = listed
	}
	if m.result.Default[RimWidth] {
		v[RimWidth] = rim // a half inch is no whole mm
	}
	set(Bump, usualTravel)
	set(Droop, usualTravel)
	half, radius := v[Track]/2, v[HubHeight]

	low := ballBelow * radius
	if typed(LowerPivotHeight) {
		low = v[LowerPivotHeight] - pivotAbove*radius
	}
	set(LowerBallHeight, low)
	set(LowerPivotHeight, v[LowerBallHeight]+pivotAbove*radius)
	high := v[LowerBallHeight] + ballsApart*radius
	if typed(UpperPivotHeight) && v[UpperPivotHeight]+pivotBelow*radius > v[LowerBallHeight]+leastPost {
		high = v[UpperPivotHeight] + pivotBelow*radius
	}
	set(UpperBallHeight, high)
	set(UpperPivotHeight, v[UpperBallHeight]-pivotBelow*radius)

	set(LowerBallSide, half+v[Offset]-ballInside*half)
	set(UpperBallSide, v[LowerBallSide]-(v[UpperBallHeight]-v[LowerBallHeight])*tan(usualLean))
	set(LowerPivotSide, min(lowerPivotAt*half, v[LowerBallSide]-2*leastArm))
	set(UpperPivotSide, min(upperPivotAt*half, v[UpperBallSide]-2*leastArm))
	set(OuterEndSide, v[LowerBallSide]-rodInside*half)
	set(OuterEndHeight, v[LowerBallHeight]+rodAbove*radius)
	// On the line of the inner pivots the rod's inner end moves with both arms.
	share := (v[OuterEndHeight] - v[LowerBallHeight]) / (v[UpperBallHeight] - v[LowerBallHeight])
	set(RackEndHeight, v[LowerPivotHeight]+share*(v[UpperPivotHeight]-v[LowerPivotHeight]))
	set(RackEndSide, v[LowerPivotSide]+share*(v[UpperPivotSide]-v[LowerPivotSide]))
	m.along(set)
}

// along finds what stands beside the front view: places along the car, the rear
// pivots, and the angles.
func (m *maker) along(set func(Field, float64)) {
	v := &m.result.Values
	set(RodAhead, usualAhead)
	for _, f := range []Field{LowerFrontAhead, LowerRearBehind, UpperFrontAhead, UpperRearBehind} {
		set(f, job.UsualPivot)
	}
	// The axis runs along the car until it is measured.
	set(LowerRearSide, v[LowerPivotSide])
	set(LowerRearHeight, v[LowerPivotHeight])
	set(UpperRearSide, v[UpperPivotSide])
	set(UpperRearHeight, v[UpperPivotHeight])
	set(Camber, usualCamber)
	set(Toe, 0)
}

// look refuses what could not assemble, by the numbers' names.
func (m *maker) look() {
	v := &m.result.Values
	apart := func(outer, inner Field, least float64, what string) {
		if v[outer]-v[inner] >= least {
			return
		}
		f := outer
		if m.result.Default[outer] {
			f = inner
		}
		m.add(f, fmt.Sprintf("%s: %s is %s, %s %s", what, m.lower(outer), m.text(v[outer]), m.lower(inner), m.text(v[inner])), "measure both again", nil)
	}
	apart(LowerBallSide, LowerPivotSide, leastArm, "the lower arm would have no length")
	apart(UpperBallSide, UpperPivotSide, leastArm, "the upper arm would have no length")
	apart(OuterEndSide, RackEndSide, leastArm, "the tie rod would have no length")
	apart(UpperBallHeight, LowerBallHeight, leastPost, "the upper ball joint must stand above the lower one")
}

// text is a length in a message.
func (m *maker) text(mm float64) string { return units.ShortLength(mm, m.form.Units) }

func (m *maker) lower(f Field) string {
	name := m.form.About(f).Name
	return strings.ToLower(name[:1]) + name[1:]
}

func tan(degrees float64) float64 { return math.Tan(job.Degrees(degrees).Radians()) }

func roundTo(v, step float64) float64 { return math.Round(v/step) * step }

// build puts the numbers into a job, and shortens a travel that nobody typed
// until the linkage reaches it.
func (m *maker) build() {
	j := m.job()
	m.result.Job, m.result.rodBehind = j, m.form.RodBehind()
	if ps := j.Problems(); len(ps) > 0 {
		for _, p := range ps {
			m.problems = append(m.problems, Problem{Field: FieldCount, Name: p.Key, What: p.What, Cure: p.Cure, Err: p})
		}
		return
	}
	const shortest = 1.0 // mm
	travel, rack := j.Travel, j.Rack
	for {
		err := report.Check(report.SourcesOf(j))
		if err == nil {
			break
		}
		shorter := false
		for _, t := range []struct {
			field Field
			to    *units.Length
		}{{Bump, &j.Travel.Bump}, {Droop, &j.Travel.Droop}, {FieldCount, &j.Rack.Left}, {FieldCount, &j.Rack.Right}} {
			if t.to.MM > shortest && (t.field == FieldCount || m.result.Default[t.field]) {
				t.to.MM, shorter = math.Floor(t.to.MM*0.8), true
			}
		}
		if !shorter {
			first, _, _ := strings.Cut(err.Error(), "\n")
			m.add(Bump, "the linkage does not go so far: "+first, "check the travel, and the points", err)
			return
		}
	}
	m.result.Values[Bump], m.result.Values[Droop] = j.Travel.Bump.MM, j.Travel.Droop.MM
	m.result.Shortened = shortened(j, travel, rack)
}

// shortened says which travel and rack that nobody typed the linkage does not reach;
// empty if it reaches all.
func shortened(j *job.Job, travel job.Travel, rack job.Rack) string {
	var list []string
	for _, t := range []struct {
		name    string
		was, is float64
	}{{"bump", travel.Bump.MM, j.Travel.Bump.MM}, {"droop", travel.Droop.MM, j.Travel.Droop.MM},
		{"rack to the left", rack.Left.MM, j.Rack.Left.MM}, {"rack to the right", rack.Right.MM, j.Rack.Right.MM}} {
		if t.is < t.was {
			list = append(list, t.name+" "+units.Taped.Length(t.is, j.Units)+" instead of "+units.Taped.Length(t.was, j.Units))
		}
	}
	if len(list) == 0 {
		return ""
	}
	return "The linkage does not reach the usual travel, so it is shorter: " + strings.Join(list, ", ") + "."
}

// length is a value as typed, or as filled in.
func (m *maker) length(f Field) units.Length {
	if m.result.Default[f] {
		return units.Length{MM: m.result.Values[f]}
	}
	return m.typed[f]
}

func (m *maker) point(x float64, side, height Field) job.Position {
	return job.Position{X: units.Length{MM: roundTo(x, m.step())}, Y: m.length(side), Z: m.length(height)}
}

func (m *maker) job() *job.Job {
	v := &m.result.Values
	radius := v[HubHeight]
	lean := tan(usualCaster)
	upper := m.arm(1, UpperPivotSide, UpperPivotHeight, UpperFrontAhead, UpperRearBehind, UpperRearSide, UpperRearHeight)
	upper.Ball = m.point((radius-v[UpperBallHeight])*lean, UpperBallSide, UpperBallHeight)
	lower := m.arm(0, LowerPivotSide, LowerPivotHeight, LowerFrontAhead, LowerRearBehind, LowerRearSide, LowerRearHeight)
	lower.Ball = m.point((radius-v[LowerBallHeight])*lean, LowerBallSide, LowerBallHeight)
	c := job.Variant{
		Name: "as measured", UpperArm: upper, LowerArm: lower,
		TieRod: job.TieRod{RackEnd: m.rodPoint(RackEndSide, RackEndHeight), OuterEnd: m.rodPoint(OuterEndSide, OuterEndHeight)},
		Hub:    job.Position{Z: m.length(HubHeight)},
		Camber: job.Degrees(v[Camber]), Toe: job.Degrees(v[Toe]), ToeTyped: m.toeTyped,
		Wheel: job.Wheel{Tyre: m.result.Tyre, RimWidth: m.length(RimWidth), Offset: m.length(Offset)},
	}
	if !m.result.Default[HubHeight] { // the floor is the ground
		c.Wheel.LoadedRadius = job.Given(m.length(HubHeight))
	}
	m.setHub(&c)
	m.assume(&c)
	j := &job.Job{
		Name: strings.TrimSpace(m.form.Name), Axle: m.form.Axle, Units: m.form.Units, MeasuredWithin: units.Length{MM: usualWithin(m.form.Units)},
		Travel: job.Travel{Bump: m.length(Bump), Droop: m.length(Droop), Assumed: job.Sides{m.result.Default[Bump], m.result.Default[Droop]}}, Variants: []job.Variant{c},
	}
	if j.Name == "" {
		j.Name = "New job, " + m.form.Axle.String()
	}
	if m.form.Axle == job.Front {
		rack := units.Length{MM: roundTo(usualRack, m.step())}
		j.Rack = job.Rack{Left: rack, Right: rack, Assumed: job.Sides{true, true}}
	}
	return j
}

// arm has its pivots as they are asked for; its ball joint is still to come.
func (m *maker) arm(which int, side, height, ahead, behind, rearSide, rearHeight Field) job.Arm {
	if !m.form.TwoPivots[which] {
		return job.Arm{Front: m.point(0, side, height), Flat: true}
	}
	a := job.Arm{Front: m.point(0, side, height), Rear: m.point(0, rearSide, rearHeight)}
	a.Front.X, a.Rear.X = m.length(ahead), m.negative(behind)
	return a
}

// rodPoint is an end of the tie rod, on its side of the axle line.
func (m *maker) rodPoint(side, height Field) job.Position {
	p := m.point(0, side, height)
	p.X = m.length(RodAhead)
	if m.form.RodBehind() {
		p.X = m.negative(RodAhead)
	}
	return p
}

// negative is a value the other way, as typed where that can be said.
func (m *maker) negative(f Field) units.Length {
	l := m.length(f)
	if n, err := units.ParseLength("-"+l.Typed, m.form.Units); err == nil && n.MM == -l.MM {
		return n
	}
	return units.Length{MM: -l.MM + 0}
}

// setHub puts the hub face where the tyre's middle stands on the ground, on half the
// track, which is kept as what was measured if it was. The wheel's centre, whose
// height was measured, stands beside the face by offset and camber.
func (m *maker) setHub(c *job.Variant) {
	c.Track = job.Given(m.length(Track))
	c.PlaceHub()
	if m.result.Default[Track] {
		c.Track, c.Hub.Y = job.Optional{}, units.Length{MM: roundTo(c.Hub.Y.MM, 0.01)}
	}
	corner := c.Corner()
	if z := roundTo(c.Hub.Z.MM-corner.RestContact().Z, 0.01); z != c.Hub.Z.MM {
		c.Hub.Z = units.Length{MM: z}
	}
}

// assume marks what nobody has typed.
func (m *maker) assume(c *job.Variant) {
	corner := c.Corner()
	for _, at := range corner.Coordinates() {
		c.Assumed = c.Assumed.With(job.Coordinate(at), !m.measured(at))
	}
	c.Assumed = c.Assumed.With(job.CamberValue, m.result.Default[Camber]).With(job.ToeValue, m.result.Default[Toe]).
		With(job.RimWidthValue, m.result.Default[RimWidth]).With(job.OffsetValue, m.result.Default[Offset])
}

func (m *maker) measured(at kinematics.Coordinate) bool {
	const along, side, height = 0, 1, 2
	switch {
	case at.Point == kinematics.HubFace && at.Axis == along:
		return true // the axle line is where it is
	case at.Point == kinematics.HubFace && at.Axis == side:
		return !m.result.Default[Track] // camber and offset are assumed for themselves
	case at.Point == kinematics.HubFace:
		return !m.result.Default[HubHeight]
	case at.Axis == along:
		f, ok := alongs[at.Point]
		return ok && !m.result.Default[f]
	}
	fields, ok := places[at.Point]
	return ok && !m.result.Default[fields[at.Axis-side]]
}
