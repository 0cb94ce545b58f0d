package report

import (
	"fmt"
	"math"
	"strings"

	"armscribe/app/car"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// Sheet is the answer: both ways beside the corner as it is.
func (w *Widened) Sheet() *sheet.Sheet {
	limit := w.limitFile()
	below := []sheet.Item{w.table(), limit, w.Clear[BySpacers].file("clearance.spacers"), w.Clear[ByArms].file("clearance.arms"), w.loading.file()}
	out := w.Source.sheet(car.OnRoom|car.OnSpring, "each side "+w.direction()+" by "+w.size()+", two ways", w.notes)
	out.Items = append([]sheet.Item{sheet.Field{Key: "by_mm", Cell: sheet.Number(sheet.Chosen, w.Spec.By)}}, out.Items...)
	out.Items = append(out.Items, w.sums())
	out.Items = append(append(append(out.Items, w.words(sheet.OnWindow)...), below...), w.words(sheet.OnText)...)
	return out
}

func (w *Widened) direction() string {
	if w.Spec.By < 0 {
		return "narrower"
	}
	return "wider"
}

// size is by how much, without a sign.
func (w *Widened) size() string { return lengthText(math.Abs(w.Spec.By), w.Source.Unit) }

// Asked says what the answer is to.
func (w *Widened) Asked() string {
	return "“" + oneLine(w.Source.Variant) + "”, " + w.direction() + " a side by " + w.size()
}

// sums say in a line each what a way changes of what matters most.
func (w *Widened) sums() sheet.Prose {
	p := sheet.Prose{On: sheet.OnWindow, Lines: []sheet.Line{{Text: w.Asked() + ", points within ±" + w.Source.within() + "."}}}
	for _, way := range w.Ways() {
		p.Lines = append(p.Lines, sheet.Line{Text: upperFirst(w.WayName(way)) + ": " + w.Sum(way) + "."})
	}
	return p
}

// words are the sentences of the answer, which a window shows over the table.
func (w *Widened) words(on sheet.Faces) []sheet.Item {
	list := []sheet.Prose{w.clearance()}
	if words := w.NoSpacersWords(); words != "" {
		list = append([]sheet.Prose{{Lines: []sheet.Line{{Text: words}}}}, list...)
	}
	if w.Spec.HasScrubMax {
		list = append(list, w.limitWords())
	}
	items := make([]sheet.Item, len(list))
	for i := range list {
		list[i].On = on
		items[i] = list[i]
	}
	return items
}

// table sets every measure by both ways beside what it is.
func (w *Widened) table() *sheet.Table {
	t := &sheet.Table{Key: "measures", Columns: []sheet.Column{
		{Key: "key", On: sheet.InFile},
		{Key: "name", On: sheet.InFile},
		{Role: sheet.Name, On: sheet.OnScreens},
		{Title: "unit", Role: sheet.Text, Key: "unit"},
		{Title: "value", Band: "95 % band", Key: "as_it_is", BandKey: "as_it_is_band_95"},
	}, Over: []sheet.Over{{Column: 4, Title: "as it is"}}}
	for i, key := range []string{"spacers", "arms"} {
		t.Over = append(t.Over, sheet.Over{Column: len(t.Columns), Title: w.WayName(Way(i))})
		t.Columns = append(t.Columns, sheet.Column{Title: "value", Key: key + ".value", BandKey: key + ".band_95"},
			sheet.Column{Title: "change", Band: "95 % band", Key: key + ".change", BandKey: key + ".change_band_95"},
			sheet.Column{Key: key + ".verdict", On: sheet.InFile}, sheet.Column{Role: sheet.Text, On: sheet.OnScreens})
	}
	for _, p := range w.Parts() {
		g := sheet.Group{Name: p.Name}
		for i := range p.Lines {
			l := &p.Lines[i]
			row := sheet.Row{sheet.Words(l.Key), sheet.Words(p.Name + ": " + l.Name), sheet.Words(l.Name), sheet.UnitOf(l.kind), l.Before}
			row = append(row, l.cells(&l.Spacers, w.Both.HasSpacers)...)
			g.Rows = append(g.Rows, append(row, l.cells(&l.Arms, true)...))
		}
		t.Groups = append(t.Groups, g)
	}
	return t
}

func (l *WidenLine) cells(way *WidenWay, possible bool) sheet.Row {
	word := way.Verdict.String()
	switch {
	case !possible:
		word = notPossible
	case l.wished:
		word = "wished"
	case word == "":
		word = notKnown
	}
	return sheet.Row{way.Value, way.Change, sheet.Words(word), trendCell(way.Verdict)}
}

const notPossible = "not possible"

// limitWords say how the scrub radius stands to its limit, the wish first.
func (w *Widened) limitWords() sheet.Prose {
	u := w.Source.Unit
	p := sheet.Prose{Title: fmt.Sprintf("Scrub radius of at most %s, either way", lengthText(w.Spec.ScrubMax, u))}
	say := func(m sheet.Mark, format string, args ...any) {
		p.Lines = append(p.Lines, sheet.Line{Mark: m, Text: fmt.Sprintf(format, args...)})
	}
	scrub := func(l *ScrubLimit) string { return sheet.Banded(sheet.Length, l.Value, l.Band).Phrase(u) }
	for i := range w.Limits {
		l, name := &w.Limits[i], w.WayName(Way(i))
		switch {
		case !w.Has(Way(i)):
			say(sheet.NoMark, "%s: %s", name, notPossible)
		case l.Verdict == LimitKept:
			say(sheet.Good, "%s: %s, within the limit", name, scrub(l))
		case l.Verdict == LimitPassed:
			say(sheet.Bad, "%s: %s, OVER the limit", name, scrub(l))
		default:
			say(sheet.Unsure, "%s: %s, not decidable: the band spans the limit", name, scrub(l))
		}
	}
	switch m := &w.Mixed; {
	case w.HasMixed:
		text := fmt.Sprintf("both together, least change of the arms: spacer of %s altogether, arms %s; scrub radius %s",
			withUnit(lengthCell(m.Spacer, u), u), withUnit(moveCell(m.Arms, u), u), scrub(&ScrubLimit{Value: m.ScrubRadius, Band: w.MixedLimit.Band}))
		if w.MixedLimit.Verdict == LimitOpen {
			text += ", the band spans the limit"
		}
		say(sheet.NoMark, "%s", text)
	case w.Spec.By >= 0 || w.Source.Corner.Wheel.Spacer > 0:
		say(sheet.Bad, "both together: this wheel does not reach the track within the limit; another offset may")
	}
	return p
}

// limitFile is what limitWords say, for files.
func (w *Widened) limitFile() sheet.Item {
	if !w.Spec.HasScrubMax {
		return sheet.Field{Key: "scrub_limit", Cell: sheet.Cell{}.If(false)}
	}
	o := sheet.Object{Key: "scrub_limit", Fields: []sheet.Field{{Key: "max_mm", Cell: sheet.Number(sheet.Length, w.Spec.ScrubMax)}}}
	for i, key := range []string{"spacers", "arms"} {
		l, has := &w.Limits[i], w.Has(Way(i))
		word := limitWord[l.Verdict]
		if !has {
			word = notPossible
		}
		o.Fields = append(o.Fields, sheet.Field{Key: key + ".scrub_radius_mm", BandKey: key + ".band_95", Cell: sheet.Banded(sheet.Length, l.Value, l.Band).If(has)},
			sheet.Field{Key: key + ".verdict", Cell: sheet.Words(word)})
	}
	if !w.HasMixed {
		o.Fields = append(o.Fields, sheet.Field{Key: "both_together", Cell: sheet.Cell{}.If(false)})
		return o
	}
	for _, m := range []struct {
		key string
		mm  float64
	}{{"spacer_mm", w.Mixed.Spacer}, {"arms_mm", w.Mixed.Arms}, {"scrub_radius_mm", w.Mixed.ScrubRadius}} {
		o.Fields = append(o.Fields, sheet.Field{Key: "both_together." + m.key, Cell: sheet.Number(sheet.Length, m.mm)})
	}
	return o
}

// refitWords say where the rack's end would go for the longer arms; empty where
// that is not known.
func (w *Widened) refitWords(u units.Unit) string {
	if !w.HasRefit {
		return ""
	}
	end := "Rack end"
	if w.Source.Rear {
		end = "Inner end of the toe link"
	}
	var moves []string
	for _, m := range []struct {
		mm         float64
		more, less string
	}{{w.Refit.Y, "farther out", "farther in"}, {w.Refit.Z, "higher", "lower"}, {w.Refit.X, "forward", "rearward"}} {
		text := lengthAt(math.Abs(m.mm), u)
		switch {
		case math.Abs(m.mm) < likeWheel:
		case m.mm > 0:
			moves = append(moves, text+" "+m.more)
		default:
			moves = append(moves, text+" "+m.less)
		}
	}
	if len(moves) == 0 {
		return end + " refitted for the " + w.WayName(ByArms) + ": it stays where it is."
	}
	return end + " refitted for the " + w.WayName(ByArms) + ": " + strings.Join(moves, ", ") + ", the rod cut to suit."
}

// notes explain the comparison; a window has no flags to name.
func (w *Widened) notes(unit units.Unit) []sheet.Note {
	end := "rack end"
	if w.Source.Rear {
		end = "inner end of the toe link"
	}
	const file = sheet.OnText | sheet.InFile
	list := []sheet.Note{{Text: "Longer arms: the whole upright moves out; pivots and rack stay, and the tie rod grows. Refitted: the " + end + " moved to where toe changes least, for the corner as it is as for both ways."},
		{Text: "kept: nothing changes, but for less than a hundredth or what the new points are built to, the band beside it. not decidable: the change is smaller than its band."},
		{On: file, Text: "changes: whether for better or worse only a target could say, and the job states none."},
		{On: sheet.OnWindow, Text: "Less is better where the job states no target. Moments are positive where they turn the front of the wheel outboard."},
		{On: file, Text: "Of scrub radius, swing, moments, forces, toe change and tilt less is better where the job states no target. Moments are positive where they turn the front of the wheel outboard."}}
	if words := w.refitWords(unit); words != "" {
		list = append(list, sheet.Note{Text: words})
	}
	if !w.HasTyre {
		list = append(list, sheet.Note{Text: "Face and swing of the tyre need a size code and a rim that belong together."})
	}
	list = append(list, sheet.Notes(w.Source.springNote()...)...)
	bare := w.loading.bare()
	return append(list, sheet.Either(w.loading.words(unit), bare.words(unit))...)
}
