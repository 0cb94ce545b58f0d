package draw

import (
	"fmt"
	"math"
)

// PolylineInBox adds the parts of the open line through pts that lie in b.
func (l *List) PolylineInBox(role Role, b Box, pts []Point) {
	for i := 1; i < len(pts); i++ {
		t0, t1, ok := SegmentInBox(pts[i-1], pts[i], b)
		l.part(role, pts[i-1], pts[i], t0, t1, ok)
	}
	l.End(role, false)
}

// PolylineInCircle adds the parts of the open line through pts that lie in the
// circle about c of radius r.
func (l *List) PolylineInCircle(role Role, c Point, r float64, pts []Point) {
	for i := 1; i < len(pts); i++ {
		t0, t1, ok := segmentInCircle(pts[i-1], pts[i], c, r)
		l.part(role, pts[i-1], pts[i], t0, t1, ok)
	}
	l.End(role, false)
}

// part adds the stretch t0..t1 of a-b to the path being built and ends the path
// where the line leaves.
func (l *List) part(role Role, a, b Point, t0, t1 float64, ok bool) {
	if !On(a).finite() || !On(b).finite() {
		panic(fmt.Sprintf("draw: line from %v to %v is not finite", a, b))
	}
	if !ok {
		l.End(role, false)
		return
	}
	d := b.Sub(a)
	if t0 > 0 || len(l.pos) == l.open {
		l.End(role, false)
		l.Add(On(a.Add(d.Mul(t0))))
	}
	if t1 < 1 {
		l.Add(On(a.Add(d.Mul(t1))))
		l.End(role, false)
		return
	}
	l.Add(On(b))
}

// SegmentInBox returns the stretch of a-b inside box as fractions of the way
// from a to b; ok is false if there is none. Liang and Barsky, ACM Transactions
// on Graphics 3 (1), 1984.
func SegmentInBox(a, b Point, box Box) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	cut := func(d, room float64) bool {
		switch {
		case d == 0:
			return room >= 0
		case d < 0:
			t0 = max(t0, room/d)
		default:
			t1 = min(t1, room/d)
		}
		return t0 <= t1
	}
	dx, dy := b.X-a.X, b.Y-a.Y
	ok = cut(-dx, a.X-box.Min.X) && cut(dx, box.Max.X-a.X) &&
		cut(-dy, a.Y-box.Min.Y) && cut(dy, box.Max.Y-a.Y)
	return t0, t1, ok
}

func segmentInCircle(a, b, c Point, r float64) (t0, t1 float64, ok bool) {
	d, f := b.Sub(a), a.Sub(c)
	qa := d.X*d.X + d.Y*d.Y
	qc := f.X*f.X + f.Y*f.Y - r*r
	if qa == 0 {
		return 0, 1, qc <= 0
	}
	qb := f.X*d.X + f.Y*d.Y
	disc := qb*qb - qa*qc
	if disc < 0 {
		return 0, 0, false
	}
	w := math.Sqrt(disc)
	t0, t1 = max(0, (-qb-w)/qa), min(1, (-qb+w)/qa)
	return t0, t1, t0 <= t1
}
