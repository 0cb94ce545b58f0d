package canvas

import (
	"math"

	"armscribe/canvas/chart"
	"armscribe/canvas/draw"
)

// barSpan is a stretch of the bar's column that texts must leave free, points down.
type barSpan struct{ y0, y1 float64 }

func (a barSpan) meets(b barSpan) bool { return a.y0 < b.y1 && b.y0 < a.y1 }

// Lines of quiet text in the bar's column, points.
const (
	quietLine = 13
	quietHalf = 7 // half the height of a line with its air
	wordAway  = 13
)

// drawBar draws track, ticks, words, grip, tag and the level line as far as the
// strips.
func (s *Strips) drawBar(l *draw.List, m draw.Medium) {
	y := s.gripY()
	tag := barSpan{y - tagHalf - 2, y + tagHalf + 2}
	lo, hi := s.axis.Limits()
	yLo, yHi := s.clip(s.track.at(lo)), s.clip(s.track.at(hi))
	yMin, yMax := s.clip(s.track.at(s.axis.Min)), s.clip(s.track.at(s.axis.Max))
	l.On(draw.LayerLinks)
	addTrack(l, s.up(s.gripX, yLo), s.up(s.gripX, yHi))
	addHatch(l, s.up(s.gripX, yMin), s.up(s.gripX, yLo))
	addHatch(l, s.up(s.gripX, yHi), s.up(s.gripX, yMax))
	taken := [3]barSpan{tag}
	if s.axis.bounded() {
		taken[1] = s.drawWhy(l, m, s.axis.ToWhy, yHi-yMax, yMax, tag, 1)
		taken[2] = s.drawWhy(l, m, s.axis.FromWhy, yMin-yLo, yMin, tag, -1)
	}
	s.drawTicks(l, yMax, yMin, taken)
	s.drawEnd(l, m, s.axis.MaxName, yMax-wordAway)
	s.drawEnd(l, m, s.axis.MinName, yMin+wordAway+8)
	if more := len(s.data) - s.count; more > 0 && m == draw.OnScreen {
		s.drawMore(l, m, more)
	}
	s.drawGrip(l, m, y)
}

// clip limits a place to the plots.
func (c *stripColumns) clip(y float64) float64 { return max(c.top, min(y, c.bottom)) }

// gripY returns where the grip is seen: at the edge if its value is off it.
func (s *Strips) gripY() float64 { return s.clip(s.track.at(s.value)) }

func (s *Strips) drawGrip(l *draw.List, m draw.Medium, y float64) {
	live := m == draw.OnScreen
	if s.onPlot(s.track.at(s.value)) && s.count > 0 {
		l.On(draw.LayerCurves)
		l.Line(draw.Level, s.up(s.gripX, y), s.up(s.bar, y))
	}
	c := s.up(s.gripX, y)
	addGrip(l, c, live && s.focused, live && (s.held || s.hovers() == hoverGrip))
	for i := -1; i <= 1; i++ {
		p := draw.On(c).Off(0, float64(3*i))
		l.LineBy(draw.Level, p.Off(-4, 0), p.Off(4, 0))
	}
	s.texts.buf = s.axis.figure(s.texts.buf[:0], s.value)
	w, _, _ := s.styles.TextSize(draw.TextTag, m, s.texts.buf)
	x1 := s.gripX - tagAway
	x0 := x1 - w - 2*tagPad
	l.On(draw.LayerNotes)
	addPlate(l, draw.Tag, s.box(x0, y-tagHalf, x1, y+tagHalf))
	l.TextBytes(draw.TextTag, draw.On(s.up(x0+tagPad, y)), draw.Left|draw.Middle, s.texts.buf)
}

// drawTicks draws the strokes of the axis and numbers those that stand free.
func (s *Strips) drawTicks(l *draw.List, yMax, yMin float64, taken [3]barSpan) {
	if s.bottom-s.top < plotLeast || !(s.lo < s.hi) {
		return
	}
	for _, t := range s.texts.ticks.of(s.axis.tickRange(s.lo, s.hi), inches(s.axis.PerUnit)) {
		y := s.track.at(t.Value * s.axis.PerUnit)
		if y < yMax-0.5 || y > yMin+0.5 {
			continue
		}
		half, role := float64(tickHalf), draw.Axis
		if t.Label == "" {
			half, role = tickHalf-3, draw.Grid
		}
		if lo, hi := s.axis.Limits(); t.Value*s.axis.PerUnit < lo || t.Value*s.axis.PerUnit > hi {
			half = 0 // the hatching stands there
		}
		p := draw.On(s.up(s.gripX, y))
		if half > 0 {
			l.On(draw.LayerGrid)
			l.LineBy(role, p.Off(-half, 0), p.Off(half, 0))
		}
		room := barSpan{y - quietHalf, y + quietHalf}
		if t.Label != "" && !room.meets(taken[0]) && !room.meets(taken[1]) && !room.meets(taken[2]) {
			l.On(draw.LayerNotes)
			l.Text(draw.TextTick, p.Off(-tickHalf-4, 0), draw.Right|draw.Middle, t.Label)
		}
	}
}

// drawEnd writes the word of an end over or under the bar, moved in where it
// would leave the column.
func (s *Strips) drawEnd(l *draw.List, m draw.Medium, word string, y float64) {
	word = wholeWords(s.styles, m, draw.TextQuiet, word, s.bar-4)
	half := textWidth(s.styles, m, draw.TextQuiet, word) / 2
	x := min(s.gripX, s.bar-2-half)
	l.On(draw.LayerNotes)
	l.Text(draw.TextQuiet, draw.On(s.up(x, y)), draw.Centre, word)
}

// drawWhy writes what binds at an end of the assembled stretch, beside the part
// of room points out of reach that begins at end; inward is +1 down, -1 up. It
// keeps off the tag and returns what it took.
func (s *Strips) drawWhy(l *draw.List, m draw.Medium, why string, room, end float64, tag barSpan, inward float64) barSpan {
	if why == "" || room < 1 {
		return barSpan{}
	}
	lines := wrapText(s.styles, m, draw.TextQuiet, why, s.gripX-tickHalf-4-barLeft, 3)
	height := float64(len(lines)) * quietLine
	at := func(from float64) barSpan {
		return barSpan{min(from, from+inward*height), max(from, from+inward*height)}
	}
	// Beside its middle if it is long enough, else from its end on.
	from := end
	if room > height {
		from += inward * (room - height) / 2
	}
	took := at(from)
	if took.meets(tag) {
		if inward > 0 {
			from = tag.y1
		} else {
			from = tag.y0
		}
		took = at(from)
	}
	if took.y0 < s.top-quietLine || took.y1 > s.bottom+quietLine {
		return barSpan{}
	}
	l.On(draw.LayerNotes)
	for i, t := range lines {
		y := took.y0 + (float64(i)+0.5)*quietLine
		l.Text(draw.TextQuiet, draw.On(s.up(s.gripX-tickHalf-4, y)), draw.Right|draw.Middle, t)
	}
	return took
}

// drawMore says under the plots how many strips had no room, in as many words as
// fit.
func (s *Strips) drawMore(l *draw.List, m draw.Medium, more int) {
	curves := " curves hidden"
	if more == 1 {
		curves = " curve hidden"
	}
	number := chart.Number(float64(more), 0)
	room := s.w - 2*moreIn
	for _, text := range [...]string{number + curves + ": widen the window", number + curves, number + " hidden"} {
		if textWidth(s.styles, m, draw.TextQuiet, text) <= room {
			l.On(draw.LayerNotes)
			l.Text(draw.TextQuiet, draw.On(s.up(s.w-moreIn, s.h-moreUp)), draw.Right, text)
			return
		}
	}
}

// plateRound is the radius of the corners of a plate, points.
const plateRound = 3

// addPlate adds a plate with round corners.
func addPlate(l *draw.List, role draw.Role, b draw.Box) {
	r := min(plateRound, b.W()/2, b.H()/2)
	in := b.Grow(-r)
	corners := [4]draw.Point{in.Max, {X: in.Min.X, Y: in.Max.Y}, in.Min, {X: in.Max.X, Y: in.Min.Y}}
	const steps = 4 // of each corner
	for i, c := range corners {
		for k := range steps + 1 {
			sin, cos := math.Sincos(math.Pi / 2 * (float64(i) + float64(k)/steps))
			l.Add(draw.At(c.X+r*cos, c.Y+r*sin))
		}
	}
	l.End(role, true)
}
