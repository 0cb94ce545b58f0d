package report

import (
	"fmt"
	"strings"

	"armscribe/app/car"
	"armscribe/app/figures"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Sheet is the answer.
func (a *Adjusted) Sheet() *sheet.Sheet {
	items := []sheet.Item{a.effects(), a.ranges(), a.inOrder(), sheet.Field{Key: "order", Cell: sheet.Texts(a.orderNames())}}
	if a.Setting == nil {
		items = append(items, sheet.Field{Key: "setting", Cell: sheet.Missing(sheet.Plain, "")})
	} else {
		items = append(items, sheet.Field{Key: "setting.met", Cell: sheet.Flag(a.Setting.Met)}, a.unmet(), a.wished(), a.sets(),
			sheet.Prose{On: sheet.OnScreens, Lines: []sheet.Line{{Mark: wheelMark(a.Clear), Text: "Wheel so set: " + a.Clear.Words(a.Source.Unit)}}}, sheet.Object{Key: "setting.clearance", Fields: wheelFile(a.Clear)})
	}
	out := a.Source.sheet(a.rests(), "what the adjusters do", a.notes, items...)
	out.Head = append(out.Head[:len(out.Head)-1], "at constant ride height: the body keeps its height above the ground, all else its length")
	return out
}

// rests is what the answer rests on besides the points: only a setting moves the wheel.
func (a *Adjusted) rests() car.Rest {
	if a.Setting == nil {
		return 0
	}
	return car.OnRoom
}

// kindOf is the kind of a quantity on a sheet, small changes of angles among them.
func kindOf(q kinematics.Quantity) sheet.Kind {
	return map[kinematics.Kind]sheet.Kind{kinematics.Length: sheet.Length, kinematics.Angle: sheet.Toe, kinematics.Slope: sheet.Slope, kinematics.Ratio: sheet.Ratio}[q.Kind()]
}

var effectHeads = map[kinematics.Quantity]string{
	kinematics.Camber: "camber", kinematics.Caster: "caster", kinematics.Toe: "toe", kinematics.ScrubRadius: "scrub",
	kinematics.HalfTrack: "half track", kinematics.RollCentreHeight: "roll centre", kinematics.RideToe: "ride toe",
}

// mostThreads are those of one adjuster.
const mostThreads = 2

// effects are what each adjuster does, with all that files have of it.
func (a *Adjusted) effects() *sheet.Table {
	t := &sheet.Table{Title: "Adjuster", Key: "adjusters", UnitRow: true, Groups: sheet.Rows(), Columns: []sheet.Column{
		{Role: sheet.Name, Key: "name"}, {Key: "kind", On: sheet.InFile}, {Title: "for each", Role: sheet.Text, Key: "unit"}, {Key: "min", On: sheet.InFile}, {Key: "max", On: sheet.InFile}, {Key: "sets", On: sheet.InFile}}}
	for n, q := range bumpsteer.Adjusted() {
		at := fmt.Sprintf("effects.%d.", n)
		t.Columns = append(t.Columns, sheet.Column{Key: at + "key", On: sheet.InFile}, sheet.Column{Title: effectHeads[q], Key: at + "per_unit", UnitKey: at + "unit"})
	}
	t.Columns = append(t.Columns, sheet.Column{Key: "threads", On: sheet.InFile, Whole: true})
	for k := range mostThreads {
		for _, name := range []string{"diameter_mm", "pitch_mm", "engaged_mm", "engaged_fully_out_mm", "least_mm", "too_short", "too_short_fully_out"} {
			t.Columns = append(t.Columns, sheet.Column{Key: fmt.Sprintf("threads.%d.%s", k, name), On: sheet.InFile, Whole: true})
		}
	}
	for i := range a.Setup.Adjusters {
		t.Groups[0].Rows = append(t.Groups[0].Rows, a.effectRow(i))
	}
	return t
}

func (a *Adjusted) effectRow(i int) sheet.Row {
	adj, sets := &a.Setup.Adjusters[i], ""
	if adj.HasSets {
		sets = adj.Sets.String()
	}
	row := sheet.Row{sheet.Words(adj.Name), sheet.Words(adj.Kind.String()), sheet.Words(unitWord(adj.Unit)), sheet.Number(sheet.Plain, adj.Min), sheet.Number(sheet.Plain, adj.Max), sheet.Words(sets)}
	for _, q := range bumpsteer.Adjusted() {
		cell := sheet.Missing(kindOf(q), figures.Of(q).Missing)
		if v, ok := a.Effects[i].Of(q); ok {
			cell = sheet.Number(kindOf(q), v).Signed()
		}
		row = append(row, sheet.Words(q.String()), cell)
	}
	row = append(row, sheet.Texts(nil).If(len(adj.Threads) == 0))
	now, ends := adj.Engagements(0), adj.Engagements(adj.Max)
	length := func(mm float64) sheet.Cell { return sheet.Number(sheet.LaidOut, mm) }
	for k, t := range adj.Threads {
		row = append(row, length(t.Diameter), length(t.Pitch), length(now[k].Engaged), length(max(0, ends[k].Engaged)), length(now[k].Least), sheet.Flag(now[k].Short), sheet.Flag(ends[k].Short))
	}
	return row
}

// ranges are how far each adjuster goes, with its threads in engagement.
func (a *Adjusted) ranges() *sheet.Table {
	t := &sheet.Table{Title: "Range", On: sheet.OnScreens, Groups: sheet.Rows(), Columns: []sheet.Column{{Role: sheet.Name}, {Title: "from"}, {Title: "to"}, {Role: sheet.Text},
		{Title: "engaged now", UnitIn: true}, {Title: "fully out", UnitIn: true}, {Title: "least", UnitIn: true}, {Role: sheet.Text}}}
	for i := range a.Setup.Adjusters {
		adj := &a.Setup.Adjusters[i]
		unit := unitWord(adj.Unit)
		if adj.Unit == bumpsteer.Turn {
			unit = "turns"
		}
		end := func(v float64) sheet.Cell { return sheet.Words(units.Signed(units.FormatNumber(v, 1))) }
		row := sheet.Row{sheet.Words(adj.Name), end(adj.Min), end(adj.Max), sheet.Words(unit)}
		now, out := adj.Engagements(0), adj.Engagements(adj.Max)
		for k := range now {
			if k > 0 {
				row = sheet.Row{sheet.Words("  left-hand thread"), {}, {}, {}}
			}
			thread := func(mm float64) sheet.Cell { return sheet.Number(sheet.LaidOut, mm) }
			t.Groups[0].Rows = append(t.Groups[0].Rows, append(row, thread(now[k].Engaged), thread(max(0, out[k].Engaged)), thread(now[k].Least), sheet.Words(shortWord(now[k], out[k])).Marked(shortMark(now[k].Short || out[k].Short))))
		}
		if len(now) == 0 {
			t.Groups[0].Rows = append(t.Groups[0].Rows, row)
		}
	}
	return t
}

func shortMark(short bool) sheet.Mark {
	if short {
		return sheet.Warning
	}
	return sheet.NoMark
}

func shortWord(now, out bumpsteer.Engagement) string {
	switch {
	case now.Short:
		return "TOO SHORT as it stands"
	case out.Short:
		return "too short when fully out"
	}
	return ""
}

func (a *Adjusted) orderNames() (list []string) {
	for _, i := range a.Order {
		list = append(list, a.Setup.Adjusters[i].Name)
	}
	return list
}

// inOrder is the order of adjusting.
func (a *Adjusted) inOrder() *sheet.Table {
	t := &sheet.Table{Title: "Order of adjusting", On: sheet.OnScreens, Groups: sheet.Rows(), Columns: []sheet.Column{{Role: sheet.Name}, {Role: sheet.Text}}}
	for n, i := range a.Order {
		adj := &a.Setup.Adjusters[i]
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(fmt.Sprintf("%d  %s", n+1, adj.Name)), sheet.Words("sets " + strings.ToLower(figures.Of(adj.Sets).Name))})
	}
	return t
}

// unmet says at the top of a window that the wishes are not met.
func (a *Adjusted) unmet() sheet.Prose {
	p := sheet.Prose{On: sheet.OnWindow}
	if !a.Setting.Met {
		p.Lines = []sheet.Line{{Mark: sheet.Bad, Text: "Not met together: this is the nearest that limits and adjusters allow."}}
	}
	return p
}

// wished are the wishes, each beside what is reached.
func (a *Adjusted) wished() *sheet.Table {
	t := &sheet.Table{Title: "Wished together", Key: "setting.wishes", Groups: sheet.Rows(), Columns: []sheet.Column{{Role: sheet.Name, On: sheet.OnScreens}, {Key: "key", On: sheet.InFile},
		{Title: "wished", UnitIn: true, Key: "wished_deg"}, {Title: "nearest", UnitIn: true, Key: "reached_deg"}, {Title: "as set", UnitIn: true, Key: "as_set_deg"}, {Key: "left_deg", On: sheet.InFile}, {Role: sheet.Text, On: sheet.OnScreens}}}
	angle := func(rad float64) sheet.Cell { return sheet.Number(sheet.Toe, rad).Signed() }
	for i, l := range a.WishLines() {
		w, set := a.Wishes[i], a.Setting.Advised().Reached[i]
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(l.Name), sheet.Words(w.Quantity.String()), angle(w.Value), angle(a.Setting.Reached[i]), angle(set), angle(w.Value - set), sheet.Words(l.Left)})
	}
	return t
}

// sets are what to do with each adjuster.
func (a *Adjusted) sets() *sheet.Table {
	t := &sheet.Table{Title: "Setting", Key: "setting.sets", Groups: sheet.Rows(), Columns: []sheet.Column{{Role: sheet.Name, Key: "name"}, {Key: "by", On: sheet.InFile}, {Key: "set_by", On: sheet.InFile},
		{Title: "exactly", On: sheet.OnScreens}, {Title: "set", On: sheet.OnScreens}, {Role: sheet.Text, On: sheet.OnScreens}, {Key: "unit", On: sheet.InFile}, {Key: "stands_at", On: sheet.InFile},
		{Key: "thread_too_short", On: sheet.InFile}, {Key: "bolt_from_middle_deg", On: sheet.InFile}, {Role: sheet.Text, On: sheet.OnScreens}}}
	s := a.Setting.Advised()
	for k, l := range a.SetLines() {
		adj := &a.Setup.Adjusters[a.Used[k]]
		angle, ok := adj.BoltTurn(adj.Now() + s.Units[k])
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(l.Name), sheet.Number(sheet.Plain, a.Setting.Units[k]), sheet.Number(sheet.Plain, s.Units[k]), sheet.Words(l.Exactly), sheet.Words(l.Set), sheet.Words(l.Unit),
			sheet.Words(unitWord(adj.Unit)), sheet.Words(limitKeys[s.Limits[k]]), sheet.Flag(l.Short), sheet.Number(sheet.Stated, angle).If(ok), sheet.Words(strings.Join(l.Marks, ", ")).Marked(shortMark(l.Short))})
	}
	return t
}

func (a *Adjusted) notes(units.Unit) []sheet.Note {
	list := []string{"A turn makes the leg longer. Effects are slopes at the present setting; scrub, half track and roll centre as in armcalc readings.",
		fmt.Sprintf("least: %g diameters of thread in engagement; common practice, no source.", bumpsteer.MinEngagement)}
	if a.NoOrder != "" {
		list = append(list, "No order of adjusting: "+a.NoOrder)
	}
	if a.Setting != nil && a.Setting.Built != nil {
		list = append(list, "set: a rod end goes on again every half turn; the others make up for what they can. as set, left: what comes of that, and what then lacks.")
	}
	if a.ToeKept {
		list = append(list, "Toe is not among the wishes, so it is kept as it is.")
	}
	if a.Setting != nil && !a.Setting.Met {
		list = append(list, "The wishes are not met together: this is the nearest that limits and adjusters allow.")
	}
	return sheet.Notes(list...)
}
