package report

import (
	"strings"

	"armscribe/app/job"
	"armscribe/app/room"
	"armscribe/app/units"
)

// WayClearance are the least gaps of the tyre to the job's obstacles by one way,
// over travel and rack, without roll. Gaps is nil where there is no such way, or
// Err says why nothing is known.
type WayClearance struct {
	Gaps *Clearance
	Err  error // errors.Is room.ErrNoTyre, or of the geometry
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

// ClearanceLines say how each way stands to all that its wheel must not meet.
func (w *Widened) ClearanceLines() []string {
	lines := []string{"Clearance of the wheel over travel and rack, without roll"}
	for _, way := range w.Ways() {
		lines = append(lines, w.WayName(way)+": "+w.Clear[way].words(w.Source.Unit))
	}
	return lines
}

func (c *WayClearance) words(u units.Unit) string {
	if c.Err != nil {
		return room.NotKnown + ": " + strings.TrimPrefix(oneLine(c.Err.Error()), "clearance ")
	}
	return c.Gaps.Judged.Words(u)
}

type wayGapsJSON struct {
	Spacers []gapJSON `json:"spacers"`
	Arms    []gapJSON `json:"arms"`
}

// json lists the gaps in the order of the job's obstacles; nil where none are known.
func (c *WayClearance) json() []gapJSON {
	if c.Gaps == nil || c.Err != nil {
		return nil
	}
	return c.Gaps.gapLines()
}

// gapLines are the gaps for a program: mm and degrees.
func (c *Clearance) gapLines() (list []gapJSON) {
	for i := range c.Result.Answers {
		a, o := &c.Result.Answers[i], &c.Obstacles[i]
		at := c.where(i)
		list = append(list, gapJSON{o.Name, onNames[o.Carrier], number12(a.Gap), number12(a.Wish), a.Keeps(),
			number12(at.travel), number12(at.rack), number12(degrees(at.roll)), number12(a.Rest), sideNames[!at.right]})
	}
	return list
}
