package window

import "fyne.io/fyne/v2"

// Widths of the columns, and the window widths below which side columns fold.
const (
	leftWidth     = 256
	readingsWidth = 250
	foldedWidth   = 26
	stripWidth    = 88  // of one strip beside the bar
	barWidth      = 84  // of the travel bar
	minView       = 330 // the view keeps this
	foldLeft      = 1240
	foldReadings  = 1000
	bottomHeight  = 128
	wideStrip     = 130  // a strip gets no wider than this
	stripsShare   = 0.44 // of what view and strips share, where there is plenty
)

// columns lays out left panel, view, strips and readings side by side, and what
// stands under view and strips. Its objects come in that order: left, view,
// strips, readings, under the view, under the strips.
type columns struct{ w *Window }

// MinSize: nothing is cut off down to this.
func (c *columns) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(700, 440) }

// Layout places the columns.
func (c *columns) Layout(o []fyne.CanvasObject, size fyne.Size) {
	left, right := float32(leftWidth), float32(readingsWidth)
	if c.w.leftFolded(size.Width) {
		left = foldedWidth
	}
	if c.w.readingsFolded(size.Width) {
		right = foldedWidth
	}
	middle := size.Width - left - right
	n := float32(len(c.w.curves.Curves))
	each := max(stripWidth, min((middle*stripsShare-barWidth)/n, wideStrip))
	strips := max(barWidth+stripWidth, min(barWidth+each*n, middle-minView))
	view := middle - strips
	top := size.Height - bottomHeight
	place(o[0], 0, 0, left, size.Height)
	place(o[1], left, 0, view, top)
	place(o[2], left+view, 0, strips, top)
	place(o[3], size.Width-right, 0, right, size.Height)
	bars := max(340, min(view, middle-300))
	place(o[4], left, top, bars, bottomHeight)
	place(o[5], left+bars, top, middle-bars, bottomHeight)
}

func place(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// leftFolded tells whether the left column is folded to its edge: by choice, or
// for want of room.
func (w *Window) leftFolded(width float32) bool { return folded(w.foldLeft, width < foldLeft) }

func (w *Window) readingsFolded(width float32) bool {
	return folded(w.foldReadings, width < foldReadings)
}

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
