package report

import (
	"fmt"

	"armscribe/app/job"
	"armscribe/app/room"
)

// ReachRoom is how the tyre of a way stands to what the job states around it, over
// travel and rack without roll, and the joints to its rim. It is worked out
// coarsely: gaps may be some tenths of a mm too large.
type ReachRoom struct {
	Known   bool
	Touches bool
	// Worst says what touches or comes too near, the worst first, or what is not
	// known; empty where every gap is kept.
	Worst string
}

// notLooked says that nothing is known of a way's clearance.
const notLooked = "clearance not known"

// look carries the tyre of a way through travel and rack.
func (r *Reached) look(j *job.Job, variant int, a *ReachAnswer) (out ReachRoom) {
	next := j.Clone()
	next.Variants = append(next.Variants, r.made(j, variant, a))
	last := len(next.Variants) - 1
	out.Worst = notLooked
	q, err := room.QueryOf(next, last, &a.Corner, 0)
	if err != nil {
		return out // no tyre, or a rim that does not go with it
	}
	var gaps []room.Gap
	unmet := 0
	if len(j.Obstacles) > 0 {
		var live room.Live
		answers, err := live.Look(&q, room.Gaps)
		if err != nil {
			return out
		}
		gaps, unmet = append(gaps, answers.Gaps...), answers.Unmet
	}
	rim, err := room.RimOf(next, last, &a.Corner)
	if err != nil {
		return out
	}
	gaps = append(gaps, rim.Joints...)
	out.Known, out.Worst = true, ""
	var worst *room.Gap
	unkept, unknown := 0, 0
	for i := range gaps {
		g := &gaps[i]
		if g.Err != nil {
			unknown++
			continue
		}
		if g.Verdict() == room.Kept {
			continue
		}
		unkept++
		if worst == nil || harm(&g.Answer, &worst.Answer) < 0 {
			worst = g
		}
	}
	if worst != nil {
		out.Touches, out.Worst = worst.Verdict() != room.Less, r.foul(worst)
		if unkept > 1 {
			out.Worst += fmt.Sprintf(", %d more", unkept-1)
		}
	}
	for _, lack := range []struct {
		is   bool
		text string
	}{{unknown > 0, fmt.Sprintf("%d obstacles not known", unknown)}, {unmet > 0, "not all of travel and rack is reached"}} {
		if lack.is {
			if out.Worst != "" {
				out.Worst += ", "
			}
			out.Worst += lack.text
		}
	}
	return out
}

// foul says what comes too near.
func (r *Reached) foul(g *room.Gap) string {
	u, name := r.Source.Unit, oneLine(g.Obstacle.Name)
	if g.Verdict() == room.Less {
		return fmt.Sprintf("too near %s, ≈ %s of %s", name, withUnit(gapCell(g.Gap, u), u), trimZeros(gapCell(g.Wish, u)))
	}
	return fmt.Sprintf("TOUCHES %s, ≈ %s deep", name, withUnit(gapCell(-min(g.Gap, g.Rest), u), u))
}
