package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"armscribe/app/car"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics/widen"
)

// Sheet is the answer: the ways, best first; a window marks the one that is drawn.
func (r *Reached) Sheet(drawn int) *sheet.Sheet {
	s := &r.Spec
	out := r.Source.sheet(car.OnRoom, "ways to a "+r.WishWords(), r.notes, r.sentences(), r.table(drawn))
	out.Head = slices.Insert(out.Head, len(out.Head)-1, r.rangeWords())
	length := func(key string, mm float64, has bool) sheet.Item {
		return sheet.Field{Key: key, Cell: sheet.Number(sheet.Length, mm).If(has)}
	}
	out.Items = append([]sheet.Item{length("wished_half_track_mm", s.To, !s.ByFace), length("wished_tyre_face_mm", s.To, s.ByFace), length("scrub_max_mm", s.ScrubMax, s.HasScrubMax),
		length("spacer_min_mm", s.SpacerMin, true), length("spacer_max_mm", s.SpacerMax, true), length("arms_min_mm", s.ArmsMin, true), length("arms_max_mm", s.ArmsMax, true)}, out.Items...)
	return out
}

// DrawWay is what a window lets a row of the ways do.
const DrawWay = "draw"

func (r *Reached) table(drawn int) *sheet.Table {
	t := &sheet.Table{Key: "answers", Groups: sheet.Rows(), Columns: []sheet.Column{
		{Role: sheet.Text, On: sheet.OnText},
		{Role: sheet.Text, On: sheet.OnWindow},
		{Key: "reaches", On: sheet.InFile},
		{Key: "wheel", On: sheet.InFile},
		{Key: "tyre", On: sheet.InFile},
		{Key: "rim_width_mm", On: sheet.InFile},
		{Key: "offset_mm", On: sheet.InFile},
		{Title: "wheel", Role: sheet.Text, On: sheet.OnScreens},
		{Title: "spacer", UnitIn: true, Key: "spacer_mm"},
		{Title: "arms", UnitIn: true, Key: "arms_mm"},
		{Title: "half track", Band: "95 % band", Key: "half_track_mm", BandKey: "half_track_band_95_mm"},
		{Title: "face", Key: "tyre_face_mm"},
		{Title: "scrub radius", Band: "95 % band", Key: "scrub_radius_mm", BandKey: "scrub_radius_band_95_mm"},
		{Key: "scrub_limit", On: sheet.InFile},
		{Key: "short_mm", On: sheet.InFile},
		{Key: "scrub_over_limit_mm", On: sheet.InFile},
		{Key: "brake_passes", On: sheet.InFile},
		{Key: "tyre_touches", On: sheet.InFile}, // null where it is not known
		{Key: "clearance", On: sheet.InFile},    // what is not kept; empty where all is
		{Role: sheet.Text, On: sheet.OnScreens, Under: true},
	}}
	for i := range r.Answers {
		t.Groups[0].Rows = append(t.Groups[0].Rows, r.row(i, i == drawn))
	}
	return t
}

func (r *Reached) row(i int, drawn bool) sheet.Row {
	a := &r.Answers[i]
	w := &a.Wheel.Wheel
	rank, number, mark := "", "–", sheet.Bad
	if a.Leads() {
		rank, mark = strconv.Itoa(i+1), sheet.Good
		if number = rank; a.Room.InTheWay() {
			mark = sheet.Warning
		}
	}
	length := func(mm float64) sheet.Cell { return sheet.Number(sheet.Length, mm) }
	return sheet.Row{sheet.Words(rank), sheet.Words(number).Offers(DrawWay).Chosen(drawn), sheet.Flag(a.Reaches()), sheet.Words(a.Wheel.Name), sheet.Words(w.Tyre), length(w.RimWidth.MM), length(w.Offset.MM),
		sheet.Words(r.WheelWords(i)).Marked(mark), sheet.Number(sheet.LaidOut, a.Spacer), sheet.Number(sheet.LaidOut, a.Arms).Signed(),
		sheet.Banded(sheet.Length, a.HalfTrack, a.TrackBand), sheet.Banded(sheet.Length, a.Face, a.TrackBand).If(a.HasFace), sheet.Banded(sheet.Length, a.ScrubRadius, a.ScrubBand),
		sheet.Words(limitWord[a.Scrub]).If(r.Spec.HasScrubMax), length(a.Short), length(a.OverScrub), sheet.Flag(a.Wheel.Brake == nil), wheelFile(&a.Room)[0].Cell,
		sheet.Words(a.Room.Row(units.Millimetre)), sheet.Words(r.note(a))}
}

// note says what of a way is missing or open, and whether the brake passes.
func (r *Reached) note(a *ReachAnswer) string {
	var notes []string
	u := r.Source.Unit
	switch {
	case !a.Reaches():
		notes = append(notes, "NOT REACHED: "+a.missWords(u, r.Spec.ByFace))
	case a.Scrub == LimitOpen:
		notes = append(notes, "scrub radius: the band spans the limit")
	}
	if a.Wheel.Brake != nil && a.Room.Err != nil { // else the row says it
		notes = append(notes, "the brake does NOT pass")
	}
	if row := a.Room.Row(u); row != "" {
		notes = append(notes, row)
	}
	return strings.Join(notes, "; ")
}

// sentences say how many ways lead to the wish, or which comes nearest.
func (r *Reached) sentences() sheet.Prose {
	asked := sheet.Line{Text: upperFirst(r.Asked()) + "; " + r.rangeWords() + "."}
	if err := r.Missed(); err != nil {
		return sheet.Prose{On: sheet.OnWindow, Lines: []sheet.Line{asked, {Mark: sheet.Bad, Text: upperFirst(err.Error()) + "."}}}
	}
	n, blocked := r.Reaching()
	text := fmt.Sprintf("%d of %d ways lead there", n, len(r.Answers))
	touching := 0
	for i := range r.Answers {
		if a := &r.Answers[i]; a.Leads() && a.Room.InTheWay() {
			touching++
		}
	}
	if touching > 0 {
		text += fmt.Sprintf(", ▲ %d of them touch something", touching)
	}
	if blocked > 0 {
		text += fmt.Sprintf("; %d more would, but the brake does not pass", blocked)
	}
	return sheet.Prose{On: sheet.OnWindow, Lines: []sheet.Line{asked, {Mark: sheet.Good, Text: text + "."}}}
}

// Asked says what the answer is to.
func (r *Reached) Asked() string {
	return "from “" + oneLine(r.Source.Variant) + "”: " + r.WishWords()
}

// WheelWords name the wheel of an answer with its sizes.
func (r *Reached) WheelWords(answer int) string {
	w := r.Answers[answer].Wheel
	inches := strings.TrimRight(strings.TrimRight(units.FormatNumber(units.In(w.Wheel.RimWidth.MM, units.Inch), 2), "0"), ".")
	return fmt.Sprintf("%s: %s on %s in, offset %s", w.Name, oneLine(w.Wheel.Tyre), inches, lengthText(w.Wheel.Offset.MM, r.Source.Unit))
}

// WishWords say what is wished.
func (r *Reached) WishWords() string {
	u := r.Source.Unit
	text := "half track of " + lengthText(r.Spec.To, u)
	if r.Spec.ByFace {
		text = "tyre's face flush at " + lengthText(r.Spec.To, u) + " from the centre"
	}
	if r.Spec.HasScrubMax {
		text += ", scrub radius of at most " + lengthText(r.Spec.ScrubMax, u)
	}
	return text
}

// rangeWords say within what is looked.
func (r *Reached) rangeWords() string {
	u, s := r.Source.Unit, &r.Spec
	spacer := fmt.Sprintf("no spacer, or one of %s to %s", units.ShortNumber(s.SpacerMin, u), lengthText(s.SpacerMax, u))
	if s.SpacerMin == 0 {
		spacer = "spacer up to " + lengthText(s.SpacerMax, u)
	}
	order := "least scrub radius first"
	if s.Order == widen.LeastArms {
		order = "least change of the arms first"
	}
	return fmt.Sprintf("%s; arms from %s to %s longer; %s", spacer, signedLength(s.ArmsMin, u), signedLength(s.ArmsMax, u), order)
}

// notes say what the numbers rest on.
func (r *Reached) notes(u units.Unit) []sheet.Note {
	list := []sheet.Note{{Text: "Spacer: thickness in all. Arms: by how much the whole upright moves out; arms and tie rod grow by about that, rack and pivots stay."},
		{On: sheet.OnText | sheet.InFile, Text: "Face: y of the tyre's outer face over its upper half, by its size code; real tyres differ by millimetres. Computed at rest, exact for the points as measured."}}
	if r.Around == 0 {
		list = append(list, sheet.Note{Text: "The job states no obstacles: of clearance only the joints inside the rim are looked at, and the brake where its size is stated."})
	} else {
		list = append(list, sheet.Note{On: sheet.OnText | sheet.InFile, Text: "The wheel of each way is carried through travel and rack, and judged as Clearance judges it."})
	}
	if off := r.radiusOff(); off > 0 {
		list = append(list, sheet.Note{Text: "The loaded radius of a wheel that states none is an estimate, likely within " + units.Guessed.Length(off, u) +
			" either way, and not in the bands: with inclined axes it moves the scrub radius."})
	}
	for _, l := range r.Left {
		list = append(list, sheet.Note{Text: "Not looked at: " + l + "."})
	}
	return append(list, sheet.Note{On: sheet.OnWindow, Text: "The number in front draws a way; Keep keeps the one drawn."})
}

// radiusOff is how far the estimated loaded radius of a wheel is likely to be
// off, mm: the most of all wheels, 0 where every radius was measured.
func (r *Reached) radiusOff() (most float64) {
	for i := range r.Wheels {
		if e := r.Wheels[i].Wheel.Loaded(); e.Estimate {
			most = max(most, e.High-e.Radius, e.Radius-e.Low)
		}
	}
	return most
}
