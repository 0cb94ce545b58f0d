package grip

import (
	"errors"
	"fmt"
	"strings"

	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// NameOf returns the name of a handle in the trade's words.
func NameOf(c *kinematics.Corner, h scene.Handle) string {
	switch h {
	case scene.UprightBody:
		return "upright"
	case scene.WheelOutline:
		return "wheel"
	case scene.GroundLine:
		return "ground"
	}
	p, ok := h.Point()
	if !ok {
		panic(fmt.Sprintf("grip: no handle %d", h))
	}
	return c.NameOf(p)
}

// Deed names what the gesture does, for undo: "move rack end", or "nudge rack
// end" for each press of a key. A ball joint that moves in the upright says so,
// and with the upright held its arm is what changes.
func (d *Drag) Deed(nudged bool) string {
	verb := "move "
	if nudged {
		verb = "nudge "
	}
	switch {
	case d.grows != noneGrown:
		return verb + NameOf(&d.start, d.handle) + ", " + d.grows.name() + " longer or shorter"
	case d.job.Locks.Remakes(d.handle):
		return verb + NameOf(&d.start, d.handle) + ", upright remade"
	case d.handle == scene.GroundLine && !nudged:
		return "change loaded radius"
	}
	return verb + NameOf(&d.start, d.handle)
}

// Coordinates returns a handle's numbers on a corner in words: y and z of a
// point at rest, spacer and offset of the wheel, the loaded radius of the
// ground. The upright has no numbers of its own and gives none.
// From above a point has y and x.
func Coordinates(c *kinematics.Corner, h scene.Handle, plan bool, format scene.Formatter) string {
	switch h {
	case scene.UprightBody, scene.NoHandle:
		return ""
	case scene.WheelOutline:
		return "spacer " + length(format, c.Wheel.Spacer) + ", offset " + length(format, c.Wheel.Offset)
	case scene.GroundLine:
		return "loaded radius " + length(format, c.Wheel.LoadedRadius)
	}
	q := startOf(c, h, plan)
	if plan {
		return "y " + length(format, q[0]) + "  x " + length(format, -q[1]+0)
	}
	return "y " + length(format, q[0]) + "  z " + length(format, q[1])
}

// Note returns what stands at the pointer: the handle's coordinates at rest,
// the change since the variant began, and what it snapped to.
func (d *Drag) Note(r *Result) []string {
	var note []string
	if at := Coordinates(&r.Corner, d.handle, d.job.Plan, d.job.Format); at != "" {
		note = append(note, at)
	}
	began := d.job.Began
	if began == nil {
		began = &d.start
	}
	change := Change(began, &r.Corner, d.handle, d.job.Plan, d.job.Format)
	if d.grows != noneGrown {
		by := lengths[d.grows-1].measure
		change = d.grows.name() + " " + signed(d.job.Format, by(&r.Corner)-by(began))
	}
	if change != "" {
		note = append(note, change)
	}
	if r.Snapped != "" {
		note = append(note, r.Snapped)
	}
	return note
}

// Change says how a handle's numbers differ from one corner to another, as "out
// +3.0  up −10.0"; empty if they do not.
func Change(from, to *kinematics.Corner, h scene.Handle, plan bool, f scene.Formatter) string {
	was, is := from.Wheel, to.Wheel
	switch h {
	case scene.NoHandle:
		return ""
	case scene.WheelOutline:
		var parts []string
		if by := is.Spacer - was.Spacer; by != 0 {
			parts = append(parts, "spacer "+signed(f, by))
		}
		if by := is.Offset - was.Offset; by != 0 {
			parts = append(parts, "offset "+signed(f, by))
		}
		return strings.Join(parts, ", ")
	case scene.GroundLine:
		if is.LoadedRadius == was.LoadedRadius {
			return ""
		}
		return "change " + signed(f, is.LoadedRadius-was.LoadedRadius)
	}
	p, isPoint := h.Point()
	if !isPoint {
		p = kinematics.LowerBall
	}
	a, b := from.At(p), to.At(p)
	if !from.Has(p) || !to.Has(p) || *a == *b {
		return ""
	}
	if plan {
		return "out " + signed(f, b.Y-a.Y) + "  ahead " + signed(f, b.X-a.X)
	}
	return "out " + signed(f, b.Y-a.Y) + "  up " + signed(f, b.Z-a.Z)
}

func length(format scene.Formatter, mm float64) string {
	if format == nil {
		format = scene.Millimetres
	}
	return string(format(nil, mm, 0))
}

// signed is length with a sign also in front of what is seen to be above zero.
func signed(format scene.Formatter, mm float64) string {
	text := length(format, mm)
	if mm > 0 && strings.ContainsAny(text, "123456789") {
		return "+" + text
	}
	return text
}

// reason words an error of a corner that does not assemble.
func (d *Drag) reason(err error) string {
	var reach *kinematics.ReachError
	var apart *kinematics.AssemblyError
	var geometry *kinematics.GeometryError
	switch {
	case errors.As(err, &reach):
		return d.reachWords(reach)
	case errors.As(err, &apart) && apart.Short > 0:
		return fmt.Sprintf("the %s is %s %s at ride height", apart.Link, length(d.job.Format, apart.Short), shortOrLong(apart.TooLong))
	case errors.As(err, &geometry):
		return shortNumbers(geometryWords(geometry))
	}
	return shortNumbers(err.Error())
}

// geometryWords names part, problem and value in one clause.
func geometryWords(e *kinematics.GeometryError) string {
	text := e.Problem + " (" + e.Value + ")"
	for _, verb := range [...]string{"is ", "stands ", "must "} {
		if strings.HasPrefix(text, verb) {
			return "the " + e.Place + " " + text
		}
	}
	return text // the problem names what it is about
}

func (d *Drag) reachWords(e *kinematics.ReachError) string {
	f := d.job.Format
	if e.Link == kinematics.LowerArm && e.HasLimit {
		return fmt.Sprintf("the lower arm has reached the end of its travel at %s, %s short of %s",
			travelWords(f, e.Limit), length(f, e.Short), travelWords(f, e.Travel))
	}
	text := fmt.Sprintf("the %s is %s %s at %s", e.Link, length(f, e.Short), shortOrLong(e.TooLong), travelWords(f, e.Travel))
	if e.Rack != 0 {
		text += ", rack " + signed(f, e.Rack)
	}
	if e.HasLimit {
		text += "; it binds at " + travelWords(f, e.Limit)
	}
	return text
}

func shortOrLong(long bool) string {
	if long {
		return "too long"
	}
	return "short"
}

// travelWords writes a travel as so much bump or droop.
func travelWords(f scene.Formatter, mm float64) string {
	switch {
	case mm > 0:
		return length(f, mm) + " of bump"
	case mm < 0:
		return length(f, -mm) + " of droop"
	}
	return "rest height"
}

// lost says which end of the car's travel the corner no longer reaches; empty
// if it reaches all that it reached at the start.
func (d *Drag) lost(m *kinematics.Mechanism) string {
	for k, h := range d.span() {
		if !d.reached[k] {
			continue
		}
		_, err := m.At(h, d.job.Rack)
		if err == nil {
			continue
		}
		end := [2]string{"droop", "bump"}[k]
		return "Full " + end + " is out of reach now: " + d.reason(err) + "."
	}
	return ""
}

// words lists what is held.
func (b *bound) words() string {
	var parts []string
	if b.upright {
		parts = append(parts, "upright")
	}
	if b.height {
		parts = append(parts, "height")
	}
	if b.side {
		parts = append(parts, "side distance")
	}
	for _, c := range b.curve {
		parts = append(parts, "length of the "+c.name)
	}
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

// Words says which of its locks keep a handle from going where it is pulled, such
// as "height held"; empty if none does.
func (l Locks) Words(c *kinematics.Corner, h scene.Handle) string {
	moved, free := movedBy(c, h)
	b := l.boundOf(moved, free)
	if g := l.grows(h); g != noneGrown {
		moved, _ = movedBy(c, scene.UprightBody)
		b = l.growing(g, moved)
	}
	if words := b.words(); words != "" {
		return words + " held"
	}
	return ""
}
