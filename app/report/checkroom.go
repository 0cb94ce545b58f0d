package report

import (
	"armscribe/app/clearance"
	"armscribe/app/job"
)

// Room judges the wheel of a variant of a job without problems against all that
// it must not meet, and says so in lines. problem is what of it is one of the job.
func Room(j *job.Job, variant int) (v clearance.Judgement, lines []string, problem error) {
	s := SourceOf(j, variant)
	v = clearance.JudgementOf(j, variant, &s.Corner)
	return v, []string{"wheel of " + oneLine(s.Variant) + ": " + v.Words(s.Unit)}, s.namedEach(v.Problem())
}
