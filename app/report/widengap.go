package report

import (
	"cmp"
	"errors"
	"fmt"

	"armscribe/app/job"
	"armscribe/app/room"
	"armscribe/app/units"
	"armscribe/kinematics/clearance"
)

// WayClearance are the least gaps of the tyre to the job's obstacles by one way,
// over travel and rack, without roll. Gaps is nil where there is no such way, or
// Err says why nothing is known.
type WayClearance struct {
	Gaps *Clearance
	Err  error // errors.Is ErrNoObstacles or room.ErrNoTyre, or of the geometry
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

// ClearanceLines say how each way stands to the job's obstacles, what is in the
// way or comes nearest to it first.
func (w *Widened) ClearanceLines() []string {
	const head = "Clearance of the tyre over travel and rack, without roll"
	if errors.Is(w.Clear[ByArms].Err, ErrNoObstacles) {
		return []string{"Clearance: no obstacles in the job"}
	}
	lines := []string{head}
	for _, way := range w.Ways() {
		lines = append(lines, w.WayName(way)+": "+w.Clear[way].words(w.Source.Unit))
	}
	return lines
}

func (c *WayClearance) words(u units.Unit) string {
	switch {
	case errors.Is(c.Err, room.ErrNoTyre):
		return "not known; give the tyre a size code and a rim that belong together"
	case c.Err != nil:
		return "not known; " + oneLine(c.Err.Error())
	}
	list := c.Gaps.Result.Answers
	worst, unkept := 0, 0
	for i := range list {
		if harm(&list[i], &list[worst]) < 0 {
			worst = i
		}
		if room.VerdictOf(&list[i]) != room.Kept {
			unkept++
		}
	}
	text := c.Gaps.gapWords(worst, u)
	switch {
	case unkept == 0:
		return "every wished gap is kept; nearest to its wish " + text
	case unkept > 1:
		text += fmt.Sprintf("; %d more not kept", unkept-1)
	}
	return text
}

// harm orders answers, the worst first.
func harm(a, b *clearance.Answer) int {
	return cmp.Or(cmp.Compare(room.VerdictOf(b), room.VerdictOf(a)), cmp.Compare(a.Gap-a.Wish, b.Gap-b.Wish))
}

// gapWords say one gap, as "TOUCHES wing lip, 1.9 mm deep, at travel +70, rack +62".
func (c *Clearance) gapWords(i int, u units.Unit) string {
	a, name := &c.Result.Answers[i], oneLine(c.Obstacles[i].Name)
	p := c.where(i)
	at := fmt.Sprintf("%s, at travel %s, rack %s", p.wheel(), withSign(trimZeros(gapCell(p.travel, u))), withSign(trimZeros(gapCell(p.rack, u))))
	if c.Obstacles[i].Carrier == clearance.OnUpright {
		at = ", goes with the wheel"
	}
	switch room.VerdictOf(a) {
	case room.Inside:
		return fmt.Sprintf("%s stands %s INSIDE tyre or rim at rest", name, withUnit(gapCell(-a.Rest, u), u))
	case room.Touches:
		return fmt.Sprintf("TOUCHES %s, %s deep%s", name, withUnit(gapCell(-a.Gap, u), u), at)
	case room.Less:
		return fmt.Sprintf("TOO NEAR %s, %s, wished %s%s", name, withUnit(gapCell(a.Gap, u), u), withUnit(trimZeros(gapCell(a.Wish, u)), u), at)
	}
	return fmt.Sprintf("%s %s, wished %s%s", name, withUnit(gapCell(a.Gap, u), u), withUnit(trimZeros(gapCell(a.Wish, u)), u), at)
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
