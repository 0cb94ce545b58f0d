package report

import (
	"errors"

	"armscribe/app/job"
	"armscribe/app/room"
)

// Room says, one a line, how the tyre of a variant of a job without problems
// stands to the job's obstacles over travel and rack, without roll, and how brake
// and mounting face fit the rim; none where the job states nothing of them. The
// error tells what is a problem of its own: an obstacle inside the tyre at rest, a
// brake that does not pass, a mounting face outside the rim.
func Room(j *job.Job, variant int) (lines []string, problem error) {
	s := SourceOf(j, variant)
	rim := room.WheelFit(j, &j.Variants[variant])
	var errs []error
	if len(j.Obstacles) > 0 {
		var c WayClearance
		c.Gaps, c.Err = ClearanceOf(j, variant, 0)
		lines = append(lines, "tyre of "+oneLine(s.Variant)+": "+c.words(s.Unit))
		if c.Err == nil {
			errs = append(errs, c.Gaps.outside())
		}
	}
	if rim.HasBrake && rim.BrakeErr == nil {
		lines = append(lines, "brake of "+oneLine(s.Variant)+": "+rim.BrakeWords(s.Unit)+", by the barrel's estimate")
	}
	return lines, errors.Join(append(errs, s.rimProblems(&rim))...)
}
