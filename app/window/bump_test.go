package window

import (
	"strings"
	"testing"

	"armscribe/app/keyed"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// pressOn taps the first button of that text on the page or question on top; one
// that ends in an ellipsis is how the button's begins.
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
	look(w.win.Canvas().Overlays().Top())
	if found == nil {
		t.Fatalf("no button %q", text)
	}
	test.Tap(found)
}

func TestASpacerStackIsKeptFromThePageOnBumpSteer(t *testing.T) {
	w := open(t, "gravel-estate")
	from, first := w.doc.Current(), w.bytes(t)
	w.openBump()
	w.win.Canvas().FocusNext() // by Tab
	if b, ok := w.win.Canvas().Focused().(*keyed.Button); !ok || b.Text != "Diagnosis" {
		t.Fatalf("the keyboard is on %T", w.win.Canvas().Focused())
	}
	w.pressOn(t, "Spacers")
	w.pressOn(t, "Keep as a variant")
	if v := w.doc.Variant(); v.Name != "longer arms, stack 6.5" || v.TieRod.OuterEnd.Z.MM != 252.5 || w.doc.ComparedIndex() != from {
		t.Fatalf("kept %q with its outer end at %g, against variant %d", v.Name, v.TieRod.OuterEnd.Z.MM, w.doc.ComparedIndex())
	}
	w.undo()
	if w.bytes(t) != first || w.page == nil {
		t.Fatal("undo does not give the first job back under the open page")
	}
	w.closePage()
	if w.page != nil || w.win.Canvas().Overlays().Top() != nil {
		t.Fatal("the page does not close")
	}
}
