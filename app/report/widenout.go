package report

import (
	"fmt"
	"strings"

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
		strings.TrimPrefix(lengthText(w.Spec.By, s.Unit), "\u2212"), lengthText(s.Within, s.Unit))
	parts := []string{head, w.grid()}
	if w.Spec.HasScrubMax {
		parts = append(parts, w.limitText())
	}
	return strings.Join(append(parts, foot(w.notes())), "\n")
}

func (w *Widened) grid() string {
	g := grid{columns: []align{left, left, point, point, point, left, left, point, point, left, left},
		titles: []span{{2, "as it is"}, {3, "spacers"}, {7, w.armsWord()}}}
	g.row("", "unit", "value", "value", "change", "95 % band", "", "value", "change", "95 % band", "")
	for _, p := range w.parts() {
		g.row(p.name)
		for _, l := range p.lines {
			g.row(w.cells(&l)...)
		}
	}
	return g.String()
}

func (w *Widened) armsWord() string {
	if w.Spec.By < 0 {
		return "shorter arms"
	}
	return "longer arms"
}

// cells of one line.
func (w *Widened) cells(l *widenLine) []string {
	t, u := &w.Table[l.measure], w.Source.Unit
	_, unit := l.amount.inUnit(0, u)
	cells := []string{"  " + l.name, unit, "not known"}
	band, _ := l.amount.inUnit(max(t.SpacersBand.Value, t.ArmsBand.Value), u)
	if t.Before.OK {
		v, _ := l.amount.inUnit(t.Before.Value, u)
		cells[2], _ = splitBand(v, band)
	}
	for _, side := range []struct {
		after, band widen.Value
		verdict     widen.Verdict
	}{{t.Spacers, t.SpacersBand, t.SpacersBetter}, {t.Arms, t.ArmsBand, t.ArmsBetter}} {
		cells = append(cells, w.wayCells(l, t.Before, side.after, side.band, side.verdict)...)
	}
	return cells
}

func (w *Widened) wayCells(l *widenLine, before, after, band widen.Value, verdict widen.Verdict) []string {
	u := w.Source.Unit
	if !after.OK {
		return []string{"not known", "", "", ""}
	}
	v, _ := l.amount.inUnit(after.Value, u)
	half, _ := l.amount.inUnit(band.Value, u)
	if verdict == widen.Same && half > 0 {
		verdict = widen.NoVerdict
	}
	word := verdictWords[verdict]
	if !before.OK {
		number, _ := splitBand(v, half)
		return []string{number, "", "", word}
	}
	d, _ := l.amount.inUnit(after.Value-before.Value, u)
	if !band.OK {
		number, _ := splitBand(v, 0)
		change, _ := splitBand(d, 0)
		return []string{number, withSign(change), "not known", word}
	}
	number, _ := splitBand(v, half)
	change, halfText := splitBand(d, half)
	if word == "" && l.measure.Sense() != widen.Wished {
		word = "open"
	}
	return []string{number, withSign(change), halfText, word}
}

// limitText says how the scrub radius stands to its limit.
func (w *Widened) limitText() string {
	u := w.Source.Unit
	lines := []string{fmt.Sprintf("Scrub radius of at most %s, either way", lengthText(w.Spec.ScrubMax, u))}
	for i, name := range []string{"spacers", w.armsWord()} {
		l := &w.Limits[i]
		text := units.FormatWithBand(units.In(l.Value, u), units.In(l.Band, u)) + " " + u.String()
		word := map[LimitVerdict]string{LimitKept: "within the limit", LimitPassed: "OVER the limit", LimitOpen: "not decidable: the band spans the limit"}[l.Verdict]
		lines = append(lines, fmt.Sprintf("  %s: %s, %s", name, text, word))
	}
	switch m := &w.Mixed; {
	case !w.HasMixed:
		lines = append(lines, "  both together: this wheel does not reach the track within the limit; another offset may")
	default:
		lines = append(lines, fmt.Sprintf("  both together, least change of the arms: spacer of %s altogether, arms %s; scrub radius %s",
			lengthCell(m.Spacer, u)+" "+u.String(), moveCell(m.Arms, u)+" "+u.String(), lengthCell(m.ScrubRadius, u)+" "+u.String()))
	}
	return strings.Join(lines, "\n") + "\n"
}

func (w *Widened) notes() []string {
	list := []string{"Of scrub radius, swing, moments, forces, toe change and tilt less is better; camber gain, roll centre, motion ratio and spring force were",
		"chosen once, and any change counts as worse. same: no change; open: smaller than its band, the tape cannot decide.",
		"Longer arms: the whole upright moves out; rack and pivots stay, and the tie rod grows. Largest: over the job's travel, tilt over the rack too."}
	if !w.HasTyre {
		list = append(list, "Face and swing of the tyre need a size code and a rim that belong together.")
	}
	return append(list, w.loading.words(w.Source.Unit)...)
}

type widenWayJSON struct {
	Value   *float64 `json:"value"`
	Change  *float64 `json:"change"`
	Band    *float64 `json:"change_band_95"`
	Verdict string   `json:"verdict"`
}

type widenLineJSON struct {
	Key     string       `json:"key"`
	Name    string       `json:"name"`
	Unit    string       `json:"unit"`
	Before  *float64     `json:"as_it_is"`
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
	Value   float64  `json:"scrub_radius_mm"`
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
	Loading  loadingJSON     `json:"conditions"`
	Notes    []string        `json:"notes"`
	Caution  string          `json:"caution"`
}

// JSON prints both ways for a program: mm, degrees, N and N m.
func (w *Widened) JSON() string {
	out := widenJSON{Job: w.Source.Job, Variant: w.Source.Variant, By: number12(w.Spec.By), Within: w.Source.Within,
		Loading: w.loading.json(), Caution: Caution}
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
	return encode(out)
}

func (w *Widened) lineJSON(part string, l *widenLine) widenLineJSON {
	t := &w.Table[l.measure]
	in := func(v float64) float64 { v, _ = l.amount.inUnit(v, units.Millimetre); return v }
	_, unit := l.amount.inUnit(0, units.Millimetre)
	way := func(after, band widen.Value, verdict widen.Verdict) widenWayJSON {
		word := verdictWords[verdict]
		switch {
		case verdict == widen.Same && band.OK && band.Value > 0:
			word = "open"
		case l.measure.Sense() == widen.Wished:
			word = "wished"
		case word == "":
			word = "not known"
		}
		both := t.Before.OK && after.OK
		return widenWayJSON{orNull(in(after.Value), after.OK), orNull(in(after.Value-t.Before.Value), both), bandOrNull(in(band.Value), both && band.OK), word}
	}
	return widenLineJSON{Key: l.key, Name: part + ": " + l.name, Unit: unit, Before: orNull(in(t.Before.Value), t.Before.OK),
		Spacers: way(t.Spacers, t.SpacersBand, t.SpacersBetter), Arms: way(t.Arms, t.ArmsBand, t.ArmsBetter)}
}

func (w *Widened) limitJSON() *scrubLimitJSON {
	of := func(l *ScrubLimit) limitWay {
		return limitWay{number12(l.Value), bandOrNull(l.Band, true), limitWord[l.Verdict]}
	}
	out := &scrubLimitJSON{Max: number12(w.Spec.ScrubMax), Spacers: of(&w.Limits[0]), Arms: of(&w.Limits[1])}
	if w.HasMixed {
		out.Mixed = &mixedWay{number12(w.Mixed.Spacer), number12(w.Mixed.Arms), number12(w.Mixed.ScrubRadius)}
	}
	return out
}
