package job_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
)

func sample13(t testing.TB) (*job.Job, string) {
	t.Helper()
	data, err := os.ReadFile(testdata + "/format-1.3.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return reread(t, string(data)), string(data)
}

func TestObstaclesAreRead(t *testing.T) {
	j, text := sample13(t)
	if len(j.Obstacles) != 5 {
		t.Fatalf("%+v", j.Obstacles)
	}
	wing, rail, lip, caliper, damper := &j.Obstacles[0], &j.Obstacles[1], &j.Obstacles[2], &j.Obstacles[3], &j.Obstacles[4]
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"gap", wing.Gap.MM, 12}, {"point", wing.At.Y.MM, 560}, {"end", rail.To.Y.MM, 355.6}, {"tube", rail.Diameter.MM, 38.1},
		{"no x", lip.At.X.MM, 0}, {"circle", lip.Radius.MM, 372}, {"facing", lip.Facing.X, 0.02}, {"gap in inches", lip.Gap.MM, 12.7},
		{"caliper", caliper.Diameter.MM, 44}, {"damper", damper.To.Z.MM, 388},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s is %v, want %v", c.what, c.got, c.want)
		}
	}
	if wing.Shape != job.PointShape || rail.Shape != job.LineShape || lip.Shape != job.CircleShape ||
		wing.On != job.OnBody || caliper.On != job.OnUpright || damper.On != job.OnDamper || damper.Gap.Given {
		t.Errorf("%+v", j.Obstacles)
	}
	if got := encode(t, j); got != text {
		t.Errorf("an unchanged job is written otherwise:\n%s", got)
	}
}

func TestObstaclesAreWritten(t *testing.T) {
	rich, _ := sample13(t)
	plain, _ := sample(t)
	plain.Obstacles = []job.Obstacle{
		{Name: "tub", Shape: job.PointShape, At: job.Position{Y: units.Length{MM: 561.5}, Z: units.Length{MM: 602}}},
		rich.Obstacles[2],
	}
	got := encode(t, plain)
	for _, want := range []string{"armscribe: 1.3\n", "\nobstacles:\n  - {name: tub, shape: point, at: {y: 561.5, z: 602}}\n",
		"  - {name: wing lip, shape: circle, at: {y: 906, z: 318}, facing: {x: 0.02, y: 1}, radius: 372, gap: 1/2 in}\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	back := reread(t, got)
	if !back.Equal(plain) {
		t.Error("it reads back otherwise")
	}
	back.Obstacles[0].Gap = job.Given(units.Length{MM: 3})
	if back.Equal(plain) {
		t.Error("another gap counts as equal")
	}

	// A copy shares none of them, and comments stay with those that move.
	c := rich.Clone()
	c.Obstacles = append(c.Obstacles[:1:1], c.Obstacles[2:]...)
	c.Obstacles[1].On = job.OnDamper
	if len(rich.Obstacles) != 5 || rich.Obstacles[2].On != job.OnBody {
		t.Error("the copy shares its obstacles")
	}
	c.Obstacles[1].On = job.OnBody
	got = encode(t, c)
	if !strings.Contains(got, "gap: 1/2 in} # taped\n  - {name: caliper") || strings.Contains(got, "chassis rail") {
		t.Errorf("one removed:\n%s", got)
	}
	if back := reread(t, got); !back.Equal(c) {
		t.Error("one removed reads back otherwise")
	}
}

func TestObstacleProblems(t *testing.T) {
	for what, spoil := range map[string]func(*job.Obstacle){
		"shape: is none":         func(o *job.Obstacle) { o.Shape = 0 },
		"on: is nothing":         func(o *job.Obstacle) { o.On = 9 },
		"at.x":                   func(o *job.Obstacle) { o.At.X.MM = math.NaN() },
		"facing":                 func(o *job.Obstacle) { o.Facing.Y = math.Inf(1) },
		"gap = -1 mm":            func(o *job.Obstacle) { o.Gap = job.Given(units.Length{MM: -1}) },
		"is the name of":         func(o *job.Obstacle) { o.Name = "inner wing" },
		"diameter = 501 mm":      func(o *job.Obstacle) { o.Diameter.MM = 501 },
		"radius":                 func(o *job.Obstacle) { o.Radius.MM = 0.5 },
		"name: is empty":         func(o *job.Obstacle) { o.Name = " " },
		"facing: leads nowhere;": func(o *job.Obstacle) { o.Facing = job.Direction{} },
	} {
		j, _ := sample13(t)
		if p := j.Problems(); p != nil {
			t.Fatal(p)
		}
		spoil(&j.Obstacles[2])
		if p := j.Problems(); p == nil || !strings.Contains(p.Error(), what) {
			t.Errorf("%s: %v", what, p)
		}
	}
	j, _ := sample13(t)
	for len(j.Obstacles) <= job.MaxObstacles {
		j.Obstacles = append(j.Obstacles, j.Obstacles[0])
	}
	if p := j.Problems(); p == nil || !strings.Contains(p.Error(), "holds 61 obstacles, more than 60") {
		t.Errorf("too many: %v", p)
	}
}
