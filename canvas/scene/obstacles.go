package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// Sizes of obstacles, points.
const (
	obstacleLeast = 3.0 // half width of the thinnest as drawn
	hatchEvery    = 7.0 // along the obstacle
	hatchPast     = 5.0 // of a stroke past its surface
	obstacleClear = 9.0 // of a label from it
	// keptReach is how far from an obstacle whose gap is kept its name may stand: a
	// longer leader would cross what matters more. All names stand in the list of gaps.
	keptReach = 30.0
)

const (
	// ellipseSteps are the chords of a circle seen askew: 3.5 degrees each.
	ellipseSteps = 104
	capSteps     = 12 // of half a turn round the end of a line
	// mostStrokes bounds the hatch of one obstacle when the view is very near.
	mostStrokes = 160
)

// lens is how an obstacle is seen: the places on the picture that make it.
type lens struct {
	a, b draw.Point // point or line; a is the centre of a circle or an arc
	u, v draw.Point // half axes of the circle's picture, in no order
	// sweep is how far round it goes, from u towards v, rad.
	sweep float64
}

// seen returns where the pose shown has an obstacle, in the picture.
func (b *builder) seen(o *Obstacle) lens {
	c := &b.out.Carries[o.Carrier]
	s := &b.left
	l := lens{a: s.at(c.At(o.A))}
	switch o.Shape {
	case clearance.Line:
		l.b = s.at(c.At(o.B))
	case clearance.Circle:
		e, f := c.Turn(o.across(0)), c.Turn(o.across(1))
		l.u, l.v, l.sweep = s.at(e).Mul(o.Radius), s.at(f).Mul(o.Radius), 2*math.Pi
	case clearance.Arc:
		if r, ok := o.Round(); ok { // a hand holds none that is none
			l.a, l.sweep = s.at(c.At(r.Centre)), r.Sweep
			l.u, l.v = s.at(c.Turn(r.E)).Mul(r.Radius), s.at(c.Turn(r.F)).Mul(r.Radius)
		}
	}
	return l
}

// across returns one of two unit directions in the plane of a circle, square to
// each other. A direction without length, which no sound obstacle has, counts
// as one along the car.
func (o *Obstacle) across(k int) kinematics.Vec {
	if r3.Norm2(o.B) == 0 {
		return [2]kinematics.Vec{{Y: 1}, {Z: 1}}[k]
	}
	n := r3.Unit(o.B)
	least := kinematics.Vec{X: 1}
	if math.Abs(n.X) > math.Abs(n.Y) {
		least = kinematics.Vec{Y: 1}
	}
	e := r3.Unit(r3.Cross(n, least))
	if k == 0 {
		return e
	}
	return r3.Cross(n, e)
}

// Rim returns the direction, a unit vector at rest, from a circle's centre to
// the place where a hand sets its radius: it is seen in full length, pointing up
// or, where that is level, to the right. plan and c are as for Place.
func (o *Obstacle) Rim(plan bool, c *Carry) kinematics.Vec {
	s := side{mirror: 1, plan: plan}
	e, f := c.Turn(o.across(0)), c.Turn(o.across(1))
	n := r3.Cross(e, f)
	p := s.at(n)
	// Square to the direction through the circle, in the picture; straight up if the
	// circle is seen full face.
	want := draw.Point{X: -p.Y, Y: p.X}
	if p.Len() <= edgeOn {
		want = draw.Point{Y: 1}
	}
	if want.Y < 0 || want.Y == 0 && want.X < 0 {
		want = want.Mul(-1)
	}
	pe, pf := s.at(e), s.at(f)
	ce, cf := pe.X*want.X+pe.Y*want.Y, pf.X*want.X+pf.Y*want.Y
	return r3.Unit(r3.Add(r3.Scale(ce, o.across(0)), r3.Scale(cf, o.across(1))))
}

// edgeOn is the sine below which a circle counts as seen full face.
const edgeOn = 1e-6

// obstacles draws what the wheel must not touch.
func (b *builder) obstacles() {
	if b.show&Clearance == 0 {
		return
	}
	for i := range b.in.Obstacles {
		b.obstacle(i)
	}
}

func (b *builder) obstacle(i int) {
	o := &b.in.Obstacles[i]
	l := b.seen(o)
	role := draw.Obstacle
	if o.State.Short() {
		role = draw.ObstacleShort
	}
	lit := b.pointsAt(i)
	if lit {
		b.pts = l.middle(b.pts[:0], o)
		b.glow(true, b.pts...)
	}
	b.l.On(draw.LayerOutlines)
	if o.State.Short() {
		b.hatch(o, &l)
	}
	b.surface(role, o, &l)
	b.nameObstacle(i, &l, lit)
}

// pointsAt tells whether a handle of an obstacle is pointed at or selected.
func (b *builder) pointsAt(i int) bool {
	for _, h := range [2]Handle{b.in.Hover, b.in.Selected} {
		if k, _, ok := h.Obstacle(); ok && k == i {
			return true
		}
	}
	return false
}

// surface draws what an obstacle looks like, with its thickness.
func (b *builder) surface(role draw.Role, o *Obstacle, p *lens) {
	l := b.l
	switch o.Shape {
	case clearance.Point:
		if o.Thick*b.v.Zoom > obstacleLeast {
			l.Circle(role, draw.On(p.a), o.Thick, 0)
			return
		}
		at := draw.On(p.a)
		const arm = 2 * obstacleLeast
		l.LineBy(role, at.Off(-arm, -arm), at.Off(arm, arm))
		l.LineBy(role, at.Off(-arm, arm), at.Off(arm, -arm))
	case clearance.Line:
		if o.Thick*b.v.Zoom > obstacleLeast {
			b.pts = stadium(b.pts[:0], p.a, p.b, o.Thick)
			l.Polygon(role, b.pts...)
			return
		}
		b.pts = append(b.pts[:0], p.a, p.b)
		l.PolylineInBox(role, b.world, b.pts)
	case clearance.Circle:
		if o.Thick*b.v.Zoom > obstacleLeast {
			b.pts = p.around(b.pts[:0], o.Thick)
			b.pts = append(b.pts, b.pts[0])
			l.PolylineInBox(role, b.world, b.pts)
			if p.open(o.Thick) {
				b.pts = p.around(b.pts[:0], -o.Thick)
				b.pts = append(b.pts, b.pts[0])
				l.PolylineInBox(role, b.world, b.pts)
			}
			return
		}
		b.pts = p.middle(b.pts[:0], o)
		l.PolylineInBox(role, b.world, b.pts)
	case clearance.Arc:
		if o.Thick*b.v.Zoom > obstacleLeast {
			b.cut = p.middle(b.cut[:0], o)
			b.pts = sausage(b.pts[:0], b.cut, o.Thick)
			l.Polygon(role, b.pts...)
			return
		}
		b.pts = p.middle(b.pts[:0], o)
		l.PolylineInBox(role, b.world, b.pts)
	}
}

// middle appends the point, line, circle or arc itself; a circle closed.
func (p *lens) middle(dst []draw.Point, o *Obstacle) []draw.Point {
	switch o.Shape {
	case clearance.Point:
		return append(dst, p.a, p.a)
	case clearance.Line:
		return append(dst, p.a, p.b)
	}
	if o.Shape == clearance.Arc {
		n := int(math.Ceil(ellipseSteps * p.sweep / (2 * math.Pi)))
		for i := range n + 1 {
			dst = append(dst, p.on(p.sweep*float64(i)/float64(max(n, 1))))
		}
		return dst
	}
	for i := range ellipseSteps + 1 {
		dst = append(dst, p.on(2*math.Pi*float64(i%ellipseSteps)/ellipseSteps))
	}
	return dst
}

// on returns a place of a circle.
func (p *lens) on(t float64) draw.Point {
	sin, cos := math.Sincos(t)
	return p.a.Add(p.u.Mul(cos)).Add(p.v.Mul(sin))
}

// around appends the line that stands off a circle's picture by mm outward, or
// inward below zero: the edge of a ring as thick, for a ring is balls along a
// circle, and its picture is discs along the circle's picture.
func (p *lens) around(dst []draw.Point, mm float64) []draw.Point {
	for i := range ellipseSteps {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / ellipseSteps)
		pu, pv := p.u.X*cos+p.u.Y*sin, p.v.X*cos+p.v.Y*sin
		q := p.a
		if h := math.Hypot(pu, pv); h > 0 {
			q = q.Add(p.u.Mul(pu / h)).Add(p.v.Mul(pv / h))
		}
		dst = append(dst, q.Add(draw.Point{X: cos, Y: sin}.Mul(mm)))
	}
	return dst
}

// open tells whether a ring of a half thickness is seen to have a hole: its
// picture is nowhere bent more tightly than that.
func (p *lens) open(mm float64) bool {
	// Half axes a >= b of the picture from the conjugate ones: a b is the cross
	// product, a a + b b the sum of squares; the tightest bend has radius b b / a.
	ab := math.Abs(p.u.X*p.v.Y - p.u.Y*p.v.X)
	sum := p.u.X*p.u.X + p.u.Y*p.u.Y + p.v.X*p.v.X + p.v.Y*p.v.Y
	root := math.Sqrt(max(0, sum*sum-4*ab*ab))
	aa := (sum + root) / 2
	if aa == 0 {
		return false
	}
	bb := ab * ab / aa
	return bb > mm*math.Sqrt(aa)
}

// stadium appends the outline of a line with round ends, mm thick on each side.
func stadium(dst []draw.Point, a, b draw.Point, mm float64) []draw.Point {
	d := b.Sub(a)
	turn := math.Atan2(d.Y, d.X)
	for k, end := range [2]draw.Point{b, a} {
		for i := range capSteps + 1 {
			sin, cos := math.Sincos(turn + math.Pi*(float64(i)/capSteps-0.5+float64(k)))
			dst = append(dst, end.Add(draw.Point{X: cos, Y: sin}.Mul(mm)))
		}
	}
	return dst
}

// sausage appends the outline of a bent line with round ends, mm thick on each
// side, to be closed: a walk along it and back with the edge on the left hand, round
// every place where the walk turns back. An arc seen from its edge has such a
// place between its ends.
func sausage(dst, along []draw.Point, mm float64) []draw.Point {
	if len(along) == 1 {
		return stadium(dst, along[0], along[0], mm)
	}
	n := len(along) - 1
	at := func(k int) draw.Point { // of the walk, 2 n steps round
		if k = (k + 2*n) % (2 * n); k > n {
			k = 2*n - k
		}
		return along[k]
	}
	in := at(0).Sub(at(-1))
	for k := range 2 * n {
		out := at(k + 1).Sub(at(k))
		turn := math.Atan2(in.Y, in.X)
		if back := in.X*out.X+in.Y*out.Y < 0; back {
			for c := range capSteps {
				sin, cos := math.Sincos(turn + math.Pi*(0.5-float64(c)/capSteps))
				dst = append(dst, at(k).Add(draw.Point{X: cos, Y: sin}.Mul(mm)))
			}
			turn += math.Pi
		} else if in.Len() > 0 && out.Len() > 0 {
			way := in.Mul(1 / in.Len()).Add(out.Mul(1 / out.Len()))
			turn = math.Atan2(way.Y, way.X)
		}
		sin, cos := math.Sincos(turn + math.Pi/2)
		dst = append(dst, at(k).Add(draw.Point{X: cos, Y: sin}.Mul(mm)))
		if out.Len() > 0 {
			in = out
		}
	}
	return dst
}

// hatch draws slanting strokes across an obstacle whose gap is too small, and
// crosses them where it touches.
func (b *builder) hatch(o *Obstacle, p *lens) {
	cross := o.State != GapLess
	if o.Shape == clearance.Point {
		for _, x := range [3]float64{-1, 0, 1} {
			b.stroke(p.a, o.Thick, x*hatchEvery, cross)
		}
		return
	}
	b.cut = p.middle(b.cut[:0], o)
	long := 0.0
	for i := 1; i < len(b.cut); i++ {
		long += b.cut[i].Sub(b.cut[i-1]).Len()
	}
	every := max(hatchEvery/b.v.Zoom, long/mostStrokes)
	world := b.world.Grow(o.Thick + hatchPast/b.v.Zoom)
	next := every / 2
	for i := 1; i < len(b.cut); i++ {
		way := b.cut[i].Sub(b.cut[i-1])
		n := way.Len()
		for ; next < n; next += every {
			if at := b.cut[i-1].Add(way.Mul(next / n)); world.Has(at) {
				b.stroke(at, o.Thick, 0, cross)
			}
		}
		next -= n
	}
}

// stroke draws one stroke of a hatch, shifted aside by points.
func (b *builder) stroke(at draw.Point, thick, aside float64, cross bool) {
	const slant = math.Sqrt2 / 2
	for _, way := range [2]float64{1, -1} {
		mm, by := draw.Point{X: thick * slant * way, Y: thick * slant}, draw.Point{X: hatchPast * slant * way, Y: hatchPast * slant}
		b.l.LineBy(draw.ObstacleHatch, draw.On(at.Sub(mm)).Off(aside-by.X, -by.Y), draw.On(at.Add(mm)).Off(aside+by.X, by.Y))
		if !cross {
			return
		}
	}
}

// nameObstacle has an obstacle's name and gap written beside it; lit tells that
// a hand or the list points at it.
func (b *builder) nameObstacle(i int, p *lens, lit bool) {
	o := &b.in.Obstacles[i]
	at := len(b.text)
	b.text = append(b.text, o.Name...)
	lab := label{name: nameOfObstacle + name(i), role: draw.TextQuiet, anchor: draw.On(b.nameAt(o, p)), rank: rankLast, reach: keptReach, spare: true,
		clear: obstacleClear + o.Thick*b.v.Zoom, prefer: northFirst, short: len(b.text) - at}
	switch {
	case o.State.Short():
		lab.role, lab.rank, lab.reach, lab.told = draw.TextNow, rankCentre, 0, true
	case lit:
		lab.role, lab.reach, lab.spare = draw.TextBody, 0, false
	case b.in.Medium == draw.OnPaper:
		lab.reach = 0 // nothing can be pointed at, there
	}
	from, to, here := b.leastPlace(o)
	here = here && o.State != GapInside // that one is measured wrong
	b.text = b.gapWords(b.text, o, here, func(n int) { lab.mid = n - at })
	if here && o.State.Short() {
		lab.anchor, lab.clear = draw.On(b.left.at(r3.Scale(0.5, r3.Add(from, to)))), leastRing+obstacleLeast
		b.text = b.asideOf(b.text, from)
	}
	b.say(lab, at)
}

// gapWords appends what is known of a gap; here tells that the pose shown is its
// own. mid is told the length after what matters most.
func (b *builder) gapWords(text []byte, o *Obstacle, here bool, mid func(n int)) []byte {
	switch o.State {
	case GapInside:
		text = append(text, " inside tyre or rim"...)
		mid(len(text))
		return append(text, " at rest"...)
	case GapTouches:
		text = append(text, pick(here, " touches here", " touches")...)
		mid(len(text))
		text = append(text, ", "...)
		text = b.format(text, -o.Gap, 0)
		return append(text, " deep"...)
	}
	if !o.HasGap {
		return text
	}
	if o.State == GapLess {
		text = append(text, pick(here, ": here", ": least")...) // of all poses
	}
	text = append(text, ' ')
	text = b.format(text, o.Gap, 0)
	mid(len(text))
	if o.State == GapLess {
		text = append(text, ", wished "...)
		text = b.format(text, o.Wish, 0)
	}
	return text
}

// nameAt is the place of an obstacle nearest to the middle of the picture, so
// that its name is seen where a part of it is.
func (b *builder) nameAt(o *Obstacle, p *lens) draw.Point {
	if o.Shape == clearance.Point {
		return p.a
	}
	b.cut = p.middle(b.cut[:0], o)
	if o.Shape == clearance.Line {
		t0, t1, ok := draw.SegmentInBox(p.a, p.b, b.world)
		if !ok {
			return p.a
		}
		return p.a.Add(p.b.Sub(p.a).Mul((t0 + t1) / 2))
	}
	best := b.cut[0]
	room := b.world.Grow(-2 * obstacleClear / b.v.Zoom)
	for _, q := range b.cut {
		in, was := room.Has(q), room.Has(best)
		if in && !was || in == was && q.Y > best.Y {
			best = q
		}
	}
	return best
}
