package canvas

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// PlanView shows a corner from above, the car's nose pointing down, and lets a
// hand move its points and obstacles, y and x. It takes the same Input as
// FrontView, tells the same Events and answers to the same keys. Upright, wheel
// and ground are moved in the front view, and so is the pivot of a flat arm,
// which has no place along the car.
//
// It stands plumb under a front view, with the same zoom: see StandUnder.
type PlanView struct{ board }

var (
	_ fyne.Draggable     = (*PlanView)(nil)
	_ fyne.Scrollable    = (*PlanView)(nil)
	_ fyne.Focusable     = (*PlanView)(nil)
	_ fyne.Tabbable      = (*PlanView)(nil)
	_ fyne.Shortcutable  = (*PlanView)(nil)
	_ desktop.Mouseable  = (*PlanView)(nil)
	_ desktop.Hoverable  = (*PlanView)(nil)
	_ desktop.Cursorable = (*PlanView)(nil)
	_ desktop.Keyable    = (*PlanView)(nil)
)

// NewPlanView returns a view without a corner: blank paper until SetInput.
func NewPlanView() *PlanView {
	v := &PlanView{}
	v.start(v, true)
	return v
}

// StandUnder keeps the plan plumb under a front view whose left edge stands
// above its own: zoom, and the place across the car, of either follow the other
// at once, and both tell OnView of it. While the front view is fitted and shows
// scene.Clearance, it is drawn no larger than lets the plan show a whole tyre,
// down to half its size. What is selected in one is so in the other. What is
// held or locked in the front view is so in the plan, and what a hand does to the corner in the plan is told by the Events of
// the front view, unless the plan has an OnChanged of its own. nil parts them
// again.
func (v *PlanView) StandUnder(front *FrontView) {
	if was := v.peer; was != nil {
		was.peer, v.peer = nil, nil
		was.refit()
	}
	if front == nil {
		return
	}
	v.SetLocks(front.locks)
	v.SetLocked(front.locked)
	v.peer, front.peer = &front.board, &v.board
	front.refit()
	v.follow()
}
