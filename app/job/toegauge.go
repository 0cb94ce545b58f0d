package job

import (
	"fmt"
	"math"
	"slices"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// ToeGauge is how toe is read on the car.
type ToeGauge struct {
	Width       Optional        // over which toe as a length is read
	DialSpacing Optional        // between two dials on a line along the car
	ReadsWithin OptionalDegrees // half-width of the error of one reading
}

// Any tells whether anything is said of the gauge.
func (g *ToeGauge) Any() bool { return *g != ToeGauge{} }

// DefaultReadsWithin is how well a toe gauge reads unless the job says, deg:
// half a millimetre across a rim of 500 mm comes to 0.06. Common practice, no
// source.
const DefaultReadsWithin Degrees = 0.06

// MaxReadsWithin is the poorest gauge that still says anything, deg.
const MaxReadsWithin Degrees = 5

// ReadingsWithin is the half-width of the error of one toe reading.
func (j *Job) ReadingsWithin() Degrees {
	if j.ToeGauge.ReadsWithin.Given {
		return j.ToeGauge.ReadsWithin.Degrees
	}
	return DefaultReadsWithin
}

// Side is the side of the car on which a reading was taken.
type Side uint8

// The sides; the zero value is for readings that do not say.
const (
	NoSide Side = iota
	LeftSide
	RightSide
)

// String returns the word that files use, empty for none.
func (s Side) String() string { return wordOf(sideWords, s) }

var sideWords = []word[Side]{{LeftSide, "left"}, {RightSide, "right"}}

// SideOf returns the side of a word; false for any other.
func SideOf(text string) (Side, bool) {
	for _, w := range sideWords {
		if w.text == text {
			return w.value, true
		}
	}
	return NoSide, false
}

// ToeReading is what the gauge read at one wheel travel: the toe of that wheel
// alone, from rest or from straight ahead (a fit finds the zero), toe-in
// positive on either side. It is given in one of three ways: as an angle, as a
// length across the gauge's width, or as both dials.
type ToeReading struct {
	Travel              units.Length
	Toe                 OptionalDegrees
	ToeLength           Optional
	FrontDial, RearDial Optional // counting up as the plate moves outboard
	Side                Side
}

// MaxReadings is the most readings of one variant.
const MaxReadings = 500

func (g *ToeGauge) fields() []field {
	return []field{
		{"width", "18 in", "", false, optionalCodec{&g.Width}},
		{"dial_spacing", "400", "", false, optionalCodec{&g.DialSpacing}},
		{"reads_within", "0.05", "", false, optionalDegreesCodec{&g.ReadsWithin}},
	}
}

// check refuses a gauge of which nothing is said.
func (g *ToeGauge) check(r *reader, at string, line int, has func(string) bool) {
	if !has("width") && !has("dial_spacing") && !has("reads_within") {
		r.add(line, at, "", "says nothing of the gauge", "add width, dial_spacing or reads_within, or remove it")
	}
}

func (t *ToeReading) fields() []field {
	return []field{
		{"travel", "-40", "", true, lengthCodec{to: &t.Travel}},
		{"toe", "0.31", "", false, optionalDegreesCodec{&t.Toe}},
		{"toe_length", "2.5 mm", "", false, optionalCodec{&t.ToeLength}},
		{"front_dial", "1.2", "", false, optionalCodec{&t.FrontDial}},
		{"rear_dial", "0.4", "", false, optionalCodec{&t.RearDial}},
		{"side", "left", "", false, sideCodec{&t.Side}},
	}
}

const toeCure = "write toe in degrees, or toe_length across the gauge, or front_dial and rear_dial"

// check asks for one way of giving the toe, and for all of it.
func (t *ToeReading) check(r *reader, at string, line int, has func(string) bool) {
	switch ways := t.ways(has); {
	case ways == 0:
		r.add(line, at, "", "has no toe", toeCure)
	case ways > 1:
		r.add(line, at, "", "gives toe in more than one way", "keep one: "+toeCure)
	case has("front_dial") != has("rear_dial"):
		r.add(line, at, "", "has one dial of two", "add the other one")
	}
}

func (t *ToeReading) ways(has func(string) bool) int {
	n := 0
	for _, way := range []bool{has("toe"), has("toe_length"), has("front_dial") || has("rear_dial")} {
		if way {
			n++
		}
	}
	return n
}

// sideCodec is a side that may be missing.
type sideCodec struct{ to *Side }

func (c sideCodec) read(r *reader, n *yaml.Node, at string) {
	wordCodec[Side]{c.to, sideWords}.read(r, n, at)
}

func (c sideCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if *c.to == NoSide {
		return nil
	}
	return wordCodec[Side]{c.to, sideWords}.write(w, old)
}

func (c sideCodec) schema(s *schemer) object { return wordCodec[Side]{c.to, sideWords}.schema(s) }

// toeReadingItem is one reading of the list.
type toeReadingItem struct{}

func (toeReadingItem) readItem(r *reader, n *yaml.Node, at string, to *ToeReading) {
	r.section(n, at, to)
}

func (toeReadingItem) writeItem(w *writer, old *yaml.Node, t *ToeReading) *yaml.Node {
	return w.section(old, t, true)
}

func (toeReadingItem) schemaItem(s *schemer) object { return s.refer(&ToeReading{}) }

// gauge checks the values of the gauge.
func (c *checker) gauge(g *ToeGauge) {
	if g.Width.Given {
		c.length("toe_gauge.width", g.Width.Length, kinematics.MinSpan, units.MaxLength)
	}
	if g.DialSpacing.Given {
		c.length("toe_gauge.dial_spacing", g.DialSpacing.Length, kinematics.MinSpan, units.MaxLength)
	}
	if d := g.ReadsWithin; d.Given && !c.skips("toe_gauge.reads_within") && !(d.Degrees > 0 && d.Degrees <= MaxReadsWithin) {
		c.add("toe_gauge.reads_within", fmt.Sprintf("%v deg", float64(d.Degrees)), "is not above zero and up to 5 degrees", "write how far off a reading may be", nil)
	}
}

// toeReadings checks the values of a variant's readings. Whether they fit the
// car is not for the job to say.
func (c *checker) toeReadings(list []ToeReading, g *ToeGauge, key string) {
	if len(list) > MaxReadings {
		c.add(key, "", fmt.Sprintf("holds %d toe readings, more than %d", len(list), MaxReadings), "keep those that matter", nil)
		return
	}
	for i := range list {
		t, at := &list[i], itemKey(key, i)
		c.length(at+".travel", t.Travel, -units.MaxLength, units.MaxLength)
		if t.Toe.Given {
			c.degrees(at+".toe", t.Toe.Degrees)
		}
		for _, l := range []struct {
			key string
			o   Optional
		}{{".toe_length", t.ToeLength}, {".front_dial", t.FrontDial}, {".rear_dial", t.RearDial}} {
			if l.o.Given {
				c.length(at+l.key, l.o.Length, -units.MaxLength, units.MaxLength)
			}
		}
		if c.skips(at) {
			continue
		}
		given := map[string]bool{"toe": t.Toe.Given, "toe_length": t.ToeLength.Given, "front_dial": t.FrontDial.Given, "rear_dial": t.RearDial.Given}
		switch {
		case t.ways(func(k string) bool { return given[k] }) != 1 || t.FrontDial.Given != t.RearDial.Given:
			c.add(at, "", "does not give the toe once", toeCure, nil)
		case t.Side != NoSide && t.Side.String() == "":
			c.add(at+".side", "", "is none", "choose left or right", nil)
		case t.ToeLength.Given && !g.Width.Given && !c.skips("toe_gauge"):
			c.add(at+".toe_length", "", "says nothing without the gauge's width", "add 'toe_gauge: {width: ...}', the length over which it was read", nil)
		case t.FrontDial.Given && !g.DialSpacing.Given && !c.skips("toe_gauge"):
			c.add(at+".front_dial", "", "says nothing without the distance between the dials", "add 'toe_gauge: {dial_spacing: ...}'", nil)
		}
	}
}

// cloneLists gives a variant readings and a stack of its own.
func (v *Variant) cloneLists() {
	v.ToeReadings, v.FittedTo, v.Stack.Pieces, v.Together = slices.Clone(v.ToeReadings), slices.Clone(v.FittedTo), slices.Clone(v.Stack.Pieces), slices.Clone(v.Together)
}

// taught bounds what is known of a corner that was fitted to readings. A reading out
// of reach, which no fit takes, leaves it as the tape has it.
func (j *Job) taught(w kinematics.Within, v *Variant) kinematics.Within {
	if len(v.FittedTo) == 0 {
		return w
	}
	sigma := j.ReadingsWithin().Radians() / math.Sqrt(3) // of an error anywhere within
	list := make([]kinematics.ToeRead, len(v.FittedTo))
	for i, t := range v.FittedTo {
		list[i] = kinematics.ToeRead{Travel: t.Travel.MM, Sigma: sigma, Zero: int(t.Side)}
	}
	c := v.Corner()
	if bound, err := w.Taught(&c, list); err == nil {
		return bound
	}
	return w
}

// forgetFit lets go of the readings that a former state was fitted to, where the toe
// curve is no longer that of then.
func (v *Variant) forgetFit(former *Variant) {
	now, was := v.Corner(), former.Corner()
	now.Spring, now.Wheel.LoadedRadius = was.Spring, was.Wheel.LoadedRadius
	if now != was && slices.Equal(v.FittedTo, former.FittedTo) {
		v.FittedTo = nil
	}
}
