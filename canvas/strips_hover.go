package canvas

import (
	"math"
	"strconv"
	"strings"

	"armscribe/canvas/draw"
)

// Sizes of the plate at the pointer in points.
const (
	hoverPad  = 7
	hoverLine = 17
	hoverAway = 12 // from the pointer
)

// drawHover draws what is read at the pointer: a dot on each curve and a plate.
func (s *Strips) drawHover(l *draw.List) {
	i := s.stripAt(s.pointer.x)
	d := &s.data[i]
	v := s.track.value(s.pointer.y)
	at := v / s.axis.PerUnit
	y := s.h - s.pointer.y
	l.On(draw.LayerCurves)
	l.Line(draw.Guide, draw.Point{X: s.left(i), Y: y}, draw.Point{X: s.left(i) + s.width, Y: y})
	s.dotAt(l, i, &d.now, at)
	s.dotAt(l, i, &d.before, at)
	first := s.hoverNow(s.texts.buf[:0])
	n := len(first)
	if v, half, ok := d.before.read(at); ok {
		first = append(first, s.in.BeforeName...)
		first = append(first, ' ')
		first = s.figure(first, i, v, half)
	}
	s.texts.buf = first
	s.drawPlate(l, first[:n], first[n:])
}

// dotAt marks a curve at the pointer.
func (s *Strips) dotAt(l *draw.List, i int, n *stripLine, at float64) {
	d := &s.data[i]
	if v, _, ok := n.read(at); ok && d.scale.Has(v) {
		l.On(draw.LayerHandles)
		l.Circle(draw.HandleFixed, draw.On(d.chart.At(at, v)), 0, dotRadius-1)
	}
}

// hoverNow appends the reading of the curve of now at the pointer.
func (s *Strips) hoverNow(dst []byte) []byte {
	i := s.stripAt(s.pointer.x)
	v := s.track.value(s.pointer.y)
	dst = append(dst, "at "...)
	dst = s.axis.figureUnit(dst, v)
	dst = append(dst, ": "...)
	val, half, ok := s.data[i].now.read(v / s.axis.PerUnit)
	if !ok {
		return append(dst, "none"...)
	}
	return s.figure(dst, i, val, half)
}

// figure appends the figure of a value of a strip, given in units on display, with
// its unit.
func (s *Strips) figure(dst []byte, i int, v, half float64) []byte {
	at := len(dst)
	dst = s.plainFigure(dst, i, v, half)
	if hasUnit(dst[at:]) {
		return dst
	}
	unit, _, _ := strings.Cut(s.in.Strips[i].Unit, ",")
	switch {
	case unit == "deg":
		return append(dst, "°"...)
	case unit != "":
		dst = append(append(dst, ' '), unit...)
	}
	return dst
}

func (s *Strips) plainFigure(dst []byte, i int, v, half float64) []byte {
	spec := &s.in.Strips[i]
	if spec.Format != nil {
		return spec.Format(dst, v*spec.PerUnit, half*spec.PerUnit)
	}
	if math.Round(v*100) < 0 {
		dst = append(dst, "\u2212"...)
	}
	dst = strconv.AppendFloat(dst, math.Abs(v), 'f', 2, 64)
	if half > 0 {
		dst = append(dst, " ± "...)
		dst = strconv.AppendFloat(dst, half, 'f', 2, 64)
	}
	return dst
}

// drawPlate writes one or two lines on a plate beside the pointer, inside the
// widget.
func (s *Strips) drawPlate(l *draw.List, first, second []byte) {
	w, _, _ := s.styles.TextSize(draw.TextSmall, draw.OnScreen, first)
	h := float64(hoverLine)
	if len(second) > 0 {
		w2, _, _ := s.styles.TextSize(draw.TextBefore, draw.OnScreen, second)
		w, h = max(w, w2), 2*hoverLine
	}
	w, h = w+2*hoverPad, h+hoverPad
	x := s.pointer.x + hoverAway
	if s.pointer.x > s.bar+(s.w-s.bar)/2 { // away from the nearer edge
		x = s.pointer.x - hoverAway - w
	}
	x = max(2, min(x, s.w-w-2))
	y := s.pointer.y - hoverAway - h
	if y < 2 {
		y = s.pointer.y + hoverAway
	}
	l.On(draw.LayerNotes)
	addPlate(l, draw.Loupe, s.box(x, y, x+w, y+h))
	base := y + hoverPad/2 + hoverLine/2.0
	l.TextBytes(draw.TextSmall, draw.On(s.up(x+hoverPad, base)), draw.Left|draw.Middle, first)
	l.TextBytes(draw.TextBefore, draw.On(s.up(x+hoverPad, base+hoverLine)), draw.Left|draw.Middle, second)
}
