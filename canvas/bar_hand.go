package canvas

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Reach of the hand in points.
const (
	// barHit is how far from the middle of a grip or from the level line the
	// pointer still takes it: a target of 24 points.
	barHit = 12
	// barSnap is how near to rest a drag snaps to it.
	barSnap = 3
)

// barTrack places values along a line of the screen: p = zero + per*v, in points.
// per is negative where values grow against p, as upward on a screen.
type barTrack struct{ zero, per float64 }

func (t barTrack) at(v float64) float64    { return t.zero + t.per*v }
func (t barTrack) value(p float64) float64 { return (p - t.zero) / t.per }

// barHand is a value and the hand that sets it along a track.
type barHand struct {
	axis  Axis
	value float64
	track barTrack

	held   bool
	start  float64 // value when the hand closed
	offset float64 // from the grip's middle to the pointer, points

	moved func(v float64) // by hand, never by put
	ended func(v float64)
}

// put sets the value without telling anyone, kept to the axis.
func (h *barHand) put(v float64) {
	if v-v != 0 {
		panic(fmt.Sprintf("canvas: %g is no %s", v, h.axis.Name))
	}
	h.value = h.axis.clamp(v)
}

// set changes the value by hand.
func (h *barHand) set(v float64) {
	if v == h.value {
		return
	}
	h.value = v
	if h.moved != nil {
		h.moved(v)
	}
}

// onGrip tells whether the pointer at p along the track takes the grip.
func (h *barHand) onGrip(p float64) bool { return math.Abs(p-h.track.at(h.value)) <= barHit }

// press closes the hand at p: on the grip where it is, elsewhere the grip jumps
// to the pointer.
func (h *barHand) press(p float64, free bool) {
	h.held, h.start, h.offset = true, h.value, 0
	if h.onGrip(p) {
		h.offset = p - h.track.at(h.value)
		return
	}
	h.drag(p, free)
}

// drag follows the pointer to p. Near rest it snaps there unless free. The value
// depends on p alone, not on the way.
func (h *barHand) drag(p float64, free bool) {
	if !h.held {
		return
	}
	p -= h.offset
	v := h.track.value(p)
	if !free && math.Abs(p-h.track.at(0)) <= barSnap {
		v = 0
	}
	h.set(h.axis.clamp(v))
}

// release opens the hand.
func (h *barHand) release() {
	if !h.held {
		return
	}
	h.held = false
	if h.ended != nil {
		h.ended(h.value)
	}
}

// abandon opens the hand and gives back the value it found.
func (h *barHand) abandon() {
	if h.held {
		h.set(h.start)
		h.release()
	}
}

// key acts on a key and tells whether it did.
func (h *barHand) key(k fyne.KeyName, mods fyne.KeyModifier) bool {
	if k == fyne.KeyEscape {
		was := h.held
		h.abandon()
		return was
	}
	v, ok := h.axis.key(h.value, k, mods)
	if !ok || h.held {
		return false
	}
	if v != h.value {
		h.set(v)
		if h.ended != nil {
			h.ended(v)
		}
	}
	return true
}

// shortcut acts on an arrow key with Ctrl, which the toolkit sends as a shortcut.
func (h *barHand) shortcut(s fyne.Shortcut) bool {
	c, ok := s.(*desktop.CustomShortcut)
	return ok && h.key(c.KeyName, c.Modifier)
}

// heldModifiers asks the desktop for the modifier keys that are down; without a
// desktop none are.
func heldModifiers() fyne.KeyModifier {
	if a := fyne.CurrentApp(); a != nil {
		if d, ok := a.Driver().(desktop.Driver); ok {
			return d.CurrentKeyModifiers()
		}
	}
	return 0
}
