package units

import (
	"math"
	"strconv"
)

// FormatWithBand prints a value with its 95 % band, as "32.2 ± 1.8": the band
// to one or two digits, the value to the same place. A band of nought prints
// the value to three decimals, "± 0". The band must not be negative.
//
// How many digits: two if the band's first three digits are 100 to 354, one if
// 355 to 949, and 950 to 999 become 1000 with two. Source: Particle Data
// Group, Review of Particle Physics, introduction, on rounding (from memory).
func FormatWithBand(value, band float64) string { return BandedTo(value, band, maxDecimals) }

// BandedTo is FormatWithBand with no more decimals than finest: a band narrower than
// that is printed as one of the last digit.
func BandedTo(value, band float64, finest int) string {
	mustBeFinite(value)
	mustBeBand(band)
	place := max(lastPlace(band), -finest)
	if least := math.Pow10(place); band > 0 && band < least {
		band = least
	}
	return toPlace(value, place) + " ± " + bandText(band, place)
}

// FormatWithLimits prints a value with a band whose sides differ, as
// "69.0 (−5.6/+5.4)". Below and above are distances, not negative; the larger
// sets the digits as in [FormatWithBand].
func FormatWithLimits(value, below, above float64) string {
	mustBeFinite(value)
	mustBeBand(below)
	mustBeBand(above)
	place := lastPlace(math.Max(below, above))
	return toPlace(value, place) + " (" + string(minusSign) + bandText(below, place) +
		"/+" + bandText(above, place) + ")"
}

// exactPlace is the place printed when there is no band: a thousandth.
const exactPlace = -3

// lastPlace is the power of ten of the last digit that a band leaves.
func lastPlace(band float64) int {
	if band == 0 {
		return exactPlace
	}
	// Three digits and the exponent, rounded by the library: d.dde±x.
	text := strconv.FormatFloat(band, 'e', 2, 64)
	digits, err := strconv.Atoi(text[:1] + text[2:4])
	if err != nil {
		panic("units: cannot read back " + text)
	}
	exponent, err := strconv.Atoi(text[5:])
	if err != nil {
		panic("units: cannot read back " + text)
	}
	// 950 and more becomes 10 of this place: two digits without a change.
	if digits < 355 {
		exponent--
	}
	// Finer than can be printed is printed as fine as can be.
	return max(exponent, -maxDecimals)
}

// toPlace rounds v at the power of ten place and prints it.
func toPlace(v float64, place int) string {
	if place <= 0 {
		return FormatNumber(v, -place)
	}
	unit := math.Pow10(place)
	return FormatNumber(math.Round(v/unit)*unit, 0)
}

func bandText(band float64, place int) string {
	if band == 0 {
		return "0"
	}
	return toPlace(band, place)
}

func mustBeBand(band float64) {
	mustBeFinite(band)
	if band < 0 {
		panic("units: a band is a distance, not " + strconv.FormatFloat(band, 'g', -1, 64))
	}
}
