package pages

import (
	"math"
	"strings"

	"armscribe/app/units"
)

// Degree turns radians into degrees.
const Degree = 180 / math.Pi

// Trimmed prints a number with no more decimals than it needs.
func Trimmed(v float64, decimals int) string {
	text := units.FormatNumber(v, decimals)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// ShortLength is a length as a field shows it.
func ShortLength(mm float64, unit units.Unit) string {
	if unit == units.Inch {
		return Trimmed(units.In(mm, unit), 3)
	}
	return Trimmed(mm, 2)
}

// Signed puts a plus before a figure that is above zero.
func Signed(text string) string {
	if strings.HasPrefix(text, "−") || strings.Trim(text, "0.") == "" {
		return text
	}
	return "+" + text
}

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
