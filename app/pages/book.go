// Package pages holds what the window's full pages are made of: a book of
// sections with a picture beside the words, fields, tables, notices. A page holds
// no job: it asks its host for one and hands changes back.
package pages

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/look"
)

// Section is one part of a book.
type Section interface {
	// Name stands on the section's button.
	Name() string
	// Object holds the words; it scrolls. Beside is the picture; nil gives the
	// words the whole width. Both are always the same objects.
	Object() fyne.CanvasObject
	Beside() fyne.CanvasObject
	// Show brings the section up to date with the host's job.
	Show()
}

// Book shows one of its sections at a time, chosen by a row of buttons. All its
// methods belong to the toolkit's goroutine.
type Book struct {
	// Before is called before a section is shown, to read the host's job; it may
	// be nil.
	Before func()

	title    *widget.Label
	buttons  []*keyed.Button
	body     *fyne.Container
	content  fyne.CanvasObject
	sections []Section
	current  int
}

// NewBook makes a book that is open at its first section, with a line of caution
// under everything. Show fills it.
func NewBook(caution string, sections ...Section) *Book {
	b := &Book{title: BoldLabel(""), sections: sections}
	bar := container.NewHBox()
	for i, s := range sections {
		k := keyed.NewButton(s.Name(), func() { b.Select(i) })
		b.buttons = append(b.buttons, k)
		bar.Add(k)
	}
	b.body = container.New(halves{})
	b.title.Alignment = fyne.TextAlignTrailing
	head := container.NewBorder(nil, nil, bar, nil, b.title)
	foot := Hint(caution)
	b.content = container.New(layout.NewBorderLayout(head, foot, nil, nil), head, b.body, foot) // Tab goes in this order
	b.open(0)
	return b
}

// Object is what the window shows.
func (b *Book) Object() fyne.CanvasObject { return b.content }

// Section is the one that is open.
func (b *Book) Section() Section { return b.sections[b.current] }

// Select opens a section by its place, and shows it.
func (b *Book) Select(i int) {
	b.open(i)
	b.Show()
}

func (b *Book) open(i int) {
	b.current = i
	for k, button := range b.buttons {
		button.Importance = widget.LowImportance
		if k == i {
			button.Importance = widget.HighImportance
		}
		button.Refresh()
	}
	s := b.sections[i]
	b.body.Objects = []fyne.CanvasObject{container.NewScroll(container.NewPadded(s.Object()))}
	if beside := s.Beside(); beside != nil {
		b.body.Objects = append(b.body.Objects, beside)
	}
	b.body.Refresh()
}

// Show brings the open section up to date.
func (b *Book) Show() {
	if b.Before != nil {
		b.Before()
	}
	b.Section().Show()
	b.body.Refresh() // its table may need another width now
}

// SetTitle says what is shown in the window, on the right of the buttons.
func (b *Book) SetTitle(text string) { b.title.SetText(text) }

// halves stands words, which scroll, beside the picture, if there is one. A table
// that needs more than its half takes it from the picture.
type halves struct{}

// Widths of the two halves.
const (
	pictureShare = 0.43
	pictureLeast = 300
	pictureMost  = 760
)

// MinSize is small: words scroll.
func (halves) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(660, 300) }

// Layout places both.
func (halves) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	if len(o) == 1 {
		o[0].Resize(size)
		return
	}
	words := o[0].(*container.Scroll).Content.MinSize().Width + 2*look.Step
	w := max(pictureLeast, min(pictureMost, size.Width*pictureShare, size.Width-words))
	o[0].Resize(fyne.NewSize(size.Width-w-2*look.Step, size.Height))
	o[1].Resize(fyne.NewSize(w-look.Step, size.Height))
	o[1].Move(fyne.NewPos(size.Width-w, 0))
}
