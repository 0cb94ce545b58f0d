package report

import (
	"armscribe/kinematics/widen"
)

// WayVerdict tells how a way does in one line of a comparison.
type WayVerdict uint8

// The verdicts. WayOpen: the change is smaller than its band, or no band is
// known. WayNone: the measure is what the widening is for, or is not known.
const (
	WayNone WayVerdict = iota
	WaySame
	WayBetter
	WayWorse
	WayOpen
	wayVerdicts
)

var wayVerdictWords = [wayVerdicts]string{"", "same", "better", "worse", "open"}

// String returns the word of the tables, empty for WayNone.
func (v WayVerdict) String() string { return wayVerdictWords[v] }

// WidenPart is a heading of a comparison, and its lines as they are printed.
type WidenPart struct {
	Name  string
	Lines []WidenLine
}

// WidenLine is one measure, in the unit of the source, with the digits that
// the bands leave.
type WidenLine struct {
	Measure         widen.Measure
	Key, Name, Unit string
	Before          string
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

// Count is how many lines get a verdict by a way that is not ByBoth.
func (w *Widened) Count(way Way, v WayVerdict) (n int) {
	for _, p := range w.Parts() {
		for i := range p.Lines {
			if [...]WidenWay{p.Lines[i].Spacers, p.Lines[i].Arms}[way].Verdict == v {
				n++
			}
		}
	}
	return n
}

func (w *Widened) line(l *widenLine) WidenLine {
	t, u := &w.Table[l.measure], w.Source.Unit
	_, unit := l.amount.inUnit(0, u)
	out := WidenLine{Measure: l.measure, Key: l.key, Name: w.nameOf(l), Unit: unit, Before: notKnown}
	band, _ := l.amount.inUnit(max(t.SpacersBand.Value, t.ArmsBand.Value), u)
	if t.Before.OK {
		v, _ := l.amount.inUnit(t.Before.Value, u)
		out.Before, _ = splitBand(v, band)
	}
	out.Spacers = w.way(l, t.Before, t.Spacers, t.SpacersBand, t.SpacersBetter)
	out.Arms = w.way(l, t.Before, t.Arms, t.ArmsBand, t.ArmsBetter)
	return out
}

func (w *Widened) way(l *widenLine, before, after, band widen.Value, verdict widen.Verdict) WidenWay {
	if !after.OK {
		return WidenWay{Value: notKnown}
	}
	in := func(v float64) float64 { v, _ = l.amount.inUnit(v, w.Source.Unit); return v }
	half := 0.0
	if band.OK {
		half = in(band.Value)
	}
	out := WidenWay{Verdict: wayVerdict(before, band, verdict)}
	out.Value, _ = splitBand(in(after.Value), half)
	if !before.OK {
		return out
	}
	change, halfText := splitBand(in(after.Value-before.Value), half)
	out.Change, out.Band = withSign(change), halfText
	if !band.OK {
		out.Band = notKnown
	}
	return out
}

func wayVerdict(before, band widen.Value, verdict widen.Verdict) WayVerdict {
	switch {
	case verdict == widen.NoVerdict || !before.OK:
		return WayNone
	case verdict == widen.Same && band.OK && band.Value == 0:
		return WaySame
	case verdict == widen.Same || !band.OK:
		return WayOpen
	case verdict == widen.Better:
		return WayBetter
	}
	return WayWorse
}

// Notes explain the comparison where no command line is: they name no flags.
func (w *Widened) Notes() []string {
	bare := *w
	bare.loading = w.loading.bare()
	return bare.notes()
}
