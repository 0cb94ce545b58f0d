package canvas

import (
	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
	"armscribe/kinematics"

	"fyne.io/fyne/v2"
)

// gesture is a hand that holds a handle.
type gesture struct {
	drag   *grip.Drag
	offset draw.Point // from the pointer to the place wished for the handle, mm
	hand   grip.Hand
	result grip.Result
	nudged bool // by a key
}

// deed names what the gesture did, for undo.
func (g *gesture) deed() string {
	start := g.drag.Start()
	if g.nudged {
		return "nudge " + grip.NameOf(&start, g.drag.Handle())
	}
	return grip.Deed(&start, g.drag.Handle())
}

// job is what a gesture that begins now needs to know.
func (v *FrontView) job() grip.Job {
	v.build()
	span := v.in.Now.Study.Case.Span
	j := grip.Job{
		Stance: grip.Stance{Travel: v.out.Travel, Rack: v.out.Rack},
		Bump:   span.Bump, Droop: span.Droop, Locks: v.locks, Step: v.step, Format: v.in.Format,
	}
	if v.out.Rolled {
		j.Stance = grip.Stance{Rack: v.out.Rack, Roll: v.out.Roll}
	}
	return j
}

// begin closes the hand on a handle, with the pointer at a place of the world;
// place has the handle jump to the pointer.
func (v *FrontView) begin(h scene.Handle, pointer draw.Point, place bool) {
	if v.refused() {
		return
	}
	d, err := grip.Begin(*v.corner(), h, v.job())
	if err != nil {
		v.say(err.Error())
		return
	}
	offset := d.From().Sub(pointer)
	if place {
		offset = draw.Point{}
		if _, isPoint := h.Point(); !isPoint {
			spot, _ := v.out.Spot(h) // bodies are marked off the place they are reckoned from
			offset = d.From().Sub(spot.At)
		}
	}
	v.gesture = &gesture{drag: d, offset: offset, result: grip.Result{Corner: d.Start(), At: d.From()}}
}

// pull moves what the hand holds to the pointer.
func (v *FrontView) pull() {
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
	v.show(g.drag.To(hand))
}

// show takes over a result of the gesture and tells of it.
func (v *FrontView) show(r grip.Result) {
	g := v.gesture
	changed := r.Corner != g.result.Corner
	g.result = r
	v.guides = r.Guides
	v.note = append([]string{upperFirst(v.name(g.drag.Handle()))}, g.drag.Note(&r)...)
	v.note = v.finished(v.note, g.drag.Handle())
	v.say(r.Message)
	v.touch()
	if changed && v.OnChanged != nil {
		v.OnChanged(r.Corner)
	}
}

// commit opens the hand.
func (v *FrontView) commit() {
	g := v.gesture
	v.release()
	before, after := g.drag.Start(), g.result.Corner
	if before != after && v.OnChangeEnded != nil {
		v.OnChangeEnded(v.inWords(g.deed()), before, after)
	}
}

// cancel opens the hand and gives back the corner it found.
func (v *FrontView) cancel() {
	g := v.gesture
	v.release()
	v.note = nil
	v.say("")
	if v.OnCancelled != nil {
		v.OnCancelled(g.drag.Start())
	}
}

func (v *FrontView) release() {
	v.gesture, v.guides = nil, nil
	v.placing = false
	v.touch()
}

// nudge moves the selected handle by a way of its resting coordinates, mm.
func (v *FrontView) nudge(dy, dz float64) {
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
	v.gesture.nudged = true
	v.show(v.gesture.drag.By(dy, dz))
	v.commit()
}

// Spot returns where a handle is seen, mm; false if the picture has none.
func (v *FrontView) Spot(h scene.Handle) (draw.Point, bool) {
	if !v.ready() {
		return draw.Point{}, false
	}
	v.build()
	s, ok := v.out.Spot(h)
	return s.At, ok
}

// MoveTo starts 'pick the point, then pick where it goes': the selected handle
// follows the pointer, the next click places it and Esc leaves it where it was.
func (v *FrontView) MoveTo() {
	v.event(func() {
		if v.gesture == nil && v.ready() && v.selected != scene.NoHandle && !v.refused() {
			v.focus()
			v.placing = true
			v.setHover(scene.NoHandle)
		}
	})
}

// Placing tells whether a click will place the selected handle.
func (v *FrontView) Placing() bool { return v.placing }

// Cancel abandons the gesture in progress, leaves 'move to' and what Ask asks
// for; false if there
// was nothing to abandon.
func (v *FrontView) Cancel() bool {
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

// choose selects a handle.
func (v *FrontView) choose(h scene.Handle) {
	if h == v.selected {
		return
	}
	v.selected = h
	v.note = v.noteOf(h)
	v.say("")
	v.touch()
	if v.OnSelected != nil {
		v.OnSelected(h)
	}
}

// setHover points at a handle.
func (v *FrontView) setHover(h scene.Handle) {
	if h == v.hover {
		return
	}
	v.hover = h
	if h == scene.NoHandle {
		h = v.selected
	}
	v.note = v.noteOf(h)
	v.touch()
	if v.OnHover != nil {
		v.OnHover(v.hover)
	}
}

// noteOf names a handle and its coordinates.
func (v *FrontView) noteOf(h scene.Handle) []string {
	if h == scene.NoHandle {
		return nil
	}
	return v.finished(handleNote(v.corner(), h, v.in.Format), h)
}

// finished adds to a note what is held, and puts it into the words of the axle.
func (v *FrontView) finished(note []string, h scene.Handle) []string {
	if held := v.locks.Words(v.corner(), h); held != "" {
		note = append(note, held)
	}
	for i := range note {
		note[i] = v.inWords(note[i])
	}
	return note
}

func handleNote(c *kinematics.Corner, h scene.Handle, format scene.Formatter) []string {
	note := []string{upperFirst(grip.NameOf(c, h))}
	if at := grip.Coordinates(c, h, format); at != "" {
		note = append(note, at)
	}
	return note
}
