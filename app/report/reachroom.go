package report

import (
	"armscribe/app/clearance"
	"armscribe/app/job"
)

// look judges the wheel of a way.
func (r *Reached) look(j *job.Job, variant int, a *ReachAnswer) clearance.Judgement {
	next := j.Clone()
	next.Variants = append(next.Variants, r.made(j, variant, a))
	return clearance.JudgementOf(next, len(next.Variants)-1, &a.Corner)
}
