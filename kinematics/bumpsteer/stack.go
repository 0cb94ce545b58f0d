package bumpsteer

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"armscribe/kinematics"
)

// Sizes of the spacer plan.
const (
	// TallStack is the height, mm, above which a stack is marked as tall: about
	// the diameter of the stud or bolt that it lengthens. A stud in single
	// shear bends more the farther out the joint sits. Common practice, no source.
	TallStack = 12.0
	// MaxStack is the tallest stack that is planned at all, mm.
	MaxStack = 200.0
	// stacksLooked at on each side of the wished height, and stacksGiven.
	stacksLooked, stacksGiven = 15, 5
	// Heights are counted in whole fineUnits of a mm, in which 1/64 inch is a
	// whole number too. Where the thicknesses have no common measure to speak
	// of, so that more than mostHeights would have to be counted, in whole
	// coarseUnits: a thousandth of a mm, finer than any washer is ground.
	fineUnits, coarseUnits = 1_000_000, 1000
	mostHeights            = 200_000
	// sameChange, rad: two stacks whose toe changes differ by less are equally
	// good, and the one of fewer pieces goes first. A ten-thousandth of a
	// degree is a two-thousandth of a mm at the rim.
	sameChange = 2e-6
)

// Spacer is a thickness that the shop has.
type Spacer struct {
	Thickness float64 // mm
	Count     int     // how many there are; 0 for as many as wanted
}

// StackRequest is what Stacks is asked for.
type StackRequest struct {
	Corner  kinematics.Corner // without the stack
	Spacers []Spacer
	Raise   float64 // mm, wished move of the outer end, negative to lower it
	Max     float64 // mm, tallest stack that fits
	// Grip is what the bolt clamps without the stack, nut included, mm, and
	// MaxBolt the longest bolt there is; zero for either leaves bolts out.
	Grip, MaxBolt float64
	Goal          Goal
	// Near is how many heights on each side of the wish are looked at for the best
	// alone, without Rank; 0 for as many as are worth a list.
	Near int
	// Rank says what of the corner with a stack stands in the way of it: a stack
	// of a higher rank comes behind all of a lower one, above 0. What stands in the
	// way without any stack puts none behind. nil ranks all alike.
	Rank func(kinematics.Corner) int
}

// Stack is one way to stack spacers.
type Stack struct {
	Pieces  []float64 // mm, thickest first
	Height  float64   // mm
	Raise   float64   // mm, Height with the sign of the wish
	Tall    bool      // taller than TallStack: single shear, have it checked
	Bolt    float64   // mm, grip and stack; zero when no grip was given
	Rod     float64   // mm, length of the rod, end to end, cut for this stack
	Measure Measure   // with the outer end moved by Raise and the rod cut
}

// Errors of the spacer plan.
var (
	ErrSpacers = errors.New("the list of spacers cannot be used")
	ErrStack   = errors.New("the tallest stack cannot be used")
)

// Stacks returns the five stacks with the least distance from the goal, best
// first, among those nearest to the wished raise within the greatest height;
// ties go to fewer pieces, then to the lower stack. Those that q.Rank puts behind
// come behind, however little toe they leave. No stack at all counts as
// one of them. Each height is made of as few pieces as can be. Stacks with
// which the corner does not reach over the range are left out.
//
// A raise is made on one side of the steering arm and a lowering on the other;
// a stack on both sides is not planned. Errors: ErrSpacers, ErrStack, ErrRange,
// and, when no stack reaches, the first error of ToeCurve.
func Stacks(q StackRequest) ([]Stack, error) {
	if err := q.check(); err != nil {
		return nil, err
	}
	side, wish := 1.0, q.Raise
	if wish < 0 {
		side, wish = -1, -wish
	}
	limit := q.Max
	if q.MaxBolt > 0 {
		limit = min(limit, q.MaxBolt-q.Grip)
	}
	var list []Stack
	var first error
	heights := nearestStacks(q.Spacers, wish, limit, q.Near)
	if q.Near > 0 { // the likely ones first
		slices.SortStableFunc(heights, func(a, b []float64) int { return cmp.Compare(math.Abs(sum(a)-wish), math.Abs(sum(b)-wish)) })
	}
	for _, pieces := range heights {
		s := Stack{Pieces: pieces, Height: sum(pieces)}
		s.Raise, s.Tall = side*s.Height, s.Height > TallStack
		if q.Grip > 0 {
			s.Bolt = q.Grip + s.Height
		}
		c := q.Corner
		c.TieRod.OuterEnd.Z += s.Raise
		if q.Near > 0 && q.Rank == nil && q.hopeless(c, list) {
			continue
		}
		var err error
		if s.Measure, err = Measured(c, q.Goal); err != nil {
			if first == nil {
				first = err
			}
			continue
		}
		s.Rod = rodLength(&c)
		list = append(list, s)
	}
	if len(list) == 0 {
		return nil, first
	}
	sort.SliceStable(list, func(i, j int) bool {
		a, b := &list[i], &list[j]
		if ra, rb := graded(a.Measure.Largest), graded(b.Measure.Largest); ra != rb {
			return ra < rb
		}
		if len(a.Pieces) != len(b.Pieces) {
			return len(a.Pieces) < len(b.Pieces)
		}
		return a.Height < b.Height
	})
	list = q.inFront(list)
	return list[:min(len(list), stacksGiven)], nil
}

// graded counts a toe in whole multiples of sameChange, so that the order is the same
// whichever way two stacks are compared.
func graded(toe float64) float64 { return math.Round(toe / sameChange) }

func sum(pieces []float64) (height float64) {
	for _, p := range pieces {
		height += p
	}
	return height
}

// hopeless tells that a corner is further from the goal at an end of the range than one
// of the stacks so far is anywhere: it is not the best. Two places are looked at instead
// of a curve, for a hand asks in every frame.
func (q *StackRequest) hopeless(c kinematics.Corner, list []Stack) bool {
	ends, err := ToeCurve(c, q.Goal.Over, []float64{q.Goal.From, q.Goal.To})
	if err != nil {
		return false
	}
	most := 0.0
	for i, h := range ends.At {
		most = max(most, graded(math.Abs(ends.Toe[i]-q.Goal.Slope*h)))
	}
	return slices.ContainsFunc(list, func(s Stack) bool { return graded(s.Measure.Largest) < most })
}

// inFront puts stacks of a lower rank first, each rank in its order. It asks no
// more than it must: a rank is costly.
func (q *StackRequest) inFront(list []Stack) []Stack {
	if q.Rank == nil {
		return list
	}
	none := q.Rank(q.Corner)
	by := map[int][]Stack{}
	var ranks []int
	for _, s := range list {
		c := q.Corner
		c.TieRod.OuterEnd.Z += s.Raise
		r := max(none, q.Rank(c))
		if by[r] == nil {
			ranks = append(ranks, r)
		}
		by[r] = append(by[r], s)
		if len(by[none]) == stacksGiven {
			break
		}
	}
	sort.Ints(ranks)
	var out []Stack
	for _, r := range ranks {
		out = append(out, by[r]...)
	}
	return out
}

func (q *StackRequest) check() error {
	var errs []error
	if len(q.Spacers) == 0 {
		errs = append(errs, fmt.Errorf("no spacers are given: list the thicknesses the shop has: %w", ErrSpacers))
	}
	for _, s := range q.Spacers {
		switch {
		case !(s.Thickness*coarseUnits >= 1 && s.Thickness <= MaxStack):
			errs = append(errs, fmt.Errorf("spacer of %.4g mm: must be between 0.001 and %g mm thick: %w", s.Thickness, MaxStack, ErrSpacers))
		case s.Count < 0:
			errs = append(errs, fmt.Errorf("spacer of %.4g mm: there cannot be %d of it: %w", s.Thickness, s.Count, ErrSpacers))
		}
	}
	if !(q.Max > 0 && q.Max <= MaxStack) {
		errs = append(errs, fmt.Errorf("tallest stack %.4g mm: must be above 0 and at most %g mm: %w", q.Max, MaxStack, ErrStack))
	}
	if !(q.Grip >= 0 && q.MaxBolt >= 0) || q.MaxBolt > 0 && q.MaxBolt < q.Grip {
		errs = append(errs, fmt.Errorf("longest bolt %.4g mm for a grip of %.4g mm: the bolt must be the longer: %w", q.MaxBolt, q.Grip, ErrStack))
	}
	if !(math.Abs(q.Raise) <= kinematics.MaxLength) {
		errs = append(errs, fmt.Errorf("wished raise %g mm: must be within ±10 m: %w", q.Raise, ErrStack))
	}
	errs = append(errs, q.Goal.check())
	return errors.Join(errs...)
}

// nearestStacks returns the pieces of the heights nearest to the wish, each of
// the fewest pieces, up to near at or below it and as many above.
func nearestStacks(spacers []Spacer, wish, limit float64, near int) [][]float64 {
	if near == 0 {
		near = stacksLooked
	}
	list := append([]Spacer(nil), spacers...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].Thickness > list[j].Thickness })
	units, step, perMM := count(list, fineUnits)
	top := int(math.Floor(limit*perMM+0.5)) / step
	if top > mostHeights {
		units, step, perMM = count(list, coarseUnits)
		top = int(math.Floor(limit*perMM+0.5)) / step
	}
	table := fewest(list, units, step, top)
	fits := func(h int) bool { return table[len(list)][h] != none }
	var heights []int
	target := wish * perMM / float64(step)
	below := int(min(float64(top), target))
	for h, n := below, 0; h >= 0 && n < near; h-- {
		if fits(h) {
			heights = append(heights, h)
			n++
		}
	}
	for h, n := below+1, 0; h <= top && n < near; h++ {
		if fits(h) {
			heights = append(heights, h)
			n++
		}
	}
	sort.Ints(heights)
	stacks := make([][]float64, len(heights))
	for i, h := range heights {
		stacks[i] = pieces(list, units, step, table, h)
	}
	return stacks
}

// count returns the thicknesses in whole units and their common measure.
func count(list []Spacer, perMM float64) (units []int, step int, unit float64) {
	units = make([]int, len(list))
	for k, s := range list {
		units[k] = int(math.Round(s.Thickness * perMM))
		step = divisor(step, units[k])
	}
	return units, step, perMM
}

func divisor(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// none marks a height that cannot be made; no stack has so many pieces.
const none = math.MaxInt32

// fewest returns, for the first k spacers, the fewest pieces that make each
// height, in steps: table[k][h].
func fewest(list []Spacer, units []int, step, top int) [][]int32 {
	table := make([][]int32, len(list)+1)
	table[0] = make([]int32, top+1)
	for h := 1; h <= top; h++ {
		table[0][h] = none
	}
	for k, s := range list {
		before, now, u := table[k], make([]int32, top+1), units[k]/step
		for h := range now {
			now[h] = before[h]
			if s.Count == 0 { // one more of the same
				if h >= u && now[h-u] != none {
					now[h] = min(now[h], now[h-u]+1)
				}
				continue
			}
			for n := 1; n <= s.Count && n*u <= h; n++ {
				if b := before[h-n*u]; b != none {
					now[h] = min(now[h], b+int32(n))
				}
			}
		}
		table[k+1] = now
	}
	return table
}

// pieces reads the pieces of a height back from the table, thickest first;
// where two choices need equally many, the thinner spacers are left out.
func pieces(list []Spacer, units []int, step int, table [][]int32, h int) []float64 {
	var thin []float64
	for k := len(list); k > 0; k-- {
		u := units[k-1] / step
		for n := 0; n*u <= h; n++ {
			if b := table[k-1][h-n*u]; b != none && b+int32(n) == table[k][h] {
				for range n {
					thin = append(thin, list[k-1].Thickness)
				}
				h -= n * u
				break
			}
		}
	}
	for i, j := 0, len(thin)-1; i < j; i, j = i+1, j-1 {
		thin[i], thin[j] = thin[j], thin[i]
	}
	return thin
}
