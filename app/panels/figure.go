package panels

import (
	"math"
	"strings"

	"armscribe/app/units"
	"armscribe/kinematics"
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

// scaleOf returns the scale of a kind.
func scaleOf(k kinematics.Kind, unit units.Unit) scale {
	inch := unit == units.Inch
	switch {
	case k == kinematics.Length && inch:
		return scale{25.4, " in", 2, 0.0355, 1e-6}
	case k == kinematics.Length:
		return scale{1, " mm", 1, 0.355, 1e-6}
	case k == kinematics.Angle:
		return scale{degree, "°", 2, 0.0355, 1e-9}
	case k == kinematics.Slope && inch:
		return scale{degree / 25.4, " °/in", 3, 0.00355, 1e-11}
	case k == kinematics.Slope:
		return scale{degree, " °/mm", 4, 0.000355, 1e-11}
	}
	return scale{1, "", 3, 0.00355, 1e-9}
}

// scale returns the scale of a line. A tie-rod error is small and decides much, so
// it gets a digit more; a centre, which a tape places poorly, one less.
func (it item) scale(unit units.Unit) scale {
	s := scaleOf(it.q.About().Kind, unit)
	switch it.q {
	case kinematics.TieRodError:
		s.plain++
		s.finest /= 10
	case kinematics.InstantCentreY, kinematics.InstantCentreZ, kinematics.SwingArm:
		s.plain--
	}
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
