package kinematics

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// general is a second, independent solution of the corner: the upright is a
// rigid body with six unknowns (where its lower ball joint is, and how it is
// turned), held by six equations (two pivot distances of each arm, the tie
// rod's length, the travel), solved by Newton's method with gonum/mat. It
// shares no formula with the mechanism but the resting position of the points.
type general struct {
	links  [5]link
	travel float64 // mm, of the wheel centre
	wheel  Vec     // wheel centre on the upright, from the lower ball joint, at rest
	restZ  float64

	at   Vec    // lower ball joint
	turn [3]Vec // columns of the upright's rotation from rest
	step *mat.VecDense
	miss *mat.VecDense
	jac  *mat.Dense
	lu   mat.LU
}

// link keeps a point of the upright at a fixed distance from a point of the body.
type link struct {
	body    Vec
	upright Vec // from the lower ball joint, at rest
	length  float64
}

func newGeneral(c *Corner, rack float64) *general {
	g := &general{
		step: mat.NewVecDense(6, nil),
		miss: mat.NewVecDense(6, nil),
		jac:  mat.NewDense(6, 6, nil),
	}
	second := func(a Arm) Vec {
		if a.Flat { // any other point of the axis
			return r3.Add(a.Front, Vec{X: -237})
		}
		return a.Rear
	}
	for i, l := range [5]struct{ body, upright Vec }{
		{c.Lower.Front, c.Lower.Ball}, {second(c.Lower), c.Lower.Ball},
		{c.Upper.Front, c.Upper.Ball}, {second(c.Upper), c.Upper.Ball},
		{c.TieRod.RackEnd, c.TieRod.OuterEnd},
	} {
		g.links[i] = link{l.body, r3.Sub(l.upright, c.Lower.Ball), r3.Norm(r3.Sub(l.upright, l.body))}
	}
	g.links[4].body.Y += rack
	centre := r3.Add(c.Hub, r3.Scale(c.Wheel.Spacer-c.Wheel.Offset, spinOf(c)))
	g.wheel, g.restZ = r3.Sub(centre, c.Lower.Ball), centre.Z
	g.rest(c)
	return g
}

// spinOf is the spin axis by two plain rotations of the y axis.
func spinOf(c *Corner) Vec {
	lean := r3.NewRotation(-c.Camber, Vec{X: 1}).Rotate(Vec{Y: 1})
	return r3.NewRotation(-c.Toe, Vec{Z: 1}).Rotate(lean)
}

// rest puts the upright where it was measured.
func (g *general) rest(c *Corner) {
	g.at = c.Lower.Ball
	g.turn = [3]Vec{{X: 1}, {Y: 1}, {Z: 1}}
}

// turned returns a direction of the upright as it stands now.
func (g *general) turned(v Vec) Vec {
	return r3.Add(r3.Add(r3.Scale(v.X, g.turn[0]), r3.Scale(v.Y, g.turn[1])), r3.Scale(v.Z, g.turn[2]))
}

// misses sets the six equations' errors, mm, and returns the largest.
func (g *general) misses() float64 {
	worst := 0.0
	for i := range g.links {
		l := &g.links[i]
		g.miss.SetVec(i, r3.Norm(r3.Sub(r3.Add(g.at, g.turned(l.upright)), l.body))-l.length)
	}
	g.miss.SetVec(5, g.at.Z+g.turned(g.wheel).Z-g.restZ-g.travel)
	for i := range 6 {
		worst = max(worst, math.Abs(g.miss.AtVec(i)))
	}
	return worst
}

// slopes sets the derivatives of the six equations by the lower ball joint's
// shift and a small further turn.
func (g *general) slopes() {
	for i := range g.links {
		l := &g.links[i]
		arm := g.turned(l.upright)
		u := r3.Unit(r3.Sub(r3.Add(g.at, arm), l.body))
		t := r3.Cross(arm, u)
		for j, x := range [6]float64{u.X, u.Y, u.Z, t.X, t.Y, t.Z} {
			g.jac.Set(i, j, x)
		}
	}
	arm := g.turned(g.wheel)
	for j, x := range [6]float64{0, 0, 1, arm.Y, -arm.X, 0} {
		g.jac.Set(5, j, x)
	}
}

// solve goes from where the upright stands to a travel, until every equation
// holds to tol mm. Steps that make the worst equation worse are halved.
func (g *general) solve(travel, tol float64) error {
	g.travel = travel
	worst := g.misses()
	for range 50 {
		if worst <= tol {
			return nil
		}
		g.slopes()
		g.lu.Factorize(g.jac)
		if err := g.lu.SolveVecTo(g.step, false, g.miss); err != nil {
			return fmt.Errorf("travel %g: %w", travel, err)
		}
		at, turn, share := g.at, g.turn, 1.0
		for {
			g.move(share)
			next := g.misses()
			if next < worst || share < 1e-3 {
				worst = next
				break
			}
			g.at, g.turn = at, turn
			share /= 2
		}
	}
	return fmt.Errorf("travel %g: still %g mm off after 50 steps", travel, worst)
}

// move takes a share of Newton's step back from the misses.
func (g *general) move(share float64) {
	s := g.step.RawVector().Data
	g.at = r3.Sub(g.at, r3.Scale(share, Vec{X: s[0], Y: s[1], Z: s[2]}))
	w := r3.Scale(-share, Vec{X: s[3], Y: s[4], Z: s[5]})
	angle := r3.Norm(w)
	if angle == 0 {
		return
	}
	by := r3.NewRotation(angle, w)
	x, y := by.Rotate(g.turn[0]), by.Rotate(g.turn[1])
	x = r3.Unit(x)
	y = r3.Unit(r3.Sub(y, r3.Scale(r3.Dot(x, y), x))) // keeps the turn a turn
	g.turn = [3]Vec{x, y, r3.Cross(x, y)}
}

// The range of a job: bump, droop and rack to either side, mm.
const jobTravel, jobRack = 75.0, 60.0

// TestGeneralSolution compares every point and angle with the six-equation
// solution over the whole range, in 600 random corners.
func TestGeneralSolution(t *testing.T) {
	const corners, tolLength, tolAngle = 600, 1e-7, 1e-9
	r := seeded(t, 20)
	poses, short := 0, 0
	for i := range corners {
		c := randomCorner(r)
		m := mustNew(t, c)
		for _, rack := range []float64{0, -jobRack * r.Float64(), jobRack * r.Float64()} {
			g := newGeneral(&c, 0)
			if err := g.rackTo(&c, rack); err != nil {
				t.Fatalf("corner %d: %v", i, err)
			}
			start := *g
			reach, err := m.Range(rack)
			if err != nil {
				t.Fatalf("corner %d: %v", i, err)
			}
			for _, dir := range []float64{-1, 1} {
				g.at, g.turn = start.at, start.turn
				for travel := 0.0; travel <= jobTravel; travel += 5 {
					if h := dir * travel; h < reach.Droop.Travel+2 || h > reach.Bump.Travel-2 {
						short++ // within 2 mm of binding, or beyond, both solutions lose digits
						break
					}
					if err := g.solve(dir*travel, 1e-11); err != nil {
						t.Fatalf("corner %d: %v", i, err)
					}
					p := mustAt(t, m, dir*travel, rack)
					compare(t, &c, g, &p, tolLength, tolAngle)
					poses++
				}
			}
			if t.Failed() {
				t.Fatalf("corner %d, rack %g: %+v", i, rack, c)
			}
		}
	}
	t.Logf("%d corners, %d poses, %d sweeps ended before %g mm of travel", corners, poses, short, jobTravel)
	if poses < 25*3*corners {
		t.Errorf("only %d poses: the corners are not such as a car may have", poses)
	}
}

// rackTo moves the rack in steps of at most 3 mm, at rest height.
func (g *general) rackTo(c *Corner, rack float64) error {
	n := max(1, math.Ceil(math.Abs(rack)/3))
	for i := 1.0; i <= n; i++ {
		g.links[4].body.Y = c.TieRod.RackEnd.Y + rack*i/n
		if err := g.solve(0, 1e-11); err != nil {
			return err
		}
	}
	return nil
}

func compare(t *testing.T, c *Corner, g *general, p *Pose, tolLength, tolAngle float64) {
	t.Helper()
	nearVec(t, "lower ball joint", p.LowerBall, g.at, tolLength)
	nearVec(t, "upper ball joint", p.UpperBall, r3.Add(g.at, g.turned(g.links[2].upright)), tolLength)
	nearVec(t, "outer end", p.OuterEnd, r3.Add(g.at, g.turned(g.links[4].upright)), tolLength)
	nearVec(t, "wheel centre", p.WheelCentre, r3.Add(g.at, g.turned(g.wheel)), tolLength)
	nearVec(t, "hub", p.Hub, r3.Add(g.at, g.turned(r3.Sub(c.Hub, c.Lower.Ball))), tolLength)
	rd := p.Readings()
	spin := g.turned(spinOf(c))
	axis := g.turned(g.links[2].upright)
	near(t, "camber", value(t, &rd, Camber), -math.Asin(spin.Z), tolAngle)
	near(t, "toe", value(t, &rd, Toe), math.Atan2(spin.X, spin.Y), tolAngle)
	near(t, "caster", value(t, &rd, Caster), math.Atan2(-axis.X, axis.Z), tolAngle)
	near(t, "inclination", value(t, &rd, SteeringAxisInclination), math.Atan2(-axis.Y, axis.Z), tolAngle)
	if c.Spring.Carrier == OnUpright {
		moving := r3.Add(g.at, g.turned(r3.Sub(c.Spring.Moving, c.Lower.Ball)))
		nearVec(t, "spring on the upright", p.SpringMoving, moving, tolLength)
	}
}
