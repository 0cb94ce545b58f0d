package canvas

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
)

// say tells a message if it is another one.
func (v *board) say(text string) {
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
func (v *board) tellStatus() {
	text := v.statusText()
	if _, _, ok := v.spokenOf().Obstacle(); !ok { // its name is the person's own words
		text = v.inWords(text)
	}
	if text == v.status {
		return
	}
	v.status = text
	if v.OnStatus != nil {
		v.OnStatus(text)
	}
}

func (v *board) statusText() string {
	const keys = "Shift keeps to one axis, Ctrl suspends snapping, "
	switch {
	case !v.ready():
		return ""
	case v.pick != nil:
		return v.pick.Text
	case v.placing:
		return "Click where " + v.theName(v.selected) + " goes. " + keys + "Esc leaves it."
	case v.gesture != nil:
		return "Moving " + v.theName(v.gesture.handle) + v.held(v.gesture.handle) + v.remade(v.gesture.handle) + ". " + keys + "Esc cancels."
	case v.pan != nil || v.space:
		return "Space and drag, or the middle button, moves the picture."
	case v.locked != "" && v.hover != scene.NoHandle:
		return upperFirst(v.name(v.hover)) + ". " + upperFirst(v.locked)
	case v.locked != "" && v.selected != scene.NoHandle:
		return upperFirst(v.name(v.selected)) + ". " + upperFirst(v.locked)
	case v.hover != scene.NoHandle:
		words := upperFirst(v.name(v.hover)) + v.held(v.hover) + ": drag it, or click and press arrows, Enter to type" + v.letters() + "."
		if _, _, ok := v.hover.Obstacle(); !ok {
			words += v.rightButton(v.hover)
		}
		return words
	case v.loupe != "":
		return upperFirst(v.loupe) + ". Click: which end of the rod to move."
	case v.selected != scene.NoHandle:
		return upperFirst(v.name(v.selected)) + v.held(v.selected) + ": arrows nudge, Shift ten times, Ctrl a tenth; Enter types" + v.letters() + "; Tab goes on."
	}
	return v.idle()
}

// idle says what can be done, and before that which labels the picture has left out: a
// narrow line is cut at its end.
func (v *board) idle() string {
	v.build()
	switch left := v.out.LeftOut; {
	case len(left) == 0 && v.plan:
		return "Seen from above, the nose down. Drag a point or an obstacle. Tab goes through them; the wheel zooms."
	case len(left) == 0:
		return "Drag a point, the upright, the wheel or the ground. Tab goes through them; the wheel zooms."
	case v.plan:
		return "No room for: " + strings.Join(left, ", ") + ". Nose down. Drag a point or an obstacle; Tab goes on."
	default:
		return "No room for: " + strings.Join(left, ", ") + ". Drag a point, upright, wheel or ground; Tab goes on."
	}
}

// remade says that a ball joint in the hand makes another upright.
func (v *board) remade(h scene.Handle) string {
	if v.locks.Remakes(h) {
		return ": the upright is remade, the arm follows"
	}
	return ""
}

// rightButton says what the right button is for.
func (v *board) rightButton(h scene.Handle) string {
	if v.locks.Remakes(h) {
		return " It moves in the upright: right button for locks, to hold the upright so that its arm grows."
	}
	return " Right button: locks."
}

func (v *board) letters() string {
	if v.NoLetterKeys {
		return ""
	}
	return ", M to place by a click"
}

// inWords puts a text into the words of the axle shown.
func (v *board) inWords(text string) string {
	if v.in.Rear {
		return grip.ForRear(text)
	}
	return text
}

// spokenOf is the handle that the status is about.
func (v *board) spokenOf() scene.Handle {
	switch {
	case v.gesture != nil:
		return v.gesture.handle
	case v.placing:
		return v.selected
	}
	return v.pointed()
}

// held says what of a handle is held, in brackets; empty if nothing is.
func (v *board) held(h scene.Handle) string {
	if _, _, ok := h.Obstacle(); ok {
		return ""
	}
	if words := v.locks.In(v.plan).Words(v.corner(), h); words != "" {
		return " (" + words + ")"
	}
	return ""
}

func (v *board) name(h scene.Handle) string {
	if i, end, ok := h.Obstacle(); ok {
		if i >= len(v.in.Obstacles) {
			return "obstacle" // taken away while in the hand
		}
		return grip.ObstacleName(&v.in.Obstacles[i].Obstacle, end)
	}
	return grip.NameOf(v.corner(), h)
}

// theName is a name within a sentence; that of an obstacle takes no article.
func (v *board) theName(h scene.Handle) string {
	if _, _, ok := h.Obstacle(); ok {
		return v.name(h)
	}
	return "the " + v.name(h)
}

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
