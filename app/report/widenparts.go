package report

import (
	"strings"

	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics/widen"
)

// WayVerdict tells how a way does in one line of a comparison.
type WayVerdict uint8

// The verdicts. WayOpen: the change is smaller than its band. WayNone: the measure
// is what the widening is for, or it or its band is not known. WayTurned: the sign
// has changed, so that the wheel pulls the other way; neither better nor worse.
const (
	WayNone WayVerdict = iota
	WaySame
	WayBetter
	WayWorse
	WayOpen
	WayTurned
	wayVerdicts
)

var wayVerdictWords = [wayVerdicts]string{"", "same", "better", "worse", "open", "sign turns"}

// String returns the word of the tables, empty for WayNone.
func (v WayVerdict) String() string { return wayVerdictWords[v] }

// mark is the verdict's in a sheet.
func (v WayVerdict) mark() sheet.Mark {
	return [wayVerdicts]sheet.Mark{WaySame: sheet.Aside, WayBetter: sheet.Good, WayWorse: sheet.Bad, WayOpen: sheet.Unsure, WayTurned: sheet.Warning}[v]
}

// cell is the verdict in a sheet.
func (v WayVerdict) cell() sheet.Cell { return sheet.Words(v.String()).Marked(v.mark()) }

// WidenPart is a heading of a comparison, and its lines as they are printed.
type WidenPart struct {
	Name  string
	Lines []WidenLine
}

// WidenLine is one measure, in the unit of the source. Values have the digits
// that their own bands leave, changes those of the change, which may be finer.
type WidenLine struct {
	Measure         widen.Measure
	Key, Name, Unit string
	Before, Band    string
	Spacers, Arms   WidenWay
}

// WidenWay is a measure after one way, and its change from before. What does
// not exist is empty, or says so.
type WidenWay struct {
	Value, Change, Band string
	Verdict             WayVerdict
}

const notKnown = "not known"

// Parts are all lines under their headings.
func (w *Widened) Parts() []WidenPart {
	var list []WidenPart
	for _, p := range w.parts() {
		part := WidenPart{Name: p.name}
		for i := range p.lines {
			part.Lines = append(part.Lines, w.line(&p.lines[i]))
		}
		list = append(list, part)
	}
	return list
}

func (w *Widened) line(l *widenLine) WidenLine {
	t, u := &w.Table[l.measure], w.Source.Unit
	_, unit := l.amount.inUnit(0, u)
	out := WidenLine{Measure: l.measure, Key: l.key, Name: w.nameOf(l), Unit: unit, Before: notKnown}
	if t.Before.OK {
		out.Before, out.Band = l.amount.withBand(t.Before.Value, t.BeforeOwn, u)
	}
	out.Arms = w.way(l, t.Before, t.Arms, t.ArmsOwn, t.ArmsBand, t.ArmsBetter)
	if out.Spacers = (WidenWay{Value: "\u2013"}); w.Both.HasSpacers {
		out.Spacers = w.way(l, t.Before, t.Spacers, t.SpacersOwn, t.SpacersBand, t.SpacersBetter)
	}
	return out
}

func (w *Widened) way(l *widenLine, before, after, own, band widen.Value, verdict widen.Verdict) WidenWay {
	if !after.OK {
		return WidenWay{Value: notKnown}
	}
	out := WidenWay{Verdict: wayVerdict(before, band, verdict)}
	out.Value, _ = l.amount.withBand(after.Value, own, w.Source.Unit)
	if before.OK {
		out.Change, out.Band = l.amount.withBand(after.Value-before.Value, band, w.Source.Unit)
		out.Change = units.Signed(out.Change)
	}
	return out
}

// withBand prints a value with the digits that its band leaves, and the band.
func (a amount) withBand(value float64, band widen.Value, u units.Unit) (number, half string) {
	v, _ := a.inUnit(value, u)
	if !band.OK {
		const plain = 1 // what is left where nobody knows how many digits are right
		return units.FormatNumber(v, plain), notKnown
	}
	b, _ := a.inUnit(band.Value, u)
	switch {
	case a == aForce || a == aMoment:
		return splitForce(v, b)
	case a == aLength && b == 0: // exact, but nobody builds to more
		return units.Taped.Number(value, u), "± 0"
	}
	return splitBand(v, b)
}

func wayVerdict(before, band widen.Value, verdict widen.Verdict) WayVerdict {
	switch {
	case verdict == widen.NoVerdict || !before.OK || !band.OK:
		return WayNone
	case verdict == widen.Same && band.Value == 0:
		return WaySame
	case verdict == widen.Same:
		return WayOpen
	case verdict == widen.Better:
		return WayBetter
	case verdict == widen.Turned:
		return WayTurned
	}
	return WayWorse
}

// Notes explain the comparison where no command line is: they name no flags.
func (w *Widened) Notes() []string {
	bare := *w
	bare.loading = w.loading.bare()
	return bare.notes()
}

// matters are the measures that matter most to one who widens, in their order;
// the second of each is there where the first is not.
var matters = [][]widen.Measure{{widen.ScrubRadius}, {widen.BrakingPull, widen.BrakingMoment}, {widen.MotionRatio, widen.CamberGain}}

var matterNames = map[widen.Measure]string{widen.ScrubRadius: "scrub radius", widen.BrakingPull: "rim pull while braking", widen.BrakingMoment: "moment while braking",
	widen.MotionRatio: "motion ratio", widen.CamberGain: "camber gain"}

// Sum says in one line what a way that is not ByBoth changes of what matters
// most, as "scrub radius +50.2 mm, …".
func (w *Widened) Sum(way Way) string {
	lines := map[widen.Measure]WidenLine{}
	for _, p := range w.Parts() {
		for _, l := range p.Lines {
			lines[l.Measure] = l
		}
	}
	var parts []string
	for _, list := range matters {
		for _, measure := range list {
			l := lines[measure]
			c := [...]WidenWay{l.Spacers, l.Arms}[way]
			if c.Change == "" {
				continue
			}
			text := matterNames[measure] + " " + c.Change
			if l.Unit != "" {
				text += " " + l.Unit
			}
			switch v := c.Verdict; v {
			case WayOpen:
				text += " (not decidable by tape)"
			case WaySame, WayTurned:
				text += " (" + v.String() + ")"
			}
			parts = append(parts, text)
			break
		}
	}
	return strings.Join(parts, ", ")
}
