package canvas

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/canvas/chart"
	"armscribe/canvas/draw"
)

// StripCurve is one line of a strip, at the stations of its variant. Values are in
// mm, radians or whatever the spec's PerUnit divides. The slices have the length
// of the stations; nil OK is no gap, nil Half is no band.
type StripCurve struct {
	Value []float64
	OK    []bool
	Half  []float64 // 95 % half-width; 0 where none is known
}

// StripTarget is what a strip's curve should stay in: values, over a stretch of the
// axis.
type StripTarget struct{ Low, High, From, To float64 }

// StripSpec is one strip: what it is called and what it shows.
type StripSpec struct {
	Title, Unit string  // "toe"; "deg, in +"
	PerUnit     float64 // of the unit on display, as Axis.PerUnit; 0 stands for 1
	// Least is the smallest width of the value scale: a flat curve stays flat. 0
	// stands for a fifth of PerUnit.
	Least float64

	Now, Before StripCurve // without values they are not drawn
	Target      *StripTarget

	// Format appends the figure of a value with its unit; half is its 95 %
	// half-width, 0 if unknown. Nil writes two decimals of the unit on display.
	Format func(dst []byte, v, half float64) []byte
}

// StripsInput is all that the strips show. Equal inputs give equal pictures, but
// that on screen the words on the curves stay where they stood if they can. The
// slices are read when given and may be filled anew afterwards.
type StripsInput struct {
	Axis  Axis
	Value float64 // of the axis: where the level line stands

	// At and BeforeAt are the stations of the curves, rising.
	At, BeforeAt []float64
	// NowName and BeforeName are the words on the curves; empty stands for "now"
	// and "before".
	NowName, BeforeName string
	// Change draws instead of both curves how far now is from before.
	Change bool

	Strips []StripSpec
}

// Strips is the bar that stands beside the wheel and, level with it, the curves
// as tall strips: the axis runs up, and one thin line at the present value runs
// from the bar through every strip. The grip and that line are one thing to the
// hand. A click on the bar makes the grip jump; keys are those of a Bar. Strips
// for which the width is too small are left out, the last first.
//
// Callbacks, SlideEvents among them, come for what a hand does, never for
// SetValue or SetInput. All methods belong to the toolkit's goroutine.
type Strips struct {
	slide

	// OnMenu is told of a right click: the place on the window, for a menu, and
	// the strip clicked, -1 for the bar.
	OnMenu func(at fyne.Position, strip int)

	stripColumns
	in      StripsInput
	data    []stripData
	pointer stripPointer
	texts   textStore
	frozen  bool // the scales stay
}

var (
	_ fyne.Draggable     = (*Strips)(nil)
	_ fyne.Focusable     = (*Strips)(nil)
	_ fyne.Shortcutable  = (*Strips)(nil)
	_ desktop.Mouseable  = (*Strips)(nil)
	_ desktop.Hoverable  = (*Strips)(nil)
	_ desktop.Cursorable = (*Strips)(nil)
)

// NewStrips returns strips with only a bar. An axis that is none panics.
func NewStrips(a Axis) *Strips {
	s := &Strips{}
	s.setUp(s, draw.Paper, func(l *draw.List, w, h float64) { s.drawOn(l, w, h, draw.OnScreen) })
	s.SetInput(StripsInput{Axis: a})
	return s
}

// SetInput shows an input. One whose slices differ in length, whose stations do
// not rise or whose axis is none panics; a value that is not finite counts as
// not known.
func (s *Strips) SetInput(in StripsInput) {
	in.Axis = in.Axis.check()
	checkStations(in.At)
	checkStations(in.BeforeAt)
	if in.NowName == "" {
		in.NowName = "now"
	}
	if in.BeforeName == "" {
		in.BeforeName = "before"
	}
	own := s.in.Strips
	s.in, s.axis = in, in.Axis
	s.in.Strips = append(own[:0], in.Strips...)
	s.takeStrips()
	s.put(in.Value)
	s.Refresh()
}

// SetFrozen keeps the scales of the values as they are, for as long as a hand
// works; a strip that is new meanwhile gets its own. Let go, they settle.
func (s *Strips) SetFrozen(on bool) {
	if s.frozen == on {
		return
	}
	if s.frozen = on; !on {
		for i := range s.data { // the input may have been filled anew
			s.data[i].fit(&s.in.Strips[i])
		}
		s.Refresh()
	}
}

// SetStrips changes which strips are shown and leaves axis and value alone. It
// panics as SetInput does.
func (s *Strips) SetStrips(strips []StripSpec) {
	s.in.Strips = append(s.in.Strips[:0], strips...)
	s.takeStrips()
	s.Refresh()
}

// SetScale puts the axis's zero at zeroY points from the top of the widget and
// makes one mm (or radian) as many points, to stand level with a view beside it.
// What lies off the strips is not drawn. perMM must be positive.
func (s *Strips) SetScale(zeroY, perMM float64) {
	if sum := zeroY + perMM; !(perMM > 0) || sum-sum != 0 {
		panic(fmt.Sprintf("canvas: scale of %g points a mm about %g", perMM, zeroY))
	}
	s.fixed = barTrack{zero: zeroY, per: -perMM}
	s.Refresh()
}

// FitScale makes the axis fill the height again, as it does at first.
func (s *Strips) FitScale() {
	s.fixed = barTrack{}
	s.Refresh()
}

// Scale returns the place of zero in points from the top and the points per mm
// (or radian), as they are now.
func (s *Strips) Scale() (zeroY, perMM float64) {
	s.place()
	return s.track.zero, -s.track.per
}

// GripAt returns where the grip stands for a value, in points from the top left.
func (s *Strips) GripAt(v float64) (x, y float64) {
	s.place()
	return s.gripX, s.track.at(v)
}

// Shown returns how many strips have room, and how many were given.
func (s *Strips) Shown() (shown, given int) {
	s.place()
	return s.count, len(s.in.Strips)
}

// MinSize returns the smallest size: the bar alone, upright.
func (s *Strips) MinSize() fyne.Size {
	return fyne.NewSize(float32(s.BarWidth()), stripsLeastHeight)
}

// Draw adds the strips, without the marks of pointer and keyboard, to a list of
// w by h points: one mm of the list is a point, its corner (0, 0) bottom left.
func (s *Strips) Draw(l *draw.List, w, h float64) { s.drawOn(l, w, h, draw.OnPaper) }

// Sheet returns the strips as a drawing of w by h points for the file writers,
// in the colours of print, with a title block of the job under it.
func (s *Strips) Sheet(job string, w, h float64) draw.Sheet {
	return s.SheetWith(TitleBlock{Job: job}, w, h)
}

// SheetWith is Sheet with a title block of the caller's.
func (s *Strips) SheetWith(t TitleBlock, w, h float64) draw.Sheet {
	l := &draw.List{}
	s.Draw(l, w, h)
	sheet := draw.Sheet{Title: t.Job, List: l, Styles: s.styles, Palette: draw.Print(), View: pointView(w, h)}
	t.addTo(&sheet, legend{draw.CurveNow, draw.CurveBefore}, 0, nil)
	return sheet
}

func checkStations(at []float64) {
	for i := range at {
		if at[i]-at[i] != 0 || i > 0 && at[i] < at[i-1] {
			panic(fmt.Sprintf("canvas: station %d of the strips, %g, does not rise", i, at[i]))
		}
	}
}

// tickRange is a range in units on display.
func (a *Axis) tickRange(lo, hi float64) chart.Range {
	return chart.Range{Min: lo / a.PerUnit, Max: hi / a.PerUnit}
}
