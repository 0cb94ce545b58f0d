package report

import (
	"strings"

	"armscribe/app/figures"
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

// WidenPart is a heading of a comparison, and its lines.
type WidenPart struct {
	Name  string
	Lines []WidenLine
}

// WidenLine is one measure. Values have the digits that their own bands leave,
// changes those of the change, which may be finer.
type WidenLine struct {
	Measure       widen.Measure
	Key, Name     string
	Before        sheet.Cell
	Spacers, Arms WidenWay

	kind   sheet.Kind
	wished bool // neither better nor worse
}

// WidenWay is a measure after one way, and its change from before. What does
// not exist is empty, or says so.
type WidenWay struct {
	Value, Change sheet.Cell
	Verdict       targets.Trend
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
	t := &w.Table[l.measure]
	out := WidenLine{Measure: l.measure, Key: l.key, Name: w.nameOf(l), kind: l.kind, wished: l.sense == figures.Wished}
	out.Before = out.cell(t.Before, t.BeforeOwn)
	out.Arms = w.way(l, &out, t.Arms, t.ArmsOwn, t.ArmsBand)
	if out.Spacers = (WidenWay{Value: sheet.Missing(out.kind, "\u2013")}); w.Both.HasSpacers {
		out.Spacers = w.way(l, &out, t.Spacers, t.SpacersOwn, t.SpacersBand)
	}
	return out
}

func (l *WidenLine) cell(v, band widen.Value) sheet.Cell {
	if !v.OK {
		return sheet.Missing(l.kind, notKnown)
	}
	return sheet.BandedIf(l.kind, v.Value, band.Value, band.OK)
}

func (w *Widened) way(l *widenLine, to *WidenLine, after, own, band widen.Value) WidenWay {
	before := w.Table[l.measure].Before
	out := WidenWay{Value: to.cell(after, own), Verdict: w.judge(l, after, own, band)}
	if after.OK && before.OK {
		out.Change = to.cell(widen.Value{Value: after.Value - before.Value, OK: true}, band).Signed()
	}
	return out
}

// judge says how a measure does by one way.
func (w *Widened) judge(l *widenLine, after, own, band widen.Value) targets.Trend {
	t := &w.Table[l.measure]
	if !t.Before.OK || !after.OK {
		return targets.NoTrend
	}
	c := targets.Change{Before: t.Before.Value, After: after.Value, Band: band.Value, HasBand: band.OK, Sense: l.sense, Rounding: l.kind.Rounding(), Alike: alike}
	if l.pulls && t.BeforeOwn.OK && own.OK {
		c.Turned = targets.SignTurns(t.Before.Value, t.BeforeOwn.Value, after.Value, own.Value)
	}
	if aim, ok := w.aims[l.measure]; ok {
		c.Target, c.HasTarget = aim, true
	}
	return targets.Judge(c)
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
			if c.Change.Empty() {
				continue
			}
			parts = append(parts, matterNames[measure]+" "+c.words(w.Source.Unit))
			break
		}
	}
	return strings.Join(parts, ", ")
}

// words say a change in a sentence.
func (c *WidenWay) words(u units.Unit) string {
	value, half := c.Change.Value(u), c.Change.Half(u)
	switch {
	case c.Verdict == targets.Kept && half != "" && half != "± 0":
		return strings.TrimSpace("kept, as built " + half + " " + c.Change.Unit(u))
	case c.Verdict == targets.Kept:
		return "kept"
	case c.Verdict == targets.Open:
		return value + " (not decidable by tape)"
	case c.Verdict == targets.Turned:
		return value + " (" + c.Verdict.String() + ")"
	}
	return value
}
