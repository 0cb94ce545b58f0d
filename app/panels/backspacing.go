package panels

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"armscribe/app/units"
	"armscribe/kinematics/tyre"
)

// offsetParts of a mm is how finely an offset computed from a backspacing is
// kept, so that the file holds 6.35 and not 6.350000000000023.
const offsetParts = 1e6

// offsetOf reads a backspacing and returns the offset on the present rim. What
// was typed stays in it, "6 1/2 in - 146.05 mm", if it is not too long: then
// whole is false.
func (w *Wheel) offsetOf(text string) (l units.Length, whole bool, err error) {
	back, err := units.ParseLength(text, w.in.Unit)
	if err != nil {
		return units.Length{}, false, err
	}
	width := w.in.Variant.Wheel.RimWidth.MM
	mm := math.Round(tyre.OffsetFromBackspacing(width, back.MM)*offsetParts) / offsetParts
	rim, err := tyre.NewWheel(width, mm)
	if err != nil {
		var bad *tyre.WheelError
		if !errors.As(err, &bad) {
			return units.Length{}, false, err
		}
		return units.Length{}, false, fmt.Errorf("that makes the %s %s, not between %s and %s; check the number and its unit", bad.Measure,
			w.length(bad.Value), w.length(bad.Min), w.length(bad.Max))
	}
	if back.Typed == "" {
		return units.Length{MM: mm}, true, nil
	}
	typed, err := units.ParseLength(back.Typed+halfRim(rim), w.in.Unit)
	if err != nil || math.Abs(typed.MM-mm) > 1/offsetParts {
		return units.Length{MM: mm}, false, nil // the text is too long for a file
	}
	return typed, true, nil
}

// halfRim is what an offset is less than its backspacing, as text behind that:
// half the rim, flange and all.
func halfRim(rim tyre.Wheel) string {
	half := math.Round(rim.OverallWidth()/2*offsetParts) / offsetParts
	return " - " + units.Plain(half, units.Millimetre) + " mm"
}

// backspacingOf is the backspacing of a wheel, as it was typed if the offset
// tells.
func backspacingOf(rim tyre.Wheel, offset units.Length) units.Length {
	l := units.Length{MM: rim.Backspacing()}
	if typed, ok := strings.CutSuffix(offset.Typed, halfRim(rim)); ok {
		l.Typed = typed
	}
	return l
}
