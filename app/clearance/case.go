package clearance

import (
	"errors"
	"fmt"

	"armscribe/app/job"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// ErrNoTyre: the code and the rim say too little for a body; for errors.Is.
var ErrNoTyre = errors.New("the tyre's size is not known")

// CaseOf is what a sweep of one variant of a job without problems is about.
// The hub face may stand elsewhere than the variant states it, in a hand: what
// the upright carries goes with it; see Carried. Errors match ErrNoTyre or are
// those of RingOf.
func CaseOf(j *job.Job, variant int, hub kinematics.Vec) (clearance.Case, error) {
	v := &j.Variants[variant]
	body, ok := TyreOf(v)
	if !ok {
		return clearance.Case{}, fmt.Errorf("%w; give a size code and a rim that belong together, as 205/65R15 on 6 in", ErrNoTyre)
	}
	ring, err := RingOf(v, body)
	if err != nil {
		return clearance.Case{}, err
	}
	by := Carried(j, variant, hub)
	c := clearance.Case{Tyre: body, Ring: ring, Obstacles: make([]clearance.Obstacle, len(j.Obstacles))}
	for i := range j.Obstacles {
		c.Obstacles[i] = ObstacleOf(&j.Obstacles[i], by)
	}
	return c, nil
}

// Verdict is how a gap stands to what is wished.
type Verdict uint8

// The verdicts, from fine to impossible.
const (
	Kept Verdict = iota
	Less
	Touches
	Inside // the tyre at rest: one of both is measured wrong
)

var verdictWords = [...]string{"kept", "LESS THAN WISHED", "TOUCHES", "INSIDE TYRE OR RIM AT REST"}

// String returns the verdict in words.
func (v Verdict) String() string { return verdictWords[v] }

// VerdictOf judges an answer.
func VerdictOf(a *clearance.Answer) Verdict {
	switch {
	case a.Rest < 0:
		return Inside
	case a.Gap < 0:
		return Touches
	case !a.Keeps():
		return Less
	}
	return Kept
}
