package look

import (
	"sync"

	"fyne.io/fyne/v2"

	"armscribe/canvas/draw/font"
)

// The typeface lacks some signs: the drawings build the minus and the
// almost-equal sign from other letters. Widgets read a font file, so for them
// the signs are added to a copy of it. Without that the toolkit would look for
// a font of the system, and print a box where there is none.
//
// The marks beside them are for words in lists, menus and buttons.

// built are the signs that the drawings build.
const built = "\u2212\u2248" // − ≈

// mark is a sign drawn here: closed polygons in em.
type mark struct {
	r       rune
	advance float64
	shapes  [][][2]float64
}

var marks = []mark{
	{'✓', 0.70, [][][2]float64{{{0.07, 0.33}, {0.14, 0.41}, {0.27, 0.24}, {0.56, 0.66}, {0.64, 0.60}, {0.28, 0.08}}}},
	{'✕', 0.66, [][][2]float64{{{0.09, 0.14}, {0.16, 0.07}, {0.33, 0.26}, {0.50, 0.07}, {0.57, 0.14}, {0.40, 0.33},
		{0.57, 0.52}, {0.50, 0.59}, {0.33, 0.40}, {0.16, 0.59}, {0.09, 0.52}, {0.26, 0.33}}}},
	{'→', 0.90, [][][2]float64{{{0.08, 0.30}, {0.64, 0.30}, {0.50, 0.16}, {0.56, 0.10}, {0.82, 0.34}, {0.56, 0.58}, {0.50, 0.52}, {0.64, 0.38}, {0.08, 0.38}}}},
	{'▶', 0.80, [][][2]float64{{{0.12, 0.02}, {0.70, 0.33}, {0.12, 0.64}}}},
	{'◂', 0.60, [][][2]float64{{{0.50, 0.10}, {0.50, 0.56}, {0.10, 0.33}}}},
	{'▾', 0.70, [][][2]float64{{{0.10, 0.52}, {0.35, 0.14}, {0.60, 0.52}}}},
}

// signs are the glyphs that widgets need and the face lacks.
func signs(f font.Face) []glyph {
	var list []glyph
	for _, r := range built {
		list = append(list, glyph{r: r, advance: f.Advance(r), outline: f.Outline(nil, r)})
	}
	for _, m := range marks {
		if f.Has(m.r) {
			continue
		}
		g := glyph{r: m.r, advance: m.advance}
		for _, shape := range m.shapes {
			for i, p := range shape {
				op := font.LineTo
				if i == 0 {
					op = font.MoveTo
				}
				g.outline = append(g.outline, font.Seg{Op: op, P: [3][2]float64{p}})
			}
		}
		list = append(list, g)
	}
	return list
}

var widgetFonts = [...]func() fyne.Resource{
	font.Regular: sync.OnceValue(func() fyne.Resource { return widgetFont("armscribe-regular.ttf", font.Regular) }),
	font.Bold:    sync.OnceValue(func() fyne.Resource { return widgetFont("armscribe-bold.ttf", font.Bold) }),
}

func widgetFont(name string, f font.Face) fyne.Resource {
	return fyne.NewStaticResource(name, withGlyphs(f.TTF(), signs(f)))
}
