package window

import (
	"armscribe/app/look"
	"armscribe/canvas/draw"
)

func themeOf(dark bool) look.Theme {
	if dark {
		return look.Theme{Mode: look.Dark}
	}
	return look.Theme{Mode: look.Light}
}

// setDark changes widgets and drawings together.
func (w *Window) setDark(dark bool) {
	w.dark = dark
	w.prefs.setDark(dark)
	w.app.Settings().SetTheme(themeOf(dark))
	w.paint()
	w.refresh()
}

// paint gives every drawing the palette of the theme.
func (w *Window) paint() {
	p := look.Current()
	w.view.SetPalette(p)
	w.room.plan.SetPalette(p)
	w.strips.SetPalette(p)
	w.rackBar.SetPalette(p)
	w.rollBar.SetPalette(p)
	for _, r := range w.backs {
		r.FillColor = p[draw.Panel]
		r.Refresh()
	}
}
