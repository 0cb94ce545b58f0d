package panels

import (
	"testing"

	"fyne.io/fyne/v2"

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
	c.SetSteps([]CardStep{step("Measure", "points", "radius"), step("Fit", "track")})
	for _, want := range []string{"points", "radius", "track"} {
		win.Canvas().FocusNext()
		if hint != "hint "+want {
			t.Fatalf("the hint is %q at %s", hint, want)
		}
		win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	if gone != "points;radius;track;" {
		t.Errorf("went to %q", gone)
	}
	held := win.Canvas().Focused()
	c.SetSteps([]CardStep{step("Measure", "points", "loaded radius estimated from the tyre code, which takes two lines"), step("Fit", "track and scrub")})
	if win.Canvas().Focused() != held {
		t.Error("new words took the keyboard away")
	}
	for _, s := range c.steps {
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
		c.SetSteps([]CardStep{{Mark: CardOpen, Lines: []CardLine{{}}}})
		w := show(t, c, mode, 200, 60)
		if img := w.Canvas().Capture(); looktest.StandsOut(img, img.Bounds()) < 3 {
			t.Errorf("mode %d: %.2f : 1", mode, looktest.StandsOut(img, img.Bounds()))
		}
	}
}
