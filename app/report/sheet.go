package report

import (
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// sheet begins an answer about this variant: what it is, how well the points
// were measured, and its parts.
func (s *Source) sheet(title string, notes func(units.Unit) []sheet.Note, items ...sheet.Item) *sheet.Sheet {
	within := sheet.Field{Key: "measured_within_mm", Cell: sheet.Number(sheet.Chosen, s.Within.Common())}
	var head []string
	if text := job.RestsWords(&s.Within, &s.Corner); text != "" {
		head = append(head, text)
	}
	head = append(head, "points measured within ±"+s.within())
	return &sheet.Sheet{Job: s.Job, Variant: s.Variant, Title: title, Head: head, Unit: s.Unit,
		Items: append([]sheet.Item{within}, items...), Notes: notes, Caution: Caution}
}
