package report

import (
	"armscribe/app/sheet"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// toeParts are the parts of a toe curve under a key: in degrees for each length, in
// degrees at the farther end of the travel and as a length across the gauge, and what
// causes each.
func toeParts(title, key string, s *tune.Setup, d *bumpsteer.Diagnosis, by tune.Basis) []sheet.Item {
	field := func(name string, c sheet.Cell) sheet.Item { return sheet.Field{Key: key + "." + name, Cell: c} }
	across := onTextIf(s.Gauge.Width > 0) | sheet.OnWindow
	t := &sheet.Table{Title: title, Key: key + ".parts", Groups: sheet.Rows(), Columns: []sheet.Column{
		{Role: sheet.Name, Key: "name"},
		{Band: " ", UnitTitle: " ", Key: "per.value", BandKey: "per.band_95", Whole: true},
		{Key: "per_unit", On: sheet.InFile, Whole: true},
		{Title: "at " + units.Place(tune.FarEnd(d), s.Unit), Band: "deg", Key: "at_end_deg.value", BandKey: "at_end_deg.band_95"},
		{Title: "across " + lengthText(s.Gauge.Width, s.Unit), Band: s.Unit.String(), Key: "at_end_across_width_mm.value", BandKey: "at_end_across_width_mm.band_95", On: across, Whole: true},
		{Key: "cure_mm.value", BandKey: "cure_mm.band_95", On: sheet.InFile, Whole: true},
		{Key: "decided", On: sheet.InFile},
		{Key: "words", On: sheet.InFile},
	}}
	causes := sheet.Prose{On: sheet.OnScreens}
	inFile := *s
	inFile.Unit = units.Millimetre
	words := inFile.Parts(d, by)
	for i, p := range s.Parts(d, by) {
		t.Groups[0].Rows = append(t.Groups[0].Rows, append(partRow(&p, s), sheet.Words(words[i].Words)))
		mark := sheet.NoMark
		if p.HasMove && !p.Decided {
			mark = sheet.Unsure
		}
		causes.Lines = append(causes.Lines, sheet.Line{Mark: mark, Text: p.Name + ": " + p.Words})
	}
	return []sheet.Item{field("from_mm", sheet.Number(sheet.Travel, d.From)), field("to_mm", sheet.Number(sheet.Travel, d.To)), field("end_mm", sheet.Number(sheet.Travel, tune.FarEnd(d))),
		field("max_toe_change_deg", sheet.Number(sheet.Toe, d.Change)), field("max_toe_change_at_mm", sheet.Number(sheet.Travel, d.ChangeAt)), t, causes}
}

func partRow(p *tune.Part, s *tune.Setup) sheet.Row {
	kind := sheet.Slope
	if p.Name == "bow" {
		kind = sheet.Bow
	}
	end, across := sheet.Banded(sheet.Toe, p.AtEnd.Value, p.AtEnd.Half), sheet.Banded(sheet.Length, s.Gauge.Length(p.AtEnd.Value), s.Gauge.Length(p.AtEnd.Half))
	if !p.HasBand {
		end, across = sheet.AtMost(sheet.Toe, p.AtEnd.Value), sheet.Number(sheet.Length, s.Gauge.Length(p.AtEnd.Value))
	}
	return sheet.Row{sheet.Words(p.Name), sheet.Banded(kind, p.Per.Value, p.Per.Half).If(p.HasPer), sheet.UnitOf(kind).If(p.HasPer), end, across.If(s.Gauge.Width > 0),
		sheet.Banded(sheet.Length, p.Move.Value, p.Move.Half).If(p.HasMove), sheet.Flag(p.Decided)}
}
