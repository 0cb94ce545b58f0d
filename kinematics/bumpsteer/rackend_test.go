package bumpsteer

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"armscribe/kinematics"
)

// bobillier draws the centre of curvature with ruler and protractor, as the
// textbooks on suspension place the rack end (J. Reimpell, H. Stoll, J. Betzler,
// The Automotive Chassis, section on steering kinematics; the theorem in
// Hartenberg and Denavit, Kinematic Synthesis of Linkages, 1964, chapter 7; both
// from memory): the collineation axis of two rays runs from the pole through
// the point where the line of both moving points meets the line of both fixed
// ones, and makes with the one ray the same angle as the pole tangent with the
// other.
func bobillier(outer, lowerPivot, lowerBall, upperPivot, upperBall kinematics.Flat) kinematics.Flat {
	pole := meet(lowerPivot, lowerBall, upperPivot, upperBall)
	angle := func(p kinematics.Flat) float64 { return math.Atan2(p.Y-pole.Y, p.X-pole.X) }
	// The axis of the arms' rays, and from it the pole tangent.
	q := meet(lowerBall, upperBall, lowerPivot, upperPivot)
	tangent := angle(lowerBall) + angle(upperBall) - angle(q)
	// The axis of lower arm and tie rod, and on it the joint of their lines.
	axis := angle(lowerBall) + angle(outer) - tangent
	on := r2.Add(pole, kinematics.Flat{X: math.Cos(axis), Y: math.Sin(axis)})
	joint := meet(pole, on, lowerBall, outer)
	return meet(joint, lowerPivot, pole, outer)
}

// meet is where two lines cross.
func meet(a, b, c, d kinematics.Flat) kinematics.Flat {
	u, v := r2.Sub(b, a), r2.Sub(d, c)
	s := ((c.X-a.X)*v.Y - (c.Y-a.Y)*v.X) / (u.X*v.Y - u.Y*v.X)
	return kinematics.Flat{X: a.X + s*u.X, Y: a.Y + s*u.Y}
}

func TestTextbookDrawingLandsOnTheIdealRackEnd(t *testing.T) {
	const seed = 77
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 3))
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	for range 200 {
		c := kinematics.Corner{
			Lower:  kinematics.FlatArm(vec(0, in(240, 340), in(190, 240)), vec(in(-9, 11), in(670, 710), in(165, 185))),
			Upper:  kinematics.FlatArm(vec(0, in(310, 400), in(400, 440)), vec(in(-23, -4), in(620, 660), in(450, 490))),
			TieRod: kinematics.TieRod{RackEnd: vec(118, in(290, 350), in(220, 260)), OuterEnd: vec(126, in(660, 690), in(210, 300))},
			Hub:    vec(0, 751, 308), Wheel: kinematics.Wheel{LoadedRadius: 303},
		}
		got, err := FindRackEnd(c, kinematics.Evenly(1), -20, 20)
		if err != nil || !got.HasFlat {
			t.Fatal(err, got.Front)
		}
		f := kinematics.Front
		want := bobillier(f(c.TieRod.OuterEnd), f(c.Lower.Front), f(c.Lower.Ball), f(c.Upper.Front), f(c.Upper.Ball))
		if d := r2.Norm(r2.Sub(got.Front.At, want)); d > 1e-6*(1+r2.Norm(want)) {
			t.Fatalf("drawn at %v, computed at %v, %+v", want, got.Front.At, c)
		}
	}
}

// Own reference case: the ideal rack end is (265.564995, 246.582309), and the
// rod's line goes to the instant centre.
func TestOffsetsFromTheIdealRackEnd(t *testing.T) {
	for _, row := range []struct{ along, across float64 }{{0, 0}, {-50, 0}, {37, -4.5}, {-11, 6.25}} {
		to := r2.Unit(kinematics.Flat{X: 265.564995 - 670, Y: 246.582309 - 240})
		up := kinematics.Flat{X: to.Y, Y: -to.X}
		c := flat(265.564995+row.along*to.X+row.across*up.X, 246.582309+row.along*to.Y+row.across*up.Y)
		got, err := FindRackEnd(c, kinematics.Evenly(1), -15, 15)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got.Flat.Along.Value-row.along) > 1e-5 || math.Abs(got.Flat.Across.Value-row.across) > 1e-5 {
			t.Errorf("%+v: flat offset %+v", row, got.Flat)
		}
		// The fitted sphere of a short travel comes near the centre of curvature.
		if math.Abs(got.Space.Along.Value-row.along) > 2 || math.Abs(got.Space.Across.Value-row.across) > 0.1 || got.LeftOver > 1e-3 {
			t.Errorf("%+v: offset in space %+v, left over %g", row, got.Space, got.LeftOver)
		}
	}
}

func TestRackEndBandsAgainstRandomCorners(t *testing.T) {
	const seed, trials, within = 12, 400, 0.3
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 9))
	c := ahead()
	want, err := FindRackEnd(c, kinematics.Evenly(within), -50, 60)
	if err != nil {
		t.Fatal(err)
	}
	at := (&Goal{From: -50, To: 60}).steps(spherePlaces)
	var square [4]float64
	for range trials {
		drawn := c
		for _, x := range c.Coordinates() {
			drawn.Shift(x, within*(2*r.Float64()-1))
		}
		e, err := rackEndOf(drawn, at)
		if err != nil {
			t.Fatal(err)
		}
		for i, d := range []float64{e.Flat.Along.Value - want.Flat.Along.Value, e.Flat.Across.Value - want.Flat.Across.Value,
			e.Space.Along.Value - want.Space.Along.Value, e.Space.Across.Value - want.Space.Across.Value} {
			square[i] += d * d / trials
		}
	}
	for i, half := range []float64{want.Flat.Along.Half, want.Flat.Across.Half, want.Space.Along.Half, want.Space.Across.Half} {
		// 400 draws settle a deviation to 3.5 %; three times that.
		if got := kinematics.Normal95 * math.Sqrt(square[i]); math.Abs(got/half-1) > 0.11 {
			t.Errorf("band %d: stated %.3f mm, drawn %.3f", i, half, got)
		}
	}
}

func TestRackEndAtInfinity(t *testing.T) {
	c := kinematics.Corner{ // parallel arms that point at each other: between them a point goes straight
		Lower:  kinematics.FlatArm(vec(0, 300, 190), vec(0, 700, 190)),
		Upper:  kinematics.FlatArm(vec(0, 1000, 440), vec(0, 680, 440)),
		TieRod: kinematics.TieRod{RackEnd: vec(115, 300, 326), OuterEnd: vec(115, 690, 190+250*320.0/(320+400))},
		Hub:    vec(0, 750, 305), Wheel: kinematics.Wheel{LoadedRadius: 305},
	}
	got, err := FindRackEnd(c, kinematics.Evenly(1), -20, 20)
	if err != nil || got.HasFlat || !got.Front.AtInfinity || got.Flat != (RackEndOffset{}) {
		t.Errorf("%+v, %v", got, err)
	}
	if _, err := FindRackEnd(c, kinematics.Evenly(1), 20, 30); !errors.Is(err, ErrRange) {
		t.Error(err)
	}
}

// Common practice, no source: with near-parallel arms the tie rod steers least
// in the plane of the lower arm, its outer end at the lower ball joint's height.
func TestTieRodInTheLowerArmsPlaneSteersLeast(t *testing.T) {
	lowerPivot, lowerBall := vec(0, 310, 196), vec(0, 702, 187)
	c := kinematics.Corner{
		Lower:  kinematics.FlatArm(lowerPivot, lowerBall),
		Upper:  kinematics.FlatArm(vec(0, 338, 431), vec(0, 684, 429)), // 1 degree from parallel
		TieRod: kinematics.TieRod{RackEnd: vec(117, 310, 196), OuterEnd: vec(117, 702, 187)},
		Hub:    vec(0, 748, 309), Wheel: kinematics.Wheel{LoadedRadius: 304},
	}
	g := Goal{From: -60, To: 60}
	fan, err := Fan(c, OuterEndHeight, []float64{-21, -14, -7, 0, 7, 14, 21}, g)
	if err != nil {
		t.Fatal(err)
	}
	least := largest(fan[3].Curve.Toe)
	for _, f := range fan {
		if v := largest(f.Curve.Toe); f.Moves[OuterEndHeight] != 0 && v < 10*least+0.001 {
			t.Errorf("outer end %+g mm off the plane: %.5f rad, in it %.5f", f.Moves[OuterEndHeight], v, least)
		}
	}
	res := cure(t, Request{Corner: c, Within: kinematics.Evenly(1), Goal: g, Free: []Free{{OuterEndHeight, -23, 31}, {RackHeight, -27, 22}}})
	if least-res.After.Largest > 1e-6 {
		t.Errorf("in the plane %.7f rad, the search found %.7f", least, res.After.Largest)
	}
}
