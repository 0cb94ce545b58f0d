package clearance_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

func TestPlacesGoBackIntoTheJob(t *testing.T) {
	j := demo(t)
	by := kinematics.Vec{X: 2, Y: 49, Z: -3}
	for i := range j.Obstacles {
		was := j.Obstacles[i]
		o := was
		o.At.X = units.Length{MM: o.At.X.MM, Typed: "as typed"}
		to := clearance.ObstacleOf(&o, by)
		to.A.Y += 7.5
		to.A.Z -= 4
		if o.Shape == job.LineShape || o.Shape == job.ArcShape {
			to.B.X += 11
		}
		if o.Shape == job.ArcShape {
			to.C.Z += 5
		}
		if o.Shape == job.CircleShape {
			to.Radius += 6
		}
		clearance.SetPlaces(&o, &to, by)
		got := clearance.ObstacleOf(&o, by)
		if r3.Norm(r3.Sub(got.A, to.A)) > 1e-9 || r3.Norm(r3.Sub(got.B, to.B)) > 1e-9 || r3.Norm(r3.Sub(got.C, to.C)) > 1e-9 || got.Radius != to.Radius {
			t.Errorf("%s: put to %+v, stands at %+v", o.Name, to, got)
		}
		if o.At.X.Typed != "as typed" && !was.Centred() {
			t.Errorf("%s: x lost the way it was typed", o.Name)
		}
		if o.Gap != was.Gap || o.Diameter != was.Diameter || o.Facing != was.Facing && !was.Centred() || o.Centred() {
			t.Errorf("%s: more than the places changed", o.Name)
		}
	}
}

func TestAnotherCarrierLeavesAnObstacleWhereItIsSeen(t *testing.T) {
	j := demo(t)
	by := kinematics.Vec{X: 2, Y: 49, Z: -3}
	for i := range j.Obstacles {
		o := j.Obstacles[i]
		seen := clearance.ObstacleOf(&o, by)
		clearance.SetOn(&o, job.OnUpright, by)
		clearance.SetOn(&o, job.OnBody, by)
		clearance.SetOn(&o, job.OnUpright, by)
		got := clearance.ObstacleOf(&o, by)
		if r3.Norm(r3.Sub(got.A, seen.A)) > 1e-9 || r3.Norm(r3.Sub(got.B, seen.B)) > 1e-9 || r3.Norm(r3.Sub(got.C, seen.C)) > 1e-9 || o.Centred() != j.Obstacles[i].Centred() || o.On != job.OnUpright {
			t.Errorf("%s: was seen at %v, now at %v", o.Name, seen.A, got.A)
		}
	}
}

func TestEveryShapeChangesIntoEveryOther(t *testing.T) {
	j := demo(t)
	for i := range j.Obstacles {
		for _, s := range []job.ObstacleShape{job.PointShape, job.LineShape, job.CircleShape, job.ArcShape} {
			k := j.Clone()
			was := k.Obstacles[i]
			clearance.SetShape(&k.Obstacles[i], s)
			if p := k.Problems(); len(p) > 0 || k.Obstacles[i].At != was.At {
				t.Errorf("%s as %s: %v", was.Name, s, p)
			}
			if s == was.Shape && k.Obstacles[i] != was {
				t.Errorf("%s: the same shape changed it", was.Name)
			}
			if data, err := k.Encode(); err != nil {
				t.Errorf("%s as %s: %v", was.Name, s, err)
			} else if _, err := job.Read("again", data); err != nil {
				t.Errorf("%s as %s does not open again: %v", was.Name, s, err)
			}
		}
	}
}

func TestDrafts(t *testing.T) {
	j := demo(t)
	a, b := kinematics.Vec{X: 3, Y: 911.04, Z: 318}, kinematics.Vec{X: 44, Y: 941, Z: 658.2}
	lip := clearance.Draft{Shape: job.CircleShape, Facing: job.Direction{Y: 1}}.Obstacle(clearance.FreeName(j, "arch lip"), a, b)
	if want := math.Hypot(41, 340.2); lip.Name != "arch lip 2" || math.Abs(lip.Radius.MM-want) > 0.06 || lip.At.Y.MM != 911 {
		t.Errorf("%+v, radius by hand %g", lip, want)
	}
	edge := clearance.Draft{Shape: job.LineShape}.Obstacle("edge", a, b)
	if edge.To.Vec() != b || edge.Shape != job.LineShape || edge.Radius.MM != 0 {
		t.Errorf("%+v", edge)
	}
	q := query(t, j, 2)
	m, err := kinematics.New(&q.Corner)
	if err != nil {
		t.Fatal(err)
	}
	p, err := m.At(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if gap := q.Case.Tyre.Gap(&p, clearance.Beside(&p, q.Case.Tyre)); gap < 80 || gap > 90 {
		t.Errorf("a place to begin with stands %g mm off the tyre", gap)
	}
}

// A copy has a name of its own and lies where it is seen; a line keeps its way.
func TestACopyLiesBesideTheOriginal(t *testing.T) {
	j := demo(t)
	for i := range j.Obstacles {
		o, c := j.Obstacles[i], clearance.CopyOf(j, i)
		if c.Name == o.Name || c.At.Z.MM != o.At.Z.MM+20 || c.At.X != o.At.X || c.At.Y != o.At.Y {
			t.Errorf("%s: copied as %q to %+v", o.Name, c.Name, c.At)
		}
		if o.Shape == job.LineShape && (c.To.Z.MM-c.At.Z.MM != o.To.Z.MM-o.At.Z.MM || c.To.Y != o.To.Y) {
			t.Errorf("%s: another line: %+v to %+v", o.Name, c.At, c.To)
		}
		next := j.Clone()
		next.Obstacles = append(next.Obstacles, c)
		if err := next.Problems(); len(err) > 0 {
			t.Errorf("%s: %v", o.Name, err)
		}
	}
}

// An arc told by its centre is the one told by three places, and back; it goes the
// way its angles say.
func TestAnArcIsToldInTwoWays(t *testing.T) {
	const seed = 99
	r := rand.New(rand.NewPCG(seed, 3))
	for n := range 200 {
		d := job.Direction{X: 0.2 * r.NormFloat64(), Y: 1, Z: 0.2 * r.NormFloat64()}
		switch n % 4 {
		case 1:
			d.X, d.Y, d.Z = d.Z, d.X, d.Y
		case 2:
			d.X, d.Y, d.Z = d.Y, d.Z, d.X
		case 3:
			d.Y = -1
		}
		from := -80 + 150*r.Float64()
		o := job.Obstacle{Name: "lip", Shape: job.ArcShape, At: at(r.NormFloat64(), 900, 330), Facing: d, Radius: length(200 + 300*r.Float64()),
			Angles: job.Angles{From: job.Degrees(from), To: job.Degrees(from + 30 + 250*r.Float64())}}
		was := clearance.ObstacleOf(&o, kinematics.Vec{})
		k := o
		clearance.SetCentred(&k, false)
		clearance.SetCentred(&k, true)
		got := clearance.ObstacleOf(&k, kinematics.Vec{})
		for _, p := range [3][2]kinematics.Vec{{was.A, got.A}, {was.B, got.B}, {was.C, got.C}} {
			if r3.Norm(r3.Sub(p[0], p[1])) > 1.5 { // places to 0.1 mm, a short arc from three of them
				t.Fatalf("seed %d, arc %d: %+v was %+v\n%+v became %+v", seed, n, k, o, was, got)
			}
		}
		if span := func(a job.Angles) float64 { return float64(a.To - a.From) }; math.Abs(span(k.Angles)-span(o.Angles)) > 0.3 {
			t.Errorf("seed %d, arc %d: %+v, was %+v", seed, n, k.Angles, o.Angles)
		}
	}
	lip := job.Obstacle{Shape: job.ArcShape, At: at(5, 900, 330), Facing: job.Direction{Y: 1}, Radius: length(350), Angles: job.Angles{From: 0, To: 90}}
	if o := clearance.ObstacleOf(&lip, kinematics.Vec{}); r3.Norm(r3.Sub(o.A, kinematics.Vec{X: 355, Y: 900, Z: 330})) > 1e-9 || r3.Norm(r3.Sub(o.B, kinematics.Vec{X: 5, Y: 900, Z: 680})) > 1e-9 {
		t.Errorf("from forward to above: %+v", o)
	}
}
