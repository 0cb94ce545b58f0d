package jointangle

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// Case A of testdata/kinematics/casea.yaml, an own reference case worked by two
// independent methods: at 60 mm of bump the lower arm has turned by 7.56402775
// degrees and the axis inclination grown from 10.124672 to 12.013504. In a flat
// linkage arm and axis turn the same way or against each other, and the tilt
// is the difference. The tie rod copies the lower arm.
func TestTiltsOfAFlatLinkage(t *testing.T) {
	m := checkcorner.New(t, checkcorner.Flat())
	got, err := Of(m, 60, 0)
	if err != nil {
		t.Fatal(err)
	}
	deg := 180 / math.Pi
	// The arm's outer end goes up: turned by 7.564 from y to z. The axis' top
	// goes inboard: turned by 1.889 the same way round.
	want := 7.56402775 - (12.013504 - 10.124672)
	for _, j := range []Joint{LowerBall, OuterEnd} {
		if math.Abs(got[j]*deg-want) > 1e-5 {
			t.Errorf("%v tilts %.7f, want %.7f degrees", j, got[j]*deg, want)
		}
	}
	if math.Abs(got[RackEnd]*deg-7.56402775) > 1e-7 {
		t.Errorf("rack end tilts %.7f, want 7.5640278 degrees", got[RackEnd]*deg)
	}
	rest, err := Of(m, 0, 0)
	if err != nil || rest != (Tilts{}) {
		t.Errorf("at rest: %v, %v", rest, err)
	}
	if _, err := Of(m, 5000, 0); !errors.Is(err, kinematics.ErrUnreachable) {
		t.Errorf("out of reach: %v", err)
	}
}

// A shank is out of square to its bolt by asin(|u.n|), u along the shank and n
// along the bolt: a level rod across a bolt that stands upright, its outer end
// carried up by rod length x sin 12 degrees, is 12.000 degrees out at both ends.
// Own reference case, exact: equal level arms keep the upright from turning.
func TestShankOutOfSquare(t *testing.T) {
	const rod, degrees = 417.0, 12.0
	c := checkcorner.Flat()
	c.Lower = kinematics.FlatArm(kinematics.Vec{Y: 273, Z: 190}, kinematics.Vec{Y: 273 + rod, Z: 190})
	c.Upper = kinematics.FlatArm(kinematics.Vec{Y: 273, Z: 440}, kinematics.Vec{Y: 273 + rod, Z: 440})
	c.TieRod = kinematics.TieRod{RackEnd: kinematics.Vec{X: -123, Y: 273, Z: 231}, OuterEnd: kinematics.Vec{X: -123, Y: 273 + rod, Z: 231}}
	m := checkcorner.New(t, c)
	travel := -rod * math.Sin(degrees*math.Pi/180) // down, so that the sign must not count
	got, err := Of(m, travel, 0)
	if err != nil {
		t.Fatal(err)
	}
	p := checkcorner.At(t, m, travel, 0)
	u := r3.Unit(r3.Sub(p.OuterEnd, p.RackEnd))
	for _, j := range []Joint{OuterEnd, RackEnd} {
		byRule := math.Asin(math.Abs(r3.Dot(u, kinematics.Vec{Z: 1}))) * 180 / math.Pi
		if tilt := got[j] * 180 / math.Pi; math.Abs(tilt-degrees) > 1e-9 || math.Abs(byRule-degrees) > 1e-9 {
			t.Errorf("%v: %.12f degrees, by the rule %.12f, want %g", j, tilt, byRule, degrees)
		}
	}
}

// In space: the tilt of a ball joint is the angle between the stud and the
// place it had in the arm at rest, carried along by turning the arm about its
// axis. The turn is found from the ball joint's own path.
func TestTiltsInSpace(t *testing.T) {
	c := checkcorner.Inclined()
	m := checkcorner.New(t, c)
	rest, err := m.At(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range [][2]float64{{47, -22}, {-38, 31}, {9, 40}} {
		got, err := Of(m, at[0], at[1])
		if err != nil {
			t.Fatal(err)
		}
		p, err := m.At(at[0], at[1])
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range []struct {
			joint   Joint
			arm     kinematics.Arm
			was, is kinematics.Vec
		}{{LowerBall, c.Lower, rest.LowerBall, p.LowerBall}, {UpperBall, c.Upper, rest.UpperBall, p.UpperBall}} {
			axis := r3.Unit(r3.Sub(b.arm.Front, b.arm.Rear))
			off := func(v kinematics.Vec) kinematics.Vec {
				d := r3.Sub(v, b.arm.Rear)
				return r3.Sub(d, r3.Scale(r3.Dot(d, axis), axis))
			}
			turn := math.Atan2(r3.Dot(axis, r3.Cross(off(b.was), off(b.is))), r3.Dot(off(b.was), off(b.is)))
			carried := r3.NewRotation(turn, axis).Rotate(rest.SteeringAxis())
			want := math.Acos(r3.Dot(carried, p.SteeringAxis()))
			if math.Abs(got[b.joint]-want) > 1e-7 || want < 0.01 {
				t.Errorf("%v at %v: %.9f, want %.9f rad", b.joint, at, got[b.joint], want)
			}
		}
		rod := r3.Sub(p.OuterEnd, p.RackEnd)
		rod0 := r3.Sub(rest.OuterEnd, rest.RackEnd)
		want := math.Abs(math.Acos(r3.Cos(rod, p.SteeringAxis())) - math.Acos(r3.Cos(rod0, rest.SteeringAxis())))
		if math.Abs(got[OuterEnd]-want) > 1e-9 {
			t.Errorf("outer end at %v: %.9f, want %.9f rad", at, got[OuterEnd], want)
		}
	}
}

// The most of each joint is a pose's own, and no pose of a dense sample tilts more,
// on corners at random: what is largest between two places is found there.
func TestMostOver(t *testing.T) {
	const seed = 77
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	between := 0
	for range 150 {
		c := checkcorner.Inclined()
		for _, at := range c.Coordinates() {
			c.Shift(at, 120*r.Float64()-60)
		}
		m, err := kinematics.New(&c)
		if err != nil {
			continue
		}
		travel, rack := []float64{-51, -20, 3, 33, 64}, []float64{-44, -7, 19, 39}
		most, unmet := Over(&m, travel, rack)
		for j, worst := range most {
			if tilts, err := Of(&m, worst.Travel, worst.Rack); err != nil || tilts[j] != worst.Tilt {
				t.Errorf("%v: %+v is no pose's: %v, %v", Joint(j), worst, tilts[j], err)
			}
			if unmet == 0 && !slices.Contains(travel, worst.Travel) || unmet == 0 && !slices.Contains(rack, worst.Rack) {
				between++
			}
		}
		for h := -51.0; h <= 64; h += 2.5 {
			for k := -44.0; k <= 39; k += 2 {
				tilts, err := Of(&m, h, k)
				if err != nil {
					continue
				}
				for j, tilt := range tilts {
					if tilt > most[j].Tilt+1e-9 && unmet == 0 {
						t.Errorf("%v tilts %g at %g, %g: more than %+v", Joint(j), tilt, h, k, most[j])
					}
				}
			}
		}
	}
	if t.Logf("%d between places", between); between < 10 {
		t.Errorf("%d largest tilts between places: the corners test little", between)
	}
}

// Places out of reach are counted and left out; what is in reach beside them is
// looked at up to where a link binds.
func TestMostOverLeavesOutWhatIsOutOfReach(t *testing.T) {
	m := checkcorner.New(t, checkcorner.Inclined())
	rack := []float64{-44, -7, 19, 39}
	most, unmet := Over(m, []float64{-51, -20, 3, 33, 64, 4000}, rack)
	if unmet != len(rack) {
		t.Errorf("%d unmet, want %d", unmet, len(rack))
	}
	for j, worst := range most {
		if tilts, err := Of(m, worst.Travel, worst.Rack); err != nil || tilts[j] != worst.Tilt || worst.Travel <= 64 {
			t.Errorf("%v: %+v: %v, %v", Joint(j), worst, tilts[j], err)
		}
	}
}
