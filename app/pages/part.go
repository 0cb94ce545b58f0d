package pages

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"armscribe/app/job"
	"armscribe/app/look"
)

// Proposer is a section that has a corner to show before it is kept: the variant that
// would be made, under what it is called in the view; nil for none now.
type Proposer interface{ Proposal() *job.Variant }

// Part is a section of words, which scroll, and a picture under them, if there is one.
type Part struct {
	settled        func() // may be nil
	name           string
	words, picture fyne.CanvasObject
	wide           bool
	scroll         *container.Scroll
}

// NewPart makes a section; the picture may be nil.
func NewPart(name string, words, picture fyne.CanvasObject) Part {
	inside := container.New(&under{}, words)
	if picture != nil {
		inside.Add(picture)
	}
	return Part{name: name, words: words, picture: picture, scroll: container.NewScroll(inside)}
}

// Name is on the section's tab.
func (p *Part) Name() string { return p.name }

// Object holds words and picture.
func (p *Part) Object() fyne.CanvasObject { return p.scroll }

// Settle lays the section out anew: texts that wrap have another height now, and
// tables another width.
func (p *Part) Settle() {
	p.words.Refresh()
	p.scroll.Refresh()
	if p.settled != nil {
		p.settled()
	}
}

// OnSettled sets what is told that the section shows something else.
func (p *Part) OnSettled(f func()) { p.settled = f }

// Wide lets the section ask for the width that its widest table needs to stand whole.
func (p *Part) Wide() { p.wide = true }

// Wants is the width that the section asks for.
func (p *Part) Wants() float32 {
	if !p.wide {
		return p.scroll.Content.MinSize().Width
	}
	return max(p.scroll.Content.MinSize().Width, wholeWidth(p.words)+2*edge)
}

// wholeWidth is that of the widest table among objects.
func wholeWidth(o fyne.CanvasObject) (w float32) {
	c, ok := o.(*fyne.Container)
	if !ok || !c.Visible() {
		return 0
	}
	if f, ok := c.Layout.(*folded); ok {
		return f.whole
	}
	for _, inner := range c.Objects {
		w = max(w, wholeWidth(inner))
	}
	return w
}

// Whole is a section that fills the column with what scrolls by itself.
type Whole struct {
	Title   string
	Content fyne.CanvasObject
	Fill    func()
}

// Name is on the section's tab.
func (p *Whole) Name() string { return p.Title }

// Object is the content.
func (p *Whole) Object() fyne.CanvasObject { return p.Content }

// Show fills it.
func (p *Whole) Show() { p.Fill() }

// under stands a picture under the words: as high as the column leaves, within
// bounds.
type under struct{}

// Sizes of what is under each other, points.
const (
	edge         = look.Step // texts have as much again around them: the column's left edge is at twice that
	pictureLeast = 240
	pictureShare = 0.85 // of the width, the most height
)

// MinSize is that of the words and a small picture.
func (l *under) MinSize(o []fyne.CanvasObject) fyne.Size {
	size := o[0].MinSize().AddWidthHeight(2*edge, 2*look.Step)
	if len(o) > 1 {
		size.Height += pictureLeast + edge
	}
	return size
}

// Layout places words and picture.
func (l *under) Layout(o []fyne.CanvasObject, size fyne.Size) {
	w := size.Width - 2*edge
	o[0].Move(fyne.NewPos(edge, look.Step))
	for range 2 { // texts that wrap have another height at another width
		o[0].Resize(fyne.NewSize(w, o[0].MinSize().Height))
	}
	if len(o) > 1 {
		y := look.Step + o[0].Size().Height + edge
		o[1].Move(fyne.NewPos(edge, y))
		o[1].Resize(fyne.NewSize(w, max(pictureLeast, min(size.Height-y-look.Step, w*pictureShare))))
	}
}
