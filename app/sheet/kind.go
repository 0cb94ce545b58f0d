package sheet

import (
	"math"
	"strings"

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
	Travel        // a place of travel or rack, with its sign, mm
	Far           // a length of many metres, mm inside: m or ft
	Angle         // rad: deg
	Toe           // a small angle, such as a change of toe, rad: deg
	Stated        // an angle that somebody states, rad: deg
	Slope         // rad/mm: deg/mm or deg/in
	Bow           // rad/mm²: deg/mm² or deg/in²
	PerAngle      // rad/rad: deg/deg
	Ratio         // of two lengths
	Force         // N
	Moment        // N mm: N m
	Percent       // a share: %
	Turns         // of an adjuster
	kindCount
)

// traits of a kind. The loose decimals are printed without a band.
var traits = [kindCount]struct {
	fine     units.Fine // of lengths
	decimals int        // of others, where no band sets them
	trim     bool       // noughts at the end are cut
	sign     bool       // a plus is always printed
	exact    float64    // a band below it is rounding: the value is exact
	least    float64    // no finer than this band is printed, in the printed unit
}{
	Plain:    {decimals: 3, trim: true},
	Length:   {fine: units.Computed, exact: 1e-6},
	Taped:    {fine: units.Taped, exact: 1e-6},
	Chosen:   {exact: 1e-6},
	Travel:   {fine: units.Built, trim: true, sign: true, exact: 1e-6},
	Far:      {decimals: 1, exact: 1e-6},
	Angle:    {decimals: 1, exact: 1e-8},
	Toe:      {decimals: 3, exact: 1e-9},
	Stated:   {decimals: 1, trim: true},
	Slope:    {decimals: 4, exact: 1e-10},
	Bow:      {decimals: 6, exact: 1e-12},
	PerAngle: {decimals: 3, exact: 1e-5},
	Ratio:    {decimals: 3, exact: 1e-6},
	Force:    {decimals: 1, exact: 1e-3, least: 0.05},
	Moment:   {decimals: 1, exact: 1, least: 0.05},
	Percent:  {decimals: 1},
	Turns:    {decimals: 2},
}

// In converts a value to the unit it is printed in, and names that unit; files
// are in [units.Millimetre].
func (k Kind) In(v float64, length units.Unit) (float64, string) {
	const degrees = 180 / math.Pi
	switch k {
	case Length, Taped, Chosen, Travel:
		return units.In(v, length), length.String()
	case Far:
		if length == units.Inch {
			return units.In(v, units.Foot), "ft"
		}
		return units.In(v, units.Metre), "m"
	case Angle, Toe, Stated:
		return v * degrees, "deg"
	case Slope:
		return v * degrees / units.In(1, length), "deg/" + length.String()
	case Bow:
		per := units.In(1, length)
		return v * degrees / (per * per), "deg/" + length.String() + "²"
	case PerAngle:
		return v, "deg/deg"
	case Force:
		return v, "N"
	case Moment:
		const metre = 1000.0
		return v / metre, "N m"
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

// Exact tells whether a band is no more than rounding.
func (k Kind) Exact(half float64) bool { return half < traits[k].exact }

// loose prints a value that no band gives its digits.
func (k Kind) loose(v float64, length units.Unit) string {
	t := &traits[k]
	var text string
	switch k {
	case Length, Taped:
		text = t.fine.Number(v, length)
	case Travel:
		text = t.fine.Short(v, length)
	case Chosen:
		return strings.TrimSuffix(units.ShortLength(v, length), " "+length.String())
	default:
		v, _ = k.In(v, length)
		if text = units.FormatNumber(v, t.decimals); t.trim {
			text = units.TrimZeros(text)
		}
	}
	return text
}
