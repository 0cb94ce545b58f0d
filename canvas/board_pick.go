package canvas

import (
	"math"

	"fyne.io/fyne/v2"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
)

// Pick is a place that is being asked for. While it is, clicks pick and change
// nothing; the wheel zooms and the middle button pans as ever. By the keyboard
// the arrows move the cross, and Enter picks.
type Pick struct {
	// Text tells in the status line what to click.
	Text string
	// Marks are places picked before, mm, joined by a line if Joined.
	Marks  []draw.Point
	Joined bool
	// Bare leaves the drawing out, so that what lies under it is seen.
	Bare bool
	// Lens shows beside the pointer what lies under the drawing, several times as
	// large.
	Lens bool
	// Pulled: another place will be asked for at once, and a pull from one place to
	// another picks both.
	Pulled bool
	// Names stand beside the marks.
	Names []string
	// Picked is told the place, mm. The pick is over when it is called.
	Picked func(at draw.Point)
	// Left is told that the person does not want to. The pick is over likewise.
	Left func()
}

// Sizes of the cross, points.
const (
	pullFrom  = 12 // how long a pull is, that is no click
	crossGap  = 5
	crossArm  = 18
	markInner = 2
)

// Ask asks for a place; nil asks for none any more. A gesture is abandoned.
func (v *board) Ask(p *Pick) {
	v.event(func() {
		if v.pick == nil && p != nil {
			v.Cancel()
			v.setHover(scene.NoHandle)
			v.focus()
		}
		v.pick = p
		v.touch()
	})
}

// Asking tells whether a place is being asked for.
func (v *board) Asking() bool { return v.pick != nil }

// picked ends the pick with the place under the pointer.
func (v *board) picked() {
	p := v.pick
	v.pick = nil
	v.touch()
	p.Picked(v.view.ToWorld(v.pointer))
}

// pickUp picks where the button comes up, and before that where it went down if
// it was pulled from there.
func (v *board) pickUp(down, up draw.Screen) {
	if v.pick.Pulled && math.Hypot(float64(up.X-down.X), float64(up.Y-down.Y)) > pullFrom {
		v.pointer = down
		v.picked()
		if v.pick == nil {
			return // nothing more is asked
		}
	}
	v.pointer = up
	v.picked()
}

// leavePick ends the pick without a place; false if there is none.
func (v *board) leavePick() bool {
	p := v.pick
	if p == nil {
		return false
	}
	v.pick = nil
	v.touch()
	if p.Left != nil {
		p.Left()
	}
	return true
}

// pickKey moves the cross or picks.
func (v *board) pickKey(key fyne.KeyName, mods fyne.KeyModifier) {
	step := float32(1) // point
	if mods&fyne.KeyModifierShift != 0 {
		step *= 10
	}
	if mods&fyne.KeyModifierControl != 0 {
		step /= 10
	}
	switch key {
	case fyne.KeyRight:
		v.pointer.X += step
	case fyne.KeyLeft:
		v.pointer.X -= step
	case fyne.KeyUp:
		v.pointer.Y -= step
	case fyne.KeyDown:
		v.pointer.Y += step
	case fyne.KeyReturn, fyne.KeyEnter:
		v.picked()
		return
	}
	v.pointer.X = max(0, min(v.pointer.X, float32(v.view.W)))
	v.pointer.Y = max(0, min(v.pointer.Y, float32(v.view.H)))
	v.touch()
}

// drawPick adds cross and marks to the list.
func (v *board) drawPick() {
	p, l := v.pick, &v.list
	if p.Bare {
		l.Reset()
	}
	l.On(draw.LayerNotes)
	for i, m := range p.Marks {
		if i > 0 && p.Joined {
			l.Line(draw.DimensionNow, p.Marks[i-1], m)
		}
		l.Circle(draw.HandleHeld, draw.On(m), 0, draw.HeldRadius)
		l.Circle(draw.HandleMovingNow, draw.On(m), 0, markInner)
		if i < len(p.Names) {
			l.Text(draw.TextNow, draw.On(m).Off(12, 8), draw.Left|draw.Baseline, p.Names[i])
		}
	}
	at := draw.On(v.view.ToWorld(v.pointer))
	for _, d := range [...]draw.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
		l.LineBy(draw.DimensionNow, at.Off(crossGap*d.X, crossGap*d.Y), at.Off(crossArm*d.X, crossArm*d.Y))
	}
}
