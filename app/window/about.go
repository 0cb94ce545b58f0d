package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// cautionLine is always in sight; see Cautions for the whole.
const cautionLine = "Geometry only: strength and road legality are for qualified people."

// Cautions is what everyone who works from these numbers must know.
const Cautions = `Armscribe reckons geometry, and nothing else. It does not check strength, welds, fatigue, fasteners, clearances or road legality.

A suspension that fails can kill. Have the parts, the welds and the car inspected by qualified people under your local modification code before the car is used on the road.

Every number is as good as the points it comes from: the ± beside it is the 95 % band of the measuring error you stated. Where it spans the answer, measure better or use a gauge.

A front view cannot know everything. With one pivot per arm, the pivot axes are taken as square to the view.`

const shortcutsText = `In the view
Drag — move a point, the upright, the wheel or the ground line
Shift — hold the nearer axis      Alt — no snapping
Esc — put it back
Tab, Shift+Tab — walk the points
Arrows — nudge 1 mm (1/32 in); Shift ten times, Ctrl a tenth
Enter — type the coordinates
M, then click — move the picked point to where you click
Wheel — zoom      middle drag or Space and drag — pan

On a bar or the curves
Up, Down (Left, Right) — 1 mm; Shift ten times, Ctrl a tenth
Home — back to rest      Page Up, Page Down — to the ends

Everywhere
Ctrl+Z, Ctrl+Y — undo, redo      Ctrl+S — save      Ctrl+O — open
Ctrl+P — play      Ctrl+0 — fit the view      Ctrl+plus, Ctrl+minus — zoom`

// What a page of text needs beside and around the text.
const (
	textFrame  = 60
	textAround = 130
)

// showText opens a page of text with one button.
func (w *Window) showText(title, text, done string, closed func()) {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustom(title, done, container.NewVScroll(label), w.win)
	d.SetOnClosed(func() {
		if closed != nil {
			closed()
		}
	})
	size := w.win.Canvas().Size()
	width := min(620, size.Width-40)
	label.Resize(fyne.NewSize(width-textFrame, 1)) // wraps it, for its height
	d.Resize(fyne.NewSize(width, min(label.MinSize().Height+textAround, size.Height-40)))
	d.Show()
}

func (w *Window) showAbout() {
	w.showText("Armscribe", "Lays out suspension arms in the front view and says what they do.\n\n"+Cautions, "Close", nil)
}

func (w *Window) showShortcuts() { w.showText("Keys and gestures", shortcutsText, "Close", nil) }

// showCautionsOnce is the first thing a new user sees.
func (w *Window) showCautionsOnce() {
	if w.prefs.cautionsRead() {
		return
	}
	w.showText("Before you start", Cautions, "I understand", w.prefs.setCautionsRead)
}
