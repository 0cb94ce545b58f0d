package panels

import (
	"fyne.io/fyne/v2"

	"armscribe/kinematics"
)

// RadiusField is the field of the loaded radius, for the keyboard: of the
// wheel's values it is the one that only a tape gives.
func (w *Wheel) RadiusField() fyne.Focusable { return w.radius.field }

// OffsetField is the field of the wheel's offset, for the keyboard.
func (w *Wheel) OffsetField() fyne.Focusable { return w.offset.field }

// Field is the first field of a point, for the keyboard; nil if the variant has
// no such point. Unlike Focus it serves a table that was never on the screen.
func (p *Points) Field(at kinematics.Point) fyne.Focusable {
	r, ok := p.points[at]
	if !ok {
		return nil
	}
	for _, f := range r.fields {
		if f != nil {
			return f
		}
	}
	return nil
}

// FirstField is the first field of the car, for the keyboard.
func (c *Car) FirstField() fyne.Focusable { return c.lines[1].row.(*valueRow).field }

// SpringField is the first field of the spring, or the choice of what carries it
// where there is none.
func (c *Car) SpringField() fyne.Focusable {
	if c.shape.spring {
		return c.spring.ends[0].fields[0]
	}
	return c.spring.carrier.list
}
