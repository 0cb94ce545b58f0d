package units

import (
	"math"
	"strconv"
	"strings"
)

// Fine is what a length is printed for. It sets the decimals in each unit, so
// that nobody else counts them.
type Fine uint8

// From the roughest to the finest.
const (
	Guessed Fine = iota // an estimate, or what a photograph shows: 1 mm, 0.1 in
	Rounded             // a size meant as a round one: 1 mm, 0.01 in
	Taped               // what a tape shows: 0.1 mm, 0.01 in
	Built               // what is built to: 0.1 mm, 0.001 in
	Gauged              // what a gauge shows, and the finest: 0.01 mm, 0.001 in
)

// decimals of each in metric units and in inches.
var decimals = [...][2]int{Guessed: {0, 1}, Rounded: {0, 2}, Taped: {1, 2}, Built: {1, 3}, Gauged: {2, 3}}

func (f Fine) decimals(unit Unit) int {
	if unit == Inch || unit == Foot {
		return decimals[f][1]
	}
	return decimals[f][0]
}

// Number prints mm in the given unit, without its name.
func (f Fine) Number(mm float64, unit Unit) string {
	return FormatNumber(In(mm, unit), f.decimals(unit))
}

// Length prints mm in the given unit with its name.
func (f Fine) Length(mm float64, unit Unit) string { return f.Number(mm, unit) + " " + unit.String() }

// OnTape is Length of what may be a round one: in inches as the fraction that it
// is, if it is one.
func (f Fine) OnTape(mm float64, unit Unit) string {
	return f.NumberOnTape(mm, unit) + " " + unit.String()
}

// Short prints a length that may be a round one, without the unit, with no more
// decimals than it needs: in inches as the fraction that it is, if it is one.
func (f Fine) Short(mm float64, unit Unit) string {
	if text, ok := fraction(mm, unit); ok {
		return text
	}
	return Trimmed(In(mm, unit), f.decimals(unit))
}

// NumberOnTape is OnTape without the unit.
func (f Fine) NumberOnTape(mm float64, unit Unit) string {
	if text, ok := fraction(mm, unit); ok {
		return text
	}
	return f.Number(mm, unit)
}

// Figures are numbers that are no lengths, or lengths too long for a tape: of
// each, how many decimals it has where no band sets them.
type Figures uint8

// In the unit that they are printed in.
const (
	Plainly     Figures = iota // numbers without a unit
	FarLengths                 // m or ft
	Angles                     // deg, as a gauge on the wheel shows them
	SmallAngles                // deg, such as a change of toe
	Slopes                     // deg/mm or deg/in
	Bows                       // deg/mm² or deg/in²
	Ratios
	Forces // N or N m
	Shares // %
	Turns  // of an adjuster
)

var figureDecimals = [...]int{Plainly: 3, FarLengths: 1, Angles: 1, SmallAngles: 3, Slopes: 4, Bows: 6,
	Ratios: 3, Forces: 1, Shares: 1, Turns: 2}

// Number prints v, in its unit, without the unit's name.
func (f Figures) Number(v float64) string { return FormatNumber(v, figureDecimals[f]) }

// Short prints v with no more decimals than it needs.
func (f Figures) Short(v float64) string { return Trimmed(v, figureDecimals[f]) }

// Trimmed prints v with no more decimals than it needs, up to most.
func Trimmed(v float64, most int) string { return TrimZeros(FormatNumber(v, most)) }

// TrimZeros cuts the noughts at the end of what stands behind a decimal point.
func TrimZeros(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// typedDigits are as many significant digits as anybody types.
const typedDigits = 6

// AsTyped prints a number that a person gave, or a limit, to six significant
// digits with no more decimals than it needs: "0.0012", "31.75".
func AsTyped(v float64) string {
	mustBeFinite(v)
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', typedDigits, 64), 64)
	if err != nil {
		panic("units: cannot read back a number: " + err.Error())
	}
	if rounded != 0 && math.Abs(rounded) < math.Pow10(-maxDecimals) {
		return AsTyped(math.Copysign(math.Pow10(-maxDecimals), v)) // nought would be another number
	}
	return Trimmed(rounded, maxDecimals)
}

// TypedNumber prints a length that a person gave, or a limit, without the unit:
// in inches as the fraction that it is, if it is one, else as [AsTyped].
func TypedNumber(mm float64, unit Unit) string {
	if text, ok := fraction(mm, unit); ok {
		return text
	}
	return AsTyped(In(mm, unit))
}

// fraction is a length in inches as the fraction of the tape that it is, to a
// millionth of a millimetre; ok is false if it is none.
func fraction(mm float64, unit Unit) (text string, ok bool) {
	const denominator, same = 64, 1e-6
	if unit != Inch {
		return "", false
	}
	text, off := FormatFraction(mm, denominator)
	return strings.TrimSuffix(text, " in"), math.Abs(off) < same
}

// ShortLength prints a length that a person chose, such as a step, a spacer or
// a measuring error: as short as it is, to a thousandth; in inches as the
// fraction that it is, if it is one: "1/16 in", "2 1/4 in", "0.04 in".
func ShortLength(mm float64, unit Unit) string { return ShortNumber(mm, unit) + " " + unit.String() }

// ShortNumber is [ShortLength] without the unit.
func ShortNumber(mm float64, unit Unit) string {
	const most = 3
	if text, ok := fraction(mm, unit); ok {
		return text
	}
	return Trimmed(In(mm, unit), most)
}

// Place prints a place in travel or rack that was found and not chosen, with its
// sign: to what a tape shows, and as the fraction of an inch that it is, if it is one.
func Place(mm float64, unit Unit) string {
	return Signed(Taped.Short(mm, unit)) + " " + unit.String()
}

// Signed gives a printed number above nought its plus, with or without unit and
// band behind it; nought has none.
func Signed(text string) string {
	number, _, _ := strings.Cut(text, " ±")
	if strings.HasPrefix(text, string(minusSign)) || !strings.ContainsAny(number, "123456789") {
		return text
	}
	return "+" + text
}

// poundForce is the weight of a pound, N: 0.45359237 kg (international yard and pound
// agreement, 1959) under standard gravity (ISO 80000-3).
const poundForce = 0.45359237 * 9.80665

// Force converts N to what goes with a unit of length, and names it: N, or lbf where
// lengths are in inches, for there weights are in pounds.
func Force(n float64, length Unit) (float64, string) {
	if length == Inch {
		return n / poundForce, "lbf"
	}
	return n, "N"
}

// Moment is Force for a moment in N mm: N m, or lbf ft.
func Moment(nmm float64, length Unit) (float64, string) {
	if length == Inch {
		return nmm / poundForce / 304.8, "lbf ft"
	}
	return nmm / 1000, "N m"
}

// Suggested is a length of the program's own choice, mm, as round as one marks it in
// the unit: in inches to an eighth.
func Suggested(mm float64, unit Unit) float64 {
	const eighth = 25.4 / 8
	if unit == Inch {
		return math.Round(mm/eighth) * eighth
	}
	return mm
}
