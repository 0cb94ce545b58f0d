package canvas

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/canvas/scene"
)

// FocusGained comes with the keyboard. By Tab it selects the first handle, with
// Shift the last.
func (v *board) FocusGained() {
	v.event(func() {
		v.focused = true
		if !v.clicked && v.selected == scene.NoHandle {
			v.choose(v.neighbour())
		}
		v.touch()
	})
}

// FocusLost goes with the keyboard, and leaves 'move to'.
func (v *board) FocusLost() {
	v.event(func() {
		v.focused, v.space = false, false
		if v.placing {
			v.Cancel()
		}
		v.touch()
	})
}

// neighbour returns the next handle in the order of Tab, with Shift the one
// before; NoHandle past the ends. Without a selected one it is the first, or
// with Shift the last.
func (v *board) neighbour() scene.Handle {
	if !v.ready() {
		return scene.NoHandle
	}
	v.build()
	spots := v.out.Spots
	at, by := -1, 1
	if v.mods()&fyne.KeyModifierShift != 0 {
		at, by = len(spots), -1
	}
	for k, s := range spots {
		if s.Handle == v.selected {
			at = k
		}
	}
	if at += by; at < 0 || at >= len(spots) {
		return scene.NoHandle
	}
	return spots[at].Handle
}

// AcceptsTab tells whether Tab finds another handle; else it leaves the view.
func (v *board) AcceptsTab() bool { return v.pick == nil && v.neighbour() != scene.NoHandle }

// TypedKey nudges, walks the handles, asks for numbers, abandons.
func (v *board) TypedKey(e *fyne.KeyEvent) {
	if MenuKey(v, e) {
		return
	}
	v.event(func() {
		switch e.Name {
		case fyne.KeyEscape:
			if !v.Cancel() {
				v.choose(scene.NoHandle)
			}
			return
		}
		if v.gesture != nil || v.placing {
			return
		}
		if v.pick != nil {
			v.pickKey(e.Name, v.mods())
			return
		}
		switch e.Name {
		case fyne.KeyTab:
			if h := v.neighbour(); h != scene.NoHandle {
				v.setHover(scene.NoHandle)
				v.choose(h)
			}
		case fyne.KeyReturn, fyne.KeyEnter:
			if v.selected != scene.NoHandle && v.OnTyped != nil {
				v.OnTyped(v.selected)
			}
		case fyne.KeyM:
			if !v.NoLetterKeys {
				v.MoveTo()
			}
		default:
			v.arrow(e.Name, v.mods())
		}
	})
}

// TypedShortcut takes the arrows with Ctrl, which the toolkit sends as shortcuts.
func (v *board) TypedShortcut(s fyne.Shortcut) {
	if c, ok := s.(*desktop.CustomShortcut); ok {
		v.event(func() {
			if v.pick != nil {
				v.pickKey(c.KeyName, c.Modifier)
			} else if v.gesture == nil && !v.placing {
				v.arrow(c.KeyName, c.Modifier)
			}
		})
	}
}

// TypedRune takes no letters: TypedKey has them.
func (v *board) TypedRune(rune) {}

func (v *board) arrow(key fyne.KeyName, mods fyne.KeyModifier) {
	step := v.step
	if mods&fyne.KeyModifierShift != 0 {
		step *= 10
	}
	if mods&fyne.KeyModifierControl != 0 {
		step /= 10
	}
	switch key {
	case fyne.KeyRight:
		v.nudge(step, 0)
	case fyne.KeyLeft:
		v.nudge(-step, 0)
	case fyne.KeyUp:
		v.nudge(0, step)
	case fyne.KeyDown:
		v.nudge(0, -step)
	}
}

// KeyDown notes Space, and follows the keys that change a gesture.
func (v *board) KeyDown(e *fyne.KeyEvent) { v.key(e.Name, true) }

// KeyUp is the other end of KeyDown.
func (v *board) KeyUp(e *fyne.KeyEvent) { v.key(e.Name, false) }

func (v *board) key(name fyne.KeyName, down bool) {
	v.event(func() {
		switch name {
		case fyne.KeySpace:
			v.space = down
		case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
			if !down {
				v.restKeys()
			}
		case desktop.KeyShiftLeft, desktop.KeyShiftRight, desktop.KeyControlLeft, desktop.KeyControlRight,
			desktop.KeyAltLeft, desktop.KeyAltRight:
			if v.gesture != nil {
				v.pull()
			}
		}
	})
}
