package job_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Two pivots for one move the corner as before; back again it is the same file,
// and on an axis measured askew the one pivot is seen where the axis passes the
// ball joint.
func TestPivotsThereAndBack(t *testing.T) {
	j, _ := sample15(t)
	for _, upper := range []bool{true, false} {
		was := j.Variants[1]
		v := was
		v.TwoPivots(upper)
		if n := v.Assumed.Count(); n != 4 {
			t.Errorf("%d values are assumed, want 4", n)
		}
		a, b := was.Corner(), v.Corner()
		ma, err := kinematics.New(&a)
		mb, err2 := kinematics.New(&b)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		for _, h := range []float64{-53.5, 41.25} {
			pa, _ := ma.At(h, 7.5)
			pb, _ := mb.At(h, 7.5)
			for q := range kinematics.QuantityCount {
				ra, rb := pa.Readings(), pb.Readings()
				x, _ := ra.Of(q)
				y, _ := rb.Of(q)
				if math.Abs(x-y) > 1e-8*max(1, math.Abs(x)) {
					t.Errorf("%s at %v: %v, was %v", q, h, y, x)
				}
			}
		}
		if err := v.OnePivot(upper); err != nil {
			t.Fatal(err)
		}
		if c := v.Corner(); c != a || v.Assumed != was.Assumed {
			t.Errorf("back: %+v, was %+v", c, a)
		}
	}
	const seed = 88
	r := rand.New(rand.NewPCG(seed, 3))
	for range 100 {
		v := j.Variants[0]
		v.LowerArm.Rear.Set(kinematics.Vec{X: -160 + 40*r.Float64(), Y: 330 + 60*r.Float64(), Z: 205 + 50*r.Float64()})
		f, rear, ball := v.LowerArm.Front.Vec(), v.LowerArm.Rear.Vec(), v.LowerArm.Ball.Vec()
		if err := v.OnePivot(false); err != nil {
			t.Fatal(err)
		}
		// The pivot lies on the axis: what it is off both ways is in one proportion.
		at := v.LowerArm.Front.Vec()
		share := (ball.X - rear.X) / (f.X - rear.X)
		if math.Abs(at.Y-(rear.Y*(1-share)+f.Y*share)) > 0.006 || math.Abs(at.Z-(rear.Z*(1-share)+f.Z*share)) > 0.006 || at.X != 0 {
			t.Fatalf("seed %d: pivot %v of %v and %v", seed, at, f, rear)
		}
	}
	v := j.Variants[0]
	v.LowerArm.Rear.X.MM = v.LowerArm.Front.X.MM + 0.5
	if err := v.OnePivot(false); !errors.Is(err, job.ErrAcross) || v.LowerArm.Flat {
		t.Errorf("an axis across the car: %v", err)
	}
}

func TestAssumedWords(t *testing.T) {
	side := job.Coordinate(kinematics.Coordinate{Point: kinematics.RackEnd, Axis: 1})
	for _, c := range []struct {
		x    job.Value
		unit units.Unit
		want string
	}{{side, units.Millimetre, "assumed ±80 mm"}, {side, units.Inch, "assumed ±3.15 in"}, {job.CamberValue, units.Inch, "assumed ±2°"},
		{job.ToeValue, units.Millimetre, "assumed ±0.3°"}, {job.RimWidthValue, units.Millimetre, "assumed"}} {
		if got := c.x.AssumedWords(c.unit); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
