// Package chart draws a quantity over a variable into a draw.List. As a strip
// the variable runs UP and the value across, so that strips stand beside the
// thing that moves; the usual way round is there too.
package chart

import (
	"fmt"

	"armscribe/canvas/draw"
)

// Curve is a value over the variable. Var rises or falls along the curve, Val
// has the same length. Where OK is false there is no value and the curve has a
// gap; nil is no gap. Gaps are never marked by NaN, which panics.
type Curve struct {
	Var, Val []float64
	OK       []bool
	Role     draw.Role // draw.CurveNow, draw.CurveBefore
	Label    string    // written beside the curve, such as "now"
	Text     draw.Role // of the label
}

// Band is the area between Lo and Hi, with gaps as a Curve has them.
type Band struct {
	Var, Lo, Hi []float64
	OK          []bool
	Role        draw.Role // draw.BandNow, draw.BandBefore
}

// Target is a rectangle that the curve should stay in: values over a stretch of
// the variable.
type Target struct{ Val, Var Range }

// Chart is one diagram. Fill in the fields, call Draw for each frame; it keeps
// its ticks and memory between frames. A chart whose ranges are none, whose
// slices differ in length or whose box is smaller than its insets panics.
type Chart struct {
	Box    draw.Box // the whole chart, in mm of the list
	Zoom   float64  // points per mm of the view that will show the list
	Styles *draw.Styles
	Medium draw.Medium

	Title, Unit string
	Across      bool // the variable runs across, the value up
	Var, Val    Range
	VarLabels   bool         // number the variable's ticks
	VarInches   bool         // it is in inches: its ticks are those of a tape
	ValInches   bool         // likewise the value
	Insets      draw.Margins // points from the box to the plot; zero has a default

	Targets []Target
	Bands   []Band
	Curves  []Curve

	// Steady keeps the curves' names where they stand beside their curves.
	Steady bool

	HasLevel bool
	Level    float64 // of the variable: a line across the chart

	varTicks, valTicks tickStore
	pts                []draw.Point
	labels             labelStore
}

// tickStore keeps the ticks of a range.
type tickStore struct {
	r      Range
	inches bool
	ticks  []Tick
}

func (s *tickStore) of(r Range, inches bool) []Tick {
	if s.ticks == nil || s.r != r || s.inches != inches {
		s.r, s.inches = r, inches
		if s.ticks = Ticks(r); inches {
			s.ticks = InchTicks(r)
		}
	}
	return s.ticks
}

// Default insets in points: room for title and unit above, tick labels below,
// and labels at the left where the left axis is numbered.
const (
	insetTop    = 48
	insetBottom = 26
	insetLeft   = 40
	insetSide   = 8
)

func (c *Chart) insets() draw.Margins {
	if c.Insets != (draw.Margins{}) {
		return c.Insets
	}
	m := draw.Margins{Left: insetSide, Right: insetSide, Top: insetTop, Bottom: insetBottom}
	if c.Across || c.VarLabels {
		m.Left = insetLeft
	}
	return m
}

// Plot returns the area of the curves in mm of the list.
func (c *Chart) Plot() draw.Box {
	m, k := c.insets(), 1/c.Zoom
	return draw.Box{
		Min: draw.Point{X: c.Box.Min.X + m.Left*k, Y: c.Box.Min.Y + m.Bottom*k},
		Max: draw.Point{X: c.Box.Max.X - m.Right*k, Y: c.Box.Max.Y - m.Top*k},
	}
}

// At returns where the variable v and the value val are drawn.
func (c *Chart) At(v, val float64) draw.Point {
	b := c.Plot()
	s := (v - c.Var.Min) / (c.Var.Max - c.Var.Min)
	t := (val - c.Val.Min) / (c.Val.Max - c.Val.Min)
	if c.Across {
		s, t = t, s
	}
	return draw.Point{X: b.Min.X + t*b.W(), Y: b.Min.Y + s*b.H()}
}

// VarAt returns the variable at a place in the chart, limited to its range: what
// a drag of the level line asks for.
func (c *Chart) VarAt(p draw.Point) float64 {
	b := c.Plot()
	s := (p.Y - b.Min.Y) / b.H()
	if c.Across {
		s = (p.X - b.Min.X) / b.W()
	}
	return c.Var.clamp(c.Var.Min + s*(c.Var.Max-c.Var.Min))
}

// Draw adds the chart to l, on the layers of its kinds of things.
func (c *Chart) Draw(l *draw.List) {
	c.check()
	c.drawTargets(l)
	c.drawBands(l)
	c.drawLabels(l)
	c.drawFrame(l)
	l.On(draw.LayerCurves)
	plot := c.Plot()
	for i := range c.Curves {
		cu := &c.Curves[i]
		c.runs(cu.Var, cu.OK, func(from, to int) {
			c.pts = c.pts[:0]
			for k := from; k < to; k++ {
				c.pts = append(c.pts, c.At(cu.Var[k], cu.Val[k]))
			}
			l.PolylineInBox(cu.Role, plot, c.pts)
		})
	}
	if c.HasLevel && c.Var.Has(c.Level) {
		a, b := c.levelLine()
		l.Line(draw.Level, a, b)
	}
}

// levelLine returns the ends of the level line: it crosses the whole chart, so
// that it runs on through charts that stand side by side.
func (c *Chart) levelLine() (a, b draw.Point) {
	p := c.At(c.Level, c.Val.Min)
	if c.Across {
		return draw.Point{X: p.X, Y: c.Plot().Min.Y}, draw.Point{X: p.X, Y: c.Plot().Max.Y}
	}
	return draw.Point{X: c.Box.Min.X, Y: p.Y}, draw.Point{X: c.Box.Max.X, Y: p.Y}
}

func (c *Chart) check() {
	if !c.Var.valid() || !c.Val.valid() || c.Styles == nil || !(c.Zoom > 0) {
		panic(fmt.Sprintf("chart: %q is not filled in: variable %v, value %v, zoom %g", c.Title, c.Var, c.Val, c.Zoom))
	}
	if b := c.Plot(); b.IsEmpty() {
		panic(fmt.Sprintf("chart: %q has no room for its curves in %v", c.Title, c.Box))
	}
	for _, cu := range c.Curves {
		c.checkLengths(len(cu.Var), len(cu.Val), len(cu.Val), len(cu.OK))
	}
	for _, b := range c.Bands {
		c.checkLengths(len(b.Var), len(b.Lo), len(b.Hi), len(b.OK))
	}
}

func (c *Chart) checkLengths(n, lo, hi, ok int) {
	if lo != n || hi != n || ok != 0 && ok != n {
		panic(fmt.Sprintf("chart: %q has %d places, %d and %d values, %d marks of gaps", c.Title, n, lo, hi, ok))
	}
}

// runs calls f for every stretch without a gap.
func (c *Chart) runs(v []float64, ok []bool, f func(from, to int)) {
	from := 0
	for i := range v {
		if ok != nil && !ok[i] {
			if i > from {
				f(from, i)
			}
			from = i + 1
		}
	}
	if len(v) > from {
		f(from, len(v))
	}
}

func (c *Chart) drawTargets(l *draw.List) {
	l.On(draw.LayerBands)
	for _, t := range c.Targets {
		if t.Val.Max <= c.Val.Min || t.Val.Min >= c.Val.Max || t.Var.Max <= c.Var.Min || t.Var.Min >= c.Var.Max {
			continue
		}
		a := c.At(c.Var.clamp(t.Var.Min), c.Val.clamp(t.Val.Min))
		b := c.At(c.Var.clamp(t.Var.Max), c.Val.clamp(t.Val.Max))
		l.Rect(draw.BandTarget, draw.EmptyBox().With(a).With(b))
	}
}

// drawBands adds the bands. Their edges are limited to the ranges point by point.
func (c *Chart) drawBands(l *draw.List) {
	l.On(draw.LayerBands)
	for i := range c.Bands {
		b := &c.Bands[i]
		c.runs(b.Var, b.OK, func(from, to int) {
			for k := from; k < to; k++ {
				l.Add(draw.On(c.At(c.Var.clamp(b.Var[k]), c.Val.clamp(b.Lo[k]))))
			}
			for k := to - 1; k >= from; k-- {
				l.Add(draw.On(c.At(c.Var.clamp(b.Var[k]), c.Val.clamp(b.Hi[k]))))
			}
			l.End(b.Role, true)
		})
	}
}
