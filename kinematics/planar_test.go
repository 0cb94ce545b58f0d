package kinematics

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// curved is a point of a moving plane with its path's first and second
// derivative, by any parameter.
type curved struct{ at, velocity, acceleration Flat }

// centre is the centre of curvature by the textbook formula |v|^3 / (v x a).
func (c curved) centre() Flat {
	v2 := r2.Norm2(c.velocity)
	return r2.Add(c.at, r2.Scale(v2/r2.Cross(c.velocity, c.acceleration), r2.Rotate(c.velocity, math.Pi/2, Flat{})))
}

// rim is a point of a rolling wheel, turned since it touched the rail.
func rim(r, turned, middle float64) curved {
	sin, cos := math.Sincos(turned)
	return curved{Flat{X: middle - r*sin, Y: r - r*cos}, Flat{X: r - r*cos, Y: r * sin}, Flat{X: r * sin, Y: r * cos}}
}

// barPoint is a point of the plane of a bar that slides in two slots: the
// bar's middle goes round the slots' crossing at half its length while the bar
// turns backward as fast. (out, phase) places the point from the middle.
func barPoint(half, at, out, phase float64) curved {
	sm, cm := math.Sincos(at)
	sp, cp := math.Sincos(phase - at)
	return curved{
		Flat{X: half*cm + out*cp, Y: half*sm + out*sp},
		Flat{X: -half*sm + out*sp, Y: half*cm - out*cp},
		Flat{X: -half*cm - out*cp, Y: -half*sm - out*sp},
	}
}

func TestPublishedCurvature(t *testing.T) {
	var file checkFile
	loadChecks(t, "curvature.yaml", &file)
	var linkages struct {
		Linkages map[string]fourBar
		Rows     []checkRow
	}
	loadChecks(t, "fourbar.yaml", &linkages)
	runChecks(t, file.Rows, func(t *testing.T, row checkRow) map[string]float64 {
		switch row.Of {
		case "cycloid":
			r, turned := row.Given["r"], rad(row.Given["turned_deg"])
			point, a, b := rim(r, turned, r*turned), rim(r, turned-1.1, r*turned), rim(r, turned+0.7, r*turned)
			return curvature(t, point.at, a.centre(), a.at, b.centre(), b.at)
		case "ellipse":
			half, out := (row.Given["a"]+row.Given["b"])/2, (row.Given["a"]-row.Given["b"])/2
			at := rad(row.Given["at_deg"])
			point, aside := barPoint(half, at, out, 0), barPoint(half, at, 37, 1.2)
			// The bar's middle goes round the crossing of the slots.
			return curvature(t, point.at, Flat{}, barPoint(half, at, 0, 0).at, aside.centre(), aside.at)
		}
		name, branch, _ := strings.Cut(row.Of, " ")
		f := linkages.Linkages[name].corner(t, branch)
		p, _ := f.at(t, f.CrankDeg)
		a, b, o4 := f.plane(p.LowerBall), f.plane(p.UpperBall), Flat{X: f.Ground[0], Y: f.Ground[1]}
		return curvature(t, r2.Scale(0.5, r2.Add(a, b)), Flat{}, a, o4, b)
	})
}

func curvature(t *testing.T, point, pivotA, jointA, pivotB, jointB Flat) map[string]float64 {
	t.Helper()
	c, ok := CentreOfCurvature(point, pivotA, jointA, pivotB, jointB)
	if !ok || c.AtInfinity {
		t.Fatalf("no centre of curvature: %+v, %v", c, ok)
	}
	pole := InstantCentre(pivotA, jointA, pivotB, jointB).At
	uA, jA, _ := inflection(pole, pivotA, jointA)
	uB, jB, _ := inflection(pole, pivotB, jointB)
	middle, diameter := circle3(pole, r2.Add(pole, r2.Scale(jA, uA)), r2.Add(pole, r2.Scale(jB, uB)))
	return map[string]float64{
		"point_x": point.X, "point_y": point.Y, "centre_x": c.At.X, "centre_y": c.At.Y,
		"radius":       r2.Norm(r2.Sub(c.At, point)),
		"inflection_x": middle.X, "inflection_y": middle.Y, "inflection_diameter": diameter,
	}
}

// circle3 is the circle through three points, by equal distances.
func circle3(a, b, c Flat) (middle Flat, diameter float64) {
	u, v := r2.Sub(b, a), r2.Sub(c, a)
	k := 2 * r2.Cross(u, v)
	m := Flat{X: (v.Y*r2.Norm2(u) - u.Y*r2.Norm2(v)) / k, Y: (u.X*r2.Norm2(v) - v.X*r2.Norm2(u)) / k}
	return r2.Add(a, m), 2 * r2.Norm(m)
}

// TestInstantCentreAtInfinity: parallel lines are a named state with a direction.
func TestInstantCentreAtInfinity(t *testing.T) {
	a, b, along := Flat{X: 310, Y: 205}, Flat{X: 290, Y: 433}, Flat{X: 371, Y: 52}
	place := InstantCentre(a, r2.Add(a, along), b, r2.Add(b, r2.Scale(0.8, along)))
	if !place.AtInfinity {
		t.Fatalf("parallel arms meet at %v", place.At)
	}
	near(t, "sine to the arms", r2.Cross(place.At, r2.Unit(along)), 0, 1e-12)
	near(t, "length of the direction", r2.Norm(place.At), 1, 1e-12)
	defer func() {
		if recover() == nil {
			t.Error("a line through one point twice does not panic")
		}
	}()
	MeetLines(a, a, b, along)
}

// TestInstantCentreIsStill: the point of the upright that stands on the
// instant centre has no velocity in the front view.
func TestInstantCentreIsStill(t *testing.T) {
	m := mustNew(t, caseA())
	for _, h := range []float64{-55, -13, 0, 8, 62} {
		p := mustAt(t, m, h, 0)
		v, _ := m.move(&p)
		c := &m.corner
		ic := InstantCentre(Front(c.Lower.Front), Front(p.LowerBall), Front(c.Upper.Front), Front(p.UpperBall)).At
		r := p.Readings()
		near(t, "instant centre, out", value(t, &r, InstantCentreY), ic.X, 1e-8)
		near(t, "instant centre, up", value(t, &r, InstantCentreZ), ic.Y, 1e-8)
		nearVec(t, "its velocity", v.at(Vec{Y: ic.X, Z: ic.Y}, p.LowerBall), Vec{}, 1e-9)
	}
}

// pathCentre is the centre of curvature of the path of a point of the upright,
// from its positions at three angles of the lower arm, in the front view.
func pathCentre(t *testing.T, m *Mechanism, local Vec, step float64) Flat {
	t.Helper()
	var at [5]Flat
	for i := range at {
		var p Pose
		sin, cos := math.Sincos(float64(i-2) * step)
		if link := m.assemble(sin, cos, 0, &p); link != NoLink {
			t.Fatalf("%v binds", link)
		}
		at[i] = Front(r3.Add(p.LowerBall, p.upright.space(local)))
	}
	// Five-point differences.
	v := r2.Scale(1/(12*step), r2.Add(r2.Sub(at[0], at[4]), r2.Scale(8, r2.Sub(at[3], at[1]))))
	a := r2.Scale(1/(12*step*step), r2.Add(r2.Add(r2.Scale(-1, r2.Add(at[0], at[4])), r2.Scale(16, r2.Add(at[1], at[3]))), r2.Scale(-30, at[2])))
	return curved{at[2], v, a}.centre()
}

// TestCurvatureOfUpright compares Euler-Savary with the curvature of the path
// that the mechanism follows, for random flat corners and points of the
// upright, and for parallel arms of unequal length.
func TestCurvatureOfUpright(t *testing.T) {
	r := seeded(t, 31)
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	for i := range 400 {
		c := randomCorner(r)
		c.Upper.Flat, c.Lower.Flat = true, true
		c.Lower.Ball.X, c.Upper.Ball.X = 0, 0
		parallel := i%4 == 0
		if parallel {
			lower := r2.Sub(Front(c.Lower.Ball), Front(c.Lower.Front))
			c.Upper.Front.Y = c.Upper.Ball.Y - 0.7*lower.X
			c.Upper.Front.Z = c.Upper.Ball.Z - 0.7*lower.Y
		}
		// A tie rod that copies the lower arm keeps the motion flat.
		c.TieRod.RackEnd, c.TieRod.OuterEnd = c.Lower.Front, c.Lower.Ball
		c.TieRod.RackEnd.X, c.TieRod.OuterEnd.X = 118, 118
		m := mustNew(t, c)
		point := Flat{X: in(500, 760), Y: in(100, 600)}
		got, ok := CentreOfCurvature(point, Front(c.Upper.Front), Front(c.Upper.Ball), Front(c.Lower.Front), Front(c.Lower.Ball))
		if !ok || got.AtInfinity {
			t.Fatalf("corner %d: %+v, %v", i, got, ok)
		}
		p := mustAt(t, m, 0, 0)
		want := pathCentre(t, m, p.upright.local(r3.Sub(Vec{Y: point.X, Z: point.Y}, p.LowerBall)), 4e-3)
		// Differences lose digits with the square of the radius.
		radius := r2.Norm(r2.Sub(want, point))
		if d := r2.Norm(r2.Sub(got.At, want)); !(d <= 2e-9*radius*radius+1e-5) {
			t.Errorf("corner %d (parallel %v): centre %v, path says %v, %.3g apart; radius %.1f", i, parallel, got.At, want, d, radius)
		}
		if ic := InstantCentre(Front(c.Upper.Front), Front(c.Upper.Ball), Front(c.Lower.Front), Front(c.Lower.Ball)); ic.AtInfinity != parallel {
			t.Errorf("corner %d: instant centre %+v", i, ic)
		}
	}
}

// TestCurvatureHasNone: where there is no centre the answer says so.
func TestCurvatureHasNone(t *testing.T) {
	c := caseA()
	a, ja, b, jb := Front(c.Upper.Front), Front(c.Upper.Ball), Front(c.Lower.Front), Front(c.Lower.Ball)
	pole := InstantCentre(a, ja, b, jb).At
	if place, ok := CentreOfCurvature(pole, a, ja, b, jb); ok {
		t.Errorf("a point that does not move has a centre: %+v", place)
	}
	uA, jA, _ := inflection(pole, a, ja)
	place, ok := CentreOfCurvature(r2.Add(pole, r2.Scale(jA, uA)), a, ja, b, jb)
	if !ok || !place.AtInfinity {
		t.Errorf("a point that goes straight has its centre at %+v, %v", place, ok)
	}
	near(t, "its direction along the ray", math.Abs(r2.Dot(place.At, uA)), 1, 1e-9)
	// Equal parallel arms: every point has the arms' own curvature.
	shift := Flat{X: 31, Y: 240}
	place, ok = CentreOfCurvature(Flat{X: 713, Y: 344}, a, ja, r2.Add(a, shift), r2.Add(ja, shift))
	if want := r2.Add(Flat{X: 713, Y: 344}, r2.Sub(a, ja)); !ok || place.AtInfinity || r2.Norm(r2.Sub(place.At, want)) > 1e-9 {
		t.Errorf("equal parallel arms: centre %+v, %v, want %v", place, ok, want)
	}
	// Both joints on one line along the arms: the motion is not settled.
	u := r2.Sub(ja, a)
	if place, ok := CentreOfCurvature(Flat{X: 713, Y: 344}, a, ja, r2.Sub(a, r2.Scale(0.3, u)), r2.Add(ja, r2.Scale(0.2, u))); ok {
		t.Errorf("all joints on one line give a centre: %+v", place)
	}
}
