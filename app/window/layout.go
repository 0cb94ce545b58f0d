package window

import (
	"fyne.io/fyne/v2"

	"armscribe/app/look"
)

// Widths of the columns in points.
const (
	cardWidth   = 176
	cardFolded  = 40
	foldCard    = 1200 // below this window width the card shows marks alone, and the strips are one
	stripWidth  = 84   // of one strip beside the bar, at least
	wideStrip   = 130  // a strip gets no wider than this
	minView     = 280  // the view keeps this
	rightShare  = 0.46 // of the window, what strips and answer have together
	rightLeast  = 410
	rightMost   = 1000
	answerFair  = 440 // of the answer: strips grow once it has this
	adviceLeast = 240 // width that the one sentence needs

	bottomHeight = 128
)

// columns lays out card, view, strips and answer side by side, and what stands under
// view and strips. Its objects come in that order: card, view, strips, answer, under
// the view, under the strips, and the edge between strips and answer.
type columns struct{ w *Window }

// MinSize: nothing is cut off down to this.
func (c *columns) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(760, 440) }

// widths are those of the columns in a window.
type widths struct{ card, view, strips, answer float32 }

// of computes the widths. The view keeps its own whatever step is chosen; strips and
// answer share the rest, and a table that is too wide takes the strips' room.
func (c *columns) of(width float32) (k widths) {
	k.card = cardWidth
	if c.w.cardFolded(width) {
		k.card = cardFolded
	}
	right := max(rightLeast, min(width*rightShare, rightMost)) + c.w.prefs.answerMore()
	right = max(rightLeast, min(right, width-k.card-minView))
	k.view = width - k.card - right
	n := float32(len(c.w.shownCurves(width)))
	bar := float32(c.w.strips.BarWidth())
	k.strips = max(bar+stripWidth*n, min(bar+wideStrip*n, right-answerFair))
	k.answer = right - k.strips
	if c.w.doc != nil {
		if wants := c.w.book().Wants(); wants > k.answer {
			k.strips, k.answer = 0, right
		}
	}
	return k
}

// Layout places the columns.
func (c *columns) Layout(o []fyne.CanvasObject, size fyne.Size) {
	k := c.of(size.Width)
	top := size.Height - bottomHeight
	right := k.card + k.view
	show(o[2], k.strips > 0)
	place(o[0], 0, 0, k.card, size.Height)
	place(o[1], k.card, 0, k.view, top)
	if n := len(c.w.shownCurves(size.Width)); c.w.doc != nil && n != c.w.stripsShown {
		c.w.showCurves() // another number has room now
	}
	place(o[2], right, 0, k.strips, top)
	place(o[3], right+k.strips, 0, k.answer, size.Height)
	place(o[6], right+k.strips-look.Step/2, 0, 2*look.Step, size.Height)
	advice := k.strips >= adviceLeast
	show(o[5], advice)
	bars := k.view + k.strips
	if advice {
		bars = max(340, k.view)
		place(o[5], k.card+bars, top, right+k.strips-k.card-bars, bottomHeight)
	}
	place(o[4], k.card, top, bars, bottomHeight)
}

func place(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

func show(o fyne.CanvasObject, visible bool) {
	if visible {
		o.Show()
	} else {
		o.Hide()
	}
}

// cardFolded tells whether the card shows marks alone: by choice, or for want of room.
func (w *Window) cardFolded(width float32) bool { return folded(w.foldCard, width < foldCard) }

// fold is what the person chose for a column.
type fold uint8

const (
	foldAuto fold = iota
	foldOpen
	foldShut
)

func folded(choice fold, narrow bool) bool { return choice == foldShut || choice == foldAuto && narrow }

// toggled is the choice that does the opposite of what is seen.
func toggled(isFolded bool) fold {
	if isFolded {
		return foldOpen
	}
	return foldShut
}
