package chart

import "armscribe/canvas/draw"

// Places of the frame's parts in points from the box or plot.
const (
	titleDown = 20 // baseline of the title under the top edge
	unitDown  = 36
	textIn    = 8 // title and unit from the left edge
	labelGap  = 6 // tick label from the plot
	labelAir  = 4 // least way between two tick labels
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
		c.rowLabels(l, c.valTicks.of(c.Val, c.ValInches), false)
	} else {
		c.columnLabels(l, c.valTicks.of(c.Val, c.ValInches), false)
	}
	if c.VarLabels && c.Across {
		c.columnLabels(l, c.varTicks.of(c.Var, c.VarInches), true)
	} else if c.VarLabels {
		c.rowLabels(l, c.varTicks.of(c.Var, c.VarInches), true)
	}
}

// drawGrid adds a line at each labelled value, broken where a label stands; the
// one at zero is stronger.
func (c *Chart) drawGrid(l *draw.List) {
	for _, t := range c.valTicks.of(c.Val, c.ValInches) {
		if t.Label == "" {
			continue
		}
		role := draw.Grid
		if t.Value == 0 {
			role = draw.Axis
		}
		gridLine(l, role, c.At(c.Var.Min, t.Value), c.At(c.Var.Max, t.Value), c.labels.breaks)
	}
}

func gridLine(l *draw.List, role draw.Role, a, b draw.Point, breaks []draw.Box) {
	for i, box := range breaks {
		if t0, t1, ok := draw.SegmentInBox(a, b, box); ok {
			d := b.Sub(a)
			gridLine(l, role, a, a.Add(d.Mul(t0)), breaks[i+1:])
			gridLine(l, role, a.Add(d.Mul(t1)), b, breaks[i+1:])
			return
		}
	}
	l.Line(role, a, b)
}

// drawMarks adds short strokes at the ticks of the variable.
func (c *Chart) drawMarks(l *draw.List) {
	plot := c.Plot()
	for _, t := range c.varTicks.of(c.Var, c.VarInches) {
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
// leave the box. Where they would touch, only every second, third and so on is
// written; zero is always one of those.
func (c *Chart) columnLabels(l *draw.List, ticks []Tick, isVar bool) {
	n := 0
	for n < len(ticks) && ticks[n].Label != "" {
		n++
	}
	first, stride := thinned(ticks[:n], func(i, k int) bool {
		_, end := c.labelRoom(ticks[i], isVar)
		start, _ := c.labelRoom(ticks[k], isVar)
		return start-end >= labelAir/c.Zoom
	})
	y := c.Plot().Min.Y
	for i := first; i < n; i += stride {
		a, b := c.labelRoom(ticks[i], isVar)
		l.Text(draw.TextTick, draw.At((a+b)/2, y).Off(0, -labelGap), draw.Centre|draw.Top, ticks[i].Label)
	}
}

// labelRoom returns from where to where, in mm of the list, a label reaches.
func (c *Chart) labelRoom(t Tick, isVar bool) (a, b float64) {
	st := &c.Styles[draw.TextTick]
	half := st.Face.Width(t.Label) * st.SizeOn(c.Medium) / 2 / c.Zoom
	room := half + labelEdge/c.Zoom
	x := max(c.Box.Min.X+room, min(c.place(t, isVar).X, c.Box.Max.X-room))
	return x - half, x + half
}

// thinned returns which of the labelled ticks to write: every stride-th from the
// first on, so that no two touch. Zero is among them if it is a tick, but where
// nothing fits beside it: then it is the two ends. Of the strides that will do,
// one that keeps both ends is best, else the smallest.
// clear tells whether two ticks may both be written.
func thinned(ticks []Tick, clear func(i, k int) bool) (first, stride int) {
	zero := -1
	for i, t := range ticks {
		if t.Value == 0 {
			zero = i
		}
	}
	first, stride = max(zero, 0), max(len(ticks), 1)
	for k := len(ticks) - 1; k > 0; k-- {
		from := 0
		if zero >= 0 {
			from = zero % k
		}
		fits, last := true, from
		for i := from + k; i < len(ticks); i += k {
			fits = fits && clear(i-k, i)
			last = i
		}
		if !fits || last == from {
			continue
		}
		if from == 0 && last == len(ticks)-1 || !(first == 0 && stride < len(ticks) && (len(ticks)-1)%stride == 0) {
			first, stride = from, k
		}
	}
	if n := len(ticks); n > 1 && stride == n && clear(0, n-1) {
		return 0, n - 1 // one label is no scale
	}
	return first, stride
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
