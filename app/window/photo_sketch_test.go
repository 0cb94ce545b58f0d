package window

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/newjob"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// seenFrom is where a place of the test photo stands from the ground under the tyre,
// taken from so many mm: nearer to the lens, which looks at the picture's middle, than
// it is seen by what it stands ahead of the axle line.
func seenFrom(distance float64, name string) [2]float64 {
	const chord = 0.75 * 101.98 // a 205/55R16, 315.95 mm and squashed to 299.04
	ahead := map[string]float64{"lower pivot": 120, "upper pivot": 120, "rack end": 120, "outer tie-rod end": 120,
		"ground under the tyre": chord, "top of the tyre": 299 * 299 / distance, "lower ball joint": 7.8, "upper ball joint": -12.7}
	lensY, lensZ := truth.OnCar(job.Pixel{X: 800, Y: 600})
	at := func(name string) (y, z float64) {
		share := (distance - ahead[name]) / distance
		return lensY + (shownPoints[name][0]-lensY)*share, lensZ + (shownPoints[name][1]-lensZ)*share
	}
	y, z := at(name)
	floorY, floorZ := at("ground under the tyre")
	return [2]float64{y - floorY, z - floorZ}
}

func TestPointsDroppedOnAPhotoMakeAJob(t *testing.T) {
	w, folder := withPhoto(t)
	f := newjob.Form{Axle: job.Front, Units: units.Millimetre}
	f.Typed[newjob.Track], f.Typed[newjob.Offset] = "1488", "0"
	w.beginSketch(f, filepath.Join(folder, "left.png"), "")
	if w.doc.Path() != "" || w.doc.Job().Name != "left" || w.view.Underlay().Image == nil {
		t.Fatalf("job %q, path %q, %v", w.doc.Job().Name, w.doc.Path(), w.photo.err)
	}
	w.photo.dropPoints()
	if w.view.Asking() {
		t.Fatal("points are dropped before there is a scale")
	}
	a, b := truth.InPicture(0, 100), truth.InPicture(500, 100)
	w.photo.scaleTo(a, b, "500 mm")
	w.photo.edit("level photo", func(p *job.Photo) { p.Level = job.Level{Given: true, A: a, B: b} })
	w.photo.dropPoints()
	w.pickShown(t, "lower pivot")
	if !strings.HasPrefix(w.status.Text, "2 of 9: click the upper pivot, the end nearer to the camera.") {
		t.Errorf("status %q", w.status.Text)
	}
	w.pickShown(t, "rack end") // two slips
	w.pickShown(t, "rack end")
	w.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	w.undo()
	if !strings.HasPrefix(w.status.Text, "2 of 9: click the upper pivot, the end nearer to the camera.") {
		t.Errorf("with both taken back, status %q", w.status.Text)
	}
	for _, d := range newjob.Drops[1:] {
		w.pickShown(t, d.Name)
	}
	v := w.doc.Variant()
	hub := v.Point(kinematics.HubFace)
	for _, d := range newjob.Drops[:6] {
		got, at := v.Point(d.Point), seenFrom(3000, d.Name)
		// Side distances count from where the tyre stands, half the track out. Points
		// are kept to 0.1 mm.
		if math.Abs(got.Y-744-at[0]) > 0.06 || math.Abs(got.Z-at[1]) > 0.11 {
			t.Errorf("%s at %.2f, %.2f; want %g, %g", d.Name, got.Y, got.Z, 744+at[0], at[1])
		}
		// From a camera somewhere a part that stands somewhere is not known to a mm.
		if own := v.Position(d.Point).Within; !own[1].Given || !own[2].Given || own[1].MM < 3 {
			t.Errorf("%s is known within %+v", d.Name, own)
		}
		if c := (kinematics.Coordinate{Point: d.Point, Axis: 1}); v.Assumed.Has(job.Coordinate(c)) {
			t.Errorf("%s still counts as a default", d.Name)
		}
	}
	top := seenFrom(3000, "top of the tyre")
	if want := math.Atan2(top[0], top[1]) * 180 / math.Pi; math.Abs(float64(v.Camber)-want) > 0.006 || v.CamberWithin < 0.2 || v.Assumed.Has(job.CamberValue) {
		t.Errorf("camber %v within %v, want %g", v.Camber, v.CamberWithin, want)
	}
	if math.Abs(hub.Z-seenFrom(3000, "middle of the hub")[1]) > 0.06 || w.view.Asking() || !w.doc.Job().Photo.Anchor.Given || w.view.Underlay().Image == nil || w.photo.sketch != nil {
		t.Errorf("hub %v, photo %+v", hub, w.doc.Job().Photo)
	}
	if half := w.reading(t, kinematics.HalfTrack); math.Abs(half-744) > 0.05 {
		t.Errorf("half the track is %g", half)
	}
}

// Where the tyre's top cannot be seen, camber stays assumed and says so, and no place
// moves by that.
func TestATopThatCannotBeSeenLeavesCamberAssumed(t *testing.T) {
	w, folder := withPhoto(t)
	f := newjob.Form{Axle: job.Front, Units: units.Millimetre}
	f.Typed[newjob.Track] = "1488"
	w.beginSketch(f, filepath.Join(folder, "left.png"), "4 m")
	w.photo.scaleTo(truth.InPicture(0, 100), truth.InPicture(500, 100), "500 mm")
	w.photo.edit("level photo", func(p *job.Photo) {
		p.Level = job.Level{Given: true, A: truth.InPicture(0, 100), B: truth.InPicture(500, 100)}
	})
	w.photo.dropPoints()
	for _, d := range newjob.Drops[:8] {
		if w.photo.panel.skip.Visible() {
			t.Errorf("the %s need not be seen", d.Name)
		}
		w.pickShown(t, d.Name)
	}
	if !w.photo.panel.skip.Visible() || !strings.Contains(w.status.Text, "say so on the left") {
		t.Fatalf("status %q", w.status.Text)
	}
	test.Tap(&w.photo.panel.skip.Button)
	if !strings.Contains(w.status.Text, "known within ±") {
		t.Errorf("status %q", w.status.Text)
	}
	v := w.doc.Variant()
	if !v.Assumed.Has(job.CamberValue) || v.CamberWithin != 0 || w.view.Asking() || w.doc.Job().Photo.CameraDistance.MM != 4000 {
		t.Errorf("camber %v, photo %+v", v.Camber, w.doc.Job().Photo)
	}
	if got := v.Point(kinematics.LowerBall); math.Abs(got.Y-744-seenFrom(4000, "lower ball joint")[0]) > 0.06 {
		t.Errorf("lower ball joint at %g", got.Y)
	}
}
