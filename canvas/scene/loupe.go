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

// loupeSizes are the shares of its radius a loupe may shrink to where it finds no
// free place.
var loupeSizes = [...]float64{1, 0.85, 0.7}

// loupe is the enlarged picture of the tie rod's arc near the outer end, with
// the path of the wheel held straight made straight: what is left is the gap.
type loupe struct {
	loupeHome
	z    float64 // mm of the resting body in its middle
	open bool    // something of the drawing runs through it: it has no paper

	texts [legendLines]struct{ from, to int } // in builder.text
	lines int                                 // of texts
}

// loupeHome is what of a loupe stays as it is while a hand works.
type loupeHome struct {
	radius  float64    // points
	centre  draw.Point // on the sheet
	legend  draw.Box   // on the sheet
	stretch float64
	perMM   float64 // points for each mm of height
	brief   bool    // of legend
}

// legendLines are the lines of the legend: two kinds of line, then the stretch,
// the gap, and the rack position it is for.
const legendLines = 5

// legends are the kinds of line, and what a narrow legend calls them.
var legends = [2]struct {
	word, brief string
	text, line  draw.Role
}{
	{"tie-rod arc", "tie-rod arc", draw.TextNow, draw.TieRodArc}, // of a rear corner: toe-link arc
	{"path, wheel held straight", "wheel straight", draw.TextSmall, draw.FreePath},
}

// setLoupe finds the loupe and its legend a free place: beside each other, above
// each other, smaller, or none. In a gesture it stays.
func (b *builder) setLoupe() {
	lp := &b.loupe
	lp.radius, lp.open = 0, false
	short := min(b.v.W, b.v.H)
	most := min(loupeShare*short, loupeMost)
	if b.show&TieRodArcs == 0 || len(b.arcs.held) < 3 || most < loupeLeast {
		return
	}
	if b.in.Homes != nil {
		if h := b.in.Homes.loupe; h != nil {
			lp.loupeHome = *h
			b.middleOfLoupe()
			b.wordLoupe(lp.brief)
		}
		return
	}
	for _, share := range loupeSizes {
		for _, lp.brief = range [2]bool{false, true} {
			if lp.radius = share * most; lp.radius < loupeLeast {
				continue
			}
			b.scaleLoupe()
			b.wordLoupe(lp.brief)
			if b.placeLoupe() {
				for _, box := range [2]draw.Box{lp.disc(), lp.legend} {
					b.addBar(bar{box.Min, box.Max, true, coverText})
				}
				b.barLead()
				return
			}
		}
	}
	lp.radius = 0
	b.out.LeftOut = append(b.out.LeftOut, "loupe")
}

func (lp *loupe) disc() draw.Box { return draw.Box{Min: lp.centre, Max: lp.centre}.Grow(lp.radius) }

// drawLoupe draws the loupe with its legend. A note of the hand goes before it.
func (b *builder) drawLoupe() {
	lp := &b.loupe
	if lp.radius == 0 {
		return
	}
	b.out.Homes.at = lp.loupeHome
	b.out.Homes.loupe = &b.out.Homes.at
	if !b.claimDisc(lp.centre, lp.radius) {
		return
	}
	disc := lp.disc()
	b.out.Loupe = draw.Box{Min: b.fromSheet(disc.Min), Max: b.fromSheet(disc.Max)}
	l, c := b.l, b.fromSheet(lp.centre)
	l.On(draw.LayerLoupe)
	b.leadLoupe()
	l.Circle(pickRole(lp.open || b.in.Homes != nil, draw.LoupeOpen, draw.Loupe), draw.On(c), lp.radius/b.v.Zoom, 0)
	r := (lp.radius - 1.5) / b.v.Zoom
	if here, ok := b.loupeLevel(); ok {
		p := b.inLoupe(kinematics.Vec{Z: here.Z})
		half := math.Sqrt(max(0, r*r-(p.Y-c.Y)*(p.Y-c.Y)))
		l.Line(draw.Frame, draw.Point{X: c.X - half, Y: p.Y}, draw.Point{X: c.X + half, Y: p.Y})
	}
	held := b.arcs.held
	b.pts = append(b.pts[:0], b.inLoupe(kinematics.Vec{Z: held[0].Z}), b.inLoupe(kinematics.Vec{Z: held[len(held)-1].Z}))
	l.PolylineInCircle(draw.FreePath, c, r, b.pts)
	b.pts = b.pts[:0]
	for _, p := range b.arcs.aside {
		b.pts = append(b.pts, b.inLoupe(p))
	}
	l.PolylineInCircle(draw.TieRodArc, c, r, b.pts)
	if b.claim(lp.legend) {
		b.writeLegend()
	}
}

// scaleLoupe fits the travel into the loupe and finds the stretch.
func (b *builder) scaleLoupe() {
	lp := &b.loupe
	widest := 0.0
	for _, p := range b.arcs.aside {
		widest = max(widest, math.Abs(p.Y))
	}
	lp.perMM = 2 * loupeHigh * lp.radius / max(b.middleOfLoupe(), kinematics.MinSpan)
	for _, lp.stretch = range stretches {
		if widest*lp.perMM*lp.stretch <= loupeWide*lp.radius {
			break
		}
	}
}

// middleOfLoupe sets the height in the middle of the loupe, and returns how high
// the paths are, mm.
func (b *builder) middleOfLoupe() float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range b.arcs.held {
		lo, hi = min(lo, p.Z), max(hi, p.Z)
	}
	b.loupe.z = (lo + hi) / 2
	return hi - lo
}

// inLoupe returns where a place so far aside of the straight path (y), at a
// height of the resting body, is drawn in the loupe.
func (b *builder) inLoupe(p kinematics.Vec) draw.Point {
	lp := &b.loupe
	return b.fromSheet(draw.Point{
		X: lp.centre.X + p.Y*lp.perMM*lp.stretch,
		Y: lp.centre.Y + (p.Z-lp.z)*lp.perMM,
	})
}

func (b *builder) fromSheet(p draw.Point) draw.Point {
	return b.v.Centre.Add(p.Mul(1 / b.v.Zoom))
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

// lead returns the line that joins the loupe to what it shows; false if that is
// too near.
func (b *builder) lead(centre draw.Point) (from, to draw.Point, ok bool) {
	end := b.v.Sheet(draw.On(b.left.at(b.left.pose.OuterEnd)))
	d := end.Sub(centre)
	n := d.Len()
	const short = 11.0 // points before the outer end
	if n <= b.loupe.radius+short {
		return from, to, false
	}
	u := d.Mul(1 / n)
	return centre.Add(u.Mul(b.loupe.radius)), end.Sub(u.Mul(short)), true
}

func (b *builder) leadLoupe() {
	if from, to, ok := b.lead(b.loupe.centre); ok {
		b.l.Line(draw.LoupeLead, b.fromSheet(from), b.fromSheet(to))
	}
}

// barLead keeps texts off the lead.
func (b *builder) barLead() {
	if from, to, ok := b.lead(b.loupe.centre); ok {
		b.addBar(bar{from, to, false, coverPart})
	}
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
	b.text = appendGap(b.text, b.in, b.figureOf, gap, b.half(kinematics.TieRodError))
	keep(at)
	if b.out.Rack != 0 && !b.in.Rear {
		at = len(b.text)
		b.text = append(b.text, pick(brief, "rack in the middle", "with the rack in the middle")...)
		keep(at)
	}
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
	case i == len(legends)+1: // the gap
		return draw.TextSmall
	}
	return draw.TextQuiet
}

// placeLoupe looks for a free place: corners and edges of the window first, the
// legend beside the loupe, under it or over it. False if there is none where
// nothing is covered.
func (b *builder) placeLoupe() bool {
	lp := &b.loupe
	win := b.v.Window().Grow(-loupeEdge)
	size := b.legendSize()
	for _, row := range loupeRows {
		for _, col := range loupeCols {
			c := draw.Point{
				X: win.Min.X + lp.radius + (win.W()-2*lp.radius)*col,
				Y: win.Max.Y - lp.radius - (win.H()-2*lp.radius)*row,
			}
			if b.coverRound(c, lp.radius+4, 1) > 0 {
				continue
			}
			from, to, led := b.lead(c)
			if led && b.textsCrossed(from, to) {
				continue
			}
			for where := range legendPlaces {
				box := legendBox(c, lp.radius, size, where)
				if !inside(win, box) || b.cover(box.Grow(6), 1) > 0 {
					continue
				}
				if _, _, hit := draw.SegmentInBox(from, to, box.Grow(4)); led && hit {
					continue // its own lead would run through its legend
				}
				lp.centre, lp.legend = c, box
				return true
			}
		}
	}
	return false
}

func (b *builder) legendSize() draw.Point {
	lp := &b.loupe
	size := draw.Point{Y: legendLine * float64(lp.lines)}
	for i := range lp.lines {
		w, _, _ := houseStyles.TextSize(legendRole(i), b.in.Medium, b.loupeText(i))
		if i < len(legends) {
			w += sampleLong + 6
		}
		size.X = max(size.X, w)
	}
	return size
}

// textsCrossed tells whether a line from p to q runs through texts or the loupe.
func (b *builder) textsCrossed(p, q draw.Point) bool {
	for i := range b.bars {
		x := &b.bars[i]
		if x.weight < coverText {
			continue
		}
		if _, _, hit := draw.SegmentInBox(p, q, draw.Box{Min: x.a, Max: x.b}); hit {
			return true
		}
	}
	return false
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

// writeLegend writes the legend, a sample of its line before each kind.
func (b *builder) writeLegend() {
	lp, l := &b.loupe, b.l
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
