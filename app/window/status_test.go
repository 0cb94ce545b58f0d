package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"armscribe/canvas/scene"
)

// The status line says whole what there is no room for, and of the demos as they open
// what can be done as well.
func TestTheStatusLineIsNotCut(t *testing.T) {
	left := 0
	for _, demo := range []string{"gravel-estate", "flat-teaching", "rear-toe-link"} {
		w := open(t, demo)
		for _, size := range []fyne.Size{fyne.NewSize(1024, 700), fyne.NewSize(1280, 800)} {
			w.win.Resize(size)
			for _, more := range []bool{false, true} {
				if more {
					w.toggleOverlay(scene.OtherSide)
				}
				w.say("")
				said, room := w.status.Text, w.status.Size().Width-2*theme.InnerPadding()
				if first, _, without := strings.Cut(said, ". "); without && strings.HasPrefix(first, "No room for: ") {
					left++
					if more {
						said = first + "."
					}
				}
				if wide := fyne.MeasureText(said, theme.TextSize(), w.status.TextStyle).Width; wide > room {
					t.Errorf("%s at %g: %q is %.0f wide, room for %.0f", demo, size.Width, said, wide, room)
				}
				if more {
					w.toggleOverlay(scene.OtherSide)
				}
			}
		}
	}
	if left < 6 {
		t.Errorf("all has room but for %d times", left)
	}
}
