package grip

import (
	"math"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// SnapRadius is how near, in points, a snap must be to take hold.
const SnapRadius = 6

// snapped is a wished place after snapping to a height.
type snapped struct {
	at    draw.Point
	level bool // it snapped
	guide scene.Guide
	text  string
}

// snap moves the wished place to the nearest height worth having: level with
// another point, or one that makes an arm or the tie rod level; from above,
// abreast of another point. Heights are those seen.
func (d *Drag) snap(hand Hand, b *bound) snapped {
	s := snapped{at: hand.At}
	if _, isPoint := d.handle.Point(); hand.Free || !b.free[1] || len(b.curve) > 0 || !isPoint {
		return s
	}
	nearest := SnapRadius / hand.Zoom
	try := func(h draw.Point, text string) {
		if away := math.Abs(h.Y - hand.At.Y); away < nearest {
			nearest = away
			s.level, s.at.Y = true, h.Y
			s.guide, s.text = scene.Guide{Y: h.X, Z: h.Y, Level: true}, text
		}
	}
	if d.job.Plan {
		for _, p := range d.start.Points() {
			if !d.moved.Has(p) && !flatPivot(&d.start, p) {
				try(d.figure.Place(scene.OfPoint(p)), "abreast of the "+d.start.NameOf(p))
			}
		}
		return s
	}
	// Level links first: of equal heights the first found stands.
	if at, name, ok := d.levelWith(); ok {
		try(at, name+" level")
	}
	for _, p := range d.start.Points() {
		if !d.moved.Has(p) {
			try(d.figure.Place(scene.OfPoint(p)), "level with the "+d.start.NameOf(p))
		}
	}
	return s
}

// flatPivot tells whether a point is the pivot of an arm whose axis runs along
// the car: it has no place there.
func flatPivot(c *kinematics.Corner, p kinematics.Point) bool {
	return c.Upper.Flat && p == kinematics.UpperFront || c.Lower.Flat && p == kinematics.LowerFront
}

// levelWith returns where the other end of the dragged point's own link is
// seen; false for points that end no link, and for the pivots of an arm with
// two, where the axis is what counts.
func (d *Drag) levelWith() (draw.Point, string, bool) {
	p, _ := d.handle.Point()
	other, name := p, "tie rod"
	switch p {
	case kinematics.OuterEnd:
		other = kinematics.RackEnd
	case kinematics.RackEnd:
		other = kinematics.OuterEnd
	case kinematics.UpperBall:
		return d.pivotOf(&d.start.Upper), "upper arm", true
	case kinematics.LowerBall:
		return d.pivotOf(&d.start.Lower), "lower arm", true
	case kinematics.UpperFront:
		other, name = kinematics.UpperBall, "upper arm"
		if !d.start.Upper.Flat {
			return draw.Point{}, "", false
		}
	case kinematics.LowerFront:
		other, name = kinematics.LowerBall, "lower arm"
		if !d.start.Lower.Flat {
			return draw.Point{}, "", false
		}
	default:
		return draw.Point{}, "", false
	}
	return d.figure.Place(scene.OfPoint(other)), name, true
}

// pivotOf returns where an arm's pivot axis is seen beside its ball joint: at
// the ball joint's x. An axis that stays at one x is seen at its middle.
func (d *Drag) pivotOf(a *kinematics.Arm) draw.Point {
	if a.Flat {
		return d.figure.body(a.Front)
	}
	share := 0.5
	if dx := a.Front.X - a.Rear.X; math.Abs(dx) >= kinematics.MinSpan {
		share = (a.Ball.X - a.Rear.X) / dx
	}
	return d.figure.body(kinematics.Vec{
		Y: a.Rear.Y + share*(a.Front.Y-a.Rear.Y),
		Z: a.Rear.Z + share*(a.Front.Z-a.Rear.Z),
	})
}

// toGrid rounds a setting to the grid, axis by axis, where the grid is within
// reach of a snap and the rounded corner assembles. A height that has snapped
// elsewhere stays as it is seen.
func (d *Drag) toGrid(q setting, zoom float64, b *bound, s *snapped) setting {
	near := q
	for k := range near {
		if !b.free[k] || k == 1 && s.level {
			continue
		}
		if to := d.gridded(q[k]); math.Abs(to-q[k])*zoom <= SnapRadius {
			near[k] = to
		}
	}
	if near == q {
		return q
	}
	at, err := d.show(near)
	if err == nil && s.level && !d.direct {
		var back spot
		back, err = d.newton(spot{near, at}, s.at, [2]bool{false, true})
		near = back.q
	}
	if err != nil {
		return q
	}
	return near
}

// gridded rounds one number of a setting to the grid. A wheel pulled in beyond
// its spacer is rounded by its offset.
func (d *Drag) gridded(x float64) float64 {
	if w := d.start.Wheel; d.handle == scene.WheelOutline && x < min(0, w.Spacer) {
		least := min(0, w.Spacer)
		return least - (round(w.Offset+least-x, d.job.Step) - w.Offset)
	}
	return round(x, d.job.Step)
}

func round(x, step float64) float64 { return math.Round(x/step) * step }

// keptOn returns the lines that locks or a held axis keep the handle on; axis
// is the one it may follow, -1 if it chose none.
func (d *Drag) keptOn(b *bound, axis int) []scene.Guide {
	var g []scene.Guide
	if b.height || axis == 0 {
		g = append(g, scene.Guide{Y: d.from.X, Z: d.from.Y, Level: true})
	}
	if b.side || axis == 1 {
		g = append(g, scene.Guide{Y: d.from.X, Z: d.from.Y})
	}
	return g
}
