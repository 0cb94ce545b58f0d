package canvas

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"armscribe/canvas/draw"
)

// barMouse sends the events of a mouse as the toolkit does.
type barMouse interface {
	fyne.CanvasObject
	fyne.Draggable
	desktop.Mouseable
}

func barDown(w barMouse, x, y float64, mods fyne.KeyModifier) {
	w.MouseDown(&desktop.MouseEvent{
		PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(x), float32(y))},
		Button:     desktop.MouseButtonPrimary, Modifier: mods,
	})
}

func barMove(w barMouse, x, y float64) {
	w.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(x), float32(y))}})
}

func barUp(w barMouse) {
	w.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	w.DragEnd()
}

func barNear(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.9g, want %.9g", what, got, want)
	}
}

// barCalls records what the callbacks were told.
type barCalls struct {
	values, ended []float64
}

func rackAxis() Axis {
	return Axis{Name: "rack", Min: -61, Max: 57, MinName: "right", MaxName: "left"}
}

// newBar is 420 wide with a track of exactly two points a mm.
func newBar(c *barCalls, mods *fyne.KeyModifier) *Bar {
	b := NewBar(rackAxis())
	b.OnValue = func(v float64) { c.values = append(c.values, v) }
	b.OnEnded = func(v float64) { c.ended = append(c.ended, v) }
	b.Modifiers = func() fyne.KeyModifier { return *mods }
	b.SetColumns(50, 70)
	b.Resize(fyne.NewSize(50+70+24+2*118, 40))
	return b
}

const rackZero = 50 + 12 + 2*61 // where 0 stands on the bar of newBar

func TestBarDrag(t *testing.T) {
	var c barCalls
	var mods fyne.KeyModifier
	b := newBar(&c, &mods)
	b.SetValue(7.25)
	if len(c.values) != 0 {
		t.Fatalf("SetValue told %v", c.values)
	}
	grip := rackZero + 2*7.25
	barDown(b, grip+4, 15, 0)
	barNear(t, "a press beside the middle of the grip", b.Value(), 7.25, 0)
	barMove(b, grip+4+31, 18)
	barNear(t, "31 points to the right", b.Value(), 7.25+15.5, 1e-5)
	first := b.Value()
	barMove(b, grip+4-200, 3)
	barNear(t, "past the end", b.Value(), -61, 0)
	barMove(b, grip+4+31, 300)
	barNear(t, "back, off the bar", b.Value(), first, 0)
	barUp(b)
	if len(c.values) != 3 || len(c.ended) != 1 || c.ended[0] != first {
		t.Errorf("told %v, ended %v", c.values, c.ended)
	}
	barMove(b, 20, 15)
	barNear(t, "a drag without a press", b.Value(), first, 0)
}

func TestBarClickJumps(t *testing.T) {
	var c barCalls
	var mods fyne.KeyModifier
	b := newBar(&c, &mods)
	barDown(b, rackZero-70, 15, 0)
	barNear(t, "a click on the track", b.Value(), -35, 1e-5)
	barUp(b)
	barDown(b, 20, 15, 0) // on the name
	barNear(t, "a click beside the track", b.Value(), -35, 1e-5)
	barUp(b)
	if len(c.ended) != 1 {
		t.Errorf("ended %v", c.ended)
	}
}

func TestBarSnapsToRest(t *testing.T) {
	for _, alt := range []bool{false, true} {
		for d, snaps := range map[float64]bool{-3: true, 2: true, 3: true, 4: false, -4: false} {
			var c barCalls
			var mods fyne.KeyModifier
			if alt {
				mods = fyne.KeyModifierAlt
			}
			b := newBar(&c, &mods)
			b.SetValue(-33)
			barDown(b, rackZero-66, 15, mods)
			barMove(b, rackZero+d, 15)
			want := d / 2
			if snaps && !alt {
				want = 0
			}
			barNear(t, fmt.Sprintf("%g points from rest, Alt %t", d, alt), b.Value(), want, 1e-5)
		}
	}
}

func TestBarEscape(t *testing.T) {
	var c barCalls
	var mods fyne.KeyModifier
	b := newBar(&c, &mods)
	b.SetValue(11.5)
	barDown(b, rackZero+23, 15, 0)
	barMove(b, rackZero+60, 15)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	barNear(t, "after Escape", b.Value(), 11.5, 0)
	barMove(b, rackZero+90, 15)
	barUp(b)
	barNear(t, "the drag goes on", b.Value(), 11.5, 0)
	if len(c.ended) != 1 || c.ended[0] != 11.5 {
		t.Errorf("ended %v", c.ended)
	}
}

func TestBarKeys(t *testing.T) {
	var c barCalls
	var mods fyne.KeyModifier
	b := newBar(&c, &mods)
	type press struct {
		key  fyne.KeyName
		mods fyne.KeyModifier
		want float64
	}
	for i, p := range []press{
		{fyne.KeyRight, 0, 1}, {fyne.KeyUp, 0, 2}, {fyne.KeyUp, fyne.KeyModifierShift, 12},
		{fyne.KeyLeft, 0, 11}, {fyne.KeyDown, fyne.KeyModifierShift, 1}, {fyne.KeyPageUp, 0, 57},
		{fyne.KeyUp, 0, 57}, {fyne.KeyPageDown, 0, -61}, {fyne.KeyHome, 0, 0}, {fyne.KeyTab, 0, 0},
	} {
		mods = p.mods
		b.TypedKey(&fyne.KeyEvent{Name: p.key})
		barNear(t, fmt.Sprintf("press %d, %s", i, p.key), b.Value(), p.want, 1e-12)
	}
	mods = 0
	for range 10 {
		b.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyRight, Modifier: fyne.KeyModifierControl})
	}
	barNear(t, "ten presses with Ctrl", b.Value(), 1, 1e-12)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	if b.Value() != 0 {
		t.Errorf("back at rest it is %g", b.Value())
	}
	if len(c.ended) != len(c.values) {
		t.Errorf("%d values, %d ended", len(c.values), len(c.ended))
	}
}

func TestBarInches(t *testing.T) {
	a := rackAxis()
	a.PerUnit, a.Step = 25.4, 25.4/32
	b := NewBar(a)
	b.Modifiers = func() fyne.KeyModifier { return 0 }
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	barNear(t, "a thirty-second of an inch", b.Value(), 0.79375, 1e-12)
	if got := string(b.axis.figure(nil, -2.5*25.4)); got != "\u22122.5" {
		t.Errorf("figure %q", got)
	}
}

func TestAxisLimits(t *testing.T) {
	for _, c := range []struct{ from, to, lo, hi float64 }{
		{0, 0, -61, 57}, {-40, 90, -40, 57}, {-99, 12, -61, 12}, {70, 80, 57, 57}, {-5.5, 6.5, -5.5, 6.5},
	} {
		a := rackAxis()
		a.From, a.To = c.from, c.to
		lo, hi := a.Limits()
		if lo != c.lo || hi != c.hi {
			t.Errorf("assembled %g to %g: limits %g to %g, want %g to %g", c.from, c.to, lo, hi, c.lo, c.hi)
		}
		b := NewBar(a)
		b.SetValue(-1000)
		barNear(t, "far down", b.Value(), c.lo, 0)
		b.SetValue(1000)
		barNear(t, "far up", b.Value(), c.hi, 0)
	}
}

func TestAxisPanics(t *testing.T) {
	for name, change := range map[string]func(*Axis){
		"no width":       func(a *Axis) { a.Max = a.Min },
		"not a number":   func(a *Axis) { a.Max = math.NaN() },
		"endless":        func(a *Axis) { a.Min = math.Inf(-1) },
		"negative unit":  func(a *Axis) { a.PerUnit = -25.4 },
		"negative step":  func(a *Axis) { a.Step = -2 },
		"assembled back": func(a *Axis) { a.From, a.To = 12, -13 },
	} {
		a := rackAxis()
		change(&a)
		barPanics(t, name, func() { NewBar(a) })
	}
	barPanics(t, "value", func() { NewBar(rackAxis()).SetValue(math.NaN()) })
}

func barPanics(t *testing.T, name string, f func()) {
	t.Helper()
	defer func() {
		if recover() == nil {
			t.Errorf("%s: no panic", name)
		}
	}()
	f()
}

// barTexts lists the boxes of all texts of a list whose mm are points.
func barTexts(l *draw.List, st *draw.Styles, m draw.Medium, w, h float64) (boxes []draw.Box, words []string) {
	v := pointView(w, h)
	for i := range l.Items() {
		it := &l.Items()[i]
		if it.Kind != draw.KindText {
			continue
		}
		text := l.TextOf(it)
		tw, up, down := st.TextSize(it.Role, m, text)
		o := st.TextOrigin(it.Role, m, it.Align, text)
		x, y := v.Place(it.Centre.Off(o.X, o.Y))
		boxes = append(boxes, draw.Box{Min: draw.Point{X: x, Y: y - up}, Max: draw.Point{X: x + tw, Y: y + down}})
		words = append(words, string(text))
	}
	return boxes, words
}

// checkBarTexts fails where texts meet or leave the picture.
func checkBarTexts(t *testing.T, name string, l *draw.List, st *draw.Styles, m draw.Medium, w, h float64) {
	t.Helper()
	boxes, words := barTexts(l, st, m, w, h)
	for i, b := range boxes {
		if b.Min.X < 0 || b.Min.Y < 0 || b.Max.X > w || b.Max.Y > h {
			t.Errorf("%s: %q leaves the picture: %v", name, words[i], b)
		}
		for k := range i {
			// Ascent and descent hold air that letters seldom use.
			if b.Grow(-1.5).Overlaps(boxes[k].Grow(-1.5)) {
				t.Errorf("%s: %q meets %q", name, words[i], words[k])
			}
		}
	}
}

func TestBarTexts(t *testing.T) {
	a := rackAxis()
	a.Name, a.MinName, a.FromWhy = "rack displacement", "to the right hand", "outer end of the tie rod binds first"
	a.From, a.To = -40, 40
	a.ToWhy = "tie rod binds"
	a.Format = func(dst []byte, v float64) []byte { return append(dst, "\u22121\u2009234.5 mm"...) }
	b := NewBar(a)
	for _, w := range []float64{float64(b.MinSize().Width), 300, 470} {
		var l draw.List
		b.draw(&l, w, 40)
		checkBarTexts(t, fmt.Sprintf("%g wide", w), &l, b.styles, draw.OnScreen, w, 40)
	}
}

// The words at the ends are whole words, at any width, and the value has a unit.
func TestBarEndWordsAreWhole(t *testing.T) {
	b := NewBar(Axis{Name: "roll", PerUnit: degree, Min: -5 * degree, Max: 5 * degree, MinName: "right side up", MaxName: "left side up"})
	b.SetValue(2.5 * degree)
	for w := float64(b.MinSize().Width); w < 500; w += 9 {
		var l draw.List
		b.draw(&l, w, 40)
		_, words := barTexts(&l, b.styles, draw.OnScreen, w, 40)
		text := strings.Join(words, "|")
		whole := strings.Contains(text, "right side up|left side up")
		if strings.Contains(text, "\u2026") || !strings.Contains(text, "right") || !strings.Contains(text, "left") || !whole && w > 330 {
			t.Errorf("%g wide: %s", w, text)
		}
		if !strings.Contains(text, "+2.5°") {
			t.Errorf("%g wide: no value with a unit in %s", w, text)
		}
	}
}

// Whatever the unit on display, value and tip name it.
func TestFiguresHaveUnits(t *testing.T) {
	for want, a := range map[string]Axis{
		"+35.7 mm": {Name: "rack", Min: -61, Max: 61},
		"+1.4 in":  {Name: "rack", PerUnit: 25.4, Min: -61, Max: 61},
		"36 clicks": {Name: "rack", Min: -61, Max: 61, Format: func(dst []byte, v float64) []byte {
			return append(dst, "36 clicks"...)
		}},
	} {
		a = a.check()
		if got := string(a.figureUnit(nil, 35.7)); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	s := NewStrips(travelAxis())
	in := sampleInput()
	for i := range in.Strips {
		in.Strips[i].Format = nil
	}
	in.Strips[3].Unit = "deg/mm, in +"
	s.SetInput(in)
	for i, want := range []string{"0.28 ± 0.04°", "0.28°", "0.28 mm", "0.28 deg/mm"} {
		half := 0.0
		if i == 0 {
			half = 0.041
		}
		if got := string(s.figure(nil, i, 0.2784, half)); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestBarInAWindow(t *testing.T) {
	test.NewTempApp(t)
	var c barCalls
	var mods fyne.KeyModifier
	b := newBar(&c, &mods)
	w := test.NewTempWindow(t, b)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(400, 40))
	if b.focused {
		t.Fatal("focus without a cause")
	}
	barDown(b, 200, 15, 0)
	barUp(b)
	if w.Canvas().Focused() != fyne.Focusable(b) || !b.focused {
		t.Error("a press gives no focus")
	}
	img := w.Canvas().Capture()
	if img.Bounds().Dx() < 380 {
		t.Errorf("captured %v", img.Bounds())
	}
	w.Canvas().Unfocus()
	if b.focused {
		t.Error("focus stays")
	}
	b.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(150, 15)}})
	if b.Cursor() != desktop.HResizeCursor {
		t.Error("no cursor over the track")
	}
	b.MouseOut()
	if b.Cursor() != desktop.DefaultCursor {
		t.Error("cursor stays")
	}
}

// Whatever a hand does and whatever the size, the value is a number in the
// limits and the picture can be drawn.
func TestBarRandomHand(t *testing.T) {
	const seed = 7041
	r := rand.New(rand.NewPCG(seed, 2))
	b := NewBar(rackAxis())
	b.Modifiers = func() fyne.KeyModifier { return fyne.KeyModifier(r.IntN(16)) }
	keys := []fyne.KeyName{fyne.KeyUp, fyne.KeyLeft, fyne.KeyHome, fyne.KeyPageUp, fyne.KeyPageDown, fyne.KeyEscape, fyne.KeyA}
	for i := range 2000 {
		x, y := r.Float64()*500-40, r.Float64()*60-10
		switch r.IntN(6) {
		case 0:
			b.Resize(fyne.NewSize(float32(r.IntN(500)), float32(r.IntN(60))))
		case 1:
			barDown(b, x, y, 0)
		case 2, 3:
			barMove(b, x, y)
		case 4:
			barUp(b)
		case 5:
			b.TypedKey(&fyne.KeyEvent{Name: keys[r.IntN(len(keys))]})
		}
		if v := b.Value(); !(v >= -61 && v <= 57) {
			t.Fatalf("seed %d, event %d: value %g", seed, i, v)
		}
		if i%20 == 0 {
			b.paint(int(b.Size().Width), int(b.Size().Height))
		}
	}
}
