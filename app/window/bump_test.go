package window

import (
	"strings"
	"testing"

	"armscribe/app/keyed"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// pressOn taps the first button of that text in the question on top, else in the
// answer; one that ends in an ellipsis is how the button's begins.
func (w *Window) pressOn(t *testing.T, text string) {
	t.Helper()
	var found *keyed.Button
	var look func(o fyne.CanvasObject)
	look = func(o fyne.CanvasObject) {
		if b, ok := o.(*keyed.Button); ok && found == nil && (b.Text == text || strings.HasSuffix(text, "…") && strings.HasPrefix(b.Text, strings.TrimSuffix(text, "…"))) {
			found = b
		}
		switch k := o.(type) {
		case *fyne.Container:
			for _, c := range k.Objects {
				look(c)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(k).Objects() {
				look(c)
			}
		}
	}
	if top := w.win.Canvas().Overlays().Top(); top != nil {
		look(top)
	} else {
		look(w.book().Object())
	}
	if found == nil {
		t.Fatalf("no button %q", text)
	}
	test.Tap(found)
}

func TestASpacerStackIsKeptFromTheAnswer(t *testing.T) {
	w := open(t, "gravel-estate")
	from, first := w.doc.Current(), w.bytes(t)
	w.choose(steering)
	w.open(steering, "Spacers")
	w.pressOn(t, "Keep as a variant")
	if v := w.doc.Variant(); v.Name != "longer arms, stack 6.5" || v.TieRod.OuterEnd.Z.MM != 252.5 || w.doc.ComparedIndex() != from {
		t.Fatalf("kept %q with its outer end at %g, against variant %d", v.Name, v.TieRod.OuterEnd.Z.MM, w.doc.ComparedIndex())
	}
	w.undo()
	if w.bytes(t) != first || !w.isOpen(steering, "Spacers") {
		t.Fatal("undo does not give the first job back beside the open answer")
	}
}
