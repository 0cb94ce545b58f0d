package canvas

import (
	"math"

	"fyne.io/fyne/v2"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
)

// Zoom steps.
const (
	wheelZoom  = 1.1  // of one notch of the wheel
	wheelNotch = 25.0 // points of scrolling in one notch
	buttonZoom = 1.25
)

// View returns the part of the world that is seen.
func (v *FrontView) View() draw.View { return v.view }

// SetView shows a part of the world; its window stays that of the widget. The
// view no longer follows Fit.
func (v *FrontView) SetView(to draw.View) {
	v.event(func() {
		to.W, to.H = v.view.W, v.view.H
		v.see(to)
	})
}

// Fit shows the whole corner, and goes on doing so when the widget is resized.
func (v *FrontView) Fit() {
	v.event(func() {
		v.fitted = true
		if v.ready() {
			v.fit()
			v.look()
		}
	})
}

// ZoomIn magnifies about the middle.
func (v *FrontView) ZoomIn() { v.SetView(v.view.ZoomAbout(v.view.Centre, buttonZoom)) }

// ZoomOut is the inverse of ZoomIn.
func (v *FrontView) ZoomOut() { v.SetView(v.view.ZoomAbout(v.view.Centre, 1/buttonZoom)) }

func (v *FrontView) fit() { v.view = scene.FitView(v.view, &v.in) }

// see changes the view by hand.
func (v *FrontView) see(to draw.View) {
	if to == v.view {
		return
	}
	v.view, v.fitted = to, false
	v.look()
}

// look tells of a changed view and has it painted.
func (v *FrontView) look() {
	v.touch()
	if v.OnView != nil {
		v.OnView(v.view)
	}
}

// Scrolled zooms about the pointer.
func (v *FrontView) Scrolled(e *fyne.ScrollEvent) {
	v.event(func() {
		if e.Scrolled.DY == 0 {
			return
		}
		about := v.view.ToWorld(draw.Screen(e.Position))
		v.see(v.view.ZoomAbout(about, math.Pow(wheelZoom, float64(e.Scrolled.DY)/wheelNotch)))
	})
}
