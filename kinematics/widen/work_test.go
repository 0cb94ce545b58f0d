package widen

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/effort"
)

// pageSetup is as large as a page asks for: 45 places of travel and rack.
func pageSetup() Setup {
	return Setup{Travel: []float64{-60, -44, -28, -11, 5, 21, 37, 54, 70}, Rack: []float64{-62, -31, 0, 31, 62},
		Gear: effort.Gear{RackPerTurn: 47, RimRadius: 177}, Conditions: effort.Usual(3300, 231), Tyre: wide(), Within: kinematics.Evenly(0.7)}
}

// atOrigin is a corner whose lower arm and hub somebody has not typed yet: its
// long way to every travel is walked in small steps.
func atOrigin() kinematics.Corner {
	c := inclined()
	c.Lower.Front, c.Upper.Front, c.Hub = vec{}, vec{}, vec{}
	c.TieRod.OuterEnd = vec{}
	c.Lower.Flat, c.Upper.Flat = true, true
	return c
}

// Each of three corners is measured whole once, and twice more for each of its
// 27 coordinates that move a link or the wheel; not for the spring's six.
func TestACompareMeasuresNoMoreThanItMust(t *testing.T) {
	s, n := pageSetup(), 0
	s.work = &n
	mustCompare(t, inclined(), 43.7, s)
	if want := 3 * (1 + 2*27); n != want {
		t.Errorf("%d corners measured, want %d", n, want)
	}
	if looks := s.looks(inclined(), 0); looks != 0 {
		t.Errorf("an ordinary corner is looked at %d times", looks)
	}
}

// A spring's ends move the spring alone: what is left out of their slopes is what
// a whole measure would say.
func TestSpringSlopesLeaveOutNothing(t *testing.T) {
	s, c := pageSetup(), inclined()
	_, places := s.measure(c, 0)
	is := s.values(c, 0, &places, nil)
	for _, at := range c.Coordinates() {
		if at.Point != kinematics.SpringMoving && at.Point != kinematics.SpringBody {
			continue
		}
		moved := c
		moved.Shift(at, 7.3)
		if got, want := s.springValues(moved, is), s.values(moved, 0, &places, nil); !springOnly(&moved, &c) || !slices.Equal(got, want) {
			t.Errorf("%+v: %+v, want %+v", at, got, want)
		}
	}
}

// A corner with points at the origin is refused before anything is measured, by
// name and with what to do.
func TestACompareRefusesWhatTakesTooLong(t *testing.T) {
	s, n := pageSetup(), 0
	s.work = &n
	_, err := Compare(atOrigin(), 43.7, s)
	if !errors.Is(err, kinematics.ErrGeometry) || n != 0 {
		t.Fatalf("%d corners measured: %v", n, err)
	}
	for _, word := range []string{"the corner as it is", "travel of −60 to 70 mm", "check the points"} {
		if !strings.Contains(err.Error(), word) {
			t.Errorf("%q does not say %q", err, word)
		}
	}
}

// Whatever the corner, a comparison that is made looks at no more than a million
// positions: corners a hair away, of which its bands are made, take no more than
// the one that was let through.
func TestTheWorkOfACompareIsBounded(t *testing.T) {
	const seed, most = 21, 1_000_000
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 9))
	made, refused, largest := 0, 0, 0
	for range 120 {
		data := make([]byte, 1+2*r.IntN(39))
		for k := range data {
			data[k] = byte(r.UintN(256))
		}
		c := fuzzCorner(data)
		if r.IntN(3) == 0 {
			c.Upper.Ball = vec{}
		}
		s := pageSetup()
		both, err := By(c, 43.7)
		if err != nil {
			continue
		}
		if _, err := kinematics.New(&c); err != nil {
			continue
		}
		if s.check(c, both.Arms, 43.7) != nil {
			refused++
			continue
		}
		made++
		if s.looks(c, 0) == 0 && s.looks(both.Arms, 43.7) == 0 {
			continue // so are those a hair away, but for a handful
		}
		total := 0
		for _, l := range []struct {
			corner kinematics.Corner
			out    float64
		}{{c, 0}, {both.Arms, 43.7}, {both.Spacers, 0}} {
			for _, at := range l.corner.Coordinates() {
				moved := l.corner
				moved.Shift(at, 0.01)
				total += 2 * s.looks(moved, l.out)
			}
		}
		largest = max(largest, total)
		if total > most {
			t.Errorf("%d positions for %+v", total, c)
		}
	}
	t.Logf("%d made, %d refused, at most %d positions", made, refused, largest)
	if made < 40 || refused < 2 || largest < most/10 {
		t.Errorf("%d made, %d refused, at most %d positions: the corners test little", made, refused, largest)
	}
}

// BenchmarkCompareHeavy compares a corner that is only just let through.
func BenchmarkCompareHeavy(b *testing.B) {
	c, s := inclined(), pageSetup()
	c.Lower.Front, c.Upper.Front, c.TieRod.RackEnd, c.Hub = vec{}, vec{}, vec{}, vec{}
	for b.Loop() {
		if _, err := Compare(c, 43.7, s); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(s.looks(c, 0)), "looks")
}

// BenchmarkCompareRefused finds out that a corner takes too long.
func BenchmarkCompareRefused(b *testing.B) {
	c, s := atOrigin(), pageSetup()
	for b.Loop() {
		if _, err := Compare(c, 43.7, s); err == nil {
			b.Fatal("it is compared")
		}
	}
}

// What is taken from a neighbour's values is what would be worked out, and no more
// is worked out than moves.
func TestWhatANeighbourShares(t *testing.T) {
	c, s := inclined(), setup()
	_, at := s.measure(c, 0)
	base := s.values(c, 0, &at, nil)
	for _, coordinate := range c.Coordinates() {
		x := c
		x.Shift(coordinate, 0.7)
		whole := s.values(x, 0, &at, nil)
		same := true
		for _, k := range []int{int(Face), swingFrontAt, swingFrontAt + 1, swingRearAt, swingRearAt + 1} {
			is, _ := whole[k].Of()
			was, _ := base[k].Of()
			same = same && math.Abs(is-was) < 1e-7 // but for rounding
		}
		if shared := alike(&x, &c, base) != nil; shared != same {
			t.Errorf("%v moved: tyre and axis stay %v, shared %v", coordinate, same, shared)
		}
	}
}
