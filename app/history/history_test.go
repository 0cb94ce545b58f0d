package history

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

func TestUndoAndRedoNameTheGesture(t *testing.T) {
	h := Of("measured")
	h.Do("move rack end", "", "moved")
	h.Do("raise outer end", "", "raised")
	if h.UndoName() != "raise outer end" || h.RedoName() != "" {
		t.Fatalf("undo %q, redo %q", h.UndoName(), h.RedoName())
	}
	if name, ok := h.Undo(); !ok || name != "raise outer end" || h.Now() != "moved" {
		t.Fatalf("undid %q (%v), now %q", name, ok, h.Now())
	}
	if h.UndoName() != "move rack end" || h.RedoName() != "raise outer end" {
		t.Fatalf("undo %q, redo %q", h.UndoName(), h.RedoName())
	}
	if name, ok := h.Redo(); !ok || name != "raise outer end" || h.Now() != "raised" {
		t.Fatalf("redid %q (%v), now %q", name, ok, h.Now())
	}
	if _, ok := h.Redo(); ok {
		t.Fatal("redid something that was not undone")
	}
}

func TestANewGestureForgetsWhatWasUndone(t *testing.T) {
	h := Of(3)
	h.Do("a", "", 5)
	h.Undo()
	h.Do("b", "", 7)
	if _, ok := h.Redo(); ok || h.Now() != 7 {
		t.Fatalf("redo after a new gesture led to %d", h.Now())
	}
}

func TestARunOfKeyPressesIsOneGesture(t *testing.T) {
	h := Of(0)
	for i := 1; i <= 4; i++ {
		h.Do("nudge hub", "hub", i)
	}
	h.EndRun()
	h.Do("nudge hub", "hub", 9)
	h.Undo()
	if h.Now() != 4 {
		t.Fatalf("after undoing the second run: %d, want 4", h.Now())
	}
	h.Undo()
	if h.Now() != 0 {
		t.Fatalf("after undoing the first run: %d, want 0", h.Now())
	}
	h.Redo()
	h.Do("nudge hub", "hub", 6) // must not join a run from before the redo
	h.Undo()
	if h.Now() != 4 {
		t.Fatalf("after undo: %d, want 4", h.Now())
	}
}

func TestUndoingAllGivesTheFirstDocument(t *testing.T) {
	const seed = 20261125
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	h := Of("first")
	done := 0
	for i := range 300 {
		switch r.IntN(5) {
		case 0:
			if _, ok := h.Undo(); ok {
				done--
			}
		case 1:
			if _, ok := h.Redo(); ok {
				done++
			}
		default:
			h.Do(fmt.Sprint("gesture ", i), "", fmt.Sprint("document ", i))
			done++
		}
	}
	for range done {
		if _, ok := h.Undo(); !ok {
			t.Fatal("undo ended early")
		}
	}
	if _, ok := h.Undo(); ok || h.Now() != "first" {
		t.Fatalf("undone all: %q", h.Now())
	}
}

func TestOldGesturesAreForgotten(t *testing.T) {
	h := Of(-1)
	for i := range Limit + 25 {
		h.Do("step", "", i)
	}
	n := 0
	for {
		if _, ok := h.Undo(); !ok {
			break
		}
		n++
	}
	if n != Limit || h.Now() != 24 {
		t.Fatalf("undid %d down to %d, want %d down to 24", n, h.Now(), Limit)
	}
}
