package canvas

import (
	"strings"
	"testing"

	"armscribe/kinematics"
)

// What moves by undo or by a typed number is not told at its former place.
func TestTheNoteFollowsWhatItIsAbout(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	ball := pointHandle(kinematics.LowerBall)
	from := o.at(ball)
	o.grab(from, plus(from, 24, -13))
	o.letGo(plus(from, 24, -13))
	o.view.MouseMoved(mouse(plus(from, 24, -13), 0))
	dragged := strings.Join(o.view.note, "\n")
	o.set(o.corner())
	if now := strings.Join(o.view.note, "\n"); now != dragged || dragged == "" {
		t.Errorf("the same corner again: the note was %q and is %q", dragged, now)
	}
	o.set(sampleCorner())
	undone := strings.Join(o.view.note, "\n")
	if want := o.view.coordinates(ball); !strings.Contains(undone, want) || strings.Contains(dragged, want) {
		t.Errorf("undone to %q, the note says %q after %q", want, undone, dragged)
	}
}
