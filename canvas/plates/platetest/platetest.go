// Package platetest looks at plates for tests: whether their words stand whole and clear
// of each other, and what they look like.
package platetest

import (
	"flag"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
)

var folder = flag.String("plates", "", "write every plate of the tests as PNG into this folder")

// Sizes are those in which plates stand, points.
var Sizes = [][2]float64{{306, 240}, {330, 260}, {400, 300}, {760, 600}, {540, 690}, {1000, 320}}

// Look draws a plate and fails where words are cut off or stand on others; it returns
// what was drawn, and its texts, a line each.
func Look(t testing.TB, name string, compose func(l *draw.List, w, h float64), w, h float64) (*draw.List, string) {
	t.Helper()
	l, styles := &draw.List{}, draw.HouseStyles()
	compose(l, w, h)
	var seen []draw.Box
	var texts []string
	for i := range l.Items() {
		it := &l.Items()[i]
		if it.Kind != draw.KindText {
			continue
		}
		text, box := string(l.TextOf(it)), styles.TextBox(l, it, draw.OnScreen)
		if box.Min.X < 0 || box.Max.X > w || box.Min.Y < 0 || box.Max.Y > h {
			t.Errorf("%s, %g x %g: %q stands at %.0f", name, w, h, text, box)
		}
		for k, o := range seen {
			if box.Overlaps(o) {
				t.Errorf("%s, %g x %g: %q stands on %q", name, w, h, text, texts[k])
			}
		}
		seen, texts = append(seen, box), append(texts, text)
	}
	if len(seen) == 0 {
		t.Errorf("%s, %g x %g: not a word", name, w, h)
	}
	if *folder != "" {
		save(t, name, l, styles, w, h)
	}
	return l, strings.Join(texts, "\n")
}

func save(t testing.TB, name string, l *draw.List, styles *draw.Styles, w, h float64) {
	t.Helper()
	view := draw.View{Centre: draw.Point{X: w / 2, Y: h / 2}, Zoom: 1, W: w, H: h}
	for theme, palette := range map[string]*draw.Palette{"light": draw.Light(), "dark": draw.Dark()} {
		f, err := os.Create(filepath.Join(*folder, fmt.Sprintf("%s-%.0fx%.0f-%s.png", name, w, h, theme)))
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, raster.New().Paint(l, raster.Frame{View: view, Styles: styles, Palette: palette, Back: draw.Paper})); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
