package raster

import (
	"math"

	"armscribe/canvas/draw"
)

// stroke paints the chain with a pen of so many pixels.
func (p *Painter) stroke(closed bool, pen float64, st *draw.Style) {
	if closed {
		p.chain = append(p.chain, p.chain[0])
	}
	visible := p.bounds.Grow(pen + 2)
	if pattern := st.DashOn(p.frame.Medium).Times(p.scale); pattern.N > 0 {
		p.dash(&pattern, pen/2, visible)
	} else {
		p.solid(closed, st.Round, pen/2, visible)
	}
	p.mask.flush(p.img, p.frame.Palette[st.Stroke])
}

// solid paints the chain without gaps, stretch by stretch where it is visible.
func (p *Painter) solid(closed, round bool, half float64, visible draw.Box) {
	p.piece = p.piece[:0]
	straight := ends{start: !closed && !round, end: !closed && !round}
	for i := 1; i < len(p.chain); i++ {
		a, b := p.chain[i-1], p.chain[i]
		t0, t1, ok := draw.SegmentInBox(a, b, visible)
		if !ok {
			p.paintPiece(half, straight)
			continue
		}
		if t0 > 0 {
			p.paintPiece(half, straight)
		}
		if len(p.piece) == 0 {
			p.piece = append(p.piece, along(a, b, t0))
		}
		p.piece = append(p.piece, along(a, b, t1))
		if t1 < 1 {
			p.paintPiece(half, straight)
		}
	}
	p.paintPiece(half, straight)
}

// dash paints the chain in dashes. The pattern runs on along the whole chain,
// corners, invisible parts and all.
func (p *Painter) dash(pattern *draw.Pattern, half float64, visible draw.Box) {
	p.piece = p.piece[:0]
	straight := ends{true, true}
	s := 0.0 // length from the start of the chain to a
	for i := 1; i < len(p.chain); i++ {
		a, b := p.chain[i-1], p.chain[i]
		n := b.Sub(a).Len()
		t0, t1, ok := draw.SegmentInBox(a, b, visible)
		if n == 0 || !ok {
			if !ok {
				p.paintPiece(half, straight)
			}
			s += n
			continue
		}
		if t0 > 0 {
			p.paintPiece(half, straight)
		}
		at, stop := s+t0*n, s+t1*n
		on, rest := phase(pattern, at)
		if !on {
			p.paintPiece(half, straight)
		}
		for {
			if on && len(p.piece) == 0 {
				p.piece = append(p.piece, along(a, b, (at-s)/n))
			}
			if at+rest >= stop {
				break
			}
			at += rest
			if on {
				p.piece = append(p.piece, along(a, b, (at-s)/n))
				p.paintPiece(half, straight)
			}
			on, rest = phase(pattern, at+nudge)
			rest += nudge
		}
		if on {
			p.piece = append(p.piece, along(a, b, t1))
		}
		if t1 < 1 {
			p.paintPiece(half, straight)
		}
		s += n
	}
	p.paintPiece(half, straight)
}

// nudge steps over the border between a dash and a gap, px: rounding must not
// find the same border twice. It is far below what can be seen.
const nudge = 1e-6

// phase returns whether the pattern is drawn at s from its start and for how
// long it goes on so.
func phase(pattern *draw.Pattern, s float64) (on bool, rest float64) {
	period := pattern.Period()
	s -= math.Floor(s/period) * period
	for i, l := range pattern.L[:pattern.N] {
		if s < l {
			return i&1 == 0, l - s
		}
		s -= l
	}
	return true, pattern.L[0]
}

// ends tells which ends of a piece are straight.
type ends struct{ start, end bool }

// paintPiece adds the piece to the mask and empties it. A straight end also cuts
// the round joints that lie near it, or a short first segment would let the
// joint after it show behind the end.
func (p *Painter) paintPiece(half float64, straight ends) {
	c := p.piece
	p.piece = c[:0]
	if len(c) < 2 {
		return
	}
	first, okFirst := cutAt(c, 0, 1)
	last, okLast := cutAt(c, len(c)-1, -1)
	if !okFirst || !okLast {
		if !straight.start && !straight.end {
			p.mask.add(&segment{from: c[0], to: c[0], half: half})
		}
		return
	}
	total := 0.0
	for i := 1; i < len(c); i++ {
		total += c[i].Sub(c[i-1]).Len()
	}
	near := half + 2
	s := 0.0
	for i := 1; i < len(c); i++ {
		d := c[i].Sub(c[i-1])
		n := d.Len()
		sg := segment{from: c[i-1], to: c[i], half: half}
		if straight.start && s < near && sameWay(d, first.u) {
			sg.cuts[0], sg.start = &first, i == 1
		}
		s += n
		if straight.end && total-s < near && sameWay(d.Mul(-1), last.u) {
			sg.cuts[1], sg.end = &last, i == len(c)-1
		}
		p.mask.add(&sg)
	}
}

// cutAt returns the straight end of c at i, looking on in the given step; ok is
// false if all of c is one point.
func cutAt(c []draw.Point, i, step int) (cut, bool) {
	for k := i + step; k >= 0 && k < len(c); k += step {
		d := c[k].Sub(c[i])
		if n := d.Len(); n > 0 {
			return cut{c[i], d.Mul(1 / n)}, true
		}
	}
	return cut{}, false
}

// sameWay tells whether d goes on along u, within 60 degrees: only then is a
// joint after a sharp corner not cut off by the end before it.
func sameWay(d, u draw.Point) bool {
	return d.X*u.X+d.Y*u.Y >= 0.5*d.Len()
}

func along(a, b draw.Point, t float64) draw.Point {
	if t == 1 {
		return b
	}
	return draw.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
}
