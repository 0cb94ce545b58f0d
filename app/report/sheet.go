package report

import (
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// sheet begins an answer about this variant: what it is, how well the points
// were measured, and its parts.
func (s *Source) sheet(title string, notes func(units.Unit) []sheet.Note, items ...sheet.Item) *sheet.Sheet {
	within := sheet.Field{Key: "measured_within_mm", Cell: sheet.Number(sheet.Chosen, s.Within.Common())}
	return &sheet.Sheet{Job: s.Job, Variant: s.Variant, Title: title, Head: []string{"points measured within ±" + s.within()}, Unit: s.Unit,
		Items: append([]sheet.Item{within}, items...), Notes: notes, Caution: Caution}
}
