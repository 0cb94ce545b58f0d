package grip

import (
	"math"

	"armscribe/canvas/draw"
)

// edgeTolerance is how near a gesture comes to the edge, mm along its way.
const edgeTolerance = 1e-3

// edge returns the last setting on the straight line from start to a place
// that assembles, and words for what stops it there.
func (d *Drag) edge(at draw.Point, err error, b *bound) (setting, string) {
	way := at.Sub(d.from)
	return d.edgeAlong(way.Len(), err, func(from spot, t float64) (spot, error) {
		return d.seek(from, d.from.Add(way.Mul(t)), b)
	})
}

// edgeAlong is edge for a way of the given length in mm, walked from 0 to 1.
// seek finds the spot at a share of the way, going out from one before it.
func (d *Drag) edgeAlong(length float64, err error, seek func(from spot, t float64) (spot, error)) (setting, string) {
	lo, hi, last := 0.0, 1.0, spot{d.q0, d.from}
	for (hi-lo)*length > edgeTolerance {
		mid := lo + (hi-lo)/2
		if s, e := seek(last, mid); e == nil {
			lo, last = mid, s
		} else {
			hi, err = mid, e
		}
	}
	return last.q, d.whyStopped(last.q, lo, err)
}

// whyStopped words the error at the edge. How much is short is measured at the
// pointer if the way, gone on straight, leads out of reach there.
func (d *Drag) whyStopped(q setting, share float64, err error) string {
	if share > 0 {
		far := q
		for k := range far {
			far[k] += (q[k] - d.q0[k]) * (1 - share) / share
		}
		if _, e := d.show(far); e != nil {
			err = e
		}
	}
	return "Stops at the edge: " + d.reason(err) + "."
}

// nudged is the spot after a share of a nudge.
func (d *Drag) nudged(by [2]float64, share float64, b *bound) (spot, error) {
	q := d.q0
	for k := range q {
		if b.free[k] {
			q[k] += by[k] * share
		}
	}
	return d.kept(q, b)
}

// nudgeEdge is edge for a nudge.
func (d *Drag) nudgeEdge(by [2]float64, err error, b *bound) (setting, string) {
	return d.edgeAlong(math.Hypot(by[0], by[1]), err, func(_ spot, t float64) (spot, error) { return d.nudged(by, t, b) })
}
