package panels

// FocusRadius takes the keyboard to the loaded radius, which is the one value
// of the wheel that only a tape gives; false while the panel is not shown.
func (w *Wheel) FocusRadius() bool { return focusOn(w.radius.field) }
