package window

import (
	"armscribe/app/cli"
)

// cautionLine is always in sight; see Cautions for the whole.
const cautionLine = "Geometry only: strength and road legality are for qualified people."

// Cautions is what everyone who works from these numbers must know.
const Cautions = `Armscribe computes geometry, and nothing else. It does not check strength, welds, fatigue, fasteners or road legality, and the gaps it shows are those between simple shapes: measure them on the car.

A suspension that fails can kill. Have the parts, the welds and the car inspected by qualified people under your local modification code before the car is used on the road.

Every number is as good as the points it comes from: the ± beside it is the 95 % band of the measuring error you stated. Where it spans the answer, measure better or use a gauge.

A front view cannot know everything. With one pivot per arm, the pivot axes are taken as square to the view.`

const shortcutsText = `In the view
Drag — move a point, the upright, the wheel, the ground line or an obstacle
Shift — hold the nearer axis      Ctrl or Alt — no snapping
Esc — put it back
Tab, Shift+Tab — walk the points
Arrows — nudge 1 mm (1/32 in); Shift ten times, Ctrl a tenth
Enter — type the coordinates, or how far the upright goes
M, then click — move the picked point to where you click
Right button — type its place, hold its height, its side distance or a length, or the upright
Wheel — zoom      middle drag or Space and drag — pan

On a bar or the curves
Up, Down (Left, Right) — 1 mm; Shift ten times, Ctrl a tenth
Home — back to rest      Page Up, Page Down — to the ends

Everywhere
Ctrl+Z, Ctrl+Y — undo, redo      Ctrl+N — new variant      Ctrl+J — new job
Ctrl+T — targets      Ctrl+B — bump steer      Ctrl+K — track and wheel      Ctrl+I — photo
Ctrl+S — save      Ctrl+Shift+S — save as      Ctrl+O — open
Ctrl+G — clearance      Ctrl+P — play      Ctrl+R — back to rest
Ctrl+0 — fit the view      Ctrl+plus, Ctrl+minus — zoom
Alt, F10 — the menus      Alt+F, E, V, C, A, H — one of them
Ctrl+H — this page      Enter, Esc — go on in a dialog, leave it`

func (w *Window) showAbout() {
	w.showText("Armscribe "+cli.Version, "Lays out suspension arms in the front view and says what they do.\n\n"+Cautions+
		"\n\nFree software under the BSD 3-Clause licence; the file assets/licences/README.md names what it is built on.", "Close", nil)
}

func (w *Window) showShortcuts() { w.showText("Keys and gestures", shortcutsText, "Close", nil) }

// showCautionsOnce is the first thing a new user sees.
func (w *Window) showCautionsOnce() {
	if w.prefs.cautionsRead() {
		return
	}
	w.showText("Before you start", Cautions, "I understand", w.prefs.setCautionsRead)
}
