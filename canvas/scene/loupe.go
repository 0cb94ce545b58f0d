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
	loupeLeast = 46.0
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

	texts [5]struct{ from, to int } // in builder.text: three legends, two captions
}

var legends = [3]struct {
	word       string
	text, line draw.Role
}{
	{"tie-rod arc", draw.TextNow, draw.TieRodArc},
	{"path, wheel held straight", draw.TextSmall, draw.FreePath},
	{"lower-arm arc, moved here", draw.TextQuiet, draw.LowerArmArc},
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
	b.wordLoupe()
	if !b.placeLoupe() {
		return
	}
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
	b.captions()
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
	b.l.Line(draw.LoupeLead, b.fromSheet(lp.centre.Add(u.Mul(lp.radius))), b.fromSheet(end.Sub(u.Mul(short))))
}

// wordLoupe writes the legends and captions into the text memory.
func (b *builder) wordLoupe() {
	lp := &b.loupe
	keep := func(i, from int) { lp.texts[i].from, lp.texts[i].to = from, len(b.text) }
	for i := range legends {
		at := len(b.text)
		b.text = append(b.text, legends[i].word...)
		keep(i, at)
	}
	at := len(b.text)
	b.text = append(b.text, "side distance × "...)
	b.text = strconv.AppendInt(b.text, int64(lp.stretch), 10)
	keep(3, at)
	at = len(b.text)
	if gap, ok := b.gap(); ok {
		b.text = append(b.text, "gap "...)
		b.text = b.format(b.text, math.Abs(gap), b.half(kinematics.TieRodError))
		b.text = append(b.text, pick(gap < 0, ", rod long", ", rod short")...)
		if b.out.Rack != 0 && !b.in.Rear {
			b.text = append(b.text, ", rack in the middle"...)
		}
	}
	keep(4, at)
}

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

// captionRole is that of the lines under the loupe.
const captionRole = draw.TextQuiet

// placeLoupe looks for a free place: corners and edges of the window first, the
// legend beside or under the loupe. It takes the one that covers least.
func (b *builder) placeLoupe() bool {
	lp := &b.loupe
	win := b.v.Window().Grow(-loupeEdge)
	legendW, captionW := 0.0, 0.0
	for i := range legends {
		w, _, _ := houseStyles.TextSize(legends[i].text, b.in.Medium, b.loupeText(i))
		legendW = max(legendW, w+sampleLong+6)
	}
	for i := 3; i < 5; i++ {
		w, _, _ := houseStyles.TextSize(captionRole, b.in.Medium, b.loupeText(i))
		captionW = max(captionW, w)
	}
	half := max(lp.radius, captionW/2)
	under := 2*legendLine + 2.0
	best, found := math.MaxInt, false
	for row := range loupeRows {
		for col := range loupeCols {
			c := draw.Point{
				X: win.Min.X + half + (win.W()-2*half)*loupeCols[col],
				Y: win.Max.Y - lp.radius - (win.H()-2*lp.radius-under)*loupeRows[row],
			}
			for legend := range 3 {
				box := legendBox(c, lp.radius, under, legendW, legend)
				if !inside(win, box) {
					continue
				}
				cost := b.cover(draw.Box{Min: draw.Point{X: c.X - half, Y: c.Y - lp.radius - under}, Max: draw.Point{X: c.X + half, Y: c.Y - lp.radius}}, best)
				cost += b.cover(box, best)
				cost += b.coverRound(c, lp.radius+4)
				if cost < best {
					best, found = cost, true
					lp.centre, lp.legend = c, box
				}
			}
			if best == 0 {
				return b.keepLoupe(half, under)
			}
		}
	}
	return found && b.keepLoupe(half, under)
}

// Places tried for the loupe, as shares of the room; left and top come first.
var (
	loupeCols = [...]float64{0.12, 0, 0.25, 0.5, 0.75, 1}
	loupeRows = [...]float64{0, 0.12, 0.3, 0.5, 0.75, 1}
)

// legendBox is the box of the legend right of, left of or under the loupe.
func legendBox(c draw.Point, radius, under, w float64, where int) draw.Box {
	const h = 3 * legendLine
	p := draw.Point{X: c.X + radius + legendGap, Y: c.Y - h/2}
	switch where {
	case 1:
		p.X = c.X - radius - legendGap - w
	case 2:
		p = draw.Point{X: c.X - w/2, Y: c.Y - radius - under - h - 2}
	}
	return draw.Box{Min: p, Max: p.Add(draw.Point{X: w, Y: h})}
}

// keepLoupe records the place taken.
func (b *builder) keepLoupe(half, under float64) bool {
	lp := &b.loupe
	c := lp.centre
	whole := lp.legend.With(draw.Point{X: c.X - half, Y: c.Y - lp.radius - under}).With(draw.Point{X: c.X + half, Y: c.Y + lp.radius})
	b.out.Loupe = draw.Box{Min: b.fromSheet(whole.Min), Max: b.fromSheet(whole.Max)}
	return true
}

// captions writes legend and captions.
func (b *builder) captions() {
	lp, l := &b.loupe, b.l
	for i := range legends {
		y := lp.legend.Max.Y - legendLine*(float64(i)+0.5)
		p := draw.Pos{At: b.v.Centre, By: draw.Point{X: lp.legend.Min.X, Y: y}}
		l.LineBy(legends[i].line, p, p.Off(sampleLong, 0))
		l.TextBytes(legends[i].text, p.Off(sampleLong+6, 0), draw.Left|draw.Middle, b.loupeText(i))
	}
	for i := 3; i < 5; i++ {
		y := lp.centre.Y - lp.radius - legendLine*(float64(i-3)+0.6)
		p := draw.Pos{At: b.v.Centre, By: draw.Point{X: lp.centre.X, Y: y}}
		l.TextBytes(captionRole, p, draw.Centre|draw.Middle, b.loupeText(i))
	}
}
