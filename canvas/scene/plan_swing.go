package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/canvas/draw"
	"armscribe/kinematics/clearance"
)

// swingHalf is half the angle of a swing arc, to either side of its shoulder.
const swingHalf = 16 * math.Pi / 180

// planSwing draws how the tyre's shoulders swing about the steering axis as the
// wheel steers: an arc for each of the four, about the axis at the height of the
// wheel centre, with the largest radius written. The arcs are true for an upright
// axis and else true in their radius.
func (b *builder) planSwing() {
	s := &b.left
	t := s.section.Tyre
	if b.show&Clearance == 0 || !sound(t) || b.out.Rolled {
		return
	}
	p := s.pose
	axis := p.SteeringAxis()
	if math.Abs(axis.Z) < leastUpright {
		return // it lies nearly level, and has no place at that height
	}
	centre := s.at(r3.Add(p.LowerBall, r3.Scale((p.WheelCentre.Z-p.LowerBall.Z)/axis.Z, axis)))
	w := clearance.SwingOf(p, t)
	largest, at := 0.0, draw.Point{}
	b.l.On(draw.LayerConstruction)
	for _, q := range [...]struct{ radius, out, ahead float64 }{
		{w.InnerFront, -1, 1}, {w.InnerRear, -1, -1}, {w.OuterFront, 1, 1}, {w.OuterRear, 1, -1},
	} {
		to := s.along(q.out*t.Section/2, q.ahead*t.Widest).Sub(centre)
		turn := math.Atan2(to.Y, to.X)
		b.pts = b.pts[:0]
		n := draw.ArcSteps(q.radius*b.v.Zoom, 2*swingHalf, arcTolerance)
		for i := range n + 1 {
			sin, cos := math.Sincos(turn + swingHalf*(2*float64(i)/float64(n)-1))
			b.pts = append(b.pts, centre.Add(draw.Point{X: cos, Y: sin}.Mul(q.radius)))
		}
		b.l.PolylineInBox(draw.Construction, b.world, b.pts)
		if mid := b.pts[n/2]; q.radius > largest && b.inView(mid) {
			largest, at = q.radius, mid
		}
	}
	if largest == 0 {
		return
	}
	text := len(b.text)
	b.text = append(b.text, "swings on "...)
	b.text = b.format(b.text, largest, 0)
	b.say(label{name: nameOfSwing, role: draw.TextQuiet, anchor: draw.On(at), clear: 3, prefer: eastWest, rank: rankLast, near: true}, text)
}

const (
	leastUpright = 0.2 // z of the steering axis' direction
	arcTolerance = 0.1 // points between arc and chords
)
