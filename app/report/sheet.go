package report

import (
	"armscribe/app/car"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// sheet begins an answer about this variant: what it is, how well the points
// were measured and what of it is assumed, and its parts.
func (s *Source) sheet(rests car.Rest, title string, notes func(units.Unit) []sheet.Note, items ...sheet.Item) *sheet.Sheet {
	return &sheet.Sheet{Job: s.Job, Variant: s.Variant, Title: title, Rests: s.Rests(rests), Head: []string{"points measured within ±" + s.within()}, Unit: s.Unit,
		Items: append(s.withinItems(), items...), Notes: notes, Caution: Caution}
}

// withinItems are how well the points are known, for files: by the job's tape, and the
// least and most of the points' own errors where these differ from it.
func (s *Source) withinItems() []sheet.Item {
	list := []sheet.Item{sheet.Field{Key: "measured_within_mm", Cell: sheet.Number(sheet.Chosen, s.Within.Common())}}
	if k := s.Known(); k.Least != s.Within.Common() || k.Most != s.Within.Common() {
		list = append(list, sheet.Field{Key: "points_within_mm.least", Cell: sheet.Number(sheet.Chosen, k.Least)}, sheet.Field{Key: "points_within_mm.most", Cell: sheet.Number(sheet.Chosen, k.Most)})
	}
	return list
}
