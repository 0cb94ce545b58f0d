package canvas

import (
	"math/rand/v2"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/study"
)

// stand is where a text of the picture stands: off from what it names, points.
type stand struct {
	off   draw.Point
	edge  bool // at the edge of the window: its place is told from the middle
	moved bool // pushed along the edge by the window
}

// stands finds what can be told by its first words, by places of its own.
func stands(o *owner, h scene.Handle) map[string]stand {
	out, _ := o.view.Shown()
	v, m := o.view.view, &o.st.Mechanism
	r := &out.Readings
	value := func(q kinematics.Quantity) float64 { x, _ := r.Of(q); return x }
	front := func(p kinematics.Vec) draw.Point { return draw.Point{X: p.Y, Y: p.Z} }
	anchors := map[string]draw.Point{
		"roll centre":    {X: value(kinematics.RollCentreY), Y: out.Ground + value(kinematics.RollCentreHeight)},
		"instant centre": {X: value(kinematics.InstantCentreY), Y: value(kinematics.InstantCentreZ)},
		"bump ":          front(o.st.Poses[study.Poses-1].UpperBall),
		"droop ":         front(o.st.Poses[0].LowerBall),
		"scrub ":         front(out.Left.Contact),
		"centre plane":   {},
	}
	if ideal, ok := m.RackEndFlat(); ok && !ideal.AtInfinity {
		anchors["ideal rack end"] = draw.Point{X: ideal.At.X, Y: ideal.At.Y}
	}
	if spot, ok := out.Spot(h); ok {
		c := o.corner()
		anchors[upperFirst(grip.NameOf(&c, h))] = spot.At
	}
	all := map[string]stand{}
	win := v.Window().Grow(-14)
	for i := range o.view.list.Items() {
		it := &o.view.list.Items()[i]
		if it.Kind != draw.KindText {
			continue
		}
		text := string(o.view.list.TextOf(it))
		for word, at := range anchors {
			if !strings.HasPrefix(text, word) {
				continue
			}
			p, a := v.Sheet(it.Centre), v.Sheet(draw.On(at))
			w, _, _ := o.view.styles.TextSize(it.Role, draw.OnScreen, o.view.list.TextOf(it))
			x0 := p.X
			if it.Align.Horizontal() == draw.Right {
				x0 -= w
			}
			s := stand{off: p.Sub(a), edge: !v.Window().Grow(-8).Has(a)}
			s.moved = !win.Has(draw.Point{X: x0, Y: p.Y - 40}) || !win.Has(draw.Point{X: x0 + w + 16, Y: p.Y + 14})
			if s.edge {
				s.off = p
			}
			if word == "scrub " { // in line with the dimension: its height on the sheet alone
				s.off.X = 0
			}
			all[word] = s
		}
	}
	return all
}

// While a hand drags whatever it likes, every label keeps its distance from what
// it names, the loupe stays where it is and keeps its factor; then they are laid
// out as if there had been no hand.
func TestLabelsAndLoupeStayAtHomeDuringAGesture(t *testing.T) {
	const seed = 4417
	r := rand.New(rand.NewPCG(seed, 3))
	counts := map[string]int{}
	var before study.Study
	if err := before.Update(study.Case{Corner: sampleCorner(), Within: kinematics.Evenly(1), Span: study.Span{Bump: 71, Droop: 63}}, 0); err != nil {
		t.Fatal(err)
	}
	factors := 0
	for walk := range 24 {
		c := sampleCorner()
		for _, p := range [...]kinematics.Point{kinematics.UpperBall, kinematics.LowerBall, kinematics.OuterEnd, kinematics.RackEnd} {
			c.At(p).Z += 24 * (r.Float64() - 0.5)
		}
		o := newOwner(t, c, float64(r.IntN(80)-40))
		o.view.Resize(fyne.NewSize(500+700*r.Float32(), 420+460*r.Float32()))
		o.in.Overlays = scene.AllOverlays &^ scene.OtherSide
		if walk%3 == 0 {
			o.in.Before = &scene.Subject{Name: "as measured", Study: &before, Section: sampleSection}
		}
		o.set(c)
		o.view.Fit()
		o.mods = fyne.KeyModifierControl
		handles := grip.Handles(&c)
		h := handles[r.IntN(len(handles))]
		at := o.at(h)
		o.view.MouseMoved(mouse(at, 0))
		o.view.MouseDown(mouse(at, desktop.MouseButtonPrimary))
		if h = o.view.Selected(); h == scene.NoHandle {
			continue // under the loupe
		}
		var first map[string]stand
		var loupe draw.Box
		factor := ""
		for range 14 {
			at = plus(at, 12*(r.Float32()-0.5), 12*(r.Float32()-0.5))
			o.view.Dragged(dragTo(at))
			now := stands(o, h)
			if first == nil {
				first, loupe, factor = now, o.view.out.Loupe, factorOf(o)
			}
			if f := factorOf(o); f != "" && factor != "" {
				factors++
				if f != factor || o.view.out.Loupe != loupe {
					t.Errorf("seed %d, walk %d: the loupe went from %v %q to %v %q", seed, walk, loupe, factor, o.view.out.Loupe, f)
				}
			}
			for word, s := range now {
				was, ok := first[word]
				if !ok || s.edge != was.edge || s.moved || was.moved {
					continue
				}
				counts[word]++
				if d := s.off.Sub(was.off).Len(); d > 1e-6 {
					t.Errorf("seed %d, walk %d, %v in the hand: %q went %.2f points", seed, walk, h, word, d)
				}
			}
		}
		o.letGo(at)
		o.view.build()
		in := o.view.in
		in.Selected, in.Hover, in.Focus, in.Note = o.view.selected, o.view.hover, scene.NoHandle, o.view.note
		if o.view.focused {
			in.Focus = o.view.selected
		}
		var l draw.List
		var out scene.Output
		if err := scene.Build(&l, o.view.view, &in, &out); err != nil {
			t.Fatal(err)
		}
		if got, want := len(o.view.list.Items()), len(l.Items()); got != want {
			t.Errorf("seed %d, walk %d: %d things after the gesture, %d without it", seed, walk, got, want)
		}
		for i := range min(len(l.Items()), len(o.view.list.Items())) {
			a, b := &l.Items()[i], &o.view.list.Items()[i]
			if a.Kind == draw.KindText && a.Centre != b.Centre {
				t.Errorf("seed %d, walk %d: %q is not laid out anew", seed, walk, l.TextOf(a))
			}
		}
	}
	for _, word := range []string{"roll centre", "instant centre", "ideal rack end", "scrub ", "bump ", "centre plane", "Outer tie-rod end"} {
		if counts[word] < 10 {
			t.Errorf("%q was compared %d times only", word, counts[word])
		}
	}
	if factors < 100 {
		t.Errorf("the loupe was compared %d times only", factors)
	}
}

// factorOf is what the loupe's legend says of its factor.
func factorOf(o *owner) string {
	for i := range o.view.list.Items() {
		if it := &o.view.list.Items()[i]; it.Kind == draw.KindText {
			if text := string(o.view.list.TextOf(it)); strings.HasPrefix(text, "side ") {
				return text
			}
		}
	}
	return ""
}

// The loupe answers: under the pointer what the gap is, to a click which end of
// the rod to move.
func TestTheLoupeAnswers(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	asked := 0
	o.view.OnLoupe = func() { asked++ }
	o.in.Overlays |= scene.TieRodArcs
	o.set(sampleCorner())
	out, _ := o.view.Shown()
	if out.Loupe.IsEmpty() {
		t.Fatal("no loupe")
	}
	s := o.view.View().ToScreen(out.Loupe.Mid().Add(draw.Point{Y: out.Loupe.H() / 4}))
	at := fyne.NewPos(float32(s.X), float32(s.Y))
	o.view.MouseMoved(mouse(at, 0))
	if !strings.HasPrefix(o.status, "At bump ") || !strings.Contains(o.status, ": gap ") || o.view.Cursor() != desktop.PointerCursor {
		t.Errorf("the status is %q", o.status)
	}
	o.click(at)
	if asked != 1 {
		t.Errorf("asked %d times", asked)
	}
	o.view.MouseMoved(mouse(fyne.NewPos(5, 5), 0))
	if strings.Contains(o.status, "gap") {
		t.Errorf("off the loupe: %q", o.status)
	}
}

// What finds no room is named in the status line.
func TestTheStatusSaysWhatHasNoRoom(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	o.view.Resize(sizeOf(250, 190))
	out, _ := o.view.Shown()
	if len(out.LeftOut) == 0 {
		t.Fatal("everything has room in a very small window")
	}
	if !strings.HasPrefix(o.status, "No room for: "+strings.Join(out.LeftOut, ", ")+". ") {
		t.Errorf("left out %q, the status is %q", out.LeftOut, o.status)
	}
}

// While a key goes on nudging, labels stay at home as in a drag; they settle when it
// comes up.
func TestLabelsStayAtHomeWhileAKeyNudges(t *testing.T) {
	o := newOwner(t, sampleCorner(), 12)
	h := pointHandle(kinematics.OuterEnd)
	o.view.FocusGained()
	o.view.Select(h)
	o.view.build()
	first, moved := stands(o, h), false
	for range 30 {
		o.view.KeyDown(&fyne.KeyEvent{Name: fyne.KeyUp})
		o.press(fyne.KeyUp)
		for word, s := range stands(o, h) {
			if was, ok := first[word]; ok && s.edge == was.edge && !s.moved && !was.moved && s.off.Sub(was.off).Len() > 1e-6 {
				t.Fatalf("%q went %v", word, s.off.Sub(was.off))
			}
		}
	}
	o.view.KeyUp(&fyne.KeyEvent{Name: fyne.KeyUp})
	for word, s := range stands(o, h) {
		was, ok := first[word]
		moved = moved || !ok || s.off.Sub(was.off).Len() > 1e-6
	}
	if !moved {
		t.Error("nothing is laid out anew, or nothing had to: the test shows nothing")
	}
}
