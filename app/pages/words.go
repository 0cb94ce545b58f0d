package pages

import (
	"math"
	"strings"

	"armscribe/app/units"
)

// Degree turns radians into degrees.
const Degree = 180 / math.Pi

// ShortLength is a length as a field shows it.
func ShortLength(mm float64, unit units.Unit) string { return units.Gauged.Short(mm, unit) }

// Pick is one of two texts.
func Pick(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

// UpperFirst begins a text with a capital.
func UpperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
