package panels

import (
	"fyne.io/fyne/v2"

	"armscribe/kinematics"
)

// RadiusField is the field of the loaded radius, for the keyboard: of the
// wheel's values it is the one that only a tape gives.
func (w *Wheel) RadiusField() fyne.Focusable { return w.radius.field }

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
