package scene

import (
	"errors"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// houseStyles gives the extent of texts and the pens labels keep off.
var houseStyles = draw.HouseStyles()

// builder holds what one Build needs at hand, and memory kept for the next.
type builder struct {
	l   *draw.List
	v   draw.View
	in  *Input
	out *Output

	show, lit Overlays // lit is part of show
	world     draw.Box // part of the world in the window

	plan        bool // seen from above
	left, right side
	rest        kinematics.Pose     // of the left corner
	rightR      kinematics.Readings // of the right corner, in roll
	other       kinematics.Pose     // of the mirrored corner, without roll
	ghost       kinematics.Pose     // compared variant

	format Formatter
	text   []byte // texts of labels
	labels []label
	edges  []edge
	pts    []draw.Point
	cut    []draw.Point
	arcs   arcs
	bars   []bar
	placer draw.Placer
	loupe  loupe
	boxes  []draw.Box // of texts and loupe, on the sheet

	scrubText scrubText
	planeTop  draw.Pos // top of the centre plane; zero if it is not in view
}

// Build draws the picture of in, as seen through v, into l, which it resets.
//
// A travel or roll out of reach is drawn at the nearest position in reach, and
// the error, of kinematics, says what binds: the caller shows it. The picture
// depends on v and in alone. in.Now must hold a study that was updated.
//
// The front view leaves things out: outlines are drawn in the wheel's own plane
// as if toe were zero, hub and upright have no size of their own in a job and
// are drawn nominal, and the scrub radius is dimensioned between the front-view
// places of its ends, while its figure is measured square to the wheel's
// heading.
func Build(l *draw.List, v draw.View, in *Input, out *Output) error {
	l.Reset()
	b := &out.work
	b.start(l, v, in, out)
	b.plan = false
	err := b.solve()
	b.swept(clearance.FrontView)
	b.ground()
	b.otherSide()
	b.ghosts()
	b.compared()
	b.corners()
	b.obstacles()
	b.leastGaps()
	b.centres()
	b.scrub()
	b.tieRod()
	b.collectBars(0)
	b.spots()
	b.namePlane()
	b.nameScrub()
	b.setLoupe()
	drawn := len(l.Items())
	b.litOnly() // after the loupe: pointing and dragging must not move it
	b.collectBars(drawn)
	b.guides()
	b.handles()
	b.note()
	b.drawLoupe()
	b.placeEdges()
	b.placeLabels()
	return err
}

func (b *builder) start(l *draw.List, v draw.View, in *Input, out *Output) {
	b.l, b.v, b.in, b.out = l, v, in, out
	b.show, b.lit = in.Overlays|in.Lit, in.Lit
	b.world = v.Visible()
	if b.format = in.Format; b.format == nil {
		b.format = Millimetres
	}
	b.text, b.labels, b.edges, b.bars = b.text[:0], b.labels[:0], b.edges[:0], b.bars[:0]
	b.planeTop, b.scrubText = draw.Pos{}, scrubText{}
	out.Spots, out.Tyre = out.Spots[:0], out.Tyre[:0]
	out.Loupe, out.LeftOut = draw.EmptyBox(), out.LeftOut[:0]
	b.settle()
}

// solve finds the poses shown.
func (b *builder) solve() error {
	in, out := b.in, b.out
	st := in.Now.Study
	m := &st.Mechanism
	out.Rack, out.Roll, out.Rolled = in.Rack, 0, false
	var failed error
	if in.Roll != 0 {
		ax, err := m.Roll(in.Roll, in.Rack)
		if err == nil {
			out.Left, out.Right, out.Rolled = ax.Left, ax.Right, true
			out.Readings, b.rightR = ax.Readings()
			out.Travel, out.Roll = ax.Left.Travel, in.Roll
			b.setSides()
			return nil
		}
		failed = err
	}
	var err error
	if out.Left, err = m.At(in.Travel, in.Rack); err != nil {
		failed = errors.Join(failed, err)
		out.Rack = st.Rack
		if out.Left, err = m.At(min(max(in.Travel, st.From), st.To), st.Rack); err != nil {
			out.Rack, out.Left = 0, restPose(m)
		}
	}
	out.Travel, out.Readings = out.Left.Travel, out.Left.Readings()
	b.setSides()
	return failed
}

func (b *builder) setSides() {
	c := &b.in.Now.Study.Case.Corner
	b.left.plan, b.right.plan = b.plan, b.plan
	b.left.set(1, &b.out.Left, c, b.in.Now.Section, b.out.Roll, b.out.Rack)
	b.right.set(-1, &b.out.Right, c, b.in.Now.Section, -b.out.Roll, -b.out.Rack)
	b.out.Ground = b.out.Left.Contact.Z
	b.rest = restPose(&b.in.Now.Study.Mechanism)
	b.out.Carries = b.left.carries(&b.rest)
}

// half returns the 95 % half-width of a quantity at the pose shown; 0 in roll,
// where none is known.
func (b *builder) half(q kinematics.Quantity) float64 {
	if b.out.Rolled {
		return 0
	}
	h, ok := 0.0, false
	switch st := b.in.Now.Study; {
	case b.in.Bands != nil:
		h, ok = b.in.Bands.Of(q)
	case b.out.Travel == 0 && b.out.Rack == 0:
		h, ok = st.RestBands.Of(q)
	default:
		h, ok = st.BandAt(q, b.out.Travel)
	}
	if !ok {
		return 0
	}
	return h
}

// figure writes a reading of the pose shown with its band, and that it rests on what
// is assumed.
func (b *builder) figure(q kinematics.Quantity, v, half float64) {
	b.text = b.format(b.text, v, half)
	bands := b.in.Bands
	if bands == nil {
		bands = &b.in.Now.Study.RestBands
	}
	if bands.Assumed(q) {
		b.text = append(b.text, ", assumed"...)
	}
}

// far tells whether the instant centre of the pose shown is at infinity.
func (b *builder) far(r *kinematics.Readings) kinematics.Far {
	arm, known := r.Of(kinematics.SwingArm)
	switch st := b.in.Now.Study; {
	case b.out.Rolled:
		return kinematics.FarOf(arm, known, kinematics.Interval{}, false)
	case b.in.Bands != nil:
		return b.in.Bands.Far(r)
	case b.out.Travel == 0 && b.out.Rack == 0:
		return st.RestBands.Far(r)
	default:
		return st.FarAt(arm, known, b.out.Travel)
	}
}

// glow lays a broad stroke under a line that stands out.
func (b *builder) glow(on bool, pts ...draw.Point) {
	if on {
		b.l.On(draw.LayerBands)
		b.l.PolylineInBox(draw.Highlight, b.world, pts)
	}
}
