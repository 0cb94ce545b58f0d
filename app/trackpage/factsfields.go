package trackpage

import (
	"errors"
	"strings"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics/tyre"
)

func (f *facts) numbers() []*pages.Number { return []*pages.Number{f.rim, f.offset, f.back, f.space} }

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
	if shown, err := units.Parse(units.Taped.Number(mm, f.p.unit()), f.p.unit()); err == nil {
		mm = shown
	}
	to.Set(mm, f.p.unit())
}

// spec reads the fields; the error joins all that is wrong with them.
func (f *facts) spec() (report.WheelSpec, error) {
	s := report.WheelSpecOf(f.p.host.Job(), f.p.host.Variant())
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
	wheel := f.p.host.Shown().Wheel
	wheel.SetTyre(s.Tyre)
	if s.Loaded, s.RadiusFrom = wheel.Loaded(), wheel.LoadedFrom(f.p.unit()); !wheel.LoadedRadius.Given {
		s.Loaded = tyre.LoadedRadius{}
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

// wheel is what the fields say, in the way it was typed.
func (f *facts) wheel(spec *report.WheelSpec) job.Wheel {
	typed := func(n *pages.Number, mm float64, was units.Length) units.Length {
		if was.MM == mm { // as the variant has it, whichever way a field shows that
			return was
		}
		l, err := units.ParseLength(n.Text, f.p.unit())
		if err != nil || l.MM != mm { // computed, not typed
			return units.Length{MM: mm}
		}
		return l
	}
	w := f.p.host.Shown().Wheel
	w.SetTyre(spec.Tyre)
	w.RimWidth, w.Offset, w.Spacer = typed(f.rim, spec.Rim, w.RimWidth), typed(f.offset, spec.Offset, w.Offset), typed(f.space, spec.Spacer, w.Spacer)
	return w
}

// scaledWords say what becomes of a loaded radius that was measured.
func (f *facts) scaledWords(spec *report.WheelSpec) string {
	w := f.wheel(spec)
	if w.RadiusTyre == "" {
		return ""
	}
	return " Its loaded radius is an estimate: " + w.LoadedFrom(f.p.unit()) + "."
}
