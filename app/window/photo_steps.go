package window

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/photo"
	"armscribe/app/units"
	"armscribe/canvas"
	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

const pickKeys = " By keys: arrows, then Enter. The wheel zooms; Esc leaves it."

// pixel is the place in the picture that is seen at a place of the view.
func (s *photoSide) pixel(at draw.Point) job.Pixel { return s.placement().InPicture(at.X, at.Y) }

// clickWithin is how far off a click now may be, pixels of the picture.
func (s *photoSide) clickWithin() float64 {
	return photo.ClickWithin(1/s.w.view.View().Zoom, s.placement().Scale, s.reduced)
}

// ask asks for a place in the picture, which then is seen.
func (s *photoSide) ask(p *canvas.Pick) {
	if s.hidden {
		s.hidden = false
		s.place()
		s.panel.show()
	}
	p.Bare, p.Lens = true, true
	s.w.view.Ask(p)
}

// pickTwo asks for two places in the picture. Esc takes the first back, then
// leaves.
func (s *photoSide) pickTwo(first, second string, then func(a, b job.Pixel)) {
	s.w.stopPlay()
	ended := func() {
		s.panel.show()
		s.w.say("Left: nothing is changed.")
	}
	s.ask(&canvas.Pick{Text: first + pickKeys, Left: ended, Picked: func(at draw.Point) {
		a := s.pixel(at)
		s.ask(&canvas.Pick{
			Text: second + pickKeys, Marks: []draw.Point{at},
			Left:   func() { s.pickTwo(first, second, then) },
			Picked: func(at draw.Point) { then(a, s.pixel(at)) },
		})
	}})
}

// setScale asks for two places and for their distance on the car.
func (s *photoSide) setScale() {
	s.pickTwo("Click one end of a length that you know. It stands beside the axle line.", "Click its other end.", func(a, b job.Pixel) {
		// After the click: until then the toolkit takes the keyboard from the field.
		fyne.Do(func() { s.askDistance(a, b) })
	})
}

// askDistance asks how far apart two picked places are on the car.
func (s *photoSide) askDistance(a, b job.Pixel) {
	entry := keyed.NewEntry("")
	entry.SetPlaceHolder(pages.Pick(s.w.unit == units.Inch, "such as 18, or 457 mm", "such as 457, or 18 in"))
	entry.Validator = func(text string) error {
		_, err := s.distance(text)
		return err
	}
	item := widget.NewFormItem("Distance", entry)
	item.HintText = "measured on the car, between the two places"
	s.w.dialogs.Form("How far apart are they?", "Set the scale", "Leave it", []*widget.FormItem{item}, 460,
		func() { s.scaleTo(a, b, entry.Text) })
}

// distance reads a typed distance.
func (s *photoSide) distance(text string) (units.Length, error) {
	l, err := units.ParseLength(text, s.w.unit)
	if err == nil && l.MM < kinematics.MinSpan {
		err = fmt.Errorf("a distance is at least %g mm; type it without a sign", kinematics.MinSpan)
	}
	return l, err
}

// scaleTo sets the scale. An anchor keeps its place.
func (s *photoSide) scaleTo(a, b job.Pixel, text string) {
	l, err := s.distance(text)
	if err != nil {
		s.w.showProblems("This is no distance", err)
		return
	}
	within := s.clickWithin()
	if s.edit("scale photo", func(p *job.Photo) {
		p.Calibration = job.Calibration{Given: true, A: a, B: b, Distance: l, Within: tenths(within), Ahead: p.Calibration.Ahead}
	}) {
		s.w.say(fmt.Sprintf("The photo is to scale: %.3g mm a pixel.", s.placement().Scale))
	}
}

// tenths goes up to as many digits as an error of pixels needs.
func tenths(pixels float64) float64 { return math.Ceil(pixels*10) / 10 }

// setLevel asks for two places of the same height.
func (s *photoSide) setLevel() {
	s.pickTwo("Click a place nearer to the middle of the car.", "Click one farther outboard that is just as high.", func(a, b job.Pixel) {
		within := tenths(s.clickWithin())
		if s.edit("level photo", func(p *job.Photo) { p.Level = job.Level{Given: true, A: a, B: b, Within: within} }) {
			s.w.say("The photo is level.")
		}
	})
}

// setAnchor asks where a point of the corner is in the picture.
func (s *photoSide) setAnchor(p kinematics.Point) {
	c := s.w.doc.Variant().Corner()
	name := grip.NameOf(&c, scene.OfPoint(p))
	s.w.stopPlay()
	s.ask(&canvas.Pick{
		Text: "Click the " + name + " in the photo." + pickKeys,
		Left: func() { s.panel.show(); s.w.say("Left: nothing is changed.") },
		Picked: func(at draw.Point) {
			px, v := s.pixel(at), s.w.doc.Variant().Point(p)
			if s.edit("place photo", func(p *job.Photo) {
				p.Anchor = job.Anchor{Given: true, Pixel: px, Y: units.Length{MM: v.Y}, Z: units.Length{MM: v.Z}}
			}) {
				s.w.say("The photo lies under the " + name + ". Now drag the other points over it.")
			}
		},
	})
}

// setCamera takes the camera's distance over; an empty text drops it.
func (s *photoSide) setCamera(text string) error {
	return s.setLength("type camera distance", text, s.distance, func(p *job.Photo) *job.Optional { return &p.CameraDistance })
}

// setAhead takes over how far before the wheel's middle the length of the scale stands.
func (s *photoSide) setAhead(text string) error {
	parse := func(text string) (units.Length, error) { return units.ParseLength(text, s.w.unit) }
	return s.setLength("type where the scale stands", text, parse, func(p *job.Photo) *job.Optional { return &p.Calibration.Ahead })
}

func (s *photoSide) setLength(edit, text string, parse func(string) (units.Length, error), of func(p *job.Photo) *job.Optional) error {
	to := job.Optional{}
	if text != "" {
		l, err := parse(text)
		if err != nil {
			return err
		}
		to = job.Given(l)
	}
	err := s.w.doc.EditJob(edit, "", func(j *job.Job) { *of(&j.Photo) = to })
	s.w.refresh()
	return err
}
