package panels

import (
	"math"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// bestOf returns the column that is clearly best on a reading, -1 where none
// is. Without a target only ride toe has a better and a worse: less of it steers
// less. Clear is what no two bands dispute.
func (b *compareBody) bestOf(it item) int {
	if it.q != kinematics.RideToe || len(b.columns) < 2 {
		return -1
	}
	best, high, next := -1, math.MaxFloat64, math.MaxFloat64
	for i := range b.columns {
		s := &b.columns[i].snapshot
		v, ok := it.of(&s.now)
		half := it.half(s)
		if !ok || half < 0 || s.outOfReach() {
			return -1
		}
		if v = math.Abs(v); v+half < high {
			best, high = i, v+half
		}
	}
	for i := range b.columns {
		if s := &b.columns[i].snapshot; i != best {
			v, _ := it.of(&s.now)
			next = min(next, math.Abs(v)-it.half(s))
		}
	}
	if high >= next {
		return -1
	}
	return best
}

// draw draws the table of w by h points: columns, and over them the names.
func (b *compareBody) draw(l *draw.List, w, h float64) {
	for i := range b.columns {
		left := compareNames + compareColumn*float64(i) - b.x
		if left+compareColumn > compareNames && left < w {
			b.drawColumn(l, i, left, h)
		}
	}
	l.On(draw.LayerNotes)
	l.Rect(roleCover, draw.Box{Min: draw.Point{}, Max: draw.Point{X: compareNames, Y: h}})
	b.drawNames(l, w, h)
	if b.focused {
		l.Rect(draw.Focus, draw.Box{Min: draw.Point{X: 1, Y: 1}, Max: draw.Point{X: w - 1, Y: h - 1}})
	}
	if over := b.height() - h; over > 0 {
		size := max(lineLeast, h*h/(h+over))
		top := h - (h-size)*b.y/over
		l.Rect(roleThumb, draw.Box{Min: draw.Point{X: w - 5, Y: top - size}, Max: draw.Point{X: w - 2, Y: top}})
	}
}

// rows calls with the middle of every line, from the bottom: first the targets,
// then the readings.
func (b *compareBody) rows(h float64, aim func(i int, y float64), title func(text string, y float64), reading func(i int, y float64)) {
	y := h + b.y
	if len(b.targets) > 0 {
		title("Targets", y-compareTitle/2)
		y -= compareTitle
		for i := range b.targets {
			aim(i, y-compareAim/2)
			y -= compareAim
		}
	}
	title("Readings", y-compareTitle/2)
	y -= compareTitle
	for i := range b.lines {
		reading(i, y-compareLine/2)
		y -= compareLine
	}
}

func (b *compareBody) drawNames(l *draw.List, w, h float64) {
	left := func(role draw.Role, y float64, text string) {
		l.Text(role, draw.At(margin, y), draw.Left|draw.Middle, text)
	}
	b.rows(h, func(i int, y float64) {
		left(draw.TextSmall, y+8, b.targets[i].Name)
		left(draw.TextQuiet, y-8, b.targets[i].Asked)
	}, func(text string, y float64) {
		left(draw.TextBold, y, text)
		if text == "Readings" && len(b.columns) > 0 {
			l.Text(draw.TextQuiet, draw.At(margin+b.TextWidth(draw.TextBold, text)+nameGap, y), draw.Left|draw.Middle, b.columns[0].place())
		}
		l.Line(draw.Frame, draw.Point{X: margin, Y: y - compareTitle/2 + 2}, draw.Point{X: w - margin, Y: y - compareTitle/2 + 2})
	}, func(i int, y float64) {
		left(draw.TextSmall, y, b.lines[i].name)
	})
}

// Places in a column, from its left edge, in points.
const (
	compareValue = 96  // right edge of a value
	compareBand  = 102 // left edge of a band
	compareDelta = 206 // right edge of a change
)

func (b *compareBody) drawColumn(l *draw.List, column int, left, h float64) {
	c := &b.columns[column]
	l.On(draw.LayerLinks)
	if column > 0 {
		l.Line(draw.Frame, draw.Point{X: left, Y: 0}, draw.Point{X: left, Y: h})
	}
	b.rows(h, func(i int, y float64) {
		cell := &b.targets[i].Cells[column]
		l.Text(draw.TextBold, draw.At(left+margin+12, y+8), draw.Left|draw.Middle, cell.Value)
		drawMark(l, cell.Verdict, draw.Point{X: left + margin + 4, Y: y - 8})
		l.Text(roleOf(cell.Verdict), draw.At(left+margin+12, y-8), draw.Left|draw.Middle, cell.Words)
		if cell.Best {
			b.drawBest(l, left+compareDelta, y-8, "nearest")
		}
	}, func(text string, y float64) {
		switch {
		case text != "Readings":
		case c.reference:
			l.Text(draw.TextBefore, draw.At(left+margin, y), draw.Left|draw.Middle, "the others are set against this")
		case c.outOfReach():
			l.Text(roleNotMet, draw.At(left+margin, y), draw.Left|draw.Middle, "does not reach this position")
		case b.reference() != "":
			l.Text(draw.TextQuiet, draw.At(left+margin, y), draw.Left|draw.Middle, b.cut(draw.TextQuiet, "change against "+b.reference(), compareColumn-2*margin))
		}
	}, func(i int, y float64) { b.drawReading(l, i, column, left, y) })
}

// reference is the name of the variant that the others are set against.
func (b *compareBody) reference() string {
	for i := range b.columns {
		if b.columns[i].reference {
			return b.columns[i].name
		}
	}
	return ""
}

// cut is a text as far as it has room.
func (b *compareBody) cut(role draw.Role, text string, room float64) string {
	if b.TextWidth(role, text) <= room {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 && b.TextWidth(role, string(runes)+"…") > room {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}

func (b *compareBody) drawReading(l *draw.List, i, column int, left, y float64) {
	c, it := &b.columns[column], b.lines[i]
	if c.outOfReach() || !c.shows(it) {
		l.Text(draw.TextQuiet, draw.At(left+compareValue, y), draw.Right|draw.Middle, "-")
		return
	}
	if words := c.instead(it); words != "" {
		l.Text(draw.TextQuiet, draw.At(left+margin, y), draw.Left|draw.Middle, words)
		return
	}
	v, _ := it.of(&c.now)
	was, had := it.of(&c.before)
	had = had && !(it.q.OfCentre() && c.farBefore())
	f := it.scale(c.unit).figures(v, it.half(&c.snapshot), v-was, c.compared && had && !c.reference)
	if f.band == "± 0" && (it.q == kinematics.Camber || it.q == kinematics.Toe) {
		f.band = asTyped
	}
	l.Text(draw.TextBold, draw.At(left+compareValue, y), draw.Right|draw.Middle, f.value)
	l.Text(draw.TextQuiet, draw.At(left+compareBand, y), draw.Left|draw.Middle, f.band)
	l.Text(draw.TextBefore, draw.At(left+compareDelta, y), draw.Right|draw.Middle, f.delta)
	if b.best[i] == column {
		l.Line(draw.Frame, draw.Point{X: left + margin, Y: y - 10}, draw.Point{X: left + compareValue, Y: y - 10})
		l.Text(roleMet, draw.At(left+compareDelta, y-9), draw.Right|draw.Middle, "least")
	}
}

// drawBest marks a best cell by a filled point and a word.
func (b *compareBody) drawBest(l *draw.List, right, y float64, word string) {
	l.Text(roleMet, draw.At(right, y), draw.Right|draw.Middle, word)
	x := right - b.TextWidth(roleMet, word) - 8
	l.Polygon(draw.RollCentre, draw.Point{X: x - 4, Y: y}, draw.Point{X: x, Y: y + 4}, draw.Point{X: x + 4, Y: y}, draw.Point{X: x, Y: y - 4})
}
