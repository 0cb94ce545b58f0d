package plates

import (
	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// Front shows one or two corners at rest from the front, each over the one before.
type Front struct {
	Views  []FrontView
	Before *scene.Subject // nil for none
	Format scene.Formatter
	Rear   bool
	// Wish is a place from the centre plane that the corner should reach, mm, with its
	// words; only with words.
	Wish   float64
	Wished string
	Note   Note

	list draw.List
	out  scene.Output
}

// FrontView is one corner of them.
type FrontView struct {
	Now         scene.Subject
	Title, Done string // what it is and what was done for it; Done may be empty
}

// frontRoom is kept around a corner: under the ground stands its scrub radius.
var frontRoom = draw.Margins{Left: 14, Right: 14, Top: 10, Bottom: 62}

// Draw draws the corners, two of them side by side or one over the other.
func (f *Front) Draw(l *draw.List, w, h float64) {
	if len(f.Views) == 0 {
		Words("no way to draw").Draw(l, w, h)
		return
	}
	all := draw.Box{Max: draw.Point{X: w, Y: h}}
	before := ""
	if f.Before != nil {
		before = "before: " + f.Before.Name
	}
	foot(l, &all, draw.TextBefore, before, &f.Note)
	boxes := [2]draw.Box{all}
	if len(f.Views) > 1 {
		boxes[0], boxes[1] = split(all)
	}
	var seen draw.Box
	for i := range f.Views {
		b := &boxes[i]
		words(l, draw.TextBold, b, f.Views[i].Title)
		words(l, draw.TextSmall, b, f.Views[i].Done)
		if f.Wished != "" {
			b.Max.Y -= row
		}
	}
	if len(f.Views) > 1 && boxes[0].Min.Y == boxes[1].Min.Y { // on one level
		top := min(boxes[0].Max.Y, boxes[1].Max.Y)
		boxes[0].Max.Y, boxes[1].Max.Y = top, top
	}
	seen = draw.EmptyBox()
	for i := range f.Views {
		seen = see(seen, &f.Views[i].Now)
	}
	if f.Before != nil {
		seen = see(seen, f.Before)
	}
	for i := range f.Views {
		f.view(l, boxes[i], seen, &f.Views[i])
	}
}

// view draws one corner in its box.
func (f *Front) view(l *draw.List, b, seen draw.Box, of *FrontView) {
	if b.W() <= frontRoom.Left+frontRoom.Right || b.H() <= frontRoom.Top+frontRoom.Bottom {
		return
	}
	v := draw.View{W: b.W(), H: b.H()}.Fit(seen, frontRoom)
	in := scene.Input{Now: of.Now, Before: f.Before, Overlays: scene.ScrubAxis | scene.BeforeOutline,
		Format: f.Format, Rear: f.Rear, Selected: scene.NoHandle, Hover: scene.NoHandle, Focus: scene.NoHandle}
	if scene.Build(&f.list, v, &in, &f.out) != nil {
		panic("plates: a corner that does not stand at rest")
	}
	l.Append(&f.list, v, b.Min)
	if f.Wished == "" {
		return
	}
	at := v.Sheet(draw.At(f.Wish, f.out.Ground)).Add(b.Mid())
	if at.X < b.Min.X || at.X > b.Max.X {
		return // off the picture; the table says how far
	}
	l.On(draw.LayerConstruction)
	l.Line(draw.RollCentreLine, draw.Point{X: at.X, Y: at.Y - 4}, draw.Point{X: at.X, Y: b.Max.Y - 2})
	l.On(draw.LayerNotes)
	half := width(draw.TextGood, f.Wished) / 2
	x := max(b.Min.X+edge+half, min(at.X, b.Max.X-edge-half))
	l.Text(draw.TextGood, draw.At(x, b.Max.Y+2), draw.Centre, f.Wished)
}

// see widens a box, mm, by what a corner at rest takes.
func see(box draw.Box, s *scene.Subject) draw.Box {
	p, err := s.Study.Mechanism.At(0, 0)
	if err != nil {
		panic("plates: a corner that does not stand at rest: " + err.Error())
	}
	half := max(s.Section.SectionWidth, s.Section.RimOverallWidth) / 2
	up := max(s.Section.OverallDiameter/2, s.Study.Case.Corner.Wheel.LoadedRadius)
	c, o := &s.Study.Case.Corner, p.WheelCentre
	for _, at := range []kinematics.Vec{p.RackEnd, p.UpperBall, {Y: o.Y - half, Z: o.Z + up}, {Y: o.Y + half, Z: p.Contact.Z}} {
		box = box.With(draw.Point{X: at.Y, Y: at.Z})
	}
	return box.With(scene.Pivot(c, &p, &c.Upper)).With(scene.Pivot(c, &p, &c.Lower))
}
