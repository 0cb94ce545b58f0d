package grip

import (
	"math"
	"slices"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
)

// overlap is how near two handles are seen, in points, for one to hide the
// other: less than the radius of a drawn handle.
const overlap = draw.HandleRadius

// groundReach is how far to each side of the tyre the ground can be taken hold
// of, in widths of the section.
const groundReach = 1.5

// Hits lists what a pointer at p meets, at zoom points per mm: points within
// draw.HitRadius, the nearest first, then bodies within the same distance of
// their lines, in the order upright, wheel, ground. Equally near points come in
// the order of the keyboard.
func (f *Figure) Hits(p draw.Point, zoom float64, s scene.Section) []scene.Handle {
	type hit struct {
		h    scene.Handle
		away float64
	}
	var points, bodies []hit
	for _, h := range Handles(&f.Corner) {
		_, isPoint := h.Point()
		var away float64
		if isPoint {
			away = p.Sub(f.Place(h)).Len() * zoom
		} else {
			away = f.bodyDistance(h, p, s) * zoom
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

// Stack returns the first of hits and those that it hides or that hide it: the
// points seen in one place, or, where no point was met, all bodies met. A
// second click goes through them in the order of the keyboard.
func (f *Figure) Stack(hits []scene.Handle, zoom float64) []scene.Handle {
	if len(hits) == 0 {
		return nil
	}
	_, points := hits[0].Point()
	top := f.Place(hits[0])
	var stack []scene.Handle
	for _, h := range hits {
		_, isPoint := h.Point()
		if isPoint == points && (!points || f.Place(h).Sub(top).Len()*zoom <= overlap) {
			stack = append(stack, h)
		}
	}
	slices.Sort(stack)
	return stack
}

// Pick returns what a press at the pointer takes: the nearest, unless the
// selected one shares its place. NoHandle if nothing was met.
func (f *Figure) Pick(hits []scene.Handle, zoom float64, selected scene.Handle) scene.Handle {
	if len(hits) == 0 {
		return scene.NoHandle
	}
	if slices.Contains(f.Stack(hits, zoom), selected) {
		return selected
	}
	return hits[0]
}

// bodyDistance returns the distance of p from a body's lines in mm.
func (f *Figure) bodyDistance(h scene.Handle, p draw.Point, s scene.Section) float64 {
	switch h {
	case scene.UprightBody:
		return segmentDistance(p, front(f.Pose.LowerBall), front(f.Pose.UpperBall))
	case scene.GroundLine:
		c := front(f.Pose.Contact)
		reach := draw.Point{X: groundReach * s.SectionWidth}
		return segmentDistance(p, c.Sub(reach), c.Add(reach))
	}
	corners := f.tyre(s)
	away := math.Inf(1)
	for i := range corners {
		away = min(away, segmentDistance(p, corners[i], corners[(i+1)%len(corners)]))
	}
	return away
}

// tyre returns the corners of the tyre's outline: from the ground, where it is
// pressed flat, to the top.
func (f *Figure) tyre(s scene.Section) [4]draw.Point {
	out := front(f.Pose.Spin)
	if n := out.Len(); n > 0 {
		out = out.Mul(1 / n)
	}
	up := draw.Point{X: -out.Y, Y: out.X}
	c := front(f.Pose.WheelCentre)
	half := out.Mul(s.SectionWidth / 2)
	top, bottom := c.Add(up.Mul(s.OverallDiameter/2)), c.Sub(up.Mul(f.Corner.Wheel.LoadedRadius))
	return [4]draw.Point{bottom.Sub(half), bottom.Add(half), top.Add(half), top.Sub(half)}
}

func segmentDistance(p, a, b draw.Point) float64 {
	d, e := b.Sub(a), p.Sub(a)
	if n := d.X*d.X + d.Y*d.Y; n > 0 {
		t := max(0, min((e.X*d.X+e.Y*d.Y)/n, 1))
		e = e.Sub(d.Mul(t))
	}
	return e.Len()
}
