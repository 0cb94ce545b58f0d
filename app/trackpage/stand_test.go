package trackpage

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/pages"
)

// stand is a bench that shows one variant, and notes where the page sends the
// corner.
type stand struct {
	*bench
	gone []float64 // travel, rack, roll
}

// The variants of the demo job of a front axle.
const (
	asMeasured = iota
	spacersOnly
	longerArms
)

const (
	frontDemo = "widened-front"
	rearDemo  = "rear-toe-link"
)

func newStand(t testing.TB, demo string, variant int) *stand {
	t.Helper()
	s := &stand{bench: open(t, demo)}
	s.doc.Show(variant)
	s.host.GoTo = func(travel, rack, roll float64) { s.gone = []float64{travel, rack, roll} }
	s.Show()
	return s
}

// open shows a section by its name.
func (s *stand) open(t testing.TB, name string) {
	t.Helper()
	const sections = 6
	for i := range sections {
		s.Select(i)
		if s.Section().Name() == name {
			return
		}
	}
	t.Fatalf("no section %q", name)
}

// buttons are the open section's whose text begins so.
func (s *stand) buttons(t testing.TB, begin string) (list []*widget.Button) {
	t.Helper()
	walk(s.Section().Object(), func(o fyne.CanvasObject) {
		if b, ok := o.(*widget.Button); ok && strings.HasPrefix(b.Text, begin) {
			list = append(list, b)
		}
	})
	return list
}

// enter types a text into a field and leaves it with Enter.
func enter(f *pages.Field, text string) {
	f.SetText(text)
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}
