package report

import (
	"errors"
	"fmt"
	"math"

	"armscribe/app/job"
	"armscribe/app/tune"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Fitted is the corner that readings taken on the car make most likely.
type Fitted struct {
	Source Source
	Setup  tune.Setup
	Taken  []tune.Taken
	Result bumpsteer.Fitted
	// Predicted is the toe change, rad, that the points as measured predict for
	// each reading; Advice the diagnosis of the points as measured.
	Predicted []float64
	Before    bumpsteer.Diagnosis
	HasBefore bool
}

// FitOf fits one variant of a job without problems to readings; nil for the
// variant's own. asRead takes readings that raise a question as they are;
// leaveOut fits without those that are flagged as bad. Errors match
// tune.ErrDoubt, bumpsteer.ErrReading, ErrTooFewReadings, ErrRange or ErrGauge,
// or name the variant.
func FitOf(j *job.Job, variant int, list []tune.Taken, asRead, leaveOut bool) (*Fitted, error) {
	f := &Fitted{Source: SourceOf(j, variant), Setup: tune.SetupOf(j, variant), Taken: list}
	if list == nil {
		f.Taken = f.Setup.Readings
	}
	if len(f.Taken) == 0 {
		return nil, f.Source.Named(fmt.Errorf("no readings are given: write them down in the job as toe_readings, or name a file of them: %w", bumpsteer.ErrTooFewReadings))
	}
	if doubts := f.Setup.Doubts(f.Taken); len(doubts) > 0 && !asRead {
		return nil, doubtful(doubts)
	}
	readings := tune.BumpsteerReadings(f.Taken)
	var err error
	f.Result, err = bumpsteer.Fit(bumpsteer.FitRequest{Corner: f.Source.Corner, Within: f.Source.Within, Readings: readings, Sigma: f.Setup.Sigma(),
		ZeroFree: true, LeaveOutBad: leaveOut, From: -f.Source.Droop, To: f.Source.Bump})
	if err != nil {
		return nil, f.explain(err)
	}
	f.Before, err = bumpsteer.Diagnose(f.Source.Corner, f.Source.Within, -f.Source.Droop, f.Source.Bump)
	if err != nil && !errors.Is(err, kinematics.ErrUnreachable) {
		return nil, f.Source.Named(err)
	}
	f.HasBefore = err == nil
	return f, f.predict(readings)
}

// doubtful joins the questions, and says what to do.
func doubtful(doubts []tune.Doubt) error {
	errs := make([]error, 0, len(doubts)+1)
	for i := range doubts {
		errs = append(errs, &doubts[i])
	}
	return errors.Join(append(errs, fmt.Errorf("%w: put it right, or take the readings as they are with --as-read", tune.ErrDoubt))...)
}

// explain names the place of readings that cannot be used.
func (f *Fitted) explain(err error) error {
	many, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return f.Source.Named(err)
	}
	var errs []error
	for _, e := range many.Unwrap() {
		var bad *bumpsteer.ReadingError
		if errors.As(e, &bad) {
			e = fmt.Errorf("%s: %w", f.Taken[bad.Index].Place, e)
		}
		errs = append(errs, f.Source.Named(e))
	}
	return errors.Join(errs...)
}

func (f *Fitted) predict(readings []bumpsteer.Reading) error {
	travel := make([]float64, len(readings))
	for i := range readings {
		travel[i] = readings[i].Travel
	}
	curve, err := bumpsteer.ToeCurve(f.Source.Corner, bumpsteer.OverTravel, travel)
	if err != nil {
		return f.Source.Named(err)
	}
	f.Predicted = curve.Toe
	return nil
}

// Variants is the fitted corner as one more variant of the job.
func (f *Fitted) Variants(j *job.Job, variant int) []job.Variant {
	list := tune.Moved(j, variant, "fitted", f.Notes(), f.Result.Corner).Variants[len(j.Variants):]
	f.Teach(&list[0])
	return list
}

// Notes are those of the fitted corner as a variant.
func (f *Fitted) Notes() string {
	return fmt.Sprintf("%s, corrected by %d toe readings on the car: the points that explain them best.", oneLine(f.Source.Variant), f.used())
}

// Teach has the fitted corner as a variant keep the readings, so that its toe curve
// stays known as closely.
func (f *Fitted) Teach(v *job.Variant) {
	v.FittedTo = nil
	for i, r := range f.Result.Residuals {
		if !r.LeftOut {
			v.FittedTo = append(v.FittedTo, f.Taken[i].Kept())
		}
	}
}

func (f *Fitted) used() int {
	n := 0
	for _, r := range f.Result.Residuals {
		if !r.LeftOut {
			n++
		}
	}
	return n
}

// pointKeys are the names of points in files; those of the tie rod as in the
// names of what can be freed.
var pointKeys = map[kinematics.Point]string{
	kinematics.UpperFront: "upper_arm.front_pivot", kinematics.UpperRear: "upper_arm.rear_pivot", kinematics.UpperBall: "upper_arm.ball_joint",
	kinematics.LowerFront: "lower_arm.front_pivot", kinematics.LowerRear: "lower_arm.rear_pivot", kinematics.LowerBall: "lower_arm.ball_joint",
	kinematics.RackEnd: "rack_end", kinematics.OuterEnd: "outer_end", kinematics.HubFace: "hub",
}

func pointKey(c *kinematics.Corner, p kinematics.Point) string {
	switch {
	case p == kinematics.UpperFront && c.Upper.Flat:
		return "upper_arm.pivot"
	case p == kinematics.LowerFront && c.Lower.Flat:
		return "lower_arm.pivot"
	}
	return pointKeys[p]
}

const axisKeys = "xyz"

// wayWords says which way a coordinate was measured wrong, by the sign of its
// correction.
func wayWords(at kinematics.Coordinate, mm float64) string {
	words := [3][2]string{{"too far forward", "too far rearward"}, {"too far out", "too far in"}, {"too high", "too low"}}[at.Axis]
	if mm < 0 {
		return words[0]
	}
	return words[1]
}

// movedShare of its prior deviation is the least correction that tables show.
const movedShare = 0.05

// shown tells whether a correction is worth a line.
func shown(c *bumpsteer.Correction) bool {
	return math.Abs(c.MM) >= movedShare*c.Prior || c.Sigma < (1-movedShare)*c.Prior
}
