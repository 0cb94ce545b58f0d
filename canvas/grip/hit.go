package grip

import (
	"math"
	"slices"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
)

// How near two handles are seen, in points.
const (
	hiding  = draw.HandleRadius     // one hides the other
	overlap = 2 * draw.HandleRadius // their marks overlap
)

// Hits lists what a pointer at p of a picture meets, at zoom points per mm:
// points and ends of obstacles within draw.HitRadius, the nearest first, then
// bodies within the same distance of their lines, in the order upright, wheel, ground. Equally near
// points come in the order of the keyboard. The loupe covers what lies under it.
func Hits(out *scene.Output, p draw.Point, zoom float64) []scene.Handle {
	if !out.Loupe.IsEmpty() && out.Loupe.Has(p) {
		return nil
	}
	type hit struct {
		h    scene.Handle
		away float64
	}
	var points, bodies []hit
	for _, s := range out.Spots {
		h := s.Handle
		isPoint := h.IsPlace()
		away := p.Sub(s.At).Len() * zoom
		if !isPoint { // its mark is shown once it is pointed at
			away = min(away, bodyDistance(out, h, p)*zoom)
		}
		switch {
		case away > draw.HitRadius:
		case isPoint:
			points = append(points, hit{h, away})
		default:
			bodies = append(bodies, hit{h, away})
		}
	}
	slices.SortStableFunc(points, func(a, b hit) int {
		switch {
		case a.away < b.away:
			return -1
		case a.away > b.away:
			return 1
		}
		return 0
	})
	list := make([]scene.Handle, 0, len(points)+len(bodies))
	for _, h := range append(points, bodies...) {
		list = append(list, h.h)
	}
	return list
}

// Stack returns the first of hits and those whose marks overlap with its own, or,
// where no point was met, all bodies met. A second click goes through them in
// the order of the keyboard.
func Stack(out *scene.Output, hits []scene.Handle, zoom float64) []scene.Handle {
	return stack(out, hits, zoom, overlap)
}

func stack(out *scene.Output, hits []scene.Handle, zoom, within float64) []scene.Handle {
	if len(hits) == 0 {
		return nil
	}
	points := hits[0].IsPlace()
	top, _ := out.Spot(hits[0])
	var list []scene.Handle
	for _, h := range hits {
		isPoint := h.IsPlace()
		at, _ := out.Spot(h)
		if isPoint == points && (!points || at.At.Sub(top.At).Len()*zoom <= within) {
			list = append(list, h)
		}
	}
	slices.Sort(list)
	return list
}

// Pick returns what a press at the pointer takes: the nearest, unless the
// selected one hides it or is hidden by it. NoHandle if nothing was met.
func Pick(out *scene.Output, hits []scene.Handle, zoom float64, selected scene.Handle) scene.Handle {
	if len(hits) == 0 {
		return scene.NoHandle
	}
	if slices.Contains(stack(out, hits, zoom, hiding), selected) {
		return selected
	}
	return hits[0]
}

// bodyDistance returns the distance of p from a body's lines in mm.
func bodyDistance(out *scene.Output, h scene.Handle, p draw.Point) float64 {
	switch h {
	case scene.UprightBody:
		return segmentDistance(p, out.Upright[0], out.Upright[1])
	case scene.GroundLine:
		return math.Abs(p.Y - out.Ground)
	}
	away := math.Inf(1)
	for i, a := range out.Tyre {
		away = min(away, segmentDistance(p, a, out.Tyre[(i+1)%len(out.Tyre)]))
	}
	return away
}

func segmentDistance(p, a, b draw.Point) float64 {
	d, e := b.Sub(a), p.Sub(a)
	if n := d.X*d.X + d.Y*d.Y; n > 0 {
		t := max(0, min((e.X*d.X+e.Y*d.Y)/n, 1))
		e = e.Sub(d.Mul(t))
	}
	return e.Len()
}
