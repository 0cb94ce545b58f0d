package report

import (
	"strings"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// Table prints the readings for a person.
func (r *Readings) Table() string {
	g := grid{columns: []align{left, point, left, left, left, left}}
	g.row("", "value", "95 % band", "unit", "positive when", "")
	last := noGroup
	for i := range r.Lines {
		l := &r.Lines[i]
		if !r.shown(l) {
			continue
		}
		if l.group != last {
			g.row(l.group.String())
			last = l.group
		}
		g.row(r.cells(l)...)
	}
	return r.head() + "\n" + g.String() + "\n" + foot(notes(&r.Source, r.Position, r.Lines))
}

// shown leaves out of the table what it would only say twice, or what symmetry
// makes nought: slopes here when they are those at rest, the place of the roll
// centre in the centre plane.
func (r *Readings) shown(l *Line) bool {
	if l.group == hereGroup {
		return !r.Position.atRest()
	}
	return l.Key != kinematics.RollCentreY.String()
}

func (r *Readings) head() string {
	s := &r.Source
	return oneLine(s.Job) + ": " + oneLine(s.Variant) + "\n" +
		"travel " + signedLength(r.Position.Travel, s.Unit) + ", rack " + signedLength(r.Position.Rack, s.Unit) +
		", points measured within ±" + s.within() + "\n"
}

func (r *Readings) cells(l *Line) []string {
	name, positive := "  "+l.Name, l.Positive
	if !l.signed() {
		positive = ""
	}
	_, unit := l.inUnit(0, r.Source.Unit)
	number, half := l.print(&r.Source)
	return []string{name, number, half, unit, positive, l.marks(r.Source.Unit)}
}

// print gives the value and its band as the table shows them.
func (l *Line) print(s *Source) (number, half string) {
	if l.Far != kinematics.Near {
		return l.Far.String(), ""
	}
	if !l.Known {
		return l.Missing, ""
	}
	if l.noBand {
		return units.Taped.Number(l.Value, s.Unit), ""
	}
	if !l.HasBand {
		number, _ = splitBand(l.Kind, l.Value, 0, s.Unit)
		return number, "not known"
	}
	if number, half = splitBand(l.Kind, l.Value, l.Band, s.Unit); l.Needs != "" {
		half = l.Needs
	}
	return number, half
}

// remarks are what else belongs to the value.
func (l *Line) remarks(unit units.Unit) []string {
	var list []string
	if l.refer.words != "" {
		list = append(list, l.refer.text(unit))
	}
	if text := l.farLimits(unit); text != "" {
		list = append(list, text)
	}
	if l.Binds != kinematics.NoLink {
		list = append(list, l.Binds.String()+" binds")
	}
	return list
}

// marks are the words behind a line.
func (l *Line) marks(unit units.Unit) string {
	list := l.remarks(unit)
	if len(l.Assumed) > 0 {
		list = append(list, l.assumedMark())
	}
	if l.SignOpen && l.Needs == "" {
		list = append(list, "sign open")
	}
	if l.Estimate {
		_, spread := splitBand(l.Kind, 0, l.Spread, unit)
		list = append(list, "estimate ±"+strings.TrimPrefix(spread, "± "))
	}
	return strings.Join(list, ", ")
}

// foot is the end of every table: notes and the caution.
func foot(notes []string) string {
	return strings.Join(append(notes, Caution), "\n") + "\n"
}
