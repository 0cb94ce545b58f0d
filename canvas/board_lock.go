package canvas

// SetLocked keeps the hand from changing the corner: a gesture that would
// change it, by pointer or key, says the reason instead and starts nothing.
// Selecting, naming and typing go on. An empty reason unlocks. A gesture in
// progress goes on. A view that is plumb with this one is locked likewise.
func (v *board) SetLocked(reason string) {
	v.event(func() {
		if reason != v.locked {
			v.locked = reason
			if reason != "" && v.placing && v.gesture == nil {
				v.placing = false
				v.touch()
			}
			if v.peer != nil {
				v.peer.SetLocked(reason)
			}
		}
	})
}

// Locked returns why the corner cannot be changed by hand; empty if it can.
func (v *board) Locked() string { return v.locked }

// refused tells whether the corner is locked, and says why each time it is
// asked.
func (v *board) refused() bool {
	if v.locked == "" {
		return false
	}
	v.message = ""
	v.say(v.locked)
	return true
}
