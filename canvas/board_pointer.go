package canvas

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
)

// press is the left button held down.
type press struct {
	down   bool
	at     draw.Screen
	handle scene.Handle
	stack  []scene.Handle // what lies in one place with handle
	again  bool           // handle was selected before
	loupe  bool           // on the loupe
}

func (v *board) mods() fyne.KeyModifier {
	if v.Modifiers != nil {
		return v.Modifiers()
	}
	return heldModifiers()
}

// focus takes the keyboard without selecting anything.
func (v *board) focus() {
	v.clicked = true
	focusOn(v.self)
	v.clicked = false
}

// MouseDown takes hold, selects, begins to pan or asks for the menu.
func (v *board) MouseDown(e *desktop.MouseEvent) {
	v.event(func() {
		v.pointer = draw.Screen(e.Position)
		v.restKeys()
		v.focus()
		switch {
		case v.gesture != nil && !v.placing, v.press.down && e.Button != desktop.MouseButtonPrimary:
			return // another button during a drag
		case e.Button == desktop.MouseButtonTertiary, e.Button == desktop.MouseButtonPrimary && v.space:
			at := v.pointer
			v.pan = &at
		case e.Button == desktop.MouseButtonSecondary:
			v.menu(e.AbsolutePosition)
		case e.Button == desktop.MouseButtonPrimary:
			v.take()
		}
	})
}

func (v *board) menu(at fyne.Position) {
	if v.placing || v.pick != nil {
		return
	}
	h := v.under()
	if h != scene.NoHandle {
		v.choose(h)
	}
	if v.OnMenu != nil {
		v.OnMenu(h, at)
	}
}

// take presses the left button on what is under the pointer.
func (v *board) take() {
	v.press = press{down: true, at: v.pointer, handle: scene.NoHandle}
	if v.placing || v.pick != nil || !v.ready() {
		return
	}
	p := &v.press
	hits := v.hits()
	p.handle = grip.Pick(&v.out, hits, v.view.Zoom, v.selected)
	p.stack = grip.Stack(&v.out, hits, v.view.Zoom)
	if v.pointer == v.clickedAt && slices.Contains(p.stack, v.selected) {
		p.handle = v.selected // the pointer rests while clicks go through the pile
	}
	p.loupe = p.handle == scene.NoHandle && v.out.OnLoupe(v.view.ToWorld(v.pointer))
	v.clickedAt = v.pointer
	p.again = p.handle == v.selected
	v.choose(p.handle)
}

// hits lists the handles at the pointer.
func (v *board) hits() []scene.Handle {
	v.build()
	return grip.Hits(&v.out, v.view.ToWorld(v.pointer), v.view.Zoom)
}

// under returns the handle that a press at the pointer would take.
func (v *board) under() scene.Handle {
	if !v.ready() {
		return scene.NoHandle
	}
	return grip.Pick(&v.out, v.hits(), v.view.Zoom, v.selected)
}

// Dragged moves what was taken hold of, or pans.
func (v *board) Dragged(e *fyne.DragEvent) {
	v.event(func() {
		at := draw.Screen(e.Position)
		switch {
		case v.pan != nil:
			v.see(v.view.PanScreen(*v.pan, at))
			*v.pan, v.pointer = at, at
			return
		case v.placing:
			v.pointer = at
			v.preview()
			return
		case v.pick != nil:
			v.pointer = at
			v.touch()
			return
		case !v.press.down || v.press.handle == scene.NoHandle:
			return
		}
		if v.gesture == nil && v.refused() {
			v.press = press{}
			return
		}
		if v.gesture == nil {
			v.setHover(scene.NoHandle)
			v.begin(v.press.handle, v.view.ToWorld(v.press.at), false)
		}
		if v.gesture == nil {
			v.press = press{}
			return
		}
		v.pointer = at
		v.pull()
	})
}

// DragEnd lets go of what was dragged. It comes before MouseUp.
func (v *board) DragEnd() {
	v.event(func() {
		v.pan = nil
		if v.placing || v.pick != nil {
			return // the button comes up next, and places
		}
		v.press = press{}
		if v.gesture != nil {
			v.commit()
		}
	})
}

// MouseUp ends a click: it places, or goes through what lies in one place.
func (v *board) MouseUp(e *desktop.MouseEvent) {
	v.event(func() {
		if e.Button != desktop.MouseButtonPrimary {
			v.pan = nil
			return
		}
		if v.pan != nil { // a click with Space
			v.pan = nil
			return
		}
		p := v.press
		if !p.down || v.gesture != nil && !v.placing {
			return // a drag ends by DragEnd
		}
		v.press = press{}
		if v.pick != nil {
			v.pickUp(p.at, draw.Screen(e.Position))
			return
		}
		if v.placing {
			v.pointer = draw.Screen(e.Position)
			if v.preview(); v.gesture != nil {
				v.commit()
			}
			return
		}
		if p.loupe && v.OnLoupe != nil {
			v.OnLoupe()
			return
		}
		if p.again && len(p.stack) > 1 {
			next := slices.Index(p.stack, p.handle) + 1
			v.choose(p.stack[next%len(p.stack)])
			v.setHover(v.under())
		}
	})
}

// preview shows the handle that is being placed under the pointer.
func (v *board) preview() {
	if !v.ready() {
		return
	}
	if v.gesture == nil {
		v.begin(v.selected, draw.Point{}, true)
		if v.gesture == nil {
			v.placing = false
			return
		}
	}
	v.pull()
}

// MouseIn is MouseMoved.
func (v *board) MouseIn(e *desktop.MouseEvent) { v.MouseMoved(e) }

// MouseMoved names what is under the pointer, or shows where a click would place.
func (v *board) MouseMoved(e *desktop.MouseEvent) {
	v.event(func() {
		v.pointer = draw.Screen(e.Position)
		v.restKeys()
		switch {
		case v.pick != nil:
			v.touch()
		case v.placing:
			v.preview()
		case v.gesture == nil && v.pan == nil:
			v.setHover(v.under())
			v.loupe = ""
			if v.hover == scene.NoHandle && v.ready() {
				v.loupe = v.out.ReadLoupe(v.view.ToWorld(v.pointer))
			}
		}
	})
}

// MouseOut forgets the pointer; what was about to be placed goes back.
func (v *board) MouseOut() {
	v.event(func() {
		v.setHover(scene.NoHandle)
		v.loupe = ""
		if v.placing && v.gesture != nil {
			v.gesture.hand = grip.Hand{}
			v.show(v.gesture.back())
		}
	})
}

// Cursor tells by its shape what a press would do.
func (v *board) Cursor() desktop.Cursor {
	switch {
	case v.placing || v.pick != nil:
		return desktop.CrosshairCursor
	case v.hover != scene.NoHandle || v.gesture != nil || v.loupe != "" && v.OnLoupe != nil:
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
