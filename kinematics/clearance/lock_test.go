package clearance

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// The farthest point of each corner of the tyre from the steering axis, among
// a sample of its surface; the same at every lock.
func TestSwingAgainstTheSurface(t *testing.T) {
	for _, corner := range []kinematics.Corner{ahead(), behind()} {
		m := checkcorner.New(t, corner)
		p := checkcorner.At(t, m, -13, 27)
		for _, tyre := range []Tyre{wide(), plain()} {
			got := SwingOf(&p, tyre)
			var want Swing
			forward, _ := p.Heading()
			surface(tyre, &p, 1_000_000, func(s Vec) {
				d := r3.Sub(s, p.WheelCentre)
				if math.Abs(r3.Dot(d, p.Spin)) < tyre.Tread/2-1e-9 {
					return // between the shoulders
				}
				far := r3.Norm(r3.Cross(r3.Sub(s, p.LowerBall), p.SteeringAxis()))
				at := &want.OuterFront
				switch outer, front := r3.Dot(d, p.Spin) > 0, r3.Dot(d, forward) > 0; {
				case !outer && front:
					at = &want.InnerFront
				case !outer:
					at = &want.InnerRear
				case !front:
					at = &want.OuterRear
				}
				*at = max(*at, far)
			})
			for i, pair := range [...][2]float64{{got.InnerFront, want.InnerFront}, {got.InnerRear, want.InnerRear},
				{got.OuterFront, want.OuterFront}, {got.OuterRear, want.OuterRear}} {
				if pair[0] < pair[1]-1e-9 || pair[0] > pair[1]+0.1 {
					t.Errorf("corner %d of the tyre: swing %.4f, sample %.4f", i, pair[0], pair[1])
				}
			}
			q := checkcorner.At(t, m, -13, -40)
			if again := SwingOf(&q, tyre); math.Abs(again.InnerRear-got.InnerRear) > 1e-6 || math.Abs(again.OuterFront-got.OuterFront) > 1e-6 {
				t.Errorf("at another lock %+v, was %+v", again, got)
			}
		}
	}
}

// At the lock found the least gap over the travels is the wished one, and a
// little farther it is less; the way to the other stop is free.
func TestLockLeft(t *testing.T) {
	m := checkcorner.New(t, ahead())
	c := Case{Tyre: wide(), Obstacles: []Obstacle{{Name: "inner wing", A: Vec{X: 318, Y: 560, Z: 371}, Wish: 10}}}
	travel := spread(-54, 62, 15)
	least := func(rack float64) float64 {
		best := math.Inf(1)
		for _, h := range travel {
			gaps, err := GapAt(m, c, h, rack)
			if err != nil {
				t.Fatal(err)
			}
			best = min(best, gaps[0])
		}
		return best
	}
	// The inner wing stands ahead: the tyre's front comes to it as it turns in,
	// which with the rack ahead of the axle is the rack to the right.
	wish := least(-9.7)
	if !(wish > 1 && wish < least(-4)) {
		t.Fatalf("gap %g, and %g with less lock", wish, least(-4))
	}
	c.Obstacles[0].Wish = wish
	got, err := LockLeft(m, c, travel, -51)
	if err != nil || !got.Limited || got.Obstacle != 0 || math.Abs(got.Rack+9.7) > 1e-3 {
		t.Fatalf("lock %+v, %v", got, err)
	}
	if gap := least(got.Rack); gap < wish || least(got.Rack-0.5) > wish {
		t.Errorf("gap %.5f at the lock, %.5f beyond; want %g and less", gap, least(got.Rack-0.5), wish)
	}
	p := checkcorner.At(t, m, 0, got.Rack)
	if toe := math.Atan2(p.Spin.X, p.Spin.Y); math.Abs(got.Steer+toe) > 1e-12 || got.Steer > 0 {
		t.Errorf("steer %g, toe %g", got.Steer, toe)
	}
	if free, err := LockLeft(m, c, travel, 47); err != nil || free.Limited || free.Rack != 47 {
		t.Errorf("the other way: %+v, %v", free, err)
	}
	c.Obstacles[0].Wish = 400
	if none, err := LockLeft(m, c, travel, 47); err != nil || !none.Limited || none.Rack != 0 {
		t.Errorf("a wish that is not met with the rack in the middle: %+v, %v", none, err)
	}
}

// A bare axle: upright steering axes through the contact centres, wheels that
// stand upright, and a rack that turns both by the same angle. The circle then
// follows from the wheelbase by trigonometry.
func TestTurningCircleByHand(t *testing.T) {
	const wheelbase, track = 2487.0, 741.0
	corner := kinematics.Corner{
		Lower:  kinematics.FlatArm(Vec{Y: 300, Z: 190}, Vec{Y: track, Z: 190}),
		Upper:  kinematics.FlatArm(Vec{Y: 331, Z: 430}, Vec{Y: track, Z: 430}),
		TieRod: kinematics.TieRod{RackEnd: Vec{X: -130, Y: 300, Z: 190}, OuterEnd: Vec{X: -130, Y: track, Z: 190}},
		Hub:    Vec{Y: track, Z: 303},
		Wheel:  kinematics.Wheel{LoadedRadius: 303},
	}
	m := checkcorner.New(t, corner)
	tyre := plain()
	got, err := TurningCircleAt(m, tyre, -44, wheelbase) // rack behind: to the right steers left
	if err != nil {
		t.Fatal(err)
	}
	l, r := checkcorner.At(t, m, 0, -44), checkcorner.At(t, m, 0, 44)
	left, right := -math.Atan2(l.Spin.X, l.Spin.Y), math.Atan2(r.Spin.X, r.Spin.Y)
	if left < rad(15) || right < rad(15) {
		t.Fatalf("steer %g, %g", left, right)
	}
	yl, yr := track+wheelbase/math.Tan(left), -track+wheelbase/math.Tan(right)
	if math.Abs(got.Spread-math.Abs(yl-yr)) > 1e-6 {
		t.Errorf("turn centres %g apart, want %g", got.Spread, math.Abs(yl-yr))
	}
	mid := (yl + yr) / 2
	if want := 2 * math.Hypot(wheelbase, mid+track); math.Abs(got.KerbToKerb-want) > 1e-6 {
		t.Errorf("kerb to kerb %g, want %g", got.KerbToKerb, want)
	}
	// The farthest point of the outer tyre, in its own axes from the turn
	// centre: out by the shoulder, and ahead or back by the radius.
	ahead := math.Cos(right)*wheelbase - math.Sin(right)*(mid+track)
	out := math.Sin(right)*wheelbase + math.Cos(right)*(mid+track)
	if want := 2 * (math.Hypot(math.Abs(ahead)+tyre.Radius-tyre.Shoulder, out+tyre.Tread/2) + tyre.Shoulder); math.Abs(got.WallToWall-want) > 1e-6 {
		t.Errorf("wall to wall %g, want %g", got.WallToWall, want)
	}
	other, err := TurningCircleAt(m, tyre, 44, wheelbase)
	if err != nil || math.Abs(other.WallToWall-got.WallToWall) > 1e-9 {
		t.Errorf("the other way round: %+v, %v", other, err)
	}
	if _, err := TurningCircleAt(m, tyre, 0, wheelbase); !errors.Is(err, ErrStraight) {
		t.Errorf("straight ahead: %v", err)
	}
	if _, err := TurningCircleAt(m, tyre, 400, wheelbase); !errors.Is(err, kinematics.ErrUnreachable) {
		t.Errorf("beyond the linkage: %v", err)
	}
}

func fromAbove(a, b Vec) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// The circle of the kerb alone is the one that comes with the wall's, to the last
// bit; its centre lies on the other axle's line, to the inside of the turn, and it
// goes through the farther of the two contacts.
func TestKerbCircleAlone(t *testing.T) {
	m := checkcorner.New(t, ahead())
	const wheelbase = 2437.0
	for _, rack := range []float64{-41, 29} {
		whole, err := TurningCircleAt(m, wide(), rack, wheelbase)
		if err != nil {
			t.Fatal(err)
		}
		alone, err := KerbCircleAt(m, rack, wheelbase)
		if err != nil {
			t.Fatal(err)
		}
		if whole.WallToWall <= whole.KerbToKerb || alone.WallToWall != 0 {
			t.Errorf("rack %v: wall to wall %v, alone %v", rack, whole.WallToWall, alone.WallToWall)
		}
		if whole.WallToWall = 0; whole != alone {
			t.Errorf("rack %v: %+v, alone %+v", rack, whole, alone)
		}
		p := checkcorner.At(t, m, 0, rack)
		if left := -math.Atan2(p.Spin.X, p.Spin.Y) > 0; alone.Centre.X != -wheelbase || alone.Centre.Y > 0 != left {
			t.Errorf("rack %v: centre %v, turning left %v", rack, alone.Centre, left)
		}
		mirror := checkcorner.At(t, m, 0, -rack).Contact
		mirror.Y = -mirror.Y
		if want := 2 * max(fromAbove(p.Contact, alone.Centre), fromAbove(mirror, alone.Centre)); math.Abs(alone.KerbToKerb-want) > 1e-6 {
			t.Errorf("rack %v: kerb to kerb %v, want %v", rack, alone.KerbToKerb, want)
		}
	}
	if _, err := KerbCircleAt(m, 0, wheelbase); !errors.Is(err, ErrStraight) {
		t.Errorf("straight on: %v", err)
	}
}
