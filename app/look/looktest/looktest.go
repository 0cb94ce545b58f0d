// Package looktest measures on painted pixels how far things stand out: marks,
// texts and edges against what they lie on. For the tests of packages with
// widgets; no program links it.
package looktest

import (
	"fmt"
	"image"
	"image/color"
	"math"
)

// Contrast is the ratio of WCAG 2.2, definitions of relative luminance and
// contrast ratio.
func Contrast(a, b color.Color) float64 {
	light := func(c color.Color) float64 {
		n := color.NRGBAModel.Convert(c).(color.NRGBA)
		part := func(v uint8) float64 {
			x := float64(v) / 255
			if x <= 0.04045 {
				return x / 12.92
			}
			return math.Pow((x+0.055)/1.055, 2.4)
		}
		return 0.2126*part(n.R) + 0.7152*part(n.G) + 0.0722*part(n.B)
	}
	x, y := light(a)+0.05, light(b)+0.05
	return max(x, y) / min(x, y)
}

// StandsOut is the largest contrast of a pixel in a box to the commonest one there.
func StandsOut(img image.Image, box image.Rectangle) float64 {
	count := map[color.NRGBA]int{}
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			count[color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)]++
		}
	}
	var ground color.NRGBA
	most := 0
	for c, n := range count {
		if n > most || n == most && fmt.Sprint(c) < fmt.Sprint(ground) {
			ground, most = c, n
		}
	}
	best := 1.0
	for c := range count {
		best = max(best, Contrast(c, ground))
	}
	return best
}
