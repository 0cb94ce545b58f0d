package chart

import "armscribe/canvas/draw"

// Places of the frame's parts in points from the box or plot.
const (
	titleDown = 20 // baseline of the title under the top edge
	unitDown  = 36
	textIn    = 8 // title and unit from the left edge
	labelGap  = 6 // tick label from the plot
	labelAir  = 6 // least way between two tick labels
	labelEdge = 4 // and from one to the edge of the box
	markMajor = 6
	markMinor = 3
)

// drawFrame adds border, title, grid and ticks.
func (c *Chart) drawFrame(l *draw.List) {
	l.On(draw.LayerGrid)
	l.Rect(draw.Frame, c.Box)
	c.drawGrid(l)
	c.drawMarks(l)
	l.On(draw.LayerNotes)
	corner := draw.At(c.Box.Min.X, c.Box.Max.Y)
	l.Text(draw.TextBold, corner.Off(textIn, -titleDown), draw.Left, c.Title)
	l.Text(draw.TextQuiet, corner.Off(textIn, -unitDown), draw.Left, c.Unit)
	if c.Across {
		c.rowLabels(l, c.valTicks.of(c.Val), false)
	} else {
		c.columnLabels(l, c.valTicks.of(c.Val), false)
	}
	if c.VarLabels && c.Across {
		c.columnLabels(l, c.varTicks.of(c.Var), true)
	} else if c.VarLabels {
		c.rowLabels(l, c.varTicks.of(c.Var), true)
	}
}

// drawGrid adds a line at each labelled value, broken where a label stands.
func (c *Chart) drawGrid(l *draw.List) {
	for _, t := range c.valTicks.of(c.Val) {
		if t.Label != "" {
			gridLine(l, c.At(c.Var.Min, t.Value), c.At(c.Var.Max, t.Value), c.labels.breaks)
		}
	}
}

func gridLine(l *draw.List, a, b draw.Point, breaks []draw.Box) {
	for i, box := range breaks {
		if t0, t1, ok := draw.SegmentInBox(a, b, box); ok {
			d := b.Sub(a)
			gridLine(l, a, a.Add(d.Mul(t0)), breaks[i+1:])
			gridLine(l, a.Add(d.Mul(t1)), b, breaks[i+1:])
			return
		}
	}
	l.Line(draw.Grid, a, b)
}

// drawMarks adds short strokes at the ticks of the variable.
func (c *Chart) drawMarks(l *draw.List) {
	plot := c.Plot()
	for _, t := range c.varTicks.of(c.Var) {
		long := float64(markMinor)
		if t.Label != "" {
			long = markMajor
		}
		p := c.At(t.Value, c.Val.Min)
		if c.Across {
			o := draw.At(p.X, plot.Min.Y)
			l.LineBy(draw.Axis, o, o.Off(0, long))
			continue
		}
		o := draw.At(c.Box.Min.X, p.Y)
		if c.VarLabels {
			o = draw.At(plot.Min.X, p.Y)
		}
		l.LineBy(draw.Axis, o, o.Off(long, 0))
	}
}

// columnLabels writes tick labels under the plot, moved in where they would
// leave the box, and leaves out those that would touch the one before.
func (c *Chart) columnLabels(l *draw.List, ticks []Tick, isVar bool) {
	end := c.Box.Min.X - labelAir/c.Zoom
	em := c.Styles[draw.TextTick].SizeOn(c.Medium)
	face := c.Styles[draw.TextTick].Face
	y := c.Plot().Min.Y
	for _, t := range ticks {
		if t.Label == "" {
			continue
		}
		half := face.Width(t.Label) * em / 2 / c.Zoom
		room := half + labelEdge/c.Zoom
		x := c.place(t, isVar).X
		x = max(c.Box.Min.X+room, min(x, c.Box.Max.X-room))
		if x-half < end+labelAir/c.Zoom {
			continue
		}
		end = x + half
		l.Text(draw.TextTick, draw.At(x, y).Off(0, -labelGap), draw.Centre|draw.Top, t.Label)
	}
}

// rowLabels writes tick labels to the left of the plot.
func (c *Chart) rowLabels(l *draw.List, ticks []Tick, isVar bool) {
	x := c.Plot().Min.X
	for _, t := range ticks {
		if t.Label != "" {
			p := draw.At(x, c.place(t, isVar).Y)
			l.Text(draw.TextTick, p.Off(-labelGap, 0), draw.Right|draw.Middle, t.Label)
		}
	}
}

func (c *Chart) place(t Tick, isVar bool) draw.Point {
	if isVar {
		return c.At(t.Value, c.Val.Min)
	}
	return c.At(c.Var.Min, t.Value)
}
