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

type kept struct{ spot, slot int }

// drawLabels writes the curves' names beside them, off all curves and the level
// line. Where every place lies on a grid line, the grid line is broken there;
// where there is none even so, paper is laid under the name. Only a curve that is
// nowhere in the plot stays without its name.
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
		if pl, ok := c.placeOn(&s.strict, cu, &s.kept[i]); ok {
			s.loose.AvoidBox(pl.Box)
			s.written = append(s.written, pl.Box)
			l.TextBytes(cu.Text, pl.Pos, draw.Left, s.text)
		} else if pl, ok := c.placeOn(&s.loose, cu, &s.kept[i]); ok {
			s.strict.AvoidBox(pl.Box)
			s.written = append(s.written, pl.Box)
			mid, k := c.Box.Mid(), 1/c.Zoom
			b := draw.Box{Min: mid.Add(pl.Box.Min.Mul(k)), Max: mid.Add(pl.Box.Max.Mul(k))}
			s.breaks = append(s.breaks, b.Grow(k))
			l.TextBytes(cu.Text, pl.Pos, draw.Left, s.text)
		} else {
			c.overprint(l, v, cu)
		}
	}
}

// overprint writes a name over whatever lies there, off the other names and the
// level line.
func (c *Chart) overprint(l *draw.List, v draw.View, cu *Curve) {
	s := &c.labels
	p := &s.over
	p.Reset(v, c.Styles, c.Medium)
	in := c.sheetPlot(v)
	in.Min.X, in.Max.X = -v.W/2+labelClear, v.W/2-labelClear
	p.Within(in)
	c.avoidLevel(p, v)
	for _, b := range s.written {
		p.AvoidBox(b)
	}
	pl, ok := c.placeOn(p, cu, &kept{})
	if !ok {
		return
	}
	s.strict.AvoidBox(pl.Box)
	s.loose.AvoidBox(pl.Box)
	s.written = append(s.written, pl.Box)
	mid, k := c.Box.Mid(), 1/c.Zoom
	l.Rect(draw.Knockout, draw.Box{Min: mid.Add(pl.Box.Min.Mul(k)), Max: mid.Add(pl.Box.Max.Mul(k))})
	l.TextBytes(cu.Text, pl.Pos, draw.Left, s.text)
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
	lab := draw.Label{Role: cu.Text, Text: c.labels.text, Clear: labelClear, Near: true}
	for i := range len(labelSpots) + 1 {
		spot := last.spot
		lab.Keep = last.slot
		if i > 0 {
			spot, lab.Keep = i-1, 0
		}
		k := int(labelSpots[spot] * float64(len(cu.Var)-1))
		if cu.OK != nil && !cu.OK[k] || !c.Var.Has(cu.Var[k]) || !c.Val.Has(cu.Val[k]) {
			continue
		}
		lab.Anchor = draw.On(c.At(cu.Var[k], cu.Val[k]))
		if pl, ok := p.Place(&lab); ok {
			*last = kept{spot, pl.Slot}
			return pl, true
		}
	}
	return draw.Placement{}, false
}
