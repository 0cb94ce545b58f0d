// Package panels holds the panels around the view: the readings, the table of
// points and the wheel. Each shows an Input and tells its owner what a hand
// wants; none holds the job or changes it.
package panels

import (
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Input is what the panels show. Nothing of it is kept or changed by them: the
// frame may be updated in place between two calls of SetInput.
type Input struct {
	Job     *job.Job
	Variant *job.Variant // the one shown; of Job
	Frame   *frame.Frame // may be nil before the first solution: then there are no readings
	Unit    units.Unit   // of display: Millimetre or Inch
	Targets []Target
	// Proposed: what is compared is not what was before but what may come: changes are
	// those that it would bring.
	Proposed bool
}

// Target is a second line under a reading.
type Target struct {
	Of       kinematics.Quantity
	Verdict  targets.Verdict
	Words    string // "25 to 45 mm: met"
	Sentence string // the same in full
}

// Edit is how a panel asks for a change of the variant shown, under a name for
// Undo such as "type lower ball joint z". An error is shown at the field, and
// the field keeps what was typed.
type Edit func(name string, change func(v *job.Variant)) error

// owner tells variants apart: what was typed for one is not put into another.
func (in *Input) owner() string { return in.Job.Name + "\x00" + in.Variant.Name }
