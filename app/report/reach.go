package report

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
	"armscribe/kinematics/tyre"
	"armscribe/kinematics/widen"
)

// ReachSpec is a wished track and what may be done for it; see widen.Wish.
type ReachSpec struct {
	widen.Wish
}

// UsualReach is what may be done unless somebody says else: spacers up to 30 mm,
// arms up to 60 mm longer, in inches 1 1/4 and 2 1/2. Choices of the program's.
func UsualReach(unit units.Unit) widen.Wish {
	if unit == units.Inch {
		return widen.Wish{SpacerMax: 1.25 * 25.4, ArmsMax: 2.5 * 25.4}
	}
	return widen.Wish{SpacerMax: 30, ArmsMax: 60}
}

// ReachWheel is a wheel that may be put on.
type ReachWheel struct {
	Name  string
	Own   bool // the variant's own, which is always there
	Wheel job.Wheel
	Brake error // why the job's brake does not pass; nil where it does
}

// ReachAnswer is one way to the wish. TrackBand and ScrubBand are 95 % bands,
// mm; Scrub is the verdict on the scrub radius, with a limit only.
type ReachAnswer struct {
	widen.Answer
	Wheel                *ReachWheel
	TrackBand, ScrubBand float64
	Scrub                LimitVerdict
	Room                 clearance.Judgement
}

// Reached is what leads to a wished track from one variant, best first.
type Reached struct {
	Source  Source
	Spec    ReachSpec
	Wheels  []ReachWheel
	Left    []string // wheels that were not looked at, and why
	Answers []ReachAnswer
	Around  int // obstacles of the job
}

// ownWheel is the name of the wheel on the variant.
const ownWheel = "its own wheel"

// ReachOf looks for the ways, with the variant's own wheel and those that the
// job lists. Errors match ErrWidenSpec or widen.ErrWiden, or name the variant
// and are those of its geometry.
func ReachOf(j *job.Job, variant int, spec ReachSpec) (*Reached, error) {
	switch {
	case !(spec.To > 0):
		return nil, specFault("a %s of %s mm is not above 0; say where it is to stand from the centre plane", wishName(spec.ByFace), plainNumber(spec.To))
	case spec.HasScrubMax && !(spec.ScrubMax > 0 && spec.ScrubMax <= widen.MaxBy):
		return nil, scrubFault(spec.ScrubMax)
	}
	r := &Reached{Source: SourceOf(j, variant), Spec: spec, Around: len(j.Obstacles)}
	choices, at := r.gather(j, variant)
	if len(choices) == 0 {
		return nil, specFault("no wheel can be looked at: %s", strings.Join(r.Left, "; "))
	}
	wish := spec.Wish
	wish.Mark = markOf(j.Units)
	list, err := widen.Reach(r.Source.Corner, wish, choices)
	if errors.Is(err, widen.ErrWiden) {
		return nil, units.Said(err, r.Source.Unit)
	}
	if err != nil {
		return nil, r.Source.Named(err)
	}
	for i := range list {
		a, err := r.answer(list[i], &r.Wheels[at[list[i].Choice]])
		if err != nil {
			return nil, err
		}
		a.Room = r.look(j, variant, &a)
		r.Answers = append(r.Answers, a)
	}
	slices.SortStableFunc(r.Answers, func(a, b ReachAnswer) int { return cmp.Compare(a.rank(), b.rank()) })
	return r, nil
}

// markOf is what a fabricator who works in a unit can lay out.
func markOf(u units.Unit) widen.Mark {
	if u == units.Inch {
		return widen.ThousandthOfInch
	}
	return widen.HundredthOfMM
}

// gather lists the variant's own wheel and those of the job that stand
// otherwise; at is the place of each choice among them.
func (r *Reached) gather(j *job.Job, variant int) (choices []widen.Choice, at []int) {
	own := &j.Variants[variant].Wheel
	r.Wheels = append(r.Wheels, ReachWheel{Name: ownWheel, Own: true, Wheel: *own})
	for i := range j.Wheels {
		w := j.Wheels[i].On(own, units.Length{})
		if !sameWheel(&w, own) {
			r.Wheels = append(r.Wheels, ReachWheel{Name: oneLine(j.Wheels[i].Name), Wheel: w})
		}
	}
	for i := range r.Wheels {
		w := &r.Wheels[i]
		c, ok := w.choice()
		if !ok && r.Spec.ByFace {
			r.Left = append(r.Left, w.Name+": its tyre and rim have no size that goes together, so its face is not known")
			continue
		}
		w.Brake = brakeOf(j, &w.Wheel)
		choices, at = append(choices, c), append(at, i)
	}
	return choices, at
}

// rank is Judgement.Rank, with what cannot be put on behind all of those, and what
// does not reach the wish behind all.
func (a *ReachAnswer) rank() int {
	const unfit, short = 4, 8 // behind those of Judgement.Rank
	rank := a.Room.Rank()
	if !a.Reaches() && !a.Room.InTheWay() {
		rank = 0 // the nearest counts, not what it would come near to
	}
	if a.Wheel.Brake != nil {
		rank += unfit
	}
	if !a.Reaches() {
		rank += short
	}
	return rank
}

func wishName(byFace bool) string {
	if byFace {
		return "tyre's face"
	}
	return "half track"
}

// sameWheel tells whether two wheels stand alike, whatever the spacer.
func sameWheel(a, b *job.Wheel) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a.Tyre), ""), strings.Join(strings.Fields(b.Tyre), "")) &&
		a.RimWidth.MM == b.RimWidth.MM && a.Offset.MM == b.Offset.MM &&
		a.Loaded() == b.Loaded()
}

// choice is the wheel as package widen asks for it; ok is false where the tyre
// has no size.
func (w *ReachWheel) choice() (c widen.Choice, ok bool) {
	v := job.Variant{Wheel: w.Wheel}
	c = widen.Choice{Offset: w.Wheel.Offset.MM}
	c.LoadedRadius, _ = v.LoadedRadius()
	body, ok := clearance.TyreOf(&v)
	if ok {
		c.Tyre = body
	}
	return c, ok
}

// brakeOf says why the job's brake does not pass through a wheel.
func brakeOf(j *job.Job, w *job.Wheel) error {
	t, err := tyre.Parse(w.Tyre)
	if err != nil || !j.Brake.Diameter.Given {
		return nil
	}
	gap := swept.WishInRim
	if j.Brake.Gap.Given {
		gap = j.Brake.Gap.MM
	}
	return tyre.CheckBrake(t.RimInside().Value, j.Brake.Diameter.MM, gap)
}

// answer adds the bands.
func (r *Reached) answer(a widen.Answer, w *ReachWheel) (ReachAnswer, error) {
	out := ReachAnswer{Answer: a, Wheel: w}
	m, err := kinematics.New(&a.Corner)
	if err != nil {
		return out, r.Source.Named(err)
	}
	bands, err := m.Bands(r.Source.Within, 0, 0)
	if err != nil {
		return out, r.Source.Named(err)
	}
	for q, to := range map[kinematics.Quantity]*float64{kinematics.HalfTrack: &out.TrackBand, kinematics.ScrubRadius: &out.ScrubBand} {
		if b, ok := bands.Of(q); ok && b > sheet.Length.Rounding() {
			*to = b
		}
	}
	if r.Spec.HasScrubMax {
		out.Scrub = limitOf(&Line{Value: a.ScrubRadius, Band: out.ScrubBand}, r.Spec.ScrubMax).Verdict
	}
	return out, nil
}

// Leads tells whether an answer reaches the wish on a wheel that the brake
// passes.
func (a *ReachAnswer) Leads() bool { return a.Reaches() && a.Wheel.Brake == nil }

// Reaching is how many answers lead to the wish; they stand first. Blocked is how
// many would, if the brake passed.
func (r *Reached) Reaching() (n, blocked int) {
	for i := range r.Answers {
		switch a := &r.Answers[i]; {
		case a.Leads():
			n++
		case a.Reaches():
			blocked++
		}
	}
	return n, blocked
}

// Variant is an answer as a variant of the job, under a free name.
func (r *Reached) Variant(j *job.Job, variant, answer int) job.Variant {
	return r.made(j, variant, &r.Answers[answer])
}

func (r *Reached) made(j *job.Job, variant int, a *ReachAnswer) job.Variant {
	from, u := &j.Variants[variant], r.Source.Unit
	var parts []string
	if !a.Wheel.Own {
		parts = append(parts, a.Wheel.Name)
	}
	if a.Arms != 0 {
		parts = append(parts, "arms "+withUnit(moveCell(a.Arms, u), u))
	}
	if a.Spacer != 0 {
		parts = append(parts, "spacer "+withUnit(lengthCell(a.Spacer, u), u))
	}
	if len(parts) == 0 {
		parts = append(parts, "unchanged")
	}
	v := from.Proposal(j.FreeName(strings.Join(parts, ", ")))
	v.Notes = fmt.Sprintf("From %s: %s. Half track %s, scrub radius %s.", oneLine(from.Name), r.WishWords(), lengthAt(a.HalfTrack, u), lengthAt(a.ScrubRadius, u))
	c := a.Corner
	for _, p := range c.Points() {
		v.SetPoint(p, *c.At(p))
	}
	spacer := v.Wheel.Spacer
	v.Wheel = a.Wheel.Wheel
	if v.Wheel.Spacer = spacer; spacer.MM != a.Spacer {
		v.Wheel.Spacer = units.Length{MM: a.Spacer}
	}
	return v
}
