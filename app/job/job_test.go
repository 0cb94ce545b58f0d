package job_test

import (
	"math"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// TestSampleValues compares what the sample says with what is read.
func TestSampleValues(t *testing.T) {
	j, _ := sample(t)
	if j.Name != "Gravel estate, front" || j.Axle != job.Front || j.Units != units.Millimetre {
		t.Errorf("head: %q %v %v", j.Name, j.Axle, j.Units)
	}
	a, b := &j.Variants[0], &j.Variants[1]
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"bump", j.Travel.Bump.MM, 70}, {"droop", j.Travel.Droop.MM, 57.15},
		{"left", j.Rack.Left.MM, 62}, {"right", j.Rack.Right.MM, 61.5},
		{"wheelbase", j.Wheelbase.MM, 2552.7},
		{"within", j.Within(a), 1}, {"own within", j.Within(b), 0.5},
		{"camber", float64(a.Camber), -1.5}, {"typed camber", float64(b.Camber), -1.5},
		{"toe in radians", a.Toe.Radians(), 0.05 * math.Pi / 180},
		{"rim", a.Wheel.RimWidth.MM, 152.4}, {"rim", b.Wheel.RimWidth.MM, 215.9},
		{"offset", a.Wheel.Offset.MM, 20}, {"offset", b.Wheel.Offset.MM, -19},
		{"spacer", a.Wheel.Spacer.MM, 0}, {"spacer", b.Wheel.Spacer.MM, 6.35},
	} {
		if c.got != c.want {
			t.Errorf("%s is %v, want %v", c.what, c.got, c.want)
		}
	}
	for _, c := range []struct {
		v     *job.Variant
		point kinematics.Point
		want  kinematics.Vec
	}{
		{a, kinematics.UpperFront, kinematics.Vec{X: 110, Y: 395, Z: 430}},
		{a, kinematics.UpperRear, kinematics.Vec{X: -120, Y: 395, Z: 422}},
		{a, kinematics.UpperBall, kinematics.Vec{X: -14, Y: 655, Z: 452}},
		{a, kinematics.LowerFront, kinematics.Vec{Y: 330, Z: 210}},
		{a, kinematics.LowerBall, kinematics.Vec{X: 4, Y: 705, Z: 196}},
		{a, kinematics.RackEnd, kinematics.Vec{X: 102, Y: 345, Z: 244}},
		{a, kinematics.OuterEnd, kinematics.Vec{X: 108, Y: 690, Z: 226}},
		{a, kinematics.HubFace, kinematics.Vec{Y: 762, Z: 315}},
		{a, kinematics.SpringMoving, kinematics.Vec{X: -22, Y: 566, Z: 224}},
		{a, kinematics.SpringBody, kinematics.Vec{X: -30, Y: 456, Z: 560}},
		{b, kinematics.UpperFront, kinematics.Vec{X: -5, Y: 395, Z: 426.25}},
		{b, kinematics.UpperBall, kinematics.Vec{X: -14, Y: 705, Z: 452}},
		{b, kinematics.LowerFront, kinematics.Vec{X: 160, Y: 330, Z: 211}},
		{b, kinematics.LowerRear, kinematics.Vec{X: -175, Y: 331, Z: 208}},
		{b, kinematics.LowerBall, kinematics.Vec{X: 4, Y: 755.65, Z: 196}},
	} {
		corner := c.v.Corner()
		if got := c.v.Point(c.point); got != c.want || *corner.At(c.point) != c.want {
			t.Errorf("%s: %v and %v, want %v", c.point, got, *corner.At(c.point), c.want)
		}
	}
	if ca, cb := a.Corner(), b.Corner(); ca.Upper.Flat || !ca.Lower.Flat || !cb.Upper.Flat || cb.Lower.Flat ||
		ca.Spring.Carrier != kinematics.OnLowerArm || cb.Spring.Carrier != kinematics.OnUpright ||
		cb.Wheel != (kinematics.Wheel{Offset: -19, Spacer: 6.35, LoadedRadius: cb.Wheel.LoadedRadius}) {
		t.Errorf("corners %+v and %+v", ca, cb)
	}
}

// TestLoadedRadius: measured where given; else half of 31 in less 15 % of the
// section height, (31 in - 381 mm) / 2 with the rim of 15 in taken as 381 mm.
func TestLoadedRadius(t *testing.T) {
	j, _ := sample(t)
	if mm, estimated := j.Variants[0].LoadedRadius(); mm != 312 || estimated {
		t.Errorf("%v, estimate %v; want 312, measured", mm, estimated)
	}
	want := 31*25.4/2 - 0.15*(31*25.4-381)/2
	if mm, estimated := j.Variants[1].LoadedRadius(); math.Abs(mm-want) > 1e-9 || !estimated {
		t.Errorf("%v, estimate %v; want %v, estimated", mm, estimated, want)
	}
	j.Variants[1].Wheel.Tyre = "round"
	if mm, estimated := j.Variants[1].LoadedRadius(); mm != 0 || !estimated {
		t.Errorf("%v, estimate %v for no tyre code; want none", mm, estimated)
	}
}

// TestSetPointOfEachPoint moves every point and finds just that one moved.
func TestSetPointOfEachPoint(t *testing.T) {
	j, _ := sample(t)
	for i := range j.Variants {
		corner := j.Variants[i].Corner()
		for n, p := range corner.Points() {
			moved, want := j.Variants[i], corner
			to := kinematics.Vec{X: 3.5 + float64(n), Y: 701.25, Z: -8.125}
			moved.SetPoint(p, to)
			*want.At(p) = to
			if got := moved.Corner(); got != want {
				t.Errorf("%s: %+v, want %+v", p, got, want)
			}
		}
	}
}

func TestSetPointKeepsWhatStays(t *testing.T) {
	j, _ := sample(t)
	v := &j.Variants[1]
	to := v.Point(kinematics.LowerBall)
	to.Z += 2.5
	v.SetPoint(kinematics.LowerBall, to)
	if at := v.Position(kinematics.LowerBall); at.Y.Typed != `29-3/4"` || at.Z != (units.Length{MM: 198.5}) {
		t.Errorf("%+v, want y as typed and z 198.5", at)
	}
}

func TestCloneIsApart(t *testing.T) {
	j, text := sample(t)
	c := j.Clone()
	if !c.Equal(j) || !j.Equal(c) {
		t.Fatal("a clone is not equal")
	}
	c.Variants[1].Hub.Z.MM++
	c.Variants[0].Name = "other"
	if c.Equal(j) {
		t.Error("a changed clone is equal")
	}
	if got := encode(t, j); got != text {
		t.Errorf("changing the clone has changed the job:\n%s", got)
	}
}

// TestEqualSeesEveryValue changes one value after the other.
func TestEqualSeesEveryValue(t *testing.T) {
	j, _ := sample(t)
	for i, change := range []func(*job.Job){
		func(c *job.Job) { c.Name += "." }, func(c *job.Job) { c.Invented = true }, func(c *job.Job) { c.Axle = job.Rear }, func(c *job.Job) { c.Units = units.Inch },
		func(c *job.Job) { c.MeasuredWithin.MM = 2 }, func(c *job.Job) { c.Travel.Droop.MM++ }, func(c *job.Job) { c.Rack.Left.Typed = "62 mm" },
		func(c *job.Job) { c.Wheelbase.Given = false }, func(c *job.Job) { c.Variants = c.Variants[:1] },
		func(c *job.Job) { c.Variants[1].Spring.CarriedBy = kinematics.OnUpperArm }, func(c *job.Job) { c.Variants[0].Wheel.Tyre = "205/65VR15" },
		func(c *job.Job) { c.Variants[0], c.Variants[1] = c.Variants[1], c.Variants[0] },
	} {
		c := j.Clone()
		change(c)
		if c.Equal(j) || j.Equal(c) {
			t.Errorf("change %d is not seen", i)
		}
	}
}

func TestFind(t *testing.T) {
	j, _ := sample(t)
	v, ok := j.Find("longer arms")
	if !ok || v != &j.Variants[1] {
		t.Errorf("found %v, %v", v, ok)
	}
	if _, ok := j.Find("Longer arms"); ok {
		t.Error("found a name that is spelt otherwise")
	}
}
