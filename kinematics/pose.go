package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Pose is the corner in one position. Points are in the axes of the package
// page: relative to the body for travel and rack, relative to the ground for
// an axle in roll.
type Pose struct {
	Travel, Rack, Roll float64 // as asked for

	LowerBall, UpperBall Vec
	OuterEnd, RackEnd    Vec
	Hub, WheelCentre     Vec
	Spin                 Vec // unit spin axis, outboard
	Contact              Vec // C: tyre contact centre
	AxisAtGround         Vec // G: steering axis in the ground plane through C; only if HasAxisAtGround
	HasAxisAtGround      bool
	SpringMoving         Vec // only if the corner has a spring
	SpringBody           Vec

	axis                   Vec // unit steering axis, lower to upper ball joint
	upright                frame
	lowerOn, lowerAxis     Vec // the arms' pivot axes as they stand in this pose
	upperOn, upperAxis     Vec
	camberRate, toeRate    float64 // rad per mm of travel
	springRate             float64 // spring shortening per mm of travel
	hasRates               bool
	tieRodError            float64
	hasTieRodError         bool
	springLength           float64
	driveSine, driveCosine float64
}

// SteeringAxis returns the unit direction from lower to upper ball joint.
func (p *Pose) SteeringAxis() Vec { return p.axis }

// Heading returns f and l of the package page: the wheel's horizontal heading
// and the horizontal direction outboard, square to it.
func (p *Pose) Heading() (forward, outboard Vec) {
	n := 1 / math.Sqrt(p.flat())
	return Vec{X: p.Spin.Y * n, Y: -p.Spin.X * n}, Vec{X: p.Spin.X * n, Y: p.Spin.Y * n}
}

// assemble sets the linkage up at the drive angle with the given sine and
// cosine. It returns the link that keeps it from assembling, or NoLink.
func (m *Mechanism) assemble(sin, cos, rack float64, p *Pose) Link {
	p.driveSine, p.driveCosine = sin, cos
	lower := m.lowerBall(sin, cos)
	upper, ok := m.upper.meetSphere(lower, m.upright, m.upperSide)
	p.LowerBall, p.UpperBall = lower, upper
	if !ok {
		return UpperArm
	}
	axis := r3.Scale(1/m.upright, r3.Sub(upper, lower))
	rackEnd := m.corner.TieRod.RackEnd
	rackEnd.Y += rack
	p.axis, p.RackEnd = axis, rackEnd
	steer := circle{r3.Add(lower, r3.Scale(m.outerAlong, axis)), axis, m.outerArm}
	outer, ok := steer.meetSphere(rackEnd, m.rod, m.outerSide)
	p.OuterEnd = outer
	if !ok {
		return TieRodLink
	}
	b := r3.Scale(1/m.outerArm, r3.Sub(outer, steer.centre))
	f := frame{axis, b, r3.Cross(axis, b)}
	p.upright = f
	p.WheelCentre = r3.Add(lower, f.space(m.wheel))
	return NoLink
}

func (m *Mechanism) lowerBall(sin, cos float64) Vec {
	return Vec{
		X: m.lower.centre.X + cos*m.lower0.X + sin*m.lower90.X,
		Y: m.lower.centre.Y + cos*m.lower0.Y + sin*m.lower90.Y,
		Z: m.lower.centre.Z + cos*m.lower0.Z + sin*m.lower90.Z,
	}
}

// steeringCircle is the path of the outer end about the steering axis of a pose.
func (m *Mechanism) steeringCircle(p *Pose) circle {
	return circle{r3.Add(p.LowerBall, r3.Scale(m.outerAlong, p.axis)), p.axis, m.outerArm}
}

// motion is the velocity of the upright per radian of drive angle.
type motion struct {
	lower, upper Vec // velocity of the ball joints
	turn         Vec // angular velocity of the upright
	upperRate    float64
}

// move returns the motion of an assembled pose; false at a dead point, where
// some velocity is not finite. Each line is the derivative of one link length.
func (m *Mechanism) move(p *Pose) (v motion, ok bool) {
	v.lower = Vec{
		X: p.driveCosine*m.lower90.X - p.driveSine*m.lower0.X,
		Y: p.driveCosine*m.lower90.Y - p.driveSine*m.lower0.Y,
		Z: p.driveCosine*m.lower90.Z - p.driveSine*m.lower0.Z,
	}
	up := r3.Sub(p.UpperBall, p.LowerBall)
	tangent := r3.Cross(m.upper.axis, r3.Sub(p.UpperBall, m.upper.centre))
	den := r3.Dot(up, tangent)
	v.upperRate = r3.Dot(up, v.lower) / den
	v.upper = r3.Scale(v.upperRate, tangent)
	lean := r3.Scale(1/m.upright, r3.Cross(p.axis, r3.Sub(v.upper, v.lower)))

	arm := r3.Sub(p.OuterEnd, p.LowerBall)
	rod := r3.Sub(p.OuterEnd, p.RackEnd)
	steer := r3.Dot(rod, r3.Cross(p.axis, arm))
	rate := -r3.Dot(rod, r3.Add(v.lower, r3.Cross(lean, arm))) / steer
	v.turn = r3.Add(lean, r3.Scale(rate, p.axis))
	// Beyond this the pose stands on a dead point and slopes mean nothing.
	const deadSine = 1e-7
	ok = math.Abs(den) > deadSine*m.upright*m.upper.radius && math.Abs(steer) > deadSine*m.rod*m.outerArm
	return v, ok
}

// UprightMotion returns how the upright of a pose of this mechanism moves as the
// wheel rises with the rack held: the way of the lower ball joint, mm, and the
// turn, rad about each axis, for each mm of wheel travel. ok is false where the
// linkage stands on a dead point.
func (m *Mechanism) UprightMotion(p *Pose) (lowerBall, turn Vec, ok bool) {
	v, moves := m.move(p)
	rise := v.rise(p)
	if !moves || math.Abs(rise) <= minRise {
		return Vec{}, Vec{}, false
	}
	return r3.Scale(1/rise, v.lower), r3.Scale(1/rise, v.turn), true
}

// at returns the velocity of a point of the upright.
func (v *motion) at(point, lowerBall Vec) Vec {
	return r3.Add(v.lower, r3.Cross(v.turn, r3.Sub(point, lowerBall)))
}

// rise returns the velocity of the wheel centre upward.
func (v *motion) rise(p *Pose) float64 {
	return v.lower.Z + v.turn.X*(p.WheelCentre.Y-p.LowerBall.Y) - v.turn.Y*(p.WheelCentre.X-p.LowerBall.X)
}

// complete fills in everything of an assembled pose that its links imply.
// v is its motion, and moves is false at a dead point.
func (m *Mechanism) complete(p *Pose, v *motion, moves bool) {
	p.Spin = p.upright.space(m.spin)
	p.Hub = r3.Add(p.LowerBall, p.upright.space(m.hub))
	p.lowerOn, p.lowerAxis = m.lower.centre, m.lower.axis
	p.upperOn, p.upperAxis = m.upper.centre, m.upper.axis
	m.holdToe(p)
	m.placeSpring(p)
	m.setRates(p, v, moves)
	p.touchGround(m.corner.Wheel.LoadedRadius)
}

// touchGround finds C and G.
func (p *Pose) touchGround(radius float64) {
	flat := p.flat()
	k := radius / math.Sqrt(flat)
	p.Contact = Vec{
		X: p.WheelCentre.X + k*p.Spin.Z*p.Spin.X,
		Y: p.WheelCentre.Y + k*p.Spin.Z*p.Spin.Y,
		Z: p.WheelCentre.Z - k*flat,
	}
	// A steering axis this flat meets the ground farther off than any car is long.
	const flattest = 1e-3
	p.HasAxisAtGround = math.Abs(p.axis.Z) > flattest
	if p.HasAxisAtGround {
		k = (p.Contact.Z - p.LowerBall.Z) / p.axis.Z
		p.AxisAtGround = Vec{X: p.LowerBall.X + k*p.axis.X, Y: p.LowerBall.Y + k*p.axis.Y, Z: p.Contact.Z}
	}
}

// flat is the square of the sine between spin axis and vertical. A wheel that
// lies on its side has no lowest point and no heading; the floor keeps their
// directions finite there.
func (p *Pose) flat() float64 { return max(p.Spin.X*p.Spin.X+p.Spin.Y*p.Spin.Y, lyingFlat) }

// lyingFlat is the sine squared of a hundred-millionth of a radian.
const lyingFlat = 1e-16

// setRates turns the motion into slopes per mm of wheel travel.
func (m *Mechanism) setRates(p *Pose, v *motion, moves bool) {
	rise := v.rise(p)
	if p.hasRates = moves && math.Abs(rise) > minRise; !p.hasRates {
		return
	}
	ds := r3.Scale(1/rise, r3.Cross(v.turn, p.Spin))
	flat := p.flat()
	p.camberRate = -ds.Z / math.Sqrt(flat)
	p.toeRate = (p.Spin.Y*ds.X - p.Spin.X*ds.Y) / flat
	if m.corner.Spring.Carrier != NoSpring {
		p.springRate = m.springSpeed(p, v) / rise
	}
}

// placeSpring sets the spring's ends and length.
func (m *Mechanism) placeSpring(p *Pose) {
	switch m.corner.Spring.Carrier {
	case NoSpring:
		return
	case OnLowerArm:
		p.SpringMoving = m.springTurn.place(&m.lower, p.LowerBall)
	case OnUpperArm:
		p.SpringMoving = m.springTurn.place(&m.upper, p.UpperBall)
	case OnUpright:
		p.SpringMoving = r3.Add(p.LowerBall, p.upright.space(m.springUpright))
	}
	p.SpringBody = m.corner.Spring.Body
	p.springLength = length(r3.Sub(p.SpringMoving, p.SpringBody))
}

// springSpeed is how fast the spring gets shorter, per radian of drive angle.
func (m *Mechanism) springSpeed(p *Pose, v *motion) float64 {
	var speed Vec
	switch m.corner.Spring.Carrier {
	case OnLowerArm:
		speed = r3.Cross(m.lower.axis, r3.Sub(p.SpringMoving, m.lower.centre))
	case OnUpperArm:
		speed = r3.Scale(v.upperRate, r3.Cross(m.upper.axis, r3.Sub(p.SpringMoving, m.upper.centre)))
	case OnUpright:
		speed = v.at(p.SpringMoving, p.LowerBall)
	}
	return r3.Dot(speed, r3.Sub(p.SpringBody, p.SpringMoving)) / p.springLength
}

// held is a toe to hold the wheel at: the vertical plane that the spin axis stays
// in, and the side of heldOuterEnd's root at which the resting upright stands.
type held struct{ sin, cos, side float64 }

// holdToe sets the tie-rod error: it turns the upright about the steering axis
// until the wheel has the toe it has at rest with the rack where it is, and
// measures there from rack end to outer end. A rack whose place the resting
// wheel does not reach leaves no error to speak of.
func (m *Mechanism) holdToe(p *Pose) {
	at, ok := m.atRest, true
	if p.Rack != 0 {
		at, ok = m.heldAt(p)
	}
	var end Vec
	if ok {
		end, ok = m.heldOuterEnd(p, at)
	}
	if p.hasTieRodError = ok; ok {
		p.tieRodError = length(r3.Sub(end, p.RackEnd)) - m.rod
	}
}

// heldAt is the toe that the resting wheel has with the rack where it is in a pose.
func (m *Mechanism) heldAt(p *Pose) (held, bool) {
	rest := *p
	if p.Travel != 0 {
		var v motion
		if _, err := m.place(0, p.Rack, &rest, &v); err != nil {
			return held{}, false
		}
		rest.Spin = rest.upright.space(m.spin)
	}
	n := 1 / math.Sqrt(rest.flat())
	return holding(rest.axis, rest.Spin, rest.Spin.X*n, rest.Spin.Y*n), true
}

// holding is the toe of given sine and cosine, held from where the upright has it.
func holding(axis, spin Vec, sin, cos float64) held {
	at := held{sin: sin, cos: cos}
	at.side = -math.Copysign(1, at.across(r3.Cross(axis, spin)))
	return at
}

// heldOuterEnd returns where the outer end stands with the upright turned to
// that toe; false when no turn gives it.
//
// Turned by t about the steering axis a, the spin axis s stays in the vertical
// plane of the toe, of normal n, where
// (s.n - k) cos t + (a x s).n sin t = -k with k = (s.a)(a.n).
func (m *Mechanism) heldOuterEnd(p *Pose, at held) (Vec, bool) {
	k := r3.Dot(p.Spin, p.axis) * at.across(p.axis)
	a, b := at.across(p.Spin)-k, at.across(r3.Cross(p.axis, p.Spin))
	d2 := a*a + b*b
	square := d2 - k*k
	if square < 0 || d2 == 0 {
		return Vec{}, false
	}
	root := at.side * math.Sqrt(square)
	n := m.outerArm / d2
	cos, sin := -(k*a+root*b)*n, (root*a-k*b)*n
	u := &p.upright
	return Vec{
		X: p.LowerBall.X + m.outerAlong*u.a.X + cos*u.b.X + sin*u.c.X,
		Y: p.LowerBall.Y + m.outerAlong*u.a.Y + cos*u.b.Y + sin*u.c.Y,
		Z: p.LowerBall.Z + m.outerAlong*u.a.Z + cos*u.b.Z + sin*u.c.Z,
	}, true
}

// across is the component of a direction along the normal of the held plane.
func (at held) across(v Vec) float64 { return at.cos*v.X - at.sin*v.Y }
