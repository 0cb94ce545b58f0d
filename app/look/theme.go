// Package look is how the widgets look: the house style of the drawings, with
// its palettes and its typeface, as a theme of the toolkit. For whoever builds
// widgets; nothing that armcalc links may.
package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	_ "armscribe/app/english" // before the toolkit
	"armscribe/canvas/draw"
	"armscribe/canvas/draw/font"
)

// Mode says which of the two papers is used.
type Mode uint8

// The modes. Follow takes the desktop's choice.
const (
	Follow Mode = iota
	Light
	Dark
)

// Theme is the house style for widgets. The zero Theme follows the desktop.
type Theme struct{ Mode Mode }

var _ fyne.Theme = Theme{}

// Names of colours and sizes beyond the toolkit's, for widgets of this program.
const (
	ColorPaper  fyne.ThemeColorName = "armscribe-paper"  // ground of a drawing
	ColorPanel  fyne.ThemeColorName = "armscribe-panel"  // ground of a side panel
	ColorQuiet  fyne.ThemeColorName = "armscribe-quiet"  // lesser text
	ColorBefore fyne.ThemeColorName = "armscribe-before" // the compared variant

	SizeSmall fyne.ThemeSizeName = "armscribe-small" // between body and quiet text
)

// Step is the house's step of spacing, in points.
const Step = 6

var palettes = [...]*draw.Palette{Light: draw.Light(), Dark: draw.Dark()}

// Palette returns the colours that go with a variant of the toolkit's; the
// drawings beside the widgets take the same. It must not be changed.
func (t Theme) Palette(v fyne.ThemeVariant) *draw.Palette {
	switch {
	case t.Mode != Follow:
		return palettes[t.Mode]
	case v == theme.VariantDark:
		return palettes[Dark]
	}
	return palettes[Light]
}

// Current returns the palette of the running program: that of its theme, or of
// light paper where the theme is not the house's.
func Current() *draw.Palette {
	if a := fyne.CurrentApp(); a != nil {
		if t, ok := a.Settings().Theme().(Theme); ok {
			return t.Palette(a.Settings().ThemeVariant())
		}
	}
	return palettes[Light]
}

// Color returns a colour of the house style.
func (t Theme) Color(name fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	p := t.Palette(v)
	if token, ok := tokens[name]; ok {
		return p[token]
	}
	switch name {
	case theme.ColorNameForeground:
		return firm(p[draw.Ink])
	case theme.ColorNameSuccess:
		return mix(p[draw.Good], p[draw.Ink], 0.08) // 4.5 : 1 on the window too
	case theme.ColorNameButton:
		return mix(p[draw.Panel], p[draw.Hairline], 0.45)
	case theme.ColorNameDisabledButton:
		return mix(p[draw.Panel], p[draw.Hairline], 0.2)
	case theme.ColorNameDisabled:
		return mix(p[draw.Quiet], p[draw.Panel], 0.15)
	case theme.ColorNameInputBorder:
		return mix(p[draw.Quiet], p[draw.Ink], 0.1) // thin lines of icons are paler than this
	case theme.ColorNameHover:
		return faint(p[draw.Ink], 0x12)
	case theme.ColorNamePressed:
		return faint(p[draw.Ink], 0x24)
	case theme.ColorNameFocus:
		return faint(p[draw.Before], 0x28)
	case theme.ColorNameSelection:
		return faint(p[draw.Before], 0x48)
	case theme.ColorNameScrollBar:
		return faint(p[draw.Quiet], 0xC0)
	case theme.ColorNameScrollBarBackground:
		return faint(p[draw.Hairline], 0x40)
	case theme.ColorNameShadow:
		return color.NRGBA{A: 0x2C}
	}
	return theme.DefaultTheme().Color(name, t.variant(v))
}

// tokens are the names that stand for one of the house's own colours.
var tokens = map[fyne.ThemeColorName]draw.Token{
	ColorPaper: draw.Paper, ColorPanel: draw.Panel, ColorQuiet: draw.Quiet, ColorBefore: draw.Before,

	theme.ColorNameBackground:          draw.Window,
	theme.ColorNameHeaderBackground:    draw.Window,
	theme.ColorNameMenuBackground:      draw.Paper,
	theme.ColorNameOverlayBackground:   draw.Panel,
	theme.ColorNameInputBackground:     draw.Paper,
	theme.ColorNamePlaceHolder:         draw.Quiet,
	theme.ColorNameSeparator:           draw.Hairline,
	theme.ColorNamePrimary:             draw.Before, // what can be done: the colour of warnings is for warnings
	theme.ColorNameWarning:             draw.NowText,
	theme.ColorNameError:               draw.NowText, // with a mark and words: never by colour alone
	theme.ColorNameHyperlink:           draw.Before,
	theme.ColorNameForegroundOnPrimary: draw.Paper,
	theme.ColorNameForegroundOnWarning: draw.Paper,
	theme.ColorNameForegroundOnError:   draw.Paper,
	theme.ColorNameForegroundOnSuccess: draw.Paper,
}

// firm is a colour for the toolkit's menus. They make the colour of shortcuts of
// the low bytes of 0.95 times its sixteen-bit parts, alpha among them, which leaves
// next to nothing of an opaque one. Of this one, to eight bits the same, the low
// bytes are those of a quieter colour, opaque.
func firm(c color.NRGBA) color.NRGBA64 {
	const alpha = 0xFFC9 // 0.95 times it is 0xF2FE
	part := func(v uint8) uint16 { return uint16(v)<<8 | uint16(min(255, uint32(v)*121/100)) }
	return color.NRGBA64{R: part(c.R), G: part(c.G), B: part(c.B), A: alpha}
}

func (t Theme) variant(v fyne.ThemeVariant) fyne.ThemeVariant {
	switch t.Mode {
	case Light:
		return theme.VariantLight
	case Dark:
		return theme.VariantDark
	}
	return v
}

// mix goes from a to b by a share of the way.
func mix(a, b color.NRGBA, share float64) color.NRGBA {
	part := func(x, y uint8) uint8 { return uint8(float64(x) + (float64(y)-float64(x))*share + 0.5) }
	return color.NRGBA{part(a.R, b.R), part(a.G, b.G), part(a.B, b.B), 0xFF}
}

func faint(c color.NRGBA, alpha uint8) color.NRGBA {
	c.A = alpha
	return c
}

// Font returns the typeface of the drawings. There is no italic.
func (t Theme) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Symbol, s.Monospace:
		return theme.DefaultTheme().Font(s)
	case s.Bold:
		return widgetFonts[font.Bold]()
	}
	return widgetFonts[font.Regular]()
}

// Icon returns the toolkit's icon.
func (t Theme) Icon(name fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(name) }

// Size returns a size of the house style, in points.
func (t Theme) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameText:
		return 13
	case SizeSmall:
		return 12.5
	case theme.SizeNameCaptionText:
		return 11
	case theme.SizeNameSubHeadingText:
		return 15
	case theme.SizeNameHeadingText:
		return 18
	case theme.SizeNamePadding, theme.SizeNameInnerPadding:
		return Step
	case theme.SizeNameLineSpacing:
		return Step / 2
	case theme.SizeNameInlineIcon:
		return 18
	case theme.SizeNameScrollBar:
		return 10
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 3
	}
	return theme.DefaultTheme().Size(name)
}
