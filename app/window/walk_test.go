package window

import (
	"math/rand/v2"
	"os"
	"runtime"
	"testing"

	"fyne.io/fyne/v2"

	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// times is a number of steps: few at each build, many in make long.
func times(few, many int) int {
	if os.Getenv("ARMSCRIBE_LONG") != "" {
		return many
	}
	return few
}

// A long walk of a hand that does not know what it does: after undoing all, the
// file has its first bytes again, and no reading ever was no number.
func TestAWalkOfManyGesturesUndoes(t *testing.T) {
	const seed = 314159
	gestures := times(250, 5000)
	t.Logf("seed %d, %d gestures", seed, gestures)
	r := rand.New(rand.NewPCG(seed, 7))
	w := open(t, "gravel-estate")
	w.doc.SetLocked(false) // the walk goes over every variant
	first := w.bytes(t)
	for i := range gestures {
		w.randomGesture(t, r)
		for q := range kinematics.QuantityCount {
			if v, ok := w.frame.Now.Readings.Of(q); ok && v-v != 0 {
				t.Fatalf("gesture %d: %s is %g", i, q, v)
			}
		}
		if i%40 == 39 { // history is limited: never go farther than it reaches
			w.undoAll(t)
			if w.bytes(t) != first {
				t.Fatalf("gesture %d: undoing all does not give the first bytes back", i)
			}
		}
	}
	w.undoAll(t)
	if w.bytes(t) != first {
		t.Fatal("undoing all does not give the first bytes back")
	}
}

func (w *Window) undoAll(t *testing.T) {
	t.Helper()
	for w.doc.UndoName() != "" {
		w.undo()
	}
}

func (w *Window) randomGesture(t *testing.T, r *rand.Rand) {
	t.Helper()
	out, _ := w.view.Shown()
	h := out.Spots[r.IntN(len(out.Spots))].Handle
	some := func(n float64) float32 { return float32(r.NormFloat64() * n) }
	switch r.IntN(13) {
	case 0, 1, 2, 3:
		w.drag(t, h, some(12), some(12))
	case 4:
		w.drag(t, h, some(400), some(400)) // far out of reach
	case 5:
		w.view.Select(h)
		w.view.TypedKey(&fyne.KeyEvent{Name: []fyne.KeyName{fyne.KeyUp, fyne.KeyLeft, fyne.KeyRight, fyne.KeyDown}[r.IntN(4)]})
	case 6:
		w.setTravel(float64(some(40)))
	case 7:
		w.setRack(clamp(float64(some(25)), -62, 62))
	case 8:
		w.setRoll(clamp(float64(some(0.02)), -0.06, 0.06))
	case 9:
		w.undo()
	case 10:
		w.redo()
	case 11:
		w.showVariant(r.IntN(len(w.doc.Job().Variants)))
		w.rest()
	case 12: // another answer beside the corner
		w.choose(step(r.IntN(int(stepCount))))
		w.book().Turn(1 + r.IntN(6))
		waiting()
		w.drag(t, h, some(12), some(12))
		w.choose(atAGlance) // not to work at a slow answer from here on
	}
}

// Many movements of a dragging hand leave nothing behind.
func TestManyDragsLeaveNothingBehind(t *testing.T) {
	w := open(t, "gravel-estate")
	h := scene.OfPoint(kinematics.LowerBall)
	moves := func(n int) {
		from := w.grab(t, h)
		for i := range n {
			w.pull(from, float32(i%23)-11, float32(i%17)-8)
		}
		w.view.Cancel()
		w.letGo(from)
	}
	moves(200)
	goroutines, heap := runtime.NumGoroutine(), heapInUse()
	moves(times(500, 10_000))
	if n := runtime.NumGoroutine(); n > goroutines+1 {
		t.Errorf("%d goroutines before, %d after", goroutines, n)
	}
	const slack = 8 << 20 // caches of glyphs and ticks fill up
	if now := heapInUse(); now > heap+slack {
		t.Errorf("%d bytes in use before, %d after", heap, now)
	}
}

func heapInUse() uint64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// BenchmarkDragFrame is our own cost of one movement of a dragging hand: 161
// poses of both variants, bands, overlays, curves, readings and layout.
func BenchmarkDragFrame(b *testing.B) {
	w := open(b, "gravel-estate")
	w.setTravel(20)
	from := w.grab(b, scene.OfPoint(kinematics.OuterEnd))
	i := 0
	b.ReportAllocs()
	for b.Loop() {
		i++
		w.pull(from, float32(i%7), float32(i%11)-5)
		w.view.Shown()
	}
}
