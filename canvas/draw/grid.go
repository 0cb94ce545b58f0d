package draw

import (
	"math"
	"math/bits"
)

// cell is the side of a cell of the Placer's grid in points: a third of the
// height of a text, fine enough to use narrow gaps, coarse enough to be fast.
const cell = 4.0

// bitGrid marks the cells of a window that something touches. Marking errs to
// the full side: a cell that is free is certainly free.
type bitGrid struct {
	box    Box
	nx, ny int
	words  int // 64-bit words of a row
	bits   []uint64
}

func (g *bitGrid) reset(window Box) {
	g.box = window
	g.nx = max(1, int(math.Ceil(window.W()/cell)))
	g.ny = max(1, int(math.Ceil(window.H()/cell)))
	g.words = (g.nx + 63) / 64
	n := g.words * g.ny
	if cap(g.bits) < n {
		g.bits = make([]uint64, n)
	}
	g.bits = g.bits[:n]
	clear(g.bits)
}

// span returns the cells from lo to hi, cut to 0..n-1; empty if first > last.
func span(lo, hi, origin float64, n int) (first, last int) {
	a := (lo - origin) / cell
	b := (hi - origin) / cell
	if !(b >= 0) || !(a < float64(n)) {
		return 1, 0
	}
	return int(max(0, a)), int(min(b, float64(n-1)))
}

// mark fills columns c0 to c1 of a row.
func (g *bitGrid) mark(row, c0, c1 int) {
	base := row * g.words
	w0, w1 := c0>>6, c1>>6
	for w := w0; w <= w1; w++ {
		g.bits[base+w] |= wordMask(w, c0, c1)
	}
}

func wordMask(w, c0, c1 int) uint64 {
	m := ^uint64(0)
	if w == c0>>6 {
		m &= ^uint64(0) << (c0 & 63)
	}
	if w == c1>>6 {
		m &= ^uint64(0) >> (63 - c1&63)
	}
	return m
}

// markBox fills every cell that b touches.
func (g *bitGrid) markBox(b Box) {
	c0, c1 := span(b.Min.X, b.Max.X, g.box.Min.X, g.nx)
	r0, r1 := span(b.Min.Y, b.Max.Y, g.box.Min.Y, g.ny)
	if c0 > c1 {
		return
	}
	for r := r0; r <= r1; r++ {
		g.mark(r, c0, c1)
	}
}

// markSegment fills every cell nearer than r to the segment a-b.
func (g *bitGrid) markSegment(a, b Point, r float64) {
	if a.Y > b.Y {
		a, b = b, a
	}
	r0, r1 := span(a.Y-r, b.Y+r, g.box.Min.Y, g.ny)
	for row := r0; row <= r1; row++ {
		y := g.box.Min.Y + float64(row)*cell
		x0, x1 := xRange(a, b, y-r, y+cell+r)
		c0, c1 := span(x0-r, x1+r, g.box.Min.X, g.nx)
		if c0 <= c1 {
			g.mark(row, c0, c1)
		}
	}
}

// xRange returns the reach in x of the part of a-b between y0 and y1; a is not
// above b and the part exists.
func xRange(a, b Point, y0, y1 float64) (x0, x1 float64) {
	p, q := a.X, b.X
	if h := b.Y - a.Y; h > 0 {
		k := (b.X - a.X) / h
		if y0 > a.Y {
			p = a.X + (min(y0, b.Y)-a.Y)*k
		}
		if y1 < b.Y {
			q = a.X + (max(y1, a.Y)-a.Y)*k
		}
	}
	return min(p, q), max(p, q)
}

// count returns how many cells that b touches are marked; at least one suffices
// if first is set.
func (g *bitGrid) count(b Box, first bool) int {
	c0, c1 := span(b.Min.X, b.Max.X, g.box.Min.X, g.nx)
	r0, r1 := span(b.Min.Y, b.Max.Y, g.box.Min.Y, g.ny)
	if c0 > c1 {
		return 0
	}
	n := 0
	for r := r0; r <= r1; r++ {
		base := r * g.words
		for w := c0 >> 6; w <= c1>>6; w++ {
			n += bits.OnesCount64(g.bits[base+w] & wordMask(w, c0, c1))
			if first && n > 0 {
				return n
			}
		}
	}
	return n
}

// crosses tells whether the segment a-b meets a marked cell.
func (g *bitGrid) crosses(a, b Point) bool {
	if a.Y > b.Y {
		a, b = b, a
	}
	r0, r1 := span(a.Y, b.Y, g.box.Min.Y, g.ny)
	for row := r0; row <= r1; row++ {
		y := g.box.Min.Y + float64(row)*cell
		x0, x1 := xRange(a, b, y, y+cell)
		if g.count(Box{Point{x0, y + cell/4}, Point{x1, y + cell/2}}, true) > 0 {
			return true
		}
	}
	return false
}
