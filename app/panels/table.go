package panels

import (
	"slices"

	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// Sizes of the table in points.
const (
	margin      = 12
	leastWidth  = 200
	headHeight  = 36 // the heading and its line
	headDown    = 18 // middle of the heading
	captionDrop = 16 // what the captions of the columns add in roll
	lineMost    = 30
	lineLeast   = 24 // also the least height of what a pointer must hit
	secondLine  = 15 // what a second line under a reading adds
	warnStep    = 17 // between the lines of a warning
	nameGap     = 8  // between a name and its value
	bandGap     = 6  // between a value and its band
	deltaGap    = 8  // between a band and the change
)

// placed is a reading on its place.
type placed struct {
	reading
	y, h                 float64 // from the top of the lines
	lines                int     // that the reading takes, beside the target
	folded               bool    // band and change stand under the value
	under                bool    // the value stands under the name
	valueRight, bandLeft float64
}

// table is the layout of the readings.
type table struct {
	stale bool
	w, h  float64

	heading, place string
	placeDown      bool // the place has a line of its own
	warning        []string
	lines          []placed
	top            float64 // of the lines
	total          float64 // height of all lines
	line           float64 // height of a plain line

	// Columns only grow while the same kind of thing is shown, so that they
	// stand still in a drag.
	kept                columnsOf
	folds               uint32  // lines that have folded, by their place in items: they stay so
	band                float64 // width of the bands; in roll of the right wheel's values
	delta               float64
	leftEdge, rightEdge float64 // where the values of both wheels end, in roll
}

// columnsOf is what columns are kept for.
type columnsOf struct {
	unit     units.Unit
	w        float64
	compared bool
	roll     bool
}

// arrange lays everything out, if anything changed.
func (t *table) arrange(p *pane, s *snapshot, targets []Target, w, h float64) {
	if !t.stale && t.w == w && t.h == h {
		return
	}
	t.stale, t.w, t.h = false, w, h
	t.lines = t.lines[:0]
	if s.solved {
		for _, it := range items {
			if s.shows(it) {
				t.lines = append(t.lines, placed{reading: s.line(it)})
			}
		}
		for i := range t.lines {
			for k := range targets {
				if targets[k].Of == t.lines[i].q && !t.lines[i].inverse {
					t.lines[i].targets = append(t.lines[i].targets, &targets[k])
				}
			}
		}
	}
	t.arrangeHead(p, s)
	if s.hasRight {
		t.rollColumns(p, s)
	} else {
		t.columns(p, s)
	}
	t.stack()
}

// arrangeHead places heading, position and warning.
func (t *table) arrangeHead(p *pane, s *snapshot) {
	t.heading, t.place, t.placeDown, t.top = "Readings", "", false, headHeight
	if s.solved {
		t.place = s.place()
	}
	room := t.w - 2*margin
	if p.width(draw.TextBold, t.heading)+nameGap+p.width(draw.TextQuiet, t.place) > room {
		t.placeDown = true
		t.top += secondLine
	}
	t.warning = nil
	if text := s.warning(); text != "" {
		t.warning = wrap(func(x string) float64 { return p.width(draw.TextNow, x) }, text, room)
		t.top += float64(len(t.warning))*warnStep + bandGap
	}
	if s.hasRight {
		t.top += captionDrop
	}
}

// nameWidth is that of a name and its mark.
func (r *reading) nameWidth(p *pane) float64 {
	w := p.width(draw.TextSmall, r.name)
	if r.estimate {
		w += p.width(draw.TextQuiet, estimateMark)
	}
	return w
}

// estimateMark stands behind a name whose value rests on an estimate.
const estimateMark = " est."

// columns places value, band and change. Figures stand under each other; where
// a long name leaves no room they move right, and where that does not do, band
// and change go to a line of their own. Slopes and ratios, with the longest
// figures, do not set the columns.
func (t *table) columns(p *pane, s *snapshot) {
	t.keep(columnsOf{s.unit, t.w, s.compared, false})
	for i := range t.lines {
		if r := &t.lines[i]; r.setsColumns() {
			t.band = max(t.band, p.width(draw.TextQuiet, r.band))
			t.delta = max(t.delta, p.width(draw.TextBefore, r.delta))
		}
	}
	right := t.w - margin
	bandLeft := right - t.band
	if t.delta > 0 {
		bandLeft -= t.delta + deltaGap
	}
	for i := range t.lines {
		r := &t.lines[i]
		bit := uint32(1) << index(r.item)
		if r.place(p, bandLeft, right, t.folds&bit != 0); r.folded {
			t.folds |= bit
		}
	}
}

// keep forgets the columns when another kind of thing is shown.
func (t *table) keep(of columnsOf) {
	if t.kept != of {
		t.kept, t.band, t.delta, t.folds = of, 0, 0, 0
	}
}

func (r *reading) setsColumns() bool {
	k := r.q.About().Kind
	return k == kinematics.Length || k == kinematics.Angle
}

// index is the place of a line in items.
func index(it item) int { return slices.Index(items[:], it) }

// place sets the figures of a line between its name and the right edge.
func (r *placed) place(p *pane, bandLeft, right float64, folded bool) {
	band, delta := p.width(draw.TextQuiet, r.band), p.width(draw.TextBefore, r.delta)
	value := p.width(valueRole(&r.reading), r.value)
	tail := band + gapBefore(delta, deltaGap) // from the band's left edge
	r.lines, r.folded = 1, false
	r.bandLeft = min(bandLeft, right-tail)
	r.valueRight = r.bandLeft - bandGap
	if tail == 0 {
		r.valueRight = right
	}
	need := margin + r.nameWidth(p) + nameGap + value
	if push := need - r.valueRight; push > 0 && tail > 0 { // the name is long
		r.valueRight += push
		r.bandLeft += push
	}
	if r.bandLeft+tail <= right && need <= right && !folded {
		return
	}
	r.folded = tail > 0
	r.bandLeft, r.valueRight = right-tail, right
	if r.folded {
		r.lines++
	}
	if need > right {
		r.lines++
		r.under = true
	}
}

// gapBefore adds a gap to what has a width.
func gapBefore(width, gap float64) float64 {
	if width == 0 {
		return 0
	}
	return width + gap
}

// rollColumns places the values of both wheels.
func (t *table) rollColumns(p *pane, s *snapshot) {
	t.keep(columnsOf{s.unit, t.w, s.compared, true})
	for i := range t.lines {
		if r := &t.lines[i]; r.setsColumns() {
			t.band = max(t.band, p.width(valueRole(&r.reading), r.right))
		}
	}
	t.rightEdge = t.w - margin
	t.leftEdge = t.rightEdge - t.band - margin
	for i := range t.lines {
		r := &t.lines[i]
		r.lines, r.valueRight = 1, t.leftEdge
		value, right := p.width(valueRole(&r.reading), r.value), p.width(valueRole(&r.reading), r.right)
		limit := t.rightEdge - gapBefore(right, margin)
		if common(r.q) { // stands between both
			r.valueRight = t.leftEdge + margin/2 + value/2
		}
		r.valueRight = max(min(r.valueRight, limit), margin+r.nameWidth(p)+nameGap+value)
		if r.valueRight > limit {
			r.lines, r.under, r.valueRight = 2, true, min(t.leftEdge, limit)
		}
	}
}

// stack sets the lines under each other, as high as there is room for.
func (t *table) stack() {
	extra := float64(bandGap)
	for i := range t.lines {
		extra += t.lines[i].extra()
	}
	t.line = lineMost
	if n := len(t.lines); n > 0 {
		t.line = max(lineLeast, min(lineMost, (t.h-t.top-extra)/float64(n)))
	}
	t.total = 0
	for i := range t.lines {
		r := &t.lines[i]
		r.y, r.h = t.total, t.line+r.extra()
		t.total += r.h
	}
	t.total += bandGap
}

// extra is the height of the further lines of a reading.
func (r *placed) extra() float64 {
	return float64(r.lines-1+len(r.targets)) * secondLine
}

// overflow is how far the lines can be scrolled.
func (t *table) overflow() float64 { return max(0, t.top+t.total-t.h) }

// at returns the line under a place of the window, in points from the top.
func (t *table) at(y, scroll float64) (int, bool) {
	if y < t.top || y >= t.h {
		return 0, false
	}
	y += scroll - t.top
	for i := range t.lines {
		if r := &t.lines[i]; y >= r.y && y < r.y+r.h {
			return i, true
		}
	}
	return 0, false
}

// find returns the index of a line, -1 for none.
func (t *table) find(it item) int {
	for i := range t.lines {
		if t.lines[i].item == it {
			return i
		}
	}
	return -1
}

// page is how many lines a page of the keyboard has.
func (t *table) page() int { return max(1, int((t.h-t.top)/t.line)-1) }

// reveal returns the scroll that shows line i, nearest to the present one.
func (t *table) reveal(i int, scroll float64) float64 {
	r := &t.lines[i]
	scroll = max(scroll, r.y+r.h-(t.h-t.top))
	return max(0, min(scroll, r.y, t.overflow()))
}
