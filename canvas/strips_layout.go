package canvas

import (
	"math"
	"strings"

	"armscribe/canvas/draw"
)

// Sizes of the strips in points.
const (
	stripLeast        = 84 // width below which a strip is left out
	stripsLeastHeight = 200
	plotLeast         = 24 // height below which no curves are drawn

	headTitleDown = 20 // baseline of the title under the top edge
	headLine      = 16 // from line to line of the head
	headAir       = 18 // from the head's last baseline to the plot
	headIn        = 8  // title and unit from the left edge
	plotIn        = 12 // plot from the strip's sides: about half a tick label
	footAir       = 36 // under the plot: ticks and the word at the end
	moreAir       = 18 // under that: how many strips had no room
	moreUp        = 5  // the baseline of those words from the lower edge
	moreIn        = 4  // and their ends from the sides

	gripRight = 17 // middle of the grip from the bar's right edge
	tagAway   = 13 // tag from the middle of the grip
	tagPad    = 5  // in the tag, each side of its figure
	tagHalf   = 10 // half its height
	barLeft   = 2
)

// stripColumns is where things stand in a size, points from the top left corner.
type stripColumns struct {
	fixed barTrack // the scale set from outside; zero per is none

	w, h        float64
	bar         float64 // width of the bar's column; the strips begin here
	gripX       float64
	top, bottom float64 // of the plots
	foot        float64 // height of the line under the strips
	lo, hi      float64 // of the axis there
	count       int     // strips shown
	width       float64 // of each
}

// textStore keeps wrapped heads and the scratch of figures.
type textStore struct {
	heads []stripHead
	buf   []byte
	ticks barTicks
}

// stripHead is a title and unit wrapped to a width.
type stripHead struct {
	title, unit string
	width       float64
	medium      draw.Medium
	titles      []string
	units       []string
}

// place lays out the widget in its present size.
func (s *Strips) place() {
	size := s.Size()
	s.placeIn(float64(size.Width), float64(size.Height), draw.OnScreen)
}

// placeIn lays out the strips in w by h points. On paper the axis always fills
// the height.
func (s *Strips) placeIn(w, h float64, m draw.Medium) {
	c := &s.stripColumns
	c.w, c.h = w, h
	c.bar = s.BarWidth()
	c.gripX = c.bar - gripRight
	c.count = max(0, min(len(s.data), int((w-c.bar)/stripLeast)))
	if c.count > 0 {
		c.width = (w - c.bar) / float64(c.count)
	}
	c.top = headTitleDown + headAir + float64(s.headLines(m))*headLine
	c.foot = 0
	if c.count < len(s.data) && m == draw.OnScreen {
		c.foot = moreAir
	}
	c.bottom = max(c.top+1, h-c.foot-footAir)
	s.track = c.fixed
	if c.fixed.per == 0 || m == draw.OnPaper {
		s.track.per = -(c.bottom - c.top) / (s.axis.Max - s.axis.Min)
		s.track.zero = c.bottom - s.track.per*s.axis.Min
	}
	s.trim()
}

// sliver is the part of a point that rounding errors of a place may amount to.
const sliver = 1e-6

// trim keeps the plots to the part of the axis that is seen.
func (s *Strips) trim() {
	c := &s.stripColumns
	c.lo, c.hi = s.axis.Min, s.axis.Max
	yLo, yHi := s.track.at(c.lo), s.track.at(c.hi)
	if yHi < c.top-sliver {
		c.hi = s.track.value(c.top)
	}
	if yLo > c.bottom+sliver {
		c.lo = s.track.value(c.bottom)
	}
	top, bottom := max(c.top, yHi), min(c.bottom, yLo)
	if top < bottom { // else the axis lies off the strips
		c.top, c.bottom = top, bottom
		return
	}
	c.top = max(c.top, min(yHi, c.bottom))
	c.bottom = c.top
}

// barWidth returns the width of the bar's column: room for the widest tag.
// BarWidth is the width of the bar beside the strips, points.
func (s *Strips) BarWidth() float64 {
	return math.Ceil(barLeft + max(s.tagWidth(s.axis.Min), s.tagWidth(s.axis.Max)) + tagAway + gripRight)
}

func (s *Strips) tagWidth(v float64) float64 {
	s.texts.buf = s.axis.figure(s.texts.buf[:0], v)
	w, _, _ := s.styles.TextSize(draw.TextTag, draw.OnScreen, s.texts.buf)
	return w + 2*tagPad
}

// left returns the left edge of a strip.
func (c *stripColumns) left(strip int) float64 { return c.bar + float64(strip)*c.width }

// stripAt returns the strip at a place, -1 if there is none.
func (c *stripColumns) stripAt(x float64) int {
	if x < c.bar || c.count == 0 {
		return -1
	}
	return min(int((x-c.bar)/c.width), c.count-1)
}

// onPlot tells whether y lies on the plots.
func (c *stripColumns) onPlot(y float64) bool { return y >= c.top-sliver && y <= c.bottom+sliver }

// headLines wraps the heads and returns how many lines, beyond one, the tallest
// title and the tallest unit need together with the unit's first.
func (s *Strips) headLines(m draw.Medium) int {
	for len(s.texts.heads) < s.count {
		s.texts.heads = append(s.texts.heads, stripHead{})
	}
	lines := 1
	for i := range s.count {
		h := &s.texts.heads[i]
		unit := s.in.Strips[i].Unit
		if s.data[i].change {
			unit = strings.TrimSuffix("change, "+unit, ", ")
		}
		h.wrap(s.styles, m, s.in.Strips[i].Title, unit, s.width-headIn-4)
		lines = max(lines, len(h.titles)-1+len(h.units))
	}
	return lines
}

func (h *stripHead) wrap(st *draw.Styles, m draw.Medium, title, unit string, width float64) {
	if h.titles != nil && h.title == title && h.unit == unit && h.width == width && h.medium == m {
		return
	}
	h.title, h.unit, h.width, h.medium = title, unit, width, m
	h.titles = wrapText(st, m, draw.TextBold, title, width, 2)
	h.units = wrapText(st, m, draw.TextQuiet, unit, width, 2)
}

// wrapText breaks text at spaces into at most so many lines of w points; the
// last is cut with an ellipsis if it must be. An empty text is one empty line.
func wrapText(st *draw.Styles, m draw.Medium, role draw.Role, text string, w float64, lines int) []string {
	em, face := st[role].SizeOn(m), st[role].Face
	words := strings.Fields(text)
	out := []string{""}
	for i, word := range words {
		last := &out[len(out)-1]
		joined := strings.TrimSpace(*last + " " + word)
		if *last == "" || face.Width(joined)*em <= w {
			*last = joined
			continue
		}
		if len(out) == lines {
			*last += " " + strings.Join(words[i:], " ")
			break
		}
		out = append(out, word)
	}
	for i := range out {
		out[i] = fitText(st, m, role, out[i], w)
	}
	return out
}
