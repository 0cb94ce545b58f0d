package report

import (
	"strings"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// WayClearance are the least gaps of the tyre to the job's obstacles by one way,
// over travel and rack, without roll. Gaps is nil where there is no such way, or
// Err says why nothing is known.
type WayClearance struct {
	Gaps *Clearance
	Err  error // errors.Is clearance.ErrNoTyre, or of the geometry
}

// clear sweeps the tyre of each way, finely.
func (w *Widened) clear(j *job.Job, variant int) {
	for _, way := range w.Ways() {
		next := j.Clone()
		next.Variants = append(next.Variants, w.Variants(j, variant, way)...)
		c := &w.Clear[way]
		c.Gaps, c.Err = ClearanceOf(next, len(next.Variants)-1, 0)
	}
}

// wheelClearance is the title of what a wheel comes to.
const wheelClearance = "Clearance of the wheel over travel and rack, without roll"

// clearance says how each way stands to all that its wheel must not meet.
func (w *Widened) clearance() sheet.Prose {
	p := sheet.Prose{Title: wheelClearance}
	for _, way := range w.Ways() {
		p.Lines = append(p.Lines, sheet.Line{Text: w.WayName(way) + ": " + w.Clear[way].words(w.Source.Unit)})
	}
	return p
}

func (c *WayClearance) words(u units.Unit) string {
	if c.Err != nil {
		return clearance.NotKnown + ": " + strings.TrimPrefix(oneLine(c.Err.Error()), "clearance ")
	}
	return c.Gaps.Judged.Words(u)
}

// file are the gaps for files, in the order of the job's obstacles; null where none
// are known.
func (c *WayClearance) file(key string) sheet.Item {
	if c.Gaps == nil || c.Err != nil {
		return sheet.Field{Key: key, Cell: sheet.Cell{}.If(false)}
	}
	return c.Gaps.gaps(key, sheet.InFile)
}
