package kinematics

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func jobTravels() []float64 {
	var list []float64
	for h := -60.0; h <= 60; h += 7.5 {
		list = append(list, h)
	}
	return list
}

// worstToe is the largest change of toe over the travels.
func worstToe(t *testing.T, c Corner, travels []float64) float64 {
	t.Helper()
	m, worst := mustNew(t, c), 0.0
	for _, h := range travels {
		r := mustRead(t, m, h, 0)
		worst = max(worst, math.Abs(value(t, &r, Toe)-c.Toe))
	}
	return worst
}

// TestIdealRackEndFlat: a rod from the ideal end of a flat corner leaves toe a
// third-order function of travel.
func TestIdealRackEndFlat(t *testing.T) {
	r := seeded(t, 91)
	for i := range 200 {
		c := randomCorner(r)
		c.Upper.Flat, c.Lower.Flat = true, true
		c.Upper.Ball.X, c.Lower.Ball.X, c.Toe = 0, 0, 0
		c.TieRod.RackEnd.X = c.TieRod.OuterEnd.X
		ideal, ok := mustNew(t, c).RackEndFlat()
		if !ok {
			t.Fatalf("corner %d has no ideal rack end", i)
		}
		if ideal.AtInfinity || math.Abs(ideal.At.X) > MaxLength/2 || math.Abs(ideal.At.Y) > MaxLength/2 {
			continue
		}
		c.TieRod.RackEnd.Y, c.TieRod.RackEnd.Z = ideal.At.X, ideal.At.Y
		m := mustNew(t, c)
		rate := func(h float64) float64 { r := mustRead(t, m, h, 0); return value(t, &r, RideToe) }
		near(t, "ride toe at rest", rate(0), 0, 1e-12)
		near(t, "its slope", central(rate, 0, 0.05), 0, 1e-10)
		if t.Failed() {
			t.Fatalf("corner %d: %+v", i, c)
		}
	}
}

// TestRackEndSpace: moving the rack end to the sphere's centre takes away most
// of the bump steer of a general corner, and the left-over tells how much of
// the rod's error stays.
func TestRackEndSpace(t *testing.T) {
	r := seeded(t, 92)
	for i := range 100 {
		c := randomCorner(r)
		before := worstToe(t, c, jobTravels())
		m := mustNew(t, c)
		centre, leftOver, err := m.RackEndSpace(jobTravels())
		if err != nil {
			t.Fatal(err)
		}
		c.TieRod.RackEnd = centre
		after := mustNew(t, c)
		worst := worstToe(t, c, jobTravels())
		if !(worst <= before/3+rad(0.02)) {
			t.Errorf("corner %d: toe changes by %.4f degrees from the best rack end, %.4f before", i, deg(worst), deg(before))
		}
		// With the rod at its resting length the error is the path's distance
		// from that sphere, counted from the resting point. The path shifts a
		// little with the steer that the better rod takes away: a fifth.
		least, most := 0.0, 0.0
		for _, h := range jobTravels() {
			rd := mustRead(t, after, h, 0)
			e := value(t, &rd, TieRodError)
			least, most = min(least, e), max(most, e)
		}
		if !(most-least <= 1.2*2*leftOver+1e-6 && leftOver <= 1.2*(most-least)+1e-6) {
			t.Errorf("corner %d: left over %g, errors from %g to %g", i, leftOver, least, most)
		}
	}
}

// TestRackEndSpaceOfFlat: in a flat corner it comes to the centre of curvature
// as the travel becomes small.
func TestRackEndSpaceOfFlat(t *testing.T) {
	c := caseA()
	c.TieRod = TieRod{RackEnd: Vec{X: 120, Y: 301, Z: 251}, OuterEnd: Vec{X: 120, Y: 670, Z: 240}}
	centre, leftOver, err := mustNew(t, c).RackEndSpace([]float64{-20, -12, -5, 1, 8, 14, 20})
	if err != nil {
		t.Fatal(err)
	}
	nearVec(t, "centre", centre, Vec{X: 120, Y: 265.564995, Z: 246.582309}, 1)
	near(t, "left over", leftOver, 0, 2e-3)
	// The given path of a sphere is found again, from any shape of path.
	var path []Vec
	q := Vec{X: -133, Y: 287, Z: 241}
	for i := range 9 {
		a, b := 0.31+0.05*float64(i), 0.2*math.Sin(float64(i))
		path = append(path, r3.Add(q, r3.Scale(377, Vec{X: math.Sin(b), Y: math.Cos(b) * math.Cos(a), Z: math.Cos(b) * math.Sin(a)})))
	}
	found, err := sphereNear(path, Vec{X: 1, Y: 2, Z: 3})
	if err != nil {
		t.Fatal(err)
	}
	nearVec(t, "a given sphere's centre", found, q, 1e-7)
}

// TestHeldPath: every point of the path is where the outer end stands with the
// wheel at its resting toe, at its distances from both ball joints.
func TestHeldPath(t *testing.T) {
	for _, c := range someCorners(t, 93, 40) {
		m := mustNew(t, c)
		path, err := m.HeldPath(jobTravels())
		if err != nil {
			t.Fatal(err)
		}
		for i, h := range jobTravels() {
			p := mustAt(t, m, h, 0)
			near(t, "to the lower ball joint", r3.Norm(r3.Sub(path[i], p.LowerBall)), r3.Norm(r3.Sub(c.TieRod.OuterEnd, c.Lower.Ball)), 1e-9)
			near(t, "to the upper ball joint", r3.Norm(r3.Sub(path[i], p.UpperBall)), r3.Norm(r3.Sub(c.TieRod.OuterEnd, c.Upper.Ball)), 1e-9)
			rd := p.Readings()
			near(t, "tie-rod error", value(t, &rd, TieRodError), r3.Norm(r3.Sub(path[i], p.RackEnd))-m.RodLength(), 1e-9)
			// Turned there about the steering axis, the wheel has its resting toe.
			near(t, "toe held", heldToe(m, &p, path[i]), c.Toe, 1e-9)
		}
	}
}

// TestTieRodErrorOfARack: with the rack held off the middle the error is that of
// a corner measured as it stands there, its own toe to be held; so at rest it is
// nought at every place of the rack.
func TestTieRodErrorOfARack(t *testing.T) {
	var most float64
	for i, c := range someCorners(t, 94, 60) {
		m := mustNew(t, c)
		for _, rack := range []float64{-31, -7.3, 12, 29} {
			p, err := m.At(0, rack)
			if err != nil {
				continue
			}
			r := p.Readings()
			near(t, "at rest", value(t, &r, TieRodError), 0, 1e-9)
			stands := c
			stands.Lower.Ball, stands.Upper.Ball, stands.Hub = p.LowerBall, p.UpperBall, p.Hub
			stands.TieRod = TieRod{RackEnd: p.RackEnd, OuterEnd: p.OuterEnd}
			stands.Camber, stands.Toe = value(t, &r, Camber), value(t, &r, Toe)
			stands.Spring = Spring{}
			there := mustNew(t, stands)
			for _, h := range []float64{-44, -9, 17, 52} {
				a, err := m.At(h, rack)
				if err != nil {
					continue
				}
				b := mustAt(t, there, h, 0)
				ra, rb := a.Readings(), b.Readings()
				near(t, "tie-rod error", value(t, &ra, TieRodError), value(t, &rb, TieRodError), 1e-8)
				most = max(most, math.Abs(value(t, &ra, TieRodError)))
			}
			if t.Failed() {
				t.Fatalf("corner %d, rack %g: %+v", i, rack, c)
			}
		}
	}
	if most < 0.5 {
		t.Errorf("the largest error is %g mm: nothing was tested", most)
	}
}

// heldToe turns the spin axis about the steering axis by what takes the outer
// end to its held place, with gonum's rotation.
func heldToe(m *Mechanism, p *Pose, held Vec) float64 {
	foot := r3.Add(p.LowerBall, r3.Scale(m.outerAlong, p.axis))
	from, to := r3.Sub(p.OuterEnd, foot), r3.Sub(held, foot)
	angle := math.Atan2(r3.Dot(p.axis, r3.Cross(from, to)), r3.Dot(from, to))
	s := r3.NewRotation(angle, p.axis).Rotate(p.Spin)
	return math.Atan2(s.X, s.Y)
}

// TestRackEndSaysNo: an arm seen from its end, and travels out of reach.
func TestRackEndSaysNo(t *testing.T) {
	c := caseB()
	// The upper arm's axis lies in the front view, so its ball joint goes fore and aft.
	c.Upper = Arm{Front: Vec{X: -215, Y: 610, Z: 470}, Rear: Vec{X: -215, Y: 720, Z: 451}, Ball: c.Upper.Ball}
	c.Upper.Ball = r3.Add(r3.Add(c.Upper.Rear, r3.Scale(0.6, r3.Sub(c.Upper.Front, c.Upper.Rear))), Vec{X: 200})
	if place, ok := mustNew(t, c).RackEndFlat(); ok {
		t.Errorf("an arm that has no line in the front view gives %+v", place)
	}
	_, _, err := mustNew(t, caseB()).RackEndSpace([]float64{-10, 0, 10, 900})
	if !errors.Is(err, ErrUnreachable) {
		t.Errorf("travel 900: %v", err)
	}
	if path, err := mustNew(t, caseB()).HeldPath([]float64{4, -900}); len(path) != 1 || !errors.Is(err, ErrUnreachable) {
		t.Errorf("travel -900: %v, %v", path, err)
	}
	if _, err := sphereNear([]Vec{{X: 5, Y: 3}, {X: 5, Y: 3}, {X: 5, Y: 3}, {X: 5, Y: 3}}, Vec{}); !errors.Is(err, ErrGeometry) {
		t.Errorf("a path of one point: %v", err)
	}
	defer func() {
		if recover() == nil {
			t.Error("three travels do not panic")
		}
	}()
	_, _, _ = mustNew(t, caseB()).RackEndSpace([]float64{-10, 0, 10})
}
