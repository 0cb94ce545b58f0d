package report

import (
	"armscribe/app/car"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// sheet begins an answer about this variant: what it is, how well the points
// were measured and what of it is assumed, and its parts.
func (s *Source) sheet(rests car.Rest, title string, notes func(units.Unit) []sheet.Note, items ...sheet.Item) *sheet.Sheet {
	within := sheet.Field{Key: "measured_within_mm", Cell: sheet.Number(sheet.Chosen, s.Within.Common())}
	return &sheet.Sheet{Job: s.Job, Variant: s.Variant, Title: title, Rests: s.Rests(rests), Head: []string{"points measured within ±" + s.within()}, Unit: s.Unit,
		Items: append([]sheet.Item{within}, items...), Notes: notes, Caution: Caution}
}
