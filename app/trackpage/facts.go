package trackpage

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics/tyre"
)

// facts is everything that follows from a tyre and a wheel, beside the measured
// variant's.
type facts struct {
	p                        *Page
	tyre                     *pages.Field
	rim, offset, back, space *pages.Number
	filling                  bool // the fields are filled, not typed
	typed                    bool // something else than the variant's wheel stands in the fields
	byBack                   bool // the backspacing was typed last, and the offset follows it
	unit                     units.Unit
	note, stale, after       *pages.Notice
	grid                     *pages.Grid
	against, scrub           *widget.Label
	use, keep, list, reset   *widget.Button
	plain                    footnote
	picture                  *pages.Picture
	content                  fyne.CanvasObject

	now, measured *report.Wheel // the last that could be worked out; nil for none
	kept          *report.ScrubKept
}

func newFacts(p *Page) *facts {
	f := &facts{p: p, note: pages.NewNotice(), stale: pages.NewNotice(), after: pages.NewNotice(), grid: pages.NewGrid("lrrr"), against: pages.Prose(), scrub: pages.Prose()}
	f.grid.Tight = true
	f.tyre = pages.NewField(130)
	f.rim, f.offset = pages.NewLength("rim width", 100), pages.NewLength("offset", 100)
	f.back, f.space = pages.NewLength("backspacing", 100), pages.NewLength("spacer", 100)
	for _, k := range []*pages.Field{f.tyre, f.rim.Field, f.offset.Field, f.back.Field, f.space.Field} {
		k.Live = true
	}
	f.tyre.OnChanged = func(string) { f.changed(false) }
	f.rim.OnChanged = func(string) { f.changed(f.byBack) }
	f.offset.OnChanged = func(string) { f.changed(false) }
	f.back.OnChanged = func(string) { f.changed(true) }
	f.space.OnChanged = func(string) { f.changed(f.byBack) }
	fields := pages.NewGrid("llllll")
	fields.Tight = true
	fields.Row(pages.Plain("tyre"), f.tyre, pages.Plain("offset"), f.offset.Field, pages.Plain("spacer"), f.space.Field)
	fields.Row(pages.Plain("rim width"), f.rim.Field, pages.Plain("or backspacing"), f.back.Field)
	f.use = widget.NewButton("Use this wheel on the variant", f.useIt)
	f.keep = widget.NewButton("Keep as a variant", f.keepIt)
	f.list = widget.NewButton("To the wheels to be had", f.listIt)
	f.reset = widget.NewButton("Back to the variant's wheel", f.putBack)
	f.picture = pages.NewPicture(f.compose)
	f.plain = newFootnote()
	words := container.NewVBox(fields.Content, f.plain.RichText, f.note.Label, f.stale.Label,
		container.NewHBox(f.use, f.keep, f.list, f.reset), f.after.Label, f.against, f.scrub, f.grid.Content,
		pages.Hint("Design sizes by the rules of UN Regulation 30, from memory; real tyres differ by millimetres, some by 25 mm. Offset is positive when the mounting face stands outboard of the rim's middle; backspacing is over the flange, which counts half an inch (J flanges are 11 to 13 mm). Estimates and usual rims are common practice, no source: measure before cutting."))
	f.content = newWidePage(words, f.picture)
	return f
}

// Name is on the section's button.
func (f *facts) Name() string { return "Wheel and tyre" }

// Object holds the words.
func (f *facts) Object() fyne.CanvasObject { return f.content }

// Beside is nothing: the picture stands in the section's own page.
func (f *facts) Beside() fyne.CanvasObject { return nil }

// Show follows the job.
func (f *facts) Show() {
	unit := f.p.unit()
	f.filling = true
	if !f.typed {
		f.fill()
	} else if f.unit != unit {
		for _, n := range f.numbers() {
			follow(n, unit)
		}
	}
	f.unit, f.filling = unit, false
	f.plain.say(plainNumbers(unit))
	f.work()
}

func (f *facts) numbers() []*pages.Number { return []*pages.Number{f.rim, f.offset, f.back, f.space} }

// follow turns a field's number into another unit. A text that says the same in
// any unit stays, and one that would lose by rounding names its unit instead.
func follow(n *pages.Number, unit units.Unit) {
	text := n.Text
	mm, err := n.Value()
	inMM, errMM := units.Parse(text, units.Millimetre)
	inInch, errIn := units.Parse(text, units.Inch)
	n.Show(unit)
	switch now, errNow := n.Value(); {
	case err != nil:
	case errMM == nil && errIn == nil && inMM == inInch:
		n.SetText(text)
	case errNow != nil || now != mm:
		n.SetText(named(mm))
	}
}

// named writes a length with its unit, in the one that takes fewer digits.
func named(mm float64) string {
	a, b := units.Plain(mm, units.Millimetre)+" mm", units.Plain(mm, units.Inch)+" in"
	if len(b) < len(a) {
		return b
	}
	return a
}

// put shows a length as it was typed where that names its unit.
func put(n *pages.Number, l units.Length, unit units.Unit) {
	n.Set(l.MM, unit)
	if l.Typed != "" {
		n.SetText(l.Typed)
		follow(n, unit)
	}
}

// fill puts the wheel of the variant shown into the fields.
func (f *facts) fill() {
	w, unit := &f.p.host.Shown().Wheel, f.p.unit()
	f.tyre.SetText(w.Tyre)
	put(f.rim, w.RimWidth, unit)
	put(f.offset, w.Offset, unit)
	put(f.space, w.Spacer, unit)
	f.byBack = false
	f.back.Set(0, unit)
	f.followOther()
}

// changed takes a keystroke.
func (f *facts) changed(byBack bool) {
	if f.filling {
		return
	}
	f.typed, f.byBack = true, byBack
	f.after.Say("")
	f.filling = true
	f.followOther()
	f.filling = false
	f.work()
}

// followOther fills the offset from the backspacing, or the other way round.
func (f *facts) followOther() {
	rim, err := f.rim.Value()
	if err != nil {
		return // the notice says so
	}
	wheel, err := tyre.NewWheel(rim, 0)
	if err != nil {
		return
	}
	from, to := f.offset, f.back
	if f.byBack {
		from, to = f.back, f.offset
	}
	mm, err := from.Value()
	if err != nil {
		return
	}
	if f.byBack {
		mm = tyre.OffsetFromBackspacing(rim, mm)
	} else {
		mm += wheel.Backspacing()
	}
	// What follows is shown with the digits of the table.
	if shown, err := units.Parse(units.FormatNumber(units.In(mm, f.p.unit()), decimals(f.p.unit())), f.p.unit()); err == nil {
		mm = shown
	}
	to.Set(mm, f.p.unit())
}

// spec reads the fields; the error joins all that is wrong with them.
func (f *facts) spec() (report.WheelSpec, error) {
	s := report.WheelSpecOf(f.p.host.Job(), f.p.host.Variant())
	own := s.Tyre
	var errs [3]error
	s.Tyre = strings.TrimSpace(f.tyre.Text)
	s.Rim, errs[0] = f.rim.Value()
	s.Spacer, errs[1] = f.space.Value()
	if f.byBack {
		var back float64
		back, errs[2] = f.back.Value()
		s.Offset = tyre.OffsetFromBackspacing(s.Rim, back)
	} else {
		s.Offset, errs[2] = f.offset.Value()
	}
	if !sameTyre(own, s.Tyre) {
		s.LoadedRadius = 0 // it was measured with another tyre
	}
	mark(f.rim.Field, errs[0])
	mark(f.space.Field, errs[1])
	mark(f.back.Field, nil)
	mark(f.offset.Field, nil)
	if f.byBack {
		mark(f.back.Field, errs[2])
	} else {
		mark(f.offset.Field, errs[2])
	}
	return s, errors.Join(errs[:]...)
}

// sameTyre tells whether two codes mean the same size.
func sameTyre(a, b string) bool {
	if a == b {
		return true
	}
	x, errA := tyre.Parse(a)
	y, errB := tyre.Parse(b)
	return errA == nil && errB == nil && x.String() == y.String()
}

// work reckons what follows from the fields. What cannot be read leaves the
// last good answer, and marks it.
func (f *facts) work() {
	defer settle(f.content)
	j := f.p.host.Job()
	measured, err := report.WheelOf(report.WheelSpecOf(j, 0))
	if err != nil {
		f.measured = nil
	} else {
		f.measured = measured
	}
	spec, err := f.spec()
	var w *report.Wheel
	if err == nil {
		w, err = report.WheelOf(spec)
	}
	if err != nil {
		f.note.Wrong("", err)
		f.stale.Say("")
		if f.now != nil {
			s := &f.now.Spec
			f.stale.Say(fmt.Sprintf("Figures and picture are still those of the last wheel that could be read: %s on %s, offset %s.",
				s.Tyre, inches(s.Rim), f.length(s.Offset)))
		}
		f.enable(false)
		return
	}
	f.now = w
	f.note.Say("")
	f.stale.Say("")
	f.kept, err = report.KeepScrub(j, f.p.host.Variant(), spec)
	if err != nil {
		f.kept = nil
		f.note.Wrong("scrub radius: ", err)
	}
	f.enable(true)
	f.write()
}

// inches prints a rim's width as the trade does.
func inches(mm float64) string {
	return pages.Trimmed(units.In(mm, units.Inch), 2) + " in"
}

func (f *facts) length(mm float64) string {
	return pages.ShortLength(mm, f.p.unit()) + " " + f.p.unit().String()
}

func (f *facts) enable(good bool) {
	for _, b := range []*widget.Button{f.use, f.keep, f.list} {
		if good {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	if f.typed {
		f.reset.Enable()
	} else {
		f.reset.Disable()
	}
}

// write shows the answer.
func (f *facts) write() {
	unit := f.p.unit()
	f.against.SetText(f.againstWords(unit))
	text := ""
	if f.kept != nil {
		text = "Keep the scrub radius. " + strings.Join(f.kept.Words(unit), " ")
	}
	f.scrub.SetText(text)
	g := f.grid
	g.Clear()
	g.Head("", "this wheel, "+unit.String(), "measured", "change")
	for _, part := range f.now.Parts() {
		g.Row(pages.Bold(part.Name))
		for i := range part.Lines {
			l := &part.Lines[i]
			other, change := f.besides(l, unit)
			g.Row(pages.Plain(l.Name), pages.Plain(l.Text(unit)), pages.Plain(other), pages.Plain(change))
			if note := l.Note(unit); note != "" {
				g.Row(pages.Quiet("    " + note))
			}
		}
	}
	g.Done()
	f.picture.Redraw()
}

// besides is a length of the measured wheel, and how much more it is on this.
func (f *facts) besides(l *report.WheelLine, unit units.Unit) (other, change string) {
	if f.measured == nil {
		return "", ""
	}
	m := f.measured.Find(l.Key)
	if m == nil || !m.Known || !l.Known {
		return "", ""
	}
	return m.Text(unit), pages.Signed(units.FormatNumber(units.In(l.MM-m.MM, unit), decimals(unit)))
}

// againstWords say how the wheel stands beside the measured one.
func (f *facts) againstWords(unit units.Unit) string {
	lines := []string{}
	first := f.p.host.Job().Variants[0].Name
	switch {
	case f.measured == nil:
		lines = append(lines, "The wheel of “"+first+"” has no size that can be read: there is nothing to set beside this one.")
	default:
		list := f.now.Against(f.measured, unit)
		if len(list) == 0 {
			lines = append(lines, "It stands where the wheel of “"+first+"” stands.")
		} else {
			lines = append(lines, "Beside “"+first+"”: "+strings.Join(list, "; ")+".")
		}
	}
	if f.now.Spec.Before != "" {
		lines = append(lines, "Speedometer: "+f.now.SpeedometerWords()+".")
	}
	switch f.now.Seat {
	case tyre.Pinched, tyre.Stretched:
		lines = append(lines, "▲ Rim "+f.now.SeatWords()+".")
	}
	if f.now.Spec.Brake != 0 {
		mark := "✓ "
		if f.now.BrakeFit() != nil {
			mark = "✕ The brake does not pass. "
		}
		lines = append(lines, mark+f.now.BrakeWords(unit))
	}
	return strings.Join(lines, "\n")
}

// wheel is what the fields say, in the way it was typed.
func (f *facts) wheel(spec *report.WheelSpec) job.Wheel {
	typed := func(n *pages.Number, mm float64) units.Length {
		l, err := units.ParseLength(n.Text, f.p.unit())
		if err != nil || l.MM != mm { // reckoned, not typed
			return units.Length{MM: mm}
		}
		return l
	}
	w := f.p.host.Shown().Wheel
	if spec.LoadedRadius == 0 {
		w.LoadedRadius = job.Optional{}
	}
	w.Tyre = spec.Tyre
	w.RimWidth, w.Offset, w.Spacer = typed(f.rim, spec.Rim), typed(f.offset, spec.Offset), typed(f.space, spec.Spacer)
	return w
}

// droppedWords say what becomes of a loaded radius that was measured.
func (f *facts) droppedWords(spec *report.WheelSpec) string {
	old := f.p.host.Shown().Wheel
	if !old.LoadedRadius.Given || spec.LoadedRadius != 0 {
		return ""
	}
	return " The loaded radius of " + f.length(old.LoadedRadius.MM) + " was measured with " + old.Tyre + ": the estimate stands in its place."
}

// name is the wheel in short.
func (f *facts) name(spec *report.WheelSpec) string {
	return spec.Tyre + " on " + inches(spec.Rim) + ", offset " + f.length(spec.Offset)
}

// useIt puts the wheel on the variant shown.
func (f *facts) useIt() {
	defer settle(f.content)
	spec, err := f.spec()
	if err != nil {
		return // the notice says so
	}
	wheel, dropped, variant := f.wheel(&spec), f.droppedWords(&spec), f.p.host.Variant()
	f.typed = false
	err = f.p.host.Edit("use wheel "+f.name(&spec), func(j *job.Job) { j.Variants[variant].Wheel = wheel })
	if err != nil {
		f.typed = true
		f.after.Wrong("Not used: ", err)
		return
	}
	f.after.Say("“" + f.p.host.Shown().Name + "” stands on this wheel now." + dropped)
}

// keepIt keeps the wheel as a variant of its own.
func (f *facts) keepIt() {
	defer settle(f.content)
	spec, err := f.spec()
	if err != nil {
		return
	}
	from, v := f.p.host.Variant(), f.p.host.Shown()
	kept := v.Proposal(v.Name + ", " + f.name(&spec))
	kept.Wheel, kept.Notes = f.wheel(&spec), "Another wheel on "+v.Name+"."
	dropped := f.droppedWords(&spec)
	f.typed = false
	if f.p.add(f.after, from, kept) {
		f.after.Say("Kept as “" + f.p.host.Shown().Name + "”, which is now shown." + dropped)
	} else {
		f.typed = true
	}
}

// listIt adds the wheel to those of the job that can be had.
func (f *facts) listIt() {
	defer settle(f.content)
	spec, err := f.spec()
	if err != nil {
		return
	}
	w := f.wheel(&spec)
	k := job.WheelChoice{Name: f.p.reach.wheels.freeName(f.name(&spec)), Tyre: w.Tyre, RimWidth: w.RimWidth, Offset: w.Offset, LoadedRadius: w.LoadedRadius}
	if err := f.p.host.Edit("add wheel "+k.Name, func(j *job.Job) { j.Wheels = append(j.Wheels, k) }); err != nil {
		f.after.Wrong("Not added: ", err)
		return
	}
	f.after.Say("“" + k.Name + "” can be had now: Find a way looks at it.")
}

func (f *facts) putBack() {
	f.typed = false
	f.after.Say("")
	f.Show()
}
