package raster

import (
	"fmt"
	"image/png"
	"io"

	"armscribe/canvas/draw"
)

// maxPixels bounds a PNG: 100 million pixels are 400 MB while painting.
const maxPixels = 100e6

// WritePNG writes the sheet as PNG at dpi pixels per inch of paper. It reports
// an error of w, and a picture too large to paint.
func WritePNG(w io.Writer, s draw.Sheet, dpi float64) error {
	if !(dpi > 0) {
		return fmt.Errorf("PNG: %g dots an inch: must be more than 0, for instance 150", dpi)
	}
	f := Frame{View: s.View, Styles: s.Styles, Palette: s.Palette, Medium: draw.OnPaper, Scale: dpi / 96}
	pw, ph, _ := f.size()
	if n := float64(pw) * float64(ph); n > maxPixels {
		return fmt.Errorf("PNG of %d x %d px: at %g dots an inch this is more than the limit of %.0f million px; take fewer dots an inch", pw, ph, dpi, maxPixels/1e6)
	}
	if err := png.Encode(w, New().Paint(s.List, f)); err != nil {
		return fmt.Errorf("writing PNG: %w", err)
	}
	return nil
}
