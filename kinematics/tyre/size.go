package tyre

import "math"

// inch in mm, and a mile in mm (international yard and pound agreement, 1959).
const (
	inch = 25.4
	mile = 1_609_344.0
)

// widthPerRim is K: how much a section widens for each mm of rim.
// Source: UN Regulation 30, 6.1.1.1.
const widthPerRim = 0.4

// radialRolling is rolling circumference over diameter for a radial tyre,
// less than pi because the tread belt is pressed flat. Source: UN Regulation
// 30 and ETRTO, from memory; a published maker's table agrees within
// 1 rev/mile.
const radialRolling = 3.05

// must panics for a Tyre that Parse did not make.
func (t Tyre) must() {
	if t.Form < Metric || t.Form > Inches {
		panic("kinematics: tyre: not made by Parse")
	}
}

// RimDiameter is the nominal rim diameter in mm, rounded to mm: code 10 is
// 254, 18 is 457. It is the bead seat, not the edge of the flange.
func (t Tyre) RimDiameter() float64 {
	t.must()
	return math.Round(t.RimCode * inch)
}

// Section heights as shares of the width where the code does not give them.
const (
	// fullProfile is that of a radial tyre whose code names no aspect ratio, 155R13.
	// Common practice, from memory; listed sizes lie between the other two.
	fullProfile, lowProfile, highProfile = 0.82, 0.79, 0.84
	// inchProfile is that of a tyre of the old inch sizes, 7.50-16: about as high as
	// wide. Common practice, from memory; listed sizes lie between the other two.
	inchProfile, lowInch, highInch = 1.00, 0.95, 1.06
)

// SectionHeight is H in mm: width times aspect, rounded to mm, half up. For a
// flotation size it is what the stated diameter leaves over the rim, unrounded;
// for a code without either it is an estimate, see [Tyre.HeightSpan].
func (t Tyre) SectionHeight() float64 {
	t.must()
	switch {
	case t.Form == Flotation:
		return (t.Diameter() - t.RimDiameter()) / 2
	case t.Form == Inches:
		return math.Floor(t.Width*inchProfile + 0.5)
	case t.Aspect == 0:
		return math.Floor(t.Width*fullProfile + 0.5)
	}
	// In hundredths of a mm, all whole, so that a half is a half: 195/50 is 97.5.
	return math.Floor((t.Width*float64(t.Aspect) + 50) / 100)
}

// HeightSpan is the section height with the span in which it may well lie, mm;
// estimate is false where the code gives it and there is no span.
func (t Tyre) HeightSpan() (h Estimated, estimate bool) {
	h.Value = t.SectionHeight()
	switch {
	case t.Form == Inches:
		return Estimated{h.Value, lowInch * t.Width, highInch * t.Width}, true
	case t.Form == Metric && t.Aspect == 0:
		return Estimated{h.Value, lowProfile * t.Width, highProfile * t.Width}, true
	}
	return Estimated{h.Value, h.Value, h.Value}, false
}

// DiameterSpan is the same of the overall diameter.
func (t Tyre) DiameterSpan() (d Estimated, estimate bool) {
	h, estimate := t.HeightSpan()
	d = Estimated{t.Diameter(), t.RimDiameter() + 2*h.Low, t.RimDiameter() + 2*h.High}
	if !estimate {
		d.Low, d.High = d.Value, d.Value
	}
	return d, estimate
}

// Diameter is the design overall diameter in mm, unloaded; an estimate where
// [Tyre.DiameterSpan] says so.
func (t Tyre) Diameter() float64 {
	t.must()
	if t.Form == Flotation {
		return t.outside * inch
	}
	return t.RimDiameter() + 2*t.SectionHeight()
}

// MeasuringRim is the width in mm of the rim on which the tyre's listed width
// is measured, a whole number of half inches. ok is false for a size in
// inches: no rule is known for it.
//
// The rim is a share of the section width that grows as the tyre gets lower:
// 0.70 from aspect 75 up, 0.75 for 60 to 70, 0.80 for 50 and 55, 0.85 for 45,
// 0.90 for 40 and below, to the nearest half inch. Source: ETRTO practice, from
// memory; it gives the rim of all 27 sizes in the check tables. Below aspect
// 30 it is unchecked.
func (t Tyre) MeasuringRim() (width float64, ok bool) {
	t.must()
	if t.Form != Metric {
		return 0, false
	}
	return math.Round(t.Width*t.measuringShare()/(inch/2)) * (inch / 2), true
}

func (t Tyre) measuringShare() float64 {
	switch {
	case t.Aspect >= 75, t.Aspect == 0:
		return 0.70
	case t.Aspect >= 60:
		return 0.75
	case t.Aspect >= 50:
		return 0.80
	case t.Aspect >= 45:
		return 0.85
	}
	return 0.90
}

// SectionWidth is S in mm on a rim of the given width in mm, rounded to mm: a
// half inch of rim makes about 5 mm. Lettering and ribs add to it. ok is false
// for a size in inches: no rule is known for it. A rim that is not between
// [MinRimWidth] and [MaxRimWidth] panics. Whether the tyre may be fitted to
// that rim is the tyre maker's to say.
//
// The rim on which S is the nominal width is x times that width, x = 0.70
// from aspect 50 up and 0.85 below (ETRTO practice, from memory). This x is
// not the share of [Tyre.MeasuringRim]: with that share the published widths
// do not come out.
func (t Tyre) SectionWidth(rimWidth float64) (width float64, ok bool) {
	t.must()
	if !(rimWidth >= MinRimWidth && rimWidth <= MaxRimWidth) {
		panic("kinematics: tyre: rim width out of range")
	}
	if t.Form != Metric {
		return 0, false
	}
	x := 0.70
	if t.Aspect > 0 && t.Aspect < 50 {
		x = 0.85
	}
	return math.Floor(t.Width + widthPerRim*(rimWidth-x*t.Width) + 0.5), true
}

// RollingCircumference is the way in mm that one turn covers: 3.05 diameters.
// ok is false for a diagonal tyre: the factor is that of radials.
func (t Tyre) RollingCircumference() (length float64, ok bool) {
	t.must()
	if t.Construction != Radial {
		return 0, false
	}
	return radialRolling * t.Diameter(), true
}

// RevPerMile is the turns to a statute mile; ok as for [Tyre.RollingCircumference].
func (t Tyre) RevPerMile() (turns float64, ok bool) {
	length, ok := t.RollingCircumference()
	if !ok {
		return 0, false
	}
	return mile / length, true
}
