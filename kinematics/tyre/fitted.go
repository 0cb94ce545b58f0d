package tyre

// Fitted is a tyre on a wheel on a hub face. Make one with [Fit].
type Fitted struct {
	Tyre  Tyre
	Wheel Wheel
	// SectionWidth is the width across the side walls on this rim, mm. For a
	// size in inches no rule is known and it is the width in the code: then
	// WidthIsNominal is set.
	SectionWidth   float64
	WidthIsNominal bool
}

// Fit puts a tyre on a wheel. That the rim has the tyre's diameter is for the
// caller to see to: a [Wheel] does not know its own. A Tyre or Wheel that was
// not made by [Parse] or [NewWheel] panics.
func Fit(t Tyre, w Wheel) Fitted {
	width, ok := t.SectionWidth(w.RimWidth())
	if !ok {
		width = t.Width
	}
	return Fitted{t, w, width, !ok}
}

// LipsFromHub returns where the rim's edges stand from the hub face with a
// spacer between hub and wheel, mm, positive outboard.
func (f Fitted) LipsFromHub(spacer float64) (inner, outer float64) {
	inner, outer = f.Wheel.Lips()
	return inner + spacer, outer + spacer
}

// ShouldersFromHub returns where the tyre's side walls stand from the hub
// face, mm along the spin axis, positive outboard; the inner one is as a rule
// below zero. They lie half a section either side of the rim's centre plane.
func (f Fitted) ShouldersFromHub(spacer float64) (inner, outer float64) {
	mid := spacer - f.Wheel.Offset()
	return mid - f.SectionWidth/2, mid + f.SectionWidth/2
}

// FromCentrePlane turns a distance from the hub face along the spin axis into
// one from the car's centre plane, for a wheel that stands upright and straight
// ahead: hubY is the y of the hub face, mm. With camber of 2 degrees it is out
// by 0.06 %, which is 0.1 mm in 160.
func FromCentrePlane(hubY, fromHub float64) float64 { return hubY + fromHub }

// Estimated is a measure no rule gives, with the span it may well lie in, mm.
type Estimated struct{ Value, Low, High float64 }

// Shares of the nominal width by which the tread face may be narrower or wider
// than the estimate.
const (
	narrowerTread = 0.06
	widerTread    = 0.08
)

// TreadFace estimates the width of the flat of the tread, mm: about the
// measuring rim's share of the nominal width, and for a size in inches 0.75 of
// it. Common practice, no source: treads of one size differ by a finger's
// width. Measure the tyre where it matters.
func (t Tyre) TreadFace() Estimated {
	t.must()
	share := 0.75
	if t.Form == Metric {
		share = t.measuringShare()
	}
	return Estimated{share * t.Width, (share - narrowerTread) * t.Width, (share + widerTread) * t.Width}
}

// Rounding of the shoulder: the share of the section height, and what it can be at most.
const (
	shoulderShare    = 0.30
	minShoulder      = 8.0  // mm
	maxShoulderShare = 0.95 // of what side wall and tread leave
)

// Shoulder estimates the radius in mm with which the tread goes over into the
// side wall of a section of the given width and a tread face of the given
// width: 0.3 of the section height, at least 8 mm, and never more than
// side wall and tread leave room for. Common practice, no source. It is 0 when
// the tread is as wide as the section.
func (t Tyre) Shoulder(section, tread float64) float64 {
	r := max(shoulderShare*t.SectionHeight(), minShoulder)
	return max(0, min(r, maxShoulderShare*(section-tread)/2))
}

// Shares of the rim's nominal diameter that its metal takes, in mm both sides together.
const (
	leastMetal  = 35.0
	middleMetal = 45.0
	mostMetal   = 60.0
)

// RimInside estimates the inside diameter of the barrel, mm, where brake and
// joints must pass: 45 mm (35 to 60) less than the nominal diameter. Common
// practice, no source: wheels differ by more than the gap that is wished, so
// measure the wheel.
func (t Tyre) RimInside() Estimated {
	d := t.RimDiameter()
	return Estimated{d - middleMetal, d - mostMetal, d - leastMetal}
}

// SpeedometerChange is how much farther the car goes for each turn of the
// wheel than with the tyre it had, as a share: 0.02 means that 100 shown are
// 102 driven. ok is false unless both are radial (see
// [Tyre.RollingCircumference]).
func (t Tyre) SpeedometerChange(before Tyre) (share float64, ok bool) {
	now, ok := t.RollingCircumference()
	was, ok2 := before.RollingCircumference()
	if !ok || !ok2 {
		return 0, false
	}
	return now/was - 1, true
}
