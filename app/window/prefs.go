package window

import (
	"encoding/json"

	"fyne.io/fyne/v2"

	"armscribe/app/frame"
	"armscribe/app/units"
	"armscribe/canvas/scene"
)

// Keys of what is remembered between starts.
const (
	keyUnits    = "units"
	keyDark     = "dark"
	keyOverlays = "overlays"
	keyWidth    = "width"
	keyHeight   = "height"
	keyCurves   = "curves"
	keyCautions = "cautions read"

	keyAnswerMore = "answer wider by"
)

// prefs is what the window remembers. Losing it loses no work.
type prefs struct{ store fyne.Preferences }

// displayUnit returns the unit chosen, or the given one where none was.
func (p prefs) displayUnit(otherwise units.Unit) units.Unit {
	switch p.store.String(keyUnits) {
	case "mm":
		return units.Millimetre
	case "in":
		return units.Inch
	}
	return otherwise
}

func (p prefs) setDisplayUnit(u units.Unit) { p.store.SetString(keyUnits, u.String()) }

func (p prefs) dark() bool        { return p.store.Bool(keyDark) }
func (p prefs) setDark(dark bool) { p.store.SetBool(keyDark, dark) }

// firstOverlays is what a new user sees: what the demo is about, not more.
const firstOverlays = scene.AllOverlays &^ (scene.ErrorMarks | scene.OtherSide | scene.Clearance)

func (p prefs) overlays() scene.Overlays {
	return scene.Overlays(p.store.IntWithFallback(keyOverlays, int(firstOverlays)))
}

func (p prefs) setOverlays(o scene.Overlays) { p.store.SetInt(keyOverlays, int(o)) }

// size returns the window size of last time, within what fits a small screen.
func (p prefs) size() fyne.Size {
	return fyne.NewSize(
		float32(max(800, p.store.FloatWithFallback(keyWidth, 1280))),
		float32(max(560, p.store.FloatWithFallback(keyHeight, 800))))
}

func (p prefs) setSize(s fyne.Size) {
	p.store.SetFloat(keyWidth, float64(s.Width))
	p.store.SetFloat(keyHeight, float64(s.Height))
}

func (p prefs) cautionsRead() bool { return p.store.Bool(keyCautions) }
func (p prefs) setCautionsRead()   { p.store.SetBool(keyCautions, true) }

// curveChoice is which curves stand beside the view.
type curveChoice struct {
	Over   frame.Over
	Curves []frame.Curve
	Change bool // from before, instead of both curves
}

// curves returns the choice of last time; one that cannot be read, as of a
// later release, falls back to the first one.
func (p prefs) curves(s step) curveChoice {
	var c curveChoice
	if err := json.Unmarshal([]byte(p.store.String(curvesKey(s))), &c); err != nil || len(c.Curves) == 0 || !c.known() {
		return curveChoice{Over: frame.OverTravel, Curves: firstStrips[s]}
	}
	return c
}

func curvesKey(s step) string { return keyCurves + " of " + s.String() }

// answerMore is how much wider than its own the answer is, points.
func (p prefs) answerMore() float32     { return float32(p.store.Float(keyAnswerMore)) }
func (p prefs) setAnswerMore(w float32) { p.store.SetFloat(keyAnswerMore, float64(w)) }

func (p prefs) setCurves(s step, c curveChoice) {
	text, err := json.Marshal(c)
	if err != nil {
		panic("window: " + err.Error()) // numbers always marshal
	}
	p.store.SetString(curvesKey(s), string(text))
}
