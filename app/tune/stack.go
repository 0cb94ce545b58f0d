package tune

import (
	"math"
	"slices"
	"strings"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// GuessedRoom is the tallest stack where the job does not say, mm: beyond it no
// one should go without thought.
const GuessedRoom = 25.0

// nearStacks of the advised move are looked at on each side.
const nearStacks = 4

// Stands is by how much the stack that stands under the outer end already raises
// it, mm; below 0 for one over it.
func (s *Setup) Stands() float64 {
	sum := 0.0
	for _, p := range s.Standing {
		sum += p
	}
	if s.Over {
		return -sum
	}
	return sum
}

// SpacerRoom is how far spacers can raise or lower the outer end from its present
// place.
func (s *Setup) SpacerRoom() bumpsteer.Free {
	tallest := s.Tallest
	if tallest == 0 {
		tallest = GuessedRoom
	}
	return bumpsteer.Free{Freedom: bumpsteer.OuterEndHeight, Min: -tallest - s.Stands(), Max: tallest - s.Stands()}
}

// Stacking asks for the stacks that come nearest to raising the outer end of a
// corner by so much, mm, where the present stack stands. They are whole: each takes
// its place, and what is said of height, bolt and rod counts all of it. What stands
// there can be used again. The tallest that fits is the caller's, where the job does
// not say.
func (s *Setup) Stacking(c kinematics.Corner, spacers []bumpsteer.Spacer, raise, tallest float64, g bumpsteer.Goal) bumpsteer.StackRequest {
	c.TieRod.OuterEnd.Z -= s.Stands()
	if s.Tallest > 0 {
		tallest = min(tallest, s.Tallest)
	}
	return bumpsteer.StackRequest{Corner: c, Spacers: s.withStanding(spacers), Raise: raise + s.Stands(), Max: min(tallest, bumpsteer.MaxStack),
		Grip: s.Grip, MaxBolt: s.Bolt, Goal: g}
}

// withStanding adds what stands under the outer end to what there is.
func (s *Setup) withStanding(spacers []bumpsteer.Spacer) []bumpsteer.Spacer {
	list := slices.Clone(spacers)
	for _, p := range s.Standing {
		at := slices.IndexFunc(list, func(k bumpsteer.Spacer) bool { return math.Abs(k.Thickness-p) < sameThickness })
		switch {
		case at < 0:
			list = append(list, bumpsteer.Spacer{Thickness: p, Count: 1})
		case list[at].Count > 0:
			list[at].Count++
		}
	}
	return list
}

// sameThickness, mm: 1/16 in is 1.5875 mm, and no other spacer.
const sameThickness = 1e-3

// StandsAlready tells of the stack that is there now.
func (s *Setup) StandsAlready(k *bumpsteer.Stack) bool {
	return len(s.Standing) > 0 && math.Abs(k.Raise-s.Stands()) < sameThickness
}

// PiecesText is a stack as it is put together, without the unit: "4 + 2".
func PiecesText(pieces []float64, unit units.Unit) string {
	if len(pieces) == 0 {
		return "none"
	}
	list := make([]string, len(pieces))
	for i, p := range pieces {
		list[i] = units.ShortNumber(p, unit)
	}
	return strings.Join(list, " + ")
}

// StandingText is the stack that is there now, with the unit; empty for none.
func (s *Setup) StandingText() string {
	if len(s.Standing) == 0 {
		return ""
	}
	return PiecesText(s.Standing, s.Unit) + " " + s.Unit.String() + pick(s.Over, " over the joint", "")
}

// InPlaceOf says of a stack which one it takes the place of: "4 + 2 mm in place of
// 2.5 mm"; nothing where none stands there.
func (s *Setup) InPlaceOf(k *bumpsteer.Stack) string {
	switch {
	case len(s.Standing) == 0:
		return ""
	case len(k.Pieces) == 0:
		return "no spacer in place of " + s.StandingText()
	case len(s.Spacers) == 0: // in steps that can be built, not of pieces that there are
		return lengthText(k.Height, s.Unit) + pick(k.Raise < 0, " over the joint", "") + " in place of " + s.StandingText()
	}
	return PiecesText(k.Pieces, s.Unit) + " " + s.Unit.String() + pick(k.Raise < 0, " over the joint", "") + " in place of " + s.StandingText()
}

// Put has a variant hold a stack under its outer end; its points are the caller's.
func Put(v *job.Variant, k *bumpsteer.Stack) {
	v.Stack = job.Stack{Over: k.Raise < 0}
	for _, p := range k.Pieces {
		v.Stack.Pieces = append(v.Stack.Pieces, units.Length{MM: p})
	}
}

// BestStack is the first of the table of stacks under the outer end of a corner:
// from the job's spacers or, where it lists none, in steps that can be built. The
// move wished for, mm, need not be exact. False where no stack does better than
// what is there.
func (s *Setup) BestStack(c kinematics.Corner, wish float64, g bumpsteer.Goal) (bumpsteer.Stack, bool) {
	spacers := s.Spacers
	if len(spacers) == 0 {
		spacers = []bumpsteer.Spacer{{Thickness: BuildStep(s.Unit)}}
	}
	tallest := s.Tallest
	if tallest == 0 {
		tallest = max(GuessedRoom, 1.2*math.Abs(wish+s.Stands()))
	}
	q := s.Stacking(c, spacers, wish, tallest, g)
	q.Near = nearStacks
	list, err := bumpsteer.Stacks(q)
	if err != nil || math.Abs(list[0].Raise-s.Stands()) < sameThickness {
		return bumpsteer.Stack{}, false
	}
	if len(s.Spacers) == 0 { // one piece, to be made
		list[0].Pieces = []float64{list[0].Height}[:min(1, len(list[0].Pieces))]
	}
	return list[0], true
}
