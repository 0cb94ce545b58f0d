package window

import (
	"fmt"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/photo"
	"armscribe/app/units"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// photoPanel are the steps that place a photo, from top to bottom.
type photoPanel struct {
	s       *photoSide
	content fyne.CanvasObject
	steps   *fyne.Container // only with a photo

	state, scale, level, place, opacity, perspective *widget.Label
	choose, stop, again, setScale, setLevel          *hintButton
	setPlace, drop, skip, copy, remove               *hintButton
	anchor                                           *keyed.Select
	mirrored, hide                                   *keyed.Check
	slider                                           *keyed.Slider
	ahead, camera                                    *photoLength
	setting                                          bool // by show, not by hand
}

// anchors are the points that a photo can be laid under.
var anchors = []kinematics.Point{kinematics.HubFace, kinematics.LowerBall, kinematics.UpperBall,
	kinematics.LowerFront, kinematics.UpperFront, kinematics.OuterEnd, kinematics.RackEnd}

func newPhotoPanel(s *photoSide) *photoPanel {
	p := &photoPanel{s: s}
	w := s.w
	text := func() *widget.Label {
		l := widget.NewLabel("")
		l.Wrapping = fyne.TextWrapWord
		return l
	}
	p.state, p.scale, p.level, p.place, p.opacity, p.perspective = text(), text(), text(), text(), text(), text()
	p.choose = w.button("Choose a photo…", "A PNG or JPEG of the real corner, taken from in front, of a rear axle from behind", w.askPhoto)
	p.stop = w.button("Stop reading", "The job keeps the photo's name", s.cancelReading)
	p.again = w.button("Read it again", "After the file was put back", s.again)
	p.setScale = w.button("Pick two points…", "The ends of a length that you know", s.setScale)
	p.setLevel = w.button("Pick two points…", "Two places of the same height, such as both ends of a sill", s.setLevel)
	p.setPlace = w.button("Pick it in the photo…", "One point whose place is known holds the photo", func() { s.setAnchor(anchors[max(0, p.anchor.SelectedIndex())]) })
	p.drop = w.button("Drop the points…", "One after the other on the photo", s.dropPoints)
	p.skip = w.button("It cannot be seen", "Then what would follow from it stays assumed", func() { s.skipDrop() })
	p.copy = w.button("Copy it beside the job", "Then job and photo stay together; the other file stays where it is", s.bring)
	p.hide = keyed.NewCheck("Hide the photo", func(on bool) {
		if !p.setting {
			s.hidden = on
			s.place()
		}
	})
	p.remove = w.button("Remove the photo", "Takes it out of the job; its file stays. Ctrl+Z brings it back", s.remove)
	p.anchor = keyed.NewSelect(nil, nil)
	p.mirrored = keyed.NewCheck("Taken of the right side", func(on bool) {
		if !p.setting {
			s.mirror(on != s.fromBehind())
		}
	})
	p.makeSlider()
	p.ahead = p.length("", s.setAhead)
	p.camera = p.length("Camera to wheel, such as 4 m or 13 ft", s.setCamera)
	p.steps = container.NewVBox(
		head("Scale"), p.scale, p.ahead.entry, p.ahead.fault, p.setScale, head("Level"), p.level, p.setLevel,
		head("Place"), p.place, p.anchor, p.setPlace, p.mirrored, p.drop, p.skip,
		p.hide, p.opacity, p.slider, head("Perspective"), p.camera.entry, p.camera.fault, p.perspective, p.copy, p.remove)
	p.content = container.NewVScroll(container.NewVBox(p.state, p.stop, p.again, p.choose, p.steps))
	return p
}

func head(text string) *widget.Label {
	return widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

// makeSlider makes the slider of transparency: seen while it moves, kept when
// it is let go.
func (p *photoPanel) makeSlider() {
	p.slider = keyed.NewSlider(0, 100)
	p.slider.Step = 5
	p.slider.OnChanged = func(v float64) {
		if p.setting {
			return
		}
		p.s.opacity = 1 - v/100
		p.s.place()
		p.opacity.SetText(transparency(p.s.opacity))
	}
	p.slider.OnChangeEnded = func(v float64) {
		if p.setting {
			return
		}
		p.s.opacity = -1
		p.s.edit("fade photo", func(p *job.Photo) { p.Opacity = 1 - v/100 })
	}
}

func transparency(opacity float64) string {
	return fmt.Sprintf("Transparency %.0f %%", 100*(1-opacity))
}

// photoLength is a length of the photo that may be left out.
type photoLength struct {
	entry *keyed.Entry
	fault *widget.Label
}

func (p *photoPanel) length(hint string, set func(text string) error) *photoLength {
	l := &photoLength{entry: keyed.NewEntry(""), fault: widget.NewLabel("")}
	l.fault.Wrapping, l.fault.Importance = fyne.TextWrapWord, widget.DangerImportance
	l.entry.SetPlaceHolder(hint)
	l.entry.OnSubmitted = func(text string) {
		l.fault.SetText("")
		if err := set(strings.TrimSpace(text)); err != nil {
			l.fault.SetText("✕ " + err.Error())
		}
		show(l.fault, l.fault.Text != "")
		l.fault.Resize(fyne.NewSize(p.steps.Size().Width, 1)) // wraps it, for its height
		p.steps.Refresh()
	}
	return l
}

// show puts in what the job has, unless it is just being typed.
func (l *photoLength) show(w *Window, is job.Optional) {
	show(l.fault, l.fault.Text != "")
	if w.win.Canvas().Focused() == fyne.Focusable(l.entry) {
		return
	}
	text := ""
	if is.Given {
		text = is.Text(w.unit)
	}
	l.entry.SetText(text)
}

// show brings the panel up to date with job and picture.
func (p *photoPanel) show() {
	s := p.s
	ph := s.photo()
	p.setting = true
	defer func() { p.setting = false }()
	p.state.SetText(p.stateText())
	show(p.stop, s.cancel != nil)
	show(p.again, ph.Given() && s.image == nil && s.cancel == nil)
	show(p.steps, ph.Given())
	p.choose.SetText(map[bool]string{false: "Choose a photo…", true: "Choose another…"}[ph.Given()])
	if !ph.Given() {
		return
	}
	p.scale.SetText(p.scaleText(ph))
	p.level.SetText(map[bool]string{false: "Not level yet.", true: "Level."}[ph.Level.Given])
	p.showPlace(ph)
	for _, b := range []*hintButton{p.setScale, p.setLevel, p.setPlace, p.drop} {
		enable(b, s.image != nil)
	}
	p.mirrored.SetChecked(ph.Mirrored != s.fromBehind())
	p.hide.SetChecked(s.hidden)
	show(p.copy, s.outside())
	show(p.skip, s.skipDrop != nil)
	if s.opacity < 0 {
		p.slider.SetValue(100 * (1 - ph.Opacity))
		p.opacity.SetText(transparency(ph.Opacity))
	}
	show(p.ahead.entry, ph.Calibration.Given)
	p.ahead.entry.SetPlaceHolder("in it, within " + units.ShortLength(photo.ScaleDepth, s.w.unit))
	p.ahead.show(s.w, ph.Calibration.Ahead)
	p.camera.show(s.w, ph.CameraDistance)
	p.perspective.SetText(s.perspective())
}

// showPlace shows the step that places the photo: by one point, or by dropping
// them all.
func (p *photoPanel) showPlace(ph *job.Photo) {
	sketching := p.s.sketch != nil
	show(p.drop, sketching)
	show(p.anchor, !sketching)
	show(p.setPlace, !sketching)
	switch {
	case sketching:
		p.place.SetText("Then drop the points one after the other.")
	case ph.Anchor.Given:
		p.place.SetText("Placed.")
	default:
		p.place.SetText("Not placed yet: one point whose place is known.")
	}
	names := make([]string, len(anchors))
	c := p.s.w.doc.Variant().Corner()
	for i, a := range anchors {
		names[i] = grip.NameOf(&c, scene.OfPoint(a))
	}
	if p.anchor.SetOptions(names); p.anchor.SelectedIndex() < 0 {
		p.anchor.SetSelectedIndex(0)
	}
}

func (p *photoPanel) stateText() string {
	s := p.s
	name := filepath.Base(filepath.FromSlash(s.photo().File))
	switch {
	case !s.photo().Given():
		return "A photo of the real corner can lie under the view, to drag the points over it. " + s.standBack()
	case s.cancel != nil:
		return "Reading " + name + "…"
	case s.stopped:
		return name + " was not read."
	case s.image != nil:
		return fmt.Sprintf("%s, %d × %d pixels", name, s.head.Width, s.head.Height)
	}
	return s.problem()
}

func (p *photoPanel) scaleText(ph *job.Photo) string {
	if !ph.Calibration.Given {
		return "Not to scale yet."
	}
	return fmt.Sprintf("%.4g mm a pixel, by %s. How far before the wheel's middle does that stand?", p.s.placement().Scale, ph.Calibration.Distance.Text(p.s.w.unit))
}

// openPhoto opens the panel of the photo.
func (w *Window) openPhoto() {
	w.open(measure, photoSection)
}

// askPhoto lets the person choose a picture, by its path or by browsing.
func (w *Window) askPhoto() {
	w.askPictureAnd("Choose a photo", "Lay it under the view", nil, func(path string) {
		w.openPhoto()
		w.photo.choose(path)
	})
}

// browse is a button that puts a picture's path into an entry.
func (w *Window) browse(path *keyed.Entry) fyne.CanvasObject {
	return keyed.NewButton("Browse…", func() {
		w.dialogs.ChooseFile("Choose a picture", w.folder(), []string{".png", ".jpg", ".jpeg"}, path.SetText)
	})
}
