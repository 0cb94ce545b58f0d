package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// sweptStep is the length of a chord of the swept outline as drawn, points: at
// a shoulder of 20 mm it stands off by less than a tenth of a point.
const sweptStep = 3.0

// swept draws what the tyre covers over travel and rack: an area, and the
// double-dashed chain that ISO 128-2 has for other positions of a moving part.
func (b *builder) swept(view clearance.View) {
	line := b.in.Swept[view]
	if b.show&Clearance == 0 || len(line) == 0 {
		return
	}
	b.pts = b.pts[:0]
	step, body := sweptStep/b.v.Zoom, &b.out.Carries[clearance.OnBody]
	for i, q := range line {
		p := draw.Point{X: q.X, Y: q.Y}
		if body.moves { // in roll, where the picture plane cuts the body askew
			p = b.left.at(body.At(vec(q.X, q.Y)))
			if view == clearance.PlanView {
				p = b.left.at(body.At(kinematics.Vec{X: -q.Y, Y: q.X, Z: b.left.pose.WheelCentre.Z - b.left.lift}))
			}
		}
		if n := len(b.pts); i > 0 && n > 0 && math.Abs(p.X-b.pts[n-1].X)+math.Abs(p.Y-b.pts[n-1].Y) < step {
			continue
		}
		b.pts = append(b.pts, p)
	}
	b.l.On(draw.LayerBands)
	b.l.Polygon(draw.BandSwept, b.pts...)
	b.l.On(draw.LayerTravel)
	b.pts = append(b.pts, b.pts[0])
	b.l.PolylineInBox(draw.Swept, b.world, b.pts)
}

// How near the pose shown must be to that of the least gap for its line, mm and
// rad: as near as sliders and a click go.
const (
	leastAtMM  = 0.06
	leastAtRad = 1e-3
	// gradientStep, mm, of the differences that find the way to the tyre.
	gradientStep = 0.01
)

// leastGaps draws the line of each least gap whose pose is the one shown; where
// the gap is too small, or the obstacle pointed at, with a ring about it.
func (b *builder) leastGaps() {
	for i := range b.in.Obstacles {
		o := &b.in.Obstacles[i]
		from, to, ok := b.leastPlace(o)
		if !ok {
			continue
		}
		p, q := b.left.at(from), b.left.at(to)
		b.l.On(draw.LayerDimensions)
		b.l.Line(draw.DimensionNow, p, q)
		b.l.Circle(draw.ArrowNow, draw.On(p), 0, leastDot)
		b.l.Circle(draw.ArrowNow, draw.On(q), 0, leastDot)
		if o.State.Short() || b.pointsAt(i) {
			b.l.Circle(draw.HandleHeld, draw.On(p.Add(q).Mul(0.5)), p.Sub(q).Len()/2, leastRing)
		}
	}
}

// leastPlace returns where the least gap of an obstacle is, from its surface to
// the tyre; false in another pose than its own. What the upright carries meets
// the rim, whose inside is not drawn.
func (b *builder) leastPlace(o *Obstacle) (from, to kinematics.Vec, ok bool) {
	t, out := b.in.Now.Section.Tyre, b.out
	near := math.Abs(o.Travel-out.Travel) < leastAtMM && math.Abs(o.Rack-out.Rack) < leastAtMM && math.Abs(o.Roll-out.Roll) < leastAtRad
	if b.show&Clearance == 0 || !o.HasGap || o.Carrier == clearance.OnUpright || !near || !sound(t) {
		return from, to, false
	}
	at := out.Carries[clearance.OnBody].At(o.At) // in that pose already, as the body sees it
	way := gapWay(&t, &out.Left, at)
	from = r3.Sub(at, r3.Scale(o.Thick, way))
	return from, onTyre(&t, &out.Left, r3.Sub(from, r3.Scale(o.Gap, way))), true
}

// asideOf appends how far a place lies ahead of the wheel centre or behind it,
// in the plan above or below: obstacle and tyre may cover each other in the
// picture and yet pass in space.
func (b *builder) asideOf(text []byte, at kinematics.Vec) []byte {
	off := r3.Sub(at, b.out.Left.WheelCentre)
	way, ahead, behind := off.X, " ahead of", " behind"
	if b.left.plan {
		way, ahead, behind = off.Z, " above", " below"
	}
	if math.Abs(way) <= leastOff {
		return text
	}
	text = append(text, ", "...)
	text = b.format(text, math.Abs(way), 0)
	text = append(text, pick(way > 0, ahead, behind)...)
	return append(text, " the wheel centre"...)
}

// Marks of a least gap, points: its ends, and the ring about it.
const (
	leastDot  = 2.2
	leastRing = 9.0
	// leastOff is how far off the wheel centre, mm, is worth a word.
	leastOff = 20.0
)

// onTyre moves a place near the tyre's surface onto it. From inside, where no one
// way out is the nearest, the first guess may miss it by some mm.
func onTyre(t *clearance.Tyre, p *kinematics.Pose, at kinematics.Vec) kinematics.Vec {
	const steps = 4
	for range steps {
		at = r3.Sub(at, r3.Scale(t.Gap(p, at), gapWay(t, p, at)))
	}
	return at
}

// gapWay is the unit direction from the nearest place of the tyre to a place.
func gapWay(t *clearance.Tyre, p *kinematics.Pose, at kinematics.Vec) kinematics.Vec {
	slope := func(d kinematics.Vec) float64 {
		return t.Gap(p, r3.Add(at, d)) - t.Gap(p, r3.Sub(at, d))
	}
	g := kinematics.Vec{X: slope(kinematics.Vec{X: gradientStep}), Y: slope(kinematics.Vec{Y: gradientStep}), Z: slope(kinematics.Vec{Z: gradientStep})}
	if n := r3.Norm(g); n > 0 {
		return r3.Scale(1/n, g)
	}
	return kinematics.Vec{}
}

// sound tells whether a tyre is known, and one that gaps can be computed with.
func sound(t clearance.Tyre) bool { return t != clearance.Tyre{} && t.Validate() == nil }
