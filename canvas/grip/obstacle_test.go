package grip

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/study"
)

// things are obstacles of every shape and carrier.
func things() []clearance.Obstacle {
	at := func(x, y, z float64) kinematics.Vec { return kinematics.Vec{X: x, Y: y, Z: z} }
	return []clearance.Obstacle{
		{Name: "inner wing", A: at(-118, 541.5, 596), Wish: 10},
		{Name: "chassis rail", Shape: clearance.Line, A: at(-420, 474, 372.25), B: at(391, 452, 349), Thick: 22, Wish: 12},
		{Name: "wing lip", Shape: clearance.Circle, A: at(-7, 887, 329), B: at(0.03, 1, 0.07), Radius: 386, Wish: 10},
		{Name: "caliper", Shape: clearance.Line, Carrier: clearance.OnUpright, A: at(-97, 742, 389), B: at(-142, 731, 318), Thick: 24, Wish: 5},
		{Name: "damper body", Shape: clearance.Line, Carrier: clearance.OnDamper, A: at(-6, 511, 352), B: at(-9, 468, 483), Thick: 27, Wish: 8},
		{Name: "lip", Shape: clearance.Arc, A: at(352, 887, 329), B: at(-361, 871, 318), C: at(40, 893, 701), Thick: 4, Wish: 10},
		{Name: "shield", Shape: clearance.Arc, Carrier: clearance.OnUpright, A: at(120, 700, 250), B: at(-131, 704, 262), C: at(9, 711, 431), Wish: 5},
		{Name: "hose", Carrier: clearance.OnUpright, A: at(63, 655, 371), Wish: 8},
	}
}

// seenThings draws the obstacles in a stance and returns where what stands.
func seenThings(t *testing.T, list []clearance.Obstacle, at Stance, plan bool) *scene.Output {
	t.Helper()
	var st study.Study
	if err := st.Update(study.Case{Corner: twoBushings(), Within: kinematics.Evenly(1), Span: study.Span{Bump: 70, Droop: 60}}, at.Rack); err != nil {
		t.Fatal(err)
	}
	in := scene.Input{Now: scene.Subject{Study: &st}, Travel: at.Travel, Rack: at.Rack, Roll: at.Roll, Overlays: scene.Clearance,
		Selected: scene.NoHandle, Hover: scene.NoHandle, Focus: scene.NoHandle, Swept: [2][]r2.Vec{}}
	for _, o := range list {
		in.Obstacles = append(in.Obstacles, scene.Obstacle{Obstacle: o})
	}
	var l draw.List
	var out scene.Output
	build := scene.Build
	if plan {
		build = scene.BuildPlan
	}
	if err := build(&l, draw.View{Centre: draw.Point{X: 500, Y: 300}, Zoom: 0.7, W: 900, H: 700}, &in, &out); err != nil {
		t.Fatal(err)
	}
	return &out
}

var obstacleStances = []Stance{{}, {Travel: 37}, {Travel: -41, Rack: 28}, {Rack: -33, Roll: 0.04}}

// In any stance and either view the end lands under the hand, only the
// coordinates that the view shows change, and only those of that end.
func TestObstacleLandsUnderTheHand(t *testing.T) {
	for _, at := range obstacleStances {
		for _, plan := range []bool{false, true} {
			out := seenThings(t, things(), at, plan)
			for i, o := range things() {
				for end := range (&scene.Obstacle{Obstacle: o}).Ends() {
					d := BeginObstacle(o, end, ObstacleJob{Carry: out.Carries[o.Carrier], Plan: plan, Step: 1})
					spot, _ := out.Spot(scene.OfObstacle(i, end))
					if d.From().Sub(spot.At).Len() > 1e-9 {
						t.Fatalf("%s: from %v, drawn at %v", o.Name, d.From(), spot.At)
					}
					if r := d.To(Hand{At: d.From(), Zoom: 0.7}); r.Obstacle != o {
						t.Errorf("%s: a hand at rest moves it", o.Name)
					}
					to := d.From().Add(draw.Point{X: 13.37, Y: -8.21})
					r := d.To(Hand{At: to, Zoom: 0.7, Free: true})
					list := things()
					list[i] = r.Obstacle
					now, _ := seenThings(t, list, at, plan).Spot(scene.OfObstacle(i, end))
					off := now.At.Sub(to)
					if d.isRim() { // along its way only
						off.X, off.Y = off.X*d.rim.X+off.Y*d.rim.Y, 0
					}
					if off.Len() > 1e-9 {
						t.Errorf("%s end %d, %+v, plan %v: %v off the hand", o.Name, end, at, plan, off)
					}
					want := o
					switch {
					case d.isRim():
						want.Radius = r.Obstacle.Radius
					case plan:
						d.place(&want).X, d.place(&want).Y = d.place(&r.Obstacle).X, d.place(&r.Obstacle).Y
					default:
						d.place(&want).Y, d.place(&want).Z = d.place(&r.Obstacle).Y, d.place(&r.Obstacle).Z
					}
					if r.Obstacle != want || want == o {
						t.Errorf("%s end %d, plan %v: became %+v", o.Name, end, plan, r.Obstacle)
					}
				}
			}
		}
	}
}

// The same place gives the same bits, whatever the way.
func TestTheWayOfAnObstacleDoesNotMatter(t *testing.T) {
	const seed = 41
	r := rand.New(rand.NewPCG(seed, 8))
	at := obstacleStances[2]
	out := seenThings(t, things(), at, false)
	for _, o := range things() {
		job := ObstacleJob{Carry: out.Carries[o.Carrier], Step: 1, Levels: []Level{{draw.Point{X: 300, Y: o.A.Z + 9}, "rack end"}}}
		d := BeginObstacle(o, 0, job)
		to := Hand{At: d.From().Add(draw.Point{X: 21.3, Y: 10.7}), Zoom: 1.3}
		want := BeginObstacle(o, 0, job).To(to)
		for range 50 {
			d.To(Hand{At: draw.Point{X: 900 * r.NormFloat64(), Y: 900 * r.NormFloat64()}, Zoom: 0.2 + r.Float64()})
		}
		if got := d.To(to); got.Obstacle != want.Obstacle || got.Obstacle == o {
			t.Errorf("seed %d, %s: %+v, straight %+v", seed, o.Name, got.Obstacle, want.Obstacle)
		}
	}
}

func TestObstacleSnaps(t *testing.T) {
	o := things()[0]
	d := BeginObstacle(o, 0, ObstacleJob{Step: 1, Levels: []Level{{draw.Point{X: 341, Y: 611.4}, "upper ball joint"}}})
	r := d.To(Hand{At: draw.Point{X: 553.3, Y: 603.8}, Zoom: 2})
	if r.Obstacle.A != (kinematics.Vec{X: -118, Y: 553, Z: 604}) || len(r.Guides) != 0 {
		t.Errorf("the grid gives %v", r.Obstacle.A)
	}
	r = d.To(Hand{At: draw.Point{X: 553.3, Y: 610}, Zoom: 2})
	if r.Obstacle.A.Z != 611.4 || r.Snapped != "level with the upper ball joint" || len(r.Guides) != 1 || !r.Guides[0].Level {
		t.Errorf("level: %v, %q, %v", r.Obstacle.A, r.Snapped, r.Guides)
	}
	if r = d.To(Hand{At: draw.Point{X: 553.3, Y: 610}, Zoom: 2, Free: true}); r.Obstacle.A.Y != 553.3 || r.Obstacle.A.Z != 610 {
		t.Errorf("suspended: %v", r.Obstacle.A)
	}
	if r = d.To(Hand{At: draw.Point{X: 573.3, Y: 605}, Zoom: 2, Axis: true}); r.Obstacle.A.Z != o.A.Z || r.Obstacle.A.Y != 573 {
		t.Errorf("level way: %v", r.Obstacle.A)
	}
	if r = d.To(Hand{At: draw.Point{X: 548, Y: 645.2}, Zoom: 2, Axis: true}); r.Obstacle.A.Y != o.A.Y || r.Obstacle.A.Z != 645 {
		t.Errorf("plumb way: %v", r.Obstacle.A)
	}
	// In plan x is what goes up and down, the nose down.
	d = BeginObstacle(o, 0, ObstacleJob{Step: 1, Plan: true})
	if r = d.To(Hand{At: draw.Point{X: 541.5, Y: 98.2}, Zoom: 2}); r.Obstacle.A.X != -98 || r.Obstacle.A.Z != o.A.Z {
		t.Errorf("in plan: %v", r.Obstacle.A)
	}
	if note := strings.Join(d.Note(&r), "|"); !strings.Contains(note, "x −98 mm  y ") || !strings.Contains(note, "ahead +20 mm") {
		t.Errorf("note %q", note)
	}
	// In a pose the level holds while the other number goes to the grid.
	for _, o := range things() {
		out := seenThings(t, things(), obstacleStances[2], false)
		d := BeginObstacle(o, 0, ObstacleJob{Carry: out.Carries[o.Carrier], Step: 1, Levels: []Level{{draw.Point{X: 1, Y: out.Ground + 317.77}, "x"}}})
		r := d.To(Hand{At: draw.Point{X: d.From().X + 7.3, Y: out.Ground + 318}, Zoom: 2})
		d2 := BeginObstacle(r.Obstacle, 0, d.job)
		if r.Snapped == "" || math.Abs(d2.From().Y-out.Ground-317.77) > 1e-9 || r.Obstacle.A.Y != math.Round(r.Obstacle.A.Y) {
			t.Errorf("%s: %q at %v, A %v", o.Name, r.Snapped, d2.From().Y-out.Ground, r.Obstacle.A)
		}
	}
}

func TestObstacleNudges(t *testing.T) {
	list := things()
	d := BeginObstacle(list[1], 1, ObstacleJob{Step: 1})
	if r := d.By(0.1, -10); r.Obstacle.B != (kinematics.Vec{X: 391, Y: 452.1, Z: 339}) || r.Obstacle.A != list[1].A {
		t.Errorf("nudged to %+v", r.Obstacle)
	}
	if d.Deed(true) != "nudge chassis rail, second end" || d.Deed(false) != "move chassis rail, second end" {
		t.Errorf("deeds %q, %q", d.Deed(true), d.Deed(false))
	}
	if r := BeginObstacle(list[1], 1, ObstacleJob{Step: 1, Plan: true}).By(0, 3); r.Obstacle.B.X != 388 {
		t.Errorf("up in plan: %+v", r.Obstacle.B)
	}
	d = BeginObstacle(list[2], 1, ObstacleJob{Step: 1})
	if r := d.By(0, 10); r.Obstacle.Radius != 396 || d.Deed(true) != "change radius of wing lip" {
		t.Errorf("radius %v, %q", r.Obstacle.Radius, d.Deed(true))
	}
	if r := d.By(-1, 0); r.Obstacle.Radius != 385 {
		t.Errorf("radius %v", r.Obstacle.Radius)
	}
}

// Nothing leaves what a job may hold, and the message names the limit.
func TestObstacleStops(t *testing.T) {
	list := things()
	r := BeginObstacle(list[0], 0, ObstacleJob{Step: 1}).To(Hand{At: draw.Point{X: 25317, Y: 609}, Zoom: 0.02, Free: true})
	if r.Obstacle.A.Y != kinematics.MaxLength || !strings.Contains(r.Message, "10\u2009000 mm") {
		t.Errorf("%v, %q", r.Obstacle.A, r.Message)
	}
	r = BeginObstacle(list[2], 1, ObstacleJob{Step: 1}).To(Hand{At: draw.Point{X: 887, Y: -4000}, Zoom: 0.02})
	if r.Obstacle.Radius != kinematics.MinSpan || !strings.Contains(r.Message, "1 mm") {
		t.Errorf("radius %v, %q", r.Obstacle.Radius, r.Message)
	}
	// The line's other end in one place with the first, in the caliper's own pose.
	o := list[1]
	o.B.X = o.A.X
	r = BeginObstacle(o, 1, ObstacleJob{Step: 1}).To(Hand{At: draw.Point{X: o.A.Y, Y: o.A.Z}, Zoom: 2, Free: true})
	if dx, dy, dz := r.Obstacle.B.X-o.A.X, r.Obstacle.B.Y-o.A.Y, r.Obstacle.B.Z-o.A.Z; math.Sqrt(dx*dx+dy*dy+dz*dz) < kinematics.MinSpan || r.Message == "" {
		t.Errorf("ends %v and %v, %q", r.Obstacle.A, r.Obstacle.B, r.Message)
	}
}

// A hand that would bend an arc straight, or put two of its places in one, stops
// where it still is one, whatever the place.
func TestAnArcStaysOne(t *testing.T) {
	const seed = 7
	r := rand.New(rand.NewPCG(seed, 2))
	for _, o := range things() {
		if o.Shape != clearance.Arc {
			continue
		}
		for range 300 {
			end := r.IntN(3)
			d := BeginObstacle(o, end, ObstacleJob{Step: 1, Plan: r.IntN(2) == 0})
			to := draw.Point{X: 1500 * r.NormFloat64(), Y: 1500 * r.NormFloat64()}
			switch r.IntN(3) {
			case 0: // on another of its places, as near as the view tells
				other := BeginObstacle(o, (end+1)%3, ObstacleJob{Step: 1, Plan: d.job.Plan})
				to = other.From()
			case 1: // flat: all on one line of the view
				a, b := BeginObstacle(o, (end+1)%3, ObstacleJob{Step: 1, Plan: d.job.Plan}).From(), BeginObstacle(o, (end+2)%3, ObstacleJob{Step: 1, Plan: d.job.Plan}).From()
				to = a.Add(b.Sub(a).Mul(r.Float64()))
			}
			got := d.To(Hand{At: to, Zoom: 1, Free: true})
			if _, ok := got.Obstacle.Round(); !ok {
				t.Fatalf("seed %d: %s, end %d to %v: %+v", seed, o.Name, end, to, got.Obstacle)
			}
		}
	}
	straight := clearance.Obstacle{Name: "lip", Shape: clearance.Arc, A: kinematics.Vec{Y: 400, Z: 500}, B: kinematics.Vec{Y: 800, Z: 500}, C: kinematics.Vec{Y: 610, Z: 590}}
	got := BeginObstacle(straight, 2, ObstacleJob{Step: 1}).To(Hand{At: draw.Point{X: 610, Y: 500}, Zoom: 1, Free: true})
	if r, ok := got.Obstacle.Round(); !ok || got.Obstacle.C.Z > 503 || r.Radius < 8000 || got.Message == "" {
		t.Errorf("pressed flat: %+v, radius %v, %q", got.Obstacle, r.Radius, got.Message)
	}
}
