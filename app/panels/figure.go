package panels

import (
	"math"
	"strings"

	"armscribe/app/figures"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

const degree = math.Pi / 180

// scale is how a kind of quantity is shown in a unit of length: with a digit less
// than elsewhere, for there is little room and the last decides nothing on a car.
type scale struct {
	kind   sheet.Kind
	unit   units.Unit
	suffix string
	plain  int // decimals without a band
	most   int // with one
}

// scaleOf returns the scale of a line.
func scaleOf(f *figures.Figure, unit units.Unit) scale {
	s := scaleOfKind(f.Kind, unit)
	s.plain += f.Digits
	s.most = max(s.most, s.plain)
	return s
}

// scaleOfKind returns that of a kind.
func scaleOfKind(k sheet.Kind, unit units.Unit) scale {
	n := k.Finest(unit) - 1
	_, name := k.In(0, unit)
	s := scale{kind: k, unit: unit, plain: n, most: n, suffix: "°"}
	if name != "deg" {
		s.suffix = strings.TrimRight(" "+strings.Replace(name, "deg", "°", 1), " ")
	}
	return s
}

// number prints a value without its unit.
func (s scale) number(v float64) string {
	v, _ = s.kind.In(v, s.unit)
	return units.FormatNumber(v, s.plain)
}

// figure is a value with its band in words.
type figure struct{ value, band, delta string }

// figures prints a value, its half-width and its change to the same place.
// Without a band (half < 0) there is none.
func (s scale) figures(v, half, change float64, changed bool) figure {
	f := figure{value: s.number(v), delta: s.number(change)}
	switch {
	case half >= s.kind.Rounding():
		h, _ := s.kind.In(half, s.unit)
		banded := func(v float64) (number, band string) {
			v, _ = s.kind.In(v, s.unit)
			number, band, _ = strings.Cut(units.BandedTo(v, h, s.most), " ± ")
			return number, "± " + band
		}
		f.value, f.band = banded(v)
		f.delta, _ = banded(change)
	case half >= 0:
		f.band = "± 0"
	}
	f.value += s.suffix
	if f.delta = units.Signed(f.delta); !changed {
		f.delta = ""
	}
	return f
}
