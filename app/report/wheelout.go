package report

import (
	"fmt"
	"math"
	"strings"

	"armscribe/app/clearance"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics/tyre"
)

// WheelBeside is what a wheel is set beside in a window.
type WheelBeside struct {
	Measured *Wheel              // nil where its wheel has no size
	First    string              // the measured variant's name
	Gaps     clearance.Judgement // of the wheel on the variant shown
	Kept     *ScrubKept          // nil where KeptErr says why
	KeptErr  error
}

// Sheet is the answer, for a terminal in mm and inches; a window sets it beside the
// measured wheel.
func (w *Wheel) Sheet(unit units.Unit, beside *WheelBeside) *sheet.Sheet {
	title := fmt.Sprintf("%s on a rim of %s, offset %s", w.Fitted.Tyre, units.Rounded.Length(w.Spec.Rim, units.Inch), signedLength(w.Spec.Offset, units.Millimetre))
	if w.Spec.Spacer != 0 {
		title += ", spacer " + lengthText(w.Spec.Spacer, units.Millimetre)
	}
	items := append(w.file(), w.table(unit, beside))
	if beside != nil {
		items = append([]sheet.Item{w.sentences(unit, beside)}, items...)
	}
	return &sheet.Sheet{Title: title, Unit: unit, Items: items, Notes: w.notes, Caution: Caution}
}

func (w *Wheel) table(unit units.Unit, beside *WheelBeside) *sheet.Table {
	t := &sheet.Table{On: sheet.OnScreens, WideHeadings: true, Columns: []sheet.Column{
		{Role: sheet.Name},
		{Title: "mm", On: sheet.OnText},
		{Title: "in", On: sheet.OnText},
		{Title: "this wheel", UnitIn: true, On: sheet.OnWindow},
		{Title: "measured", On: sheet.OnWindow},
		{Title: "change", On: sheet.OnWindow},
		{Role: sheet.Text, Under: true},
	}}
	for _, p := range w.Parts() {
		g := sheet.Group{Name: p.Name}
		for i := range p.Lines {
			l := &p.Lines[i]
			row := sheet.Row{sheet.Words(l.Name), sheet.Words(l.Text(units.Millimetre)), sheet.Words(l.Text(units.Inch)), l.cell(), {}, {}, sheet.Words(l.Note(unit)).Marked(sheet.Aside)}
			if beside != nil && beside.Measured != nil {
				if m := beside.Measured.Find(l.Key); m != nil && m.Known && l.Known {
					row[4], row[5] = m.cell().Marked(sheet.Aside), change(l.MM-m.MM)
				}
			}
			g.Rows = append(g.Rows, row)
		}
		t.Groups = append(t.Groups, g)
	}
	return t
}

func (l *WheelLine) cell() sheet.Cell { return sheet.Number(sheet.Taped, l.MM).If(l.Known) }

// change is a difference; what no tape shows is none.
func change(mm float64) sheet.Cell {
	if math.Abs(mm) < likeWheel {
		mm = 0
	}
	return sheet.Number(sheet.Taped, mm).Signed()
}

// sentences say how the wheel stands beside the measured one.
func (w *Wheel) sentences(unit units.Unit, b *WheelBeside) sheet.Prose {
	p := sheet.Prose{On: sheet.OnWindow}
	say := func(m sheet.Mark, text string) { p.Lines = append(p.Lines, sheet.Line{Mark: m, Text: text}) }
	if b.Measured == nil {
		say(sheet.NoMark, "The wheel of “"+b.First+"” has no size that can be read: there is nothing to set beside this one.")
	} else if list := w.Against(b.Measured, unit); len(list) == 0 {
		say(sheet.NoMark, "It is as large as the wheel of “"+b.First+"”.")
	} else {
		say(sheet.NoMark, "Beside “"+b.First+"”: "+strings.Join(list, "; ")+".")
	}
	say(sheet.NoMark, upperFirst(GapWords(&b.Gaps, unit))+".")
	if w.Spec.Before != "" {
		say(sheet.NoMark, upperFirst(w.SpeedometerWords())+".")
	}
	if w.Seat == tyre.Pinched || w.Seat == tyre.Stretched {
		say(sheet.Warning, "Rim "+w.SeatWords()+".")
	}
	switch {
	case w.Spec.Brake == 0:
	case w.BrakeFit() != nil:
		say(sheet.Bad, "The brake does not pass. "+w.BrakeWords(unit))
	default:
		say(sheet.Good, w.BrakeWords(unit))
	}
	if b.KeptErr != nil {
		say(sheet.Bad, "Scrub radius: "+b.KeptErr.Error())
	} else {
		say(sheet.NoMark, strings.Join(b.Kept.Words(unit), " "))
	}
	return p
}

// notes explain the answer; a window's sentences say the rest.
func (w *Wheel) notes(unit units.Unit) []sheet.Note {
	list := sheet.Notes("Design sizes by the rules of UN Regulation 30, from memory; real tyres differ from them, some by "+units.Guessed.Length(25, unit)+". Measure before cutting.",
		"Offset is positive when the mounting face stands outboard of the rim's middle. A flange counts half an inch; J flanges are "+units.Taped.Short(11, unit)+" to "+units.Taped.Short(13, unit)+" "+unit.String()+".",
		"Usual rims and estimates are common practice, no source; the tyre maker's list decides which rims are allowed.")
	add := func(text string) {
		list = append(list, sheet.Note{On: sheet.OnText | sheet.InFile, Text: text})
	}
	if w.Spec.Before != "" {
		add(upperFirst(w.SpeedometerWords()) + ".")
	}
	if w.Spec.Brake != 0 {
		add(w.BrakeWords(unit))
	}
	return list
}

// file are the numbers for files.
func (w *Wheel) file() []sheet.Item {
	var list []sheet.Item
	add := func(key string, c sheet.Cell) { list = append(list, sheet.Field{Key: key, Cell: c}) }
	length := func(mm float64) sheet.Cell { return sheet.Number(sheet.Length, mm) }
	add("tyre", sheet.Words(w.Fitted.Tyre.String()))
	add("spacer_mm", length(w.Spec.Spacer))
	for _, p := range w.Parts() {
		for _, l := range p.Lines {
			add(l.Key, length(l.MM).If(l.Known))
			if l.Estimate() {
				stem := strings.TrimSuffix(l.Key, "_mm")
				add(stem+"_low_mm", length(l.Low))
				add(stem+"_high_mm", length(l.High))
			}
		}
	}
	turns, ok := w.revPerKilometre()
	add("turns_per_km", sheet.Number(sheet.Plain, turns).If(ok))
	add("section_width_is_nominal", sheet.Flag(w.Fitted.WidthIsNominal))
	narrow, wide, ok := w.Fitted.Tyre.UsualRims()
	add("usual_rim_min_mm", length(narrow).If(ok))
	add("usual_rim_max_mm", length(wide).If(ok))
	add("rim_is", sheet.Words(seatKeys[w.Seat]))
	add("speedometer_change_percent", sheet.Number(sheet.Percent, w.Speedometer).If(w.HasSpeedometer))
	return list
}
