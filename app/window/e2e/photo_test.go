//go:build e2e

package e2e

import (
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"armscribe/app/job"
	"armscribe/app/photo"
)

// A photo that was taken slanting is levelled by its marks and laid with the
// left one under the hub face; in the saved job the marks then stand level,
// 720 mm apart and at the hub.
func TestLevelAndPlacePhoto(t *testing.T) {
	const lower = 40 // pixels over 400: the camera leaned by 5.7 degrees
	p := start(t, "gravel-estate")
	p.acceptCautions()
	p.layPhoto(lower)

	const perPixel = 1.8 // mm: 720 over 400, now that it is to scale
	p.press("Pick two points… #2")
	time.Sleep(500 * time.Millisecond)
	for i, m := range photoMarks {
		p.clickPhoto(m[0], m[1]+float64(i*lower), perPixel, 0)
	}
	p.await("the level", func() bool { return strings.Contains(p.read().Undo, "level") })
	p.keep("level")

	p.press("Pick it in the photo…")
	time.Sleep(500 * time.Millisecond)
	p.clickPhoto(photoMarks[0][0], photoMarks[0][1], perPixel, math.Atan2(lower, 400))
	p.await("the place", func() bool { return strings.Contains(p.read().Undo, "place") })
	p.keep("placed")

	p.key("ctrl+s")
	p.await("the save", func() bool { return !strings.Contains(p.read().Title, "*") })
	data, err := os.ReadFile(p.file)
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Read(p.file, data)
	if err != nil {
		t.Fatal(err)
	}
	at, complete := photo.PlacementOf(&j.Photo, photo.Held{})
	if !complete || !j.Photo.Level.Given {
		t.Fatalf("the photo is placed as %+v", j.Photo)
	}
	y1, z1 := at.OnCar(job.Pixel{X: 250, Y: 300})
	y2, z2 := at.OnCar(job.Pixel{X: 650, Y: 300 + lower})
	const hand = 6.0 // mm: a click or two beside the marks
	v, ok := j.Find(p.read().Variant)
	if !ok {
		t.Fatalf("no variant %q", p.read().Variant)
	}
	hub := v.Corner().Hub
	if math.Abs(y2-y1-720) > hand || math.Abs(z2-z1) > hand || math.Abs(y1-hub.Y) > hand || math.Abs(z1-hub.Z) > hand {
		t.Errorf("the marks stand at (%.1f, %.1f) and (%.1f, %.1f), the hub face at (%.1f, %.1f)", y1, z1, y2, z2, hub.Y, hub.Z)
	}
}
