package report

import (
	"fmt"
	"math"

	"armscribe/app/job"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Way is one of the ways of widening.
type Way uint8

// The ways. Mixed is there only if HasMixed.
const (
	BySpacers Way = iota
	ByArms
	ByBoth
)

// Corner is the corner that a way makes.
func (w *Widened) Corner(way Way) kinematics.Corner {
	return [...]kinematics.Corner{w.Both.Spacers, w.Both.Arms, w.Mixed.Corner}[way]
}

// WayName is the name of a way, also of the variant that holds it.
func (w *Widened) WayName(way Way) string {
	if w.Spec.By < 0 {
		return [...]string{"thinner spacers", "shorter arms", "spacers and shorter arms"}[way]
	}
	return [...]string{"spacers", "longer arms", "spacers and longer arms"}[way]
}

func (w *Widened) wayNotes(way Way) string {
	u, direction := w.Source.Unit, "wider"
	if w.Spec.By < 0 {
		direction = "narrower"
	}
	begin := fmt.Sprintf("%s a side %s than %s ", lengthText(math.Abs(w.Spec.By), u), direction, oneLine(w.Source.Variant))
	switch way {
	case BySpacers:
		return begin + "by the spacer alone."
	case ByArms:
		return begin + "by upright and wheel moved whole, arms and tie rod to suit, rack as it was."
	}
	return begin + fmt.Sprintf("by a spacer of %s altogether and arms %s.", lengthAt(w.Mixed.Spacer, u), withUnit(moveCell(w.Mixed.Arms, u), u))
}

func withUnit(text string, u units.Unit) string { return text + " " + u.String() }

// Variants are the ways as variants of the job from which they were made, in
// the order asked for, each under a free name. ByBoth panics if there is none.
func (w *Widened) Variants(j *job.Job, variant int, ways ...Way) []job.Variant {
	next := j
	for _, way := range ways {
		if way == ByBoth && !w.HasMixed {
			panic("report: no way by both")
		}
		c := w.Corner(way)
		next = tune.Moved(next, variant, w.WayName(way), w.wayNotes(way), c)
		if v := &next.Variants[len(next.Variants)-1]; v.Wheel.Spacer.MM != c.Wheel.Spacer {
			v.Wheel.Spacer = units.Length{MM: c.Wheel.Spacer}
		}
	}
	return next.Variants[len(j.Variants):]
}

// Save writes the job with both proposals as its last variants, spacers first,
// and returns their names.
func (w *Widened) Save(path string, j *job.Job, variant int) (names []string, err error) {
	next := j.Clone()
	next.Variants = append(next.Variants, w.Variants(j, variant, BySpacers, ByArms)...)
	return next.Names()[len(j.Variants):], job.Save(path, next)
}
