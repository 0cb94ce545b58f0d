package window

import (
	"math"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"armscribe/app/look"
	"armscribe/canvas/draw"
)

// planShare is how much of the height the plan takes under the front view.
const planShare = 0.42

// stacked lays out the front view and under it the plan, while it is shown. Its
// objects are front view, rule and plan.
type stacked struct{ s *roomSide }

// withPlan puts the plan under the front view.
func (s *roomSide) withPlan(front fyne.CanvasObject) fyne.CanvasObject {
	rule := fynecanvas.NewRectangle(look.Current()[draw.Hairline])
	s.stack = container.New(&stacked{s}, front, rule, s.plan)
	return s.stack
}

// MinSize is that of the front view.
func (l *stacked) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// Layout places front view and plan.
func (l *stacked) Layout(o []fyne.CanvasObject, size fyne.Size) {
	on := l.s.isShown()
	show(o[1], on)
	show(o[2], on)
	if !on {
		place(o[0], 0, 0, size.Width, size.Height)
		return
	}
	const rule = 1
	under := float32(math.Round(float64(size.Height * planShare)))
	top := size.Height - under
	o[1].(*fynecanvas.Rectangle).FillColor = look.Current()[draw.Hairline]
	place(o[0], 0, 0, size.Width, top)
	place(o[1], 0, top, size.Width, rule)
	place(o[2], 0, top+rule, size.Width, under-rule)
}

// stand puts the plan under the front view, or takes it away, as the overlay
// says.
func (s *roomSide) stand() {
	if s.isShown() {
		s.plan.StandUnder(s.w.view)
	} else {
		s.plan.StandUnder(nil)
	}
	s.stack.Refresh()
}

// keyRoomRoll is where the roll of the clearance is remembered.
const keyRoomRoll = "clearance roll"

// roomRoll is the roll either way, rad, that the sweep looks at.
func (p prefs) roomRoll() float64       { return p.store.Float(keyRoomRoll) }
func (p prefs) setRoomRoll(rad float64) { p.store.SetFloat(keyRoomRoll, rad) }
