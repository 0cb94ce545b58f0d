package clearance

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// Place is where something stands that the wheel must not meet.
type Place uint8

// The places.
const (
	Around Place = iota // an obstacle of the job
	InRim               // a joint on the upright
	Brake
	Face // the wheel's mounting face
)

// Item is how one thing stands that the wheel must not meet.
type Item struct {
	Gap     // of brake and face only Gap, Wish and the name
	Place   Place
	Verdict Verdict
	// Assumed tells that a joint's housing is none of the job's.
	Assumed bool
	// Wrong is what makes it a problem of the job: a touch, or a *tyre.FitError of
	// brake or face. What only an assumed housing makes touch is none.
	Wrong error
}

// Judgement is how a corner stands to all that its wheel must not meet: what the
// job states around it, the joints, the brake and the mounting face in its rim.
// There is no other: whoever shows, checks or ranks a corner goes by it.
type Judgement struct {
	Items   []Item // the worst first; those without an answer last
	Unmet   int    // places of travel and rack out of reach
	Unknown int    // Items without an answer
	Stated  int    // obstacles of the job
	// Err is why gaps are not known at all: it matches ErrNoTyre, or is RingOf's or
	// of a corner that makes no mechanism. Items then are at most the face.
	Err error
}

// JudgementOf judges a corner of one variant of a job without problems as it is
// held, finely, over travel and rack of either wheel. Roll is left out: it brings
// no new place of the wheel.
func JudgementOf(j *job.Job, variant int, c *kinematics.Corner) Judgement {
	var k Judge
	return k.Look(j, variant, c)
}

// Judge judges, and keeps its last answer while nothing changes that it rests on.
// The zero value is ready.
type Judge struct {
	about  Basis
	answer Judgement
	has    bool
}

// Judges judges corners that one variant of a job might get, each once. Make one
// with JudgesOf.
type Judges struct {
	j       *job.Job
	variant int
	known   map[kinematics.Corner]*Judgement
}

// JudgesOf judges for one variant of a job without problems, which must not
// change meanwhile.
func JudgesOf(j *job.Job, variant int) *Judges {
	return &Judges{j, variant, map[kinematics.Corner]*Judgement{}}
}

// Of judges a corner.
func (k *Judges) Of(c kinematics.Corner) *Judgement {
	v := k.known[c]
	if v == nil {
		now := JudgementOf(k.j, k.variant, &c)
		v, k.known[c] = &now, &now
	}
	return v
}

// Rank is that of a corner; see Judgement.Rank.
func (k *Judges) Rank(c kinematics.Corner) int { return k.Of(c).Rank() }

// Basis is what a judgement rests on, to be compared.
type Basis struct {
	query    Query
	wheel    job.Wheel
	brake    job.Brake
	housings job.Housings
	rear     bool
	unit     units.Unit
}

// BasisOf is that of a corner of one variant of a job without problems.
func BasisOf(j *job.Job, variant int, c *kinematics.Corner) Basis {
	q, _ := QueryOf(j, variant, c, 0)
	return Basis{q, j.Variants[variant].Wheel, j.Brake, j.Housings, j.Axle == job.Rear, j.Units}
}

func (k *Basis) same(o *Basis) bool {
	return k.query.Same(&o.query) && k.wheel == o.wheel && k.brake == o.brake && k.housings == o.housings && k.rear == o.rear && k.unit == o.unit
}

// Look is JudgementOf; what it returns is shared and must not be changed.
func (k *Judge) Look(j *job.Job, variant int, c *kinematics.Corner) Judgement {
	about := BasisOf(j, variant, c)
	if k.has && k.about.same(&about) {
		return k.answer
	}
	var a Answers
	rim := Rim{OffsetErr: offsetFits(&j.Variants[variant])}
	m, err := kinematics.New(c)
	if err == nil {
		rim, err = RimOf(j, variant, &m)
	}
	if err == nil {
		err = a.answer(context.Background(), &m, &about.query, Gaps, true)
	}
	k.about, k.answer, k.has = about, judged(j, a.Gaps, a.Unmet, &rim, err), err == nil
	return k.answer
}

// Judge judges by fine gaps that are there already.
func (r *Rim) Judge(j *job.Job, gaps []Gap, unmet int) Judgement {
	return judged(j, gaps, unmet, r, nil)
}

func judged(j *job.Job, gaps []Gap, unmet int, rim *Rim, err error) Judgement {
	out := Judgement{Unmet: unmet, Err: err, Stated: len(j.Obstacles)}
	add := func(g Gap, at Place, wrong error) *Item {
		it := Item{Gap: g, Place: at, Wrong: wrong}
		if g.Err == nil {
			it.Verdict = g.Verdict()
			if at != Around && (it.Verdict == Inside || wrong != nil) {
				it.Verdict = Touches // no place that was measured wrong, or does not go on
			}
		} else {
			out.Unknown++
		}
		out.Items = append(out.Items, it)
		return &out.Items[len(out.Items)-1]
	}
	if rim.OffsetErr != nil {
		add(fitGap("mounting face", -1, 0), Face, rim.OffsetErr)
	}
	if err == nil {
		for i := range gaps {
			it := add(gaps[i], Around, nil)
			it.Wrong = it.touch(j.Units)
		}
		housings := HousingsOf(j)
		for i := range rim.Joints {
			it := add(rim.Joints[i], InRim, nil)
			if it.Assumed = housings[i].Assumed; !it.Assumed {
				it.Wrong = it.touch(j.Units)
			}
		}
		if rim.HasBrake {
			add(fitGap("brake", rim.Brake, rim.BrakeWish), Brake, rim.BrakeErr)
		}
	}
	slices.SortStableFunc(out.Items, func(a, b Item) int { return a.harm(&b) })
	return out
}

func fitGap(name string, gap, wish float64) Gap {
	return Gap{Obstacle: clearance.Obstacle{Name: name, Carrier: clearance.OnUpright}, Answer: clearance.Answer{Gap: gap, Rest: gap, Wish: wish}}
}

// ErrTouches: the wheel touches something over travel and rack; for errors.Is.
var ErrTouches = errors.New("touches")

// touch is an error where the wheel touches the item.
func (it *Item) touch(u units.Unit) error {
	deep := number(-it.Gap.Gap, u) + " " + u.String()
	switch {
	case it.Err != nil:
		return nil
	case it.Verdict == Inside:
		return it.Answer.Err()
	case it.Verdict == Touches && it.Place == InRim:
		return fmt.Errorf("%s %w rim or tyre, %s deep; choose another wheel, or move the joint", it.Obstacle.Name, ErrTouches, deep)
	case it.Verdict == Touches:
		return fmt.Errorf("the tyre %w %s, %s deep, %s; see the gaps", ErrTouches, it.Obstacle.Name, deep, it.Where(u))
	}
	return nil
}

// unfit is 1 for what keeps the wheel from being put on at all.
func (it *Item) unfit() int {
	if (it.Place == Brake || it.Place == Face) && it.Wrong != nil {
		return 1
	}
	return 0
}

// harm orders items, the worst first.
func (it *Item) harm(o *Item) int {
	if (it.Err != nil) != (o.Err != nil) {
		if it.Err != nil {
			return 1
		}
		return -1
	}
	return cmp.Or(o.unfit()-it.unfit(), cmp.Compare(o.Verdict, it.Verdict), cmp.Compare(it.Gap.Gap-it.Wish, o.Gap.Gap-o.Wish))
}

// Verdict is that of the worst item; Kept where there is none.
func (v *Judgement) Verdict() Verdict {
	if len(v.Items) == 0 {
		return Kept
	}
	return v.Items[0].Verdict // without an answer it is Kept
}

// InTheWay tells whether the wheel touches something or cannot be put on, also
// where only an assumed housing says so.
func (v *Judgement) InTheWay() bool { return v.Verdict() >= Touches || v.Problem() != nil }

// Worse is the worst item that stands worse than in another judgement of the same
// job; nil for none.
func (v *Judgement) Worse(than *Judgement) *Item {
	for i := range v.Items {
		it := &v.Items[i]
		same := func(o Item) bool { return o.Place == it.Place && o.Obstacle.Name == it.Obstacle.Name }
		if k := slices.IndexFunc(than.Items, same); it.Verdict != Kept && (k < 0 || than.Items[k].Verdict < it.Verdict) {
			return it
		}
	}
	return nil
}

// Known tells whether every gap is known.
func (v *Judgement) Known() bool { return v.Err == nil && v.Unknown == 0 && v.Unmet == 0 }

// Fine tells that every gap is known and kept.
func (v *Judgement) Fine() bool { return v.Known() && v.Verdict() == Kept }

// Rank orders corners by what stands in their way: 0 for one whose wheel goes free, 1
// for one that comes nearer to something than wished, 2 for one not known, 3 for one
// that touches.
func (v *Judgement) Rank() int {
	switch {
	case v.InTheWay():
		return 3
	case v.Err != nil || v.Unknown > 0:
		return 2
	case v.Verdict() != Kept:
		return 1
	}
	return 0
}

// Problem joins what is a problem of the job; nil for nothing.
func (v *Judgement) Problem() error {
	var errs []error
	for i := range v.Items {
		errs = append(errs, v.Items[i].Wrong)
	}
	return errors.Join(errs...)
}

// Short says how an item stands, as "TOUCHES wing lip, 1.9 mm deep".
func (it *Item) Short(u units.Unit) string {
	name := strings.Join(strings.Fields(it.Obstacle.Name), " ")
	text := ""
	switch {
	case it.Err != nil:
		return name + " not known"
	case it.Place == Face:
		return "mounting face lies OUTSIDE the rim"
	case it.Place == Brake && it.Wrong != nil:
		return fmt.Sprintf("brake does NOT pass, %s %s all round, wished %s", number(it.Gap.Gap, u), u, short(it.Wish, u))
	case it.Verdict == Inside:
		text = fmt.Sprintf("%s stands %s %s INSIDE tyre or rim at rest", name, number(-it.Rest, u), u)
	case it.Verdict == Touches:
		text = fmt.Sprintf("TOUCHES %s, %s %s deep", name, number(-it.Gap.Gap, u), u)
	case it.Verdict == Less:
		text = fmt.Sprintf("TOO NEAR %s, %s %s, wished %s", name, number(it.Gap.Gap, u), u, short(it.Wish, u))
	default:
		text = fmt.Sprintf("%s %s %s, wished %s", name, number(it.Gap.Gap, u), u, short(it.Wish, u))
	}
	if it.Assumed && it.Verdict != Kept {
		text += fmt.Sprintf(" (its housing of %s %s is assumed)", short(2*it.Obstacle.Thick, u), u)
	}
	return text
}

// Long is Short with the place where the gap is least.
func (it *Item) Long(u units.Unit) string {
	if it.Err != nil {
		return it.Short(u) + ": " + Problem(it.Err)
	}
	if it.unfit() > 0 {
		return fitWords(it.Wrong, u)
	}
	if it.Place != Around || !it.Moves() || it.Verdict == Inside {
		return it.Short(u)
	}
	return it.Short(u) + ", " + it.Where(u)
}

// Row says what of a corner is not kept, the worst first, or not known, for a
// row of a list; empty where every gap is known and kept.
func (v *Judgement) Row(u units.Unit) string {
	if v.Fine() {
		return ""
	}
	return v.say(u, (*Item).Short)
}

// Words say how a corner stands in one sentence.
func (v *Judgement) Words(u units.Unit) string {
	text := v.say(u, (*Item).Long)
	if v.Stated == 0 {
		text += "; no obstacles around the wheel are stated"
	}
	return text
}

// NotKnown says that nothing is known of a corner's clearance.
const NotKnown = "clearance not known"

func (v *Judgement) say(u units.Unit, of func(*Item, units.Unit) string) string {
	unkept := 0
	for i := range v.Items {
		if v.Items[i].Verdict != Kept {
			unkept++
		}
	}
	var parts []string
	if unkept > 0 {
		parts = append(parts, of(&v.Items[0], u))
		if unkept > 1 {
			parts = append(parts, fmt.Sprintf("%d more not kept", unkept-1))
		}
	}
	switch {
	case v.Err != nil:
		parts = append(parts, NotKnown+": "+strings.Join(strings.Fields(v.Err.Error()), " "))
	case v.Unknown > 0:
		parts = append(parts, fmt.Sprintf("%d gaps not known", v.Unknown))
	}
	if v.Unmet > 0 {
		parts = append(parts, "not all of travel and rack is reached")
	}
	if len(parts) == 0 {
		parts = append(parts, "every wished gap is kept")
		if len(v.Items) > 0 {
			parts = append(parts, "nearest to its wish "+of(&v.Items[0], u))
		}
	}
	return strings.Join(parts, "; ")
}
