package canvas

import (
	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"

	"fyne.io/fyne/v2"
)

// gesture is a hand that holds a handle.
type gesture struct {
	hold
	handle scene.Handle
	offset draw.Point // from the pointer to the place wished for the handle, mm
	hand   grip.Hand
	nudged bool // by a key
}

// hold is what a hand does to the thing in it.
type hold interface {
	from() draw.Point // where the handle was seen
	to(hand grip.Hand) held
	by(right, up float64) held // mm of what the view shows
	back() held                // as it was
	tell()                     // what it is now, to the owner
	ended(nudged bool)         // likewise, if it is another than before
	cancelled()
}

// held is what came of moving what is held.
type held struct {
	changed bool
	guides  []scene.Guide
	note    []string
	message string
}

// begin closes the hand on a handle, with the pointer at a place of the world;
// place has the handle jump to the pointer.
func (v *board) begin(h scene.Handle, pointer draw.Point, place bool) {
	if v.refused() {
		return
	}
	v.build()
	var g hold
	if i, end, ok := h.Obstacle(); ok {
		g = v.holdObstacle(i, end)
	} else {
		c, err := v.holdCorner(h)
		if err != nil {
			v.say(err.Error())
			return
		}
		g = c
	}
	offset := g.from().Sub(pointer)
	if place {
		offset = draw.Point{}
		if !h.IsPlace() {
			spot, _ := v.out.Spot(h) // bodies are marked off the place they are computed from
			offset = g.from().Sub(spot.At)
		}
	}
	v.gesture = &gesture{hold: g, handle: h, offset: offset}
}

// pull moves what the hand holds to the pointer.
func (v *board) pull() {
	g := v.gesture
	mods := v.mods()
	hand := grip.Hand{
		At:   v.view.ToWorld(v.pointer).Add(g.offset),
		Zoom: v.view.Zoom,
		Axis: mods&fyne.KeyModifierShift != 0,
		Free: mods&(fyne.KeyModifierControl|fyne.KeyModifierAlt) != 0,
	}
	if hand == g.hand {
		return
	}
	g.hand = hand
	v.show(g.to(hand))
}

// show takes over what came of a gesture and tells of it.
func (v *board) show(r held) {
	g := v.gesture
	v.guides = r.guides
	v.note = v.finished(append([]string{upperFirst(v.name(g.handle))}, r.note...), g.handle)
	v.say(r.message)
	v.touch()
	if r.changed {
		g.tell()
	}
}

// commit opens the hand.
func (v *board) commit() {
	g := v.gesture
	v.release()
	g.ended(g.nudged)
}

// cancel opens the hand and gives back what it found.
func (v *board) cancel() {
	g := v.gesture
	v.release()
	v.note = nil
	v.say("")
	g.cancelled()
}

func (v *board) release() {
	v.gesture, v.guides = nil, nil
	v.placing = false
	v.touch()
	if p := v.peer; p != nil {
		p.event(p.touch)
	}
}

// nudge moves the selected handle by a way of its resting coordinates, mm.
func (v *board) nudge(right, up float64) { v.moveBy(right, up, true) }

// MoveBy is nudge for a way that was typed.
func (v *board) MoveBy(right, up float64) {
	v.event(func() {
		if !v.refused() {
			v.moveBy(right, up, false)
		}
	})
}

func (v *board) moveBy(right, up float64, nudged bool) {
	if v.gesture != nil || v.selected == scene.NoHandle || !v.ready() {
		return
	}
	spot, ok := v.Spot(v.selected)
	if !ok {
		return
	}
	v.begin(v.selected, spot, false)
	if v.gesture == nil {
		return
	}
	v.gesture.nudged, v.nudging = nudged, nudged
	v.show(v.gesture.by(right, up))
	v.commit()
}

// Spot returns where a handle is seen, mm; false if the picture has none.
func (v *board) Spot(h scene.Handle) (draw.Point, bool) {
	if !v.ready() {
		return draw.Point{}, false
	}
	v.build()
	s, ok := v.out.Spot(h)
	return s.At, ok
}

// MoveTo starts 'pick the point, then pick where it goes': the selected handle
// follows the pointer, the next click places it and Esc leaves it where it was.
func (v *board) MoveTo() {
	v.event(func() {
		if v.gesture == nil && v.ready() && v.selected != scene.NoHandle && !v.refused() {
			v.focus()
			v.placing = true
			v.setHover(scene.NoHandle)
		}
	})
}

// Placing tells whether a click will place the selected handle.
func (v *board) Placing() bool { return v.placing }

// Cancel abandons the gesture in progress, leaves 'move to' and what Ask asks
// for; false if there
// was nothing to abandon.
func (v *board) Cancel() bool {
	was := v.gesture != nil || v.placing || v.pick != nil
	v.event(func() {
		v.press = press{} // what the button still does has no hold any more
		if v.gesture != nil {
			v.cancel()
		}
		if v.placing {
			v.placing = false
			v.touch()
		}
		v.leavePick()
	})
	return was
}

// choose selects a handle, also in the view that is plumb with this one.
func (v *board) choose(h scene.Handle) {
	if h == v.selected {
		return
	}
	v.mark(h)
	if p := v.peer; p != nil && p.gesture == nil && p.ready() {
		p.event(func() {
			if h != scene.NoHandle && !p.has(h) {
				h = scene.NoHandle
			}
			p.mark(h)
		})
	}
	if v.OnSelected != nil {
		v.OnSelected(v.selected)
	}
}

// mark makes a handle the selected one without telling.
func (v *board) mark(h scene.Handle) {
	v.selected = h
	v.remark(h)
	v.placing = v.placing && h != scene.NoHandle
	v.say("")
	v.touch()
}

// setHover points at a handle.
func (v *board) setHover(h scene.Handle) {
	if h == v.hover {
		return
	}
	v.hover = h
	if h == scene.NoHandle {
		h = v.selected
	}
	v.remark(h)
	v.touch()
	if v.OnHover != nil {
		v.OnHover(v.hover)
	}
}

// remark notes a handle anew.
func (v *board) remark(h scene.Handle) {
	v.note = v.noteOf(h)
	v.noted = v.nowAt(h)
}

// nowAt is what a note says of a handle, to tell whether it is still true.
func (v *board) nowAt(h scene.Handle) string {
	if h == scene.NoHandle {
		return ""
	}
	return v.name(h) + v.coordinates(h) + v.change(h)
}

// keepNote leaves the note as long as what it is about has its name and stands
// where it stood: undo, another view or a typed text may have changed that.
func (v *board) keepNote() {
	switch g := v.gesture; {
	case g != nil:
		v.noted = v.nowAt(g.handle)
	case v.nowAt(v.pointed()) != v.noted:
		v.remark(v.pointed())
	}
}

// noteOf names a handle and its coordinates.
func (v *board) noteOf(h scene.Handle) []string {
	if h == scene.NoHandle {
		return nil
	}
	note := []string{upperFirst(v.name(h))}
	for _, text := range []string{v.coordinates(h), v.change(h)} {
		if text != "" {
			note = append(note, text)
		}
	}
	return v.finished(note, h)
}

// change of a handle since the variant began, in words; empty for none.
func (v *board) change(h scene.Handle) string {
	if _, _, ok := h.Obstacle(); ok || v.in.Began == nil {
		return ""
	}
	return grip.Change(v.in.Began, v.corner(), h, v.plan, v.in.Format)
}

// coordinates of a handle in words; empty for none and for what has none.
func (v *board) coordinates(h scene.Handle) string {
	if h == scene.NoHandle {
		return ""
	}
	if i, end, ok := h.Obstacle(); ok {
		if i >= len(v.in.Obstacles) {
			return "" // taken away while in the hand
		}
		return grip.ObstacleCoordinates(&v.in.Obstacles[i].Obstacle, end, v.in.Format)
	}
	return grip.Coordinates(v.corner(), h, v.plan, v.in.Format)
}

// finished adds to a note what is held, and puts it into the words of the axle.
func (v *board) finished(note []string, h scene.Handle) []string {
	if _, _, ok := h.Obstacle(); ok {
		return note
	}
	if held := v.locks.In(v.plan).Words(v.corner(), h); held != "" {
		note = append(note, held)
	}
	for i := range note {
		note[i] = v.inWords(note[i])
	}
	return note
}
