package look_test

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/look"
	"armscribe/app/look/looktest"
)

// Everything that is read or found by sight stands out from its ground, measured on
// the painted pixels: marks and borders 3 : 1, texts 4.5 : 1 (WCAG 2.2, success
// criteria 1.4.3 and 1.4.11, from memory).
func TestPaintedContrast(t *testing.T) {
	for name, mode := range map[string]look.Mode{"light": look.Light, "dark": look.Dark} {
		a := test.NewTempApp(t)
		a.Settings().SetTheme(look.Theme{Mode: mode})
		for _, row := range painted() {
			for _, ground := range []fyne.ThemeColorName{theme.ColorNameBackground, look.ColorPanel, look.ColorPaper} {
				back := fynecanvas.NewRectangle(theme.Color(ground))
				w := test.NewTempWindow(t, container.NewStack(back, container.NewPadded(row.make())))
				w.SetPadded(false)
				img := w.Canvas().Capture()
				box := img.Bounds()
				if row.part != nil {
					box = row.part(box)
				}
				if got := looktest.StandsOut(img, box); got < row.least {
					t.Errorf("%s, %s on %s: %.2f : 1, wanted %g", name, row.name, ground, got, row.least)
				}
			}
		}
	}
}

type paintedRow struct {
	name  string
	least float64
	make  func() fyne.CanvasObject
	part  func(image.Rectangle) image.Rectangle // where it is looked for; nil is everywhere
}

func painted() []paintedRow {
	text := func(name fyne.ThemeColorName) func() fyne.CanvasObject {
		return func() fyne.CanvasObject {
			c := fynecanvas.NewText("EHIL", theme.Color(name))
			c.TextSize = theme.TextSize()
			return c
		}
	}
	button := func(rank widget.Importance, able bool) func() fyne.CanvasObject {
		return func() fyne.CanvasObject {
			b := keyed.NewButton("EHIL", func() {})
			b.Importance = rank
			if !able {
				b.Disable()
			}
			return b
		}
	}
	check := func(ticked bool) func() fyne.CanvasObject {
		return func() fyne.CanvasObject {
			c := keyed.NewCheck("", func(bool) {})
			c.SetChecked(ticked)
			return c
		}
	}
	radio := func() fyne.CanvasObject { return widget.NewRadioGroup([]string{" "}, func(string) {}) }
	inside := func(b image.Rectangle) image.Rectangle { return b.Inset(10) } // within the button's own ground
	return []paintedRow{
		{"text", 7, text(theme.ColorNameForeground), nil},
		{"quiet text", 4.5, text(look.ColorQuiet), nil},
		{"error", 4.5, text(theme.ColorNameError), nil},
		{"warning", 4.5, text(theme.ColorNameWarning), nil},
		{"success", 4.5, text(theme.ColorNameSuccess), nil},
		{"link", 4.5, text(theme.ColorNameHyperlink), nil},
		{"chosen tab", 4.5, text(theme.ColorNamePrimary), nil},
		{"unticked box", 3, check(false), nil},
		{"ticked box", 3, check(true), nil},
		{"radio", 3, radio, nil},
		{"field", 3, func() fyne.CanvasObject { return keyed.NewEntry("") }, nil},
		{"choice", 3, func() fyne.CanvasObject { return keyed.NewSelect([]string{" "}, nil) }, func(b image.Rectangle) image.Rectangle { b.Max.X = b.Min.X + 30; return b }},
		{"button", 4.5, button(widget.MediumImportance, true), inside},
		{"main button", 4.5, button(widget.HighImportance, true), inside},
		{"quiet button", 4.5, button(widget.LowImportance, true), inside},
		{"dangerous button", 4.5, button(widget.DangerImportance, true), inside},
		{"button that cannot be pressed", 3, button(widget.MediumImportance, false), inside},
		{"main button's ground", 3, button(widget.HighImportance, true), nil},
	}
}

// The shortcuts in menus are read like the rest of them.
func TestPaintedShortcuts(t *testing.T) {
	for name, mode := range map[string]look.Mode{"light": look.Light, "dark": look.Dark} {
		a := test.NewTempApp(t)
		a.Settings().SetTheme(look.Theme{Mode: mode})
		item := fyne.NewMenuItem(" ", func() {})
		item.Shortcut = &desktop.CustomShortcut{KeyName: fyne.KeyE, Modifier: fyne.KeyModifierControl}
		w := test.NewTempWindow(t, widget.NewLabel(" "))
		w.Resize(fyne.NewSize(300, 120))
		pop := widget.NewPopUpMenu(fyne.NewMenu("", item), w.Canvas())
		pop.ShowAtPosition(fyne.NewPos(0, 0))
		img, menu := w.Canvas().Capture(), pop.Menu.Size()
		box := image.Rect(4, 4, int(menu.Width)-4, int(menu.Height)-4)
		if got := looktest.StandsOut(img, box); got < 4.5 {
			t.Errorf("%s: shortcuts have %.2f : 1, wanted 4.5", name, got)
		}
	}
}
