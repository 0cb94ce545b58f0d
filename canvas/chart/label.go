package chart

import "armscribe/canvas/draw"

// labelSpots are the places along a curve, as parts of its length in samples,
// where its label is tried: in turn from the ends inwards.
var labelSpots = [...]float64{0.8, 0.2, 0.68, 0.32, 0.9, 0.1, 0.5, 0.6, 0.4, 0.97, 0.03}

// labelClear keeps a label off its curve, points.
const labelClear = 3

// labelStore keeps the placers and where each label stood last.
type labelStore struct {
	strict, loose draw.Placer // with and without the grid
	kept          []kept
	text          []byte
	breaks        []draw.Box  // of grid lines, in mm of the list
	written       []draw.Box  // names, on the sheet
	over          draw.Placer // for names over everything else
}

// kept is where a name stood last.
type kept struct {
	spot, slot int
	how        writing
}

// writing is how a name stands.
type writing uint8

const (
	free    writing = iota // off everything
	broken                 // the grid lines are broken there
	plated                 // on paper
	nowhere                // in no place of the plot
)

// drawLabels writes the curves' names beside them, off all curves and the level
// line. Where every place lies on a grid line, the grid line is broken there;
// where there is none even so, paper is laid under the name. Only a curve that is
// nowhere in the plot stays without its name. Steady, a name stays where it stood
// beside its curve.
func (c *Chart) drawLabels(l *draw.List) {
	s := &c.labels
	s.breaks, s.written = s.breaks[:0], s.written[:0]
	for len(s.kept) < len(c.Curves) {
		s.kept = append(s.kept, kept{})
	}
	v := draw.View{Centre: c.Box.Mid(), Zoom: c.Zoom, W: c.Box.W() * c.Zoom, H: c.Box.H() * c.Zoom}
	c.avoid(v)
	l.On(draw.LayerNotes)
	for i := range c.Curves {
		cu := &c.Curves[i]
		if cu.Label == "" || len(cu.Var) == 0 {
			continue
		}
		s.text = append(s.text[:0], cu.Label...)
		pl := c.placeName(v, cu, &s.kept[i])
		if s.kept[i].how == nowhere {
			continue
		}
		s.strict.AvoidBox(pl.Box)
		s.loose.AvoidBox(pl.Box)
		s.written = append(s.written, pl.Box)
		mid, k := c.Box.Mid(), 1/c.Zoom
		b := draw.Box{Min: mid.Add(pl.Box.Min.Mul(k)), Max: mid.Add(pl.Box.Max.Mul(k))}
		switch s.kept[i].how {
		case broken:
			s.breaks = append(s.breaks, b.Grow(k))
		case plated:
			l.Rect(draw.Knockout, b)
		}
		l.TextBytes(cu.Text, pl.Pos, draw.Left, s.text)
	}
}

// placeName finds the place of a name, or gives it the one it had, and tells how it
// stands there.
func (c *Chart) placeName(v draw.View, cu *Curve, last *kept) draw.Placement {
	s := &c.labels
	if c.Steady && last.slot > 0 {
		c.overprint(v)
		pl, ok := c.placeAt(&s.over, cu, last.spot, last.slot, true)
		if !ok {
			last.how = nowhere
		} else if last.how == nowhere {
			last.how = free
		}
		return pl
	}
	for how, p := range [...]*draw.Placer{&s.strict, &s.loose} {
		if pl, ok := c.placeOn(p, cu, last); ok {
			last.how = writing(how)
			return pl
		}
	}
	c.overprint(v)
	pl, ok := c.placeOn(&s.over, cu, last)
	if last.how = plated; !ok {
		last.how = nowhere
	}
	return pl
}

// overprint readies a placer for whatever lies there, off the other names and the
// level line.
func (c *Chart) overprint(v draw.View) {
	p := &c.labels.over
	p.Reset(v, c.Styles, c.Medium)
	in := c.sheetPlot(v)
	in.Min.X, in.Max.X = -v.W/2+labelClear, v.W/2-labelClear
	p.Within(in)
	c.avoidLevel(p, v)
	for _, b := range c.labels.written {
		p.AvoidBox(b)
	}
}

func (c *Chart) sheetPlot(v draw.View) draw.Box {
	plot := c.Plot()
	return draw.Box{Min: v.Sheet(draw.On(plot.Min)), Max: v.Sheet(draw.On(plot.Max))}
}

func (c *Chart) avoidLevel(p *draw.Placer, v draw.View) {
	if c.HasLevel && c.Var.Has(c.Level) {
		a, b := c.levelLine()
		p.AvoidSegment(v.Sheet(draw.On(a)), v.Sheet(draw.On(b)), 1)
	}
}

// avoid tells both placers of everything a label must not touch.
func (c *Chart) avoid(v draw.View) {
	s := &c.labels
	box := c.sheetPlot(v)
	for _, p := range []*draw.Placer{&s.strict, &s.loose} {
		p.Reset(v, c.Styles, c.Medium)
		p.Within(box)
		for i := range c.Curves {
			cu := &c.Curves[i]
			r := c.Styles[cu.Role].PenOn(c.Medium)/2 + 1
			c.runs(cu.Var, cu.OK, func(from, to int) {
				for k := from + 1; k < to; k++ {
					a, b := c.At(cu.Var[k-1], cu.Val[k-1]), c.At(cu.Var[k], cu.Val[k])
					p.AvoidSegment(v.Sheet(draw.On(a)), v.Sheet(draw.On(b)), r)
				}
			})
		}
		c.avoidLevel(p, v)
	}
	for _, t := range c.valTicks.of(c.Val, c.ValInches) {
		if t.Label != "" {
			a, b := c.At(c.Var.Min, t.Value), c.At(c.Var.Max, t.Value)
			s.strict.AvoidSegment(v.Sheet(draw.On(a)), v.Sheet(draw.On(b)), 1)
		}
	}
}

// placeOn tries the spots along a curve, that of the last frame first.
func (c *Chart) placeOn(p *draw.Placer, cu *Curve, last *kept) (draw.Placement, bool) {
	for i := range len(labelSpots) + 1 {
		spot, slot := last.spot, last.slot
		if i > 0 {
			spot, slot = i-1, 0
		}
		if pl, ok := c.placeAt(p, cu, spot, slot, false); ok {
			last.spot, last.slot = spot, pl.Slot
			return pl, true
		}
	}
	return draw.Placement{}, false
}

// placeAt tries one spot.
func (c *Chart) placeAt(p *draw.Placer, cu *Curve, spot, slot int, stay bool) (draw.Placement, bool) {
	k := int(labelSpots[spot] * float64(len(cu.Var)-1))
	if cu.OK != nil && !cu.OK[k] || !c.Var.Has(cu.Var[k]) || !c.Val.Has(cu.Val[k]) {
		return draw.Placement{}, false
	}
	return p.Place(&draw.Label{Role: cu.Text, Text: c.labels.text, Clear: labelClear, Near: true,
		Anchor: draw.On(c.At(cu.Var[k], cu.Val[k])), Keep: slot, Stay: stay})
}
