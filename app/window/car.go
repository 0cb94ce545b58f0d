package window

import (
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/panels"
)

// newCar lets a panel of the car, or of its spring, change the job.
func (w *Window) newCar(c *panels.Car) *panels.Car {
	c.OnEdit = func(name string, change func(*job.Job)) error {
		err := w.doc.EditJob(name, "", change)
		w.refresh()
		return err
	}
	c.OnVariant = w.editUnlocked
	return c
}

// keepWithin brings the position back into a travel and a rack that have become
// shorter, and the curves off a rack that is gone.
func (w *Window) keepWithin() {
	j := w.doc.Job()
	w.position.Travel = clamp(w.position.Travel, -j.Travel.Droop.MM, j.Travel.Bump.MM)
	w.position.Rack = clamp(w.position.Rack, -j.Rack.Right.MM, j.Rack.Left.MM)
	if w.curves.Over == frame.OverRack && !w.hasRack() {
		w.curves.Over = frame.OverTravel
	}
}
