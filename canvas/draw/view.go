package draw

import "fmt"

// PerMM is the number of points in a millimetre of paper.
const PerMM = 96 / 25.4

// The limits of the zoom in points per mm: a car fits fifty times into the
// window, and a tenth of a millimetre is a finger wide.
const (
	MinZoom = 0.01
	MaxZoom = 400
)

// Screen is a place of the window in points from its top left corner, y DOWN,
// as the toolkit has it.
type Screen struct{ X, Y float32 }

// Margins are widths in points kept free at the sides of a window.
type Margins struct{ Left, Right, Top, Bottom float64 }

// View shows a part of the world in a window or on a sheet of paper. Its
// methods return a changed copy. Zoom must be positive.
type View struct {
	Centre Point   // world point in the middle, mm
	Zoom   float64 // points per mm; PerMM is true size
	W, H   float64 // size of the window or paper, points
}

// ToScreen returns where p is seen. ToWorld is its inverse.
func (v View) ToScreen(p Point) Screen {
	x, y := v.Place(On(p))
	return Screen{float32(x), float32(y)}
}

// ToWorld returns the point seen at s.
func (v View) ToWorld(s Screen) Point {
	return v.world(float64(s.X), float64(s.Y))
}

// Place returns where p is seen, in points from the top left, y down, unrounded:
// painters and files start from here.
func (v View) Place(p Pos) (x, y float64) {
	s := v.Sheet(p)
	return v.W/2 + s.X, v.H/2 - s.Y
}

// Sheet returns p in points from the middle, y up.
func (v View) Sheet(p Pos) Point {
	return Point{
		(p.At.X-v.Centre.X)*v.Zoom + p.By.X,
		(p.At.Y-v.Centre.Y)*v.Zoom + p.By.Y,
	}
}

// Window returns the visible part of the sheet, in points from the middle, y up.
func (v View) Window() Box {
	return Box{Point{-v.W / 2, -v.H / 2}, Point{v.W / 2, v.H / 2}}
}

// world undoes Place.
func (v View) world(x, y float64) Point {
	return Point{
		v.Centre.X + (x-v.W/2)/v.Zoom,
		v.Centre.Y - (y-v.H/2)/v.Zoom,
	}
}

// Visible returns the part of the world in the window.
func (v View) Visible() Box {
	return EmptyBox().With(v.world(0, v.H)).With(v.world(v.W, 0))
}

// Fit shows box as large as the margins allow, in the middle of what they leave.
// A box without width is fitted by its height and the other way round; a point
// is centred at the present zoom; an empty box changes nothing. Margins that
// leave no room are left out.
func (v View) Fit(box Box, m Margins) View {
	if box.IsEmpty() {
		return v
	}
	w, h := v.W-m.Left-m.Right, v.H-m.Top-m.Bottom
	if w <= 0 || h <= 0 {
		m, w, h = Margins{}, v.W, v.H
	}
	zx, zy := 0.0, 0.0
	if box.W() > 0 {
		zx = w / box.W()
	}
	if box.H() > 0 {
		zy = h / box.H()
	}
	switch {
	case zx > 0 && zy > 0:
		v.Zoom = min(zx, zy)
	case zx > 0 || zy > 0:
		v.Zoom = max(zx, zy)
	}
	v.Zoom = limitZoom(v.Zoom)
	v.Centre = box.Mid()
	return v.Pan((m.Left-m.Right)/2, (m.Bottom-m.Top)/2)
}

// ZoomAbout multiplies the zoom by factor within MinZoom and MaxZoom; the world
// point p keeps its place. factor must be positive.
func (v View) ZoomAbout(p Point, factor float64) View {
	if !(factor > 0) {
		panic(fmt.Sprintf("draw: zoom factor %g", factor))
	}
	z := limitZoom(v.Zoom * factor)
	k := v.Zoom / z
	v.Centre = p.Add(v.Centre.Sub(p).Mul(k))
	v.Zoom = z
	return v
}

// Pan moves the picture by dx points to the right and dy points UP.
func (v View) Pan(dx, dy float64) View {
	v.Centre = v.Centre.Sub(Point{dx, dy}.Mul(1 / v.Zoom))
	return v
}

// PanScreen moves the picture along with a pointer that went from a to b.
func (v View) PanScreen(a, b Screen) View {
	v.Centre = v.Centre.Sub(v.ToWorld(b).Sub(v.ToWorld(a)))
	return v
}

func limitZoom(z float64) float64 { return max(MinZoom, min(z, MaxZoom)) }
