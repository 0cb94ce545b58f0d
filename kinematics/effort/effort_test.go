package effort

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
	"gopkg.in/yaml.v3"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// front is a corner with inclined axes, rack ahead, a spring on the lower arm.
func front() kinematics.Corner {
	c := checkcorner.Inclined()
	c.Hub, c.Camber, c.Toe = Vec{X: 1, Y: 751, Z: 309}, rad(-1.3), rad(0.15)
	c.Wheel = kinematics.Wheel{Offset: 18, Spacer: 5, LoadedRadius: 307}
	c.Spring = kinematics.Spring{Carrier: kinematics.OnLowerArm, Moving: Vec{Y: 550, Z: 195}, Body: Vec{X: -10, Y: 420, Z: 600}}
	return c
}

// upright has a vertical steering axis 43 inboard of the contact centre and a
// tie rod square to the car 127 behind it.
func upright() kinematics.Corner {
	return kinematics.Corner{
		Lower:  kinematics.FlatArm(Vec{Y: 300, Z: 190}, Vec{Y: 680, Z: 190}),
		Upper:  kinematics.FlatArm(Vec{Y: 331, Z: 430}, Vec{Y: 680, Z: 430}),
		TieRod: kinematics.TieRod{RackEnd: Vec{X: -127, Y: 300, Z: 190}, OuterEnd: Vec{X: -127, Y: 680, Z: 190}},
		Hub:    Vec{Y: 723, Z: 303},
		Wheel:  kinematics.Wheel{LoadedRadius: 303},
	}
}

func mustSolve(t *testing.T, m *kinematics.Mechanism, g Gear, c Case) Answer {
	t.Helper()
	a, err := Solve(m, g, c)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g within %g", what, got, want, tol)
	}
}

func TestPublishedMoments(t *testing.T) {
	text, err := os.ReadFile("../../testdata/effort/moments.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Rows []struct {
			Row, Of, Source string
			Given, Expect   map[string]float64
			Tolerance       float64
		}
	}
	if err := yaml.Unmarshal(text, &file); err != nil || len(file.Rows) == 0 {
		t.Fatal(err, len(file.Rows))
	}
	for _, row := range file.Rows {
		if row.Source == "" || len(row.Expect) == 0 {
			t.Errorf("%s: no source or nothing expected", row.Row)
		}
		got := map[string]float64{}
		g := row.Given
		lean, d := rad(g["inclination_deg"]), g["offset"]
		axis := Vec{Y: -math.Sin(lean), Z: math.Cos(lean)}
		switch row.Of {
		case "vertical":
			s := rad(g["steer_deg"])
			got["book"] = -g["load"] * d * math.Sin(lean) * math.Sin(s)
			// Each wheel carries half; the right one is turned the other way in its own axes.
			side := func(turn float64) float64 {
				at := r3.NewRotation(turn, axis).Rotate(Vec{Y: d})
				return Moment(Vec{}, axis, at, Vec{Z: g["load"] / 2})
			}
			got["exact"] = side(s) - side(-s)
		case "lateral":
			c := rad(g["caster_deg"])
			got["book"] = g["force"] * g["radius"] * math.Tan(c)
			got["exact"] = math.Abs(Moment(Vec{}, Vec{X: -math.Sin(c), Z: math.Cos(c)}, Vec{Z: -g["radius"]}, Vec{Y: g["force"]}))
		case "braking":
			left, right := -1700.0, -1700.0+g["difference"]
			got["book"] = math.Abs((left - right) * d)
			got["exact"] = Moment(Vec{}, axis, Vec{Y: d}, Vec{X: left}) - Moment(Vec{}, axis, Vec{Y: d}, Vec{X: right})
		case "rolling":
			got["book"] = g["force"] * (d + g["radius"]*math.Tan(lean))
			c := upright()
			c.Upper = kinematics.FlatArm(Vec{Y: 331, Z: 430}, Vec{Y: 680 - 240*math.Tan(lean), Z: 430})
			c.Hub = Vec{Y: 680 + 190*math.Tan(lean) + 1000*d, Z: 1000 * g["radius"]}
			c.Wheel.LoadedRadius = c.Hub.Z
			a := mustSolve(t, checkcorner.New(t, c), Gear{}, Case{Left: Side{Force: Vec{X: -g["force"], Z: 2900}, Rolling: true}})
			still := mustSolve(t, checkcorner.New(t, c), Gear{}, Case{Left: Side{Force: Vec{Z: 2900}}})
			got["exact"] = (a.Left.Moment - still.Left.Moment) / 1000
		}
		for key, want := range row.Expect {
			v, ok := got[key]
			if !ok {
				t.Errorf("%s: nothing gives %s", row.Row, key)
			}
			near(t, row.Row+": "+key, v, want, row.Tolerance)
		}
	}
}

// A vertical axis: moment = force x scrub radius, rod force = moment / steering
// arm, and the pull at the rim by equal work, all by hand.
func TestForceTimesArm(t *testing.T) {
	m := checkcorner.New(t, upright())
	gear := Gear{RackPerTurn: 51, RimRadius: 178}
	a := mustSolve(t, m, gear, Case{Left: Side{Force: Vec{X: -2300, Z: 3100}}, Right: Side{Force: Vec{X: -900, Z: 2900}}})
	near(t, "left moment", a.Left.Moment, 2300*43, 1e-6) // rearward outboard of the axis: toe-out
	near(t, "right moment", a.Right.Moment, 900*43, 1e-6)
	// Behind the axis a wheel that toes out presses the rod toward the car, the
	// left one harder, so that the rack is pushed to the right.
	near(t, "left rod", a.Left.Rod, 2300*43/127.0, 1e-6)
	near(t, "rack", a.Rack, -(2300-900)*43/127.0, 1e-6)
	// The left wheel is braked harder: both turn left. A rack behind the axles moves
	// to the right for that, and the hand feels a pull to the left.
	near(t, "torque", a.WheelTorque, (2300-900)*43/127.0*51/(2*math.Pi), 1e-6)
	near(t, "rim", a.RimPull, a.WheelTorque/178, 1e-9)
	if bare := mustSolve(t, m, Gear{}, Case{}); bare.HasWheel || bare.Rack != 0 {
		t.Errorf("without a gear and without force: %+v", bare)
	}
}

// balance is the force in tie rod and spring, N, by the whole of a corner in
// balance as linear equations: the upright under both ball joints, tie rod, ground
// and a spring on it, and each arm about its own axis, about which nothing holds it
// but its ball joint and a spring on it.
func balance(t *testing.T, c *kinematics.Corner, p *kinematics.Pose, force Vec) (rod, spring float64) {
	t.Helper()
	eq, rhs := mat.NewDense(8, 8, nil), mat.NewVecDense(8, nil)
	set := func(col int, at, along Vec) {
		q := r3.Cross(at, along)
		for row, x := range []float64{along.X, along.Y, along.Z, q.X, q.Y, q.Z} {
			eq.Set(row, col, x)
		}
	}
	const rodColumn, springColumn = 6, 7
	push := r3.Unit(r3.Sub(p.SpringMoving, p.SpringBody))
	for k, e := range []Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		set(k, p.LowerBall, e)
		set(3+k, p.UpperBall, e)
	}
	for row, arm := range []struct {
		arm     kinematics.Arm
		ball    Vec
		carrier kinematics.Carrier
	}{{c.Lower, p.LowerBall, kinematics.OnLowerArm}, {c.Upper, p.UpperBall, kinematics.OnUpperArm}} {
		axis := Vec{X: 1}
		if !arm.arm.Flat {
			axis = r3.Unit(r3.Sub(arm.arm.Front, arm.arm.Rear))
		}
		for k, e := range []Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			eq.Set(6+row, 3*row+k, -Moment(arm.arm.Front, axis, arm.ball, e))
		}
		if c.Spring.Carrier == arm.carrier {
			eq.Set(6+row, springColumn, Moment(arm.arm.Front, axis, p.SpringMoving, push))
		}
	}
	set(rodColumn, p.OuterEnd, r3.Unit(r3.Sub(p.OuterEnd, p.RackEnd)))
	if c.Spring.Carrier == kinematics.OnUpright {
		set(springColumn, p.SpringMoving, push)
	}
	q := r3.Cross(p.Contact, force)
	for row, x := range []float64{force.X, force.Y, force.Z, q.X, q.Y, q.Z} {
		rhs.SetVec(row, -x)
	}
	var x mat.VecDense
	if err := x.SolveVec(eq, rhs); err != nil {
		t.Fatal(err)
	}
	return x.AtVec(rodColumn), x.AtVec(springColumn)
}

// The spring that carries a wheel does so by the balance of all the corner,
// wherever it stands; load / motion ratio is up to 1.5 % off on such corners.
func TestTheSpringForceIsInTheBalance(t *testing.T) {
	const seed, load = 512, 3100.0
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 2))
	apart := 0.0
	for n := range 300 {
		c := front()
		c.Spring.Carrier = []kinematics.Carrier{kinematics.OnLowerArm, kinematics.OnUpperArm, kinematics.OnUpright}[n%3]
		for _, at := range c.Coordinates() {
			c.Shift(at, 24*r.Float64()-12)
		}
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		p := checkcorner.At(t, &m, 0, 0)
		got, err := SpringForce(&m, load)
		if err != nil {
			t.Fatal(err)
		}
		_, want := balance(t, &c, &p, Vec{Z: load})
		near(t, "spring force", got, math.Abs(want), 1e-7*math.Abs(want))
		readings := p.Readings()
		ratio, _ := readings.Of(kinematics.MotionRatio)
		apart = max(apart, math.Abs(load/ratio/got-1))
	}
	if apart < 0.005 {
		t.Errorf("load / motion ratio is at most %.2g apart: the corners test little", apart)
	}
}

// A spring on the upright turns it about the steering axis too. See balance.
func TestASpringOnTheUprightIsInTheBalance(t *testing.T) {
	const seed = 1213
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 4))
	c := front()
	c.Spring = kinematics.Spring{Carrier: kinematics.OnUpright, Moving: Vec{X: -31, Y: 655, Z: 402}, Body: Vec{X: -52, Y: 548, Z: 733}}
	m := checkcorner.New(t, c)
	for range 100 {
		travel, rack := 80*r.Float64()-40, 60*r.Float64()-30
		force := Vec{X: 3000 * r.NormFloat64(), Y: 2000 * r.NormFloat64(), Z: 2000 + 3000*r.Float64()}
		a := mustSolve(t, m, Gear{}, Case{Rack: rack, Left: Side{Travel: travel, Force: force}, Right: Side{Force: Vec{Z: 3000}}})
		p := checkcorner.At(t, m, travel, rack)
		rod, spring := balance(t, &c, &p, force)
		near(t, "rod", a.Left.Rod, rod, 1e-6*(1+math.Abs(rod)))
		near(t, "spring", a.Left.Spring, spring*Moment(p.LowerBall, p.SteeringAxis(), p.SpringMoving, r3.Unit(r3.Sub(p.SpringMoving, p.SpringBody))), 1e-3)
	}
	c.Spring.Carrier = kinematics.OnLowerArm
	if a := mustSolve(t, checkcorner.New(t, c), Gear{}, Case{Left: Side{Force: Vec{Z: 3000}}}); a.Left.Spring != 0 {
		t.Errorf("a spring on the lower arm turns the upright with %g N mm", a.Left.Spring)
	}
}

// The ground resists the hand, and a wheel that drags pulls the hand to its
// side, wherever the tie rods are: ahead of the steering axes or behind them.
func TestTheHandFeelsTheSameWithTheRackAheadOrBehind(t *testing.T) {
	gear := Gear{RackPerTurn: 51, RimRadius: 178}
	cond := Usual(3100, 197)
	for _, x := range []float64{127, -127} {
		c := upright()
		c.TieRod.RackEnd.X, c.TieRod.OuterEnd.X = x, x
		m := checkcorner.New(t, c)
		park, err := Parking(m, cond)
		if err != nil {
			t.Fatal(err)
		}
		brake, err := SplitBraking(cond) // grip on the left
		if err != nil {
			t.Fatal(err)
		}
		if a := mustSolve(t, m, gear, park); !(a.RimPull < -1) {
			t.Errorf("rod at x = %g: turning left, the ground pulls the hand with %+.1f N", x, a.RimPull)
		}
		if a := mustSolve(t, m, gear, brake); !(a.RimPull > 1) {
			t.Errorf("rod at x = %g: grip on the left pulls the hand with %+.1f N", x, a.RimPull)
		}
	}
}

// The forces on the upright balance: lower ball joint, upper ball joint (square
// to the axis, for what the two share along it is not determined), tie rod and
// ground, as six linear equations without any moment about an axis. A wheel that
// rolls freely adds the couple that spins it up, and the equation that its bearing
// holds nothing about the spin axis.
func TestRodForceBalancesTheUpright(t *testing.T) {
	const seed = 815
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 3))
	m := checkcorner.New(t, front())
	for range 200 {
		travel, rack := 100*r.Float64()-50, 80*r.Float64()-40
		force := Vec{X: 4000 * r.NormFloat64(), Y: 4000 * r.NormFloat64(), Z: 6000 * r.Float64()}
		rolling := r.IntN(2) == 1
		a := mustSolve(t, m, Gear{}, Case{Rack: rack, Left: Side{Travel: travel, Force: force, Rolling: rolling}})
		p, err := m.At(travel, rack)
		if err != nil {
			t.Fatal(err)
		}
		axis := p.SteeringAxis()
		e1 := r3.Unit(r3.Cross(axis, Vec{X: 1}))
		e2 := r3.Cross(axis, e1)
		type line struct{ at, along Vec }
		lines := []line{{p.LowerBall, Vec{X: 1}}, {p.LowerBall, Vec{Y: 1}}, {p.LowerBall, Vec{Z: 1}},
			{p.UpperBall, e1}, {p.UpperBall, e2}, {p.OuterEnd, r3.Unit(r3.Sub(p.OuterEnd, p.RackEnd))}}
		eq, rhs := mat.NewDense(7, 7, nil), mat.NewVecDense(7, nil)
		fill := func(v, moment Vec, set func(row int, x float64)) {
			for i, x := range []float64{v.X, v.Y, v.Z, moment.X, moment.Y, moment.Z} {
				set(i, x)
			}
		}
		for j, l := range lines {
			fill(l.along, r3.Cross(l.at, l.along), func(i int, x float64) { eq.Set(i, j, x) })
		}
		fill(r3.Scale(-1, force), r3.Scale(-1, r3.Cross(p.Contact, force)), func(i int, x float64) { rhs.SetVec(i, x) })
		fill(Vec{}, p.Spin, func(i int, x float64) { eq.Set(i, 6, x) })
		eq.Set(6, 6, 1)
		if rolling {
			rhs.SetVec(6, -r3.Dot(p.Spin, r3.Cross(r3.Sub(p.Contact, p.WheelCentre), force)))
		}
		var x mat.VecDense
		if err := x.SolveVec(eq, rhs); err != nil {
			t.Fatal(err)
		}
		near(t, "rod", a.Left.Rod, x.AtVec(5), 1e-5*(1+math.Abs(x.AtVec(5))))
		along := (p.OuterEnd.Y - p.RackEnd.Y) / math.Hypot(math.Hypot(p.OuterEnd.X-p.RackEnd.X, p.OuterEnd.Y-p.RackEnd.Y), p.OuterEnd.Z-p.RackEnd.Z)
		near(t, "rack", a.Rack, -x.AtVec(5)*along, 1e-5*(1+math.Abs(x.AtVec(5))))
	}
}

// Both sides alike push the rack nowhere, and a case mirrored is the answer mirrored.
func TestMirror(t *testing.T) {
	m, g := checkcorner.New(t, front()), Gear{RackPerTurn: 48, RimRadius: 171}
	f := Vec{X: -1900, Y: -700, Z: 3300}
	if a := mustSolve(t, m, g, Case{Left: Side{Force: f, Couple: 4100}, Right: Side{Force: f, Couple: 4100}}); math.Abs(a.Rack) > 1e-9 {
		t.Errorf("the same on both sides pushes the rack by %g N", a.Rack)
	}
	c := Case{Rack: 17, Left: Side{Travel: 23, Force: f, Couple: 900}, Right: Side{Travel: -9, Force: Vec{X: 300, Y: 1200, Z: 2100}}}
	a, b := mustSolve(t, m, g, c), mustSolve(t, m, g, Case{Rack: -17, Left: c.Right, Right: c.Left})
	if a.Left != b.Right || a.Right != b.Left || math.Abs(a.Rack+b.Rack) > 1e-9 || math.Abs(a.RimPull+b.RimPull) > 1e-9 {
		t.Errorf("mirrored: %+v, was %+v", b, a)
	}
}

// The three cases, by hand on the vertical axis: a scrub radius of 43 mm.
func TestCasesByHand(t *testing.T) {
	m := checkcorner.New(t, upright())
	c := Usual(3100, 187)
	park, err := Parking(m, c)
	if err != nil {
		t.Fatal(err)
	}
	torque := 0.7 * 3100 * math.Sqrt(187.0*187/8+43*43)
	a := mustSolve(t, m, Gear{}, park)
	near(t, "parking, left", a.Left.Moment, -torque, 1e-6)
	near(t, "parking, right", a.Right.Moment, torque, 1e-6)
	// Both wheels resist the turn to the left; behind the axle that needs the
	// rack to go right, and the tyres push it back to the left.
	near(t, "parking, rack", a.Rack, 2*torque/127, 1e-6)
	split, err := SplitBraking(c)
	if err != nil {
		t.Fatal(err)
	}
	a = mustSolve(t, m, Gear{}, split)
	near(t, "split, left", a.Left.Moment, 0.8*3100*43, 1e-6)
	near(t, "split, right", a.Right.Moment, 0.3*3100*43, 1e-6)
	bump, err := OneWheelBump(c)
	if err != nil {
		t.Fatal(err)
	}
	a = mustSolve(t, m, Gear{}, bump)
	p, err := m.At(30, 0)
	if err != nil {
		t.Fatal(err)
	}
	axis := p.SteeringAxis()
	near(t, "bump", a.Left.Moment, 1550*((p.WheelCentre.Y-p.LowerBall.Y)*axis.Z-(p.WheelCentre.Z-p.LowerBall.Z)*axis.Y), 1e-6)
}

// The parking torque is the grip at the root-mean-square distance of a round
// patch: averaged over it point by point. Both formulas agree in size.
func TestParkingTorqueOverThePatch(t *testing.T) {
	const tread, arm, n = 187.0, 43.0, 2000
	sum, count := 0.0, 0.0
	for i := range n {
		for k := range n {
			x, y := tread*((float64(i)+0.5)/n-0.5), tread*((float64(k)+0.5)/n-0.5)
			if x*x+y*y <= tread*tread/4 {
				sum += x*x + (y+arm)*(y+arm)
				count++
			}
		}
	}
	near(t, "torque", ParkingTorque(0.7, 3100, tread, arm), 0.7*3100*math.Sqrt(sum/count), 20)
	// By hand: 0.7 / 3 x sqrt(4000^3 / 0.2) = 131 990 N mm.
	near(t, "by pressure", ParkingTorqueByPressure(0.7, 4000, 0.2), 131_990, 10)
	ratio := ParkingTorque(0.7, 4000, 190, 0) / ParkingTorqueByPressure(0.7, 4000, 0.2)
	if ratio < 0.5 || ratio > 2 {
		t.Errorf("the two formulas differ by a factor of %g", ratio)
	}
}

// The spring's force by the lever of the arm: level arm of 380, spring upright
// at 230 from the pivot.
func TestSpringForce(t *testing.T) {
	c := upright()
	c.Spring = kinematics.Spring{Carrier: kinematics.OnLowerArm, Moving: Vec{Y: 530, Z: 190}, Body: Vec{Y: 530, Z: 590}}
	f, err := SpringForce(checkcorner.New(t, c), 3100)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "spring force", f, 3100*380/230.0, 1e-6)
	if _, err := SpringForce(checkcorner.New(t, upright()), 3100); !errors.Is(err, ErrNoSpring) {
		t.Errorf("without a spring: %v", err)
	}
}

func TestInputThatMakesNoCase(t *testing.T) {
	m := checkcorner.New(t, front())
	for says, c := range map[string]Case{
		"force NaN N":                    {Left: Side{Force: Vec{Z: math.NaN()}}},
		"force 1e+07 N":                  {Right: Side{Force: Vec{X: 1e7}}},
		"travel of the left wheel +Inf":  {Left: Side{Travel: math.Inf(1)}},
		"couple on the right wheel -Inf": {Right: Side{Couple: math.Inf(-1)}},
	} {
		if _, err := Solve(m, Gear{}, c); !errors.Is(err, ErrInput) || !strings.Contains(err.Error(), says) {
			t.Errorf("%v, want %q", err, says)
		}
	}
	if _, err := Solve(m, Gear{RimRadius: -1}, Case{}); !errors.Is(err, ErrInput) {
		t.Errorf("a rim of negative radius: %v", err)
	}
	if _, err := Solve(m, Gear{}, Case{Right: Side{Travel: 900}}); !errors.Is(err, kinematics.ErrUnreachable) || !strings.Contains(err.Error(), "right corner") {
		t.Errorf("out of reach: %v", err)
	}
	bad := Usual(3100, 187)
	bad.BrakeRight = -0.2
	for _, err := range []error{second(SplitBraking(bad)), second(OneWheelBump(bad)), second(Parking(m, bad))} {
		if !errors.Is(err, ErrInput) || !strings.Contains(err.Error(), "grip on the right -0.2") {
			t.Errorf("negative grip: %v", err)
		}
	}
	// Outer end, rack end and steering axis in one plane: nothing holds the wheel.
	dead := upright()
	dead.TieRod = kinematics.TieRod{RackEnd: Vec{X: -500, Y: 679.9, Z: 190}, OuterEnd: Vec{X: -127, Y: 680, Z: 190}}
	if _, err := Solve(checkcorner.New(t, dead), Gear{}, Case{Left: Side{Force: Vec{X: -100}}}); !errors.Is(err, ErrLever) {
		t.Errorf("no lever: %v", err)
	}
}

func second(_ Case, err error) error { return err }
