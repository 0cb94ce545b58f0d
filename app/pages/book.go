// Package pages holds what the window's answers are made of: a book of sections,
// each words with a picture under them, fields, tables, notices. A page holds no job:
// it asks its host for one and hands changes back.
package pages

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/look"
)

// Section is one part of a book.
type Section interface {
	// Name stands on the section's tab.
	Name() string
	// Object fills the column, and scrolls by itself. It is always the same.
	Object() fyne.CanvasObject
	// Show brings the section up to date with the host's job.
	Show()
}

// Book is the answer column of a step: its title, its sections as tabs, the one that
// is open. All its methods belong to the toolkit's goroutine.
type Book struct {
	// Opened is told that a section was opened by its tab, and brings the book up to
	// date; nil does that alone.
	Opened func()

	title, of *widget.Label
	tabs      []*tab
	body      *fyne.Container
	content   *fyne.Container
	sections  []Section
	current   int
}

// NewBook makes a book that is open at its first section. Without a title its section stands alone. Show
// fills it.
func NewBook(title string, sections ...Section) *Book {
	b := &Book{title: widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}), of: widget.NewLabel(""), sections: sections, body: container.NewStack()}
	b.of.Alignment, b.of.Truncation, b.of.Importance = fyne.TextAlignTrailing, fyne.TextTruncateEllipsis, widget.LowImportance
	bar, tabs := newTabs(sections, b.Select)
	b.tabs = tabs
	in := layout.NewCustomPaddedLayout(0, 0, look.Step, look.Step)
	under := layout.NewCustomPaddedLayout(0, 0, 2*look.Step, 2*look.Step)
	head := container.NewVBox(container.New(in, container.NewBorder(nil, nil, b.title, nil, b.of)), container.New(under, bar), container.New(under, newRule()))
	if len(sections) == 1 {
		bar.Hide()
	}
	if title == "" {
		head.Hide()
	}
	b.content = container.New(layout.NewBorderLayout(head, nil, nil, nil), head, b.body) // Tab goes in this order
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
	if b.Opened != nil {
		b.Opened()
		return
	}
	b.Show()
}

// Open opens a section by its name.
func (b *Book) Open(name string) {
	for i, s := range b.sections {
		if s.Name() == name {
			b.Select(i)
			return
		}
	}
	panic("pages: no section " + name)
}

func (b *Book) open(i int) {
	b.current = i
	for k, t := range b.tabs {
		t.choose(k == i)
	}
	b.body.Objects = []fyne.CanvasObject{b.sections[i].Object()}
	b.body.Refresh()
}

// Show brings the open section up to date.
func (b *Book) Show() {
	b.Section().Show()
	b.body.Refresh() // its words may need another height now
}

// Turn opens the section so many places on, and round again.
func (b *Book) Turn(by int) {
	n := len(b.sections)
	b.Select(((b.current+by)%n + n) % n)
}

// Sections are those of the book.
func (b *Book) Sections() []Section { return b.sections }

// Of says whose answer it is.
func (b *Book) Of() string { return b.of.Text }

// SetOf says whose answer it is, on the right of the title.
func (b *Book) SetOf(text string) { b.of.SetText(text) }

// Wants is the width that the open section needs to be seen whole.
func (b *Book) Wants() float32 {
	if w, ok := b.Section().(interface{ Wants() float32 }); ok {
		return w.Wants()
	}
	return 0
}
