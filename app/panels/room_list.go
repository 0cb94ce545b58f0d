package panels

import (
	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/look"
)

// roomLine is an obstacle of the list: a mark and its name, how its gap stands
// to the wish, and where the gap is least. A click, or with the keyboard Enter
// or Space, selects it and goes there; the arrows go through the list.
type roomLine struct {
	widget.BaseWidget
	room               *Room
	index              int
	name, words, where *note
	ground, bar        *fynecanvas.Rectangle
	hovered, focused   bool
	selected           bool
}

var (
	_ fyne.Tappable      = (*roomLine)(nil)
	_ fyne.Focusable     = (*roomLine)(nil)
	_ desktop.Hoverable  = (*roomLine)(nil)
	_ desktop.Cursorable = (*roomLine)(nil)
)

func newRoomLine(r *Room, index int) *roomLine {
	l := &roomLine{room: r, index: index, words: quietNote(""), where: quietNote(""),
		name:   newNote("", look.SizeSmall, theme.ColorNameForeground),
		ground: fynecanvas.NewRectangle(theme.Color(look.ColorPanel)), bar: fynecanvas.NewRectangle(theme.Color(look.ColorPanel))}
	l.name.step = nameHeight
	l.ground.CornerRadius = theme.InputRadiusSize()
	l.ExtendBaseWidget(l)
	return l
}

// verdictSign is the mark of a verdict, and its colour.
func verdictSign(v clearance.Verdict) (string, fyne.ThemeColorName) {
	if v == clearance.Kept {
		return "✓", theme.ColorNameSuccess
	}
	return "✕", theme.ColorNameWarning
}

func (l *roomLine) fill(in *RoomInput, selected bool) {
	name := in.Job.Obstacles[l.index].Name
	sign, colour := "", look.ColorQuiet
	words, where := "", ""
	if in.Answers != nil && l.index < len(in.Answers.Gaps) {
		g := &in.Answers.Gaps[l.index]
		words, where = g.Words(in.Unit, in.fine()), g.Where(in.Unit)
		if g.Err != nil {
			sign, colour, words = "✕ ", theme.ColorNameError, upperFirst(words)+"."
		} else {
			sign, colour = verdictSign(g.Verdict())
			sign += " "
		}
	}
	l.name.bold = colour == theme.ColorNameWarning || colour == theme.ColorNameError
	if l.selected != selected {
		l.selected = selected
		l.Refresh()
	}
	l.name.say(sign+name, theme.ColorNameForeground)
	l.words.say(words, colour)
	l.where.say(where, look.ColorQuiet)
}

// Tapped selects the obstacle and goes to its least gap.
func (l *roomLine) Tapped(*fyne.PointEvent) { l.pick() }

func (l *roomLine) pick() {
	l.room.Select(l.index)
	l.room.OnPicked(l.index)
}

// TypedKey picks, or goes through the list.
func (l *roomLine) TypedKey(e *fyne.KeyEvent) {
	if keyed.Pass(l, e) {
		return
	}
	next := l.index
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		l.pick()
		return
	case fyne.KeyDown:
		next++
	case fyne.KeyUp:
		next--
	}
	if c := canvasOf(l); c != nil && next != l.index && next >= 0 && next < l.room.shape.lines {
		c.Focus(l.room.lines[next])
	}
}

// TypedRune takes no letters.
func (l *roomLine) TypedRune(rune) {}

// FocusGained shows the cursor.
func (l *roomLine) FocusGained() {
	l.focused = true
	l.room.reveal(l)
	l.hint()
}

// FocusLost takes it away.
func (l *roomLine) FocusLost() { l.focused = false; l.hint() }

// MouseIn says what a click does.
func (l *roomLine) MouseIn(*desktop.MouseEvent) { l.hovered = true; l.hint() }

// MouseMoved changes nothing.
func (l *roomLine) MouseMoved(*desktop.MouseEvent) {}

// MouseOut forgets the pointer.
func (l *roomLine) MouseOut() { l.hovered = false; l.hint() }

// Cursor shows that the line leads somewhere.
func (l *roomLine) Cursor() desktop.Cursor { return desktop.PointerCursor }

const lineHint = "A click, or Enter, goes to the place of the least gap. Ctrl+R goes back to rest."

func (l *roomLine) hint() {
	l.Refresh()
	if l.room.OnHint == nil {
		return
	}
	if l.hovered || l.focused {
		l.room.OnHint(lineHint)
	} else {
		l.room.OnHint("")
	}
}

// Sizes of a line in points.
const (
	linePad = 5
	lineBar = 3 // at the left of the selected one
)

func (l *roomLine) inner(w float32) float32 { return w - linePad - lineBar }

func (l *roomLine) heightAt(w float32) float32 {
	return l.name.height(l.inner(w)) + l.words.height(l.inner(w)) + l.where.height(l.inner(w)) + linePad
}

// MinSize is that of one line of text.
func (l *roomLine) MinSize() fyne.Size { return fyne.NewSize(60, cardLineLeast) }

// CreateRenderer is for the toolkit.
func (l *roomLine) CreateRenderer() fyne.WidgetRenderer {
	l.ExtendBaseWidget(l)
	r := &roomLineRenderer{l}
	r.Refresh()
	return r
}

type roomLineRenderer struct{ l *roomLine }

func (r *roomLineRenderer) Layout(size fyne.Size) {
	l := r.l
	l.ground.Resize(size)
	l.bar.Resize(fyne.NewSize(lineBar, size.Height))
	w, y := l.inner(size.Width), float32(linePad)/2
	for _, n := range []*note{l.name, l.words, l.where} {
		n.Move(fyne.NewPos(linePad+lineBar, y))
		n.Resize(fyne.NewSize(w, n.height(w)))
		y += n.height(w)
	}
}

func (r *roomLineRenderer) MinSize() fyne.Size { return r.l.MinSize() }
func (r *roomLineRenderer) Destroy()           {}

func (r *roomLineRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.l.ground, r.l.bar, r.l.name, r.l.words, r.l.where}
}

func (r *roomLineRenderer) Refresh() {
	l := r.l
	l.ground.FillColor, l.ground.StrokeWidth = theme.Color(look.ColorPanel), 0
	l.bar.FillColor = theme.Color(look.ColorPanel)
	if l.hovered {
		l.ground.FillColor = theme.Color(theme.ColorNameHover)
	}
	if l.selected {
		l.bar.FillColor = theme.Color(theme.ColorNameForeground)
	}
	if l.focused {
		l.ground.StrokeWidth, l.ground.StrokeColor = 2, theme.Color(theme.ColorNamePrimary)
	}
	l.ground.Refresh()
	l.bar.Refresh()
	for _, n := range []*note{l.name, l.words, l.where} {
		n.Refresh()
	}
}

func (l *roomLine) row() row { return &roomLineRow{l} }

// roomLineRow lets a line reach a little over the margins, with its ground.
type roomLineRow struct{ l *roomLine }

func (r *roomLineRow) objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.l} }

func (r *roomLineRow) height(w float32) float32 {
	return max(cardLineLeast, r.l.heightAt(w+2*linePad)) + linePad
}

func (r *roomLineRow) place(x, y, w float32) {
	r.l.Move(fyne.NewPos(x-linePad, y))
	size := fyne.NewSize(w+2*linePad, r.height(w)-linePad)
	if r.l.Size() == size {
		(&roomLineRenderer{r.l}).Layout(size) // a text may have taken another line within the same height
	}
	r.l.Resize(size)
}

// deedsRow are the buttons under the list.
type deedsRow struct{ add, double, remove *keyed.Button }

func newDeedsRow(r *Room) *deedsRow {
	d := &deedsRow{}
	d.add = keyed.NewButton("Add…", func() { r.askDraft(d.add) })
	d.double = keyed.NewButton("Duplicate", r.Double)
	d.remove = keyed.NewButton("Remove", r.Remove)
	return d
}

func (d *deedsRow) follow(selected, mayAdd bool) {
	able(d.add, mayAdd)
	able(d.double, selected && mayAdd)
	able(d.remove, selected)
}

func able(b *keyed.Button, on bool) {
	switch {
	case on && b.Disabled():
		b.Enable()
	case !on && !b.Disabled():
		b.Disable()
	}
}

func (d *deedsRow) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{d.add, d.double, d.remove}
}

func (d *deedsRow) height(float32) float32 { return fieldHeight + rowGap }

func (d *deedsRow) place(x, y, w float32) {
	shares := [...]float32{0.28, 0.4, 0.32}
	w -= 2 * fieldGap
	for i, o := range d.objects() {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w*shares[i], fieldHeight))
		x += w*shares[i] + fieldGap
	}
}

// drafts are what can be added.
var drafts = []struct {
	name  string
	draft clearance.Draft
}{
	{"Draw a point", clearance.Draft{Shape: job.PointShape, Drawn: true}},
	{"Draw a line", clearance.Draft{Shape: job.LineShape, Drawn: true}},
	{"Draw an arc that faces outboard, as an arch lip", clearance.Draft{Shape: job.ArcShape, Facing: job.Direction{Y: 1}, Drawn: true}},
	{"Draw a circle that faces up, as a strut's cap", clearance.Draft{Shape: job.CircleShape, Facing: job.Direction{Z: 1}, Drawn: true}},
	{"Draw a circle that faces forward", clearance.Draft{Shape: job.CircleShape, Facing: job.Direction{X: 1}, Drawn: true}},
	{"", clearance.Draft{}},
	{"Type a point", clearance.Draft{Shape: job.PointShape}},
	{"Type a line", clearance.Draft{Shape: job.LineShape}},
	{"Type an arc, as an arch lip", clearance.Draft{Shape: job.ArcShape, Facing: job.Direction{Y: 1}}},
	{"Type a circle", clearance.Draft{Shape: job.CircleShape, Facing: job.Direction{Y: 1}}},
}

// DraftItems are the menu items of what can be added.
func (r *Room) DraftItems() []*fyne.MenuItem {
	items := make([]*fyne.MenuItem, len(drafts))
	for i, d := range drafts {
		if d.name == "" {
			items[i] = fyne.NewMenuItemSeparator()
			continue
		}
		items[i] = fyne.NewMenuItem(d.name, func() { r.OnAdd(d.draft) })
	}
	return items
}

// askDraft offers what can be added, above a button: it stands low.
func (r *Room) askDraft(under fyne.CanvasObject) {
	c := canvasOf(under)
	if c == nil {
		return
	}
	menu := widget.NewPopUpMenu(fyne.NewMenu("", r.DraftItems()...), c)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(under)
	at.Y = max(0, min(at.Y+under.Size().Height, c.Size().Height-menu.MinSize().Height-look.Step))
	menu.ShowAtPosition(at)
}

// Double adds a copy of the selected obstacle and selects it.
func (r *Room) Double() {
	i := r.selected
	if i < 0 {
		return
	}
	o := clearance.CopyOf(r.in.Job, i)
	r.selected = len(r.in.Job.Obstacles)
	if err := r.OnEdit("copy obstacle "+r.in.Job.Obstacles[i].Name, func(j *job.Job) { j.Obstacles = append(j.Obstacles, o) }); err != nil {
		r.Select(i)
		r.one.name.say("", err)
	}
}

// Remove takes the selected obstacle out of the job.
func (r *Room) Remove() {
	i := r.selected
	if i < 0 {
		return
	}
	r.selected = -1
	name := r.in.Job.Obstacles[i].Name
	err := r.OnEdit("remove obstacle "+name, func(j *job.Job) { j.Obstacles = append(j.Obstacles[:i:i], j.Obstacles[i+1:]...) })
	if err != nil {
		r.Select(i)
		r.one.name.say("", err)
	}
}
