package scene

import (
	"math"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// heldPoses is the number of travels at which the held path is taken on each
// side of rest: over 70 mm of travel the chords leave it by 0.001 mm.
const heldPoses = 24

// arcs are what the tie rod's outer end could do, in the resting body, with the
// rack in the middle. They depend on the corner and its travel only and are
// kept until those change.
type arcs struct {
	corner   kinematics.Corner
	from, to float64
	valid    bool

	travel [2 * heldPoses]float64
	one    [1]float64
	held   []kinematics.Vec // path of the outer end with the wheel held straight
	rod    []kinematics.Vec // the same heights and x, on the sphere about the rack end
	aside  []kinematics.Vec // y: how far rod stands beside held; z: its height
	at     []float64        // travels of held
	lower  []kinematics.Vec // path of the lower ball joint
	ideal  kinematics.Place // ideal rack end of the front view
	hasOne bool
}

// update solves the arcs of a study.
func (a *arcs) update(s *Subject) {
	st := s.Study
	if a.valid && a.corner == st.Case.Corner && a.from == st.From && a.to == st.To {
		return
	}
	m := &st.Mechanism
	a.corner, a.from, a.to, a.valid = st.Case.Corner, st.From, st.To, true
	a.held, a.rod, a.lower, a.aside, a.at = a.held[:0], a.rod[:0], a.lower[:0], a.aside[:0], a.at[:0]
	// From rest both ways, so that a path that ends early (the study's own
	// travel is that of another rack position) is still whole around rest.
	down, up := a.travel[:heldPoses], a.travel[heldPoses:]
	for i := range heldPoses {
		down[i] = min(0, st.From) * float64(i+1) / heldPoses
		up[i] = max(0, st.To) * float64(i) / (heldPoses - 1)
	}
	below, _ := m.HeldPath(down) // the part that can be held is what is drawn
	above, _ := m.HeldPath(up)
	for i := len(below) - 1; i >= 0; i-- {
		a.add(m, down[i], below[i])
	}
	for i, p := range above {
		a.add(m, up[i], p)
	}
	a.ideal, a.hasOne = m.RackEndFlat()
}

// add appends one travel to the three paths. The tie rod's arc is where the
// sphere about the rack end meets the held path moved sideways, so the two
// differ by exactly the side distance that the rod cannot give; with pivot axes
// square to the view it is a circle in a plane square to x.
func (a *arcs) add(m *kinematics.Mechanism, travel float64, held kinematics.Vec) {
	a.held, a.at = append(a.held, held), append(a.at, travel)
	if p, ok := rodPoint(&a.corner, m.RodLength(), held); ok {
		a.rod, a.aside = append(a.rod, p), append(a.aside, kinematics.Vec{Y: p.Y - held.Y, Z: held.Z})
	}
	if p, err := m.At(travel, 0); err == nil {
		a.lower = append(a.lower, p.LowerBall)
	}
}

// rodPoint moves p sideways onto the sphere of the tie rod about its rack end;
// false if the sphere does not reach that height.
func rodPoint(c *kinematics.Corner, rod float64, p kinematics.Vec) (kinematics.Vec, bool) {
	e := c.TieRod.RackEnd
	dx, dz := p.X-e.X, p.Z-e.Z
	left := rod*rod - dx*dx - dz*dz
	// A rod that points along the car has no side distance to speak of.
	const leastShare = 0.01
	if left < leastShare*rod*rod {
		return p, false
	}
	p.Y = e.Y + math.Copysign(math.Sqrt(left), c.TieRod.OuterEnd.Y-e.Y)
	return p, true
}

// tieRod draws the arcs true to scale and the ideal rack end.
func (b *builder) tieRod() {
	if b.show&(TieRodArcs|IdealRackEnd) == 0 {
		return
	}
	a := &b.arcs
	a.update(&b.in.Now)
	if b.show&TieRodArcs != 0 {
		lit := b.lit&TieRodArcs != 0
		if lit {
			b.pts = b.path(b.pts[:0], a.held)
			b.glow(true, b.pts...)
			b.glow(true, b.left.at(b.left.pose.RackEnd), b.left.at(b.left.pose.OuterEnd))
		}
		b.l.On(draw.LayerCurves)
		b.curve(draw.LowerArmArc, a.lower)
		if len(a.lower) > 0 {
			low := b.left.body(a.lower[0])
			b.sayText(label{name: nameOfLowerArc, role: draw.TextQuiet, anchor: draw.On(low), clear: 3, prefer: southFirst, rank: rankLast, near: true, spare: true}, "lower-arm arc")
		}
		b.curve(draw.FreePath, a.held)
		b.curve(draw.TieRodArc, a.rod)
	}
	if b.show&IdealRackEnd != 0 {
		b.idealRackEnd()
	}
}

// path appends body points as drawn.
func (b *builder) path(dst []draw.Point, body []kinematics.Vec) []draw.Point {
	for _, p := range body {
		dst = append(dst, b.left.body(p))
	}
	return dst
}

func (b *builder) curve(role draw.Role, body []kinematics.Vec) {
	b.pts = b.path(b.pts[:0], body)
	b.l.Polyline(role, b.pts...)
}

// idealRackEnd marks where a rack end would keep the wheel straight to second
// order, and says how far that is from the present one along the rod and
// across it, in the front view at rest.
func (b *builder) idealRackEnd() {
	a := &b.arcs
	name := "ideal rack end"
	if b.in.Rear {
		name = "ideal body end"
	}
	c := b.left.c
	present := b.left.at(b.left.pose.RackEnd)
	if !a.hasOne {
		return
	}
	if a.ideal.AtInfinity {
		at := len(b.text)
		b.text = append(b.text, name...)
		b.text = append(b.text, " at infinity"...)
		b.say(label{name: nameOfIdeal, role: draw.TextNow, anchor: draw.On(present), clear: 7, prefer: southFirst, rank: rankRack}, at)
		return
	}
	place := b.left.body(vec(a.ideal.At.X+b.out.Rack, a.ideal.At.Y)) // it moves with the rack
	at := len(b.text)
	b.text = append(b.text, name...)
	b.text = append(b.text, ": "...)
	b.rodOffset(c, a.ideal.At)
	if !b.inView(place) {
		b.pointOut(nameOfIdeal, draw.TextNow, draw.ArrowNow, present, place, at)
		return
	}
	b.target(place, present)
	b.say(label{name: nameOfIdeal, role: draw.TextNow, anchor: draw.On(place), clear: 8, prefer: southFirst, rank: rankRack, short: len(name)}, at)
}

// rodOffset writes how far the ideal rack end lies from the present one.
func (b *builder) rodOffset(c *kinematics.Corner, ideal kinematics.Flat) {
	rack, outer := kinematics.Front(c.TieRod.RackEnd), kinematics.Front(c.TieRod.OuterEnd)
	dx, dz := rack.X-outer.X, rack.Y-outer.Y
	n := math.Hypot(dx, dz)
	if n < kinematics.MinSpan {
		return // the rod is seen from its end
	}
	ux, uz := dx/n, dz/n // along the rod, outer end to rack end
	x, z := ideal.X-rack.X, ideal.Y-rack.Y
	along := x*ux + z*uz
	across := z*ux - x*uz // positive is up for a rod whose rack end is on the right
	if ux < 0 {
		across = -across
	}
	b.text = b.format(b.text, math.Abs(along), 0)
	b.text = append(b.text, pick(along < 0, " shorter, ", " longer, ")...)
	b.text = b.format(b.text, math.Abs(across), 0)
	b.text = append(b.text, pick(across < 0, " lower", " higher")...)
}

func pickRole(cond bool, yes, no draw.Role) draw.Role {
	if cond {
		return yes
	}
	return no
}

func pick(cond bool, yes, no string) string {
	if cond {
		return yes
	}
	return no
}

// target draws a small cross in a circle; the cross is larger where the handle
// would hide it.
func (b *builder) target(p, handle draw.Point) {
	const r, hidden = 4.0, 14.0
	cross := 8.0
	if p.Sub(handle).Len()*b.v.Zoom < hidden {
		cross = 16
	}
	o := draw.On(p)
	b.l.On(draw.LayerDimensions)
	b.l.Circle(draw.DimensionNow, o, 0, r)
	b.l.LineBy(draw.DimensionNow, o.Off(-cross, 0), o.Off(cross, 0))
	b.l.LineBy(draw.DimensionNow, o.Off(0, -cross), o.Off(0, cross))
}
