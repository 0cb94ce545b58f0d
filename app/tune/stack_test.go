package tune

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// What is advised does not depend on what stands under the joint while the points
// are measured: a stack put there and measured with gives the same stacks, bolts and
// rods as none.
func TestAStackThatStandsThereChangesNothing(t *testing.T) {
	const seed = 411
	r := rand.New(rand.NewPCG(seed, 1))
	stock := []bumpsteer.Spacer{{Thickness: 0.5}, {Thickness: 1}, {Thickness: 2.5}, {Thickness: 4}}
	goal := bumpsteer.Goal{From: -40, To: 45}
	_, sample := setup(t, "../../testdata/job/format-1.5.armscribe.yaml")
	compared := 0
	for range 30 {
		c := sample.Corner
		for _, at := range c.Coordinates() {
			c.Shift(at, 16*r.Float64()-8)
		}
		bare := Setup{Corner: c, Spacers: stock, Grip: 31, Bolt: 60, Unit: units.Millimetre}
		if r.IntN(2) == 0 {
			bare.Tallest = float64(6 + r.IntN(10))
		}
		raise := 16*r.Float64() - 8
		want, err := bumpsteer.Stacks(bare.Stacking(bare.Corner, stock, raise, 20, goal))
		if err != nil {
			continue
		}
		stood := bare
		stood.Over = r.IntN(2) == 0
		for range 1 + r.IntN(3) {
			stood.Standing = append(stood.Standing, stock[r.IntN(len(stock))].Thickness)
		}
		stood.Corner.TieRod.OuterEnd.Z += stood.Stands()
		got, err := bumpsteer.Stacks(stood.Stacking(stood.Corner, stock, raise-stood.Stands(), 20, goal))
		if err != nil || len(got) != len(want) {
			t.Fatalf("seed %d: %d stacks for %d: %v", seed, len(got), len(want), err)
		}
		for i := range got {
			g, w := &got[i], &want[i]
			if !slices.Equal(g.Pieces, w.Pieces) || g.Raise != w.Raise || g.Bolt != w.Bolt || math.Abs(g.Rod-w.Rod) > 1e-9 || g.Bolt != 31+g.Height {
				t.Errorf("seed %d: %+v with %v there, %+v without", seed, g, stood.Standing, w)
			}
			if stood.StandsAlready(g) != (math.Abs(g.Raise-stood.Stands()) < 1e-9) {
				t.Errorf("seed %d: %+v stands there already? %v do", seed, g, stood.Standing)
			}
			if bare.Tallest > 0 && g.Height > bare.Tallest {
				t.Errorf("seed %d: %g mm, more than the tallest of %g", seed, g.Height, bare.Tallest)
			}
		}
		compared++
		// The move that a cure may make ends where the tallest stack does.
		if bare.Tallest > 0 {
			f := stood.CureRequest([]bumpsteer.Free{{Freedom: bumpsteer.OuterEndHeight, Min: -90, Max: 90}}, goal).Free[0]
			near(t, "the most it may go up", f.Max+stood.Stands(), bare.Tallest, 1e-12)
			near(t, "the most it may go down", f.Min+stood.Stands(), -bare.Tallest, 1e-12)
		}
	}
	if compared < 20 {
		t.Errorf("%d compared", compared)
	}
}

// What stands there can be used again, each piece once; and what is kept says what
// then stands there.
func TestStandingPieces(t *testing.T) {
	s := Setup{Spacers: []bumpsteer.Spacer{{Thickness: 2, Count: 1}, {Thickness: 4}}, Standing: []float64{2, 0.5}, Unit: units.Millimetre}
	got := fmt.Sprint(s.withStanding(s.Spacers))
	if want := fmt.Sprint([]bumpsteer.Spacer{{Thickness: 2, Count: 2}, {Thickness: 4}, {Thickness: 0.5, Count: 1}}); got != want || s.Spacers[0].Count != 1 {
		t.Errorf("%s, want %s", got, want)
	}
	k := bumpsteer.Stack{Pieces: []float64{4, 2}, Height: 6, Raise: 6}
	if got := s.InPlaceOf(&k); got != "4 + 2 mm in place of 2 + 0.5 mm" {
		t.Error(got)
	}
	if got := s.InPlaceOf(&bumpsteer.Stack{}); got != "no spacer in place of 2 + 0.5 mm" {
		t.Error(got)
	}
	k.Raise = -6
	var v job.Variant
	Put(&v, &k)
	if v.Stack.Raise() != -6 || len(v.Stack.Pieces) != 2 || !v.Stack.Over {
		t.Errorf("kept as %+v", v.Stack)
	}
	inch := Setup{Standing: []float64{25.4 / 16}, Over: true, Unit: units.Inch}
	if got := inch.InPlaceOf(&bumpsteer.Stack{Pieces: []float64{25.4 / 8}, Height: 25.4 / 8, Raise: 25.4 / 8}); got != "1/8 in in place of 1/16 in over the joint" {
		t.Error(got)
	}
	if s := (&Setup{}); s.StandingText() != "" || strings.Contains(s.InPlaceOf(&k), "place") {
		t.Error("nothing stands there")
	}
}

// A job in inches is told of errors that a shop in inches makes.
func TestBuildingErrorInTheJobsUnit(t *testing.T) {
	_, s := setup(t, "../../testdata/job/format-1.5.armscribe.yaml")
	free := []bumpsteer.Free{{Freedom: bumpsteer.OuterEndHeight, Min: -1, Max: 1}}
	for unit, want := range map[units.Unit]struct {
		mm    float64
		words string
	}{units.Millimetre: {1, "1 mm"}, units.Inch: {25.4 / 32, "1/32 in"}} {
		s.Unit = unit
		q := s.CureRequest(free, bumpsteer.Goal{From: -40, To: 45})
		if q.Off != want.mm || s.OffText() != want.words {
			t.Errorf("%v: %g mm, %q", unit, q.Off, s.OffText())
		}
		r, err := bumpsteer.Cure(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		c := r.Corner
		c.TieRod.OuterEnd.Z += want.mm
		m, err := bumpsteer.Measured(c, q.Goal)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "what the error costs", r.Moves[0].ExtraPlus, m.Largest-r.After.Largest, 0.02*math.Abs(r.Moves[0].ExtraPlus)+1e-6)
		if marks := s.MoveMarks(&r.Moves[0], &r); r.Moves[0].HasOneMore && r.After.Largest-r.Moves[0].OneMore > gained && !strings.HasPrefix(marks[strings.Index(marks, ", ")+2:], want.words+" more room") {
			t.Errorf("%v: %q", unit, marks)
		}
	}
}
