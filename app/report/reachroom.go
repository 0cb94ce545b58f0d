package report

import (
	"armscribe/app/job"
	"armscribe/app/room"
)

// look judges the wheel of a way.
func (r *Reached) look(j *job.Job, variant int, a *ReachAnswer) room.Judgement {
	next := j.Clone()
	next.Variants = append(next.Variants, r.made(j, variant, a))
	return room.JudgementOf(next, len(next.Variants)-1, &a.Corner)
}
