package panels

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// springFields are the rows of the spring: what carries it, and its two ends.
type springFields struct {
	car     *Car
	carrier *choiceRow
	note    *textRow
	axes    *axesRow
	ends    [2]*pointRow
	shown   kinematics.Spring // as the fields have it
	moving  bool              // shown is in a hand
}

// Carriers as they are offered, and in words.
var (
	carriers     = []kinematics.Carrier{kinematics.NoSpring, kinematics.OnLowerArm, kinematics.OnUpperArm, kinematics.OnUpright}
	carrierNames = []string{"no spring", "lower arm", "upper arm", "upright"}
	springEnds   = [2]kinematics.Point{kinematics.SpringMoving, kinematics.SpringBody}
)

func (s *springFields) init(c *Car) {
	s.car, s.note, s.axes = c, newTextRow(), newAxes()
	s.carrier = newChoiceRow("Carried by", carrierNames, s.choose)
	for i, label := range []string{"moving end", "body end"} {
		var fields [3]*field
		for axis, letter := range "xyz" {
			fields[axis] = s.field("spring's "+label+" "+string(letter), springEnds[i], axis)
		}
		s.ends[i] = newPointRow(&c.form, label, fields)
	}
}

func (s *springFields) field(name string, at kinematics.Point, axis int) *field {
	f := newField(name)
	f.check = func(text string) (string, error) { return echoLength(text, s.car.in.Unit) }
	f.hand = func(text string) error {
		l, err := units.ParseLength(text, s.car.in.Unit)
		if err != nil {
			return err
		}
		return s.car.OnVariant("type "+f.name, func(v *job.Variant) {
			*coordinate(v.Position(at), axis), v.Assumed = l, v.Assumed.With(valueAt(at, axis), false)
		})
	}
	return f
}

// rows are those of a variant with a spring or without.
func (s *springFields) rows(spring bool) []row {
	if !spring {
		return []row{s.carrier, s.note}
	}
	return []row{s.carrier, s.note, s.axes, s.ends[0], s.ends[1]}
}

// choose changes what carries the spring. One that is new stands where the
// program guesses, and says so until it is typed over.
func (s *springFields) choose(i int) error {
	was := s.car.in.Variant.Spring
	to := carriers[i]
	var err error
	switch {
	case to == was.CarriedBy:
		return nil
	case to == kinematics.NoSpring:
		err = s.car.OnVariant("remove spring", func(v *job.Variant) { v.Spring = job.Spring{} })
	case was.CarriedBy == kinematics.NoSpring:
		err = s.car.OnVariant("put spring on the "+carrierNames[i], func(v *job.Variant) { addSpring(v, to) })
	default:
		err = s.car.OnVariant("carry spring by the "+carrierNames[i], func(v *job.Variant) { v.Spring.CarriedBy = to })
	}
	if err != nil {
		s.carrier.choose(indexOf(carriers, was.CarriedBy))
	}
	return err
}

// How the ends of a new spring are guessed: at half the carrier, or beside the
// upper ball joint on the upright, and above it leaning inboard.
const (
	guessedHeight = 300.0 // mm, of the body end over the moving end
	guessedLean   = 90.0  // mm, of the body end inboard of it
	guessedBeside = 40.0  // mm, inboard of the upper ball joint
)

// addSpring puts a spring where it may be, with all of it marked as assumed.
func addSpring(v *job.Variant, by kinematics.Carrier) {
	c := v.Corner()
	var at kinematics.Vec
	switch by {
	case kinematics.OnLowerArm:
		at = r3.Scale(0.5, r3.Add(footOn(&c.Lower), c.Lower.Ball))
	case kinematics.OnUpperArm:
		at = r3.Scale(0.5, r3.Add(footOn(&c.Upper), c.Upper.Ball))
	default:
		at = r3.Sub(c.Upper.Ball, kinematics.Vec{Y: guessedBeside})
	}
	whole := func(p kinematics.Vec) job.Position {
		return job.At(kinematics.Vec{X: math.Round(p.X), Y: math.Round(p.Y), Z: math.Round(p.Z)})
	}
	v.Spring = job.Spring{CarriedBy: by, Moving: whole(at), Body: whole(r3.Add(at, kinematics.Vec{Y: -guessedLean, Z: guessedHeight}))}
	for _, p := range springEnds {
		for axis := range 3 {
			v.Assumed = v.Assumed.With(job.Coordinate(kinematics.Coordinate{Point: p, Axis: axis}), true)
		}
	}
}

// fill puts the variant's spring into the fields.
func (s *springFields) fill() {
	v := s.car.in.Variant
	s.moving = false
	s.carrier.choose(indexOf(carriers, v.Spring.CarriedBy))
	s.note.say(springNote(v), look.ColorQuiet)
	s.shown = v.Corner().Spring
	s.hold()
}

// follow shows the ends of a spring in a hand.
func (s *springFields) follow(to kinematics.Spring) {
	if to != s.shown {
		s.shown, s.moving = to, true
		s.hold()
	}
}

// hold puts the ends shown into their fields; what the hand left alone keeps the
// way it was typed.
func (s *springFields) hold() {
	v := s.car.in.Variant
	for i, at := range [2]kinematics.Vec{s.shown.Moving, s.shown.Body} {
		s.ends[i].markWith(knownMark(v, springEnds[i], s.ends[i].fields, s.car.in.Unit))
		for axis, mm := range [3]float64{at.X, at.Y, at.Z} {
			l := *coordinate(v.Position(springEnds[i]), axis)
			if l.MM != mm {
				l = units.Length{MM: mm}
			}
			short, full := lengthTexts(l, s.car.in.Unit)
			s.ends[i].fields[axis].assumed = v.Assumed.Has(valueAt(springEnds[i], axis))
			s.ends[i].fields[axis].hold(s.car.in.owner(), short, full)
		}
	}
}

// springNote says what the ends are, or what is missing without them.
func springNote(v *job.Variant) string {
	if v.Spring.CarriedBy == kinematics.NoSpring {
		return "Without a spring there is no motion ratio and no spring force."
	}
	if v.Assumed.HasPoint(kinematics.SpringMoving) || v.Assumed.HasPoint(kinematics.SpringBody) {
		return "Its ends are the program's guess until you type where they are: eye to eye, at rest."
	}
	return "Eye to eye, at rest. The moving end goes with what carries it."
}
