package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// BuildPlan draws in seen from above, the car's nose pointing down (drawing x is
// y of the car, drawing y is -x), so that it stands plumb under the front view
// as first angle projection has it (ISO 5456-2, from memory). The rest is as
// with Build; of the Output it leaves Upright, Tyre and Loupe empty. Obstacles
// and swept outline stand in it like in the front view.
//
// A flat arm has no place along the car: it is drawn at its ball joint's.
func BuildPlan(l *draw.List, v draw.View, in *Input, out *Output) error {
	l.Reset()
	b := &out.work
	b.start(l, v, in, out)
	b.plan = true
	err := b.solve()
	b.swept(clearance.PlanView)
	b.planCentre()
	b.planCompared()
	b.planWheel(&b.left)
	b.planLinks(&b.left)
	if out.Rolled {
		b.planWheel(&b.right)
		b.planLinks(&b.right)
	}
	b.planSwing()
	b.obstacles()
	b.leastGaps()
	b.planSpots()
	b.collectBars(0)
	b.namePlane()
	b.nose()
	b.guides()
	b.handles()
	b.note()
	b.placeLabels()
	return err
}

// planCentre draws the centre plane of the car, which stands upright in the
// picture also in roll but for the little that the body leans.
func (b *builder) planCentre() {
	w := b.world
	if w.Min.X > 0 || w.Max.X < 0 {
		return
	}
	top := draw.Point{Y: w.Max.Y - edgeRoom/b.v.Zoom}
	b.l.On(draw.LayerGround)
	b.l.Line(draw.CentrePlane, draw.Point{Y: w.Min.Y}, top)
	b.planeTop = draw.On(top)
}

// Sizes of the arrow that tells where the nose is, points.
const (
	noseLength = 26.0
	noseIn     = 14.0 // from the edges of the window
	noseStep   = 24.0 // of the search for its place
)

// nose tells where the nose of the car is: an arrow and its word, along the
// lower or upper edge of the window where nothing lies, in a corner if one is free.
func (b *builder) nose() {
	const word = "nose"
	at := len(b.text)
	b.text = append(b.text, word...)
	w, up, down := houseStyles.TextSize(draw.TextQuiet, b.in.Medium, b.text[at:])
	size := draw.Point{X: w + 3*edgeGap, Y: noseLength}
	place, ok := b.nosePlace(size)
	if !ok {
		b.out.LeftOut = append(b.out.LeftOut, word)
		return
	}
	b.out.Homes.put(home{name: nameOfNose, off: place.Min})
	on := func(x, y float64) draw.Pos { return b.onSheet(draw.Point{X: x, Y: y}) }
	b.l.On(draw.LayerNotes)
	x := place.Min.X + edgeGap
	b.l.LineBy(draw.Dimension, on(x, place.Max.Y), on(x, place.Min.Y))
	b.l.Arrowhead(draw.Arrow, on(x, place.Min.Y), draw.Point{Y: -1})
	b.l.TextBytes(draw.TextQuiet, on(x+2*edgeGap, place.Mid().Y-(up-down)/2), draw.Left|draw.Baseline, b.text[at:])
	b.boxes = append(b.boxes, place)
	b.addBar(bar{place.Min, place.Max, true, coverText})
}

// nosePlace is where the arrow stays, or the first free place.
func (b *builder) nosePlace(size draw.Point) (place draw.Box, ok bool) {
	if h, stays := b.homeOf(nameOfNose); stays {
		return draw.Box{Min: h.off, Max: h.off.Add(size)}, true
	}
	win := b.v.Window().Grow(-noseIn)
	for x := 0.0; x <= win.W()-size.X; x += noseStep {
		for _, c := range [...]draw.Point{
			{X: win.Min.X + x, Y: win.Min.Y}, {X: win.Max.X - size.X - x, Y: win.Min.Y},
			{X: win.Min.X + x, Y: win.Max.Y - size.Y}, {X: win.Max.X - size.X - x, Y: win.Max.Y - size.Y},
		} {
			if place = (draw.Box{Min: c, Max: c.Add(size)}); b.cover(place.Grow(notePad), 1) == 0 {
				return place, true
			}
		}
	}
	return place, false
}

// Lengths of lines past what they belong to, mm.
const (
	spinPast  = 60.0 // of the spin axis past the tyre
	planePast = 40.0 // of the wheel's centre plane past the tyre
	hingePast = 25.0 // of a flat arm's pivot axis past its ball joint's place
)

// planWheel draws tyre, centre lines and hub from above.
func (b *builder) planWheel(s *side) {
	l, p := b.l, s.pose
	t := s.tyreBody()
	l.On(draw.LayerConstruction)
	half := t.Section/2 + spinPast
	l.Line(draw.CentreLine, s.along(-half, 0), s.along(half, 0))
	reach := t.Radius + planePast
	l.Line(draw.CentreLine, s.along(0, -reach), s.along(0, reach))
	l.On(draw.LayerOutlines)
	b.pts = tyreAbove(b.pts[:0], s, &t)
	l.Polygon(draw.Outline, b.pts...)
	// The edges of the tread, along the top of the tyre, and the hub's face.
	for _, x := range [2]float64{-t.Tread / 2, t.Tread / 2} {
		r := math.Sqrt(max(0, t.Radius*t.Radius-t.Widest*t.Widest))
		l.Line(draw.OutlineInner, s.along(x, -r), s.along(x, r))
	}
	face := s.c.Wheel.Offset - s.c.Wheel.Spacer
	for _, x := range [2]float64{face - HubThickness, face} {
		l.Line(draw.OutlineInner, s.along(x, -HubFlange/2), s.along(x, HubFlange/2))
	}
	contact := s.at(p.Contact)
	l.On(draw.LayerDimensions)
	b.cross(draw.Dimension, contact)
	if p.HasAxisAtGround {
		g := s.at(p.AxisAtGround)
		l.Line(draw.SteeringAxis, s.at(p.UpperBall), g)
		b.cross(draw.DimensionNow, g)
		if s == &b.left {
			b.sayText(label{name: nameOfFoot, role: draw.TextNow, anchor: draw.On(g), clear: crossArm, prefer: eastWest, rank: rankPlain, near: true}, "axis at ground")
		}
	}
	if s == &b.left {
		b.sayText(label{name: nameOfContact, role: draw.TextQuiet, anchor: draw.On(contact), clear: crossArm, prefer: eastNorth, rank: rankPlain, near: true}, "tyre contact")
	}
}

// crossArm is half the size of a cross, points.
const crossArm = 5.0

func (b *builder) cross(role draw.Role, p draw.Point) {
	at := draw.On(p)
	b.l.LineBy(role, at.Off(-crossArm, 0), at.Off(crossArm, 0))
	b.l.LineBy(role, at.Off(0, -crossArm), at.Off(0, crossArm))
}

// along is the place so far out along the spin axis and so far ahead of it, at
// its height.
func (s *side) along(out, ahead float64) draw.Point {
	forward, _ := s.pose.Heading()
	return s.at(r3.Add(s.pose.WheelCentre, r3.Add(r3.Scale(out, s.pose.Spin), r3.Scale(ahead, forward))))
}

// tyreBody is the tyre as a body: that of the gaps, or one made up of the sizes
// that are drawn; without those a thin disc.
func (s *side) tyreBody() clearance.Tyre {
	if sound(s.section.Tyre) {
		return s.section.Tyre
	}
	t, ok := s.tyreShape()
	if !ok {
		const thin = 20.0
		r := s.c.Wheel.LoadedRadius
		return clearance.Tyre{Radius: r, Section: thin, Tread: thin / 2, Shoulder: thin / 4, Widest: r / 2}
	}
	return clearance.Tyre{Radius: t.outer, Section: 2 * t.half, Tread: 2 * t.tread, Shoulder: t.half - t.tread, Widest: t.wide}
}

const (
	// aboveSteps are the directions in which the edge of the tyre is looked for
	// before any is put between.
	aboveSteps = 24
	// aboveSag, mm, is how far the edge may pass a chord of its picture.
	aboveSag = 0.1
)

// tyreAbove appends the edge of a tyre as seen in the plan: where it reaches
// farthest in one direction of the picture after the other.
func tyreAbove(dst []draw.Point, s *side, t *clearance.Tyre) []draw.Point {
	way := func(i int) draw.Point {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i%aboveSteps) + 0.5) / aboveSteps)
		return draw.Point{X: cos, Y: sin}
	}
	from := s.reachOf(t, way(0))
	for i := range aboveSteps {
		to := s.reachOf(t, way(i+1))
		dst = append(dst, from)
		dst = s.edgeBetween(dst, t, way(i), way(i+1), from, to)
		from = to
	}
	return dst
}

// edgeBetween appends the edge between two directions, where it stays in the
// triangle of chord and tangents: at most half the chord times the tangent of
// half the turn high. Each step halves the turn.
func (s *side) edgeBetween(dst []draw.Point, t *clearance.Tyre, a, b, from, to draw.Point) []draw.Point {
	mid := a.Add(b)
	mid = mid.Mul(1 / mid.Len())
	half := math.Abs(a.X*mid.Y-a.Y*mid.X) / (a.X*mid.X + a.Y*mid.Y) // tangent of half the turn
	if to.Sub(from).Len()/2*half <= aboveSag {
		return dst
	}
	at := s.reachOf(t, mid)
	dst = s.edgeBetween(dst, t, a, mid, from, at)
	return s.edgeBetween(append(dst, at), t, mid, b, at, to)
}

// reachOf is the place of the plan where the tyre reaches farthest in a unit
// direction of it.
func (s *side) reachOf(t *clearance.Tyre, way draw.Point) draw.Point {
	return s.at(farthestOf(s.pose, t, kinematics.Vec{X: -way.Y, Y: s.mirror * way.X}))
}

// farthestOf is the place of the tyre that reaches farthest in a unit direction:
// one of a shoulder or of the widest place of the side wall.
func farthestOf(p *kinematics.Pose, t *clearance.Tyre, d kinematics.Vec) kinematics.Vec {
	along := r3.Dot(d, p.Spin)
	off := r3.Sub(d, r3.Scale(along, p.Spin))
	across := r3.Norm(off)
	if across > 0 {
		off = r3.Scale(1/across, off)
	}
	u, v, r := t.Tread/2, t.Radius-t.Shoulder, t.Shoulder
	if t.Section/2*math.Abs(along)+t.Widest*across > u*math.Abs(along)+v*across+r {
		u, v, r = t.Section/2, t.Widest, 0
	}
	out := r3.Add(p.WheelCentre, r3.Scale(math.Copysign(u, along), p.Spin))
	return r3.Add(out, r3.Add(r3.Scale(v, off), r3.Scale(r, d)))
}

// planLinks draws arms, upright and tie rod from above, the lower arm first.
func (b *builder) planLinks(s *side) {
	l, p := b.l, s.pose
	l.On(draw.LayerLinks)
	b.planArm(s, &s.c.Lower, kinematics.LowerFront, p.LowerBall)
	l.Line(draw.OutlineInner, s.at(s.steeringArmFoot()), s.at(p.OuterEnd))
	l.Line(draw.Upright, s.at(p.LowerBall), s.at(p.UpperBall))
	l.Line(draw.TieRod, s.at(p.RackEnd), s.at(p.OuterEnd))
	b.planArm(s, &s.c.Upper, kinematics.UpperFront, p.UpperBall)
	b.l.On(draw.LayerConstruction)
	end := s.at(p.RackEnd)
	b.pts = append(b.pts[:0], draw.Point{Y: end.Y}, end)
	l.PolylineInBox(draw.Construction, b.world, b.pts)
	if s == &b.left && !b.in.Rear {
		b.sayText(label{name: nameOfRack, role: draw.TextQuiet, anchor: draw.On(end.Mul(0.5).Add(draw.Point{Y: end.Y / 2})), clear: 3, prefer: northFirst, rank: rankLast, near: true}, "rack")
	}
}

// planArm draws the two legs of an arm, and its pivot axis thin. A flat arm has
// one leg, straight across the car.
func (b *builder) planArm(s *side, a *kinematics.Arm, front kinematics.Point, ball kinematics.Vec) {
	to := s.at(ball)
	if a.Flat {
		v := s.turned(a.Front)
		v.X = ball.X
		from := s.at(v)
		b.l.Line(draw.Arm, from, to)
		b.l.Line(draw.Construction, from.Add(draw.Point{Y: hingePast}), from.Sub(draw.Point{Y: hingePast}))
		return
	}
	f, r := s.place(front), s.place(front+1)
	b.l.Line(draw.Construction, f, r)
	b.l.Line(draw.Arm, f, to)
	b.l.Line(draw.Arm, r, to)
}

// planSpots lists the handles of the plan: the points that have a place along
// the car, then the obstacles.
func (b *builder) planSpots() {
	s, out := &b.left, b.out
	for p := kinematics.UpperFront; p <= kinematics.SpringBody; p++ {
		if s.c.Has(p) && !s.flat(p) {
			out.Spots = append(out.Spots, Spot{OfPoint(p), s.place(p), roleOf(p), p.OnBody()})
		}
	}
	b.obstacleSpots()
	b.keepOffSpots()
}

// flat tells whether a point is the pivot of a flat arm.
func (s *side) flat(p kinematics.Point) bool {
	return s.c.Upper.Flat && p == kinematics.UpperFront || s.c.Lower.Flat && p == kinematics.LowerFront
}
