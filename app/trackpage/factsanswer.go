package trackpage

import (
	"strings"

	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics/tyre"
)

// write shows the answer.
func (f *facts) write() {
	defer f.picture.Redraw()
	g, a, unit := f.grid, f.answer, f.p.unit()
	g.Clear()
	if a == nil {
		g.Done()
		tell(f.against, "")
		tell(f.scrub, "")
		return
	}
	f.tell(f.name(&a.now.Spec))
	tell(f.against, a.againstWords(unit))
	if a.keptErr != nil {
		tell(f.scrub, "✕ Scrub radius: "+a.keptErr.Error())
	} else {
		tell(f.scrub, strings.Join(a.kept.Words(unit), " "))
	}
	g.Head("", "this wheel, "+unit.String(), "measured", "change")
	for _, part := range a.now.Parts() {
		g.Row(pages.Bold(part.Name))
		for i := range part.Lines {
			l := &part.Lines[i]
			other, change := a.besides(l, unit)
			g.Row(pages.Plain(l.Name), pages.Plain(l.Text(unit)), pages.Plain(other), pages.Plain(change))
			if note := l.Note(unit); note != "" {
				g.Row(pages.Quiet("    " + note))
			}
		}
	}
	g.Done()
}

// besides is a length of the measured wheel, and how much more it is on this.
func (a *factsAnswer) besides(l *report.WheelLine, unit units.Unit) (other, change string) {
	if a.measured == nil {
		return "", ""
	}
	m := a.measured.Find(l.Key)
	if m == nil || !m.Known || !l.Known {
		return "", ""
	}
	return m.Text(unit), units.Signed(units.Taped.Number(l.MM-m.MM, unit))
}

// againstWords say how the wheel stands beside the measured one.
func (a *factsAnswer) againstWords(unit units.Unit) string {
	lines, first := []string{}, a.first
	switch {
	case a.measured == nil:
		lines = append(lines, "The wheel of “"+first+"” has no size that can be read: there is nothing to set beside this one.")
	default:
		list := a.now.Against(a.measured, unit)
		if len(list) == 0 {
			lines = append(lines, "It is as large as the wheel of “"+first+"”.")
		} else {
			lines = append(lines, "Beside “"+first+"”: "+strings.Join(list, "; ")+".")
		}
	}
	lines = append(lines, pages.UpperFirst(report.GapWords(&a.gaps, unit))+".")
	if a.now.Spec.Before != "" {
		lines = append(lines, pages.UpperFirst(a.now.SpeedometerWords())+".")
	}
	switch a.now.Seat {
	case tyre.Pinched, tyre.Stretched:
		lines = append(lines, "▲ Rim "+a.now.SeatWords()+".")
	}
	if a.now.Spec.Brake != 0 {
		mark := "✓ "
		if a.now.BrakeFit() != nil {
			mark = "✕ The brake does not pass. "
		}
		lines = append(lines, mark+a.now.BrakeWords(unit))
	}
	return strings.Join(lines, "\n")
}

// inches prints a rim's width as the trade does.
func inches(mm float64) string {
	return units.Trimmed(units.In(mm, units.Inch), 2) + " in"
}

// name is the wheel in short.
func (f *facts) name(spec *report.WheelSpec) string {
	return spec.Tyre + " on " + inches(spec.Rim) + ", offset " + f.p.short(spec.Offset)
}
