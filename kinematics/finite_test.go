package kinematics

import (
	"math"
	"testing"
)

// finiteReadings fails where a reading is no number, or where one that does
// not exist has a value.
func finiteReadings(t *testing.T, r *Readings) {
	t.Helper()
	for q := range QuantityCount {
		v, ok := r.Of(q)
		if math.IsNaN(v) || math.IsInf(v, 0) || !ok && v != 0 || v == 0 && math.Signbit(v) {
			t.Errorf("%v = %g (exists: %v) at travel %g, rack %g, roll %g", q, v, ok, r.Travel, r.Rack, r.Roll)
		}
	}
}

// finitePose fails where an exported point of a pose, or a reading, is no number.
func finitePose(t *testing.T, p *Pose) {
	t.Helper()
	f, l := p.Heading()
	for i, v := range []Vec{p.LowerBall, p.UpperBall, p.OuterEnd, p.RackEnd, p.Hub, p.WheelCentre, p.Spin,
		p.Contact, p.AxisAtGround, p.SpringMoving, p.SpringBody, p.SteeringAxis(), f, l} {
		if s := v.X + v.Y + v.Z; math.IsNaN(s) || math.IsInf(s, 0) {
			t.Errorf("point %d of the pose is %v at travel %g, rack %g, roll %g", i, v, p.Travel, p.Rack, p.Roll)
		}
	}
	r := p.Readings()
	finiteReadings(t, &r)
}

func finiteBands(t *testing.T, b *Bands) {
	t.Helper()
	for q := range QuantityCount {
		if v, ok := b.Of(q); math.IsNaN(v) || math.IsInf(v, 0) || v < 0 || !ok && v != 0 {
			t.Errorf("band of %v = %g (exists: %v)", q, v, ok)
		}
	}
}
