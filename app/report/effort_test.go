package report

import (
	"math"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics"
)

func mustBeside(t *testing.T, j *job.Job, variant, before int, l Loading) *EffortsBeside {
	t.Helper()
	b, err := EffortsBesideOf(j, variant, before, l)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func line(t *testing.T, b *EffortsBeside, inCase, key string) *BesideLine {
	t.Helper()
	l := b.Find(inCase, key)
	if l == nil {
		t.Fatalf("no %s in %s", key, inCase)
	}
	return l
}

// What a builder must be able to read off the demo job: spacers raise moments
// and the pull at the rim in every case, longer arms change next to nothing.
func TestSpacersRaiseTheEffortAndArmsDoNot(t *testing.T) {
	j := opened(t, frontJob)
	const asMeasured, spacers, arms = 0, 1, 2
	wide, long := mustBeside(t, j, spacers, asMeasured, Loading{}), mustBeside(t, j, arms, asMeasured, Loading{})
	for _, c := range []string{"parking", "braking", "bump"} {
		for _, key := range []string{"left_moment", "rack", "wheel_torque", "rim_pull"} {
			w, l := line(t, wide, c, key), line(t, long, c, key)
			if w.Verdict != targets.Worse || w.Change < 5*w.Band || w.Change < math.Abs(w.Before.Value)/6 {
				t.Errorf("%s, %s with spacers: %+.4g ± %.4g, %v", c, key, w.Change, w.Band, w.Verdict)
			}
			if math.Abs(l.Change) > w.Change/40 {
				t.Errorf("%s, %s with longer arms: %+.4g, with spacers %+.4g", c, key, l.Change, w.Change)
			}
		}
	}
	// Braking on vertical-axis terms: the moment grows by force x spacer, about.
	const grip, share = 0.8, 0.03
	force := grip * j.CornerWeight.Kg * Gravity
	jack := line(t, wide, "braking", "right_moment").Change // of the smaller grip
	near(t, "moment by the spacer's 50 mm, left less right", line(t, wide, "braking", "left_moment").Change-jack, force*(1-0.3/0.8)*50, share*force*50)
}

// The bands of a change against a sample of both variants measured wrong, the
// points that both have by the same error.
func TestEffortBands(t *testing.T) {
	for _, offset := range []float64{-30, 12, 34} { // moments far from nought, and such as may turn their sign
		j := opened(t, frontJob)
		j.Variants[1].TieRod.OuterEnd.Z = units.Length{MM: j.Variants[1].TieRod.OuterEnd.Z.MM + 7.25}
		for i := range j.Variants {
			j.Variants[i].Wheel.Offset.MM = offset
		}
		b := mustBeside(t, j, 1, 0, Loading{Load: 2900})
		next := newRandom()
		const n = 1500
		keys := []string{"left_moment", "right_rod", "rim_pull"}
		var held [3]int
		for range n {
			c0, c1 := j.Variants[0].Corner(), j.Variants[1].Corner()
			for _, at := range c0.Coordinates() {
				by := 2*next() - 1
				shared := c0.Shares(&c1, at)
				c0.Shift(at, by)
				if !shared {
					by = 2*next() - 1
				}
				c1.Shift(at, by)
			}
			was, now := effortSizes(t, b.Before, &c0), effortSizes(t, b.Now, &c1)
			for i, key := range keys {
				if l := line(t, b, "braking", key); math.Abs(now[i]-was[i]-l.Change) <= l.Band {
					held[i]++
				}
			}
		}
		for i, key := range keys {
			share := float64(held[i]) / n
			t.Logf("offset %g, change of %s: the band %.3g holds %.1f %%", offset, key, line(t, b, "braking", key).Band, 100*share)
			if share < 0.93 || share > 0.975 {
				t.Errorf("offset %g, change of %s: the 95 %% band holds %.1f %%", offset, key, 100*share)
			}
		}
	}
}

// effortSizes are the sizes in braking that TestEffortBands looks at.
func effortSizes(t *testing.T, e *Efforts, c *kinematics.Corner) [3]float64 {
	t.Helper()
	_, a, err := e.solve(mechanism(t, *c), brakingCase)
	if err != nil {
		t.Fatal(err)
	}
	return [3]float64{math.Abs(a.Left.Moment), math.Abs(a.Right.Rod), math.Abs(a.RimPull)}
}

// The usual conditions, asked for, change nothing; others do what they say.
func TestEffortUnderOtherConditions(t *testing.T) {
	j := opened(t, frontJob)
	usual, asked := mustBeside(t, j, 1, 0, Loading{}), mustBeside(t, j, 1, 0, Loading{Under: UsualUnder(j.Units)})
	near(t, "pull", line(t, asked, "bump", "rim_pull").Now.Value, line(t, usual, "bump", "rim_pull").Now.Value, 1e-9)
	under := UsualUnder(j.Units)
	under.Left, under.Right = 0.35, 0.85
	other := mustBeside(t, j, 1, 0, Loading{Under: under})
	if other.Cases[1].Name != "Braking, less grip on the left" || usual.Cases[1].Name != "Braking, less grip on the right" {
		t.Errorf("%q, %q", other.Cases[1].Name, usual.Cases[1].Name)
	}
	if pull := line(t, other, "braking", "rim_pull").Now.Value; pull >= 0 || line(t, usual, "braking", "rim_pull").Now.Value <= 0 {
		t.Errorf("less grip on the left pulls %v", pull)
	}
	under.Parking = -0.2
	if _, err := EffortsOf(j, 0, Loading{Under: under}); err == nil {
		t.Error("a grip below nothing is no problem")
	}
	same := mustBeside(t, j, 1, 1, Loading{})
	if l := line(t, same, "braking", "rack"); l.Verdict != targets.Kept || l.Change != 0 {
		t.Errorf("beside itself: %+v", l)
	}
}

func TestEffortsOfARearAxle(t *testing.T) {
	b := mustBeside(t, opened(t, rearJob), 0, 0, Loading{})
	if len(b.Cases) != 2 || b.Cases[0].Key != "braking" || b.Find("braking", "rim_pull") != nil || b.Find("parking", "left_moment") != nil {
		t.Errorf("%+v", b.Cases)
	}
}

// A bump beyond the job's travel is said, and a spring on the upright.
func TestEffortsSayWhatTheyRestOn(t *testing.T) {
	j := opened(t, frontJob)
	notes := func() string {
		e, err := EffortsOf(j, 0, Loading{})
		if err != nil {
			t.Fatal(err)
		}
		return strings.Join(e.Sheet(nil).NotesOn(sheet.OnWindow, j.Units), "\n")
	}
	if text := notes(); strings.Contains(text, "does not get there") || strings.Contains(text, "stands on the upright") {
		t.Errorf("70 mm of travel, spring on the lower arm:\n%s", text)
	}
	j.Travel.Bump.MM = 17
	j.Variants[0].Spring.CarriedBy = kinematics.OnUpright
	if text := notes(); !strings.Contains(text, "The bump of 30 mm is more than the job's travel up, 17 mm") || !strings.Contains(text, "The spring stands on the upright") {
		t.Errorf("17 mm of travel, spring on the upright:\n%s", text)
	}
}

// Shares of what nearly cancels out are left out.
func TestSharesOfWhatIsKnown(t *testing.T) {
	l := &BesideLine{Before: EffortLine{Value: 3, Band: 5}, Change: 50}
	if got := l.shareWords(); got != "" {
		t.Errorf("a share of what is not known: %q", got)
	}
	l = &BesideLine{Before: EffortLine{Value: -40, Band: 0.5}, Change: 61}
	if got := l.shareWords(); got != ", to 2.5 times as much" {
		t.Errorf("%q", got)
	}
}

// A trend without a verdict has no word; every other has one, and those that ask to
// be looked at a mark.
func TestTrendCells(t *testing.T) {
	for v := range targets.Trend(targets.TrendCount) {
		if c := trendCell(v); c.Text(units.Millimetre) == "" != (v == targets.NoTrend) || (c.Mark() == sheet.NoMark) != (v == targets.NoTrend) {
			t.Errorf("trend %d: %q, mark %d", v, c.Text(units.Millimetre), c.Mark())
		}
	}
}

// Turning a standing wheel: how far the axis meets the ground from the contact moves both
// wheels' friction alike, but what the load does about the leaning axis adds to it on
// the left and takes from it on the right. So the right moment may be known ten times
// better than the left one. Where the joints are assumed that distance may be anything:
// its friction bends, and the band says so.
func TestParkingMomentsAreKnownAsWellAsTheySay(t *testing.T) {
	for _, assumed := range []bool{false, true} {
		j := opened(t, frontJob)
		v := &j.Variants[0]
		for axis := range 3 {
			for _, p := range []kinematics.Point{kinematics.UpperBall, kinematics.LowerBall} {
				v.Assumed = v.Assumed.With(job.Coordinate(kinematics.Coordinate{Point: p, Axis: axis}), assumed)
			}
		}
		e, err := EffortsOf(j, 0, Loading{})
		if err != nil {
			t.Fatal(err)
		}
		s, lines := &e.Source, e.Cases[0].Lines
		if small := lines[2].Band < lines[0].Band/5; small == assumed || lines[2].Key != "right_moment" {
			t.Errorf("assumed %v: left ±%.0f, %s ±%.0f N mm", assumed, lines[0].Band, lines[2].Key, lines[2].Band)
		}
		next := newRandom()
		const draws = 1500
		var in [4]int
		for range draws {
			c := s.Corner
			for _, at := range s.Within.Coordinates(&s.Corner) {
				s.Within.Shift(&c, at, (2*next()-1)*s.Within.Size(at))
			}
			_, a, err := e.solve(mechanism(t, c), parkingCase)
			if err != nil {
				t.Fatal(err)
			}
			for i, l := range e.lines(&a)[:4] {
				if math.Abs(l.Value-lines[i].Value) <= lines[i].Band {
					in[i]++
				}
			}
		}
		for i := 0; i < 4; i += 2 {
			if share := float64(in[i]) / draws; share < 0.92 || share > 0.975 {
				t.Errorf("assumed %v, %s: the 95 %% band holds %.1f %%", assumed, lines[i].Key, 100*share)
			}
		}
	}
}
