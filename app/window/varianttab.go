package window

import (
	"image/color"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/look"
)

// variantTab shows a variant, and has its menu under the right button. Variants stand
// like the tabs of a folder, the one shown joined to the sheet under it.
type variantTab struct {
	keyed.Area
	Text   string
	chosen bool
	menu   func(at fyne.Position)
	word   *fynecanvas.Text
	ground *fynecanvas.Rectangle
}

var _ fyne.SecondaryTappable = (*variantTab)(nil)

func (w *Window) variantTab(i int, name string) *variantTab {
	t := &variantTab{Text: name, chosen: i == w.doc.Current(), word: fynecanvas.NewText(name, nil), ground: fynecanvas.NewRectangle(nil)}
	t.menu = func(at fyne.Position) {
		widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", w.variantItems(i)...), w.win.Canvas(), at)
	}
	t.OnTapped = func() { w.showVariant(i) }
	hint := w.hintOver()
	t.OnLook = func() {
		if t.Hovered || t.Focused {
			hint("Show " + name + ". Right button: rename, notes, move, delete")
			return
		}
		hint("")
	}
	t.ExtendBaseWidget(t)
	return t
}

// Word is its name.
func (t *variantTab) Word() string { return t.Text }

// TappedSecondary opens the menu.
func (t *variantTab) TappedSecondary(e *fyne.PointEvent) { t.menu(e.AbsolutePosition) }

// Sizes of a variant's tab, points.
const (
	variantAir    = 2 * look.Step // left and right of its name
	variantHeight = 32
)

// CreateRenderer is for the toolkit.
func (t *variantTab) CreateRenderer() fyne.WidgetRenderer {
	r := &variantTabRenderer{t}
	r.dress()
	return t.Ring.Around(r)
}

type variantTabRenderer struct{ t *variantTab }

// MinSize is as wide as the bold name.
func (r *variantTabRenderer) MinSize() fyne.Size {
	w := fyne.MeasureText(r.t.Text, theme.TextSize(), fyne.TextStyle{Bold: true}).Width
	return fyne.NewSize(w+2*variantAir, variantHeight)
}

// Layout lets the ground of the one shown reach the sheet.
func (r *variantTabRenderer) Layout(size fyne.Size) {
	text := r.t.word.MinSize()
	place(r.t.word, (size.Width-text.Width)/2, (size.Height-text.Height)/2, text.Width, text.Height)
	place(r.t.ground, 0, 0, size.Width, size.Height+look.Step)
}

func (r *variantTabRenderer) dress() {
	t := r.t
	t.word.TextSize, t.word.TextStyle = theme.TextSize(), fyne.TextStyle{Bold: t.chosen}
	t.word.Color = theme.Color(look.ColorQuiet)
	t.ground.FillColor, t.ground.StrokeWidth, t.ground.CornerRadius = color.Transparent, 0, theme.InputRadiusSize()
	switch {
	case t.chosen:
		t.word.Color = theme.Color(theme.ColorNameForeground)
		t.ground.FillColor = theme.Color(look.ColorPaper)
		t.ground.StrokeWidth, t.ground.StrokeColor = 1, theme.Color(theme.ColorNameSeparator)
	case t.Hovered:
		t.ground.FillColor = theme.Color(theme.ColorNameHover)
	}
}

// Refresh takes the theme's colours.
func (r *variantTabRenderer) Refresh() {
	r.dress()
	r.t.word.Refresh()
	r.t.ground.Refresh()
}

// Objects are ground and name.
func (r *variantTabRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.t.ground, r.t.word}
}

// Destroy does nothing.
func (r *variantTabRenderer) Destroy() {}
