package report

import (
	"fmt"
	"math"

	"armscribe/app/units"
	"armscribe/kinematics/tyre"
)

// WheelSpec is a tyre on a wheel, as asked for. Lengths in mm.
type WheelSpec struct {
	Tyre                string // size code
	Rim, Offset, Spacer float64
	Before              string  // size code of the tyre that the speedometer knows; may be empty
	Hub                 float64 // y of the hub face; only if HasHub
	HasHub              bool
	Brake               float64 // mm across disc and caliper; 0 if not asked for
	BrakeGap            float64 // mm wished all round it
	// Loaded is the loaded radius where the job says one, with RadiusFrom what it was
	// estimated from; zero for an estimate from the tyre's code.
	Loaded     tyre.LoadedRadius
	RadiusFrom string
}

// MaxSpacer catches a number in the wrong unit, mm.
const MaxSpacer = 300.0

// Wheel is what follows from a tyre code, a rim and an offset.
type Wheel struct {
	Spec   WheelSpec
	Fitted tyre.Fitted
	Seat   tyre.Seat
	// Speedometer is how much farther the car goes than is shown, as a share;
	// only if HasSpeedometer. SpeedometerNote says why there is none.
	Speedometer     float64
	HasSpeedometer  bool
	SpeedometerNote string
}

// WheelOf works a wheel out. Errors are those of package tyre: *CodeError,
// *WheelError and *FitError.
func WheelOf(spec WheelSpec) (*Wheel, error) {
	w := &Wheel{Spec: spec}
	t, err := tyre.Parse(spec.Tyre)
	if err != nil {
		return nil, err
	}
	wheel, err := tyre.NewWheel(spec.Rim, spec.Offset)
	if err != nil {
		return nil, err
	}
	if err := wheel.CheckOffset(); err != nil {
		return nil, err
	}
	if !(spec.Spacer >= 0 && spec.Spacer <= MaxSpacer) {
		return nil, &tyre.WheelError{Measure: "spacer", Value: spec.Spacer, Min: 0, Max: MaxSpacer}
	}
	w.Fitted, w.Seat = tyre.Fit(t, wheel), t.SeatOn(spec.Rim)
	if spec.Loaded == (tyre.LoadedRadius{}) {
		w.Spec.Loaded = t.EstimateLoadedRadius()
	}
	if spec.Before == "" {
		return w, nil
	}
	before, err := tyre.Parse(spec.Before)
	if err != nil {
		return nil, err
	}
	if w.Speedometer, w.HasSpeedometer = t.SpeedometerChange(before); !w.HasSpeedometer {
		w.SpeedometerNote = "the rolling circumference is known for radial tyres only"
	}
	return w, nil
}

// BrakeFit is a *tyre.FitError where the brake does not pass through the barrel
// with its gap, by the barrel's estimated inside diameter; nil where it does.
func (w *Wheel) BrakeFit() error {
	if w.Spec.Brake == 0 {
		return nil
	}
	return tyre.CheckBrake(w.Fitted.Tyre.RimInside().Value, w.Spec.Brake, w.Spec.BrakeGap)
}

// BrakeWords say how a brake stands to the barrel, and what the estimate
// leaves; only with a brake.
func (w *Wheel) BrakeWords(u units.Unit) string {
	inside := w.Fitted.Tyre.RimInside()
	around := func(d float64) string { return units.Taped.Number((d-w.Spec.Brake)/2, u) }
	return fmt.Sprintf("Brake of %s across: %s %s all round in the barrel, likely %s to %s %s; wished %s. Measure the wheel.",
		lengthText(w.Spec.Brake, u), around(inside.Value), u, around(inside.Low), around(inside.High), u, lengthText(w.Spec.BrakeGap, u))
}

// WheelLine is one length of the answer, mm.
type WheelLine struct {
	Key, Name string // the key ends in _mm
	MM        float64
	Known     bool
	Low, High float64 // likely span of an estimate; both nought for none
	note      string  // what belongs to it, or why it is not known
}

// Estimate tells whether the length is an estimate.
func (l *WheelLine) Estimate() bool { return l.High != 0 }

// Text is the length in a unit, without its name; empty where it is not known.
func (l *WheelLine) Text(u units.Unit) string {
	if !l.Known {
		return ""
	}
	return units.Taped.Number(l.MM, u)
}

// Note is what belongs to the length, or why it is not known.
func (l *WheelLine) Note(u units.Unit) string {
	if !l.Estimate() {
		return l.note
	}
	return "estimate, likely " + units.Guessed.Number(l.Low, u) + " to " + units.Guessed.Length(l.High, u)
}

func exact(key, name string, mm float64, note string) WheelLine {
	return WheelLine{Key: key, Name: name, MM: mm, Known: true, note: note}
}

func estimated(key, name string, e tyre.Estimated) WheelLine {
	return WheelLine{Key: key, Name: name, MM: e.Value, Known: true, Low: e.Low, High: e.High}
}

// WheelPart is a heading and its lines.
type WheelPart struct {
	Name  string
	Lines []WheelLine
}

// Parts are all lengths, under their headings.
func (w *Wheel) Parts() []WheelPart {
	list := []WheelPart{{"Tyre", w.tyreLines()}, {"Rim", w.rimLines()}, {"From the hub face, outboard positive", w.placeLines(0, "_from_hub")}}
	if w.Spec.HasHub {
		list = append(list, WheelPart{"From the car's centre plane, the wheel upright", w.placeLines(w.Spec.Hub, "_from_centre")})
	}
	return list
}

// Find returns the line of that key; nil for none.
func (w *Wheel) Find(key string) *WheelLine {
	for _, p := range w.Parts() {
		for i := range p.Lines {
			if p.Lines[i].Key == key {
				return &p.Lines[i]
			}
		}
	}
	return nil
}

func (w *Wheel) tyreLines() []WheelLine {
	t := w.Fitted.Tyre
	note := ""
	if w.Fitted.WidthIsNominal {
		note = "the width in the code: no rule is known for this rim"
	}
	tread := t.TreadFace()
	e := w.Spec.Loaded
	radius := exact("loaded_radius_mm", "loaded radius", e.Radius, "measured")
	if e.Estimate {
		radius = estimated(radius.Key, radius.Name, tyre.Estimated{Value: e.Radius, Low: e.Low, High: e.High})
	}
	rolling, ok := t.RollingCircumference()
	roll := WheelLine{Key: "rolling_circumference_mm", Name: "rolling circumference", MM: rolling, Known: ok}
	if !ok {
		roll.note = "known for radial tyres only"
	}
	d, estimate := t.DiameterSpan()
	h, _ := t.HeightSpan()
	diameter, wall := exact("overall_diameter_mm", "overall diameter", d.Value, ""), exact("sidewall_height_mm", "side-wall height", h.Value, "")
	if estimate {
		diameter, wall = estimated(diameter.Key, diameter.Name, d), estimated(wall.Key, wall.Name, h)
		if ok {
			share := rolling / d.Value
			roll = estimated(roll.Key, roll.Name, tyre.Estimated{Value: rolling, Low: share * d.Low, High: share * d.High})
		}
	}
	return []WheelLine{
		diameter,
		exact("section_width_mm", "section width on this rim", w.Fitted.SectionWidth, note),
		wall,
		estimated("tread_face_mm", "tread face", tread),
		radius,
		roll,
	}
}

func (w *Wheel) rimLines() []WheelLine {
	t, wheel := w.Fitted.Tyre, w.Fitted.Wheel
	measuring, ok := t.MeasuringRim()
	rim := WheelLine{Key: "measuring_rim_mm", Name: "measuring rim", MM: measuring, Known: ok}
	if !ok {
		rim.note = "no rule is known for a size in inches"
	}
	return []WheelLine{
		exact("rim_diameter_mm", "diameter at the bead", t.RimDiameter(), ""),
		exact("rim_width_mm", "width between the beads", wheel.RimWidth(), w.SeatWords()),
		rim,
		exact("rim_overall_width_mm", "overall width", wheel.OverallWidth(), ""),
		exact("offset_mm", "offset", wheel.Offset(), ""),
		exact("backspacing_mm", "backspacing, over the flange", wheel.Backspacing(), ""),
		exact("bead_backspacing_mm", "backspacing, to the bead seat", wheel.BeadBackspacing(), ""),
		estimated("rim_inside_diameter_mm", "inside diameter of the barrel", t.RimInside()),
	}
}

// placeLines are where rim and tyre stand from the hub face, or with it
// standing at y from the centre plane.
func (w *Wheel) placeLines(y float64, suffix string) []WheelLine {
	inner, outer := w.Fitted.LipsFromHub(w.Spec.Spacer)
	wallIn, wallOut := w.Fitted.ShouldersFromHub(w.Spec.Spacer)
	line := func(key, name string, fromHub float64) WheelLine {
		return exact(key+suffix+"_mm", name, tyre.FromCentrePlane(y, fromHub), "")
	}
	return []WheelLine{
		line("inner_lip", "inner lip of the rim", inner), line("outer_lip", "outer lip of the rim", outer),
		line("inner_side_wall", "inner side wall", wallIn), line("outer_side_wall", "outer side wall", wallOut),
	}
}

// SeatWords say how the rim's width suits the tyre.
func (w *Wheel) SeatWords() string {
	narrow, wide, ok := w.Fitted.Tyre.UsualRims()
	if !ok {
		return ""
	}
	span := units.Guessed.Number(narrow, units.Inch) + " to " + units.Guessed.Length(wide, units.Inch)
	switch w.Seat {
	case tyre.Pinched:
		return "NARROW for this tyre, usual " + span + ": it is pinched"
	case tyre.Stretched:
		return "WIDE for this tyre, usual " + span + ": it is stretched"
	}
	return "usual for this tyre: " + span
}

var seatKeys = map[tyre.Seat]string{tyre.SeatUnknown: "unknown", tyre.SeatUsual: "usual", tyre.Pinched: "pinched", tyre.Stretched: "stretched"}

// percent is a share in per cent.
func percent(share float64) float64 { return share * 100 }

// SpeedometerWords say what the speedometer does; only with a tyre before.
func (w *Wheel) SpeedometerWords() string {
	if !w.HasSpeedometer {
		return w.SpeedometerNote
	}
	off := w.Speedometer / (1 + w.Speedometer) // of the speed driven
	size := units.FormatNumber(percent(math.Abs(off)), 1)
	way := "low"
	switch {
	case size == "0.0":
		return "set for " + w.before() + " the speedometer reads right"
	case off < 0:
		way = "high"
	}
	return fmt.Sprintf("set for %s the speedometer reads %s %% %s", w.before(), size, way)
}

// before is the former tyre in the spelling of the tables.
func (w *Wheel) before() string {
	t, err := tyre.Parse(w.Spec.Before)
	if err != nil {
		panic(fmt.Sprintf("report: %v", err)) // WheelOf has read it
	}
	return t.String()
}

// revPerKilometre are turns to a kilometre; ok for a radial tyre.
func (w *Wheel) revPerKilometre() (turns float64, ok bool) {
	const kilometre = 1e6 // mm
	c, ok := w.Fitted.Tyre.RollingCircumference()
	if !ok || math.Abs(c) == 0 {
		return 0, false
	}
	return kilometre / c, true
}
