package kinematics

import (
	"errors"
	"fmt"
	"math"
)

// MaxRoll is the largest roll angle an axle is solved for, rad.
const MaxRoll = math.Pi / 6

// groundTolerance is how nearly level both tyres stand on the ground, mm.
const groundTolerance = 1e-9

// RolledAxle is an axle in roll: both corners in ground axes, each in its own
// mirror image of the package page (y outboard), with the ground at its
// resting height and the body turned about the point of the centre plane that
// lies there.
type RolledAxle struct {
	Roll, Rack  float64
	Left, Right Pose
}

// Roll turns the body by an angle, rad (positive lifts the car's left side),
// with the mean wheel travel zero and both tyres on the ground. Both corners
// are the mechanism and its mirror image; the rack is shared, so the right
// corner meets it with the opposite sign. Errors are as of At, and name the
// side.
func (m *Mechanism) Roll(angle, rack float64) (RolledAxle, error) {
	if !(math.Abs(angle) <= MaxRoll) {
		return RolledAxle{}, fmt.Errorf("roll %.3g degrees is not within ±30 degrees: %w", angle*180/math.Pi, ErrUnreachable)
	}
	ax := RolledAxle{Roll: angle, Rack: rack}
	rest, err := m.At(0, 0)
	if err != nil {
		return ax, err
	}
	ground := rest.Contact.Z
	var failed error
	level := func(h float64) float64 {
		if math.Abs(h) > MaxLength {
			failed = fmt.Errorf("no travel within ±10 m sets both tyres on the ground: %w", ErrUnreachable)
			return 0
		}
		if failed = ax.set(m, angle, rack, h, ground); failed != nil {
			return 0
		}
		return ax.Left.Contact.Z - ax.Right.Contact.Z
	}
	// The left side goes up by about half track times roll, so the left wheel
	// droops by that; widen the bracket until the sign changes.
	guess := -rest.Contact.Y * math.Tan(angle)
	spread := 1 + math.Abs(guess)/8
	for {
		lo, hi := level(guess-spread), 0.0
		if failed == nil {
			hi = level(guess + spread)
		}
		if failed != nil {
			return ax, fmt.Errorf("in roll of %s degrees, %w", Placed(angle*180/math.Pi), failed)
		}
		if lo*hi <= 0 {
			break
		}
		spread *= 2 // ends at MaxLength at the latest
	}
	h := root(level, guess-spread, guess+spread, groundTolerance)
	level(h)
	if failed != nil {
		return ax, fmt.Errorf("in roll of %s degrees, %w", Placed(angle*180/math.Pi), failed)
	}
	shift := ground - (ax.Left.Contact.Z+ax.Right.Contact.Z)/2
	ax.Left.lift(shift)
	ax.Right.lift(shift)
	return ax, nil
}

// set solves both corners at opposite travel and turns them into ground axes.
func (ax *RolledAxle) set(m *Mechanism, angle, rack, travel, ground float64) error {
	if err := m.solve(travel, rack, &ax.Left); err != nil {
		return sided("left", err)
	}
	if err := m.solve(-travel, -rack, &ax.Right); err != nil {
		return sided("right", err)
	}
	ax.Left.roll(angle, ground, m.corner.Wheel.LoadedRadius)
	ax.Right.roll(-angle, ground, m.corner.Wheel.LoadedRadius)
	return nil
}

func sided(side string, err error) error { return fmt.Errorf("%s corner: %w", side, err) }

// roll turns a solved pose about the x axis through (y, z) = (0, height).
// What is measured against the body (tie-rod error, slopes, spring) stays.
func (p *Pose) roll(angle, height, radius float64) {
	sin, cos := math.Sincos(angle)
	turn := func(v *Vec, about float64) {
		y, z := v.Y, v.Z-about
		v.Y, v.Z = cos*y-sin*z, sin*y+cos*z+about
	}
	for _, v := range p.places() {
		turn(v, height)
	}
	for _, v := range [...]*Vec{&p.Spin, &p.axis, &p.upright.a, &p.upright.b, &p.upright.c, &p.lowerAxis, &p.upperAxis} {
		turn(v, 0)
	}
	p.Roll = angle
	p.touchGround(radius)
}

// lift raises a pose.
func (p *Pose) lift(dz float64) {
	for _, v := range p.places() {
		v.Z += dz
	}
	p.Contact.Z += dz
	p.AxisAtGround.Z += dz
}

// places are the points of a pose that touchGround does not set.
func (p *Pose) places() [10]*Vec {
	return [...]*Vec{&p.LowerBall, &p.UpperBall, &p.OuterEnd, &p.RackEnd, &p.Hub, &p.WheelCentre,
		&p.SpringMoving, &p.SpringBody, &p.lowerOn, &p.upperOn}
}

// Readings returns the readings of both corners, each in its own mirror image,
// to the ground. Roll centre height and place are those of the axle: where the
// left and the right line from contact to instant centre meet. The right
// corner's roll centre y is given, like the left one's, toward the car's left.
func (ax *RolledAxle) Readings() (left, right Readings) {
	left, right = ax.Left.Readings(), ax.Right.Readings()
	left.Roll, right.Roll = ax.Roll, ax.Roll
	left.Rack, right.Rack = ax.Rack, ax.Rack
	if ax.Roll == 0 && ax.Rack == 0 {
		return left, right // by symmetry each corner's own answer, even where both lines are level
	}
	y, z, ok := ax.rollCentre()
	for _, r := range []*Readings{&left, &right} {
		r.unset(RollCentreY)
		r.unset(RollCentreHeight)
		if ok {
			r.set(RollCentreY, y)
			r.set(RollCentreHeight, z)
		}
	}
	return left, right
}

// rollCentre meets the two lines in ground axes; false when they are parallel.
func (ax *RolledAxle) rollCentre() (y, height float64, ok bool) {
	ldy, ldz := ax.Left.instantCentre().from(ax.Left.Contact)
	rdy, rdz := ax.Right.instantCentre().from(ax.Right.Contact)
	rdy = -rdy // the mirror image stands on the car's right
	ly, ry := ax.Left.Contact.Y, -ax.Right.Contact.Y
	cross := ldy*rdz - ldz*rdy
	if math.Abs(cross) <= parallelSine*math.Hypot(ldy, ldz)*math.Hypot(rdy, rdz) {
		return 0, 0, false
	}
	// left + s (ldy, ldz) = right + t (rdy, rdz), heights from the common ground.
	s := (ry - ly) * rdz / cross
	return ly + s*ldy, s * ldz, true
}

// RollRates are slopes in roll at rest.
type RollRates struct {
	Camber float64 // rad of camber to the ground per rad of roll, left wheel
	Toe    float64 // rad of toe per rad of roll, left wheel
}

// RollRates returns the slopes in roll at rest, by a central difference over
// rollStep: the left wheel as the left side lifts.
func (m *Mechanism) RollRates() (RollRates, error) {
	const rollStep = 1e-3 // rad, about 0.75 mm at the wheel
	up, err := m.Roll(rollStep, 0)
	down, err2 := m.Roll(-rollStep, 0)
	if err := errors.Join(err, err2); err != nil {
		return RollRates{}, err
	}
	u, d := up.Left.Readings(), down.Left.Readings()
	return RollRates{
		Camber: (u.values[Camber] - d.values[Camber]) / (2 * rollStep),
		Toe:    (u.values[Toe] - d.values[Toe]) / (2 * rollStep),
	}, nil
}
