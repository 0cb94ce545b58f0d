package scene

import (
	"errors"
	"math"
	"strings"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"

	"gonum.org/v1/gonum/spatial/r3"
)

// near is how far, mm, a drawn point may be from where the mechanism has it:
// rounding of a few additions.
const near = 1e-9

func apart(p, q draw.Point) float64 { return p.Sub(q).Len() }

// lines returns the ends of every two-point line of a role.
func lines(l *draw.List, role draw.Role) (ends [][2]draw.Point) {
	for i := range l.Items() {
		it := &l.Items()[i]
		if it.Role == role && it.Kind == draw.KindPath {
			c := l.Corners(it)
			ends = append(ends, [2]draw.Point{c[0].At, c[len(c)-1].At})
		}
	}
	return ends
}

func texts(l *draw.List) (all []string) {
	for i := range l.Items() {
		if it := &l.Items()[i]; it.Kind == draw.KindText {
			all = append(all, string(l.TextOf(it)))
		}
	}
	return all
}

func says(l *draw.List, part string) bool {
	return strings.Contains(strings.Join(texts(l), "\n"), part)
}

func front(mirror float64, v kinematics.Vec) draw.Point { return draw.Point{X: mirror * v.Y, Y: v.Z} }

// Every link is drawn between the points of the pose, of both corners in roll.
func TestLinksEndAtThePose(t *testing.T) {
	for _, d := range demos(t) {
		l, out := build(t, fitted(draw.View{W: 700, H: 800}, d.in), d.in)
		poses := []*kinematics.Pose{&out.Left}
		if out.Rolled {
			poses = append(poses, &out.Right)
		}
		arms, rods, uprights := lines(l, draw.Arm), lines(l, draw.TieRod), lines(l, draw.Upright)
		if len(arms) != 2*len(poses) || len(rods) != len(poses) || len(uprights) != len(poses) {
			t.Fatalf("%s: %d arms, %d tie rods, %d uprights of %d corners", d.name, len(arms), len(rods), len(uprights), len(poses))
		}
		for i, p := range poses {
			m := 1 - 2*float64(i)
			check := func(what string, got draw.Point, want kinematics.Vec) {
				if apart(got, front(m, want)) > near {
					t.Errorf("%s, corner %d: %s at %v, not %v", d.name, i, what, got, front(m, want))
				}
			}
			check("upper ball joint", arms[2*i][1], p.UpperBall)
			check("lower ball joint", arms[2*i+1][1], p.LowerBall)
			check("rack end", rods[i][0], p.RackEnd)
			check("outer end", rods[i][1], p.OuterEnd)
			check("upright, lower", uprights[i][0], p.LowerBall)
			check("upright, upper", uprights[i][1], p.UpperBall)
		}
	}
}

// A flat arm keeps its drawn length in any travel and roll: pivots fixed to the
// body turn with it.
func TestFlatArmsKeepTheirLength(t *testing.T) {
	c := steep()
	upper := math.Hypot(c.Upper.Ball.Y-c.Upper.Front.Y, c.Upper.Ball.Z-c.Upper.Front.Z)
	lower := math.Hypot(c.Lower.Ball.Y-c.Lower.Front.Y, c.Lower.Ball.Z-c.Lower.Front.Z)
	in := inputOf(subject(t, "steep", c, wideSection, 1))
	for _, roll := range []float64{0, 1.3 * degree, -3.7 * degree} {
		for _, rack := range []float64{0, -21} {
			in.Travel, in.Roll, in.Rack = -23, roll, rack
			l, _ := build(t, fitted(draw.View{W: 700, H: 800}, in), in)
			for i, a := range lines(l, draw.Arm) {
				want := upper
				if i%2 == 1 {
					want = lower
				}
				if got := apart(a[0], a[1]); math.Abs(got-want) > 1e-8 {
					t.Errorf("roll %.3f, rack %g: arm %d is drawn %.9f long, not %.9f", roll, rack, i, got, want)
				}
			}
		}
	}
}

// Handles stand at the points, body points where they were measured, in the
// order of the points.
func TestSpots(t *testing.T) {
	for _, d := range demos(t) {
		_, out := build(t, fitted(draw.View{W: 700, H: 800}, d.in), d.in)
		c := &d.in.Now.Study.Case.Corner
		points := c.Points()
		ends := 0
		for i := range d.in.Obstacles {
			for end := range d.in.Obstacles[i].Ends() {
				if s := out.Spots[len(points)+3+ends]; s.Handle != OfObstacle(i, end) || s.OnBody != (d.in.Obstacles[i].Carrier == clearance.OnBody) {
					t.Errorf("%s: spot %d is %v, not end %d of obstacle %d", d.name, len(points)+3+ends, s.Handle, end, i)
				}
				ends++
			}
		}
		if len(out.Spots) != len(points)+3+ends {
			t.Fatalf("%s: %d spots for %d points", d.name, len(out.Spots), len(points))
		}
		for i, p := range points {
			s := out.Spots[i]
			if s.Handle != OfPoint(p) || s.OnBody != p.OnBody() {
				t.Errorf("%s: spot %d is %v, not %v", d.name, i, s.Handle, p)
			}
			if p.OnBody() && !out.Rolled {
				want := front(1, *c.At(p))
				if p == kinematics.RackEnd {
					want.X += out.Rack
				}
				if apart(s.At, want) > near {
					t.Errorf("%s: %v at %v, not %v", d.name, p, s.At, want)
				}
			}
		}
		for i, h := range []Handle{UprightBody, WheelOutline, GroundLine} {
			if out.Spots[len(points)+i].Handle != h {
				t.Errorf("%s: body %d is %v", d.name, i, out.Spots[len(points)+i].Handle)
			}
		}
	}
}

// The drawn arm lines meet in the instant centre that the readings give, and
// the roll line goes from the contact through the roll centre.
func TestCentresAreWhereTheLinesMeet(t *testing.T) {
	for _, name := range []string{"wide", "wide-bump", "rear", "steep", "rack"} {
		in := demoNamed(t, name)
		l, out := build(t, draw.View{Centre: draw.Point{X: -1000, Y: 200}, Zoom: 0.09, W: 1400, H: 900}, in)
		arms := lines(l, draw.ArmLine)
		if len(arms) != 2 {
			t.Fatalf("%s: %d arm lines", name, len(arms))
		}
		c := &in.Now.Study.Case.Corner
		for i, a := range []*kinematics.Arm{&c.Upper, &c.Lower} {
			ball := []kinematics.Vec{out.Left.UpperBall, out.Left.LowerBall}[i]
			for _, p := range arms[i] {
				if off := offPlane(at(out.Left.Contact.X, p.X, p.Y), a, ball); off > 1e-6 {
					t.Errorf("%s: arm line %d leaves the plane of its arm by %g mm", name, i, off)
				}
			}
		}
		flat := func(p draw.Point) kinematics.Flat { return kinematics.Flat{X: p.X, Y: p.Y} }
		meet := kinematics.MeetLines(flat(arms[0][0]), flat(arms[0][1]), flat(arms[1][0]), flat(arms[1][1]))
		y, _ := out.Readings.Of(kinematics.InstantCentreY)
		z, _ := out.Readings.Of(kinematics.InstantCentreZ)
		if meet.AtInfinity || math.Hypot(meet.At.X-y, meet.At.Y-z) > 1e-6 {
			t.Errorf("%s: arm lines meet at %v, the reading is %.6f, %.6f", name, meet.At, y, z)
		}
		h, _ := out.Readings.Of(kinematics.RollCentreHeight)
		roll := lines(l, draw.RollCentreLine)[0]
		if off := fromLine(draw.Point{Y: out.Ground + h}, roll[0], roll[1]); off > 1e-6 {
			t.Errorf("%s: the line passes the roll centre by %g mm", name, off)
		}
		if off := fromLine(front(1, out.Left.Contact), roll[0], roll[1]); off > 1e-6 {
			t.Errorf("%s: the line passes the contact by %g mm", name, off)
		}
	}
}

// offPlane is the distance of p from the plane of pivot axis and ball joint.
func offPlane(p kinematics.Vec, a *kinematics.Arm, ball kinematics.Vec) float64 {
	axis := r3.Sub(a.Front, a.Rear)
	on := a.Rear
	if a.Flat {
		axis, on = at(1, 0, 0), a.Front
	}
	n := r3.Unit(r3.Cross(axis, r3.Sub(ball, on)))
	return math.Abs(r3.Dot(n, r3.Sub(p, on)))
}

func fromLine(p, a, b draw.Point) float64 {
	d, f := b.Sub(a), p.Sub(a)
	return math.Abs(d.X*f.Y-d.Y*f.X) / d.Len()
}

// An instant centre out of the picture is led to by an arrow that points at it.
func TestArrowPointsAtTheInstantCentre(t *testing.T) {
	for _, d := range demos(t) {
		if d.name != "wide" && d.name != "wide-bump" && d.name != "rear" && d.name != "rack" {
			continue
		}
		for _, size := range sizes {
			v := fitted(size, d.in)
			l, out := build(t, v, d.in)
			y, _ := out.Readings.Of(kinematics.InstantCentreY)
			z, _ := out.Readings.Of(kinematics.InstantCentreZ)
			ic := v.Sheet(draw.At(y, z))
			found := 0
			for i := range l.Items() {
				it := &l.Items()[i]
				if it.Role != draw.ArrowQuiet {
					continue
				}
				found++
				c := l.Corners(it)
				tip := v.Sheet(c[0])
				base := mid(v.Sheet(c[1]), v.Sheet(c[2]))
				if off := fromLine(ic, base, tip); off > 1e-6*apart(ic, tip) || apart(ic, tip) > apart(ic, base) {
					t.Errorf("%s at %.0f: the arrow passes the instant centre by %g points", d.name, size.W, off)
				}
			}
			if found != 1 || !says(l, "instant centre") || !says(l, " beyond the centre plane") && size.W > 300 {
				t.Errorf("%s at %.0f: %d arrows, texts %q", d.name, size.W, found, texts(l))
			}
		}
	}
}

func bandAtRest(t *testing.T, in *Input, q kinematics.Quantity) float64 {
	t.Helper()
	half, ok := in.Now.Study.RestBands.Of(q)
	if !ok {
		t.Fatalf("no band of %v", q)
	}
	return half
}

// An instant centre outboard of the tyre is said to be so, on that side.
func TestInstantCentreOutboard(t *testing.T) {
	c := level()
	c.Upper.Ball.Z -= 31 // the arms now meet on the outside
	in := inputOf(subject(t, "outboard", c, levelSection, 1))
	v := fitted(draw.View{W: 520, H: 610}, in)
	l, out := build(t, v, in)
	if arm, ok := out.Readings.Of(kinematics.SwingArm); !ok || arm > 0 {
		t.Fatalf("swing arm %g: not a corner for this test", arm)
	}
	y, _ := out.Readings.Of(kinematics.InstantCentreY)
	if want := "instant centre " + string(Millimetres(nil, y, bandAtRest(t, in, kinematics.InstantCentreY))) + " out from the centre plane"; !says(l, want) {
		t.Errorf("texts %q", texts(l))
	}
}

func TestParallelArms(t *testing.T) {
	in := demoNamed(t, "level")
	for _, size := range sizes {
		l, out := build(t, fitted(size, in), in)
		if _, ok := out.Readings.Of(kinematics.InstantCentreY); ok {
			t.Fatal("the arms are not parallel")
		}
		if !says(l, "arms parallel: instant centre at infinity") {
			t.Errorf("at %.0f x %.0f: texts %q", size.W, size.H, texts(l))
		}
		arms := lines(l, draw.ArmLine)
		if len(arms) != 2 {
			t.Fatalf("%d arm lines", len(arms))
		}
		u, w := arms[0][1].Sub(arms[0][0]), arms[1][1].Sub(arms[1][0])
		if sine := (u.X*w.Y - u.Y*w.X) / u.Len() / w.Len(); math.Abs(sine) > 1e-9 {
			t.Errorf("the arm lines are not parallel: sine %g", sine)
		}
	}
}

// Out of reach, the picture stays at the nearest position and the error says why.
func TestOutOfReach(t *testing.T) {
	s := subject(t, "wide", wide(), wideSection, 1)
	var l draw.List
	var out Output
	in := inputOf(s)
	v := fitted(draw.View{W: 700, H: 800}, in)

	in.Travel = 612
	err := Build(&l, v, in, &out)
	var reach *kinematics.ReachError
	if !errors.As(err, &reach) {
		t.Fatalf("travel 612 mm: %v", err)
	}
	if out.Travel != s.Study.To {
		t.Errorf("shown at %g, not at the end of the travel %g", out.Travel, s.Study.To)
	}
	atEdge := exact(&l)
	in.Travel = s.Study.To
	if err := Build(&l, v, in, &out); err != nil || exact(&l) != atEdge {
		t.Errorf("the edge itself looks different (%v)", err)
	}

	in.Travel, in.Roll = 7, 27*degree
	if err = Build(&l, v, in, &out); !errors.Is(err, kinematics.ErrUnreachable) {
		t.Fatalf("roll 27 degrees: %v", err)
	}
	if out.Rolled || out.Roll != 0 || out.Travel != 7 {
		t.Errorf("shown: rolled %v, roll %g, travel %g", out.Rolled, out.Roll, out.Travel)
	}
	level := exact(&l)
	in.Roll = 0
	if err := Build(&l, v, in, &out); err != nil || exact(&l) != level {
		t.Errorf("without roll it looks different (%v)", err)
	}
}

// The tie rod's arc keeps the rod's length and differs from the held path
// sideways only, by as much as the tie-rod error asks.
func TestTieRodArc(t *testing.T) {
	for _, name := range []string{"wide", "rear", "level", "steep"} {
		in := demoNamed(t, name)
		_, out := build(t, fitted(draw.View{W: 700, H: 800}, in), in)
		a := &out.work.arcs
		end, rod := in.Now.Study.Case.Corner.TieRod.RackEnd, in.Now.Study.Mechanism.RodLength()
		if len(a.rod) != len(a.held) || len(a.held) < heldPoses {
			t.Fatalf("%s: %d and %d poses", name, len(a.rod), len(a.held))
		}
		atRest := false
		for i, p := range a.rod {
			if d := math.Sqrt(sq(p.X-end.X) + sq(p.Y-end.Y) + sq(p.Z-end.Z)); math.Abs(d-rod) > 1e-9 {
				t.Errorf("%s: pose %d is %.9f from the rack end, the rod %.9f long", name, i, d, rod)
			}
			h := a.held[i]
			if p.X != h.X || p.Z != h.Z {
				t.Errorf("%s: pose %d moved from %v to %v, not only sideways", name, i, h, p)
			}
			short := math.Sqrt(sq(h.X-end.X)+sq(h.Y-end.Y)+sq(h.Z-end.Z)) - rod
			if slant := (h.Y - end.Y) / rod; math.Abs((h.Y-p.Y)*slant-short) > 0.02*math.Abs(short)+1e-6 {
				t.Errorf("%s: pose %d stands %.6f aside, the rod is %.6f short", name, i, h.Y-p.Y, short)
			}
			atRest = atRest || math.Abs(h.Y-p.Y) < 1e-9
		}
		if !atRest {
			t.Errorf("%s: the arcs do not meet at rest", name)
		}
	}
}

func sq(x float64) float64 { return x * x }

// The tyre stands flat on the ground, is as wide as its section across the spin
// axis and as high as its diameter on top.
func TestTyreOutline(t *testing.T) {
	for _, d := range demos(t) {
		_, out := build(t, fitted(draw.View{W: 700, H: 800}, d.in), d.in)
		sec := d.in.Now.Section
		p := &out.Left
		n := math.Hypot(p.Spin.Y, p.Spin.Z)
		y, z := p.Spin.Y/n, p.Spin.Z/n
		low, flat := math.Inf(1), 0
		var wide, high [2]float64
		for _, q := range out.Tyre {
			low = min(low, q.Y)
			if q.Y == out.Ground {
				flat++
			}
			dx, dz := q.X-p.WheelCentre.Y, q.Y-p.WheelCentre.Z
			across, up := dx*y+dz*z, dz*y-dx*z
			wide = [2]float64{min(wide[0], across), max(wide[1], across)}
			high = [2]float64{min(high[0], up), max(high[1], up)}
		}
		if low != out.Ground || flat < 2 {
			t.Errorf("%s: lowest at %g with %d corners on the ground at %g", d.name, low, flat, out.Ground)
		}
		if math.Abs(wide[1]-wide[0]-sec.SectionWidth) > near || math.Abs(wide[1]+wide[0]) > near {
			t.Errorf("%s: from %g to %g wide, the section is %g", d.name, wide[0], wide[1], sec.SectionWidth)
		}
		if math.Abs(high[1]-sec.OverallDiameter/2) > near {
			t.Errorf("%s: %g high over the hub, the tyre %g", d.name, high[1], sec.OverallDiameter/2)
		}
		c := draw.Point{X: p.Contact.Y, Y: p.Contact.Z}
		if math.Abs(c.Y-out.Ground) > near || high[0] < -sec.OverallDiameter/2-near {
			t.Errorf("%s: contact at %v, ground at %g", d.name, c, out.Ground)
		}
	}
}

// The dimension's ends are the contact centre and the axis at the ground, and
// its figure is the reading.
func TestScrubDimension(t *testing.T) {
	for _, name := range []string{"wide", "spaced", "steep"} {
		in := demoNamed(t, name)
		l, out := build(t, fitted(draw.View{W: 700, H: 800}, in), in)
		var at []float64
		for _, e := range lines(l, draw.DimensionNow) {
			if e[0] == e[1] { // an extension line: one place, led down by points
				at = append(at, e[0].X)
			}
		}
		g, c := out.Left.AxisAtGround.Y, out.Left.Contact.Y
		if len(at) < 2 || math.Abs(at[0]-g) > near || math.Abs(at[1]-c) > near {
			t.Errorf("%s: extension lines at %v, not %g and %g", name, at, g, c)
		}
		scrub, _ := out.Readings.Of(kinematics.ScrubRadius)
		half, ok := in.Now.Study.BandAt(kinematics.ScrubRadius, out.Travel)
		if want := "scrub " + string(Millimetres(nil, scrub, half)); !ok || !says(l, want) {
			t.Errorf("%s: no %q in %q", name, want, texts(l))
		}
	}
}
