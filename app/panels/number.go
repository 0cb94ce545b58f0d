package panels

import (
	"strings"

	"armscribe/app/units"
)

// Decimals of a length in a field: at rest as fine as one measures, and while it
// is edited fine enough to hand on.
const (
	restDecimals = 2 // of mm; one more of inches
	editDecimals = 4
)

// typedMost is the longest typed text shown at rest, in characters: what the
// narrowest field holds.
const typedMost = 8

// lengthTexts returns a length as a field shows it at rest, and while it is
// edited: as it was typed, or the number. A long typed text is shown at rest as
// the number that it comes to.
func lengthTexts(l units.Length, unit units.Unit) (short, full string) {
	short, full = units.Gauged.Short(l.MM, unit), units.TypedNumber(l.MM, unit)
	if l.Typed != "" {
		full = withMinus(l.Typed)
		own := strings.TrimSuffix(full, " "+unit.String()) // the field is in that unit
		if len([]rune(own)) <= typedMost {
			short = own
		}
	}
	return short, full
}

// withMinus gives a typed sign the look of a printed one. It means the same; a
// hyphen further in may join a fraction, so it stays.
func withMinus(text string) string {
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		return "\u2212" + rest
	}
	return text
}

// echoLength says in both systems what a text means.
func echoLength(text string, unit units.Unit) (string, error) {
	mm, err := units.Parse(text, unit)
	if err != nil {
		return "", err
	}
	return units.FormatBoth(mm), nil
}
