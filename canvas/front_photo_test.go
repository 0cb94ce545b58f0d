package canvas

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	list "armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

var (
	wall  = color.RGBA{40, 90, 160, 255}
	spot  = color.RGBA{250, 230, 20, 255}
	spotX = 311.0 // middle of the spot, pixels
	spotY = 187.0
)

// wallWithSpot is a picture of one colour with a square spot of 20 pixels.
func wallWithSpot() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 640, 480))
	draw.Draw(img, img.Rect, image.NewUniform(wall), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(301, 177, 321, 197), image.NewUniform(spot), image.Point{}, draw.Src)
	return img
}

// turned lays the picture with the spot's middle at (y, z), scale mm a pixel,
// turned anticlockwise.
func turned(img *image.RGBA, y, z, scale, turn float64) Underlay {
	s, c := math.Sincos(turn)
	u := Underlay{Image: img, XX: scale * c, XY: scale * s, YX: scale * s, YY: -scale * c, Opacity: 0.4}
	u.X, u.Y = y-u.XX*spotX-u.XY*spotY, z-u.YX*spotX-u.YY*spotY
	return u
}

func near(a, b color.RGBA) bool {
	d := func(x, y uint8) bool { return math.Abs(float64(x)-float64(y)) <= 2 }
	return d(a.R, b.R) && d(a.G, b.G) && d(a.B, b.B)
}

// mixed is a colour over paper.
func mixed(c color.RGBA, opacity float64) color.RGBA {
	p := list.Light()[list.Paper]
	m := func(c, p uint8) uint8 { return uint8(float64(p) + (float64(c)-float64(p))*opacity + 0.5) }
	return color.RGBA{m(c.R, p.R), m(c.G, p.G), m(c.B, p.B), 255}
}

func TestAPhotoLiesWhereItsPlacementSays(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	v := o.view
	for _, turn := range []float64{0, 0.35, -2.1} {
		u := turned(wallWithSpot(), 213, 702, 1.7, turn)
		v.SetUnderlay(u)
		g := v.ground(1800, 1400) // two pixels a point
		at := func(y, z float64) color.RGBA {
			x, down := v.view.Place(list.At(y, z))
			return g.RGBAAt(int(2*x), int(2*down))
		}
		if got := at(213, 702); !near(got, mixed(spot, 0.4)) {
			t.Errorf("turn %g: the spot's middle is %v", turn, got)
		}
		s, c := math.Sincos(turn)
		for _, way := range []float64{13.5, -13.5} { // pixels along its upper edge's direction: past the edge at 10
			if got := at(213+1.7*way*c, 702+1.7*way*s); !near(got, mixed(wall, 0.4)) {
				t.Errorf("turn %g: %g pixels from the middle is %v", turn, way, got)
			}
			if got := at(213+1.7*way*c/2, 702+1.7*way*s/2); !near(got, mixed(spot, 0.4)) {
				t.Errorf("turn %g: %g pixels from the middle is %v", turn, way/2, got)
			}
		}
	}
}

// What costs much is done once: the picture is turned and scaled for a view,
// and kept while the corner is dragged over it.
func TestAPhotoIsTransformedOnlyForAnotherView(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	v := o.view
	v.SetUnderlay(turned(wallWithSpot(), 213, 402, 1.1, 0.2))
	mark := color.RGBA{1, 2, 3, 255}
	kept := func() bool {
		v.paint(900, 700)
		return v.backdrop.image.RGBAAt(3, 5) == mark
	}
	v.paint(900, 700)
	v.backdrop.image.SetRGBA(3, 5, mark)
	from := o.at(pointHandle(kinematics.RackEnd))
	o.grab(from, plus(from, 9, 4), plus(from, 19, 11))
	if !kept() {
		t.Error("made anew while a point is dragged")
	}
	o.letGo(plus(from, 19, 11))
	if got := v.painted.RGBAAt(3, 5); got != mark {
		t.Errorf("the picture lies under the drawing as %v", got)
	}
	for name, change := range map[string]func(){
		"zoom":    v.ZoomIn,
		"opacity": func() { u := v.underlay; u.Opacity = 0.9; v.SetUnderlay(u) },
		"paper":   func() { v.SetPalette(list.Dark()) },
	} {
		v.backdrop.image.SetRGBA(3, 5, mark)
		if change(); kept() {
			t.Errorf("not made anew for another %s", name)
		}
	}
	v.SetUnderlay(Underlay{})
	v.paint(900, 700)
	p := list.Dark()[list.Paper]
	if got := v.painted.RGBAAt(3, 690); got != (color.RGBA{p.R, p.G, p.B, 255}) {
		t.Errorf("without a photo the paper is %v", got)
	}
}

func TestAskingForAPlace(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	v := o.view
	var got []list.Point
	left := 0
	pick := func() {
		v.Ask(&Pick{Text: "Click the spot.", Marks: got, Joined: true, Names: []string{"first"},
			Picked: func(p list.Point) { got = append(got, p) }, Left: func() { left++ }})
	}
	h := pointHandle(kinematics.LowerBall)
	pick()
	if !v.Asking() || o.status != "Click the spot." || v.Cursor() != desktop.CrosshairCursor {
		t.Fatalf("status %q", o.status)
	}
	o.click(o.at(h)) // a handle is no handle meanwhile
	want := v.view.ToWorld(list.Screen(o.at(h)))
	if v.Asking() || len(got) != 1 || got[0] != want || v.Selected() != scene.NoHandle || len(o.done) != 0 {
		t.Fatalf("picked %v, want %v; selected %d", got, want, v.Selected())
	}
	pick()
	from := o.at(h)
	o.grab(from, plus(from, 20, 10))
	o.letGo(plus(from, 21, 10)) // a shaky click picks where it ends
	if want := v.view.ToWorld(list.Screen(plus(from, 21, 10))); len(got) != 2 || got[1] != want || o.changed != 0 {
		t.Fatalf("picked %v, want %v", got, want)
	}
	pick()
	v.MouseMoved(mouse(from, 0))
	o.with(fyne.KeyModifierShift, func() { o.press(fyne.KeyRight) })
	o.press(fyne.KeyUp)
	v.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyLeft, Modifier: fyne.KeyModifierControl})
	o.press(fyne.KeyReturn)
	if want := v.view.ToWorld(list.Screen(plus(from, 9.9, -1))); len(got) != 3 || got[2].Sub(want).Len() > 1e-4 {
		t.Fatalf("by keys %v, want %v", got, want)
	}
	pick()
	v.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 25), PointEvent: fyne.PointEvent{Position: from}})
	if !v.Asking() || v.AcceptsTab() {
		t.Error("the wheel ends the picking")
	}
	o.press(fyne.KeyEscape)
	if v.Asking() || left != 1 || len(got) != 3 || strings.HasPrefix(o.status, "Click") {
		t.Errorf("Esc: asking %v, left %d, status %q", v.Asking(), left, o.status)
	}
	pick()
	if v.Ask(nil); v.Asking() || left != 1 {
		t.Error("Ask(nil) is not the end")
	}
	v.build()
	whole := len(v.list.Items())
	v.Ask(&Pick{Bare: true, Marks: got})
	if v.build(); len(v.list.Items()) != 4+2*len(got) { // the cross, and the marks
		t.Errorf("bare, %d of %d things are drawn", len(v.list.Items()), whole)
	}
}

// A pull picks where it begins and, where that asks for more, where it ends; a
// shaky click is a click, and where nothing more is asked the rest is lost.
func TestAPullPicksBothEnds(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	v := o.view
	var got []list.Point
	most := 2
	var ask func()
	ask = func() {
		v.Ask(&Pick{Pulled: len(got) == 0, Picked: func(p list.Point) {
			if got = append(got, p); len(got) < most {
				ask()
			}
		}})
	}
	from := fyne.NewPos(120, 140)
	pull := func(dx, dy float32) {
		got = nil
		ask()
		o.grab(from, plus(from, dx/2, dy/2))
		o.letGo(plus(from, dx, dy))
	}
	at := func(p fyne.Position) list.Point { return v.view.ToWorld(list.Screen(p)) }
	pull(80, 33)
	if len(got) != 2 || got[0] != at(from) || got[1] != at(plus(from, 80, 33)) || v.Asking() {
		t.Fatalf("picked %v, asking %v", got, v.Asking())
	}
	pull(5, 4)
	if len(got) != 1 || got[0] != at(plus(from, 5, 4)) || !v.Asking() {
		t.Fatalf("a shaky click picked %v, asking %v", got, v.Asking())
	}
	most = 1
	pull(80, 33)
	if len(got) != 1 || got[0] != at(from) || v.Asking() {
		t.Fatalf("with one place asked, picked %v, asking %v", got, v.Asking())
	}
}

// The lens shows unfaded, in a corner away from the pointer, what is under it four
// times as large; only while a place of the picture is asked for.
func TestALensShowsWhatIsPicked(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	v := o.view
	v.SetUnderlay(turned(wallWithSpot(), 213, 702, 1.7, 0))
	at := v.View().ToScreen(list.Point{X: 213, Y: 702})
	move := &desktop.MouseEvent{}
	move.Position = fyne.NewPos(at.X, at.Y)
	count := func() (n int) {
		img := v.paint(int(v.view.W), int(v.view.H)).(*image.RGBA)
		for i := 0; i+3 < len(img.Pix); i += 4 {
			if (color.RGBA{img.Pix[i], img.Pix[i+1], img.Pix[i+2], 255}) == spot {
				n++
			}
		}
		return n
	}
	if n := count(); n != 0 {
		t.Errorf("%d pixels unfaded before a place is asked for", n)
	}
	v.Ask(&Pick{Bare: true, Lens: true})
	v.MouseMoved(move)
	side := 20 * 1.7 * v.View().Zoom * lensPower // of the spot
	if n, want := count(), min(side, lensSide)*min(side, lensSide); math.Abs(float64(n)-want) > 0.25*want {
		t.Errorf("%d pixels of the spot are seen in the lens, want about %.0f", n, want)
	}
	for _, x := range []float32{10, float32(v.view.W) - 10} { // the lens makes way
		move.Position = fyne.NewPos(x, 80)
		v.MouseMoved(move)
		img := v.paint(int(v.view.W), int(v.view.H)).(*image.RGBA)
		if near := img.RGBAAt(int(x), 80); near == (color.RGBA{0, 0, 0, 255}) {
			t.Errorf("the lens is at the pointer at %g", x)
		}
	}
	v.Ask(nil)
	if n := count(); n != 0 {
		t.Errorf("%d pixels unfaded afterwards", n)
	}
}
