package window

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/newjob"
	"armscribe/app/units"
	"armscribe/canvas"
	"armscribe/canvas/draw"
)

// askNewFromPhoto begins a job whose points are to be dropped on a photo.
func (w *Window) askNewFromPhoto() {
	length := func(hint string, needed bool) *keyed.Entry {
		e := keyed.NewEntry("")
		e.SetPlaceHolder(hint)
		e.Validator = func(text string) error {
			if strings.TrimSpace(text) == "" {
				if needed {
					return errors.New("type the track: no photo shows where the car's middle is")
				}
				return nil
			}
			_, err := units.ParseLength(text, w.unit)
			return err
		}
		return e
	}
	track := length("between the middles of both tyres, on the ground", true)
	offset := length("default until typed over", false)
	camera := length("to the wheel, such as 4 m or 13 ft", false)
	radio := func(a, b string) *keyed.Radio {
		return keyed.NewRadio([]string{a, b}, nil)
	}
	axle, rod := radio("Front axle", "Rear axle"), radio("Ahead of the axle", "Behind it")
	axle.OnChanged = func(string) {
		if axle.Selected == axle.Options[1] {
			rod.SetSelected(rod.Options[1])
		} else {
			rod.SetSelected(rod.Options[0])
		}
	}
	fields := []*widget.FormItem{widget.NewFormItem("Axle", axle), widget.NewFormItem("Tie rod", rod),
		widget.NewFormItem("Track", track), widget.NewFormItem("Wheel offset", offset), widget.NewFormItem("Camera", camera)}
	w.askPictureAnd("New job from a photo", "Begin", fields, func(path string) {
		f := newjob.Form{Axle: job.Front, Units: w.unit, Rod: newjob.RodAheadOfAxle}
		if axle.Selected == axle.Options[1] {
			f.Axle = job.Rear
		}
		if rod.Selected == rod.Options[1] {
			f.Rod = newjob.RodBehindAxle
		}
		f.Typed[newjob.Track], f.Typed[newjob.Offset] = track.Text, offset.Text
		w.beginSketch(f, path, camera.Text)
	})
}

// beginSketch opens an unsaved job of what is known, with the photo under it.
func (w *Window) beginSketch(f newjob.Form, path, camera string) {
	f.Name = strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	r, err := newjob.Make(f)
	if err != nil {
		w.showProblems("This makes no job", err)
		return
	}
	w.keepOrLose("make another job", func() {
		w.use(document.New(r.Job, "", false))
		w.photo.sketch = &f
		w.openPhoto()
		w.photo.choose(path)
		if err := w.photo.setCamera(strings.TrimSpace(camera)); err != nil {
			w.showProblems("The camera's distance is not set", err)
		}
		w.photo.panel.show()
		w.say("Set the scale and the level on the left, then drop the points on the photo.")
	})
}

// dropPoints asks for the places one after the other.
func (s *photoSide) dropPoints() {
	if !s.photo().Calibration.Given {
		s.w.say("Set the scale first: pick two points whose distance you know.")
		return
	}
	s.w.stopPlay()
	s.dropNext(nil)
}

// dropNext asks for the place after those that are dropped; Esc, or undo, takes the
// last of them back, or leaves when there is none.
func (s *photoSide) dropNext(dropped []newjob.Dropped) {
	n := len(dropped)
	s.skipDrop = nil
	if n == len(newjob.Drops) {
		s.finishSketch(dropped)
		return
	}
	next, pl := &newjob.Drops[n], s.placement()
	name := next.Name
	if next.Hint != "" {
		name += ", " + next.Hint
	}
	p := &canvas.Pick{Text: fmt.Sprintf("%d of %d: click the %s.", n+1, len(newjob.Drops), name)}
	if next.Optional {
		p.Text += " If it cannot be seen, say so on the left."
		s.skipDrop = func() { s.leave(); s.finishSketch(dropped) }
	}
	for i, at := range dropped {
		y, z := pl.OnCar(at.Pixel)
		p.Marks, p.Names = append(p.Marks, draw.Point{X: y, Y: z}), append(p.Names, newjob.Drops[i].Name)
	}
	if n == 0 {
		p.Text += pickKeys
		p.Left = func() { s.w.say("Left: nothing is changed.") }
	} else {
		p.Text += " Esc takes the " + newjob.Drops[n-1].Name + " back."
		p.Left = func() { s.dropNext(dropped[:n-1]) }
	}
	p.Picked = func(at draw.Point) {
		s.dropNext(append(dropped[:n:n], newjob.Dropped{Pixel: s.pixel(at), Within: s.clickWithin()}))
	}
	s.ask(p)
	s.panel.show()
}

// finishSketch makes the job of the places that were dropped.
func (s *photoSide) finishSketch(dropped []newjob.Dropped) {
	s.skipDrop = nil
	r, err := newjob.FromPhoto(*s.sketch, *s.photo(), s.head, dropped)
	if err != nil {
		s.panel.show()
		s.w.showProblems("These places make no corner; drop them again", err)
		return
	}
	s.w.useNew(r)
	s.w.openPhoto()
	least, most := newjob.WithinOf(r)
	length := func(mm float64) string { return units.Guessed.Length(mm, s.w.unit) }
	s.w.say(strings.TrimSpace(r.Shortened + " " + fmt.Sprintf("Read from the photo: its points are known within ±%s to ±%s. Measure those that matter, and type them over.", length(least), length(most))))
}

// askPictureAnd asks for a picture, by its path or by browsing, and for more.
func (w *Window) askPictureAnd(title, do string, more []*widget.FormItem, then func(path string)) {
	path := keyed.NewEntry("")
	path.SetPlaceHolder("path of a PNG or JPEG picture")
	item := widget.NewFormItem("Picture", container.NewBorder(nil, nil, nil, w.browse(path), path))
	w.dialogs.Form(title, do, "Not now", append([]*widget.FormItem{item}, more...), 620, func() {
		if strings.TrimSpace(path.Text) != "" {
			then(strings.TrimSpace(path.Text))
		}
	})
}
