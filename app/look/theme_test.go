package look

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"armscribe/app/look/looktest"
	"armscribe/canvas/draw"
)

func TestAForcedModeIgnoresTheDesktop(t *testing.T) {
	for _, v := range []fyne.ThemeVariant{theme.VariantLight, theme.VariantDark} {
		if got := color.NRGBAModel.Convert((Theme{Mode: Dark}).Color(theme.ColorNameForeground, v)); got != draw.Dark()[draw.Ink] {
			t.Errorf("dark on variant %d: ink %v", v, got)
		}
		if got := color.NRGBAModel.Convert((Theme{Mode: Light}).Color(theme.ColorNameForeground, v)); got != draw.Light()[draw.Ink] {
			t.Errorf("light on variant %d: ink %v", v, got)
		}
	}
	if (Theme{}).Palette(theme.VariantDark)[draw.Paper] != draw.Dark()[draw.Paper] ||
		(Theme{}).Palette(theme.VariantLight)[draw.Paper] != draw.Light()[draw.Paper] {
		t.Error("the zero theme does not follow the desktop")
	}
}

func TestTheDrawingsTakeThePaletteOfTheWidgets(t *testing.T) {
	a := test.NewTempApp(t)
	a.Settings().SetTheme(Theme{Mode: Dark})
	if Current()[draw.Before] != draw.Dark()[draw.Before] {
		t.Error("not the dark palette")
	}
	a.Settings().SetTheme(test.Theme())
	if Current()[draw.Before] != draw.Light()[draw.Before] {
		t.Error("another theme must leave the light palette")
	}
}

var everyColour = []fyne.ThemeColorName{
	theme.ColorNameBackground, theme.ColorNameButton, theme.ColorNameDisabled, theme.ColorNameDisabledButton,
	theme.ColorNameError, theme.ColorNameFocus, theme.ColorNameForeground, theme.ColorNameForegroundOnError,
	theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning,
	theme.ColorNameHeaderBackground, theme.ColorNameHover, theme.ColorNameHyperlink, theme.ColorNameInputBackground,
	theme.ColorNameInputBorder, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground, theme.ColorNamePlaceHolder,
	theme.ColorNamePressed, theme.ColorNamePrimary, theme.ColorNameScrollBar, theme.ColorNameScrollBarBackground,
	theme.ColorNameSelection, theme.ColorNameSeparator, theme.ColorNameShadow, theme.ColorNameSuccess, theme.ColorNameWarning,
	ColorPaper, ColorPanel, ColorQuiet, ColorBefore,
}

// Every colour must come from the house: where the toolkit's own default shines
// through, a name has been forgotten.
func TestNoColourIsTheToolkitsOwn(t *testing.T) {
	test.NewTempApp(t)
	for mode, v := range map[Mode]fyne.ThemeVariant{Light: theme.VariantLight, Dark: theme.VariantDark} {
		for _, name := range everyColour {
			got, own := Theme{Mode: mode}.Color(name, v), theme.DefaultTheme().Color(name, v)
			if got == own {
				t.Errorf("mode %d: %s is the toolkit's", mode, name)
			}
		}
	}
}

func TestContrast(t *testing.T) {
	for _, mode := range []Mode{Light, Dark} {
		c := func(n fyne.ThemeColorName) color.Color { return Theme{Mode: mode}.Color(n, theme.VariantLight) }
		for _, row := range []struct {
			text, ground fyne.ThemeColorName
			least        float64
		}{
			{theme.ColorNameForeground, theme.ColorNameBackground, 7},
			{theme.ColorNameForeground, theme.ColorNameButton, 7},
			{theme.ColorNameForeground, theme.ColorNameInputBackground, 7},
			{theme.ColorNamePlaceHolder, theme.ColorNameInputBackground, 4.5},
			{ColorQuiet, ColorPanel, 4.5},
			{ColorBefore, ColorPanel, 4.5},
			{theme.ColorNameError, theme.ColorNameBackground, 4.5},
			{theme.ColorNameSuccess, theme.ColorNameBackground, 4.5},
			{theme.ColorNameForegroundOnPrimary, theme.ColorNamePrimary, 4.5},
			{theme.ColorNameForegroundOnError, theme.ColorNameError, 4.5},
			{theme.ColorNamePrimary, theme.ColorNameBackground, 4.5},
			{theme.ColorNameInputBorder, theme.ColorNameBackground, 3},
			{theme.ColorNameDisabled, theme.ColorNameBackground, 3},
			{theme.ColorNameDisabled, theme.ColorNameDisabledButton, 3},
		} {
			if got := looktest.Contrast(c(row.text), c(row.ground)); got < row.least {
				t.Errorf("mode %d: %s on %s has %.2f : 1, wanted %g", mode, row.text, row.ground, got, row.least)
			}
		}
	}
}
