package grip

import (
	"math"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// Invented corners of no particular car, with asymmetric numbers.

// twoBushings has inclined pivot axes and the rack ahead of the axle.
func twoBushings() kinematics.Corner {
	return kinematics.Corner{
		Lower:  kinematics.Arm{Front: kinematics.Vec{X: 151, Y: 303.3, Z: 191}, Rear: kinematics.Vec{X: -172, Y: 311, Z: 185}, Ball: kinematics.Vec{X: 9, Y: 691.3, Z: 178}},
		Upper:  kinematics.Arm{Front: kinematics.Vec{X: 112, Y: 341, Z: 421}, Rear: kinematics.Vec{X: -149, Y: 352, Z: 409}, Ball: kinematics.Vec{X: -16, Y: 648, Z: 457.7}},
		TieRod: kinematics.TieRod{RackEnd: kinematics.Vec{X: 131, Y: 333, Z: 236}, OuterEnd: kinematics.Vec{X: 142, Y: 679, Z: 229.2}},
		Hub:    kinematics.Vec{Y: 752, Z: 311}, Camber: -0.011, Toe: 0.002,
		Wheel:  kinematics.Wheel{Offset: 35, Spacer: 12, LoadedRadius: 309},
		Spring: kinematics.Spring{Carrier: kinematics.OnLowerArm, Moving: kinematics.Vec{X: 5, Y: 553, Z: 196}, Body: kinematics.Vec{X: -11, Y: 422, Z: 603}},
	}
}

// onePivot has one front-view pivot per arm and the spring on the upright.
func onePivot() kinematics.Corner {
	c := twoBushings()
	c.Lower = kinematics.FlatArm(kinematics.Vec{Y: 307, Z: 188}, c.Lower.Ball)
	c.Upper = kinematics.FlatArm(kinematics.Vec{Y: 347, Z: 414}, c.Upper.Ball)
	c.Spring.Carrier = kinematics.OnUpright
	c.Spring.Moving = kinematics.Vec{X: 3, Y: 663, Z: 287}
	return c
}

var section = scene.Section{OverallDiameter: 640, SectionWidth: 205, RimDiameter: 406, RimOverallWidth: 191}

func job(travel, rack float64) Job {
	return Job{Stance: Stance{Travel: travel, Rack: rack}, Bump: 71, Droop: 63, Step: 1}
}

func begin(t *testing.T, c kinematics.Corner, h scene.Handle, j Job) *Drag {
	t.Helper()
	d, err := Begin(c, h, j)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// seen returns where a handle of a corner is shown, solved afresh.
func seen(t *testing.T, c kinematics.Corner, h scene.Handle, at Stance) draw.Point {
	t.Helper()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	f, err := Solve(&m, at)
	if err != nil {
		t.Fatal(err)
	}
	return f.Place(h)
}

// by is a hand that pulls the handle of d by a way, at 1.3 points per mm.
func by(d *Drag, dy, dz float64) Hand {
	return Hand{At: d.From().Add(draw.Point{X: dy, Y: dz}), Zoom: 1.3}
}

func free(h Hand) Hand  { h.Free = true; return h }
func axial(h Hand) Hand { h.Axis = true; return h }

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

func point(p kinematics.Point) scene.Handle { return scene.OfPoint(p) }
