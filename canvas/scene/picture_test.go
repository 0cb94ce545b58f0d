package scene

import (
	"flag"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
)

var pictures = flag.String("pictures", "", "write every picture of the tests as PNG into this folder")

// sizes of the view that the pictures are checked at.
var sizes = []draw.View{{W: 520, H: 610}, {W: 700, H: 800}, {W: 1400, H: 900}, {W: 260, H: 240}}

// fitted returns the view a window of that size starts with.
func fitted(v draw.View, in *Input) draw.View { return FitView(v, in, 0) }

// far zooms out until the instant centre is in the picture.
func far(v draw.View) draw.View { return v.ZoomAbout(draw.Point{X: 300, Y: 100}, 0.27) }

func savePicture(t *testing.T, name string, l *draw.List, v draw.View) {
	t.Helper()
	if *pictures == "" {
		return
	}
	for theme, palette := range map[string]*draw.Palette{"light": draw.Light(), "dark": draw.Dark()} {
		f, err := os.Create(filepath.Join(*pictures, fmt.Sprintf("%s-%.0fx%.0f-%s.png", name, v.W, v.H, theme)))
		if err != nil {
			t.Fatal(err)
		}
		img := raster.New().Paint(l, raster.Frame{View: v, Styles: draw.HouseStyles(), Palette: palette})
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

func TestPictures(t *testing.T) {
	for _, d := range demos(t) {
		for _, size := range sizes {
			var l draw.List
			var out Output
			v := fitted(size, d.in)
			if err := Build(&l, v, d.in, &out); err != nil {
				t.Fatalf("%s: %v", d.name, err)
			}
			savePicture(t, d.name, &l, v)
			v = far(v)
			if err := Build(&l, v, d.in, &out); err != nil {
				t.Fatalf("%s: %v", d.name, err)
			}
			savePicture(t, d.name+"-far", &l, v)
		}
	}
}
