package window

import "testing"

// A row of the joints leads to its pose in the window: travel
// and rack stand where the joint tilts most.
func TestAJointLeadsToItsPose(t *testing.T) {
	w := open(t, "gravel-estate")
	w.open(check, "Joint angles")
	w.pressOn(t, "Show it at +90 / +60")
	if p := w.position; p.Travel != 90 || p.Rack != 60 || p.Roll != 0 {
		t.Errorf("the corner stands at %+v", p)
	}
}

// Where the lock ends the corner shows the wheel that comes too near; the right
// wheel's pose is the left one's with the rack the other way.
func TestTheEndOfTheLockIsShown(t *testing.T) {
	w := open(t, "gravel-estate")
	w.doc.Show(1)
	w.refresh()
	w.open(check, "Lock and circle")
	w.pressOn(t, "Show it at −70 / +…") // the first one: turning right
	if p := w.position; p.Travel != -70 || p.Rack < 40 || p.Rack > 59 {
		t.Errorf("with spacers, turning right, the right wheel comes too near; the corner stands at %+v", p)
	}
}

// Looking, and trying other grips, changes nothing of the job.
func TestLookingAtEffortAndLockChangesNothing(t *testing.T) {
	w := open(t, "gravel-estate")
	first := w.bytes(t)
	w.open(check, "Effort")
	w.pressOn(t, "Back to the usual grips and bump")
	if w.doc.UndoName() != "" {
		t.Errorf("grips of the page's own are a change of the job: %q", w.doc.UndoName())
	}
	w.open(check, "Lock and circle")
	if w.bytes(t) != first {
		t.Error("looking at the lock changes the job")
	}
}
