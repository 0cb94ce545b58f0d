package canvas

import (
	"armscribe/canvas/chart"
	"armscribe/canvas/draw"
)

// drawOn draws bar and strips in w by h points. Paper shows neither pointer nor
// keyboard.
func (s *Strips) drawOn(l *draw.List, w, h float64, m draw.Medium) {
	s.placeIn(w, h, m)
	if s.bottom-s.top >= plotLeast && s.lo < s.hi {
		s.drawStrips(l, m)
	}
	s.drawBar(l, m)
	if m == draw.OnScreen && !s.held && s.hovers() == hoverStrip {
		s.drawHover(l)
	}
}

// up turns a place from the top left into one of the list.
func (c *stripColumns) up(x, y float64) draw.Point { return draw.Point{X: x, Y: c.h - y} }

func (c *stripColumns) box(x0, y0, x1, y1 float64) draw.Box {
	return draw.Box{Min: c.up(x0, y1), Max: c.up(x1, y0)}
}

func (s *Strips) drawStrips(l *draw.List, m draw.Medium) {
	if s.count == 0 {
		return
	}
	s.drawOutOfReach(l)
	for i := range s.count {
		kept := s.data[i].chart
		if m == draw.OnPaper {
			// A file depends on the input alone, not on where the words on the
			// curves stood before.
			s.data[i].chart = chart.Chart{}
		}
		s.fillChart(i, m)
		s.data[i].chart.Draw(l)
		s.drawHead(l, i)
		s.drawDot(l, i)
		if m == draw.OnPaper {
			s.data[i].chart = kept
		}
	}
}

// fillChart fills in the chart of a strip.
func (s *Strips) fillChart(i int, m draw.Medium) {
	d := &s.data[i]
	c := &d.chart
	c.Box = s.box(s.left(i), 0, s.left(i)+s.width, s.h-s.foot)
	c.Zoom, c.Styles, c.Medium = 1, s.styles, m
	c.Steady = s.frozen && m == draw.OnScreen
	c.Var = s.axis.tickRange(s.lo, s.hi)
	c.Val = d.scale
	c.VarInches, c.ValInches = inches(s.axis.PerUnit), inches(s.in.Strips[i].PerUnit)
	c.Insets = draw.Margins{Left: plotIn, Right: plotIn, Top: s.top, Bottom: s.h - s.foot - s.bottom}
	c.Targets, c.Bands, c.Curves = c.Targets[:0], c.Bands[:0], c.Curves[:0]
	if d.hasTarget {
		c.Targets = append(c.Targets, d.targets[0])
	}
	// Before lies under now.
	if d.before.any {
		addCurve(c, &d.before, draw.BandBefore, chart.Curve{Role: draw.CurveBefore, Text: draw.TextBefore, Label: s.in.BeforeName})
	}
	if d.now.any {
		name := s.in.NowName
		if d.change {
			name = "change"
		}
		addCurve(c, &d.now, draw.BandNow, chart.Curve{Role: draw.CurveNow, Text: draw.TextNow, Label: name})
	}
	c.HasLevel, c.Level = true, s.value/s.axis.PerUnit
}

func addCurve(c *chart.Chart, n *stripLine, band draw.Role, cu chart.Curve) {
	if n.hasBand {
		c.Bands = append(c.Bands, chart.Band{Var: n.at, Lo: n.low, Hi: n.high, OK: n.banded, Role: band})
	}
	cu.Var, cu.Val, cu.OK = n.at, n.value, n.ok
	c.Curves = append(c.Curves, cu)
}

// drawHead writes title and unit.
func (s *Strips) drawHead(l *draw.List, i int) {
	h := &s.texts.heads[i]
	x, y := s.left(i)+headIn, float64(headTitleDown)
	l.On(draw.LayerNotes)
	for _, t := range h.titles {
		l.Text(draw.TextBold, draw.On(s.up(x, y)), draw.Left, t)
		y += headLine
	}
	for _, t := range h.units {
		l.Text(draw.TextQuiet, draw.On(s.up(x, y)), draw.Left, t)
		y += headLine
	}
}

// dotRadius is that of the dot where the level line meets the curve, points.
const dotRadius = 4

// drawDot marks the present value on the curve.
func (s *Strips) drawDot(l *draw.List, i int) {
	d := &s.data[i]
	at := s.value / s.axis.PerUnit
	v, _, ok := d.now.read(at)
	if ok && d.scale.Has(v) && d.chart.Var.Has(at) {
		l.On(draw.LayerHandles)
		l.Circle(draw.ArrowNow, draw.On(d.chart.At(at, v)), 0, dotRadius)
	}
}

// drawOutOfReach hatches the stretches of the strips where the linkage does not
// assemble.
func (s *Strips) drawOutOfReach(l *draw.List) {
	if !s.axis.bounded() {
		return
	}
	lo, hi := s.axis.Limits()
	l.On(draw.LayerGrid)
	s.hatchStrips(l, s.track.at(s.axis.Max), s.track.at(hi), s.track.at(hi))
	s.hatchStrips(l, s.track.at(lo), s.track.at(s.axis.Min), s.track.at(lo))
}

// fieldStep is the way between the hatch strokes of a strip, points: wide, since
// curves of the other variant may run there.
const fieldStep = 9

// hatchStrips hatches all strips from y0 down to y1, with a line at edge.
func (s *Strips) hatchStrips(l *draw.List, y0, y1, edge float64) {
	y0, y1 = max(y0, s.top), min(y1, s.bottom)
	if y1-y0 < 1 {
		return
	}
	x1 := s.left(s.count-1) + s.width
	field := s.box(s.bar, y0, x1, y1)
	height := y1 - y0
	for x := s.bar - height; x < x1; x += fieldStep {
		a, b := s.up(x, y1), s.up(x+height, y0)
		if t0, t1, ok := draw.SegmentInBox(a, b, field); ok && t1 > t0 {
			d := b.Sub(a)
			l.Line(draw.GroundHatch, a.Add(d.Mul(t0)), a.Add(d.Mul(t1)))
		}
	}
	if s.onPlot(edge) {
		l.Line(draw.Axis, s.up(s.bar, edge), s.up(x1, edge))
	}
}
