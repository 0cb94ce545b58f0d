package grip

import (
	"errors"
	"math"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// Tolerances of the search for the resting coordinates.
const (
	// seekStep is the step of the differences that give the slopes, mm: with
	// poses good to 1e-10 mm the slopes are good to 1e-6.
	seekStep = 1e-3
	// seekTolerance: how near the handle comes to the place wished, mm; no
	// bench and no screen shows a ten-millionth.
	seekTolerance = 1e-7
	// seekSteps bounds Newton's method. Turning an arm by its whole travel
	// turns the map by a quarter of a radian at most, and five steps do; the
	// rest is for steps halved near an edge.
	seekSteps = 20
	// seekHalvings of steps before the place counts as out of reach.
	seekHalvings = 5
	// flatSlope: slopes smaller than this, in mm per mm, show nothing.
	flatSlope = 1e-6
	// curveTolerance: how closely a held length is kept, mm; above dust.
	curveTolerance = 1e-10
	curveSteps     = 20
)

// errNoPlace: no resting coordinates put the handle there.
var errNoPlace = errors.New("no resting position leads there at the travel shown")

// show returns where the handle is seen at a setting.
func (d *Drag) show(q setting) (draw.Point, error) {
	c, err := d.apply(q)
	if err != nil {
		return draw.Point{}, err
	}
	m, err := kinematics.New(&c)
	if err != nil {
		return draw.Point{}, err
	}
	if d.job.Rack != 0 && d.job.Roll == 0 {
		// At rest height with this rack it must assemble too: the travel is
		// walked from there.
		if _, err := m.At(0, d.job.Rack); err != nil {
			return draw.Point{}, err
		}
	}
	f, err := Solve(&m, d.job.Stance)
	if err != nil {
		return draw.Point{}, err
	}
	return f.Place(d.handle), nil
}

// spot is a setting and where it shows the handle.
type spot struct {
	q  setting
	at draw.Point
}

// seek returns the spot that has the handle at a place, as near as bound
// allows: along the free axis, or on the curve of a held length. The search
// goes out from a spot that assembles.
func (d *Drag) seek(from spot, to draw.Point, b *bound) (spot, error) {
	if len(b.curve) == 1 && !d.direct {
		return d.seekOnCurve(from, to, &b.curve[0])
	}
	if !d.direct {
		return d.newton(from, to, b.free)
	}
	q := d.wished(to)
	for k, free := range b.free {
		if !free {
			q[k] = d.q0[k]
		}
	}
	return d.kept(q, b)
}

// wished is the setting of a direct handle at a place.
func (d *Drag) wished(at draw.Point) setting {
	if _, isPoint := d.handle.Point(); isPoint {
		return setting{at.X - d.aside, at.Y}
	}
	way := at.Sub(d.from)
	return setting{way.X, way.Y}
}

// kept returns a setting brought to the length that bound keeps, if it keeps
// one, and the error that keeps it from assembling.
func (d *Drag) kept(q setting, b *bound) (spot, error) {
	if len(b.curve) == 1 {
		var ok bool
		if q, ok = d.ontoCurve(q, &b.curve[0]); !ok {
			return spot{}, errNoPlace
		}
	}
	at, err := d.show(q)
	return spot{q, at}, err
}

// newton is Newton's method, its steps halved where they leave what assembles.
// Only the free axes are moved and met.
func (d *Drag) newton(s spot, to draw.Point, free [2]bool) (spot, error) {
	halvings := seekHalvings
	for range seekSteps {
		miss := [2]float64{to.X - s.at.X, to.Y - s.at.Y}
		for k := range miss {
			if !free[k] {
				miss[k] = 0
			}
		}
		if math.Hypot(miss[0], miss[1]) <= seekTolerance {
			return s, nil
		}
		step, err := d.newtonStep(s, miss, free)
		if err != nil {
			return s, err
		}
		if s, err = d.advance(s.q, step, &halvings); err != nil {
			return s, err
		}
	}
	return s, errNoPlace
}

func (d *Drag) newtonStep(from spot, miss [2]float64, free [2]bool) (setting, error) {
	var slope [2][2]float64 // slope[k]: how the place moves per mm of q[k]
	for k := range slope {
		if !free[k] {
			slope[k][k] = 1
			continue
		}
		s, err := d.slope(from, k)
		if err != nil {
			return setting{}, err
		}
		slope[k] = s
		if !free[1-k] {
			slope[k][1-k] = 0
		}
	}
	det := slope[0][0]*slope[1][1] - slope[0][1]*slope[1][0]
	if math.Abs(det) < flatSlope {
		return setting{}, errNoPlace
	}
	return setting{
		(miss[0]*slope[1][1] - miss[1]*slope[1][0]) / det,
		(miss[1]*slope[0][0] - miss[0]*slope[0][1]) / det,
	}, nil
}

// slope is the difference quotient over q[k], backward at an edge.
func (d *Drag) slope(from spot, k int) ([2]float64, error) {
	step := seekStep
	near := from.q
	near[k] += step
	p, err := d.show(near)
	if err != nil {
		step = -seekStep
		near[k] = from.q[k] + step
		if p, err = d.show(near); err != nil {
			return [2]float64{}, err
		}
	}
	return [2]float64{(p.X - from.at.X) / step, (p.Y - from.at.Y) / step}, nil
}

// advance goes by a step, or by the largest half, quarter and so on of it that
// assembles, as long as any halvings are left.
func (d *Drag) advance(q, step setting, halvings *int) (spot, error) {
	for {
		next := setting{q[0] + step[0], q[1] + step[1]}
		at, err := d.show(next)
		if err == nil || *halvings == 0 {
			return spot{next, at}, err
		}
		*halvings--
		step = setting{step[0] / 2, step[1] / 2}
	}
}

// ontoCurve moves a setting square to the curve until the length is the one at
// the start: Newton's method along the slope. A circle takes one step.
func (d *Drag) ontoCurve(q setting, h *held) (setting, bool) {
	want := h.measure(&d.start)
	for range curveSteps {
		c := d.placed(q)
		miss := h.measure(&c) - want
		if math.Abs(miss) <= curveTolerance {
			return q, true
		}
		s := d.lengthSlope(q, h)
		n := s[0]*s[0] + s[1]*s[1]
		if n < flatSlope*flatSlope {
			return q, false
		}
		q[0] -= miss * s[0] / n
		q[1] -= miss * s[1] / n
	}
	return q, false
}

// lengthSlope is how a held length grows per mm of each number of q.
func (d *Drag) lengthSlope(q setting, h *held) (s [2]float64) {
	for k := range s {
		up, down := q, q
		up[k] += seekStep
		down[k] -= seekStep
		cu, cd := d.placed(up), d.placed(down)
		s[k] = (h.measure(&cu) - h.measure(&cd)) / (2 * seekStep)
	}
	return s
}

// seekOnCurve returns the spot of the curve nearest to a place, by steps along
// the curve, halved unless they come nearer.
func (d *Drag) seekOnCurve(s spot, to draw.Point, h *held) (spot, error) {
	for range seekSteps {
		across := d.lengthSlope(s.q, h)
		n := math.Hypot(across[0], across[1])
		if n < flatSlope {
			return s, errNoPlace
		}
		along := setting{-across[1] / n, across[0] / n}
		ahead, err := d.show(setting{s.q[0] + seekStep*along[0], s.q[1] + seekStep*along[1]})
		if err != nil {
			return s, err
		}
		t := ahead.Sub(s.at).Mul(1 / seekStep)
		way := to.Sub(s.at)
		size := (way.X*t.X + way.Y*t.Y) / (t.X*t.X + t.Y*t.Y)
		if math.Abs(size) <= seekTolerance {
			return s, nil
		}
		next, err := d.nearer(s, to, setting{size * along[0], size * along[1]}, h)
		if err != nil || next == s { // the same: as near as steps along the curve can tell
			return s, err
		}
		s = next
	}
	return s, nil
}

// nearer goes by a step along the curve, halved until it comes nearer to the
// place; the same spot if none does.
func (d *Drag) nearer(s spot, to draw.Point, step setting, h *held) (spot, error) {
	var first error
	for range seekHalvings {
		err := errNoPlace
		var p draw.Point
		q, ok := d.ontoCurve(setting{s.q[0] + step[0], s.q[1] + step[1]}, h)
		if ok {
			p, err = d.show(q)
		}
		if err == nil && to.Sub(p).Len() < to.Sub(s.at).Len() {
			return spot{q, p}, nil
		}
		if err != nil && first == nil {
			first = err
		}
		step = setting{step[0] / 2, step[1] / 2}
	}
	return s, first
}
