package canvas

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
)

// say tells a message if it is another one.
func (v *FrontView) say(text string) {
	text = v.inWords(text)
	if text == v.message {
		return
	}
	v.message = text
	if v.OnMessage != nil {
		v.OnMessage(text)
	}
}

// tellStatus tells what the hand is doing, if it does something else.
func (v *FrontView) tellStatus() {
	text := v.inWords(v.statusText())
	if text == v.status {
		return
	}
	v.status = text
	if v.OnStatus != nil {
		v.OnStatus(text)
	}
}

func (v *FrontView) statusText() string {
	const keys = "Shift keeps to one axis, Ctrl suspends snapping, "
	switch {
	case !v.ready():
		return ""
	case v.pick != nil:
		return v.pick.Text
	case v.placing:
		return "Click where the " + v.name(v.selected) + " goes. " + keys + "Esc leaves it."
	case v.gesture != nil:
		return "Moving the " + v.name(v.gesture.drag.Handle()) + v.held(v.gesture.drag.Handle()) + ". " + keys + "Esc cancels."
	case v.pan != nil || v.space:
		return "Space and drag, or the middle button, moves the picture."
	case v.locked != "" && v.hover != scene.NoHandle:
		return upperFirst(v.name(v.hover)) + ". " + upperFirst(v.locked)
	case v.locked != "" && v.selected != scene.NoHandle:
		return upperFirst(v.name(v.selected)) + ". " + upperFirst(v.locked)
	case v.hover != scene.NoHandle:
		return upperFirst(v.name(v.hover)) + v.held(v.hover) + ": drag it, or click and press arrows, Enter to type" + v.letters() + ". Right button: locks."
	case v.selected != scene.NoHandle:
		return upperFirst(v.name(v.selected)) + v.held(v.selected) + ": arrows nudge, Shift ten times, Ctrl a tenth; Enter types" + v.letters() + "; Tab goes on."
	}
	return "Drag a point, the upright, the wheel or the ground. Tab goes through them; the wheel zooms."
}

func (v *FrontView) letters() string {
	if v.NoLetterKeys {
		return ""
	}
	return ", M to place by a click"
}

// inWords puts a text into the words of the axle shown.
func (v *FrontView) inWords(text string) string {
	if v.in.Rear {
		return grip.ForRear(text)
	}
	return text
}

// held says what of a handle is held, in brackets; empty if nothing is.
func (v *FrontView) held(h scene.Handle) string {
	if words := v.locks.Words(v.corner(), h); words != "" {
		return " (" + words + ")"
	}
	return ""
}

func (v *FrontView) name(h scene.Handle) string { return grip.NameOf(v.corner(), h) }

// upperFirst begins a text with a capital.
func upperFirst(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	if n == 0 {
		return text
	}
	var b strings.Builder
	b.WriteRune(unicode.ToUpper(r))
	b.WriteString(text[n:])
	return b.String()
}
