package trackpage

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"armscribe/app/keyed"
	"armscribe/app/units"
	"armscribe/canvas/draw"
)

// isMarked tells whether an answer that stays is marked in words, which say what
// it answers, and in the picture.
func isMarked[A any](k *lastGood[A], compose func(l *draw.List, w, h float64), of string) bool {
	return k.stale && k.answer != nil && !k.whose.Hidden && strings.Contains(k.whose.Text, "belong to the earlier input: "+of) &&
		strings.Contains(picturedTexts(compose, 520, 640), "OF THE EARLIER INPUT")
}

func TestTheLastGoodAnswerStaysMarked(t *testing.T) {
	test.NewTempApp(t)
	k := newLastGood[int]()
	b := keyed.NewButton("Keep", nil)
	see := func(when string, answer int, off bool, note, whose string) {
		t.Helper()
		k.tell("question of " + when)
		k.allow(b, true)
		if got := k.answer; answer == 0 && got != nil || answer != 0 && (got == nil || *got != answer) {
			t.Errorf("%s: answer %v", when, got)
		}
		if b.Disabled() != off || k.note.Hidden != (note == "") || k.whose.Hidden != (whose == "") || !strings.Contains(k.note.Text, note) || !strings.Contains(k.whose.Text, whose) {
			t.Errorf("%s: button off %v, note %q, mark %q", when, b.Disabled(), k.note.Text, k.whose.Text)
		}
	}
	wrong := errors.New("spacer: is blank\noffset: is blank")
	k.next(nil, wrong)
	see("the first", 0, true, "✕ spacer: is blank\n✕ offset: is blank", "")
	a, c := 17, 23
	k.next(&a, nil)
	see("the second", 17, false, "", "")
	k.next(nil, wrong)
	see("the third", 17, true, "offset", "question of the third")
	k.next(&c, nil)
	see("the fourth", 23, false, "", "")
	k.allow(b, false)
	if !b.Disabled() {
		t.Error("a button without what it needs is on")
	}
}

// An answer that stays follows the unit on display, its question with it.
func TestAnAnswerThatStaysFollowsTheUnit(t *testing.T) {
	b := open(t, frontDemo)
	b.Select(waysAt)
	retype(b.ways.by.Field, "38.1")
	retype(b.ways.by.Field, "x")
	b.Unit = units.Inch
	b.Show()
	if !isMarked(&b.ways.lastGood, b.ways.picture.Plate.Draw, "“as measured”, wider a side by 1 1/2 in.") {
		t.Errorf("the mark says %q", b.ways.whose.Text)
	}
	if texts := headings(b.ways.view); !strings.Contains(texts, "scrub radius\nin\n") {
		t.Errorf("the table is still in mm: %s", texts)
	}
}
