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

func (w *Window) showAbout() {
	w.showText("Armscribe "+cli.Version, "Lays out suspension arms in the front view and says what they do.\n\n"+Cautions+
		"\n\nFree software under the BSD 3-Clause licence; the file assets/licences/README.md names what it is built on.", "Close", nil)
}

// showCautionsOnce is the first thing a new user sees.
func (w *Window) showCautionsOnce() {
	if w.prefs.cautionsRead() {
		return
	}
	w.showText("Before you start", Cautions, "I understand", w.prefs.setCautionsRead)
}
