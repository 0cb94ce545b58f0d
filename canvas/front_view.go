package canvas

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// FrontView shows a corner from in front of the car and lets a hand change it.
//
// It holds no job: it is given a scene.Input by SetInput, and tells by its
// Events what the hand does, by OnChanged what becomes of the corner. The owner
// then updates its study and calls SetInput, from within OnChanged or later;
// within, picture and pointer stay in the same frame. The pointers in the Input
// (study, compared variant) stay the owner's, who changes what they point at
// only together with a SetInput.
//
// An obstacle goes the same way, by OnObstacle: the owner puts it into the Input.
//
// Of the Input the view sets by itself what belongs to the hand: Selected,
// Hover, Focus, Held, Guides and Note.
//
// # By hand
//
//	left button      drag a point, the upright, the wheel's outline, the ground,
//	                 an end of an obstacle
//	Shift, Ctrl      while dragging: keep to the nearer axis; suspend snapping (also Alt)
//	Esc              cancels a drag, leaves 'move to'
//	click            selects; a second click goes through what lies in one place
//	wheel            zooms about the pointer; middle button, or Space and drag, pans
//	right button     OnMenu
//	Tab, Shift+Tab   go through the handles in the order of scene.Output.Spots
//	arrows           nudge one step, with Shift ten, with Ctrl a tenth
//	Enter            OnTyped
//	M                'move to': the next click places the selected handle
//
// All methods belong to the toolkit's goroutine. One event causes one repaint.
type FrontView struct {
	board

	underlay Underlay
	backdrop backdrop
}

var (
	_ fyne.Draggable     = (*FrontView)(nil)
	_ fyne.Scrollable    = (*FrontView)(nil)
	_ fyne.Focusable     = (*FrontView)(nil)
	_ fyne.Tabbable      = (*FrontView)(nil)
	_ fyne.Shortcutable  = (*FrontView)(nil)
	_ desktop.Mouseable  = (*FrontView)(nil)
	_ desktop.Hoverable  = (*FrontView)(nil)
	_ desktop.Cursorable = (*FrontView)(nil)
	_ desktop.Keyable    = (*FrontView)(nil)
)

// NewFrontView returns a view without a corner: blank paper until SetInput.
func NewFrontView() *FrontView {
	v := &FrontView{}
	v.start(v, false)
	v.backing, v.lens = v.ground, v.magnify
	return v
}
