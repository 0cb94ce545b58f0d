package report

import (
	"fmt"
	"strings"

	"armscribe/app/units"
)

// Table prints the wheel for a person, in mm and inches.
func (w *Wheel) Table() string {
	head := fmt.Sprintf("%s on a rim of %s, offset %s", w.Fitted.Tyre, units.Rounded.Length(w.Spec.Rim, units.Inch), signedLength(w.Spec.Offset, units.Millimetre))
	if w.Spec.Spacer != 0 {
		head += ", spacer " + lengthText(w.Spec.Spacer, units.Millimetre)
	}
	g := grid{columns: []align{left, point, point, left}}
	g.row("", "mm", "in", "")
	for _, p := range w.Parts() {
		g.row(p.Name, "", "", "")
		for _, l := range p.Lines {
			g.row(l.cells()...)
		}
	}
	return head + "\n\n" + g.String() + "\n" + foot(w.notes())
}

func (l *WheelLine) cells() []string {
	return []string{"  " + l.Name, l.Text(units.Millimetre), l.Text(units.Inch), l.Note(units.Millimetre)}
}

// notes explain the answer.
func (w *Wheel) notes() []string {
	list := []string{"Design sizes by the rules of UN Regulation 30, from memory; real tyres differ by millimetres, some by 25 mm. Measure before cutting.",
		"Offset is positive when the mounting face stands outboard of the rim's middle. A flange counts half an inch; J flanges are 11 to 13 mm.",
		"Usual rims and estimates are common practice, no source; the tyre maker's list decides which rims are allowed."}
	if w.Spec.Before != "" {
		list = append(list, upperFirst(w.SpeedometerWords())+".")
	}
	if w.Spec.Brake != 0 {
		list = append(list, w.BrakeWords(units.Millimetre))
	}
	return list
}

// JSON prints the wheel for a program, in mm.
func (w *Wheel) JSON() string {
	var b strings.Builder
	b.WriteString("{\n")
	field := func(key string, v any) { fmt.Fprintf(&b, "  %q: %s,\n", key, strings.TrimSuffix(encode(v), "\n")) }
	field("tyre", w.Fitted.Tyre.String())
	field("spacer_mm", number12(w.Spec.Spacer))
	for _, p := range w.Parts() {
		for _, l := range p.Lines {
			field(l.Key, orNull(l.MM, l.Known))
			if l.Estimate() {
				stem := strings.TrimSuffix(l.Key, "_mm")
				field(stem+"_low_mm", number12(l.Low))
				field(stem+"_high_mm", number12(l.High))
			}
		}
	}
	turns, ok := w.revPerKilometre()
	field("turns_per_km", orNull(turns, ok))
	field("section_width_is_nominal", w.Fitted.WidthIsNominal)
	narrow, wide, ok := w.Fitted.Tyre.UsualRims()
	field("usual_rim_min_mm", orNull(narrow, ok))
	field("usual_rim_max_mm", orNull(wide, ok))
	field("rim_is", seatKeys[w.Seat])
	field("speedometer_change_percent", orNull(percent(w.Speedometer), w.HasSpeedometer))
	notes := strings.ReplaceAll(strings.TrimSuffix(encode(w.notes()), "\n"), "\n", "\n  ")
	fmt.Fprintf(&b, "  \"notes\": %s,\n  \"caution\": %s}\n", notes, encode(Caution))
	return b.String()
}
