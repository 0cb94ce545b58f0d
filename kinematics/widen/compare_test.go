package widen

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/effort"
	"armscribe/kinematics/internal/checkcorner"
)

func setup() Setup {
	return Setup{Travel: []float64{-51, -24, 9, 37, 58}, Rack: []float64{-41, 3, 44},
		Gear: effort.Gear{RackPerTurn: 49, RimRadius: 176}, Conditions: effort.Usual(3150, 228), Tyre: wide(), Within: kinematics.Evenly(0.8)}
}

func mustCompare(t *testing.T, c kinematics.Corner, mm float64, s Setup) Table {
	t.Helper()
	table, err := Compare(c, mm, s)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// What the trade says of the two ways, on a corner in space. Common practice,
// no source.
func TestCompareSaysWhatTheTradeSays(t *testing.T) {
	c := inclined()
	c.Spring = kinematics.Spring{Carrier: kinematics.OnLowerArm, Moving: vec{X: -3, Y: 550, Z: 195}, Body: vec{X: -10, Y: 420, Z: 600}}
	table := mustCompare(t, c, 50.8, setup())
	for i, l := range table {
		if !l.Before.OK || !l.Spacers.OK || !l.Arms.OK || !l.SpacersBand.OK || !l.ArmsBand.OK {
			t.Errorf("measure %d is not known: %+v", i, l)
		}
	}
	for _, q := range []Measure{ScrubRadius, SwingFront, SwingRear, ParkingMoment, ParkingRack, ParkingPull, BrakingMoment, BrakingRack, BrakingPull} {
		if l := table[q]; math.Abs(l.Spacers.Value)-math.Abs(l.Before.Value) <= l.SpacersBand.Value || math.Abs(l.Arms.Value)-math.Abs(l.Before.Value) > l.ArmsBand.Value {
			t.Errorf("measure %d: %+v; want more by spacers alone", q, l)
		}
	}
	// The wheel centre rises less with the lower arm the longer the arm is; out
	// on a spacer it changes a little only.
	for _, q := range []Measure{SpringForce, MotionRatio} {
		l := table[q]
		if math.Abs(l.Spacers.Value-l.Before.Value) > math.Abs(l.Arms.Value-l.Before.Value)/3 {
			t.Errorf("measure %d: %+v; want it changed by arms above all", q, l)
		}
	}
	if l := table[HalfTrack]; math.Abs(l.Arms.Value-l.Before.Value-50.8) > 1e-9 || math.Abs(l.Spacers.Value-l.Before.Value-50.8*math.Cos(rad(1.3))*math.Cos(rad(0.15))) > 1e-9 {
		t.Errorf("half track %+v", l)
	}
	if l := table[RideToeRodKept]; l.Spacers != table[RideToeMost].Spacers || l.Arms == table[RideToeMost].Arms {
		t.Errorf("rod kept %+v, lengthened %+v", l, table[RideToeMost])
	}
	// Refitted is the corner that WithRods makes, and steers itself far less.
	fitted, err := WithRods(Arms(c, 50.8), 50.8, RackEndFitted, setup().Travel)
	if err != nil {
		t.Fatal(err)
	}
	ride, err := RideToeOver(checkcorner.New(t, fitted), setup().Travel)
	if l := table[RideToeRefitted]; err != nil || l.Arms.Value != ride.Most || l.Arms.Value > table[RideToeMost].Arms.Value/3 {
		t.Errorf("refitted %+v, the fitted corner turns %g: %v", l, ride.Most, err)
	}
}

// The bands hold 95 % of corners whose every shared coordinate is off by the
// same error before and after, and whose moved ones are off by their own.
func TestCompareBandsAgainstMonteCarlo(t *testing.T) {
	const seed, draws, mm = 95, 1500, 44.3
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	c, s := inclined(), setup()
	table := mustCompare(t, c, mm, s)
	to := Arms(c, mm)
	measure := func(c kinematics.Corner, out float64) measures { v, _ := s.measure(c, out); return v }
	nominalFrom, nominalTo := measure(c, 0), measure(to, mm)
	var inside, own [MeasureCount]int
	for range draws {
		a, b := c, to
		for _, at := range c.Coordinates() {
			e := s.Within.Common() * (2*r.Float64() - 1)
			a.Shift(at, e)
			if !c.Shares(&to, at) {
				e = s.Within.Common() * (2*r.Float64() - 1)
			}
			b.Shift(at, e)
		}
		from, after := measure(a, 0), measure(b, mm)
		for i := range inside {
			off := after[i].Value - from[i].Value - (nominalTo[i].Value - nominalFrom[i].Value)
			if math.Abs(off) <= table[i].ArmsBand.Value+1e-12 {
				inside[i]++
			}
			if math.Abs(after[i].Value-nominalTo[i].Value) <= table[i].ArmsOwn.Value+1e-12 {
				own[i]++
			}
		}
	}
	for i, n := range inside {
		// The largest of several poses is not smooth where two are alike; 1500
		// draws alone scatter by 1.1 %.
		if share := float64(n) / draws; share < 0.92 || share > 0.985 && table[i].ArmsBand.Value > 1e-9 {
			t.Errorf("measure %d: %.1f %% within the band of %g", i, 100*share, table[i].ArmsBand.Value)
		}
		// One error alone, of the hub, can never leave its band.
		alone := Measure(i) == HalfTrack || Measure(i) == Face
		if share := float64(own[i]) / draws; share < 0.92 || share > 0.985 && table[i].ArmsOwn.Value > 1e-9 && !alone {
			t.Errorf("measure %d: %.1f %% within its own band of %g", i, 100*share, table[i].ArmsOwn.Value)
		}
	}
}

// A measure has the band that its mechanism's own readings have, before and after.
func TestOwnBandsAreThoseOfReadings(t *testing.T) {
	c, s := inclined(), setup()
	table := mustCompare(t, c, 44.3, s)
	for measure, q := range map[Measure]kinematics.Quantity{HalfTrack: kinematics.HalfTrack, ScrubRadius: kinematics.ScrubRadius,
		RollCentre: kinematics.RollCentreHeight, MotionRatio: kinematics.MotionRatio} {
		l := &table[measure]
		for _, of := range []struct {
			corner kinematics.Corner
			own    Value
		}{{c, l.BeforeOwn}, {Spacers(c, 44.3), l.SpacersOwn}, {Arms(c, 44.3), l.ArmsOwn}} {
			bands, err := checkcorner.New(t, of.corner).Bands(s.Within, 0, 0)
			if err != nil {
				t.Fatal(err)
			}
			if want, ok := bands.Of(q); !ok || !of.own.OK || math.Abs(of.own.Value-want) > 1e-4*want {
				t.Errorf("%v: band %+v, want %g", q, of.own, want)
			}
		}
	}
}

// Farther in than the spacer is thick the arms alone are compared.
func TestCompareWithoutSpacers(t *testing.T) {
	c, s := inclined(), setup()
	table := mustCompare(t, c, -17, s)
	for i, l := range table {
		if l.Spacers.OK || l.SpacersBand.OK || l.SpacersOwn.OK {
			t.Errorf("measure %d of spacers that cannot be: %+v", i, l)
		}
		if !l.Before.OK || !l.Arms.OK || !l.ArmsBand.OK {
			t.Errorf("measure %d: %+v", i, l)
		}
	}
	if got := table[HalfTrack].Arms.Value - table[HalfTrack].Before.Value; math.Abs(got+17) > 1e-9 {
		t.Errorf("half track changes by %g", got)
	}
}

func TestCompareMarksWhatIsMissing(t *testing.T) {
	s := setup()
	s.Gear, s.Tyre = effort.Gear{}, clearance.Tyre{}
	c := inclined()
	c.Spring = kinematics.Spring{}
	table := mustCompare(t, c, 31, s)
	for i, l := range table {
		missing := false
		switch Measure(i) {
		case Face, SwingFront, SwingRear, MotionRatio, SpringForce, ParkingPull, BrakingPull, BumpPull:
			missing = true
		}
		if l.Before.OK == missing || l.Arms.OK == missing {
			t.Errorf("measure %d: %+v, missing %v", i, l, missing)
		}
	}
	bad := setup()
	bad.Conditions.Load = math.NaN()
	if _, err := Compare(c, 31, bad); !errors.Is(err, effort.ErrInput) {
		t.Errorf("no load: %v", err)
	}
	bad = setup()
	bad.Tyre.Tread = 400
	if _, err := Compare(c, 31, bad); err == nil {
		t.Error("a tyre that is none")
	}
	if _, err := Compare(c, 1e4, setup()); !errors.Is(err, ErrWiden) {
		t.Errorf("ten metres: %v", err)
	}
}

// BenchmarkCompare makes a whole comparison with its bands.
func BenchmarkCompare(b *testing.B) {
	c, s := inclined(), setup()
	for b.Loop() {
		if _, err := Compare(c, 50.8, s); err != nil {
			b.Fatal(err)
		}
	}
}

// Over random corners the bands of every measure and of its change hold 95 % of
// the cars, the largest over travel and rack too.
func TestCoverageOfCompare(t *testing.T) {
	const seed, cars = 20261210, 3
	corners := checkcorner.Trials(t, 200, 1200)
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	s := setup()
	var own, change, of [MeasureCount]int
	for range corners {
		c := checkcorner.Random(r)
		c.Spring = kinematics.Spring{Carrier: kinematics.OnLowerArm, Moving: vec{Y: c.Lower.Ball.Y - 110, Z: c.Lower.Ball.Z + 15}, Body: vec{Y: c.Lower.Ball.Y - 230, Z: c.Lower.Ball.Z + 380}}
		mm := 20 + 40*r.Float64()
		table, err := Compare(c, mm, s)
		if err != nil {
			continue
		}
		to := Arms(c, mm)
		was, _ := s.measure(c, 0)
		now, _ := s.measure(to, mm)
		for range cars {
			a, b := c, to
			for _, at := range c.Coordinates() {
				e := 0.8 * (2*r.Float64() - 1)
				a.Shift(at, e)
				if !c.Shares(&to, at) {
					e = 0.8 * (2*r.Float64() - 1)
				}
				b.Shift(at, e)
			}
			from, _ := s.measure(a, 0)
			after, _ := s.measure(b, mm)
			for i := range of {
				l := &table[i]
				if !l.ArmsBand.OK || !l.BeforeOwn.OK || !from[i].OK || !after[i].OK {
					continue
				}
				of[i]++
				if math.Abs(from[i].Value-was[i].Value) <= l.BeforeOwn.Value+1e-12 {
					own[i]++
				}
				if math.Abs(after[i].Value-from[i].Value-(now[i].Value-was[i].Value)) <= l.ArmsBand.Value+1e-12 {
					change[i]++
				}
			}
		}
	}
	for i, n := range of {
		if k := Measure(i); k != HalfTrack && k != Face { // these rest on one coordinate
			checkcorner.Covered(t, fmt.Sprintf("measure %d", i), own[i], n)
			checkcorner.Covered(t, fmt.Sprintf("change of measure %d", i), change[i], n)
		}
	}
}

// Travels out of reach, to which no rack end is fitted, leave that way out, and that alone.
func TestRodsWithoutAFit(t *testing.T) {
	s := setup()
	s.Travel = []float64{-51, 9, 37, 4000}
	if list := s.rods(inclined(), 23); list[0] == nil || list[1] == nil || list[2] != nil {
		t.Errorf("%v", list)
	}
}

// What is taken over from a corner that is alike is what would have been computed, for
// every number of a corner moved by itself.
func TestAlikeIsTheSame(t *testing.T) {
	s, c := setup(), inclined()
	_, at := s.measure(c, 0)
	base := s.values(c, 0, &at, nil)
	taken := 0
	try := func(what string, x kinematics.Corner) {
		like := alike(&x, &c, base)
		if like == nil {
			return
		}
		taken++
		with, without := s.values(x, 0, &at, like), s.values(x, 0, &at, nil)
		for k := range with {
			a, okA := with[k].Of()
			b, okB := without[k].Of()
			if okA != okB || math.Abs(a-b) > 1e-9*(1+math.Abs(b)) {
				t.Errorf("%s: value %d is %+v, computed %+v", what, k, a, b)
			}
		}
	}
	for _, coordinate := range c.Coordinates() {
		x := c
		x.Shift(coordinate, 0.7)
		try(fmt.Sprint(coordinate), x)
	}
	for what, turn := range map[string]func(*kinematics.Corner){
		"camber": func(x *kinematics.Corner) { x.Camber += 0.01 },
		"toe":    func(x *kinematics.Corner) { x.Toe += 0.01 },
		"wheel":  func(x *kinematics.Corner) { x.Wheel.Offset += 3 },
	} {
		x := c
		turn(&x)
		try(what, x)
	}
	if taken < 12 {
		t.Errorf("only %d corners are alike", taken)
	}
}

// Rack and rim are those of package effort; for parking, where the ground resists
// either way, how large they are, whichever way the rack lies.
func TestRackAndRimAreThoseOfTheCases(t *testing.T) {
	ahead, behind := inclined(), inclined()
	behind.TieRod.OuterEnd.X, behind.TieRod.RackEnd.X = -behind.TieRod.OuterEnd.X, -behind.TieRod.RackEnd.X
	signs := map[bool]int{}
	for _, c := range []kinematics.Corner{ahead, behind} {
		s := setup()
		table := mustCompare(t, c, 31.7, s)
		m := checkcorner.New(t, c)
		parking, err1 := effort.Parking(m, s.Conditions)
		braking, err2 := effort.SplitBraking(s.Conditions)
		bump, err3 := effort.OneWheelBump(s.Conditions)
		if err := errors.Join(err1, err2, err3); err != nil {
			t.Fatal(err)
		}
		for _, row := range []struct {
			load               effort.Case
			moment, rack, pull Measure
		}{{parking, ParkingMoment, ParkingRack, ParkingPull}, {braking, BrakingMoment, BrakingRack, BrakingPull}, {bump, BumpMoment, BumpRack, BumpPull}} {
			a, err := effort.Solve(m, s.Gear, row.load)
			if err != nil {
				t.Fatal(err)
			}
			rack, pull := a.Rack, a.RimPull
			signs[rack < 0]++
			if row.rack == ParkingRack {
				rack, pull = math.Abs(rack), math.Abs(pull)
			}
			if got := [...]float64{table[row.moment].Before.Value, table[row.rack].Before.Value, table[row.pull].Before.Value}; got != [...]float64{a.Left.Moment, rack, pull} {
				t.Errorf("measure %d: %v, want %v", row.moment, got, [...]float64{a.Left.Moment, rack, pull})
			}
		}
	}
	if signs[true] == 0 || signs[false] == 0 {
		t.Errorf("racks pushed and pulled: %v", signs)
	}
}
