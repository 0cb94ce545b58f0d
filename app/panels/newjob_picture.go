package panels

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/newjob"
	"armscribe/canvas/draw"
)

// tapePicture shows on a schematic corner where each number of a new job is
// measured, and lights the one that is being typed. It is no drawing of a car:
// its proportions leave room for the numbers.
type tapePicture struct {
	widget.BaseWidget
	pane
	lit    newjob.Field
	anyLit bool
	words  func(newjob.Field) newjob.About // as the form asks for it
}

func newTapePicture(words func(newjob.Field) newjob.About) *tapePicture {
	p := &tapePicture{words: words}
	p.init(draw.Paper, p.compose)
	p.ExtendBaseWidget(p)
	return p
}

// light lights a field; FieldCount stands for the tyre.
func (p *tapePicture) light(f newjob.Field) {
	if !p.anyLit || p.lit != f {
		p.lit, p.anyLit = f, true
		p.Raster().Refresh()
	}
}

func (p *tapePicture) isLit(f newjob.Field) bool { return p.anyLit && p.lit == f }

// MinSize is for the toolkit.
func (p *tapePicture) MinSize() fyne.Size { return fyne.NewSize(220, 200) }

// CreateRenderer is for the toolkit.
func (p *tapePicture) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(p.Raster())
}

// The schematic corner, in units of its own: y from the centre plane, z from
// the ground.
var (
	lowerPivot = draw.Point{X: 300, Y: 215}
	lowerBall  = draw.Point{X: 690, Y: 150}
	upperPivot = draw.Point{X: 405, Y: 475}
	upperBall  = draw.Point{X: 640, Y: 545}
	rackEnd    = draw.Point{X: 352, Y: 335}
	outerEnd   = draw.Point{X: 588, Y: 275}
	wheelHub   = draw.Point{X: 860, Y: 345} // middle of the mounting face
)

const (
	wheelMiddle = 820.0
	rimHalf     = 95.0
	tyreHalf    = 115.0
	tyreRadius  = 345.0
	rimRadius   = 225.0
	trackLine   = -75.0 // height of the track's dimension
	rimLine     = 735.0
	offsetLine  = 805.0
	hubLine     = 985.0 // side distance of the wheel centre's height
	travelLine  = 1050.0
	travelWay   = 95.0
	sideBadge   = 85.0 // from the centre plane
	footBadge   = 62.0 // from the ground
	tight       = 30.0 // points: a shorter dimension has its arrowheads outside
	badgeRadius = 8.5  // points
	captionLine = 16.0 // points
	captionRows = 3
)

// schematic is the part of its world that must be seen.
var schematic = draw.Box{Min: draw.Point{X: -95, Y: -120}, Max: draw.Point{X: 1095, Y: 845}}

// tape places the schematic corner in the widget.
type tape struct {
	p     *tapePicture
	l     *draw.List
	scale float64
	shift draw.Point
}

func (p *tapePicture) compose(l *draw.List, w, h float64) {
	caption := captionLine * captionRows
	t := tape{p: p, l: l}
	t.scale = min(w/schematic.W(), (h-caption)/schematic.H())
	if t.scale <= 0 {
		return
	}
	mid := schematic.Mid()
	t.shift = draw.Point{X: w/2 - mid.X*t.scale, Y: caption + (h-caption)/2 - mid.Y*t.scale}
	t.corner()
	t.dimensions()
	t.caption(w, caption)
}

func (t *tape) at(y, z float64) draw.Point {
	return draw.Point{X: y*t.scale + t.shift.X, Y: z*t.scale + t.shift.Y}
}

func (t *tape) on(p draw.Point) draw.Point { return t.at(p.X, p.Y) }

// corner draws ground, centre plane, wheel and links.
func (t *tape) corner() {
	l := t.l
	l.On(draw.LayerGround)
	left, right := schematic.Min.X, travelLine
	l.Line(draw.Ground, t.at(left, 0), t.at(right, 0))
	for y := left + 30; y < right; y += 60 {
		p := draw.On(t.at(y, 0)).Off(0, -1.5)
		l.LineBy(draw.GroundHatch, p, p.Off(-8, -8))
	}
	l.Line(draw.CentrePlane, t.at(0, trackLine-25), t.at(0, 690))
	l.Line(draw.CentrePlane, t.at(wheelMiddle, -15), t.at(wheelMiddle, offsetLine+15))
	l.On(draw.LayerOutlines)
	t.wheel()
	l.On(draw.LayerLinks)
	l.Line(draw.Arm, t.on(lowerPivot), t.on(lowerBall))
	l.Line(draw.Arm, t.on(upperPivot), t.on(upperBall))
	l.Line(draw.Upright, t.on(lowerBall), t.on(upperBall))
	l.Line(draw.Upright, t.at(664, wheelHub.Y), t.on(wheelHub))
	l.Line(draw.TieRod, t.on(rackEnd), t.on(outerEnd))
	l.On(draw.LayerHandles)
	for _, p := range []draw.Point{lowerPivot, upperPivot} {
		l.Handle(draw.HandleFixed, t.on(p))
	}
	for _, p := range []draw.Point{lowerBall, upperBall} {
		l.Handle(draw.HandleMoving, t.on(p))
	}
	l.Handle(draw.HandleFixedNow, t.on(rackEnd))
	l.Handle(draw.HandleMovingNow, t.on(outerEnd))
	l.Text(draw.TextQuiet, draw.On(t.at(0, 690)).Off(0, 4), draw.Centre|draw.Bottom, "middle of the car")
}

func (t *tape) wheel() {
	outline := func(role draw.Role, half, radius float64) {
		z := tyreRadius
		t.l.Polygon(role, t.at(wheelMiddle-half, z-radius), t.at(wheelMiddle+half, z-radius),
			t.at(wheelMiddle+half, z+radius), t.at(wheelMiddle-half, z+radius))
	}
	if t.p.isLit(newjob.FieldCount) {
		outline(draw.Highlight, tyreHalf, tyreRadius)
	}
	outline(draw.Outline, tyreHalf, tyreRadius)
	outline(draw.OutlineInner, rimHalf, rimRadius)
	t.l.Line(draw.Outline, t.at(wheelHub.X, tyreRadius-70), t.at(wheelHub.X, tyreRadius+70))
}

// dimensions draws every numbered arrow, the lit one last.
func (t *tape) dimensions() {
	for f := range newjob.FieldCount {
		if !t.p.isLit(f) {
			t.dimension(f)
		}
	}
	if t.p.anyLit && t.p.lit < newjob.FieldCount {
		t.dimension(t.p.lit)
	}
}

// sides and heights are the points whose distances are asked for.
var (
	sides = map[newjob.Field]draw.Point{
		newjob.LowerPivotSide: lowerPivot, newjob.LowerBallSide: lowerBall, newjob.UpperPivotSide: upperPivot,
		newjob.UpperBallSide: upperBall, newjob.RackEndSide: rackEnd, newjob.OuterEndSide: outerEnd,
	}
	heights = map[newjob.Field]draw.Point{
		newjob.LowerPivotHeight: lowerPivot, newjob.LowerBallHeight: lowerBall, newjob.UpperPivotHeight: upperPivot,
		newjob.UpperBallHeight: upperBall, newjob.RackEndHeight: rackEnd, newjob.OuterEndHeight: outerEnd,
	}
)

func (t *tape) dimension(f newjob.Field) {
	if p, ok := sides[f]; ok {
		t.arrow(f, t.at(0, p.Y), t.on(p), t.at(sideBadge, p.Y), true)
		return
	}
	if p, ok := heights[f]; ok {
		t.arrow(f, t.at(p.X, 0), t.on(p), t.at(p.X, footBadge), true)
		return
	}
	edge := draw.Point{X: travelLine + 20, Y: wheelHub.Y}
	switch f {
	case newjob.Track:
		t.extend(draw.Point{X: wheelMiddle}, draw.Point{X: wheelMiddle, Y: trackLine - 12})
		t.arrow(f, t.at(schematic.Min.X, trackLine), t.at(wheelMiddle, trackLine), t.at(200, trackLine), true)
		t.l.Text(draw.TextQuiet, draw.On(t.at(240, trackLine)).Off(0, 5), draw.Left|draw.Bottom, "to the other tyre")
	case newjob.HubHeight:
		t.extend(wheelHub, edge)
		t.arrow(f, t.at(hubLine, 0), t.at(hubLine, wheelHub.Y), t.at(hubLine, 120), true)
	case newjob.RimWidth:
		for _, side := range []float64{-rimHalf, rimHalf} {
			t.extend(draw.Point{X: wheelMiddle + side, Y: tyreRadius + rimRadius}, draw.Point{X: wheelMiddle + side, Y: rimLine + 12})
		}
		t.arrow(f, t.at(wheelMiddle-rimHalf, rimLine), t.at(wheelMiddle+rimHalf, rimLine), t.at(wheelMiddle-45, rimLine), true)
	case newjob.Offset:
		t.extend(draw.Point{X: wheelHub.X, Y: tyreRadius + 70}, draw.Point{X: wheelHub.X, Y: offsetLine + 12})
		t.arrow(f, t.at(wheelMiddle, offsetLine), t.at(wheelHub.X, offsetLine), t.at(wheelHub.X+95, offsetLine), true)
	case newjob.Bump:
		t.arrow(f, t.at(travelLine, wheelHub.Y), t.at(travelLine, wheelHub.Y+travelWay), t.at(travelLine, wheelHub.Y+travelWay+30), false)
	case newjob.Droop:
		t.arrow(f, t.at(travelLine, wheelHub.Y), t.at(travelLine, wheelHub.Y-travelWay), t.at(travelLine, wheelHub.Y-travelWay-30), false)
	}
}

func (t *tape) extend(a, b draw.Point) {
	t.l.On(draw.LayerDimensions)
	t.l.Line(draw.Construction, t.on(a), t.on(b))
}

// arrow draws the dimension from a to b, with arrowheads at both ends or at b
// alone, and its number.
func (t *tape) arrow(f newjob.Field, a, b, badge draw.Point, both bool) {
	lit := t.p.isLit(f)
	line, head, plate, text := draw.Construction, draw.ArrowQuiet, draw.Loupe, draw.TextQuiet
	t.l.On(draw.LayerDimensions)
	if lit {
		line, head, plate, text = draw.DimensionNow, draw.ArrowNow, draw.HandleMovingNow, draw.TextTag
		t.l.On(draw.LayerConstruction)
		t.l.Line(draw.Highlight, a, b)
		t.l.On(draw.LayerNotes)
	}
	way := b.Sub(a)
	t.l.Line(line, a, b)
	if way.Len() < tight && both {
		u := way.Mul(20 / way.Len())
		t.l.Line(line, a.Sub(u), a)
		t.l.Line(line, b, b.Add(u))
		t.l.Arrowhead(head, draw.On(a), way)
		t.l.Arrowhead(head, draw.On(b), way.Mul(-1))
	} else {
		t.l.Arrowhead(head, draw.On(b), way)
		if both {
			t.l.Arrowhead(head, draw.On(a), way.Mul(-1))
		}
	}
	if !lit {
		t.l.On(draw.LayerLoupe)
	}
	t.l.Circle(plate, draw.On(badge), 0, badgeRadius)
	t.l.Text(text, draw.On(badge), draw.Centre|draw.Middle, numberOf(f))
}

// caption says in words what is lit.
func (t *tape) caption(w, h float64) {
	text := "The left corner, seen from in front of the car. Measure on a level floor, at ride height, the wheels straight."
	if t.p.anyLit && t.p.lit < newjob.FieldCount {
		a := t.p.words(t.p.lit)
		text = a.Name + ": " + a.Hint + "."
		if onPicture(t.p.lit) {
			text = numberOf(t.p.lit) + "  " + text
		}
	} else if t.p.anyLit {
		text = "Tyre size: as it stands on the side wall."
	}
	width := func(s string) float64 { return t.p.TextWidth(draw.TextSmall, s) }
	t.l.On(draw.LayerNotes)
	for i, line := range wrap(width, text, w-2*margin) {
		if i < captionRows {
			t.l.Text(draw.TextSmall, draw.At(margin, h-captionLine*float64(i)-6), draw.Left|draw.Top, line)
		}
	}
}
