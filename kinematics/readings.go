package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// parallelSine is the sine of the angle, rad, below which two lines in the
// front view count as parallel: 1e-8 over a 400 mm arm is 4 millionths of a mm,
// and an instant centre farther off than the arms' length over 1e-8 means
// nothing on a car.
const parallelSine = 1e-8

// Readings holds every quantity of one pose, in mm, rad, rad/mm. A quantity
// that does not exist in the pose (an instant centre of parallel arms, the
// motion ratio of a corner without spring) is marked, never a NaN or Inf.
type Readings struct {
	Travel, Rack, Roll float64

	values [QuantityCount]float64
	known  uint32
}

// Of returns the value of a quantity, and false where it does not exist.
func (r *Readings) Of(q Quantity) (value float64, ok bool) {
	return r.values[q], r.known&(1<<q) != 0
}

func (r *Readings) set(q Quantity, v float64) {
	r.values[q] = v + 0 // turns a negative zero, as atan2 may give, into zero
	r.known |= 1 << q
}

func (r *Readings) unset(q Quantity) {
	r.values[q] = 0
	r.known &^= 1 << q
}

// Readings returns every quantity of the pose.
func (p *Pose) Readings() Readings {
	var r Readings
	p.read(&r)
	return r
}

func (p *Pose) read(r *Readings) { p.readAbout(r, p.instantCentre()) }

// readAbout is read with the instant centre known.
func (p *Pose) readAbout(r *Readings, ic centre) {
	*r = Readings{Travel: p.Travel, Rack: p.Rack, Roll: p.Roll}
	n := 1 / math.Sqrt(p.flat())
	r.set(Camber, math.Atan(-p.Spin.Z*n)) // asin(s_z), of a unit vector
	r.set(Toe, atan2(p.Spin.X, p.Spin.Y))
	r.set(Caster, atan2(-p.axis.X, p.axis.Z))
	r.set(SteeringAxisInclination, atan2(-p.axis.Y, p.axis.Z))
	if p.HasAxisAtGround {
		x, y := p.Contact.X-p.AxisAtGround.X, p.Contact.Y-p.AxisAtGround.Y
		r.set(ScrubRadius, (x*p.Spin.X+y*p.Spin.Y)*n)
		r.set(Trail, (y*p.Spin.X-x*p.Spin.Y)*n)
	}
	r.set(HalfTrack, p.Contact.Y)
	p.readCentres(r, ic)
	if p.hasTieRodError {
		r.set(TieRodError, p.tieRodError)
	}
	if p.hasRates {
		r.set(CamberGain, p.camberRate)
		r.set(RideToe, p.toeRate)
	}
	if p.springLength > 0 {
		r.set(SpringLength, p.springLength)
		if p.hasRates {
			r.set(MotionRatio, math.Abs(p.springRate))
		}
	}
}

// atan2 is math.Atan2 without its special cases where x is above zero, as it
// is for every wheel that still rolls forward.
func atan2(y, x float64) float64 {
	if x > 0 {
		return math.Atan(y / x)
	}
	return math.Atan2(y, x)
}

// readCentres sets instant centre, swing arm and roll centre.
func (p *Pose) readCentres(r *Readings, ic centre) {
	if ic.finite() {
		y, z := ic.y/ic.w, ic.z/ic.w
		r.set(InstantCentreY, y)
		r.set(InstantCentreZ, z)
		r.set(SwingArm, p.Contact.Y-y)
	}
	dy, dz := ic.from(p.Contact)
	if math.Abs(dy) > parallelSine*math.Abs(dz) {
		r.set(RollCentreY, 0)
		r.set(RollCentreHeight, -p.Contact.Y*dz/dy)
	}
}

// centre is a point of the front view in homogeneous form, (y/w, z/w); w goes
// to zero as the lines that meet there become parallel. scale is the square of
// the value that w has when they stand square to each other.
type centre struct{ y, z, w, scale float64 }

// finite tells whether the centre is nearer than infinity.
func (c centre) finite() bool { return c.w*c.w > parallelSine*parallelSine*c.scale }

// from returns the direction from a point to the centre, of any length; it
// stays meaningful as the centre goes to infinity.
func (c centre) from(p Vec) (dy, dz float64) { return c.y - c.w*p.Y, c.z - c.w*p.Z }

// centreCount is how many readings are ratios that may go through infinity.
const centreCount = 4

// centreQuantities are those readings, in the order of Pose.ratios.
var centreQuantities = [centreCount]Quantity{InstantCentreY, InstantCentreZ, SwingArm, RollCentreHeight}

// centreIndex is the place of a quantity among them, or less than nought.
func centreIndex(q Quantity) int {
	switch q {
	case InstantCentreY:
		return 0
	case InstantCentreZ:
		return 1
	case SwingArm:
		return 2
	case RollCentreHeight:
		return 3
	}
	return -1
}

// ratio is a reading as num/den, both of which move evenly with every coordinate,
// through parallel arms as well; none of a centre that is nowhere.
type ratio struct{ num, den float64 }

func (p *Pose) ratios(ic centre) (list [centreCount]ratio) {
	if ic.scale <= 0 {
		return list
	}
	s := 1 / math.Sqrt(ic.scale)
	ic.y, ic.z, ic.w = s*ic.y, s*ic.z, s*ic.w
	dy, dz := ic.from(p.Contact)
	return [...]ratio{{ic.y, ic.w}, {ic.z, ic.w}, {-dy, ic.w}, {-p.Contact.Y * dz, dy}}
}

// instantCentre meets both arm planes with the transverse plane through C.
// Each arm plane holds the pivot axis and the ball joint; in the transverse
// plane it leaves a line n.y y + n.z z = d, and the two lines meet by Cramer's
// rule.
func (p *Pose) instantCentre() centre {
	uy, uz, ud := armLine(p.upperOn, p.upperAxis, p.UpperBall, p.Contact.X)
	ly, lz, ld := armLine(p.lowerOn, p.lowerAxis, p.LowerBall, p.Contact.X)
	return centre{y: ud*lz - ld*uz, z: uy*ld - ly*ud, w: uy*lz - ly*uz, scale: (uy*uy + uz*uz) * (ly*ly + lz*lz)}
}

// armLine is where an arm's plane cuts the transverse plane at x. An arm plane
// that is itself transverse leaves no line: three zeros, which give no centre.
func armLine(on, axis, ball Vec, x float64) (ny, nz, d float64) {
	n := r3.Cross(axis, r3.Sub(ball, on))
	if n.Y*n.Y+n.Z*n.Z <= parallelSine*parallelSine*n.X*n.X {
		return 0, 0, 0
	}
	return n.Y, n.Z, n.X*(on.X-x) + n.Y*on.Y + n.Z*on.Z
}
