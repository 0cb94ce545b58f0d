package canvas

import (
	"fyne.io/fyne/v2"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// Events is what FrontView and PlanView tell, and what they ask. Any may be nil.
type Events struct {
	// OnChanged is told the corner under the hand, often during a gesture.
	OnChanged func(c kinematics.Corner)
	// OnChangeEnded is told once that a gesture is done, and its name for undo,
	// such as "move lower ball joint", or "nudge lower ball joint" for each press
	// of a key. before and after differ.
	OnChangeEnded func(name string, before, after kinematics.Corner)
	// OnCancelled gives back the corner from before a gesture that was abandoned.
	OnCancelled func(before kinematics.Corner)
	// OnHover and OnSelected are told what is pointed at and selected, or
	// scene.NoHandle.
	OnHover, OnSelected func(h scene.Handle)
	// OnStatus is told what the hand is doing and which keys change it.
	OnStatus func(text string)
	// OnMessage is told why a gesture stops or what it lost; empty once that is over.
	OnMessage func(text string)
	// OnView is told that zoom, pan or size changed, so that a bar beside the
	// view, or a view beneath it, can go with it.
	OnView func(v draw.View)
	// OnPainted is told that a picture has been painted, before it is shown.
	OnPainted func()
	// OnLoupe is told of a click on the loupe: it asks which end of the tie rod to
	// move.
	OnLoupe func()
	// OnTyped asks for the entry of a handle's numbers: x, y, z of a point.
	OnTyped func(h scene.Handle)
	// OnMenu asks for the menu of a handle (NoHandle: of the view) at a place of
	// the window's canvas.
	OnMenu func(h scene.Handle, at fyne.Position)
	// OnObstacle is told the obstacle under the hand, by its index in
	// Input.Obstacles, often during a gesture. Its places are those at rest.
	OnObstacle func(index int, o clearance.Obstacle)
	// OnObstacleEnded is told once that a gesture on an obstacle is done, and its
	// name for undo, such as "move inner wing". before and after differ.
	OnObstacleEnded func(name string, index int, before, after clearance.Obstacle)
	// OnObstacleCancelled gives back the obstacle from before a gesture that was
	// abandoned.
	OnObstacleCancelled func(index int, before clearance.Obstacle)
	// Modifiers tells which modifier keys are down; nil asks the desktop.
	Modifiers func() fyne.KeyModifier
	// NoLetterKeys switches off the keys that are single letters (M).
	NoLetterKeys bool
}
