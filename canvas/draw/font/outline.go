package font

import (
	"fmt"

	"golang.org/x/image/font/sfnt"
)

// Op says what a Seg does.
type Op uint8

// The outline steps: N points of the Seg are used by each.
const (
	MoveTo  Op = iota // 1 point
	LineTo            // 1 point
	QuadTo            // 2 points, control first
	CubicTo           // 3 points, controls first
)

// Seg is one step of a glyph outline in em, x right and y up from the pen
// position on the baseline. Contours are closed and filled non-zero.
type Seg struct {
	Op Op
	P  [3][2]float64
}

const (
	minus       = '\u2212'
	almostEqual = '\u2248'
	// almostEqualShift parts the two waves of the built sign, in em. By eye.
	almostEqualShift = 0.11
)

// standIn returns the rune whose glyph serves for r: the built signs take
// their width and their strokes from it.
func standIn(r rune) rune {
	switch r {
	case minus:
		return '+'
	case almostEqual:
		return '~'
	}
	return r
}

// Outline appends the outline of r to dst and returns it. A space has none.
func (f Face) Outline(dst []Seg, r rune) []Seg {
	d := f.load()
	d.mu.Lock()
	defer d.mu.Unlock()
	at := len(dst)
	dst = d.outline(dst, standIn(r))
	switch r {
	case minus:
		dst = append(dst[:at], barOf(dst[at:])...)
	case almostEqual:
		n := len(dst)
		dst = append(dst, dst[at:]...)
		shift(dst[at:n], almostEqualShift)
		shift(dst[n:], -almostEqualShift)
	}
	return dst
}

func (d *face) outline(dst []Seg, r rune) []Seg {
	i, err := d.sf.GlyphIndex(&d.buf, r)
	if err != nil {
		panic(fmt.Sprintf("font: looking up %q: %v", r, err))
	}
	segs, err := d.sf.LoadGlyph(&d.buf, i, d.em, nil)
	if err != nil {
		panic(fmt.Sprintf("font: outline of %q: %v", r, err))
	}
	em := float64(d.em)
	for _, s := range segs {
		var o Seg
		switch s.Op {
		case sfnt.SegmentOpLineTo:
			o.Op = LineTo
		case sfnt.SegmentOpQuadTo:
			o.Op = QuadTo
		case sfnt.SegmentOpCubeTo:
			o.Op = CubicTo
		}
		for k, p := range s.Args {
			o.P[k] = [2]float64{float64(p.X) / em, -float64(p.Y) / em}
		}
		dst = append(dst, o)
	}
	return dst
}

// barOf returns the level bar of a plus sign: as wide as the sign, as thick
// as its upright is wide, at its middle. The plus is drawn with straight
// lines only; its upright's edges are the corners on the topmost line.
func barOf(plus []Seg) []Seg {
	x0, x1, y0, y1 := 1.0, 0.0, 1.0, -1.0
	for _, s := range plus {
		x0, x1 = min(x0, s.P[0][0]), max(x1, s.P[0][0])
		y0, y1 = min(y0, s.P[0][1]), max(y1, s.P[0][1])
	}
	left, right := 1.0, 0.0
	for _, s := range plus {
		if s.P[0][1] == y1 {
			left, right = min(left, s.P[0][0]), max(right, s.P[0][0])
		}
	}
	half, mid := (right-left)/2, (y0+y1)/2
	corner := func(op Op, x, y float64) Seg {
		return Seg{Op: op, P: [3][2]float64{{x, y}}}
	}
	return []Seg{
		corner(MoveTo, x0, mid-half), corner(LineTo, x1, mid-half),
		corner(LineTo, x1, mid+half), corner(LineTo, x0, mid+half),
		corner(LineTo, x0, mid-half),
	}
}

func shift(segs []Seg, dy float64) {
	for i := range segs {
		for k := range segs[i].P {
			segs[i].P[k][1] += dy
		}
	}
}
