package draw

import (
	"math"
	"testing"
)

// The dimension of a way to the right hangs below it, its line drop points down,
// its arrowheads at the ends: pointing outwards where there is room, else inwards.
func TestDimensionLine(t *testing.T) {
	a, b := Point{700, 5}, Point{732, 5}
	for _, c := range []struct{ tight, way float64 }{{20, -1}, {50, 1}} {
		var l List
		mid := l.DimensionLine(Dimension, Arrow, a, b, 24, c.tight)
		if mid.At != (Point{716, 5}) || mid.By != (Point{0, -24}) {
			t.Errorf("tight %g: text at %v", c.tight, mid)
		}
		items := l.Items()
		line := l.Corners(&items[2])
		if line[0].By.Y != -24 || line[1].By.Y != -24 {
			t.Errorf("tight %g: dimension line at %v", c.tight, line)
		}
		tail := l.Corners(&items[3])
		if tail[0].At != a || tail[0].By != (Point{0, -24}) {
			t.Errorf("tight %g: first arrow's tip at %v", c.tight, tail[0])
		}
		// The barbs lie behind the tip, seen along the arrow.
		if d := tail[1].By.X * c.way; math.Abs(d+arrowLength) > 1e-9 {
			t.Errorf("tight %g: barb %g points along", c.tight, d)
		}
	}
}

// Marks keep their size in points at any zoom.
func TestMarksKeepTheirSize(t *testing.T) {
	var l List
	l.Arrowhead(Arrow, At(3, 4), Point{2, -7})
	l.Diamond(RollCentre, Point{0, 70})
	l.Handle(HandleFixed, Point{395, 470})
	for _, zoom := range []float64{0.05, 50} {
		v := View{Zoom: zoom, W: 900, H: 700}
		tips := l.Corners(&l.Items()[0])
		x0, y0 := v.Place(tips[0])
		x1, y1 := v.Place(tips[1])
		if d := math.Hypot(x1-x0, y1-y0); math.Abs(d-math.Hypot(arrowLength, arrowHalf)) > 1e-6 {
			t.Errorf("zoom %g: the arrow's side is %g points", zoom, d)
		}
		c := l.Corners(&l.Items()[1])
		if d := v.Sheet(c[0]).Sub(v.Sheet(c[2])); math.Abs(d.X-2*diamondHalf) > 1e-6 || d.Y != 0 {
			t.Errorf("zoom %g: the diamond is %v across", zoom, d)
		}
	}
	if h := l.Items()[2]; h.R != 0 || h.RBy != HandleRadius {
		t.Errorf("handle of %g mm and %g points", h.R, h.RBy)
	}
}
