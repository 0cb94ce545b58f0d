package panels

import (
	"fmt"
	"math"
	"strings"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics/tyre"
)

// Wheel is the panel of tyre and wheel: what is given, to be typed, and under it
// what follows. Offset and backspacing are two names of one measure: either sets
// the other. A new rim width keeps the offset, and the backspacing follows. An
// empty loaded radius is estimated from the tyre.
//
// All methods belong to the toolkit's goroutine.
type Wheel struct {
	form

	// OnEdit asks the owner for a change; it must be set before a hand types.
	OnEdit Edit

	in                                           Input
	brakeShown                                   job.Brake
	trackShown                                   float64
	tyre, radius, rim, offset, backspacing, gap  *valueRow
	track                                        *valueRow
	diameter, section, across, inboard, outboard *factRow
	brake                                        *gapRow
}

// NewWheel returns a panel that shows nothing yet.
func NewWheel() *Wheel {
	w := &Wheel{}
	w.form.init(w)
	w.tyre = newValueRow(&w.form, "Size", w.tyreField())
	w.tyre.wide = true
	w.radius = newValueRow(&w.form, "Loaded radius", w.radiusField())
	w.rim = newValueRow(&w.form, "Rim width", w.lengthField("rim width", job.RimWidthValue, func(v *job.Wheel) *units.Length { return &v.RimWidth }))
	w.offset = newValueRow(&w.form, "Offset", w.lengthField("wheel offset", job.OffsetValue, func(v *job.Wheel) *units.Length { return &v.Offset }))
	w.backspacing = newValueRow(&w.form, "Backspacing", w.backspacingField())
	w.gap = newValueRow(&w.form, "Spacer", w.lengthField("spacer", noValue, func(v *job.Wheel) *units.Length { return &v.Spacer }))
	w.track = newValueRow(&w.form, "Track", w.trackField())
	w.diameter, w.section, w.across = newFact("Overall diameter"), newFact("Section width"), newFact("Rim over the flanges")
	w.inboard, w.outboard = newFact("Inner edge, inboard"), newFact("Outer edge, outboard")
	w.brake = newGapRow("Brake in the barrel")
	w.setRows([]row{
		newHead("Tyre", true), w.tyre, w.radius, w.diameter, w.section,
		newHead("Wheel", false), w.rim, w.offset, w.backspacing, w.gap, w.track,
		newHead("Rim, from the hub's face", false), w.inboard, w.outboard, w.across, w.brake,
	})
	return w
}

// SetInput shows a variant. What is being typed stays.
func (w *Wheel) SetInput(in Input) {
	same := w.in.Variant != nil && in.Variant.Wheel == w.in.Variant.Wheel && in.Unit == w.in.Unit && in.owner() == w.in.owner() && in.Job.Brake == w.brakeShown &&
		in.Variant.Assumed == w.in.Variant.Assumed && in.Variant.Track == w.in.Variant.Track && in.Variant.TrackMM() == w.trackShown
	if w.in = in; same {
		return
	}
	w.brakeShown, w.trackShown = in.Job.Brake, in.Variant.TrackMM()
	w.fill()
	w.follow() // a fact may take a second line
}

// tyreField is the field of the size code.
func (w *Wheel) tyreField() *field {
	f := newField("tyre size")
	f.check = func(text string) (string, error) {
		t, err := tyre.Parse(text)
		if err != nil {
			return "", err
		}
		return w.tyreHint(t), nil
	}
	f.hand = func(text string) error {
		return w.OnEdit("type "+f.name, func(v *job.Variant) { v.Wheel.SetTyre(strings.TrimSpace(text)) })
	}
	return f
}

// noValue is assumed of nothing.
const noValue = job.Value(63)

// lengthField is the field of a measure of the wheel.
func (w *Wheel) lengthField(name string, x job.Value, of func(v *job.Wheel) *units.Length) *field {
	f := newField(name)
	f.check = func(text string) (string, error) { return echoLength(text, w.in.Unit) }
	f.hand = func(text string) error {
		l, err := units.ParseLength(text, w.in.Unit)
		if err != nil {
			return err
		}
		return w.OnEdit("type "+f.name, func(v *job.Variant) { *of(&v.Wheel), v.Assumed = l, v.Assumed.With(x, false) })
	}
	return f
}

// radiusField is the field of the loaded radius; an empty one asks for the
// estimate.
func (w *Wheel) radiusField() *field {
	f := newField("loaded radius")
	f.check = func(text string) (string, error) {
		if strings.TrimSpace(text) == "" {
			wheel := w.in.Variant.Wheel
			if !wheel.Loaded().Estimate { // what comes of emptying the field
				wheel.SetRadius(job.Optional{})
			}
			return w.estimateHint(&wheel), nil
		}
		return echoLength(text, w.in.Unit)
	}
	f.hand = func(text string) error {
		if strings.TrimSpace(text) == "" {
			return w.OnEdit("drop loaded radius", func(v *job.Variant) { v.Wheel.SetRadius(job.Optional{}) })
		}
		l, err := units.ParseLength(text, w.in.Unit)
		if err != nil {
			return err
		}
		return w.OnEdit("type "+f.name, func(v *job.Variant) { v.Wheel.SetRadius(job.Given(l)) })
	}
	return f
}

// backspacingField sets the offset.
func (w *Wheel) backspacingField() *field {
	f := newField("wheel backspacing")
	f.check = func(text string) (string, error) {
		l, whole, err := w.offsetOf(text)
		if err != nil {
			return "", err
		}
		echo := "offset " + units.FormatBoth(l.MM)
		if !whole {
			echo += "; too long to keep as typed, the job keeps the number"
		}
		return echo, nil
	}
	f.hand = func(text string) error {
		l, _, err := w.offsetOf(text)
		if err != nil {
			return err
		}
		return w.OnEdit("type "+f.name, func(v *job.Variant) { v.Wheel.Offset, v.Assumed = l, v.Assumed.With(job.OffsetValue, false) })
	}
	return f
}

// length prints a length as the panel shows it.
func (w *Wheel) length(mm float64) string {
	return units.Taped.Length(mm, w.in.Unit)
}

// tyreHint tells the nominal width in the code from that of the section, which
// follows from the rim.
func (w *Wheel) tyreHint(t tyre.Tyre) string {
	in := func(mm float64) string { return units.Trimmed(units.In(mm, w.in.Unit), 2) + " " + w.in.Unit.String() }
	span := ""
	if d, estimate := t.DiameterSpan(); estimate {
		span = fmt.Sprintf("; the code does not give the diameter: estimate, %s to %s", in(math.Round(d.Low)), in(math.Round(d.High)))
	}
	rim, ok := t.MeasuringRim()
	if !ok {
		return "size in inches, for rims of " + units.Trimmed(t.RimCode, 1) + " in" + span
	}
	text := "nominal width " + in(t.Width)
	if rim >= tyre.MinRimWidth && rim <= tyre.MaxRimWidth {
		section, _ := t.SectionWidth(rim)
		text += "; section " + in(section) + " on its measuring rim of " + inches(rim)
	}
	return text + span
}

// inches prints a rim's width as the trade does, in either unit on display.
func inches(mm float64) string { return units.Trimmed(units.In(mm, units.Inch), 1) + " in" }

// rimHint is the width in both systems, and a caution where the rim is unusual
// for the tyre. Common practice, no source: it refuses nothing.
func (w *Wheel) rimHint(mm float64) (hint string, caution bool) {
	hint = units.FormatBoth(mm)
	t, err := tyre.Parse(w.in.Variant.Wheel.Tyre)
	if err != nil {
		return hint, false
	}
	seat := t.SeatOn(mm)
	if seat != tyre.Pinched && seat != tyre.Stretched {
		return hint, false
	}
	way := map[tyre.Seat]string{tyre.Pinched: "narrow", tyre.Stretched: "wide"}[seat]
	low, high, _ := t.UsualRims()
	return fmt.Sprintf("%s. Caution: %s for this tyre, usual rims are %s to %s; the tyre maker's list decides",
		hint, way, units.Trimmed(units.In(low, units.Inch), 1), inches(high)), true
}

// estimateHint gives the estimate and its span.
func (w *Wheel) estimateHint(wheel *job.Wheel) string {
	if _, err := tyre.Parse(wheel.Tyre); err != nil {
		return ""
	}
	e := wheel.Loaded()
	return fmt.Sprintf("estimate from %s, %s to %s; better measured", wheel.LoadedFrom(w.in.Unit),
		units.Guessed.Number(e.Low, w.in.Unit), units.Guessed.Length(e.High, w.in.Unit))
}

// fill puts the variant's values into the fields, and what follows under them.
func (w *Wheel) fill() {
	owner, v := w.in.owner(), &w.in.Variant.Wheel
	hold := func(r *valueRow, l units.Length) {
		short, full := lengthTexts(l, w.in.Unit)
		r.field.hold(owner, short, full)
	}
	w.tyre.field.hold(owner, v.Tyre, v.Tyre)
	hold(w.rim, v.RimWidth)
	hold(w.offset, v.Offset)
	hold(w.gap, v.Spacer)
	w.rim.field.assumed, w.offset.field.assumed = w.in.Variant.Assumed.Has(job.RimWidthValue), w.in.Variant.Assumed.Has(job.OffsetValue)
	hint, caution := w.rimHint(v.RimWidth.MM)
	w.rim.cautionWith(assumedHint(w.in.Variant, job.RimWidthValue, w.in.Unit, hint), caution)
	w.gap.explainWith("between hub and wheel")
	rim := clearance.WheelFit(w.in.Job, w.in.Variant)
	if rim.OffsetErr != nil {
		w.offset.cautionWith("✕ "+rim.OffsetWords(w.in.Unit), true)
	} else {
		w.offset.explainWith(assumedHint(w.in.Variant, job.OffsetValue, w.in.Unit, offsetHint(v.Offset.MM)))
	}
	w.brake.fit(&rim, w.in.Unit)
	w.backspacing.explainWith("mounting face to the rim's back edge")
	w.fillRadius(owner)
	w.fillTrack(owner)
	w.fillFacts()
}

func offsetHint(mm float64) string {
	switch {
	case mm > 0:
		return "face outboard of the rim's middle"
	case mm < 0:
		return "face inboard of the rim's middle"
	}
	return "face in the rim's middle"
}

func (w *Wheel) fillRadius(owner string) {
	v := &w.in.Variant.Wheel
	if !v.Loaded().Estimate {
		short, full := lengthTexts(v.LoadedRadius.Length, w.in.Unit)
		w.radius.field.hold(owner, short, full)
		w.radius.field.SetPlaceHolder("")
		w.radius.explainWith("wheel centre to ground, measured")
		return
	}
	mm, _ := w.in.Variant.LoadedRadius()
	w.radius.field.hold(owner, "", "")
	w.radius.field.SetPlaceHolder("≈ " + units.Taped.Short(mm, w.in.Unit))
	w.radius.explainWith(w.estimateHint(v))
}

func (w *Wheel) fillFacts() {
	owner, v := w.in.owner(), &w.in.Variant.Wheel
	for _, f := range []*factRow{w.diameter, w.section, w.across, w.inboard, w.outboard} {
		f.value.say("not known", f.value.colour)
	}
	wheel, badWheel := tyre.NewWheel(v.RimWidth.MM, v.Offset.MM)
	t, badTyre := tyre.Parse(v.Tyre)
	set := func(f *factRow, mm float64) { f.value.say(w.length(mm), f.value.colour) }
	if badTyre == nil {
		set(w.diameter, t.Diameter())
		if _, estimate := t.DiameterSpan(); estimate {
			w.diameter.value.say("≈ "+w.length(t.Diameter()), w.diameter.value.colour)
		}
		w.tyre.explainWith(w.tyreHint(t))
		if badWheel == nil {
			if s, ok := t.SectionWidth(v.RimWidth.MM); ok {
				set(w.section, s)
			} else {
				w.section.value.say("no rule for this form", w.section.value.colour)
			}
		}
	}
	if badWheel != nil {
		w.backspacing.field.hold(owner, "", "")
	} else {
		short, full := lengthTexts(backspacingOf(wheel, v.Offset), w.in.Unit)
		w.backspacing.field.hold(owner, short, full)
		inner, outer := wheel.Lips()
		set(w.inboard, -(inner + v.Spacer.MM))
		set(w.outboard, outer+v.Spacer.MM)
		set(w.across, wheel.OverallWidth())
	}
}
