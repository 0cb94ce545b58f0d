package window

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"sort"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/app/keyed"
	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// state is what a test in a real window reads to know what is shown.
type state struct {
	Title    string                `json:"title"`
	Variant  string                `json:"variant"`
	Step     string                `json:"step"`
	Section  string                `json:"section"`
	Travel   float64               `json:"travel_mm"`
	Rack     float64               `json:"rack_mm"`
	Roll     float64               `json:"roll_deg"`
	Undo     string                `json:"undo"`
	Readings map[string]float64    `json:"readings"` // mm, degrees, degrees per mm
	Handles  map[string][2]float32 `json:"handles"`  // places in the window, points
	Bar      [3]float64            `json:"bar"`      // of the travel bar: x, y of rest, points per mm
	Scale    [3]float64            `json:"scale"`    // of the view: x and y of the points' origin, points per mm
	Answer   map[string][2]float32 `json:"answer"`   // middles of what the card and the open answer have to press, by its words
	Status   string                `json:"status"`
	Advice   string                `json:"advice"`
	Gaps     map[string]gapState   `json:"gaps,omitempty"`  // of the obstacles, while they are shown
	Lines    map[string][2]float32 `json:"lines,omitempty"` // of the clearance, while it is seen
	Plan     map[string][2]float32 `json:"plan,omitempty"`  // handles in the plan, points of the window
}

// writeState writes the state file, if one was asked for, and again when all that has
// just come is laid out.
func (w *Window) writeState() {
	if w.stateFile == "" || w.doc == nil {
		return
	}
	if w.stateAgain != nil {
		w.stateAgain()
	}
	w.writeStateNow()
	const laidOut = 150 * time.Millisecond
	w.stateAgain = later(laidOut, w.writeStateNow)
}

func (w *Window) writeStateNow() {
	s := state{
		Title: w.win.Title(), Variant: w.doc.Variant().Name,
		Travel: w.position.Travel, Rack: w.position.Rack, Roll: degrees(kinematics.Camber, w.position.Roll),
		Step: w.answer.step.String(), Section: w.book().Section().Name(), Answer: map[string][2]float32{},
		Undo: w.doc.UndoName(), Readings: map[string]float64{}, Handles: map[string][2]float32{},
		Status: w.status.Text, Advice: w.advice.What + " " + w.advice.Cure,
	}
	for q := range kinematics.QuantityCount {
		if v, ok := w.frame.Now.Readings.Of(q); ok {
			s.Readings[q.String()] = degrees(q, v)
		}
	}
	w.room.state(&s)
	origin := w.app.Driver().AbsolutePositionForObject(w.view)
	out, _ := w.view.Shown()
	for _, spot := range out.Spots {
		at := w.view.View().ToScreen(spot.At)
		s.Handles[w.handleName(spot.Handle)] = [2]float32{origin.X + at.X, origin.Y + at.Y}
	}
	zero := w.view.View().ToScreen(draw.Point{})
	s.Scale = [3]float64{float64(origin.X + zero.X), float64(origin.Y + zero.Y), w.view.View().Zoom}
	w.toPress(w.card, s.Answer)
	w.toPress(w.book().Object(), s.Answer)
	bar := w.app.Driver().AbsolutePositionForObject(w.strips)
	x, y := w.strips.GripAt(0)
	_, per := w.strips.Scale()
	s.Bar = [3]float64{float64(bar.X) + x, float64(bar.Y) + y, per}
	text, err := json.MarshalIndent(s, "", "  ")
	if err == nil {
		err = os.WriteFile(w.stateFile+".new", text, 0o644)
	}
	if err == nil {
		err = os.Rename(w.stateFile+".new", w.stateFile)
	}
	if err != nil {
		fmt.Fprintln(w.stderr, "armscribe: state:", err)
	}
}

func (w *Window) handleName(h scene.Handle) string {
	if p, ok := h.Point(); ok {
		return p.String()
	}
	if i, end, ok := h.Obstacle(); ok {
		return obstacleHandle(w.doc.Job().Obstacles[i].Name, end)
	}
	return map[scene.Handle]string{scene.UprightBody: "upright", scene.WheelOutline: "wheel", scene.GroundLine: "ground"}[h]
}

// measureFrames drags the outer tie-rod end through n frames in the real window with each
// step open, each frame as soon as the one before is painted, and prints the time from
// frame to frame.
func (w *Window) measureFrames(n int, out io.Writer) {
	time.AfterFunc(2*time.Second, func() { // the window settles
		fyne.Do(func() {
			fmt.Fprintf(out, "first picture %.0f ms after the start\n", float64(w.firstAfter.Microseconds())/1000)
			w.measureStep(0, n, out)
		})
	})
}

// measureStep measures one step, and then those after it.
func (w *Window) measureStep(s step, n int, out io.Writer) {
	if s == stepCount {
		w.view.OnPainted = nil
		w.win.SetCloseIntercept(nil)
		w.win.Close()
		return
	}
	w.choose(s)
	var times []time.Duration
	var last time.Time
	spot, _ := w.view.Spot(scene.OfPoint(kinematics.OuterEnd))
	from := fyne.Position(w.view.View().ToScreen(spot))
	at := func(y float32) fyne.PointEvent { return fyne.PointEvent{Position: from.AddXY(0, y)} }
	w.view.MouseMoved(&desktop.MouseEvent{PointEvent: at(0)})
	w.view.MouseDown(&desktop.MouseEvent{PointEvent: at(0), Button: desktop.MouseButtonPrimary})
	next := func() { w.view.Dragged(&fyne.DragEvent{PointEvent: at(float32(len(times)%21-10) / 2)}) }
	w.view.OnPainted = func() {
		now := time.Now()
		times = append(times, now.Sub(last))
		last = now
		if len(times) <= n {
			go fyne.Do(next)
			return
		}
		w.view.OnPainted = nil
		fmt.Fprintf(out, "%-12s %s\n", s, frameTimes(times[1:])) // the first has no frame before it
		go fyne.Do(func() { w.view.Cancel(); w.measureStep(s+1, n, out) })
	}
	last = time.Now()
	next()
}

// frameTimes sums up how long frames took.
func frameTimes(t []time.Duration) string {
	sort.Slice(t, func(i, j int) bool { return t[i] < t[j] })
	at := func(p float64) float64 { return float64(t[int(p*float64(len(t)-1))].Microseconds()) / 1000 }
	return fmt.Sprintf("%d frames: median %.1f ms, 95 %% within %.1f ms, longest %.1f ms", len(t), at(0.5), at(0.95), at(1))
}

// toPress adds the middles of what is seen of an object's buttons, tabs, boxes and fields:
// by their words, fields as field; a second of a kind has #2 behind it.
func (w *Window) toPress(o fyne.CanvasObject, to map[string][2]float32) {
	if !o.Visible() {
		return
	}
	if word := wordOn(o); word != "" {
		key := word
		for n := 2; to[key] != [2]float32{}; n++ {
			key = fmt.Sprintf("%s #%d", word, n)
		}
		to[key] = w.room.middle(o)
		return
	}
	switch k := o.(type) {
	case *fyne.Container:
		for _, inner := range k.Objects {
			w.toPress(inner, to)
		}
	case *container.Scroll:
		w.toPress(k.Content, to)
	case interface{ Inside() []fyne.CanvasObject }:
		for _, inner := range k.Inside() {
			w.toPress(inner, to)
		}
	}
}

// wordOn is what stands on something that is pressed; empty for all else.
func wordOn(o fyne.CanvasObject) string {
	switch k := o.(type) {
	case interface{ Word() string }:
		return k.Word()
	case *keyed.Button:
		return k.Text
	case *keyed.Check:
		return k.Text
	case *hintButton:
		return k.Text
	case fyne.Shortcutable: // of what is seen here, fields alone are
		return "field"
	}
	return ""
}
