package widen

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// Choice is a wheel that can be had, with its tyre on it.
type Choice struct {
	Offset       float64        // mm
	Tyre         clearance.Tyre // for the face; may be zero if the wish is a track
	LoadedRadius float64        // mm, 0 for that of the corner
}

// Order is what makes one answer better than another.
type Order uint8

// The orders. Both put answers that reach the wish first.
const (
	LeastScrub Order = iota // then thin spacers, then short arms
	LeastArms               // then least scrub radius, then thin spacers
)

// Wish is what a wider track is to come to at rest, and within what.
type Wish struct {
	// To is the wished half track, mm, or with ByFace the wished y of the
	// tyre's outer face over its upper half, flush with the wing's edge.
	To     float64
	ByFace bool
	// ScrubMax is the largest scrub radius, either way, mm; only if HasScrubMax.
	ScrubMax    float64
	HasScrubMax bool
	// A spacer is none, or between SpacerMin and SpacerMax, mm thick in all.
	SpacerMin, SpacerMax float64
	// The arms may grow by ArmsMin (below zero: shrink) to ArmsMax, mm.
	ArmsMin, ArmsMax float64
	Order            Order
	// Mark is what answers are laid out in; a wish missed by no more than one
	// is met. Limits are kept to the last digit wherever a mark lies within them.
	Mark Mark
}

// Answer is one way to the wish.
type Answer struct {
	Choice int     // index of the wheel
	Spacer float64 // mm, in all
	Arms   float64 // mm by which the upright moves out
	// What comes of it, mm.
	HalfTrack, Face, ScrubRadius float64
	HasFace                      bool // the wheel's tyre is known
	// What is missing, mm: the wish is Short farther out (below zero: in), and
	// the scrub radius is OverScrub more than its limit. Both 0 if it is reached.
	Short, OverScrub float64
	Corner           kinematics.Corner // with all of it done
}

// Reaches tells whether nothing is missing.
func (a *Answer) Reaches() bool { return a.Short == 0 && a.OverScrub == 0 }

// Tolerances of the search.
const (
	// sameLength, mm: below the thinnest shim; a wish met so closely is met.
	sameLength = 1e-6
	// trialSpacer, mm, measures how track and scrub radius follow the spacer;
	// both do so in a straight line, so that any length serves.
	trialSpacer = 100.0
	// likeScrub, mm: scrub radii that count as alike in ranking: they print alike.
	likeScrub = 0.1
	// likeSpacer, mm: spacers of one wheel that count as alike, half of what a tape
	// measures.
	likeSpacer = 0.5
)

// Reach returns the ways to the wish, best first: for each wheel the one with
// the thinnest spacer, the one with the least change of the arms and the one with
// the least scrub radius, where they differ.
// Wheels that cannot reach it give the nearest they can, the scrub limit kept
// before the track, behind all those that do.
//
// At rest the contact centre moves along the spin axis with the spacer, and G
// with its height along the steering axis, so half track, face and scrub
// radius are linear in the spacer, and the arms add to y alone. The answer is
// exact, and what it says is true of it as laid out in marks.
//
// Errors: those of kinematics.New for a wheel that makes no corner; a
// *clearance.TyreError for one whose tyre makes none, where the wish is a face;
// one that matches ErrWiden for limits that make no sense.
func Reach(c kinematics.Corner, w Wish, wheels []Choice) ([]Answer, error) {
	if err := w.check(); err != nil {
		return nil, err
	}
	var list []Answer
	for i := range wheels {
		l, err := lineOf(c, &wheels[i], w.ByFace)
		if err != nil {
			return nil, fmt.Errorf("wheel %d: %w", i+1, err)
		}
		l.choice = i
		list = append(list, l.answers(&w)...)
	}
	slices.SortStableFunc(list, w.compare)
	return list, nil
}

func (w *Wish) check() error {
	for _, v := range []struct {
		name       string
		x, low, up float64
	}{
		{"the wished place", w.To, 0, kinematics.MaxLength},
		{"the thinnest spacer", w.SpacerMin, 0, w.SpacerMax},
		{"the thickest spacer", w.SpacerMax, 0, MaxBy},
		{"the shortest the arms may grow", w.ArmsMin, -MaxBy, w.ArmsMax},
		{"the most the arms may grow", w.ArmsMax, -MaxBy, MaxBy},
		{"the largest scrub radius", w.ScrubMax, 0, kinematics.MaxLength},
	} {
		if !(v.x >= v.low && v.x <= v.up) {
			return faultOf(v.name+", %s, is not between %s and %s; check the number and its unit", v.x, v.low, v.up)
		}
	}
	return nil
}

// compare orders answers, best first.
func (w *Wish) compare(a, b Answer) int {
	if d := cmp.Compare(math.Round(a.OverScrub/likeScrub), math.Round(b.OverScrub/likeScrub)); d != 0 {
		return d
	}
	if d := cmp.Compare(math.Round(math.Abs(a.Short)/likeScrub), math.Round(math.Abs(b.Short)/likeScrub)); d != 0 {
		return d
	}
	scrub := cmp.Compare(math.Round(math.Abs(a.ScrubRadius)/likeScrub), math.Round(math.Abs(b.ScrubRadius)/likeScrub))
	arms := cmp.Compare(math.Abs(a.Arms), math.Abs(b.Arms))
	if w.Order == LeastArms {
		return cmp.Or(arms, scrub, cmp.Compare(a.Spacer, b.Spacer))
	}
	return cmp.Or(scrub, cmp.Compare(a.Spacer, b.Spacer), arms)
}

// line is how one wheel stands as its spacer grows, arms unchanged: values at
// no spacer, and more for each mm of it.
type line struct {
	choice                  int
	corner                  kinematics.Corner // without spacer
	track, face, scrub      float64
	trackBy, faceBy, scrubT float64
	hasFace, byFace         bool
}

func lineOf(c kinematics.Corner, wheel *Choice, byFace bool) (line, error) {
	c.Wheel.Offset, c.Wheel.Spacer = wheel.Offset, 0
	if wheel.LoadedRadius != 0 {
		c.Wheel.LoadedRadius = wheel.LoadedRadius
	}
	l := line{corner: c, byFace: byFace}
	if byFace || wheel.Tyre != (clearance.Tyre{}) {
		if err := wheel.Tyre.Validate(); err != nil {
			return line{}, err
		}
		l.hasFace = true
	}
	at := func(spacer float64) (track, face, scrub float64, err error) {
		n := Spacers(c, spacer)
		m, err := kinematics.New(&n)
		if err != nil {
			return 0, 0, 0, err
		}
		p, err := m.At(0, 0)
		if err != nil {
			return 0, 0, 0, err
		}
		if l.hasFace {
			face = wheel.Tyre.Face(&p)
		}
		r := p.Readings()
		scrub, ok := r.Of(kinematics.ScrubRadius)
		if !ok {
			return 0, 0, 0, faultOf("the steering axis does not meet the ground: there is no scrub radius; check the ball joints")
		}
		return p.Contact.Y, face, scrub, nil
	}
	var err error
	if l.track, l.face, l.scrub, err = at(0); err != nil {
		return line{}, err
	}
	track, face, scrub, err := at(trialSpacer)
	if err != nil {
		return line{}, err
	}
	l.trackBy, l.faceBy, l.scrubT = (track-l.track)/trialSpacer, (face-l.face)/trialSpacer, (scrub-l.scrub)/trialSpacer
	return l, nil
}

// place is what is wished, with a spacer and no longer arms.
func (l *line) place(spacer float64) float64 {
	if l.byFace {
		return l.face + l.faceBy*spacer
	}
	return l.track + l.trackBy*spacer
}

// slope of place by spacer.
func (l *line) slope() float64 {
	if l.byFace {
		return l.faceBy
	}
	return l.trackBy
}

// interval is closed; low above high is empty.
type interval struct{ low, high float64 }

func (i interval) and(o interval) interval { return interval{max(i.low, o.low), min(i.high, o.high)} }
func (i interval) empty() bool             { return i.low > i.high+sameLength }
func (i interval) clamp(x float64) float64 { return max(i.low, min(x, i.high)) }

// where returns the x at which a + b x lies between low and high; b is not 0.
func where(a, b, low, high float64) interval {
	x, y := (low-a)/b, (high-a)/b
	return interval{min(x, y), max(x, y)}
}

// answers returns those of one wheel, as of Reach, or the nearest one.
func (l *line) answers(w *Wish) []Answer {
	everywhere := interval{-kinematics.MaxLength, kinematics.MaxLength}
	calm := everywhere
	if w.HasScrubMax && l.scrubT != 0 {
		calm = where(l.scrub, l.scrubT, -w.ScrubMax, w.ScrubMax)
	}
	// With the arms between their limits the spacer must make up the rest.
	arms := where(l.place(0), l.slope(), w.To-w.ArmsMax, w.To-w.ArmsMin)
	var list []Answer
	var nearest *Answer
	for _, spacers := range []interval{{0, 0}, {w.SpacerMin, w.SpacerMax}} {
		if reach := spacers.and(calm).and(arms); !reach.empty() {
			places := []float64{reach.low, reach.clamp((w.To - l.place(0)) / l.slope())}
			if l.scrubT != 0 {
				places = append(places, reach.clamp(-l.scrub/l.scrubT))
			}
			for _, p := range places {
				list = append(list, l.answer(w, w.Mark.into(p, reach, spacers.and(calm), spacers)))
			}
			continue
		}
		// The scrub limit first, then as near as the spacer comes.
		p := spacers.clamp(calm.clamp(spacers.clamp(arms.clamp(spacers.low))))
		if a := l.answer(w, w.Mark.into(p, spacers.and(calm), spacers)); nearest == nil || w.compare(a, *nearest) < 0 {
			nearest = &a
		}
	}
	if len(list) == 0 {
		return []Answer{*nearest}
	}
	slices.SortStableFunc(list, w.compare) // of those alike the best stays
	var apart []Answer
	for _, a := range list {
		if !slices.ContainsFunc(apart, func(b Answer) bool { return math.Abs(a.Spacer-b.Spacer) < likeSpacer }) {
			apart = append(apart, a)
		}
	}
	return apart
}

// answer works out one spacer, with the arms as near as they come.
func (l *line) answer(w *Wish, spacer float64) Answer {
	limits, met := interval{w.ArmsMin, w.ArmsMax}, sameLength+w.Mark.length()
	arms := limits.clamp(w.To - l.place(spacer))
	if math.Abs(arms) < w.Mark.length() {
		arms = limits.clamp(0) // nobody makes arms for the rounding of a spacer
	}
	arms = w.Mark.into(arms, limits)
	a := Answer{Choice: l.choice, Spacer: spacer, Arms: arms, HasFace: l.hasFace,
		HalfTrack: l.track + l.trackBy*spacer + arms, ScrubRadius: l.scrub + l.scrubT*spacer,
		Short: w.To - l.place(spacer) - arms, Corner: Arms(Spacers(l.corner, spacer), arms)}
	if l.hasFace {
		a.Face = l.face + l.faceBy*spacer + arms
	}
	if math.Abs(a.Short) < met {
		a.Short = 0
	}
	if w.HasScrubMax {
		if a.OverScrub = math.Abs(a.ScrubRadius) - w.ScrubMax; a.OverScrub < met {
			a.OverScrub = 0
		}
	}
	return a
}
