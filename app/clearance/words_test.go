package clearance_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"armscribe/app/car"
	"armscribe/app/clearance"
	"armscribe/app/units"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
)

func TestWords(t *testing.T) {
	j := demo(t)
	q := query(t, j, 2)
	g := clearance.Gap{Obstacle: q.Case.Obstacles[0], Answer: swept.Answer{Gap: 4.26, Rest: 31, Wish: 13, Travel: 70, Rack: -41.5, Roll: 0.0349}}
	for _, c := range []struct {
		change func(g *clearance.Gap)
		fine   bool
		words  string
		where  string
	}{
		{func(*clearance.Gap) {}, true, "4.3 mm, wished 13: LESS THAN WISHED", "at 70.0 mm bump, rack 41.5 mm right, roll +2.0°"},
		{func(g *clearance.Gap) { g.Gap, g.Roll = 13.02, 0 }, false, "≈ 13.0 mm, wished 13: kept", "at 70.0 mm bump, rack 41.5 mm right"},
		{func(g *clearance.Gap) { g.Gap, g.Roll = -2.51, -0.0175 }, true, "2.5 mm deep: TOUCHES", "at 70.0 mm bump, rack 41.5 mm right, roll −1.0°"},
		{func(g *clearance.Gap) { g.Gap, g.Rest = -9.7, -8.8 }, true, "8.8 mm deep: INSIDE TYRE OR RIM AT REST", "check its place, and the wheel's offset and spacer"},
	} {
		one := g
		c.change(&one)
		if got := one.Words(units.Millimetre, c.fine); got != c.words {
			t.Errorf("words %q, want %q", got, c.words)
		}
		if got := one.Where(units.Millimetre); got != c.where {
			t.Errorf("where %q, want %q", got, c.where)
		}
	}
	if got := g.Words(units.Inch, true); got != "0.17 in, wished 0.51: LESS THAN WISHED" {
		t.Errorf("in inches %q", got)
	}
}

func TestAJumpIsSaidInASentence(t *testing.T) {
	q := query(t, demo(t), 2)
	m, err := kinematics.New(&q.Corner)
	if err != nil {
		t.Fatal(err)
	}
	wing, caliper := q.Case.Obstacles[0], q.Case.Obstacles[6]
	for _, c := range []struct {
		gap  clearance.Gap
		want string
	}{
		{clearance.Gap{Obstacle: wing, Answer: swept.Answer{Gap: 4.26, Rest: 31, Wish: 13, Travel: 70, Rack: -41.5}},
			"inner wing: least gap 4.3 mm, at 70.0 mm bump, rack 41.5 mm right. Ctrl+R goes back to rest."},
		{clearance.Gap{Obstacle: wing, Answer: swept.Answer{Gap: -9, Rest: -8.8, Wish: 13, Travel: 70}},
			"inner wing stands 8.8 mm inside the tyre at rest: check its place, and the wheel's offset and spacer."},
		{clearance.Gap{Obstacle: caliper, Answer: swept.Answer{Gap: 6.1, Rest: 6.1, Wish: 5}},
			"caliper: 6.1 mm, the same everywhere. Shown at rest."},
	} {
		if got := c.gap.Jump(&m, units.Millimetre); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// In roll the wheel's own travel is the body's heave and what roll adds.
func TestHeaveAndRollMakeTheTravel(t *testing.T) {
	j := demo(t)
	q := query(t, j, 2)
	m, err := kinematics.New(&q.Corner)
	if err != nil {
		t.Fatal(err)
	}
	g := clearance.Gap{Answer: swept.Answer{Travel: 33, Roll: 0.0262}}
	ax, err := m.Roll(g.Roll, 0)
	if err != nil {
		t.Fatal(err)
	}
	if got := g.Heave(&m) + ax.Left.Travel; math.Abs(got-33) > 1e-9 || ax.Left.Travel > -15 {
		t.Errorf("heave %g and %g by roll make %g", g.Heave(&m), ax.Left.Travel, got)
	}
}

// Where the rack goes farther one way, one wheel gets where the other does not:
// both are looked at, and the right one is named, with the rack as the car has it.
func TestTheWheelThatGoesFartherIsLookedAt(t *testing.T) {
	for _, c := range []struct {
		stops car.Stops
		rack  float64
		right bool
		car   float64
	}{
		{car.Stops{Left: 20, Right: 62}, 41.5, true, -41.5},
		{car.Stops{Left: 20, Right: 62}, -41.5, false, -41.5},
		{car.Stops{Left: 20, Right: 62}, 20, false, 20},
		{car.Stops{Left: 62, Right: 30}, -62, true, 62},
		{car.Stops{Left: 62, Right: 30}, -30, false, -30},
	} {
		if right, car := c.stops.WheelAt(c.rack); right != c.right || car != c.car {
			t.Errorf("%+v at %g: right %v, rack %g", c.stops, c.rack, right, car)
		}
	}
	fine := func(left, right float64, faulty bool) []clearance.Gap {
		t.Helper()
		j := demo(t)
		j.Rack.Left.MM, j.Rack.Right.MM = left, right
		q := query(t, j, 1) // on spacers
		if faulty {
			q.Case.Obstacles[9].Wish = -1
		}
		a, err := clearance.Fine(context.Background(), &q, clearance.Gaps)
		if err != nil {
			t.Fatal(err)
		}
		return a.Gaps
	}
	whole := fine(62, 62, false)                 // either wheel goes everywhere
	for _, faulty := range []bool{false, true} { // one that has no answer takes nothing from the others
		rights := 0
		for i, g := range fine(20, 62, faulty) {
			if g.Err != nil {
				if !faulty || i != 9 {
					t.Errorf("%s: %v", g.Obstacle.Name, g.Err)
				}
				continue
			}
			if g.Gap != whole[i].Gap || g.Rack != whole[i].Rack || g.Right != (whole[i].Rack > 20+1e-9) {
				t.Errorf("%s: %+v, with both stops at 62 %+v", g.Obstacle.Name, g, whole[i])
			}
			if !g.Right {
				continue
			}
			rights++
			if got := g.Where(units.Millimetre); !strings.HasPrefix(got, "right wheel, at ") || !strings.HasSuffix(got, "mm right") || g.CarRack() != -g.Rack {
				t.Errorf("%s at rack %g: %q", g.Obstacle.Name, g.Rack, got)
			}
		}
		if rights == 0 {
			t.Error("no gap is the right wheel's")
		}
	}
}
