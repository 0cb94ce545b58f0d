package report

import (
	"fmt"
	"math"
	"strings"

	"armscribe/app/sheet"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics/widen"
)

// Text prints both ways for a person.
func (w *Widened) Text() string {
	s := &w.Source
	way := "wider"
	if w.Spec.By < 0 {
		way = "narrower"
	}
	head := fmt.Sprintf("%s: %s, each side %s by %s, two ways\npoints measured within ±%s\n", oneLine(s.Job), oneLine(s.Variant), way,
		strings.TrimPrefix(lengthText(w.Spec.By, s.Unit), "\u2212"), s.within())
	parts := []string{head, w.grid()}
	if words := w.NoSpacersWords(); words != "" {
		parts = append(parts, words+"\n")
	}
	parts = append(parts, strings.Join(w.ClearanceLines(), "\n  ")+"\n")
	if w.Spec.HasScrubMax {
		parts = append(parts, w.limitText())
	}
	return strings.Join(append(parts, foot(w.notes())), "\n")
}

func (w *Widened) grid() string {
	g := grid{columns: []align{left, left, point, left, point, point, left, left, point, point, left, left},
		titles: []span{{2, "as it is"}, {4, w.WayName(BySpacers)}, {8, w.WayName(ByArms)}}}
	g.row("", "unit", "value", "95 % band", "value", "change", "95 % band", "", "value", "change", "95 % band", "")
	for _, p := range w.Parts() {
		g.row(p.Name)
		for i := range p.Lines {
			g.row(p.Lines[i].cells()...)
		}
	}
	return g.String()
}

func (l *WidenLine) cells() []string {
	cells := []string{"  " + l.Name, l.Unit, l.Before, l.Band}
	for _, way := range []*WidenWay{&l.Spacers, &l.Arms} {
		cells = append(cells, way.Value, way.Change, way.Band, way.Verdict.String())
	}
	return cells
}

// LimitLines say how the scrub radius stands to its limit, the wish first; only
// with one.
func (w *Widened) LimitLines() []string {
	u := w.Source.Unit
	lines := []string{fmt.Sprintf("Scrub radius of at most %s, either way", lengthText(w.Spec.ScrubMax, u))}
	for i := range w.Limits {
		if !w.Has(Way(i)) {
			lines = append(lines, w.WayName(Way(i))+": not possible")
			continue
		}
		l := &w.Limits[i]
		text := units.FormatWithBand(units.In(l.Value, u), units.In(l.Band, u)) + " " + u.String()
		word := map[LimitVerdict]string{LimitKept: "within the limit", LimitPassed: "OVER the limit", LimitOpen: "not decidable: the band spans the limit"}[l.Verdict]
		lines = append(lines, fmt.Sprintf("%s: %s, %s", w.WayName(Way(i)), text, word))
	}
	if !w.HasMixed && w.Spec.By < 0 && w.Source.Corner.Wheel.Spacer <= 0 {
		return lines
	}
	if !w.HasMixed {
		return append(lines, "both together: this wheel does not reach the track within the limit; another offset may")
	}
	m := &w.Mixed
	text := fmt.Sprintf("both together, least change of the arms: spacer of %s altogether, arms %s; scrub radius %s",
		withUnit(lengthCell(m.Spacer, u), u), withUnit(moveCell(m.Arms, u), u), withUnit(units.FormatWithBand(units.In(m.ScrubRadius, u), units.In(w.MixedLimit.Band, u)), u))
	if w.MixedLimit.Verdict == LimitOpen {
		text += ", the band spans the limit"
	}
	return append(lines, text)
}

func (w *Widened) limitText() string { return strings.Join(w.LimitLines(), "\n  ") + "\n" }

// RefitWords say where the rack's end would go for the longer arms; empty where
// that is not known.
func (w *Widened) RefitWords() string {
	if !w.HasRefit {
		return ""
	}
	u, end := w.Source.Unit, "Rack end"
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

func (w *Widened) notes() []string {
	end := "rack end"
	if w.Source.Rear {
		end = "inner end of the toe link"
	}
	list := []string{"Longer arms: the whole upright moves out; pivots and rack stay, and the tie rod grows. Refitted: the " + end + " moved to where toe changes least, for the corner as it is as for both ways.",
		"kept: nothing changes, but for less than a hundredth or what the new points are built to, the band beside it. not decidable: the change is smaller than its band.",
		"changes: whether for better or worse only an aim could say, and the job states none.",
		"Of scrub radius, swing, moments, forces, toe change and tilt less is better where the job states no aim. Moments are positive where they turn the front of the wheel outboard."}
	if words := w.RefitWords(); words != "" {
		list = append(list, words)
	}
	if !w.HasTyre {
		list = append(list, "Face and swing of the tyre need a size code and a rim that belong together.")
	}
	return append(append(list, w.Source.springNote()...), w.loading.words(w.Source.Unit)...)
}

type widenWayJSON struct {
	Value   *float64 `json:"value"`
	Own     *float64 `json:"band_95"`
	Change  *float64 `json:"change"`
	Band    *float64 `json:"change_band_95"`
	Verdict string   `json:"verdict"`
}

type widenLineJSON struct {
	Key     string       `json:"key"`
	Name    string       `json:"name"`
	Unit    string       `json:"unit"`
	Before  *float64     `json:"as_it_is"`
	Own     *float64     `json:"as_it_is_band_95"`
	Spacers widenWayJSON `json:"spacers"`
	Arms    widenWayJSON `json:"arms"`
}

type scrubLimitJSON struct {
	Max     float64   `json:"max_mm"`
	Spacers limitWay  `json:"spacers"`
	Arms    limitWay  `json:"arms"`
	Mixed   *mixedWay `json:"both_together"`
}

type limitWay struct {
	Value   *float64 `json:"scrub_radius_mm"`
	Band    *float64 `json:"band_95"`
	Verdict string   `json:"verdict"`
}

type mixedWay struct {
	Spacer float64 `json:"spacer_mm"`
	Arms   float64 `json:"arms_mm"`
	Scrub  float64 `json:"scrub_radius_mm"`
}

type widenJSON struct {
	Job      string          `json:"job"`
	Variant  string          `json:"variant"`
	By       float64         `json:"by_mm"`
	Within   float64         `json:"measured_within_mm"`
	Measures []widenLineJSON `json:"measures"`
	Limit    *scrubLimitJSON `json:"scrub_limit"`
	Clear    wayGapsJSON     `json:"clearance"`
	Loading  sheet.Object    `json:"conditions"`
	Notes    []string        `json:"notes"`
	Caution  string          `json:"caution"`
}

// JSON prints both ways for a program: mm, degrees, N and N m.
func (w *Widened) JSON() string {
	out := widenJSON{Job: w.Source.Job, Variant: w.Source.Variant, By: number12(w.Spec.By), Within: w.Source.Within.Common(),
		Loading: w.loading.file(), Caution: Caution}
	mm := *w
	mm.Source.Unit = units.Millimetre
	out.Notes = mm.notes()
	for _, p := range w.parts() {
		for _, l := range p.lines {
			out.Measures = append(out.Measures, w.lineJSON(p.name, &l))
		}
	}
	if w.Spec.HasScrubMax {
		out.Limit = w.limitJSON()
	}
	out.Clear = wayGapsJSON{w.Clear[BySpacers].json(), w.Clear[ByArms].json()}
	return encode(out)
}

func (w *Widened) lineJSON(part string, l *widenLine) widenLineJSON {
	t := &w.Table[l.measure]
	in := func(v float64) float64 { v, _ = l.amount.inUnit(v, units.Millimetre); return v }
	_, unit := l.amount.inUnit(0, units.Millimetre)
	way := func(after, own, band widen.Value) widenWayJSON {
		word := w.judge(l, after, own, band).String()
		switch {
		case l.sense == targets.Wished:
			word = "wished"
		case word == "":
			word = notKnown
		}
		both := t.Before.OK && after.OK
		return widenWayJSON{orNull(in(after.Value), after.OK), bandOrNull(in(own.Value), after.OK && own.OK), orNull(in(after.Value-t.Before.Value), both), bandOrNull(in(band.Value), both && band.OK), word}
	}
	out := widenLineJSON{Key: l.key, Name: part + ": " + w.nameOf(l), Unit: unit, Before: orNull(in(t.Before.Value), t.Before.OK), Own: bandOrNull(in(t.BeforeOwn.Value), t.Before.OK && t.BeforeOwn.OK),
		Spacers: way(t.Spacers, t.SpacersOwn, t.SpacersBand), Arms: way(t.Arms, t.ArmsOwn, t.ArmsBand)}
	if !w.Both.HasSpacers {
		out.Spacers.Verdict = "not possible"
	}
	return out
}

func (w *Widened) limitJSON() *scrubLimitJSON {
	of := func(l *ScrubLimit) limitWay {
		return limitWay{orNull(l.Value, true), bandOrNull(l.Band, true), limitWord[l.Verdict]}
	}
	out := &scrubLimitJSON{Max: number12(w.Spec.ScrubMax), Spacers: of(&w.Limits[0]), Arms: of(&w.Limits[1])}
	if !w.Both.HasSpacers {
		out.Spacers = limitWay{Verdict: "not possible"}
	}
	if w.HasMixed {
		out.Mixed = &mixedWay{number12(w.Mixed.Spacer), number12(w.Mixed.Arms), number12(w.Mixed.ScrubRadius)}
	}
	return out
}
