package canvas

import (
	"math/rand/v2"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// Whatever hands do in both views, with the Input changing beneath them, no
// picture breaks, no number is lost, and the views stay plumb.
func TestRandomHandsAmongObstacles(t *testing.T) {
	const seed = 93
	rng := rand.New(rand.NewPCG(seed, 4))
	o := newRoomOwner(t, 12)
	o.view.OnChanged = func(c kinematics.Corner) { o.changed++; o.set(c); o.show() }
	o.view.OnCancelled = func(c kinematics.Corner) { o.set(c); o.show() }
	keys := []fyne.KeyName{fyne.KeyTab, fyne.KeyUp, fyne.KeyLeft, fyne.KeyEscape, fyne.KeyM, fyne.KeyRight, fyne.KeyDown}
	mods := []fyne.KeyModifier{0, 0, fyne.KeyModifierShift, fyne.KeyModifierControl}
	buttons := []desktop.MouseButton{desktop.MouseButtonPrimary, desktop.MouseButtonPrimary, desktop.MouseButtonTertiary}
	for n := range 2400 {
		b := []*board{&o.view.board, &o.plan.board}[rng.IntN(2)]
		p := fyne.NewPos(float32(rng.IntN(900)), float32(rng.IntN(340)))
		if out, _ := b.Shown(); rng.IntN(2) == 0 && len(out.Spots) > 0 {
			p = spotOn(t, b, out.Spots[rng.IntN(len(out.Spots))].Handle)
		}
		if n%30 == 0 {
			o.in.Obstacles, o.in.Overlays = sampleObstacles(), o.in.Overlays|scene.Clearance
			o.show()
		}
		o.mods = mods[rng.IntN(len(mods))]
		button := buttons[rng.IntN(len(buttons))]
		switch rng.IntN(10) {
		case 0, 1, 2:
			b.MouseDown(mouse(p, button))
		case 3, 4, 5:
			b.Dragged(dragTo(p))
		case 6:
			letGoOn(b, p)
		case 7:
			b.MouseMoved(mouse(p, 0))
		case 8:
			pressOn(b, keys[rng.IntN(len(keys))])
		case 9:
			switch rng.IntN(8) {
			case 0:
				o.in.Obstacles = sampleObstacles()[:rng.IntN(5)]
			case 1:
				o.in.Overlays ^= scene.Clearance
			case 2:
				b.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: p}, Scrolled: fyne.Delta{DY: float32(rng.IntN(3)-1) * 25}})
			case 3:
				b.Fit()
			}
			o.show()
		}
		for i := range o.in.Obstacles {
			a, e := o.in.Obstacles[i].A, o.in.Obstacles[i].B
			if sum := a.X + a.Y + a.Z + e.X + e.Y + e.Z + o.in.Obstacles[i].Radius; sum-sum != 0 {
				t.Fatalf("seed %d, event %d: %+v", seed, n, o.in.Obstacles[i])
			}
		}
		if n%25 == 0 {
			o.view.paint(450, 280) // a NaN in the picture panics
			o.plan.paint(450, 170)
			if o.plumb(0) > 0.01 {
				t.Fatalf("seed %d, event %d: %v points out of plumb", seed, n, o.plumb(0))
			}
		}
	}
	if o.told < 50 || len(o.ended) < 10 || o.changed < 50 {
		t.Errorf("only %d and %d changes, %d deeds: the walk shows little", o.told, o.changed, len(o.ended))
	}
}
