package tune

import (
	"fmt"
	"math"

	"armscribe/app/car"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// Part is one part of a toe curve, in the trade's words.
type Part struct {
	Name string // slope, bow, rest
	// Per is the part for each mm (slope, rad/mm) or mm squared (bow,
	// rad/mm^2); the rest has none.
	Per    bumpsteer.Banded
	HasPer bool
	// AtEnd is what it comes to at the farther end of the travel, rad.
	AtEnd   bumpsteer.Banded
	HasBand bool
	Decided bool // the band leaves zero out
	// Move is the move that takes it away, mm: of the outer end up, of the rack
	// end outboard; only if HasMove.
	Move    bumpsteer.Banded
	HasMove bool
	Words   string
}

// small is a part of the toe change that needs no cure, rad: 0.05 degrees, half
// of what is commonly set as static toe. Common practice, no source.
const small = 0.05 * math.Pi / 180

// Basis is what a diagnosis rests on.
type Basis uint8

// A diagnosis rests on the measured points, or on readings too.
const (
	ByTape Basis = iota
	ByGauge
)

// Parts puts a diagnosis into words: sloped, bowed, and the rest.
func (s *Setup) Parts(d *bumpsteer.Diagnosis, by Basis) []Part {
	reach := FarEnd(d)
	open := "not decidable at ±" + s.WithinText() + ": use a toe gauge"
	if by == ByGauge || s.Within.AnyTaught() {
		open = "not decidable by these readings: take more, or read closer"
	}
	rod, inner := s.Rod(), s.InnerEnd()
	slope := Part{Name: "slope", Per: d.Slope, HasPer: true, AtEnd: times(d.Slope, reach), HasBand: true,
		Decided: d.Slope.Decided(), Move: d.Raise, HasMove: d.CanRaise}
	switch {
	case within(slope.AtEnd):
		slope.Words = "too small to matter"
	case !slope.Decided:
		slope.Words = "outer end or " + inner + " at the wrong height? " + open
	case !d.CanRaise:
		slope.Words = "outer end or " + inner + " at the wrong height, but no height of the outer end takes it away here"
	default:
		slope.Words = fmt.Sprintf("outer end or %s at the wrong height: the outer end is %s too %s", inner, s.banded(d.Raise), pick(d.Raise.Value > 0, "low", "high"))
	}
	bow := Part{Name: "bow", Per: d.Bow, HasPer: true, AtEnd: times(d.Bow, reach*reach), HasBand: true,
		Decided: d.Bow.Decided(), Move: d.Shift, HasMove: d.CanShift}
	switch {
	case within(bow.AtEnd):
		bow.Words = "too small to matter"
	case !bow.Decided:
		bow.Words = rod + " too long or too short? " + open
	case !d.CanShift:
		bow.Words = rod + " too long or too short, but no place of the " + inner + " to the side takes it away here"
	default:
		bow.Words = fmt.Sprintf("%s too %s: the %s is %s too far %s", rod, pick(d.Shift.Value > 0, "long", "short"),
			inner, s.banded(d.Shift), pick(d.Shift.Value > 0, "in", "out"))
	}
	rest := Part{Name: "rest", AtEnd: bumpsteer.Banded{Value: d.Rest}, Words: "no " + rod + " of this kind takes it away"}
	return []Part{slope, bow, rest}
}

// WithinText says how well the points are known.
func (s *Setup) WithinText() string { return car.KnownOf(&s.Within, &s.Corner).Text(s.Unit) }

// within tells whether a part is small even at the end of its band.
func within(b bumpsteer.Banded) bool { return math.Abs(b.Value)+b.Half < small }

func times(b bumpsteer.Banded, f float64) bumpsteer.Banded {
	return bumpsteer.Banded{Value: b.Value * f, Half: b.Half * math.Abs(f)}
}

// FarEnd is the end of a diagnosis' travel that is farther from rest, mm.
func FarEnd(d *bumpsteer.Diagnosis) float64 {
	if -d.From > d.To {
		return d.From
	}
	return d.To
}

// banded prints the size of a move with its band: "5 ± 3 mm".
func (s *Setup) banded(b bumpsteer.Banded) string {
	return sheet.Banded(sheet.Length, math.Abs(b.Value), b.Half).Phrase(s.Unit)
}

func lengthText(mm float64, unit units.Unit) string { return units.ShortLength(mm, unit) }

func pick(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

// Rod is what the rod is called on this axle.
func (s *Setup) Rod() string { return pick(s.Rear, "toe link", "tie rod") }

// InnerEnd is what the rod's inner end is called: a rear axle has no rack.
func (s *Setup) InnerEnd() string { return pick(s.Rear, "toe link's inner end", "rack end") }

// FreedomName is a freedom in the trade's words, of a fixed toe link too.
func (s *Setup) FreedomName(f bumpsteer.Freedom) string {
	if !s.Rear {
		return f.String()
	}
	switch f {
	case bumpsteer.RackHeight:
		return s.InnerEnd() + " height"
	case bumpsteer.RackEndSide:
		return s.InnerEnd() + " side position"
	case bumpsteer.RackForeAft:
		return s.InnerEnd() + " fore-aft"
	}
	return f.String()
}

// Warnings of a spacer under the joint.
const (
	TallWarning = "a tall stack bends the stud or bolt: the joint hangs in single shear. Have it checked by someone qualified."
	// SpacerHint belongs to every stack that is planned.
	SpacerHint = "a spacer lengthens the lever on the stud or bolt; have it checked by someone qualified."
)

// LengthConvention is how toe becomes a length, on the sheet and in what is read.
const LengthConvention = "Lengths are the angle, in radians, times the width or the distance of the dials, here and in what you read."
