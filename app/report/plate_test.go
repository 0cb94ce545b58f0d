package report

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"testing"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/canvas/plates/platetest"
	"armscribe/kinematics"
)

// plate is a picture under a name.
type plate struct {
	name string
	draw func(l *draw.List, w, h float64)
}

// platesOf are the pictures of a variant in a unit.
func platesOf(t *testing.T, j *job.Job, variant int, unit units.Unit) (list []plate) {
	t.Helper()
	must := func(err error) {
		if err != nil {
			t.Helper()
			t.Fatal(err)
		}
	}
	in := j.Clone()
	in.Units = unit
	v := &in.Variants[variant]
	ways, err := WidenOf(in, variant, WidenSpec{By: 50.8})
	must(err)
	list = append(list, plate{"ways", ways.Plate(in, variant).Draw})
	to := v.Corner()
	wish := ReachSpec{Wish: UsualReach(unit)}
	wish.To = to.Hub.Y + 60
	reached, err := ReachOf(in, variant, wish)
	must(err)
	list = append(list, plate{"reach", reached.Plate(in, variant, 0).Draw})
	wheel, err := WheelOf(WheelSpecOf(in, variant))
	must(err)
	gaps := WheelGaps(in, variant, v.Wheel)
	list = append(list, plate{"wheel", wheel.Plate(&gaps, &to, unit).Draw})
	efforts, err := EffortsBesideOf(in, variant, 0, Loading{Under: UsualUnder(unit)})
	must(err)
	list = append(list, plate{"effort", efforts.Plate(variant != 0, unit).Draw})
	joints, err := JointsOf(in, variant)
	must(err)
	first, err := JointsOf(in, 0)
	must(err)
	list = append(list, plate{"joints", joints.Plate(first).Draw})
	if in.Axle == job.Rear {
		return list
	}
	body, _ := clearance.TyreOf(v)
	lock, err := LockOf(in, variant, 0)
	must(err)
	before, err := LockOf(in, 0, 0)
	must(err)
	curve, err := LockCurve(in, variant, 48)
	must(err)
	was, err := LockCurve(in, 0, 48)
	must(err)
	for way, name := range []string{"lock-right", "lock-left"} {
		list = append(list, plate{name, lock.Plate(curve, before, was, way, body).Draw})
	}
	return list
}

// Words of a picture stand whole inside it and clear of each other, whatever its size,
// and every part drawn around a wheel has its name.
func TestWordsOfPlatesStandClear(t *testing.T) {
	for _, demo := range []string{"gravel-estate", "rear-toe-link", "flat-teaching"} {
		j, err := job.Load("../../assets/demo/" + demo + ".armscribe.yaml")
		if err != nil {
			t.Fatal(err)
		}
		for variant := range 2 {
			unit := []units.Unit{units.Inch, units.Millimetre}[variant]
			for _, p := range platesOf(t, j, variant, unit) {
				for _, size := range platetest.Sizes {
					l, texts := platetest.Look(t, fmt.Sprintf("%s-%d-%s", demo, variant, p.name), p.draw, size[0], size[1])
					if p.name != "wheel" || size[0] < 400 { // less may hold no more than the wheel
						continue
					}
					parts, named := 0, len(regexp.MustCompile(`(?m)\d (mm|in)$`).FindAllString(texts, -1))-4
					for i := range l.Items() {
						if it := &l.Items()[i]; it.Kind == draw.KindCircle && (it.Role == draw.Obstacle || it.Role == draw.ObstacleShort) {
							parts++
						}
					}
					if parts == 0 || named != parts {
						t.Errorf("%s, %v: %d parts, %d named: %s", demo, size, parts, named, texts)
					}
				}
			}
		}
	}
}

// A picture of any size is drawn, as small as a window can make it.
func TestPlatesOfAnySize(t *testing.T) {
	const seed = 20261223
	rnd := rand.New(rand.NewPCG(seed, 3))
	j, err := job.Load(frontJob)
	if err != nil {
		t.Fatal(err)
	}
	list := platesOf(t, j, 1, units.Inch)
	for range 150 {
		w, h := 40+900*rnd.Float64(), 40+700*rnd.Float64()
		for _, p := range list {
			var l draw.List
			if p.draw(&l, w, h); len(l.Items()) == 0 {
				t.Errorf("seed %d: %s of %.0f x %.0f is blank", seed, p.name, w, h)
			}
		}
	}
}

// A place that is wished stands where the scale of the drawing has it: a way that
// reaches it has its tyre's contact there, at an end of the scrub radius.
func TestTheWishedPlaceIsToScale(t *testing.T) {
	j, err := job.Load(frontJob)
	if err != nil {
		t.Fatal(err)
	}
	wish := ReachSpec{Wish: UsualReach(units.Millimetre)}
	wish.To = value(t, readingsAt(t, j.Variants[0].Corner(), 0, 0), kinematics.HalfTrack) + 37
	r, err := ReachOf(j, 0, wish)
	if err != nil {
		t.Fatal(err)
	}
	var list draw.List
	r.Plate(j, 0, 0).Draw(&list, 631, 477)
	wished, near := math.NaN(), math.Inf(1)
	for _, role := range []draw.Role{draw.RollCentreLine, draw.DimensionNow} {
		for i := range list.Items() {
			it := &list.Items()[i]
			switch {
			case it.Role != role:
			case role == draw.RollCentreLine:
				wished = list.Corners(it)[0].At.X
			default:
				near = min(near, math.Abs(list.Corners(it)[0].At.X-wished))
			}
		}
	}
	if !(near < 0.2) { // points
		t.Errorf("the wished place is drawn at %.2f, %.2f from the contact", wished, near)
	}
}
