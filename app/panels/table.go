package panels

import (
	"slices"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// Sizes of the table in points.
const (
	margin      = 12
	leastWidth  = 200
	headHeight  = 36 // the heading and its line
	headDown    = 18 // middle of the heading
	captionDrop = 16 // what the captions of the columns add
	lineMost    = 30
	lineLeast   = 24 // also the least height of what a pointer must hit
	secondLine  = 15 // what a second line under a reading adds
	warnStep    = 17 // between the lines of a warning
	nameGap     = 6  // between a name and its value
	bandGap     = 6  // between a value and its band
	deltaGap    = 6  // between a band and the change
)

// placed is a reading on its place.
type placed struct {
	reading
	y, h                 float64 // from the top of the lines
	lines                int     // that the reading takes, beside the target
	under                bool    // the figures stand under the name
	aside                bool    // the change stands by itself: on the first line, or with deltaLast on the last
	deltaLast            bool
	valueRight, bandLeft float64
}

// table is the layout of the readings. It depends on what is shown and on the
// size, never on what was shown before.
type table struct {
	only  []kinematics.Quantity // the readings shown, without a heading; nil for all
	stale bool
	w, h  float64 // h without what is under the table
	full  float64 // height of all

	heading, place string
	placeDown      bool // the place has a line of its own
	warning        []string
	caption        string // beside the captions of the columns
	captionDown    bool   // it has a line of its own
	lines          []placed
	top            float64 // of the lines
	total          float64 // height of all lines
	line           float64 // height of a plain line

	right     float64 // edge of the columns
	bandLeft  float64
	valueEdge float64 // where values end; in roll those of the left wheel
	bothMid   float64 // middle between the wheels, in roll
}

// arrange lays everything out, if anything changed.
func (t *table) arrange(p *pane, s *snapshot, targets []Target, w, h float64) {
	if !t.stale && t.w == w && t.full == h {
		return
	}
	t.stale, t.w, t.full = false, w, h
	if t.h = h - underHeight(h); t.brief() {
		t.h = h
	}
	t.lines = t.lines[:0]
	if s.solved {
		fits := func(name string) bool { return p.TextWidth(draw.TextSmall, name) <= w-2*margin }
		for _, it := range items {
			if s.shows(it) && t.has(it) {
				t.lines = append(t.lines, placed{reading: s.line(it, fits)})
			}
		}
		for i := range t.lines {
			for k := range targets {
				if t.lines[i].Is(targets[k].Of) {
					t.lines[i].targets = append(t.lines[i].targets, &targets[k])
				}
			}
		}
	}
	t.columns(p, s)
	t.arrangeHead(p, s)
	for i := range t.lines {
		if s.hasRight {
			t.placeBoth(p, &t.lines[i])
		} else {
			t.placeOne(p, &t.lines[i])
		}
	}
	t.stack()
}

// brief tells whether some readings are shown alone, without heading and legend.
func (t *table) brief() bool { return t.only != nil }

func (t *table) has(it item) bool {
	return !t.brief() || slices.Contains(t.only, it.Of)
}

// arrangeHead places heading, position and warning.
func (t *table) arrangeHead(p *pane, s *snapshot) {
	t.heading, t.place, t.placeDown, t.top = "Readings", "", false, headHeight
	if s.solved {
		t.place = s.place()
	}
	room := t.w - 2*margin
	if p.TextWidth(draw.TextBold, t.heading)+nameGap+p.TextWidth(draw.TextQuiet, t.place) > room {
		t.placeDown = true
		t.top += secondLine
	}
	if t.brief() {
		t.place, t.placeDown, t.top = "", false, bandGap
	}
	t.warning = nil
	if text := s.warning(); text != "" {
		t.warning = wrap(func(x string) float64 { return p.TextWidth(draw.TextNow, x) }, text, room)
		t.top += float64(len(t.warning))*warnStep + bandGap
	}
	t.caption, t.captionDown = "", false
	if s.hasRight {
		t.caption = "no bands in roll"
		t.captionDown = margin+p.TextWidth(draw.TextQuiet, t.caption)+nameGap > t.valueEdge-p.TextWidth(draw.TextQuiet, "left")
		t.top += captionDrop
	} else if s.compared {
		t.top += captionDrop
	}
	if t.captionDown {
		t.top += secondLine
	}
}

// nameWidth is that of a name and its mark.
func (r *reading) nameWidth(p *pane) float64 {
	w := p.TextWidth(draw.TextSmall, r.label)
	if r.mark != "" {
		w += p.TextWidth(draw.TextQuiet, r.mark)
	}
	return w
}

// The widest figures that the columns are made for. A line with wider ones goes
// to two lines; the columns never move with the figures.
const (
	bandSample   = "± 0.000"
	slopeSample  = "± 0.0000" // where no change needs the room
	changeSample = nearMark + "+00.0"
	bothSample   = "−00.00 mm"
)

// columns places the columns, by the kind of table alone.
func (t *table) columns(p *pane, s *snapshot) {
	t.right = t.w - margin
	switch {
	case s.hasRight:
		wide := p.TextWidth(draw.TextBold, bothSample)
		t.valueEdge = t.right - wide - margin
		t.bothMid = (t.right + t.valueEdge - wide) / 2
	case s.compared:
		t.bandLeft = t.right - p.TextWidth(draw.TextBefore, changeSample) - deltaGap - p.TextWidth(draw.TextQuiet, bandSample)
		t.valueEdge = t.bandLeft - bandGap
	default:
		t.bandLeft = t.right - p.TextWidth(draw.TextQuiet, slopeSample)
		t.valueEdge = t.bandLeft - bandGap
	}
}

// placeOne sets the figures of a line into the columns, beside its name or, if
// there is no room, under it. A change that its band leaves no room for stands
// beside the name.
func (t *table) placeOne(p *pane, r *placed) {
	band, delta := p.TextWidth(draw.TextQuiet, r.band), p.TextWidth(draw.TextBefore, r.delta)
	value, name := p.TextWidth(valueRole(&r.reading), r.value), margin+r.nameWidth(p)+nameGap
	r.lines, r.under, r.aside, r.deltaLast = 1, false, false, false
	r.bandLeft, r.valueRight = t.bandLeft, t.valueEdge
	tail := t.bandLeft + band + gapBefore(delta, deltaGap)
	if tail <= t.right && name+value <= t.valueEdge {
		return
	}
	// Among a few, figures wider than the columns move left where the name leaves room.
	if edge := t.right - gapBefore(delta, deltaGap) - band; t.brief() && edge <= t.bandLeft && name+value+bandGap <= edge {
		r.bandLeft, r.valueRight = edge, edge-bandGap
		return
	}
	r.lines, r.under = 2, true
	// Figures too wide even for a line of their own move as little as need be.
	r.bandLeft = min(r.bandLeft, t.right-band)
	r.valueRight = min(t.valueEdge, r.bandLeft-bandGap)
	if push := margin + value - r.valueRight; push > 0 {
		r.valueRight += push
		r.bandLeft += push
	}
	if r.aside = delta > 0 && r.bandLeft+band+deltaGap+delta > t.right; r.aside && name+delta > t.right {
		r.lines, r.deltaLast = 3, true
	}
}

// gapBefore adds a gap to what has a width.
func gapBefore(width, gap float64) float64 {
	if width == 0 {
		return 0
	}
	return width + gap
}

// placeBoth sets the values of both wheels, or that of the axle between them.
func (t *table) placeBoth(p *pane, r *placed) {
	name := margin + r.nameWidth(p) + nameGap
	value, right := p.TextWidth(valueRole(&r.reading), r.value), p.TextWidth(valueRole(&r.reading), r.right)
	r.lines, r.under, r.valueRight = 1, false, t.valueEdge
	if r.Axle {
		r.valueRight = t.bothMid + value/2
	}
	limit := t.right - gapBefore(right, bandGap)
	r.valueRight = min(r.valueRight, limit)
	if name+value > r.valueRight {
		r.lines, r.under = 2, true
		r.valueRight = max(r.valueRight, margin+value)
	}
}

// stack sets the lines under each other, as high as there is room for.
func (t *table) stack() {
	extra := float64(bandGap)
	for i := range t.lines {
		extra += t.lines[i].extra()
	}
	t.line = lineMost
	if t.brief() {
		t.line = lineLeast
	}
	if n := len(t.lines); n > 0 && !t.brief() {
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
