package panels

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/look"
	"armscribe/app/look/looktest"
)

func TestACardIsWalkedByKeyboardAndKeepsIt(t *testing.T) {
	gone := ""
	step := func(name string, lines ...string) CardStep {
		s := CardStep{Name: name, Mark: CardOpen}
		for _, text := range lines {
			s.Lines = append(s.Lines, CardLine{Text: text, Hint: "hint " + text, Go: func() { gone += text + ";" }})
		}
		return s
	}
	c := NewCard()
	hint := ""
	c.OnHint = func(text string) { hint = text }
	win := show(t, c, look.Light, 236, 600)
	chosen := 0
	fill := func(radius string) {
		c.SetSteps([]CardStep{step("Measure", "points", radius), step("Fit", "track")}, chosen)
	}
	c.OnStep = func(i int) { gone += "step;"; chosen = i; fill("radius") }
	fill("radius")
	for _, want := range []string{"Measure. hint points. hint radius.", "hint points", "hint radius", "Fit. hint track."} {
		win.Canvas().FocusNext()
		if hint != want {
			t.Fatalf("the hint is %q, not %q", hint, want)
		}
		win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	if gone != "step;points;radius;step;" || chosen != 1 {
		t.Errorf("went to %q", gone)
	}
	held := win.Canvas().Focused()
	fill("loaded radius estimated from the tyre code, which takes two lines")
	if win.Canvas().Focused() != held {
		t.Error("new words took the keyboard away")
	}
	for _, s := range c.steps {
		if s.head.Size().Height < 24 {
			t.Errorf("a step of %v is too small to hit", s.head.Size())
		}
		for _, b := range s.lines {
			if b.Size().Height < 24 || b.Size().Width < 24 {
				t.Errorf("a line of %v is too small to hit", b.Size())
			}
		}
	}
}

// The ring of an open step is seen, painted light and dark.
func TestTheOpenRingStandsOut(t *testing.T) {
	for _, mode := range []look.Mode{look.Light, look.Dark} {
		c := NewCard()
		c.SetSteps([]CardStep{{Mark: CardOpen, Lines: []CardLine{{}}}}, 0)
		w := show(t, c, mode, 200, 60)
		if img := w.Canvas().Capture(); looktest.StandsOut(img, img.Bounds()) < 3 {
			t.Errorf("mode %d: %.2f : 1", mode, looktest.StandsOut(img, img.Bounds()))
		}
	}
}

// A narrow card shows marks alone, each still to be pressed.
func TestANarrowCardShowsMarks(t *testing.T) {
	c := NewCard()
	chosen := -1
	c.OnStep = func(i int) { chosen = i }
	win := show(t, c, look.Light, 40, 400)
	c.SetSteps([]CardStep{{Name: "At a glance", Mark: CardNone}, {Name: "Measure", Mark: CardOpen, Lines: []CardLine{{Text: "points"}}}, {Name: "Fit", Mark: CardMissed}}, 1)
	for i, s := range c.steps {
		if s.head.name.Visible() && s.head.name.text != "" || s.head.line.Visible() || s.head.Size().Width != 40 {
			t.Errorf("step %d has words, or is %v", i, s.head.Size())
		}
		for _, l := range s.lines {
			if l.Visible() {
				t.Errorf("step %d shows a line", i)
			}
		}
		if img := win.Canvas().Capture(); looktest.StandsOut(img, image.Rect(0, int(s.head.Position().Y), 40, int(s.head.Position().Y+cardHeadHeight))) < 3 {
			t.Errorf("the mark of step %d is not seen", i)
		}
	}
	test.Tap(c.steps[2].head)
	if chosen != 2 {
		t.Errorf("chosen: %d", chosen)
	}
}
