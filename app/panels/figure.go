package panels

import (
	"math"
	"strings"

	"armscribe/app/figures"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// scale is how a kind of quantity is shown in a unit of length.
type scale struct {
	per    float64 // of the unit on display
	suffix string
	plain  int // decimals without a band
	// finest is the narrowest band that sets the digits: what is narrower says no
	// more on a car. Its three digits keep one figure, see units.FormatWithBand.
	finest float64
	// exact is the band below which nothing but rounding is left, in mm and rad.
	exact float64
}

const degree = math.Pi / 180

// scaleOf returns the scale of a line.
func scaleOf(f *figures.Figure, unit units.Unit) scale {
	s := scaleOfKind(f.Kind, unit)
	s.plain += f.Digits
	if f.Digits > 0 {
		s.finest /= 10
	}
	return s
}

// scaleOfKind returns that of a kind.
func scaleOfKind(k sheet.Kind, unit units.Unit) scale {
	of, name := k.In(1, unit)
	s := scale{per: 1 / of, suffix: " " + name, exact: k.Rounding()}
	switch k {
	case sheet.Length:
		s.plain = 1
	case sheet.Toe:
		s.plain, s.suffix = 2, "°"
	case sheet.Slope:
		s.plain, s.suffix = 4, " °"+strings.TrimPrefix(name, "deg")
	default:
		s.plain, s.suffix = 3, ""
	}
	if unit == units.Inch {
		switch k {
		case sheet.Length:
			s.plain++
		case sheet.Slope:
			s.plain--
		}
	}
	s.finest = 3.55 * math.Pow10(-s.plain)
	return s
}

// figure is a value with its band in words.
type figure struct{ value, band, delta string }

// figures prints a value, its half-width and its change to the same place.
// Without a band (half < 0) there is none.
func (s scale) figures(v, half, change float64, changed bool) figure {
	text := func(x float64) string { return units.FormatNumber(x/s.per, s.plain) }
	var f figure
	switch {
	case half >= s.exact:
		shown := max(half/s.per, s.finest)
		text = func(x float64) string {
			number, _, _ := strings.Cut(units.FormatWithBand(x/s.per, shown), " ± ")
			return number
		}
		_, f.band, _ = strings.Cut(units.FormatWithBand(0, shown), " ± ")
		if half/s.per < s.finest {
			f.band = text(half)
		}
		f.band = "± " + f.band
	case half >= 0:
		f.band = "± 0"
	}
	f.value = text(v) + s.suffix
	if changed {
		f.delta = units.Signed(text(change))
	}
	return f
}
