package kinematics

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// fourBar is a plane linkage of a book: crank and rocker are arms of a corner,
// the coupler is its upright.
type fourBar struct {
	Ground                 [2]float64
	Crank, Coupler, Rocker float64
	CrankDeg               float64 `yaml:"crank_deg"`
	DrawnDeg               float64 `yaml:"drawn_deg"`
	Scale                  float64 // mm for one unit of the linkage
}

// fourBarCorner is a linkage built as a corner: drawn at one crank angle, then
// turned so that the upright stands up, which a corner must.
type fourBarCorner struct {
	fourBar
	m    *Mechanism
	turn float64 // from the linkage's plane to the front view, rad
}

// corner draws the linkage at DrawnDeg by the meeting of two circles, open
// (coupler's far end to the left of the line from crank end to rocker pivot)
// or crossed, and makes it a mechanism.
func (f fourBar) corner(t *testing.T, branch string) fourBarCorner {
	t.Helper()
	sin, cos := math.Sincos(rad(f.DrawnDeg))
	a, o4 := Flat{X: f.Crank * cos, Y: f.Crank * sin}, Flat{X: f.Ground[0], Y: f.Ground[1]}
	base := r2.Sub(o4, a)
	d := r2.Norm(base)
	along := (f.Coupler*f.Coupler - f.Rocker*f.Rocker + d*d) / (2 * d)
	off := math.Sqrt(f.Coupler*f.Coupler - along*along)
	if branch == "crossed" {
		off = -off
	}
	u := r2.Unit(base)
	b := r2.Add(a, Flat{X: along*u.X - off*u.Y, Y: along*u.Y + off*u.X})
	out := fourBarCorner{fourBar: f, turn: math.Pi/2 - math.Atan2(b.Y-a.Y, b.X-a.X)}
	place := func(p Flat, x float64) Vec {
		p = r2.Rotate(r2.Scale(f.Scale, p), out.turn, Flat{})
		return Vec{X: x, Y: p.X, Z: p.Y}
	}
	c := Corner{
		Lower: FlatArm(place(Flat{}, 0), place(a, 0)),
		Upper: FlatArm(place(o4, 0), place(b, 0)),
		// A tie rod that copies the crank in another plane never binds first.
		TieRod: TieRod{RackEnd: place(Flat{}, 120), OuterEnd: place(a, 120)},
		Hub:    r3.Add(place(a, 0), Vec{Y: 97, Z: 61}),
		Wheel:  Wheel{LoadedRadius: 290},
	}
	out.m = mustNew(t, c)
	return out
}

// at assembles the linkage at a crank angle.
func (f *fourBarCorner) at(t *testing.T, crankDeg float64) (Pose, motion) {
	t.Helper()
	var p Pose
	sin, cos := math.Sincos(rad(crankDeg - f.DrawnDeg))
	if link := f.m.assemble(sin, cos, 0, &p); link != NoLink {
		t.Fatalf("crank at %g degrees: %v binds", crankDeg, link)
	}
	v, ok := f.m.move(&p)
	if !ok {
		t.Fatalf("crank at %g degrees: dead point", crankDeg)
	}
	return p, v
}

// plane brings a point or direction back into the linkage's own plane and unit.
func (f *fourBarCorner) plane(v Vec) Flat {
	return r2.Rotate(r2.Scale(1/f.Scale, Front(v)), -f.turn, Flat{})
}

func angle(v Flat) float64 { return math.Atan2(v.Y, v.X) }

// answer gives everything the rows of fourbar.yaml ask for.
func (f *fourBarCorner) answer(t *testing.T, given map[string]float64) map[string]float64 {
	p, v := f.at(t, f.CrankDeg)
	a, b, o4 := f.plane(p.LowerBall), f.plane(p.UpperBall), Flat{X: f.Ground[0], Y: f.Ground[1]}
	crank, coupler, rocker := angle(a), angle(r2.Sub(b, a)), angle(r2.Sub(b, o4))
	near(t, "crank angle", deg(crank), f.CrankDeg, 1e-12)
	got := map[string]float64{
		"coupler_deg": deg(coupler), "rocker_deg": deg(rocker), "coupler_rad": coupler, "rocker_rad": rocker,
		"freudenstein": given["K1"]*math.Cos(rocker) - given["K2"]*math.Cos(crank) + given["K3"] - math.Cos(crank-rocker),
		"joint_a_x":    a.X, "joint_a_y": a.Y, "joint_b_x": b.X, "joint_b_y": b.Y,
	}
	q := math.Tan(rocker / 2)
	got["half_tangent_rocker"] = given["A"]*q*q + given["B"]*q + given["C"]
	q = math.Tan(coupler / 2)
	got["half_tangent_coupler"] = given["D"]*q*q + given["E"]*q + given["F"]

	rate := given["crank_rate"]
	got["coupler_rate"], got["rocker_rate"] = rate*v.turn.X, rate*v.upperRate
	got["torque_out"] = given["torque_in"] * math.Abs(rate/got["rocker_rate"])
	va, vb := r2.Scale(rate, f.plane(v.lower)), r2.Scale(rate, f.plane(v.upper))
	got["velocity_a_x"], got["velocity_a_y"], got["velocity_b_x"], got["velocity_b_y"] = va.X, va.Y, vb.X, vb.Y
	const step = 1e-3 // degrees
	_, up := f.at(t, f.CrankDeg+step)
	_, down := f.at(t, f.CrankDeg-step)
	bend := func(up, down float64) float64 { return rate * rate * (up - down) / (2 * rad(step)) }
	got["coupler_acceleration"] = bend(up.turn.X, down.turn.X) + given["crank_acceleration"]*v.turn.X
	got["rocker_acceleration"] = bend(up.upperRate, down.upperRate) + given["crank_acceleration"]*v.upperRate

	ic, ac := InstantCentre(Flat{}, a, o4, b), ArmsCentre(Flat{}, a, o4, b)
	if ic.AtInfinity || ac.AtInfinity {
		t.Errorf("centres at infinity: %+v %+v", ic, ac)
	}
	got["coupler_centre_x"], got["coupler_centre_y"] = ic.At.X, ic.At.Y
	got["arms_centre_x"], got["arms_centre_y"] = ac.At.X, ac.At.Y
	got["ratio_by_centres"] = ac.At.X / (ac.At.X - o4.X)
	return got
}

func TestPublishedFourBar(t *testing.T) {
	var file struct {
		Linkages map[string]fourBar
		Rows     []checkRow
	}
	loadChecks(t, "fourbar.yaml", &file)
	runChecks(t, file.Rows, func(t *testing.T, row checkRow) map[string]float64 {
		name, branch, _ := strings.Cut(row.Of, " ")
		linkage, ok := file.Linkages[name]
		if !ok || branch != "open" && branch != "crossed" {
			t.Fatalf("no linkage %q", row.Of)
		}
		f := linkage.corner(t, branch)
		return f.answer(t, row.Given)
	})
}

// TestFourBarWholeTurn drives a crank all the way round: Freudenstein's
// equation holds at each angle, and the linkage comes back bit for bit.
func TestFourBarWholeTurn(t *testing.T) {
	norton := fourBar{Ground: [2]float64{100, 0}, Crank: 40, Coupler: 120, Rocker: 80, DrawnDeg: 65, Scale: 3}
	for _, branch := range []string{"open", "crossed"} {
		f := norton.corner(t, branch)
		for crank := 3.0; crank < 360; crank += 7 {
			var p, again Pose
			sin, cos := math.Sincos(rad(crank - f.DrawnDeg))
			if link := f.m.upperAt(sin, cos, &p); link != NoLink {
				t.Fatalf("%s, crank %g: %v binds", branch, crank, link)
			}
			b := f.plane(p.UpperBall)
			rocker := angle(r2.Sub(b, Flat{X: 100}))
			near(t, branch+", Freudenstein's equation", 2.5*math.Cos(rocker)-1.25*math.Cos(rad(crank))+0.5625, math.Cos(rad(crank)-rocker), 1e-12)
			f.m.upperAt(sin, cos, &again)
			if again.UpperBall != p.UpperBall {
				t.Errorf("%s, crank %g: %v, then %v", branch, crank, p.UpperBall, again.UpperBall)
			}
		}
	}
}

// upperAt places only the ball joints: the tie rod of these linkages has a
// dead point where crank and coupler stand in one line.
func (m *Mechanism) upperAt(sin, cos float64, p *Pose) Link {
	if link := m.assemble(sin, cos, 0, p); link == UpperArm {
		return link
	}
	return NoLink
}
