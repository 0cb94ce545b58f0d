package panels

import (
	"errors"
	"math"
	"strings"

	"armscribe/app/car"
	"armscribe/app/figures"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// snapshot is all that the readings depend on: equal snapshots make equal
// pictures.
type snapshot struct {
	solved    bool
	unit      units.Unit
	position  frame.Position
	now       kinematics.Readings
	right     kinematics.Readings
	hasRight  bool
	bands     kinematics.Bands
	hasBands  bool
	before    kinematics.Readings
	rightWas  kinematics.Readings
	compared  bool             // before holds the same position
	proposed  bool             // and is not what was but what may come
	change    kinematics.Bands // of now less before; only if hasChange
	hasChange bool
	against   bool // there is a compared variant, in reach or not
	reach     kinematics.ReachError
	failure   string // why the position is out of reach, where it is no ReachError
	within    car.Known
	spring    bool
	estimated bool
	rim       float64 // diameter in mm; 0 if the tyre code cannot be read
	corner    kinematics.Corner
	rear      bool // then what steers the upright is a toe link
}

// take reads an input.
func take(in *Input) snapshot {
	s := snapshot{unit: in.Unit, proposed: in.Proposed}
	f := in.Frame
	if f == nil || in.Variant == nil {
		return s
	}
	now := &f.Now
	s.solved = true
	s.position, s.now = f.Position, now.Readings
	s.right, s.hasRight = now.Right, now.HasRight
	s.bands, s.hasBands = now.Bands, now.HasBands
	s.corner = now.Study.Case.Corner
	s.within = car.KnownOf(&now.Study.Case.Within, &s.corner)
	s.spring = s.corner.Spring.Carrier != kinematics.NoSpring
	s.against = f.HasBefore
	if s.compared = f.HasBefore && now.Err == nil && f.Before.Err == nil; s.compared {
		s.before, s.rightWas = f.Before.Readings, f.Before.Right
	}
	if now.Err != nil {
		var r *kinematics.ReachError
		if errors.As(now.Err, &r) {
			s.reach = *r
		} else {
			s.failure = now.Err.Error()
		}
	}
	c := car.Of(in.Job, in.Variant)
	s.rim, s.estimated, s.rear = c.RimDiameter, c.RadiusFrom != "", c.Rear
	return s
}

// outOfReach tells whether the readings are not those of the position asked for.
func (s *snapshot) outOfReach() bool { return s.reach.Link != kinematics.NoLink || s.failure != "" }

// item is one line of the readings.
type item = *figures.Figure

// items are the lines in their order.
var items = figures.Shown()

// shows tells whether the snapshot has the line: no spring lines without a
// spring, and aside from the centre plane only in roll.
func (s *snapshot) shows(it item) bool {
	switch it.Of {
	case kinematics.MotionRatio, kinematics.SpringLength:
		return s.spring
	case kinematics.RollCentreY:
		return s.hasRight
	}
	return true
}

// half returns the half-width of a line, -1 where none is known.
func (s *snapshot) half(it item) float64 {
	h, ok := it.HalfAt(&s.now, &s.bands)
	if !ok || !s.hasBands {
		return -1
	}
	return h
}

// reading is one line, ready to be drawn.
type reading struct {
	item
	figure
	label   string // the name as shown
	mark    string // quiet, behind it
	right   string // of the right wheel, in roll
	unknown bool   // value is words
	near    bool   // the change is within its own band, or nought
	targets []*Target
}

// line dresses one item for a table with room points for a name.
func (s *snapshot) line(it item, fits func(string) bool) reading {
	var r reading
	r.item = it
	if s.estimated && it.Ground {
		r.mark = estimateMark
	}
	if s.hasBands && s.bands.Assumed(it.Of) {
		r.mark = assumedMark
	}
	var sign float64
	r.label, sign = s.label(it, func(name string) bool { return fits(name + r.mark) })
	sc := scaleOf(it, s.unit)
	v, _ := it.At(&s.now)
	if s.hasRight && it.Kind == sheet.Slope { // no room for it twice
		r.mark, sc.suffix = sc.suffix, ""
	}
	if words := s.instead(it); words != "" {
		r.value, r.unknown = words, true
	} else {
		was, had := it.At(&s.before)
		changed := s.compared && had && !s.hasRight && !(it.Of.OfCentre() && s.farBefore())
		change := v - was
		if s.proposed {
			change = -change
		}
		r.figure = sc.figures(sign*v, s.half(it), sign*change, changed)
		if r.band == "± 0" && it.Given {
			r.band = asTyped
		}
		if at, ok := s.bands.Needs(it.Of); s.hasBands && ok {
			r.band, _ = job.NeedsWords(&s.corner, at)
		}
		if changed {
			s.weigh(&r, change)
		}
	}
	if s.hasRight && !it.Axle {
		arm, met := s.right.Of(kinematics.SwingArm)
		if far := kinematics.FarOf(arm, met, kinematics.Interval{}, false); it.Of.OfCentre() && far != kinematics.Near {
			r.right = far.String()
		} else if w, ok := it.At(&s.right); ok {
			r.right = sc.figures(sign*w, -1, 0, false).value
		} else {
			r.right = it.Missing
		}
	}
	return r
}

// instead is said in place of a value that does not exist or says nothing; empty
// where there is one.
func (s *snapshot) instead(it item) string {
	if it.Of.OfCentre() {
		return s.far().String()
	}
	if _, ok := it.At(&s.now); !ok {
		return it.Missing
	}
	return ""
}

// far tells whether the instant centre is at infinity.
func (s *snapshot) far() kinematics.Far {
	if !s.hasBands {
		arm, ok := s.now.Of(kinematics.SwingArm)
		return kinematics.FarOf(arm, ok, kinematics.Interval{}, false)
	}
	return s.bands.Far(&s.now)
}

// farBefore tells whether that of the compared variant was, or may be for all the
// band of the change tells: a change to there is no length.
func (s *snapshot) farBefore() bool {
	arm, ok := s.before.Of(kinematics.SwingArm)
	_, banded := s.change.Of(kinematics.SwingArm)
	return s.hasChange && !banded || kinematics.FarOf(arm, ok, kinematics.Interval{}, false) != kinematics.Near
}

// asTyped stands for the band of an angle that was given and not computed.
const asTyped = "as typed"

// weigh marks a change that measuring error alone could make.
func (s *snapshot) weigh(r *reading, change float64) {
	half, known := r.item.HalfAt(&s.now, &s.change)
	switch {
	case s.hasChange && known && half >= r.Kind.Rounding() && math.Abs(change) < half:
		r.near, r.delta = true, nearMark+r.delta
	case strings.Trim(r.delta, "0.") == "":
		r.near = true
	}
}

// nearMark stands before a change that measuring error alone could make.
const nearMark = "≈ "

// changeWord heads the column of changes.
func (s *snapshot) changeWord() string {
	if s.proposed {
		return "would change"
	}
	return "change"
}
