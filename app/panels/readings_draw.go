package panels

import (
	"armscribe/app/targets"
	"armscribe/canvas/draw"
)

// Roles that this drawing gives another look than a view does.
const (
	roleCover  = draw.Loupe     // ground of the heading, over lines scrolled away
	roleLit    = draw.BandQuiet // ground of the lit line
	roleThumb  = draw.BandBefore
	roleMet    = draw.TextGood
	roleNotMet = draw.TextNow
	roleMissed = draw.TextTick // of a target, as small as that of one that is met
)

// setStyles fits the styles to a table: figures beside a value are quiet in size.
func (r *Readings) setStyles() { setTableStyles(r.Styles()) }

func setTableStyles(s *draw.Styles) {
	s[roleCover] = draw.Style{Name: "cover", Fill: draw.Panel, FillAlpha: 1}
	s[roleLit].FillAlpha = 0.12
	s[roleThumb] = draw.Style{Name: "thumb", Fill: draw.Quiet, FillAlpha: 0.5}
	s[draw.TextBefore].Size = 11
	s[roleMet].Size = 11
	s[roleMissed] = s[roleNotMet]
	s[roleMissed].Size = 11
}

// valueRole is bold for a figure, quiet for words that stand in its place.
func valueRole(r *reading) draw.Role {
	if r.unknown {
		return draw.TextQuiet
	}
	return draw.TextBold
}

// draw draws the table of w by h points.
func (r *Readings) draw(l *draw.List, w, h float64) {
	r.table.arrange(&r.pane, &r.shown, r.targets, w, h)
	r.scroll = max(0, min(r.scroll, r.table.overflow()))
	for i := range r.table.lines {
		line := &r.table.lines[i]
		if y := r.table.top + line.y - r.scroll; y+line.h > r.table.top && y < r.table.h {
			r.drawLine(l, line, w, h-y)
		}
	}
	r.drawHead(l, w, h)
	if !r.table.brief() {
		r.drawUnder(l, w, h-r.table.h)
	}
	r.drawThumb(l, w, h)
}

// drawHead draws heading, position and warning over what is scrolled away.
func (r *Readings) drawHead(l *draw.List, w, h float64) {
	t := &r.table
	l.On(draw.LayerNotes)
	if t.brief() {
		l.Line(draw.Frame, draw.Point{X: margin, Y: h - 1}, draw.Point{X: w - margin, Y: h - 1})
		r.drawCaptions(l, h-t.top+captionDrop/2)
		return
	}
	l.Rect(roleCover, draw.Box{Min: draw.Point{X: 0, Y: h - t.top}, Max: draw.Point{X: w, Y: h}})
	y := h - headDown
	l.Text(draw.TextBold, draw.At(margin, y), draw.Left|draw.Middle, t.heading)
	rule := h - headHeight + 6
	if t.placeDown {
		rule -= secondLine
		l.Text(draw.TextQuiet, draw.At(margin, y-secondLine-2), draw.Left|draw.Middle, t.place)
	} else {
		l.Text(draw.TextQuiet, draw.At(w-margin, y), draw.Right|draw.Middle, t.place)
	}
	l.Line(draw.Frame, draw.Point{X: margin, Y: rule}, draw.Point{X: w - margin, Y: rule})
	y = rule - 6 - warnStep/2
	for _, text := range t.warning {
		l.Text(roleNotMet, draw.At(margin, y), draw.Left|draw.Middle, text)
		y -= warnStep
	}
	r.drawCaptions(l, h-t.top+captionDrop/2)
}

// drawCaptions names the columns.
func (r *Readings) drawCaptions(l *draw.List, y float64) {
	t := &r.table
	switch {
	case r.shown.hasRight:
		l.Text(draw.TextQuiet, draw.At(t.valueEdge, y), draw.Right|draw.Middle, "left")
		l.Text(draw.TextQuiet, draw.At(t.right, y), draw.Right|draw.Middle, "right")
		if t.captionDown {
			y += secondLine
		}
		l.Text(draw.TextQuiet, draw.At(margin, y), draw.Left|draw.Middle, t.caption)
	case r.shown.compared:
		l.Text(draw.TextBefore, draw.At(t.right, y), draw.Right|draw.Middle, r.shown.changeWord())
	}
}

// drawThumb shows how much is scrolled away.
func (r *Readings) drawThumb(l *draw.List, w, h float64) {
	over := r.table.overflow()
	if over <= 0 {
		return
	}
	room := r.table.h - r.table.top
	size := max(lineLeast, room*room/(room+over))
	top := h - r.table.top - (room-size)*r.scroll/over
	l.Rect(roleThumb, draw.Box{Min: draw.Point{X: w - 5, Y: top - size}, Max: draw.Point{X: w - 2, Y: top}})
}

// drawLine draws a reading whose top stands at y, from the bottom.
func (r *Readings) drawLine(l *draw.List, p *placed, w, y float64) {
	if r.lit == p.item {
		box := draw.Box{Min: draw.Point{X: 4, Y: y - p.h + 1}, Max: draw.Point{X: w - 6, Y: y - 1}}
		l.On(draw.LayerBands)
		l.Rect(roleLit, box)
		if r.focused && r.cursor == p.item {
			l.Rect(draw.Focus, box)
		}
	}
	l.On(draw.LayerLinks)
	mid := y - r.table.line/2
	l.Text(draw.TextSmall, draw.At(margin, mid), draw.Left|draw.Middle, p.label)
	if p.mark != "" {
		l.Text(draw.TextQuiet, draw.At(margin+r.TextWidth(draw.TextSmall, p.label), mid), draw.Left|draw.Middle, p.mark)
	}
	if r.shown.hasRight {
		r.drawBoth(l, p, mid)
	} else {
		r.drawFigures(l, p, mid)
	}
	for i, t := range p.targets {
		r.drawTarget(l, t, mid-float64(p.lines+i)*secondLine)
	}
}

// drawBoth draws the values of both wheels.
func (r *Readings) drawBoth(l *draw.List, p *placed, y float64) {
	if p.under {
		y -= secondLine
	}
	role := valueRole(&p.reading)
	l.Text(role, draw.At(p.valueRight, y), draw.Right|draw.Middle, p.value)
	l.Text(role, draw.At(r.table.right, y), draw.Right|draw.Middle, p.right)
}

// drawFigures draws value, band and change.
func (r *Readings) drawFigures(l *draw.List, p *placed, y float64) {
	first := y
	if p.under {
		y -= secondLine
	}
	l.Text(valueRole(&p.reading), draw.At(p.valueRight, y), draw.Right|draw.Middle, p.value)
	l.Text(draw.TextQuiet, draw.At(p.bandLeft, y), draw.Left|draw.Middle, p.band)
	switch {
	case p.deltaLast:
		y -= secondLine
	case p.aside:
		y = first
	}
	role := draw.TextBefore
	if p.near {
		role = draw.TextQuiet
	}
	l.Text(role, draw.At(r.table.right, y), draw.Right|draw.Middle, p.delta)
}

// drawTarget draws mark and words of a target.
func (r *Readings) drawTarget(l *draw.List, t *Target, y float64) {
	role := roleMissed
	switch t.Verdict {
	case targets.Met:
		role = roleMet
	case targets.Undecided:
		role = draw.TextQuiet
	}
	drawMark(l, t.Verdict, draw.Point{X: margin + 4, Y: y})
	l.Text(role, draw.At(margin+12, y), draw.Left|draw.Middle, t.Words)
}

// drawMark draws a verdict's mark; the letters of drawings have no ticks.
func drawMark(l *draw.List, v targets.Verdict, at draw.Point) {
	p := func(x, y float64) draw.Point { return draw.Point{X: at.X + x, Y: at.Y + y} }
	switch v {
	case targets.Met:
		l.Polyline(draw.RollCentre, p(-3.5, -0.5), p(-1, -3), p(3.5, 3.5))
	case targets.Undecided:
		l.Text(draw.TextQuiet, draw.On(at), draw.Centre|draw.Middle, "?")
	default:
		l.Line(draw.DimensionNow, p(-3, -3), p(3, 3))
		l.Line(draw.DimensionNow, p(-3, 3), p(3, -3))
	}
}
