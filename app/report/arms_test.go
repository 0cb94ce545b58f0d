package report

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

func armsLine(t *testing.T, a *Arms, key string) ArmsLine {
	t.Helper()
	for _, l := range a.Lines {
		if l.Key == key {
			return l
		}
	}
	t.Fatalf("no line %q", key)
	return ArmsLine{}
}

// A millimetre of arm does what a millimetre of its adjuster does, toe left to
// the rod; on an arm with one pivot both are the same length.
func TestArmsDoWhatTheirAdjustersDo(t *testing.T) {
	j := loadJob(t, flatJob)
	c := SourceOf(j, 0).Corner
	if !c.Lower.Flat || !c.Upper.Flat {
		t.Fatal("the arms have two pivots")
	}
	thread := bumpsteer.Thread{Diameter: 16, Pitch: 1, Engaged: 40}
	effects, err := bumpsteer.Effects(c, []bumpsteer.Adjuster{bumpsteer.RodEnd("lower", kinematics.LowerFrontLeg, thread, 5, 5), bumpsteer.RodEnd("upper", kinematics.UpperFrontLeg, thread, 5, 5)})
	if err != nil {
		t.Fatal(err)
	}
	const by = 0.02
	for i, spec := range []ArmsSpec{{Lower: by, KeepRod: true}, {Upper: by, KeepRod: true}} {
		a, err := ArmsOf(j, 0, spec)
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range []kinematics.Quantity{kinematics.Camber, kinematics.Toe, kinematics.ScrubRadius, kinematics.HalfTrack, kinematics.RollCentreHeight} {
			want, ok := effects[i].Of(q)
			l := armsLine(t, a, q.String())
			if got := (l.Is.Num - l.Was.Num) / by; !ok || math.Abs(got-want) > 2e-3*math.Abs(want)+1e-4 {
				t.Errorf("%s of adjuster %d: %g for each mm, the adjuster %g", q, i, got, want)
			}
		}
	}
}

// The answers of a longer lower arm: camber in by about its growth over the
// upright's height, the track out, the scrub radius nearly as it was, toe kept.
func TestALongerLowerArm(t *testing.T) {
	j := loadJob(t, frontJob)
	a, err := ArmsOf(j, 2, ArmsSpec{Lower: 20})
	if err != nil {
		t.Fatal(err)
	}
	by := func(key string) float64 { l := armsLine(t, a, key); return l.Is.Num - l.Was.Num }
	c := a.Source.Corner
	near(t, "camber", by("camber"), -20/(c.Upper.Ball.Z-c.Lower.Ball.Z), 0.006)
	near(t, "toe", by("toe"), 0, 1e-12)
	near(t, "scrub radius", by("scrub_radius"), 0, 1)
	near(t, "lower arm", by("lower_arm"), 20, 1e-9)
	near(t, "upper arm", by("upper_arm"), 0, 1e-9)
	if d := by("half_track"); d < 28 || d > 38 {
		t.Errorf("half track by %g", d)
	}
	l := armsLine(t, a, "camber")
	if math.Abs(l.Was.Num-c.Camber) > 1e-12 || !l.More.ok || !(l.More.half > 0) || l.More.half > 0.001 || armsLine(t, a, "lower_arm").More.half > 1e-8 {
		t.Errorf("bands %+v", l)
	}
}

// The band of a change holds what happens to one whose points are off: the
// change on the drawn corner lies within it about 95 times in 100.
func TestBandsOfArmsCover(t *testing.T) {
	j := loadJob(t, frontJob)
	spec := ArmsSpec{Lower: 14, Upper: -3, KeepRod: true}
	a, err := ArmsOf(j, 1, spec)
	if err != nil {
		t.Fatal(err)
	}
	const seed = 81
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 5))
	const draws = 400
	for _, key := range []string{"camber", "toe", "half_track", "camber_gain"} {
		l := armsLine(t, a, key)
		k := 0
		for armsLines[k].Key != key {
			k++
		}
		inside := 0
		for range draws {
			c := a.Source.Corner
			for _, at := range c.Coordinates() {
				c.Shift(at, a.Source.Within.Common()*(2*r.Float64()-1))
			}
			if by := spec.facts(&c)[3*k+2]; by.OK && math.Abs(by.Num-(l.Is.Num-l.Was.Num)) <= l.More.half {
				inside++
			}
		}
		if share := float64(inside) / draws; share < 0.92 || share > 0.98 {
			t.Errorf("%s: %.1f %% within its band", key, 100*share)
		}
	}
}

func TestArmsRefuseWhatMakesNoSense(t *testing.T) {
	j := loadJob(t, frontJob)
	for _, spec := range []ArmsSpec{{}, {HasRoll: true}, {Lower: 5, HasRoll: true, Roll: 1}} {
		if _, err := ArmsOf(j, 0, spec); !errors.Is(err, ErrArmsSpec) {
			t.Errorf("%+v: %v", spec, err)
		}
	}
	var apart *kinematics.AssemblyError
	if _, err := ArmsOf(j, 0, ArmsSpec{Upper: -220}); !errors.As(err, &apart) || apart.Link != kinematics.UpperArm {
		t.Error(err)
	}
}

// With the arm found the outer wheel keeps its camber, and the length's band is
// how far measuring moves it.
func TestTheArmForRollInReport(t *testing.T) {
	j := loadJob(t, frontJob)
	for variant := range j.Variants {
		a, err := ArmsOf(j, variant, ArmsSpec{HasRoll: true, Roll: 1.5 * math.Pi / 180})
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range a.Rolled {
			if said := strings.Contains(a.rollWords()[i].Text, "the limit of what was searched"); said != (r.Arm.Limit != kinematics.NoArmLimit) {
				t.Errorf("limit %d, said %v", r.Arm.Limit, said)
			}
			m, err := kinematics.New(&r.Arm.Corner)
			if err != nil {
				t.Fatal(err)
			}
			left, err := m.OuterCamberInRoll(a.Spec.Roll)
			near(t, "left", left, r.Arm.Left, 1e-9)
			if err != nil || r.Arm.Found != (math.Abs(left) < 1e-8) || r.Arm.Found != r.Band.ok {
				t.Errorf("%+v, %v", r, err)
			}
		}
	}
}

// Arms say what the wheel then comes to, by the one judgement.
func TestArmsSayWhatTheWheelMeets(t *testing.T) {
	j := opened(t, frontJob)
	a, err := ArmsOf(j, 0, ArmsSpec{Lower: 3.25})
	if err != nil {
		t.Fatal(err)
	}
	was := a.Judged.Words(j.Units)
	if text := a.Sheet().String(); !strings.Contains(text, was) {
		t.Errorf("%q is not in\n%s", was, text)
	}
	for i := range j.Obstacles { // as thick as nothing can stand clear of
		j.Obstacles[i].Diameter = units.Length{MM: 700}
	}
	if a, err = ArmsOf(j, 0, ArmsSpec{Lower: 3.25}); err != nil {
		t.Fatal(err)
	}
	if text := a.Sheet().String(); !a.Judged.InTheWay() || a.Judged.Words(j.Units) == was || !strings.Contains(text, "INSIDE tyre or rim") {
		t.Errorf("nothing of the touch in\n%s", text)
	}
}

// Camber and toe after another arm length are known as well as the job then says: of
// cars measured by the same tape, about 95 in 100 have them within that. An angle that
// stays is known as before.
func TestAnglesAfterAnArmCover(t *testing.T) {
	const seed, cars = 2417, 3000
	rng := rand.New(rand.NewPCG(seed, 0))
	j := opened(t, frontJob)
	for _, spec := range []ArmsSpec{{Lower: 22, Upper: -7.5}, {Lower: 9, KeepRod: true}, {Upper: -12, KeepRod: true}} {
		camber, toe := AnglesAfter(j, 0, spec.Anew)
		s := SourceOf(j, 0)
		middle, err := spec.Anew(s.Corner)
		if err != nil || !(camber > 0) || toe > 0 != spec.KeepRod {
			t.Fatalf("%+v: known within %v and %v, %v", spec, camber, toe, err)
		}
		inCamber, inToe, tried := 0, 0, 0
		for range cars {
			c := s.Corner
			for _, p := range c.Points() {
				at := c.At(p)
				for _, v := range []*float64{&at.X, &at.Y, &at.Z} {
					*v += s.Within.Common() * (2*rng.Float64() - 1)
				}
			}
			next, err := spec.Anew(c)
			if err != nil {
				continue
			}
			tried++
			if math.Abs(next.Camber-middle.Camber) <= camber.Radians() {
				inCamber++
			}
			if math.Abs(next.Toe-middle.Toe) <= toe.Radians()+1e-9 {
				inToe++
			}
		}
		for i, in := range []int{inCamber, inToe} {
			share := float64(in) / float64(tried)
			if i == 1 && !spec.KeepRod {
				if in != tried {
					t.Errorf("seed %d: toe of %d cars is not kept", seed, tried-in)
				}
				continue
			}
			if tried < cars*9/10 || share < 0.93 || share > 0.98 {
				t.Errorf("seed %d, %+v: %.3f of %d cars lie within ±%v° of camber, ±%v° of toe", seed, spec, share, tried, camber, toe)
			}
		}
	}
	v := &j.Variants[0]
	v.CamberWithin, v.ToeWithin = 0.4, 0.15 // said before
	if c, t2 := AnglesAfter(j, 0, func(c kinematics.Corner) (kinematics.Corner, error) {
		return kinematics.WithUpperArm(c, -8, kinematics.AtPivot)
	}); c != 0.4 || t2 != 0.15 {
		t.Errorf("angles that stay are known within %v and %v", c, t2)
	}
	keep := ArmsSpec{Lower: 9, KeepRod: true}
	if c, t2 := AnglesAfter(j, 0, keep.Anew); !(c > 0.4 && c < 0.5 && t2 > 0.15 && t2 < 0.3) {
		t.Errorf("with errors of their own before, known within %v and %v", c, t2)
	}
}
