//go:build e2e

package e2e

import (
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Places in a window of 1280 by 800, points.
var (
	trackField = [2]float64{383, 164} // of the new-job form
	makeTheJob = [2]float64{707, 746}
	photoMarks = [2][2]float64{{250, 300}, {650, 300}} // of the photo, pixels
)

// typeText types into what has the keyboard, in place of what is there.
func (p *program) typeText(text string) {
	p.t.Helper()
	p.key("ctrl+a")
	p.tool("type", "--delay", "30", text)
	time.Sleep(150 * time.Millisecond)
}

// From the tape to a proposal: a job made in the form, saved, varied, with a
// target that turns met, and all of it there again after a crash.
func TestNewJobVariantTargetCrash(t *testing.T) {
	p := start(t, "gravel-estate")
	p.acceptCautions()
	p.key("ctrl+j")
	time.Sleep(600 * time.Millisecond)
	p.typeText("Bench corner")
	p.click(trackField[0], trackField[1])
	p.typeText("1480")
	p.keep("form")
	p.click(makeTheJob[0], makeTheJob[1])
	p.await("the new job", func() bool { return strings.Contains(p.read().Title, "Bench corner") })
	p.keep("new-job")
	if got := p.read().Readings["half_track"]; math.Abs(got-740) > 0.5 {
		t.Errorf("half track %g mm, typed were 1480 mm of track", got)
	}

	p.key("ctrl+s")
	time.Sleep(600 * time.Millisecond)
	p.typeText("bench")
	p.keep("save-as")
	p.key("Return")
	p.await("the save", func() bool { return strings.Contains(p.read().Title, "bench.armscribe.yaml)") })
	p.file = filepath.Join(p.home, "bench.armscribe.yaml")

	p.layPhoto(0)

	p.key("ctrl+n")
	time.Sleep(600 * time.Millisecond)
	p.typeText("wider")
	p.key("Return")
	p.await("the variant", func() bool { return p.read().Variant == "wider" })
	p.drag("upright", 16, 0)
	p.await("the wider upright", func() bool { return strings.Contains(p.read().Undo, "upright") })
	wide := p.read().Readings["half_track"]
	if wide < 750 {
		t.Errorf("half track %g mm after the upright went out", wide)
	}

	p.press("Check")
	p.press("field")
	p.typeText("1490") // track, at least: met by the wider one only
	p.key("Tab")
	time.Sleep(600 * time.Millisecond)
	p.keep("targets")
	p.press("At a glance")
	p.keep("target-met")
	if s := p.read(); !strings.Contains(s.Undo, "track") {
		t.Errorf("undo %q after a target on the track", s.Undo)
	}

	time.Sleep(500 * time.Millisecond)
	p.kill()
	p.restart()
	p.recoverWork()
	s := p.read()
	if s.Variant != "wider" || math.Abs(s.Readings["half_track"]-wide) > 1e-6 {
		t.Errorf("after the crash: %q, half track %g, was %g", s.Variant, s.Readings["half_track"], wide)
	}
	p.key("ctrl+s")
	p.await("the save", func() bool { return !strings.Contains(p.read().Title, "*") })
	data, err := os.ReadFile(p.file)
	if err != nil || !strings.Contains(string(data), "targets:") || !strings.Contains(string(data), "wider") ||
		!strings.Contains(string(data), "file: corner.png") {
		t.Errorf("the file holds %q (%v)", data, err)
	}
}

// layPhoto lays a photo under the view and brings it to scale by two of its
// marks, which are said to be 720 mm apart. The second mark stands so many
// pixels lower than the first.
func (p *program) layPhoto(lower int) {
	p.t.Helper()
	writePhoto(p.t, filepath.Join(p.home, "corner.png"), lower)
	p.press("Measure")
	p.press("Photo")
	p.press("Choose a photo…")
	time.Sleep(time.Second)
	p.typeText(filepath.Join(p.home, "corner.png"))
	p.key("Return")
	p.await("the photo", func() bool { return strings.Contains(p.read().Undo, "photo") })
	time.Sleep(1500 * time.Millisecond)
	p.keep("photo")
	p.press("Pick two points…")
	time.Sleep(500 * time.Millisecond)
	p.keep("picking")
	for i, m := range photoMarks {
		p.clickPhoto(m[0], m[1]+float64(i*lower), uncalibrated, 0)
	}
	p.typeText("720 mm")
	p.key("Return")
	p.await("the scale", func() bool { return strings.Contains(p.read().Undo, "scale") })
	p.keep("to-scale")
}

// uncalibrated is the scale at which a photo of 900 pixels is shown at first, mm to one:
// as wide as a corner.
const uncalibrated = 1400.0 / 900

// clickPhoto clicks at a pixel of the photo, which lies with its middle at the hub, at a
// scale, mm to a pixel, and turned, rad.
func (p *program) clickPhoto(x, y, perPixel, turn float64) {
	p.t.Helper()
	s := p.read()
	hub, zoom := s.Handles["hub face"], s.Scale[2]*perPixel
	dx, dy := x-450, y-300
	p.click(hub[0]+zoom*(dx*math.Cos(turn)+dy*math.Sin(turn)), hub[1]+zoom*(dy*math.Cos(turn)-dx*math.Sin(turn)))
	time.Sleep(400 * time.Millisecond)
}

// writePhoto draws a picture with two marks, the second 400 pixels to the right
// of the first and some lower.
func writePhoto(t *testing.T, path string, lower int) {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 900, 600))
	for i := range img.Pix {
		img.Pix[i] = 0xD8
	}
	for _, at := range []image.Point{{X: 250, Y: 300}, {X: 650, Y: 300 + lower}} {
		for d := -12; d <= 12; d++ {
			img.SetGray(at.X+d, at.Y, color.Gray{})
			img.SetGray(at.X, at.Y+d, color.Gray{})
		}
	}
	f, err := os.Create(path)
	if err == nil {
		err = png.Encode(f, img)
	}
	if err == nil {
		err = f.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
}
