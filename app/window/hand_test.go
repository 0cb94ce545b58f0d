package window

import (
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/assets"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// Fine gaps come at once: the toolkit's test driver has no goroutine to bring
// them back to.
func init() {
	inBackground = func(work, then func()) { work(); then() }
	// The toolkit's test driver would bring answers back on their own goroutine.
	besideMain, onMain = func(f func()) { f() }, func(f func()) { f() }
	later = func(_ time.Duration, f func()) func() bool { waiting = f; return func() bool { return true } }
}

// waiting is what the window last wanted to do later.
var waiting = func() {}

// open makes a window on a demo job, without a display.
func open(t testing.TB, name string) *Window {
	t.Helper()
	return openWith(t, name, func(*job.Job) {})
}

// noTargets takes the targets out of a job.
func noTargets(j *job.Job) { j.Targets = job.Targets{} }

// openWith is a window on a demo job that was changed first.
func openWith(t testing.TB, name string, change func(*job.Job)) *Window {
	t.Helper()
	data, ok := assets.Demo(name)
	if !ok {
		t.Fatalf("no demo job %q", name)
	}
	j, err := job.Read(name, data)
	if err != nil {
		t.Fatal(err)
	}
	change(j)
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	a := test.NewTempApp(t)
	w := New(a, document.New(j, "", true))
	t.Cleanup(w.endKeeping)
	w.view.Modifiers = func() fyne.KeyModifier { return 0 }
	w.win.Resize(fyne.NewSize(1280, 800))
	w.refresh()
	return w
}

// grab presses on a handle and returns where; drag goes on from there.
func (w *Window) grab(t testing.TB, h scene.Handle) fyne.Position {
	t.Helper()
	spot, ok := w.view.Spot(h)
	if !ok {
		t.Fatalf("no handle %d", h)
	}
	at := w.view.View().ToScreen(spot)
	pos := fyne.NewPos(at.X, at.Y)
	w.view.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos}})
	w.view.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos}, Button: desktop.MouseButtonPrimary})
	return pos
}

func (w *Window) pull(from fyne.Position, dx, dy float32) {
	pos := fyne.NewPos(from.X+dx, from.Y+dy)
	w.view.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: pos}, Dragged: fyne.NewDelta(dx, dy)})
}

func (w *Window) letGo(at fyne.Position) {
	w.view.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	w.view.DragEnd()
}

// drag is a whole gesture.
func (w *Window) drag(t testing.TB, h scene.Handle, dx, dy float32) {
	t.Helper()
	from := w.grab(t, h)
	w.pull(from, dx/2, dy/2)
	w.pull(from, dx, dy)
	w.letGo(from.AddXY(dx, dy))
}

// reading returns a present reading; it must exist.
func (w *Window) reading(t testing.TB, q kinematics.Quantity) float64 {
	t.Helper()
	v, ok := w.frame.Now.Readings.Of(q)
	if !ok || math.IsNaN(v) || math.IsInf(v, 0) {
		t.Fatalf("%s is %g (%v)", q, v, ok)
	}
	return v
}

// bytes returns the job as a file.
func (w *Window) bytes(t testing.TB) string {
	t.Helper()
	data, err := w.doc.Job().Encode()
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
