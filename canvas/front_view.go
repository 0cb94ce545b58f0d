package canvas

import (
	"image"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/raster"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// FrontView shows a corner from in front of the car and lets a hand change it.
//
// It holds no job: it is given a scene.Input by SetInput, and tells by OnChanged
// what the hand makes of the corner in it. The owner then updates its study and
// calls SetInput, from within OnChanged or later; within, picture and pointer
// stay in the same frame. The pointers in the Input (study, compared variant)
// stay the owner's, who changes what they point at only together with a
// SetInput.
//
// Of the Input the view sets by itself what belongs to the hand: Selected,
// Hover, Focus, Held, Guides and Note.
//
// # By hand
//
//	left button      drag a point, the upright, the wheel's outline, the ground
//	Shift, Ctrl      while dragging: keep to the nearer axis; suspend snapping (also Alt)
//	Esc              cancels a drag, leaves 'move to'
//	click            selects; a second click goes through what lies in one place
//	wheel            zooms about the pointer; middle button, or Space and drag, pans
//	right button     OnMenu
//	Tab, Shift+Tab   go through the handles in the order of scene.Output.Spots
//	arrows           nudge one step, with Shift ten, with Ctrl a tenth
//	Enter            OnTyped
//	M                'move to': the next click places the selected handle
//
// All methods belong to the toolkit's goroutine. One event causes one repaint.
type FrontView struct {
	widget.BaseWidget

	// OnChanged is told the corner under the hand, often during a gesture.
	OnChanged func(c kinematics.Corner)
	// OnChangeEnded is told once that a gesture is done, and its name for undo,
	// such as "move lower ball joint", or "nudge lower ball joint" for each press
	// of a key. before and after differ.
	OnChangeEnded func(name string, before, after kinematics.Corner)
	// OnCancelled gives back the corner from before a gesture that was abandoned.
	OnCancelled func(before kinematics.Corner)
	// OnHover and OnSelected are told what is pointed at and selected, or
	// scene.NoHandle.
	OnHover, OnSelected func(h scene.Handle)
	// OnStatus is told what the hand is doing and which keys change it.
	OnStatus func(text string)
	// OnMessage is told why a gesture stops or what it lost; empty once that is over.
	OnMessage func(text string)
	// OnView is told that zoom, pan or size changed, so that a bar beside the
	// view can stay level with it.
	OnView func(v draw.View)
	// OnPainted is told that a picture has been painted, before it is shown.
	OnPainted func()
	// OnTyped asks for the entry of a handle's numbers: x, y, z of a point.
	OnTyped func(h scene.Handle)
	// OnMenu asks for the menu of a handle (NoHandle: of the view) at a place of
	// the window's canvas.
	OnMenu func(h scene.Handle, at fyne.Position)
	// Modifiers tells which modifier keys are down; nil asks the desktop.
	Modifiers func() fyne.KeyModifier
	// NoLetterKeys switches off the keys that are single letters (M).
	NoLetterKeys bool

	in     scene.Input
	step   float64
	locks  grip.Locks
	locked string // why the hand may not change the corner; empty if it may

	selected, hover scene.Handle
	focused         bool
	guides          []scene.Guide
	note            []string
	status, message string

	press   press
	gesture *gesture
	placing bool // 'move to': the next click places the selected handle
	pan     *draw.Screen
	space   bool
	clicked bool // the keyboard comes by a click

	clickedAt draw.Screen // of the last press on a handle
	pointer   draw.Screen
	pick      *Pick

	underlay Underlay
	backdrop backdrop

	view   draw.View
	fitted bool // the view follows Fit until a hand changes it

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

var (
	_ fyne.Draggable     = (*FrontView)(nil)
	_ fyne.Scrollable    = (*FrontView)(nil)
	_ fyne.Focusable     = (*FrontView)(nil)
	_ fyne.Tabbable      = (*FrontView)(nil)
	_ fyne.Shortcutable  = (*FrontView)(nil)
	_ desktop.Mouseable  = (*FrontView)(nil)
	_ desktop.Hoverable  = (*FrontView)(nil)
	_ desktop.Cursorable = (*FrontView)(nil)
	_ desktop.Keyable    = (*FrontView)(nil)
)

// millimetre is the step a new view snaps and nudges by.
const millimetre = 1.0

// NewFrontView returns a view without a corner: blank paper until SetInput.
func NewFrontView() *FrontView {
	v := &FrontView{
		step: millimetre, selected: scene.NoHandle, hover: scene.NoHandle,
		view: draw.View{Zoom: 1, W: 1, H: 1}, fitted: true, stale: true, dirty: true,
		styles: draw.HouseStyles(), palette: draw.Light(),
	}
	v.image = fynecanvas.NewRaster(v.paint)
	v.ExtendBaseWidget(v)
	return v
}

// SetInput shows an input. A handle it has not is let go of.
func (v *FrontView) SetInput(in scene.Input) {
	v.event(func() {
		first := v.in.Now.Study == nil
		sides := (v.in.Overlays^in.Overlays)&scene.OtherSide != 0
		v.in = in
		if v.ready() {
			if !grip.Has(v.corner(), v.selected) {
				v.choose(scene.NoHandle)
				v.placing = false
			}
			if !grip.Has(v.corner(), v.hover) {
				v.hover = scene.NoHandle
			}
			if v.fitted && (first || sides) {
				v.fit()
			}
		}
		v.touch()
	})
}

// Input returns what was last given to SetInput.
func (v *FrontView) Input() scene.Input { return v.in }

// SetStep sets what snaps and nudges go by: 1 mm, or 25.4/32 where lengths are
// in inches.
func (v *FrontView) SetStep(mm float64) { v.step = mm }

// SetLocks sets what gestures leave as it is, from the next gesture on.
func (v *FrontView) SetLocks(l grip.Locks) {
	v.event(func() {
		if l != v.locks {
			v.locks = l
			if v.gesture == nil && v.ready() {
				v.note = v.noteOf(v.pointed())
			}
			v.touch()
		}
	})
}

// Locks returns what gestures leave as it is.
func (v *FrontView) Locks() grip.Locks { return v.locks }

// SetPalette sets the colours.
func (v *FrontView) SetPalette(p *draw.Palette) {
	v.event(func() {
		v.palette = p
		v.touch()
	})
}

// Select selects a handle of the corner shown, or NoHandle.
func (v *FrontView) Select(h scene.Handle) {
	v.event(func() {
		if v.gesture == nil && v.ready() && (h == scene.NoHandle || grip.Has(v.corner(), h)) {
			v.choose(h)
		}
	})
}

// Selected returns the selected handle, or NoHandle.
func (v *FrontView) Selected() scene.Handle { return v.selected }

// Busy tells whether a hand is changing the corner.
func (v *FrontView) Busy() bool { return v.gesture != nil }

// Shown returns what the picture shows and where, and the error that says which
// link keeps it from showing what was asked for. It belongs to the view and is
// overwritten with the next change. Nothing is shown before SetInput.
func (v *FrontView) Shown() (*scene.Output, error) {
	v.build()
	return &v.out, v.err
}

// pointed is the handle that the note is about: under the pointer, or selected.
func (v *FrontView) pointed() scene.Handle {
	if v.hover != scene.NoHandle {
		return v.hover
	}
	return v.selected
}

// ready tells whether there is a corner.
func (v *FrontView) ready() bool { return v.in.Now.Study != nil }

func (v *FrontView) corner() *kinematics.Corner { return &v.in.Now.Study.Case.Corner }

// event runs f, then repaints once if anything changed, and tells the status.
// Callbacks within f may call back.
func (v *FrontView) event(f func()) {
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
func (v *FrontView) touch() { v.stale, v.pending = true, true }

// build brings list and out up to date.
func (v *FrontView) build() {
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
	in.Held, in.Guides, in.Note = v.locks.Held(v.corner()), v.guides, v.note
	v.err = scene.Build(&v.list, v.view, &in, &v.out)
	if v.pick != nil {
		v.drawPick()
	}
	v.stale, v.dirty = false, true
}

// paint fills the raster of w by h pixels; nothing is done twice.
func (v *FrontView) paint(w, h int) image.Image {
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
		v.painted = v.painter.Paint(&v.list, raster.Frame{
			View: v.view, Styles: v.styles, Palette: v.palette, Under: v.ground(w, h),
			Scale: float64(w) / v.view.W, W: w, H: h,
		})
		v.dirty = false
		if v.OnPainted != nil {
			v.OnPainted()
		}
	}
	return v.painted
}

// MinSize leaves room for a small corner.
func (v *FrontView) MinSize() fyne.Size {
	v.ExtendBaseWidget(v)
	return fyne.NewSize(240, 180)
}

// Resize keeps the middle of the picture, or fits it again if no hand has
// changed zoom or pan.
func (v *FrontView) Resize(s fyne.Size) {
	v.event(func() {
		if s != v.Size() && s.Width >= 1 && s.Height >= 1 {
			v.view.W, v.view.H = float64(s.Width), float64(s.Height)
			if v.fitted && v.ready() {
				v.fit()
			}
			v.look()
		}
		v.BaseWidget.Resize(s)
	})
}

// CreateRenderer returns the one raster.
func (v *FrontView) CreateRenderer() fyne.WidgetRenderer {
	v.ExtendBaseWidget(v)
	return widget.NewSimpleRenderer(v.image)
}
