package trackpage

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"armscribe/app/look"
)

// widePage lays out a section whose table needs more room than words have
// beside a picture: the picture stands beside it where both fit, and under it
// where they do not. The words scroll by themselves.
type widePage struct{ words fyne.CanvasObject }

// wide is a section that is such a page.
type wide struct {
	name    string
	content *fyne.Container
}

func newWide(name string, words, picture fyne.CanvasObject) wide {
	return wide{name, container.New(&widePage{words}, container.NewScroll(words), picture)}
}

// Name is on the section's button.
func (s *wide) Name() string { return s.name }

// Object holds the words and the picture.
func (s *wide) Object() fyne.CanvasObject { return s.content }

// Beside is nothing: the picture stands in the section's own page.
func (s *wide) Beside() fyne.CanvasObject { return nil }

// settle lays the page out anew: texts that wrap have another height now, and
// its table another width.
func (s *wide) settle() {
	s.content.Refresh()
	s.content.Layout.(*widePage).words.Refresh()
}

// Sizes of a wide page, points.
const (
	pictureLeast = 230.0
	pictureMost  = 620.0
	underShare   = 0.36
)

// MinSize is small: words scroll.
func (*widePage) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(640, 280) }

// Layout places words and picture.
func (p *widePage) Layout(o []fyne.CanvasObject, size fyne.Size) {
	words := p.words.MinSize().Width + 2*look.Step
	o[0].Move(fyne.NewPos(0, 0))
	if left := size.Width - words; left >= pictureLeast {
		w := min(pictureMost, left)
		o[0].Resize(fyne.NewSize(size.Width-w-look.Step, size.Height))
		o[1].Resize(fyne.NewSize(w, size.Height))
		o[1].Move(fyne.NewPos(size.Width-w, 0))
		return
	}
	h := size.Height * underShare
	o[0].Resize(fyne.NewSize(size.Width, size.Height-h-look.Step))
	o[1].Resize(fyne.NewSize(size.Width, h))
	o[1].Move(fyne.NewPos(0, size.Height-h))
}
