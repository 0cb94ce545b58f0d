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
func (v *board) View() draw.View { return v.view }

// SetView shows a part of the world; its window stays that of the widget. The
// view no longer follows Fit.
func (v *board) SetView(to draw.View) {
	v.event(func() {
		to.W, to.H = v.view.W, v.view.H
		v.see(to)
	})
}

// Fit shows the whole corner, and goes on doing so when the widget is resized.
// A plan that stands under a front view keeps its zoom, and puts the wheel in
// the middle of its height.
func (v *board) Fit() {
	v.event(func() {
		v.fitted = true
		if v.ready() {
			v.fit()
			v.look()
		}
	})
}

// ZoomIn magnifies about the middle.
func (v *board) ZoomIn() { v.SetView(v.view.ZoomAbout(v.view.Centre, buttonZoom)) }

// ZoomOut is the inverse of ZoomIn.
func (v *board) ZoomOut() { v.SetView(v.view.ZoomAbout(v.view.Centre, 1/buttonZoom)) }

// leastShare is how far a plan may keep the front view over it from its size.
const leastShare = 0.5

func (v *board) fit() {
	switch {
	case v.plan && v.peer == nil:
		v.view = scene.FitPlan(v.view, &v.in)
	case v.plan:
		v.view.Centre.Y = scene.PlanMiddle(&v.in)
	default:
		v.view = scene.FitView(v.view, &v.in, 0)
		if v.peer != nil && v.in.Overlays&scene.Clearance != 0 {
			if most := scene.WholeTyre(v.peer.view, &v.in); most > 0 && most < v.view.Zoom {
				v.view = scene.FitView(v.view, &v.in, max(most, leastShare*v.view.Zoom))
			}
		}
	}
}

// refit fits again if no hand has changed zoom or pan, and tells of it.
func (v *board) refit() {
	v.event(func() {
		if v.fitted && v.ready() {
			was := v.view
			if v.fit(); v.view != was {
				v.look()
			}
		}
	})
}

// follow takes zoom and place across the car over from the view that this one
// is plumb with. Their left edges stand in one line.
func (v *board) follow() {
	if v.peer == nil {
		return
	}
	lead, to := v.peer.view, v.view
	to.Zoom = lead.Zoom
	to.Centre.X = lead.Centre.X + (to.W-lead.W)/(2*lead.Zoom)
	if v.plan && v.fitted && v.ready() {
		to.Centre.Y = scene.PlanMiddle(&v.in)
	}
	if to == v.view {
		return
	}
	v.event(func() {
		v.view = to
		v.fitted = v.fitted && v.plan // zoomed by a hand, if on the other view
		v.tellView()
	})
}

// see changes the view by hand.
func (v *board) see(to draw.View) {
	if to == v.view {
		return
	}
	v.view, v.fitted = to, false
	v.look()
}

// look tells of a changed view and has it painted; the view plumb with it
// follows.
func (v *board) look() {
	v.tellView()
	if v.peer != nil {
		v.peer.follow()
	}
}

func (v *board) tellView() {
	v.touch()
	if v.OnView != nil {
		v.OnView(v.view)
	}
}

// Scrolled zooms about the pointer.
func (v *board) Scrolled(e *fyne.ScrollEvent) {
	v.event(func() {
		if e.Scrolled.DY == 0 {
			return
		}
		about := v.view.ToWorld(draw.Screen(e.Position))
		v.see(v.view.ZoomAbout(about, math.Pow(wheelZoom, float64(e.Scrolled.DY)/wheelNotch)))
	})
}
