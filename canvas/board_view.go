package canvas

import (
	"image"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/raster"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// board is what the front view and the plan have in common: a picture of a
// scene, and a hand on it.
type board struct {
	widget.BaseWidget
	Events

	self interface { // the widget that holds the board
		fyne.Widget
		fyne.Focusable
	}
	plan bool // seen from above

	in     scene.Input
	step   float64
	locks  grip.Locks
	locked string // why the hand may not change the corner; empty if it may

	selected, hover scene.Handle
	focused         bool
	guides          []scene.Guide
	note            []string
	noted           string // name and coordinates of what the note is about
	status, message string

	press   press
	gesture *gesture
	steady  bool        // a hand elsewhere moves the corner
	nudging bool        // a key that nudges is down
	homes   scene.Homes // where labels stay while a hand works
	holding bool        // homes are in use
	built   bool        // out shows a corner
	loupe   string      // what the loupe shows under the pointer; empty off it
	placing bool        // 'move to': the next click places the selected handle
	pan     *draw.Screen
	space   bool
	clicked bool // the keyboard comes by a click

	clickedAt draw.Screen // of the last press on a handle
	pointer   draw.Screen
	pick      *Pick

	backing func(w, h int) *image.RGBA // what the picture is painted on; nil for plain paper
	lens    func(on *image.RGBA)       // paints what a pick sees larger; or nil

	view   draw.View
	fitted bool   // the view follows Fit until a hand changes it
	peer   *board // plumb with this one; or nil

	list    draw.List
	out     scene.Output
	err     error
	stale   bool // list and out are older than the input
	dirty   bool // the image is older than list and view
	painted *image.RGBA
	painter raster.Painter
	styles  *draw.Styles
	palette *draw.Palette
	image   *fynecanvas.Raster

	depth   int // of events being handled
	pending bool
}

// millimetre is the step a new view snaps and nudges by.
const millimetre = 1.0

// start makes a board ready to be the widget self.
func (v *board) start(self interface {
	fyne.Widget
	fyne.Focusable
}, plan bool) {
	*v = board{
		self: self, plan: plan,
		step: millimetre, selected: scene.NoHandle, hover: scene.NoHandle,
		view: draw.View{Zoom: 1, W: 1, H: 1}, fitted: true, stale: true, dirty: true,
		styles: draw.HouseStyles(), palette: draw.Light(),
	}
	v.image = fynecanvas.NewRaster(v.paint)
	v.ExtendBaseWidget(self)
}

// SetInput shows an input. A handle it has not is let go of.
func (v *board) SetInput(in scene.Input) {
	v.event(func() {
		first := v.in.Now.Study == nil
		sides := (v.in.Overlays^in.Overlays)&(scene.OtherSide|scene.Clearance) != 0
		v.in = in
		if v.ready() {
			if !v.has(v.selected) {
				v.choose(scene.NoHandle)
				v.placing = false
			}
			if !v.has(v.hover) {
				v.hover = scene.NoHandle
			}
			v.keepNote()
			if first || sides {
				v.refit()
			}
		}
		v.touch()
	})
}

// Input returns what was last given to SetInput.
func (v *board) Input() scene.Input { return v.in }

// SetStep sets what snaps and nudges go by: 1 mm, or 25.4/32 where lengths are
// in inches.
func (v *board) SetStep(mm float64) { v.step = mm }

// SetLocks sets what gestures leave as it is, from the next gesture on. A view
// that is plumb with this one gets the same.
func (v *board) SetLocks(l grip.Locks) {
	v.event(func() {
		if l != v.locks {
			v.locks = l
			if v.gesture == nil && v.ready() {
				v.note = v.noteOf(v.pointed())
			}
			v.touch()
			if v.peer != nil {
				v.peer.SetLocks(l)
			}
		}
	})
}

// Note returns what stands at the pointer, or at the selected handle, in words.
func (v *board) Note() []string { return v.note }

// Locks returns what gestures leave as it is.
func (v *board) Locks() grip.Locks { return v.locks }

// SetPalette sets the colours.
func (v *board) SetPalette(p *draw.Palette) {
	v.event(func() {
		v.palette = p
		v.touch()
	})
}

// Select selects a handle of the corner shown, or NoHandle.
func (v *board) Select(h scene.Handle) {
	v.event(func() {
		if v.gesture == nil && v.ready() && (h == scene.NoHandle || v.has(h)) {
			v.choose(h)
		}
	})
}

// Selected returns the selected handle, or NoHandle.
func (v *board) Selected() scene.Handle { return v.selected }

// Status returns what was last told by OnStatus.
func (v *board) Status() string { return v.status }

// Busy tells whether a hand is changing something, in this view or in the one it
// is plumb with.
func (v *board) Busy() bool { return v.gesture != nil || v.peer != nil && v.peer.gesture != nil }

// Shown returns what the picture shows and where, and the error that says which
// link keeps it from showing what was asked for. It belongs to the view and is
// overwritten with the next change. Nothing is shown before SetInput.
func (v *board) Shown() (*scene.Output, error) {
	v.build()
	return &v.out, v.err
}

// has tells whether the picture has a handle.
func (v *board) has(h scene.Handle) bool {
	if i, end, ok := h.Obstacle(); ok {
		return v.in.Overlays&scene.Clearance != 0 && i < len(v.in.Obstacles) && end < v.in.Obstacles[i].Ends()
	}
	if !grip.Has(v.corner(), h) {
		return false
	}
	return !v.plan || grip.InPlan(v.corner(), h)
}

// pointed is the handle that the note is about: under the pointer, or selected.
func (v *board) pointed() scene.Handle {
	if v.hover != scene.NoHandle {
		return v.hover
	}
	return v.selected
}

// ready tells whether there is a corner.
func (v *board) ready() bool { return v.in.Now.Study != nil }

func (v *board) corner() *kinematics.Corner { return &v.in.Now.Study.Case.Corner }

// event runs f, then repaints once if anything changed, and tells the status.
// Callbacks within f may call back.
func (v *board) event(f func()) {
	v.depth++
	f()
	v.depth--
	if v.depth > 0 {
		return
	}
	v.tellStatus()
	if v.pending {
		v.pending = false
		v.image.Refresh()
	}
}

// touch marks the picture as out of date.
func (v *board) touch() { v.stale, v.pending = true, true }

// build brings list and out up to date.
func (v *board) build() {
	if !v.stale || !v.ready() {
		return
	}
	in := v.in
	in.Selected, in.Hover, in.Focus = v.selected, v.hover, scene.NoHandle
	if v.focused {
		in.Focus = v.selected
	}
	if v.gesture == nil && v.hover != scene.NoHandle {
		in.Selected = v.hover // the note stands where the pointer is
	}
	in.Held, in.Guides, in.Note = v.locks.In(v.plan).Held(v.corner()), v.guides, v.note
	v.stayHome(&in)
	v.err = v.drawing()(&v.list, v.view, &in, &v.out)
	if v.built = true; v.holding {
		v.homes.Set(&v.out.Homes)
	}
	if v.pick != nil {
		v.drawPick()
	}
	v.stale, v.dirty = false, true
}

// stayHome keeps labels and loupe beside what they name while a hand works, from
// the last picture before it on.
func (v *board) stayHome(in *scene.Input) {
	busy := v.built && (v.steady || v.nudging || v.Busy())
	if busy && !v.holding {
		v.homes.Set(&v.out.Homes)
	}
	if v.holding = busy; busy {
		in.Homes = &v.homes
	}
}

// restKeys ends a run of nudges.
func (v *board) restKeys() {
	if v.nudging {
		v.nudging = false
		v.touch()
	}
}

// SetSteady says that a hand elsewhere moves the corner: labels stay beside what
// they name until it is over.
func (v *board) SetSteady(on bool) {
	v.event(func() {
		if v.steady != on {
			v.steady = on
			v.touch()
		}
	})
}

// drawing is what draws the picture.
func (v *board) drawing() func(*draw.List, draw.View, *scene.Input, *scene.Output) error {
	if v.plan {
		return scene.BuildPlan
	}
	return scene.Build
}

// paint fills the raster of w by h pixels; nothing is done twice.
func (v *board) paint(w, h int) image.Image {
	if w <= 0 || h <= 0 || v.Size().Width < 1 || v.Size().Height < 1 {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	if !v.ready() {
		v.list.Reset()
		v.dirty = v.dirty || v.stale
		v.stale = false
	}
	v.build()
	if v.painted == nil || v.dirty || v.painted.Rect.Dx() != w || v.painted.Rect.Dy() != h {
		var under *image.RGBA
		if v.backing != nil {
			under = v.backing(w, h)
		}
		v.painted = v.painter.Paint(&v.list, raster.Frame{
			View: v.view, Styles: v.styles, Palette: v.palette, Under: under,
			Scale: float64(w) / v.view.W, W: w, H: h,
		})
		if v.lens != nil && v.pick != nil && v.pick.Lens {
			v.lens(v.painted)
		}
		v.dirty = false
		if v.OnPainted != nil {
			v.OnPainted()
		}
	}
	return v.painted
}

// MinSize leaves room for a small corner.
func (v *board) MinSize() fyne.Size {
	v.ExtendBaseWidget(v.self)
	return fyne.NewSize(240, 180)
}

// Resize keeps the middle of the picture, or fits it again if no hand has
// changed zoom or pan.
func (v *board) Resize(s fyne.Size) {
	v.event(func() {
		if s != v.Size() && s.Width >= 1 && s.Height >= 1 {
			v.view.W, v.view.H = float64(s.Width), float64(s.Height)
			v.resized()
		}
		v.BaseWidget.Resize(s)
	})
}

// resized fits the picture into its new window. A plan goes by its front view,
// which in turn may have to make room for the plan.
func (v *board) resized() {
	if v.plan && v.peer != nil {
		v.tellView()
		v.peer.refit()
		v.follow()
		return
	}
	if v.fitted && v.ready() {
		v.fit()
	}
	v.look()
}

// CreateRenderer returns the one raster.
func (v *board) CreateRenderer() fyne.WidgetRenderer {
	v.ExtendBaseWidget(v.self)
	return widget.NewSimpleRenderer(v.image)
}
