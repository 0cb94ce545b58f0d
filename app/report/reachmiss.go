package report

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics/widen"
)

// specFault is a wish that makes no sense, in words; it matches ErrWidenSpec.
func specFault(format string, args ...any) error { return widenFault(fmt.Sprintf(format, args...)) }

// plainNumber prints a number to a thousandth, with a true minus sign.
func plainNumber(v float64) string {
	return strings.ReplaceAll(strconv.FormatFloat(math.Round(v*1e3)/1e3, 'f', -1, 64), "-", "\u2212")
}

type widenFault string

func (f widenFault) Error() string      { return string(f) }
func (widenFault) Is(target error) bool { return target == ErrWidenSpec }

func scrubFault(most float64) error {
	return specFault("a scrub radius of at most %s mm is not above 0 and at most %s mm; check the number and its unit", plainNumber(most), plainNumber(widen.MaxBy))
}

// ErrUnreached: nothing that may be done leads to the wished track.
var ErrUnreached = errors.New("the wished track is not reached")

// Missed is an error where no way leads to the wish. It names the nearest, says
// by which measure it is that, and what would do.
func (r *Reached) Missed() error {
	n, blocked := r.Reaching()
	if n > 0 {
		return nil
	}
	u, a := r.Source.Unit, &r.Answers[0]
	if blocked > 0 {
		return fmt.Errorf("%w: %d of %d ways would lead there, but the brake does not pass their wheels; take a wheel with a wider barrel, or check the brake's diameter", ErrUnreached, blocked, len(r.Answers))
	}
	measure := "in the track"
	switch {
	case r.Spec.HasScrubMax:
		measure = "that keeps the scrub limit before the track"
		if a.OverScrub != 0 {
			measure = "in the scrub radius, for none keeps its limit"
		}
	case r.Spec.ByFace:
		measure = "in the face"
	}
	err := fmt.Errorf("%w: the nearest %s is %s with %s, %s", ErrUnreached, measure, a.Wheel.quoted(), a.doneWords(u), a.missWords(u, r.Spec.ByFace))
	if cure := r.cure(); cure != "" {
		return fmt.Errorf("%w; %s", err, cure)
	}
	return err
}

// cure says how much more the arms would have to change for one of the ways to
// reach the wish; empty where that alone would not do.
func (r *Reached) cure() string {
	var best *ReachAnswer
	for i := range r.Answers {
		a := &r.Answers[i]
		if a.OverScrub == 0 && a.Wheel.Brake == nil && (best == nil || math.Abs(a.Short) < math.Abs(best.Short)) {
			best = a
		}
	}
	if best == nil || math.Abs(best.Arms+best.Short) > widen.MaxBy {
		return ""
	}
	mark, u := 1.0, r.Source.Unit
	if u == units.Inch {
		const eighth = 25.4 / 8
		mark = eighth
	}
	far := math.Ceil(math.Abs(best.Arms+best.Short)/mark-reachRounding) * mark
	with := " with " + best.Wheel.quoted() + " and " + spacerWords(best.Spacer, u)
	if best.Arms+best.Short < 0 {
		return "allow arms from " + signedLength(-far, u) + with
	}
	return "allow arms to " + signedLength(far, u) + with
}

// reachRounding is what rounding leaves of a whole mark.
const reachRounding = 1e-6

func spacerWords(mm float64, u units.Unit) string {
	if mm == 0 {
		return "no spacer"
	}
	return "a spacer of " + withUnit(lengthCell(mm, u), u)
}

// quoted is the name in a sentence.
func (w *ReachWheel) quoted() string {
	if w.Own {
		return w.Name
	}
	return "“" + w.Name + "”"
}

// DoneWords say what is done for an answer.
func (r *Reached) DoneWords(answer int) string { return r.Answers[answer].doneWords(r.Source.Unit) }

// doneWords say what is done.
func (a *ReachAnswer) doneWords(u units.Unit) string {
	arms := "the arms as they are"
	if a.Arms != 0 {
		arms = "arms " + withUnit(moveCell(a.Arms, u), u)
	}
	return spacerWords(a.Spacer, u) + " and " + arms
}

// missWords say what is missing, as far as the bands of the points leave digits;
// empty where nothing is.
func (a *ReachAnswer) missWords(u units.Unit, byFace bool) string {
	what, farther := "half track", "short"
	if byFace {
		what = "face"
	}
	var list []string
	if a.Short != 0 {
		if a.Short < 0 {
			farther = "too far out"
		}
		list = append(list, what+" "+missText(math.Abs(a.Short), a.TrackBand, u)+" "+farther)
	}
	if a.OverScrub != 0 {
		list = append(list, "scrub radius "+missText(a.OverScrub, a.ScrubBand, u)+" over its limit")
	}
	return strings.Join(list, ", ")
}

// missText prints what is missing, mm, with the digits that its band leaves.
func missText(mm, band float64, u units.Unit) string {
	text := lengthCell(mm, u)
	if band > 0 {
		text, _, _ = strings.Cut(sheet.Banded(sheet.Length, mm, band).Text(u), " ±")
	}
	return withUnit(text, u)
}
