package scene

import (
	"math"
	"strconv"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// Sizes of the loupe, points.
const (
	loupeShare = 0.145 // of the shorter side of the window
	loupeLeast = 52.0  // a window that gives less has none
	loupeMost  = 92.0
	loupeEdge  = 12.0 // from the edge of the window
	legendGap  = 10.0
	legendLine = 18.0 // from line to line
	sampleLong = 22.0 // of the line beside a legend
	// loupeHigh and loupeWide are the shares of its radius that the arcs may fill.
	loupeHigh = 0.80
	loupeWide = 0.62
)

// stretches are the factors by which the side distance may be stretched.
var stretches = [...]float64{100, 50, 20, 10, 5, 2, 1}

// loupe is the enlarged picture of the arcs near the outer end.
type loupe struct {
	radius  float64    // points
	centre  draw.Point // on the sheet
	legend  draw.Box   // on the sheet
	stretch float64
	perMM   float64 // points for each mm of height
	y, z    float64 // mm of the resting body in its middle

	texts [legendLines]struct{ from, to int } // in builder.text
	lines int                                 // of texts
}

// legendLines are the lines of the legend: three kinds of line, then the
// stretch, the gap, and the rack position it is for.
const legendLines = 6

// legends are the kinds of line, and what a narrow legend calls them.
var legends = [3]struct {
	word, brief string
	text, line  draw.Role
}{
	{"tie-rod arc", "tie-rod arc", draw.TextNow, draw.TieRodArc}, // of a rear corner: toe-link arc
	{"path, wheel held straight", "wheel straight", draw.TextSmall, draw.FreePath},
	{"lower-arm arc, moved here", "lower arm", draw.TextQuiet, draw.LowerArmArc},
}

// drawLoupe draws the loupe with its legend in a free corner. A window too
// small for it gets none.
func (b *builder) drawLoupe() {
	short := min(b.v.W, b.v.H)
	lp := &b.loupe
	lp.radius = min(loupeShare*short, loupeMost)
	if b.show&TieRodArcs == 0 || len(b.arcs.held) < 3 || lp.radius < loupeLeast {
		return
	}
	b.scaleLoupe()
	b.wordLoupe(false)
	cost := b.placeLoupe()
	if cost >= coverPart { // a narrow legend may find a better place
		b.wordLoupe(true)
		cost = b.placeLoupe()
	}
	if cost == math.MaxInt {
		return
	}
	b.keepLoupe()
	l, c := b.l, b.fromSheet(lp.centre)
	l.On(draw.LayerLoupe)
	outer := b.left.at(b.left.pose.OuterEnd)
	b.leadLoupe(outer)
	l.Circle(draw.Loupe, draw.On(c), lp.radius/b.v.Zoom, 0)
	here, ok := b.loupeLevel()
	r := (lp.radius - 1.5) / b.v.Zoom
	if ok {
		p := b.inLoupe(here)
		half := math.Sqrt(max(0, r*r-(p.Y-c.Y)*(p.Y-c.Y)))
		l.Line(draw.Frame, draw.Point{X: c.X - half, Y: p.Y}, draw.Point{X: c.X + half, Y: p.Y})
	}
	rest, _ := b.in.Now.Study.Mechanism.At(0, 0)
	shift := kinematics.Vec{Y: rest.OuterEnd.Y - rest.LowerBall.Y, Z: rest.OuterEnd.Z - rest.LowerBall.Z}
	b.loupeCurve(draw.LowerArmArc, b.arcs.lower, shift, c, r)
	b.loupeCurve(draw.FreePath, b.arcs.held, kinematics.Vec{}, c, r)
	b.loupeCurve(draw.TieRodArc, b.arcs.rod, kinematics.Vec{}, c, r)
	b.writeLegend()
}

// scaleLoupe fits the travel into the loupe and finds the stretch.
func (b *builder) scaleLoupe() {
	lp, a := &b.loupe, &b.arcs
	box := draw.EmptyBox()
	for _, path := range [2][]kinematics.Vec{a.held, a.rod} {
		for _, p := range path {
			box = box.With(draw.Point{X: p.Y, Y: p.Z})
		}
	}
	m := box.Mid()
	lp.y, lp.z = m.X, m.Y
	lp.perMM = 2 * loupeHigh * lp.radius / max(box.H(), kinematics.MinSpan)
	for _, lp.stretch = range stretches {
		if box.W()/2*lp.perMM*lp.stretch <= loupeWide*lp.radius {
			break
		}
	}
}

// inLoupe returns where a point of the resting body is drawn in the loupe.
func (b *builder) inLoupe(p kinematics.Vec) draw.Point {
	lp := &b.loupe
	return b.fromSheet(draw.Point{
		X: lp.centre.X + (p.Y-lp.y)*lp.perMM*lp.stretch,
		Y: lp.centre.Y + (p.Z-lp.z)*lp.perMM,
	})
}

func (b *builder) fromSheet(p draw.Point) draw.Point {
	return b.v.Centre.Add(p.Mul(1 / b.v.Zoom))
}

func (b *builder) loupeCurve(role draw.Role, body []kinematics.Vec, shift kinematics.Vec, c draw.Point, r float64) {
	b.pts = b.pts[:0]
	for _, p := range body {
		p.Y, p.Z = p.Y+shift.Y, p.Z+shift.Z
		b.pts = append(b.pts, b.inLoupe(p))
	}
	b.l.PolylineInCircle(role, c, r, b.pts)
}

// loupeLevel is where the outer end would be at the present travel with the
// rack in the middle and the wheel held straight.
func (b *builder) loupeLevel() (kinematics.Vec, bool) {
	b.arcs.one[0] = b.out.Travel
	p, err := b.in.Now.Study.Mechanism.HeldPath(b.arcs.one[:])
	if err != nil {
		return kinematics.Vec{}, false // out of reach with the rack in the middle
	}
	return p[0], true
}

// leadLoupe joins the loupe to what it shows.
func (b *builder) leadLoupe(to draw.Point) {
	lp := &b.loupe
	end := b.v.Sheet(draw.On(to))
	d := end.Sub(lp.centre)
	n := d.Len()
	const short = 11.0 // points before the outer end
	if n <= lp.radius+short {
		return
	}
	u := d.Mul(1 / n)
	from, end := lp.centre.Add(u.Mul(lp.radius)), end.Sub(u.Mul(short))
	b.l.Line(draw.LoupeLead, b.fromSheet(from), b.fromSheet(end))
	b.addBar(bar{from, end, false, coverPart}) // texts keep off it
}

// wordLoupe writes the legend into the text memory; a brief one is narrow.
func (b *builder) wordLoupe(brief bool) {
	lp := &b.loupe
	lp.lines = 0
	keep := func(from int) {
		lp.texts[lp.lines].from, lp.texts[lp.lines].to = from, len(b.text)
		lp.lines++
	}
	for i := range legends {
		at := len(b.text)
		word := pick(brief, legends[i].brief, legends[i].word)
		b.text = append(b.text, pick(i == 0 && b.in.Rear, "toe-link arc", word)...)
		keep(at)
	}
	at := len(b.text)
	b.text = append(b.text, pick(brief, "side × ", "side distance × ")...)
	b.text = strconv.AppendInt(b.text, int64(lp.stretch), 10)
	keep(at)
	gap, ok := b.gap()
	if !ok {
		return
	}
	at = len(b.text)
	half := b.half(kinematics.TieRodError)
	if half < roundingBand {
		half = 0
	}
	b.text = append(b.text, "gap "...)
	b.figure(kinematics.TieRodError, math.Abs(gap), half)
	if math.Abs(gap) > max(half, leastGap) {
		b.text = append(b.text, pick(b.in.Rear, ", link ", ", rod ")...)
		b.text = append(b.text, pick(gap < 0, "long", "short")...)
	}
	keep(at)
	if b.out.Rack != 0 && !b.in.Rear {
		at = len(b.text)
		b.text = append(b.text, pick(brief, "rack in the middle", "with the rack in the middle")...)
		keep(at)
	}
}

// leastGap is the gap, mm, below which no rod is called long or short.
const leastGap = 0.05

// roundingBand is the band, mm, below which it is rounding: at rest the gap is
// nothing whatever the error.
const roundingBand = 1e-4

// gap is the tie-rod error at the travel shown, with the rack in the middle.
func (b *builder) gap() (float64, bool) {
	if b.out.Rack == 0 {
		return b.out.Readings.Of(kinematics.TieRodError)
	}
	p, err := b.in.Now.Study.Mechanism.At(b.out.Travel, 0)
	if err != nil {
		return 0, false
	}
	r := p.Readings()
	return r.Of(kinematics.TieRodError)
}

func (b *builder) loupeText(i int) []byte {
	t := b.loupe.texts[i]
	return b.text[t.from:t.to]
}

// legendRole is the role of a line of the legend.
func legendRole(i int) draw.Role {
	switch {
	case i < len(legends):
		return legends[i].text
	case i == len(legends)+1:
		return draw.TextSmall
	}
	return draw.TextQuiet
}

// placeLoupe looks for a free place: corners and edges of the window first, the
// legend beside or under the loupe. It takes the one that covers least and
// returns what that costs; math.MaxInt if there is none.
func (b *builder) placeLoupe() int {
	lp := &b.loupe
	win := b.v.Window().Grow(-loupeEdge)
	size := draw.Point{Y: legendLine * float64(lp.lines)}
	for i := range lp.lines {
		w, _, _ := houseStyles.TextSize(legendRole(i), b.in.Medium, b.loupeText(i))
		if i < len(legends) {
			w += sampleLong + 6
		}
		size.X = max(size.X, w)
	}
	outer := b.v.Sheet(draw.On(b.left.at(b.left.pose.OuterEnd)))
	best := math.MaxInt
	for _, row := range loupeRows {
		for _, col := range loupeCols {
			c := draw.Point{
				X: win.Min.X + lp.radius + (win.W()-2*lp.radius)*col,
				Y: win.Max.Y - lp.radius - (win.H()-2*lp.radius)*row,
			}
			disc := b.coverRound(c, lp.radius+4, best)
			for where := range legendPlaces {
				if disc >= best {
					break
				}
				box := legendBox(c, lp.radius, size, where)
				if !inside(win, box) {
					continue
				}
				cost := disc + b.cover(box.Grow(6), best)
				if _, _, hit := draw.SegmentInBox(c, outer, box.Grow(4)); hit {
					cost += coverText // its own lead would run through its legend
				}
				if cost < best {
					cost += b.textsCrossed(c, outer)
				}
				if cost < best {
					best = cost
					lp.centre, lp.legend = c, box
				}
			}
			if best == 0 {
				return 0
			}
		}
	}
	return best
}

// textsCrossed is the cost of a lead from p to q that runs through texts.
func (b *builder) textsCrossed(p, q draw.Point) int {
	cost := 0
	for i := range b.bars {
		x := &b.bars[i]
		if x.weight < coverText {
			continue
		}
		if _, _, hit := draw.SegmentInBox(p, q, draw.Box{Min: x.a, Max: x.b}); hit {
			cost += coverText
		}
	}
	return cost
}

// Places tried for the loupe, as shares of the room; left and top come first.
var (
	loupeCols = [...]float64{0.12, 0, 0.25, 0.37, 0.5, 0.62, 0.75, 0.87, 1}
	loupeRows = [...]float64{0, 0.12, 0.25, 0.37, 0.5, 0.62, 0.75, 0.87, 1}
)

// legendPlaces are right of the loupe, left of it, under it and over it.
const legendPlaces = 4

func legendBox(c draw.Point, radius float64, size draw.Point, where int) draw.Box {
	away := radius + legendGap
	p := draw.Point{X: c.X + away, Y: c.Y - size.Y/2}
	switch where {
	case 1:
		p.X = c.X - away - size.X
	case 2:
		p = draw.Point{X: c.X - radius, Y: c.Y - away - size.Y}
	case 3:
		p = draw.Point{X: c.X - radius, Y: c.Y + away}
	}
	return draw.Box{Min: p, Max: p.Add(size)}
}

// keepLoupe records the place taken.
func (b *builder) keepLoupe() {
	lp := &b.loupe
	disc := draw.Box{Min: lp.centre, Max: lp.centre}.Grow(lp.radius)
	b.out.Loupe = draw.Box{Min: b.fromSheet(disc.Min), Max: b.fromSheet(disc.Max)}
	for _, box := range [2]draw.Box{disc, lp.legend} {
		b.addBar(bar{box.Min, box.Max, true, coverText})
	}
}

// writeLegend writes the legend on paper of its own, a sample of its line before
// each kind.
func (b *builder) writeLegend() {
	lp, l := &b.loupe, b.l
	plate := lp.legend.Grow(notePad)
	l.Rect(draw.Knockout, draw.Box{Min: b.fromSheet(plate.Min), Max: b.fromSheet(plate.Max)})
	for i := range lp.lines {
		y := lp.legend.Max.Y - legendLine*(float64(i)+0.5)
		p := draw.Pos{At: b.v.Centre, By: draw.Point{X: lp.legend.Min.X, Y: y}}
		if i < len(legends) {
			l.LineBy(legends[i].line, p, p.Off(sampleLong, 0))
			p = p.Off(sampleLong+6, 0)
		}
		l.TextBytes(legendRole(i), p, draw.Left|draw.Middle, b.loupeText(i))
	}
}
