package plates

import (
	"math"

	"armscribe/canvas/draw"
)

// Bars shows sizes as bars, in groups, each kind of value on one scale.
type Bars struct {
	Title       string
	Now, Before string // variants; Before is empty where nothing is compared
	Groups      []BarGroup
	Notes       []string // of which the first that fits stands at the foot
	Stale       bool
}

// BarGroup are bars under one heading.
type BarGroup struct {
	Name string
	Bars []Bar
}

// Bar is one value, with its 95 % band, and what it was. Signs are left out of the
// lengths; texts have them.
type Bar struct {
	Name                string
	Scale               int // those of the same are drawn on one scale
	Now, Band, Before   float64
	NowText, BeforeText string
}

// Sizes of the bars, points.
const (
	barMost = 46.0 // the most that one value takes
	barTwo  = 26.0 // the least in which both figures stand over each other
	barLow  = 14.0 // the least with wide headings
	barGap  = 8.0
)

// Draw draws the bars.
func (s *Bars) Draw(l *draw.List, w, h float64) {
	b := draw.Box{Max: draw.Point{X: w, Y: h}}
	words(l, draw.TextBold, &b, s.Title)
	b.Max.Y -= 4
	s.legend(l, &b)
	foot(l, &b, draw.TextQuiet, "", &Note{first(draw.TextQuiet, w-2*edge, s.Notes...), s.Stale})
	n := 0
	var most [8]float64
	names := 0.0
	for _, g := range s.Groups {
		n += len(g.Bars)
		for i := range g.Bars {
			k := &g.Bars[i]
			most[k.Scale] = max(most[k.Scale], math.Abs(k.Now)+k.Band, math.Abs(k.Before))
			names = max(names, width(draw.TextQuiet, k.Name))
		}
	}
	if n == 0 {
		return
	}
	head, high := 22.0, 0.0 // of a group's heading and of a bar
	room := func() float64 { return (b.H() - head*float64(len(s.Groups))) / float64(n) }
	if high = min(barMost, room()); high < barLow {
		head = 15
		high = room()
	}
	figures := 0.0
	for _, g := range s.Groups {
		for i := range g.Bars {
			figures = max(figures, s.figures(&g.Bars[i], high))
		}
	}
	b.Min.X, b.Max.X = edge+names+barGap, w-edge-figures-barGap
	y := b.Max.Y
	for _, g := range s.Groups {
		y -= head
		l.On(draw.LayerNotes)
		l.Text(draw.TextSmall, draw.At(edge, y+(head-9)/2), draw.Left, cut(draw.TextSmall, g.Name, w-2*edge))
		for i := range g.Bars {
			y -= high
			if k := &g.Bars[i]; most[k.Scale] > 0 && high > 0 && b.W() > 0 {
				s.bar(l, k, draw.Box{Min: draw.Point{X: b.Min.X, Y: y}, Max: draw.Point{X: b.Max.X, Y: y + high}}, most[k.Scale])
			}
		}
	}
}

// figures is how wide the figures of a bar are: over each other, or in one line.
func (s *Bars) figures(k *Bar, high float64) float64 {
	now, was := width(draw.TextNow, k.NowText), width(draw.TextBefore, k.BeforeText)
	if s.Before == "" {
		return now
	}
	if high >= barTwo {
		return max(now, was)
	}
	return now + gap + was
}

// legend names both variants, side by side where there is room.
func (s *Bars) legend(l *draw.List, b *draw.Box) {
	room := b.W() - 2*edge - sample - 6
	put := func(x float64, fill, line, text draw.Role, words string) {
		box := draw.Box{Min: draw.Point{X: x, Y: b.Max.Y}, Max: draw.Point{X: x + sample, Y: b.Max.Y + 9}}
		l.Rect(fill, box)
		l.Rect(line, box)
		l.Text(text, draw.At(x+sample+6, b.Max.Y), draw.Left, words)
	}
	l.On(draw.LayerNotes)
	now := cut(draw.TextNow, "now: "+s.Now, room)
	b.Max.Y -= row
	put(b.Min.X+edge, draw.BandNow, draw.DimensionNow, draw.TextNow, now)
	if s.Before == "" {
		return
	}
	before := cut(draw.TextBefore, "before: "+s.Before, room)
	x := b.Min.X + edge + keyWidth(draw.TextNow, now) + 2*gap
	if x+keyWidth(draw.TextBefore, before) > b.Max.X-edge {
		x = b.Min.X + edge
		b.Max.Y -= row
	}
	put(x, draw.BandBefore, draw.Compared, draw.TextBefore, before)
}

// bar draws one value of both variants in its box.
func (s *Bars) bar(l *draw.List, k *Bar, box draw.Box, most float64) {
	mid := box.Mid().Y
	l.On(draw.LayerNotes)
	l.Text(draw.TextQuiet, draw.At(box.Min.X-barGap, mid), draw.Right+draw.Middle, k.Name)
	l.On(draw.LayerGrid)
	l.Line(draw.Axis, box.Min, draw.Point{X: box.Min.X, Y: box.Max.Y})
	x := func(v float64) float64 { return box.Min.X + box.W()*math.Abs(v)/most }
	air := box.H() * 0.12
	low := box.Min.Y + air
	if s.Before != "" {
		low = mid
		was := draw.Box{Min: draw.Point{X: box.Min.X, Y: box.Min.Y + air}, Max: draw.Point{X: x(k.Before), Y: mid - 1}}
		l.On(draw.LayerCompared)
		l.Rect(draw.BandBefore, was)
		l.Rect(draw.Compared, was)
	}
	now := draw.Box{Min: draw.Point{X: box.Min.X, Y: low}, Max: draw.Point{X: x(k.Now), Y: box.Max.Y - air}}
	l.On(draw.LayerCurves)
	l.Rect(draw.BandNow, now)
	l.Rect(draw.DimensionNow, now)
	if k.Band > 0 {
		for _, end := range [...]float64{max(0, math.Abs(k.Now)-k.Band), math.Abs(k.Now) + k.Band} {
			l.Line(draw.Dimension, draw.Point{X: x(end), Y: now.Min.Y}, draw.Point{X: x(end), Y: now.Max.Y})
		}
	}
	right := max(now.Max.X, x(math.Abs(k.Now)+k.Band), x(k.Before)) + barGap
	l.On(draw.LayerNotes)
	switch {
	case s.Before == "":
		l.Text(draw.TextNow, draw.At(right, mid), draw.Left+draw.Middle, k.NowText)
	case box.H() >= barTwo:
		l.Text(draw.TextNow, draw.At(right, now.Mid().Y), draw.Left+draw.Middle, k.NowText)
		l.Text(draw.TextBefore, draw.At(right, (box.Min.Y+air+mid)/2), draw.Left+draw.Middle, k.BeforeText)
	default:
		l.Text(draw.TextNow, draw.At(right, mid), draw.Left+draw.Middle, k.NowText)
		l.Text(draw.TextBefore, draw.At(right+width(draw.TextNow, k.NowText)+gap, mid), draw.Left+draw.Middle, k.BeforeText)
	}
}
