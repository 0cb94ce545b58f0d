package window

import (
	"context"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/newjob"
	"armscribe/app/photo"
	"armscribe/app/units"
	list "armscribe/canvas/draw"
	"armscribe/kinematics"
)

// truth is how the test photo was taken: 0.8 mm a pixel, turned by 3 degrees,
// the hub's middle at a pixel of its own. What it shows is invented.
var truth = photo.Placement{Scale: 0.8, Turn: 3 * math.Pi / 180, Pixel: job.Pixel{X: 1043, Y: 611}, Y: 738, Z: 307}

// shownPoints are where the points of the photographed corner are, y and z, mm.
var shownPoints = map[string][2]float64{
	"lower pivot": {317, 203}, "upper pivot": {371, 447}, "lower ball joint": {684, 187}, "upper ball joint": {633, 469},
	"rack end": {342, 255}, "outer tie-rod end": {651, 231}, "middle of the hub": {738, 307}, "ground under the tyre": {746, 0}, "top of the tyre": {737, 611},
}

// takePhoto writes the test photo: a spot at every point, on a plain wall.
func takePhoto(t testing.TB, path string) {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 1600, 1200))
	draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{96, 104, 112, 255}), image.Point{}, draw.Src)
	bar := func(a, b string, c color.Color) {
		p, q := truth.InPicture(shownPoints[a][0], shownPoints[a][1]), truth.InPicture(shownPoints[b][0], shownPoints[b][1])
		for f := 0.0; f <= 1; f += 1.0 / 400 {
			x, y := int(p.X+f*(q.X-p.X)), int(p.Y+f*(q.Y-p.Y))
			draw.Draw(img, image.Rect(x-9, y-9, x+9, y+9), image.NewUniform(c), image.Point{}, draw.Src)
		}
	}
	bar("lower pivot", "lower ball joint", color.RGBA{30, 30, 34, 255})
	bar("upper pivot", "upper ball joint", color.RGBA{30, 30, 34, 255})
	bar("lower ball joint", "upper ball joint", color.RGBA{60, 56, 50, 255})
	bar("rack end", "outer tie-rod end", color.RGBA{140, 120, 90, 255})
	for _, at := range shownPoints {
		p := truth.InPicture(at[0], at[1])
		x, y := int(p.X), int(p.Y)
		draw.Draw(img, image.Rect(x-6, y-6, x+6, y+6), image.NewUniform(color.RGBA{250, 240, 200, 255}), image.Point{}, draw.Src)
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// withPhoto is a window on a job saved in a folder of its own, with the test
// photo beside it; reading is done at once.
func withPhoto(t *testing.T) (w *Window, folder string) {
	t.Helper()
	w = open(t, "gravel-estate")
	w.photo.spawn = func(f func()) { f() }
	folder = t.TempDir()
	takePhoto(t, filepath.Join(folder, "left.png"))
	w.saveTo(filepath.Join(folder, "car.armscribe.yaml"), nil)
	return w, folder
}

// pickPixel clicks where a place of the picture is seen.
func (w *Window) pickPixel(t testing.TB, px job.Pixel) {
	t.Helper()
	if !w.view.Asking() {
		t.Fatalf("no place is asked for; status %q", w.status.Text)
	}
	y, z := w.photo.placement().OnCar(px)
	at := w.view.View().ToScreen(list.Point{X: y, Y: z})
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = fyne.NewPos(at.X, at.Y)
	w.view.MouseDown(e)
	w.view.MouseUp(e)
}

func (w *Window) pickShown(t testing.TB, name string) {
	t.Helper()
	at := shownPoints[name]
	w.pickPixel(t, truth.InPicture(at[0], at[1]))
}

func TestAPhotoIsPlacedByPicks(t *testing.T) {
	w, folder := withPhoto(t)
	w.openPhoto()
	w.photo.choose(filepath.Join(folder, "left.png"))
	if p := w.doc.Job().Photo; p.File != "left.png" || w.view.Underlay().Image == nil || w.doc.UndoName() != "choose photo" {
		t.Fatalf("photo %+v, error %v", p, w.photo.err)
	}
	w.photo.setScale()
	if !strings.HasPrefix(w.status.Text, "Click one end of a length that you know.") {
		t.Errorf("status %q", w.status.Text)
	}
	w.pickShown(t, "lower pivot")
	w.pickShown(t, "lower ball joint")
	test.Type(w.win.Canvas().Focused(), "367.3486") // hypot(367, 16)
	w.press(t, "Set the scale")
	w.photo.setLevel()
	w.pickPixel(t, truth.InPicture(300, 300))
	w.pickPixel(t, truth.InPicture(800, 300))
	hub := w.doc.Variant().Point(kinematics.HubFace)
	w.photo.setAnchor(kinematics.HubFace)
	w.pickShown(t, "middle of the hub")
	pl, complete := photo.PlacementOf(&w.doc.Job().Photo, photo.Held{})
	if !complete || math.Abs(pl.Scale-0.8) > 1e-5 || math.Abs(pl.Turn-truth.Turn) > 1e-5 {
		t.Fatalf("placed %+v, complete %v", pl, complete)
	}
	for name, at := range shownPoints { // relative to the hub, whose place the job knows
		y, z := pl.OnCar(truth.InPicture(at[0], at[1]))
		if off := math.Hypot(y-hub.Y-(at[0]-truth.Y), z-hub.Z-(at[1]-truth.Z)); off > 0.01 {
			t.Errorf("%s is %g mm off", name, off)
		}
	}
	for _, name := range []string{"place photo", "level photo", "scale photo", "choose photo"} {
		if w.doc.UndoName() != name {
			t.Errorf("undo would take back %q, want %q", w.doc.UndoName(), name)
		}
		w.undo()
	}
	if w.doc.Job().Photo.Given() || w.view.Underlay().Image != nil {
		t.Error("the photo stays after undo")
	}
	w.redo()
	if w.view.Underlay().Image == nil {
		t.Error("the photo is not back after redo")
	}
}

func TestEscLeavesThePicking(t *testing.T) {
	w, folder := withPhoto(t)
	w.photo.choose(filepath.Join(folder, "left.png"))
	was := w.bytes(t)
	w.photo.setScale()
	w.pickShown(t, "rack end")
	esc := func() { w.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }
	esc()
	if !w.view.Asking() || !strings.HasPrefix(w.status.Text, "Click one end") {
		t.Fatalf("Esc does not take the first place back: %q", w.status.Text)
	}
	esc()
	if w.view.Asking() || w.bytes(t) != was {
		t.Error("Esc does not leave the picking")
	}
	w.photo.setScale()
	w.pickShown(t, "rack end")
	w.pickShown(t, "upper pivot")
	w.press(t, "Leave it")
	if w.bytes(t) != was {
		t.Error("a scale is set without a distance")
	}
	w.photo.setLevel()
	w.pickShown(t, "rack end")
	d, err := openDemo("flat-teaching")
	if err != nil {
		t.Fatal(err)
	}
	w.use(d)
	if w.view.Asking() {
		t.Error("another job is still asked for a place of the photo")
	}
}

func TestWrongInputsOfThePhoto(t *testing.T) {
	w, folder := withPhoto(t)
	w.photo.choose(filepath.Join(folder, "left.png"))
	was := w.bytes(t)
	for _, text := range []string{"", "-40", "0.5", "two feet", "11 m"} {
		w.photo.scaleTo(job.Pixel{X: 10, Y: 10}, job.Pixel{X: 300, Y: 40}, text)
		if w.bytes(t) != was || w.win.Canvas().Overlays().Top() == nil {
			t.Errorf("the distance %q is taken", text)
		}
		for top := w.win.Canvas().Overlays().Top(); top != nil; top = w.win.Canvas().Overlays().Top() {
			w.win.Canvas().Overlays().Remove(top)
		}
	}
	w.photo.scaleTo(job.Pixel{X: 10, Y: 10}, job.Pixel{X: 11, Y: 10}, "457")
	if w.bytes(t) != was {
		t.Error("two places in one are taken")
	}
	p := w.photo.panel
	p.camera.entry.OnSubmitted("far")
	if w.bytes(t) != was || !strings.HasPrefix(p.camera.fault.Text, "✕ ") {
		t.Errorf("the camera's distance: %q", p.camera.fault.Text)
	}
}

// The error of a camera 3 m off, a pivot 250 mm behind and 350 mm from the
// middle: 350 x 250 / 3250 = 26.9 mm.
func TestPerspectiveIsSaidInMillimetres(t *testing.T) {
	w, folder := withPhoto(t)
	w.photo.choose(filepath.Join(folder, "left.png"))
	w.photo.panel.camera.entry.OnSubmitted("3 m")
	if w.doc.Job().Photo.CameraDistance.MM != 3000 || !strings.Contains(w.photo.panel.perspective.Text, "appears 27 mm off") ||
		!strings.Contains(w.photo.panel.perspective.Text, "▲") {
		t.Errorf("%+v: %q", w.doc.Job().Photo.CameraDistance, w.photo.panel.perspective.Text)
	}
}

// Mirrored, the picture is turned over about the upright through its anchor,
// and stays level.
func TestAMirroredPhotoStaysLevel(t *testing.T) {
	w, folder := withPhoto(t)
	w.photo.choose(filepath.Join(folder, "left.png"))
	w.photo.scaleTo(job.Pixel{X: 100, Y: 200}, job.Pixel{X: 600, Y: 200}, "400")
	w.photo.edit("level", func(p *job.Photo) {
		p.Level = job.Level{Given: true, A: truth.InPicture(300, 300), B: truth.InPicture(800, 300)}
	})
	far := func() (y, z float64) { return w.photo.placement().OnCar(truth.InPicture(317, 203)) }
	centre := w.photo.placement().Y
	y, z := far()
	w.photo.panel.mirrored.SetChecked(true)
	if my, mz := far(); !w.doc.Job().Photo.Mirrored || math.Abs(my-(2*centre-y)) > 1e-6 || math.Abs(mz-z) > 1e-6 {
		t.Errorf("%g, %g becomes %g, %g about %g", y, z, my, mz, centre)
	}
	w.undo()
	if w.photo.panel.mirrored.Checked {
		t.Error("the box stays ticked after undo")
	}
}

func TestTransparencyIsSeenAtOnceAndKeptOnce(t *testing.T) {
	w, folder := withPhoto(t)
	w.photo.choose(filepath.Join(folder, "left.png"))
	s := w.photo.panel.slider
	s.OnChanged(70)
	if got := w.view.Underlay().Opacity; math.Abs(got-0.3) > 1e-9 || w.doc.UndoName() != "choose photo" {
		t.Errorf("opacity %g while moving, undo %q", got, w.doc.UndoName())
	}
	s.OnChangeEnded(70)
	if p := w.doc.Job().Photo; math.Abs(p.Opacity-0.3) > 1e-9 || w.doc.UndoName() != "fade photo" {
		t.Errorf("opacity %g kept, undo %q", p.Opacity, w.doc.UndoName())
	}
	w.photo.remove()
	if w.doc.Job().Photo.Given() || w.view.Underlay().Image != nil {
		t.Error("removed, the photo is still there")
	}
}

// Without its picture a job opens all the same, says so, and keeps the path.
func TestAMissingPhoto(t *testing.T) {
	w, folder := withPhoto(t)
	path := filepath.Join(folder, "car.armscribe.yaml")
	w.photo.choose(filepath.Join(folder, "left.png"))
	w.saveTo(path, nil)
	if err := os.Rename(filepath.Join(folder, "left.png"), filepath.Join(folder, "away.png")); err != nil {
		t.Fatal(err)
	}
	d, err := document.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	other, err := openDemo("flat-teaching")
	if err != nil {
		t.Fatal(err)
	}
	w.use(other)
	if w.photo.key.name != "" {
		t.Error("a job without a photo shows one")
	}
	w.use(d)
	if w.doc.Job().Photo.File != "left.png" || w.doc.Changed() || w.view.Underlay().Image != nil ||
		!strings.Contains(w.photo.panel.state.Text, "left.png is not there") || !w.photo.panel.again.Visible() {
		t.Fatalf("file %q, panel says %q", w.doc.Job().Photo.File, w.photo.panel.state.Text)
	}
	if err := os.Rename(filepath.Join(folder, "away.png"), filepath.Join(folder, "left.png")); err != nil {
		t.Fatal(err)
	}
	w.photo.again()
	if w.view.Underlay().Image == nil {
		t.Errorf("put back, it is not shown: %v", w.photo.err)
	}
}

// A job of anybody's does not open what lies elsewhere; picked by hand it does.
func TestAPhotoElsewhereIsOpenedOnlyWhenPicked(t *testing.T) {
	w, _ := withPhoto(t)
	other := filepath.Join(t.TempDir(), "far.png")
	takePhoto(t, other)
	w.photo.edit("as if from a file", func(p *job.Photo) { *p = job.Photo{File: filepath.ToSlash(other), Opacity: 0.5} })
	if w.view.Underlay().Image != nil || !strings.Contains(w.photo.panel.state.Text, "outside the job's folder") {
		t.Fatalf("panel says %q", w.photo.panel.state.Text)
	}
	w.photo.choose(other)
	if w.view.Underlay().Image == nil || w.doc.Job().Photo.File != filepath.ToSlash(other) {
		t.Errorf("picked: %v", w.photo.err)
	}
}

// A job that had no file yet names its photo from the folder it is saved in;
// saved elsewhere it keeps the whole path.
func TestThePhotoIsNamedFromTheJobsFolder(t *testing.T) {
	w := open(t, "gravel-estate")
	w.photo.spawn = func(f func()) { f() }
	folder := t.TempDir()
	whole := filepath.Join(folder, "left.png")
	takePhoto(t, whole)
	w.photo.choose(whole)
	if got := w.doc.Job().Photo.File; got != filepath.ToSlash(whole) {
		t.Fatalf("of a job without a file: %q", got)
	}
	for _, c := range [][2]string{{folder, "left.png"}, {t.TempDir(), filepath.ToSlash(whole)}} {
		path, want := filepath.Join(c[0], "car.armscribe.yaml"), c[1]
		w.saveTo(path, nil)
		j, err := job.Load(path)
		if err != nil || j.Photo.File != want || w.view.Underlay().Image == nil || w.doc.Changed() {
			t.Errorf("saved as %s: photo %q, %v", path, j.Photo.File, err)
		}
	}
}

func TestReadingAPhotoCanBeStopped(t *testing.T) {
	w, folder := withPhoto(t)
	var later func()
	w.photo.spawn = func(f func()) { later = f }
	w.photo.choose(filepath.Join(folder, "left.png"))
	p := w.photo.panel
	if p.state.Text != "Reading left.png…" || !p.stop.Visible() {
		t.Fatalf("panel says %q", p.state.Text)
	}
	test.Tap(&p.stop.Button)
	later() // what was under way ends late
	if w.view.Underlay().Image != nil || w.doc.Job().Photo.File != "left.png" || p.stop.Visible() || !p.again.Visible() {
		t.Errorf("after stopping: %q", p.state.Text)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, _, _, err := readPhoto(ctx, w.photo.key, false); err == nil {
		t.Error("reading goes on when it is stopped")
	}
}

func TestAPhotoCanBeHidden(t *testing.T) {
	w, folder := withPhoto(t)
	w.photo.choose(filepath.Join(folder, "left.png"))
	was := w.bytes(t)
	w.photo.panel.hide.SetChecked(true)
	if w.view.Underlay().Image != nil || w.bytes(t) != was {
		t.Error("hidden, the photo is seen, or the job is another")
	}
	w.photo.setAnchor(kinematics.HubFace)
	if w.view.Underlay().Image == nil || w.photo.panel.hide.Checked {
		t.Error("a place is asked for in a photo that is not seen")
	}
}

// Picked again or moved, a photo keeps scale, level and place; one from elsewhere is
// copied beside the job, over nothing.
func TestAPhotoFromElsewhereComesBesideTheJob(t *testing.T) {
	w, folder := withPhoto(t)
	other := filepath.Join(t.TempDir(), "far.png")
	takePhoto(t, other)
	w.photo.choose(other)
	w.photo.scaleTo(truth.InPicture(0, 100), truth.InPicture(500, 100), "500 mm")
	scale := w.doc.Job().Photo.Calibration
	if !w.photo.panel.copy.Visible() || scale.Within < 1 {
		t.Fatalf("scale %+v, status %q", scale, w.status.Text)
	}
	taken := filepath.Join(folder, "far.png")
	if err := os.WriteFile(taken, []byte("another picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	test.Tap(&w.photo.panel.copy.Button)
	if p := w.doc.Job().Photo; p.File != "far-2.png" || p.Calibration != scale || w.view.Underlay().Image == nil || w.photo.panel.copy.Visible() {
		t.Errorf("copied: %+v", p)
	}
	if data, err := os.ReadFile(taken); err != nil || string(data) != "another picture" {
		t.Errorf("the file that was there: %q, %v", data, err)
	}
	if w.photo.choose(filepath.Join(folder, "far-2.png")); w.doc.Job().Photo.Calibration != scale {
		t.Errorf("picked again: %+v", w.doc.Job().Photo)
	}
	moved := filepath.Join(t.TempDir(), "far-2.png")
	takePhoto(t, moved)
	if w.photo.choose(moved); w.doc.Job().Photo.Calibration != scale || w.doc.Job().Photo.File != filepath.ToSlash(moved) {
		t.Errorf("moved: %+v", w.doc.Job().Photo)
	}
	if w.photo.choose(filepath.Join(folder, "left.png")); w.doc.Job().Photo.Calibration.Given {
		t.Error("another photo keeps the scale")
	}
}

// From behind, a rear axle's left corner stands on the left of the photo, as the view does
// not have it: a photo of it is turned over, and one of the right corner is not.
func TestAPhotoFromBehindIsTurnedOver(t *testing.T) {
	w, folder := withPhoto(t)
	for axle, turned := range map[job.Axle]bool{job.Front: false, job.Rear: true} {
		f := newjob.Form{Axle: axle, Units: units.Millimetre}
		f.Typed[newjob.Track] = "1452"
		r, err := newjob.Make(f)
		if err != nil {
			t.Fatal(err)
		}
		w.use(document.New(r.Job, "", false))
		w.photo.choose(filepath.Join(folder, "left.png"))
		w.photo.scaleTo(truth.InPicture(0, 100), truth.InPicture(500, 100), "500 mm")
		out := func() bool { // outboard is to the right of the picture
			pl := w.photo.placement()
			inner, _ := pl.OnCar(job.Pixel{X: 100})
			outer, _ := pl.OnCar(job.Pixel{X: 900})
			return outer > inner
		}
		box := w.photo.panel.mirrored
		if box.Checked || out() == turned {
			t.Errorf("axle %v: the right side is ticked %v, outboard to the right %v", axle, box.Checked, out())
		}
		if box.SetChecked(true); out() != turned || !box.Checked {
			t.Errorf("axle %v, of the right side: ticked %v, outboard to the right %v", axle, box.Checked, out())
		}
	}
}

// A ruler held before the wheel is said to stand there, in the panel; what is no length is
// refused beside it.
func TestTheScaleStandsBeforeTheWheel(t *testing.T) {
	w, folder := withPhoto(t)
	w.photo.choose(filepath.Join(folder, "left.png"))
	p := w.photo.panel
	if p.ahead.entry.Visible() {
		t.Error("it is asked before there is a scale")
	}
	w.photo.scaleTo(truth.InPicture(0, 100), truth.InPicture(500, 100), "500 mm")
	was := w.photo.placement().Scale
	p.camera.entry.OnSubmitted("3 m")
	p.ahead.entry.OnSubmitted("300")
	if got := w.photo.placement().Scale / was; math.Abs(got-3.0/2.7) > 1e-9 || p.ahead.entry.Text != "300 mm" && p.ahead.entry.Text != "300" {
		t.Errorf("the scale grows by %.4f, and %q stands there", got, p.ahead.entry.Text)
	}
	for _, text := range []string{"far", "1600"} {
		if p.ahead.entry.OnSubmitted(text); !p.ahead.fault.Visible() || w.doc.Job().Photo.Calibration.Ahead.MM != 300 {
			t.Errorf("%q is taken", text)
		}
		if below := p.setScale; p.ahead.fault.Size().Height < p.ahead.fault.MinSize().Height || p.ahead.fault.Position().Y+p.ahead.fault.Size().Height > below.Position().Y {
			t.Errorf("%q: what is wrong lies under the button", text)
		}
	}
	if p.ahead.entry.OnSubmitted(""); w.photo.placement().Scale != was || p.ahead.fault.Visible() {
		t.Errorf("emptied, the scale is %g, %q", w.photo.placement().Scale, p.ahead.fault.Text)
	}
}
