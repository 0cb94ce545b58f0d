package report

import (
	"fmt"
	"math"
	"strings"

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

// Has tells whether there is a way.
func (w *Widened) Has(way Way) bool {
	return [...]bool{w.Both.HasSpacers, true, w.HasMixed}[way]
}

// VariantName is the name of the variant that holds a way, with its amount.
func (w *Widened) VariantName(way Way) string {
	u := w.Source.Unit
	switch way {
	case BySpacers:
		return "spacers " + signedLength(w.Spec.By, u)
	case ByArms:
		return "arms " + signedLength(w.Spec.By, u)
	}
	return "spacer " + withUnit(lengthCell(w.Mixed.Spacer, u), u) + ", arms " + withUnit(moveCell(w.Mixed.Arms, u), u)
}

// NoSpacersWords say why there is no way by spacers; empty where there is one.
func (w *Widened) NoSpacersWords() string {
	if w.Both.HasSpacers {
		return ""
	}
	u, has, by := w.Source.Unit, w.Source.Corner.Wheel.Spacer, -w.Spec.By
	begin := upperFirst(w.WayName(BySpacers)) + ": not possible. "
	if has <= 0 {
		return begin + fmt.Sprintf("There is no spacer to take away; a wheel with %s more offset does the same.", lengthText(by, u))
	}
	return begin + fmt.Sprintf("The spacer of %s is thinner than the %s to take away; a wheel with more offset can do the rest.", lengthText(has, u), lengthText(by, u))
}

func upperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// WayName is the name of a way.
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
	return begin + fmt.Sprintf("by a spacer of %s altogether and arms %s.", withUnit(lengthCell(w.Mixed.Spacer, u), u), withUnit(moveCell(w.Mixed.Arms, u), u))
}

func withUnit(text string, u units.Unit) string { return text + " " + u.String() }

// Variants are the ways as variants of the job from which they were made, in
// the order asked for, each under a free name. A way that is not there panics.
func (w *Widened) Variants(j *job.Job, variant int, ways ...Way) []job.Variant {
	next := j
	for _, way := range ways {
		if !w.Has(way) {
			panic(fmt.Sprintf("report: no way %d", way))
		}
		c := w.Corner(way)
		next = tune.Moved(next, variant, w.VariantName(way), w.wayNotes(way), c)
		if v := &next.Variants[len(next.Variants)-1]; v.Wheel.Spacer.MM != c.Wheel.Spacer {
			v.Wheel.Spacer = units.Length{MM: c.Wheel.Spacer}
		}
	}
	return next.Variants[len(j.Variants):]
}

// Ways are the proposals that there are, spacers first.
func (w *Widened) Ways() []Way {
	if w.Both.HasSpacers {
		return []Way{BySpacers, ByArms}
	}
	return []Way{ByArms}
}
