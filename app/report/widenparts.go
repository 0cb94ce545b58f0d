package report

import (
	"strings"

	"armscribe/app/sheet"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics/widen"
)

// trendMarks are the trends' in a sheet.
var trendMarks = [targets.TrendCount]sheet.Mark{targets.Kept: sheet.Aside, targets.AsGood: sheet.Aside, targets.Better: sheet.Good, targets.Worse: sheet.Bad,
	targets.Open: sheet.Unsure, targets.Turned: sheet.Warning, targets.Changed: sheet.Aside}

// trendCell is a trend in a sheet.
func trendCell(v targets.Trend) sheet.Cell { return sheet.Words(v.String()).Marked(trendMarks[v]) }

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
	Verdict             targets.Trend
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
	out.Arms = w.way(l, t.Arms, t.ArmsOwn, t.ArmsBand)
	if out.Spacers = (WidenWay{Value: "\u2013"}); w.Both.HasSpacers {
		out.Spacers = w.way(l, t.Spacers, t.SpacersOwn, t.SpacersBand)
	}
	return out
}

func (w *Widened) way(l *widenLine, after, own, band widen.Value) WidenWay {
	before := w.Table[l.measure].Before
	if !after.OK {
		return WidenWay{Value: notKnown}
	}
	out := WidenWay{Verdict: w.judge(l, after, own, band)}
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

// judge says how a measure does by one way.
func (w *Widened) judge(l *widenLine, after, own, band widen.Value) targets.Trend {
	t := &w.Table[l.measure]
	if !t.Before.OK || !after.OK {
		return targets.NoTrend
	}
	c := targets.Change{Before: t.Before.Value, After: after.Value, Band: band.Value, HasBand: band.OK, Sense: l.sense, Rounding: l.amount.rounding(), Alike: alike}
	if l.pulls && t.BeforeOwn.OK && own.OK {
		c.Turned = targets.SignTurns(t.Before.Value, t.BeforeOwn.Value, after.Value, own.Value)
	}
	if aim, ok := w.aims[l.measure]; ok {
		c.Aim, c.HasAim = aim, true
	}
	return targets.Judge(c)
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
			parts = append(parts, matterNames[measure]+" "+c.words(l.Unit))
			break
		}
	}
	return strings.Join(parts, ", ")
}

// words say a change in a sentence.
func (c *WidenWay) words(unit string) string {
	with := func(text string) string {
		if unit == "" {
			return text
		}
		return text + " " + unit
	}
	switch {
	case c.Verdict == targets.Kept && c.Band != "" && c.Band != "± 0":
		return with("kept, as built " + c.Band)
	case c.Verdict == targets.Kept:
		return "kept"
	case c.Verdict == targets.Open:
		return with(c.Change) + " (not decidable by tape)"
	case c.Verdict == targets.Turned:
		return with(c.Change) + " (" + c.Verdict.String() + ")"
	}
	return with(c.Change)
}
