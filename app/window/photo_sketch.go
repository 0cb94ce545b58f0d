package window

import (
	"fmt"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/newjob"
	"armscribe/app/photo"
	"armscribe/app/units"
	"armscribe/canvas"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// drop is a place that is dropped on the photo: a point of the corner, or the
// ground.
type drop struct {
	name   string
	point  kinematics.Point
	ground bool
}

// drops are the places in the order in which they are asked for.
var drops = []drop{
	{name: "lower pivot", point: kinematics.LowerFront},
	{name: "upper pivot", point: kinematics.UpperFront},
	{name: "lower ball joint", point: kinematics.LowerBall},
	{name: "upper ball joint", point: kinematics.UpperBall},
	{name: "rack end", point: kinematics.RackEnd},
	{name: "outer tie-rod end", point: kinematics.OuterEnd},
	{name: "middle of the hub", point: kinematics.HubFace},
	{name: "ground under the tyre", ground: true},
}

// askNewFromPhoto begins a job whose points are to be dropped on a photo.
func (w *Window) askNewFromPhoto() {
	track, offset := widget.NewEntry(), widget.NewEntry()
	track.SetPlaceHolder("default until typed over")
	offset.SetPlaceHolder("default until typed over")
	for _, e := range []*widget.Entry{track, offset} {
		e.Validator = func(text string) error {
			if strings.TrimSpace(text) == "" {
				return nil
			}
			_, err := units.ParseLength(text, w.unit)
			return err
		}
	}
	axle := widget.NewRadioGroup([]string{"Front axle", "Rear axle"}, nil)
	axle.Horizontal, axle.Required = true, true
	axle.SetSelected("Front axle")
	fields := []*widget.FormItem{
		widget.NewFormItem("Axle", axle), widget.NewFormItem("Track", track), widget.NewFormItem("Wheel offset", offset)}
	w.askPictureAnd("New job from a photo", "Begin", fields, func(path string) {
		f := newjob.Form{Axle: job.Front, Units: w.unit}
		if axle.Selected == "Rear axle" {
			f.Axle = job.Rear
		}
		f.Typed[newjob.Track], f.Typed[newjob.Offset] = track.Text, offset.Text
		w.beginSketch(f, path)
	})
}

// beginSketch opens an unsaved job of what is known, with the photo under it.
func (w *Window) beginSketch(f newjob.Form, path string) {
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

// dropNext asks for the place after those that are dropped; Esc takes the last
// of them back, or leaves when there is none.
func (s *photoSide) dropNext(dropped []job.Pixel) {
	n := len(dropped)
	if n == len(drops) {
		s.finishSketch(dropped)
		return
	}
	pl := s.placement()
	p := &canvas.Pick{Bare: true, Text: fmt.Sprintf("%d of %d: click the %s.", n+1, len(drops), drops[n].name)}
	for i, px := range dropped {
		y, z := pl.OnCar(px)
		p.Marks, p.Names = append(p.Marks, draw.Point{X: y, Y: z}), append(p.Names, drops[i].name)
	}
	if n == 0 {
		p.Text += pickKeys
		p.Left = func() { s.w.say("Left: nothing is changed.") }
	} else {
		p.Text += " Esc takes the " + drops[n-1].name + " back."
		p.Left = func() { s.dropNext(dropped[:n-1]) }
	}
	p.Picked = func(at draw.Point) { s.dropNext(append(dropped[:n:n], s.pixel(at))) }
	s.w.view.Ask(p)
}

// finishSketch makes the job of the places that were dropped.
func (s *photoSide) finishSketch(dropped []job.Pixel) {
	ph := *s.photo()
	r, err := sketched(*s.sketch, &ph, dropped)
	if err != nil {
		s.w.showProblems("These places make no corner; drop them again", err)
		return
	}
	r.Job.Photo = ph
	s.w.useNew(r)
	s.w.openPhoto()
}

// sketched makes the job of a form and of places on its photo, and anchors the
// photo at the hub: its height follows from the ground, its side distance from
// the track.
func sketched(f newjob.Form, ph *job.Photo, dropped []job.Pixel) (*newjob.Result, error) {
	var hub, ground job.Pixel
	for i, d := range drops {
		switch {
		case d.ground:
			ground = dropped[i]
		case d.point == kinematics.HubFace:
			hub = dropped[i]
		}
	}
	ph.Anchor = job.Anchor{Given: true, Pixel: ground}
	pl, _ := photo.PlacementOf(ph)
	_, height := pl.OnCar(hub)
	f.Typed[newjob.HubHeight] = fmt.Sprintf("%.1f mm", height)
	known, err := newjob.Make(f) // for the side distance of the hub
	if err != nil {
		return nil, err
	}
	at := known.Job.Variants[0].Hub
	ph.Anchor = job.Anchor{Given: true, Pixel: hub, Y: units.Length{MM: at.Y.MM}, Z: units.Length{MM: at.Z.MM}}
	pl, _ = photo.PlacementOf(ph)
	for i, d := range drops {
		if !d.ground {
			y, z := pl.OnCar(dropped[i])
			f.Place(d.point, y, z)
		}
	}
	return newjob.Make(f)
}

// askPictureAnd asks for a picture, by its path or by browsing, and for more.
func (w *Window) askPictureAnd(title, do string, more []*widget.FormItem, then func(path string)) {
	path := newKeyEntry("")
	path.SetPlaceHolder("path of a PNG or JPEG picture")
	item := widget.NewFormItem("Picture", container.NewBorder(nil, nil, nil, w.browse(&path.Entry), path))
	d := dialog.NewForm(title, do, "Not now", append([]*widget.FormItem{item}, more...), func(ok bool) {
		if ok && strings.TrimSpace(path.Text) != "" {
			then(strings.TrimSpace(path.Text))
		}
	}, w.win)
	path.leave, path.OnSubmitted = d.Hide, func(string) { d.Submit() }
	d.Resize(fyne.NewSize(min(620, w.win.Canvas().Size().Width-40), 170+38*float32(len(more))))
	d.Show()
	w.win.Canvas().Focus(path)
}
