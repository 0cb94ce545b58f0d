package window

import (
	"context"
	"errors"
	"image"
	"math"
	"path/filepath"

	"fyne.io/fyne/v2"

	"armscribe/app/job"
	"armscribe/app/newjob"
	"armscribe/app/photo"
	"armscribe/app/units"
	"armscribe/canvas"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// photoSide is the photo under the view: its picture, read off the window's
// goroutine, and the panel with the steps that place it. What is picked is
// kept in the job, each step an edit that can be undone.
type photoSide struct {
	w *Window
	// picked are pictures that the person has chosen by hand, with their whole
	// paths: those may lie anywhere.
	picked map[string]bool
	// spawn runs the reading beside the window.
	spawn func(f func())

	key     photoKey
	cancel  context.CancelFunc // of the reading in progress; nil when there is none
	stopped bool               // by the person
	err     error              // why there is no picture
	image   *image.RGBA        // reduced
	reduced int                // pixels of the picture to one of image
	head    photo.Header       // of the picture
	hidden  bool               // by the person, until it is picked in again

	opacity float64      // while the slider is being moved; else negative
	sketch  *newjob.Form // of a job that is being dropped on its photo
	// skipDrop goes on without the place that is asked for; nil where it is needed.
	skipDrop func()
	panel    *photoPanel
}

// photoKey is what a picture is read by.
type photoKey struct{ jobFile, name string }

// longestShown is the longest side of a picture as it is shown, pixels: finer
// than screens, and 64 MiB at the most.
const longestShown = 4096

func newPhotoSide(w *Window) *photoSide {
	s := &photoSide{w: w, picked: map[string]bool{}, opacity: -1, spawn: func(f func()) { go f() }}
	s.panel = newPhotoPanel(s)
	return s
}

// photo is the job's photo.
func (s *photoSide) photo() *job.Photo { return &s.w.doc.Job().Photo }

// follow shows the photo of the job as it is now, and reads its picture if it
// is another one.
func (s *photoSide) follow() {
	p := s.photo()
	key := photoKey{}
	if p.Given() {
		key.name = p.File
		if path := s.w.doc.Path(); path != "" {
			key.jobFile = absolute(path)
		}
	}
	if key != s.key {
		s.key = key
		s.read()
	}
	s.place()
	s.panel.show()
}

// aboutPhoto is what the notice is about that the photo is not shown.
const aboutPhoto = "photo"

// read starts to read the picture of the key, and forgets the one before.
func (s *photoSide) read() {
	s.stop()
	s.w.notices.drop(aboutPhoto)
	s.image, s.err, s.stopped = nil, nil, false
	if s.key.name == "" {
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	s.cancel = cancel
	key, byHand := s.key, s.picked[filepath.FromSlash(s.key.name)]
	s.spawn(func() {
		img, reduced, head, err := readPhoto(ctx, key, byHand)
		fyne.Do(func() {
			if ctx.Err() == nil {
				s.arrived(img, reduced, head, err)
			}
		})
	})
}

// readPhoto reads and reduces a picture.
func readPhoto(ctx context.Context, key photoKey, byHand bool) (*image.RGBA, int, photo.Header, error) {
	var pic *photo.Picture
	var err error
	if byHand {
		pic, err = photo.ReadPicked(ctx, filepath.FromSlash(key.name))
	} else {
		pic, err = photo.Read(ctx, key.jobFile, key.name)
	}
	if err != nil {
		return nil, 0, photo.Header{}, err
	}
	img, reduced, err := photo.Reduced(ctx, pic.Image, longestShown)
	if err != nil {
		return nil, 0, photo.Header{}, err
	}
	makeOpaque(img)
	return img, reduced, pic.Header, nil
}

// makeOpaque lays what is seen through on white.
func makeOpaque(img *image.RGBA) {
	for i := 0; i+3 < len(img.Pix); i += 4 {
		if p := img.Pix[i : i+4 : i+4]; p[3] != 255 {
			rest := 255 - p[3]
			p[0], p[1], p[2], p[3] = p[0]+rest, p[1]+rest, p[2]+rest, 255
		}
	}
}

// arrived takes over what was read.
func (s *photoSide) arrived(img *image.RGBA, reduced int, head photo.Header, err error) {
	s.stop()
	s.image, s.reduced, s.head, s.err = img, reduced, head, err
	if err != nil {
		s.w.notices.put(aboutPhoto, "The photo is not shown: "+err.Error()+".")
	}
	s.place()
	s.panel.show()
	if _, complete := photo.PlacementOf(s.photo(), head.Held); img != nil && !complete {
		s.showWhole()
	}
}

// showWhole shows the whole picture.
func (s *photoSide) showWhole() {
	const air = 12 // points
	pl, box := s.placement(), draw.EmptyBox()
	for _, px := range []job.Pixel{{}, {X: float64(s.head.Width)}, {Y: float64(s.head.Height)}, {X: float64(s.head.Width), Y: float64(s.head.Height)}} {
		y, z := pl.OnCar(px)
		box = box.With(draw.Point{X: y, Y: z})
	}
	v := s.w.view.View()
	s.w.view.SetView(v.Fit(box, draw.Margins{Left: air, Right: air, Top: air, Bottom: air}))
}

// stop ends the reading in progress.
func (s *photoSide) stop() {
	if s.cancel != nil {
		s.cancel()
		s.cancel = nil
	}
}

// placement is where the picture is shown: as the job says, and as far as it
// does not, so that the picture is about as wide as a corner and has its middle
// at the hub.
func (s *photoSide) placement() photo.Placement {
	const corner = 1400.0 // mm
	p := s.photo()
	pl, _ := photo.PlacementOf(p, s.head.Held)
	if !p.Calibration.Given && s.head.Width > 0 {
		pl.Scale = corner / float64(s.head.Width)
	}
	if !p.Anchor.Given {
		hub := s.w.doc.Variant().Point(kinematics.HubFace)
		pl.Pixel, pl.Y, pl.Z = job.Pixel{X: float64(s.head.Width) / 2, Y: float64(s.head.Height) / 2}, hub.Y, hub.Z
	}
	return pl
}

// place lays the picture under the view.
func (s *photoSide) place() {
	if s.image == nil || s.hidden {
		s.w.view.SetUnderlay(canvas.Underlay{})
		return
	}
	pl, step := s.placement(), float64(s.reduced)
	y, z := pl.OnCar(job.Pixel{})
	ry, rz := pl.OnCar(job.Pixel{X: step})
	dy, dz := pl.OnCar(job.Pixel{Y: step})
	opacity := s.photo().Opacity
	if s.opacity >= 0 {
		opacity = s.opacity
	}
	s.w.view.SetUnderlay(canvas.Underlay{Image: s.image, XX: ry - y, XY: dy - y, X: y, YX: rz - z, YY: dz - z, Y: z, Opacity: opacity})
}

// edit changes the job's photo, under a name for undo.
func (s *photoSide) edit(name string, change func(p *job.Photo)) bool {
	err := s.w.doc.EditJob(name, "", func(j *job.Job) { change(&j.Photo) })
	s.w.refresh()
	if err != nil {
		s.w.showProblems("This cannot be set", err)
	}
	return err == nil
}

// choose lays a picture under the view that the person has picked. Where it
// stands is asked for anew, unless it is the one that was there: by its name, for it
// may have been moved.
func (s *photoSide) choose(path string) {
	whole := path
	if !filepath.IsAbs(path) {
		whole = filepath.Join(s.w.folder(), path)
	}
	s.picked[whole] = true
	name := photo.NameFor(s.w.doc.Path(), whole)
	s.key = photoKey{} // read it again even if it is the same
	s.edit("choose photo", func(p *job.Photo) {
		if filepath.Base(filepath.FromSlash(p.File)) == filepath.Base(whole) {
			p.File = name
			return
		}
		*p = job.Photo{File: name, Opacity: job.DefaultOpacity, Mirrored: s.fromBehind()}
	})
	if s.outside() {
		s.w.say("The photo lies outside the job's folder. 'Copy it beside the job' on the left keeps both together.")
	}
}

// outside tells whether the picture is one from elsewhere that could lie beside the
// job.
func (s *photoSide) outside() bool {
	return s.image != nil && s.w.doc.Path() != "" && filepath.IsAbs(filepath.FromSlash(s.photo().File))
}

// bring copies the picture beside the job, never over another file, and has the job
// name that one. What was picked in it stays.
func (s *photoSide) bring() {
	from := filepath.FromSlash(s.photo().File)
	name, err := photo.CopyBeside(s.w.doc.Path(), from)
	if err != nil {
		s.w.showProblems("The photo was not copied", err)
		return
	}
	if s.edit("copy photo beside the job", func(p *job.Photo) { p.File = name }) {
		s.w.say("The photo is copied to " + name + " beside the job.")
	}
}

// remove takes the photo out of the job; its file stays where it is.
func (s *photoSide) remove() {
	s.leave()
	s.edit("remove photo", func(p *job.Photo) { *p = job.Photo{} })
}

// savingAs keeps the picture's name true when the job goes to a file: within
// the file's folder it goes by that, else by its whole path.
func (s *photoSide) savingAs(path string) {
	p := s.photo()
	if !p.Given() {
		return
	}
	whole := filepath.FromSlash(p.File)
	if !filepath.IsAbs(whole) {
		if s.w.doc.Path() == "" {
			return
		}
		whole = filepath.Join(filepath.Dir(absolute(s.w.doc.Path())), whole)
	}
	name := photo.NameFor(path, whole)
	if name == p.File {
		return
	}
	if s.image != nil { // it was opened rightly, and stays open
		s.picked[whole] = true
	}
	if err := s.w.doc.EditJob("name photo from the job's folder", "", func(j *job.Job) { j.Photo.File = name }); err != nil {
		s.w.say(err.Error())
	}
}

// fromBehind tells whether the photo is looked at the other way round than the view: from
// behind, the left corner stands on the left.
func (s *photoSide) fromBehind() bool { return s.w.doc.Job().Axle == job.Rear }

// mirror turns the picture of the other side of the car over. What was picked
// keeps its pixels; the level is seen from the other side.
func (s *photoSide) mirror(on bool) {
	s.edit("mirror photo", func(p *job.Photo) {
		if p.Mirrored != on {
			p.Mirrored = on
			p.Level.A, p.Level.B = p.Level.B, p.Level.A
		}
	})
}

// cancelReading leaves the picture unread.
func (s *photoSide) cancelReading() {
	s.stop()
	s.stopped = true
	s.w.say("The photo was not read; the job keeps its name.")
	s.panel.show()
}

// again reads the picture once more, as when its file was put back.
func (s *photoSide) again() {
	s.read()
	s.place()
	s.panel.show()
}

// forget is for another document: nothing is being picked or sketched in it.
func (s *photoSide) forget() {
	s.leave()
	s.sketch, s.opacity, s.hidden = nil, -1, false
}

// leave ends the picking.
func (s *photoSide) leave() {
	s.skipDrop = nil
	if s.w.view.Asking() {
		s.w.view.Ask(nil)
	}
}

// standBack is how to take a photo.
func (s *photoSide) standBack() string {
	text := "Stand far back and zoom in, the lens at hub height and square to the car."
	if s.fromBehind() {
		text += " Take a rear axle from behind."
	}
	return text
}

// perspective is the error that a camera's distance causes, in words.
func (s *photoSide) perspective() string {
	text := s.standBack()
	d := s.photo().CameraDistance
	if !d.Given {
		return text + " Until its distance is typed, it counts as " + units.Guessed.Length(photo.UsualDistance, s.w.unit) + " away, half of what that corrects is doubtful, and points are known no better."
	}
	off, ok := photo.PerspectiveError(d.MM, photo.UsualOffset, photo.UsualDepth)
	if !ok {
		return text
	}
	length := func(mm float64) string { return units.Guessed.Length(mm, s.w.unit) }
	text += " From there a pivot " + length(photo.UsualDepth) + " behind the wheel's plane and " + length(photo.UsualOffset) +
		" from the middle of the picture appears " + length(off) + " off."
	const fair = 5.0 // mm
	if off > fair {
		text += " ▲ For " + length(fair) + " stand " + length(math.Ceil(photo.DistanceFor(fair, photo.UsualOffset, photo.UsualDepth)/100)*100) + " back."
	}
	return text
}

// problem is why the picture is not shown, in words.
func (s *photoSide) problem() string {
	var e *photo.Error
	switch {
	case errors.As(s.err, &e):
		return "✕ " + filepath.Base(filepath.FromSlash(e.File)) + " " + e.What + "; " + e.Cure + "."
	case s.err != nil:
		return "✕ " + s.err.Error()
	}
	return ""
}
