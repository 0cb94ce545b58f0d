package sheet

import (
	"math"

	"armscribe/app/units"
)

// Kind is what a number is: its unit in files and on screens, and how finely it
// is printed where no band sets the digits.
type Kind uint8

// The kinds. Values are mm, rad and N inside; Plain ones have no unit.
const (
	Plain    Kind = iota
	Length        // computed, mm
	Taped         // a length as a tape shows it, mm
	Chosen        // a length that somebody chose, such as a step or a spacer, mm
	LaidOut       // a length to build to, as a fabricator lays it out, mm
	Travel        // a place of travel or rack, with its sign, mm
	Far           // a length of many metres, mm inside: m or ft
	Angle         // rad: deg
	Toe           // a small angle, such as a change of toe, rad: deg
	Stated        // an angle that somebody states, rad: deg
	Rolled        // an angle of roll, with its sign, rad: deg
	Slope         // rad/mm: deg/mm or deg/in
	Bow           // rad/mm²: deg/mm² or deg/in²
	PerAngle      // rad/rad: deg/deg
	Ratio         // of two lengths
	Force         // N: N or lbf
	Moment        // N mm: N m or lbf ft
	Percent       // a share: %
	Turns         // of an adjuster
	kindCount
)

// traits of a kind: how it is printed where no band sets its digits.
var traits = [kindCount]struct {
	fine   units.Fine    // of lengths
	loose  units.Figures // of others
	trim   bool          // noughts at the end are cut
	sign   bool          // a plus is always printed
	exact  float64       // a band below it is rounding: the value is exact
	finest [2]int        // decimals at most, in mm and where lengths are in inches
}{
	Plain:    {loose: units.Plainly, trim: true, finest: [2]int{4, 4}},
	Length:   {fine: units.Gauged, exact: 1e-6, finest: lengths},
	Taped:    {fine: units.Taped, exact: 1e-6, finest: lengths},
	Chosen:   {exact: 1e-6, finest: lengths},
	LaidOut:  {fine: units.Gauged, exact: 1e-6, finest: lengths},
	Travel:   {fine: units.Built, trim: true, sign: true, exact: 1e-6, finest: lengths},
	Far:      {loose: units.FarLengths, exact: 1e-6, finest: [2]int{2, 2}},
	Angle:    {loose: units.Angles, exact: 1e-8, finest: angles},
	Toe:      {loose: units.SmallAngles, exact: 1e-9, finest: angles},
	Stated:   {loose: units.Angles, trim: true, finest: angles},
	Rolled:   {loose: units.SmallAngles, trim: true, sign: true, finest: angles},
	Slope:    {loose: units.Slopes, exact: 1e-10, finest: [2]int{5, 4}},
	Bow:      {loose: units.Bows, exact: 1e-12, finest: [2]int{6, 3}},
	PerAngle: {loose: units.Ratios, exact: 1e-5, finest: [2]int{3, 3}},
	Ratio:    {loose: units.Ratios, exact: 1e-6, finest: [2]int{4, 4}},
	Force:    {loose: units.Forces, exact: 1e-3, finest: [2]int{1, 1}},
	Moment:   {loose: units.Forces, exact: 1, finest: [2]int{2, 2}},
	Percent:  {loose: units.Shares, finest: [2]int{1, 1}},
	Turns:    {loose: units.Turns, finest: [2]int{2, 2}},
}

// What no tape or gauge could find on a car is not printed.
var lengths, angles = [2]int{2, 3}, [2]int{3, 3}

// Finest is how many decimals a value with a band has at most.
func (k Kind) Finest(length units.Unit) int {
	if length == units.Inch {
		return traits[k].finest[1]
	}
	return traits[k].finest[0]
}

// In converts a value to the unit it is printed in, and names that unit; files
// are in [units.Millimetre].
func (k Kind) In(v float64, length units.Unit) (float64, string) {
	const degrees = 180 / math.Pi
	switch k {
	case Length, Taped, Chosen, LaidOut, Travel:
		return units.In(v, length), length.String()
	case Far:
		if length == units.Inch {
			return units.In(v, units.Foot), "ft"
		}
		return units.In(v, units.Metre), "m"
	case Angle, Toe, Stated, Rolled:
		return v * degrees, "deg"
	case Slope:
		return v * degrees / units.In(1, length), "deg/" + length.String()
	case Bow:
		per := units.In(1, length)
		return v * degrees / (per * per), "deg/" + length.String() + "²"
	case PerAngle:
		return v, "deg/deg"
	case Force:
		return units.Force(v, length)
	case Moment:
		return units.Moment(v, length)
	case Percent:
		return 100 * v, "%"
	case Turns:
		return v, "turns"
	}
	return v, ""
}

// inFile is In for a file, where far lengths are in mm too.
func (k Kind) inFile(v float64) (float64, string) {
	if k == Far {
		k = Length
	}
	v, unit := k.In(v, units.Millimetre)
	if k == Bow {
		unit = "deg/mm2"
	}
	return v, unit
}

// FileUnit names the unit of a kind in files.
func FileUnit(k Kind) string {
	_, unit := k.inFile(0)
	return unit
}

// Rounding is the band below which a value of the kind is exact.
func (k Kind) Rounding() float64 { return traits[k].exact }

// Exact tells whether a band is no more than rounding.
func (k Kind) Exact(half float64) bool { return half < traits[k].exact }

// loose prints a value that no band gives its digits.
func (k Kind) loose(v float64, length units.Unit) string {
	t := &traits[k]
	switch k {
	case Length, LaidOut:
		return t.fine.Number(v, length)
	case Taped:
		return t.fine.NumberOnTape(v, length)
	case Travel:
		return t.fine.Short(v, length)
	case Chosen:
		return units.ShortNumber(v, length)
	}
	v, _ = k.In(v, length)
	if t.trim {
		return t.loose.Short(v)
	}
	return t.loose.Number(v)
}
