package report

import (
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/canvas/plates"
	swept "armscribe/kinematics/clearance"
)

// LockWays name the ways of a Lock.
var LockWays = []string{"turning right", "turning left"}

// Plate is the picture of the steering over the rack and of the turning circle of one
// way, with the curves of LockCurve and the tyre's body; beside the measured variant
// if that is not nil.
func (k *Lock) Plate(curve []LockRow, before *Lock, was []LockRow, way int, tyre swept.Tyre) *plates.Lock {
	u := k.Source.Unit
	e := &k.Ways[way].Touch
	p := &plates.Lock{Inch: u == units.Inch, Tyre: tyre, Turn: e.turn(u), TurnMissing: k.noCircle(),
		Title:        upperFirst(LockWays[way]) + pickWord(e.By == ByObstacle, ", until it touches", ", at the end of the rack"),
		ErrorMissing: pickWord(k.Source.Wheelbase > 0, "wheels not turned one way", "needs the wheelbase")}
	for i := range curve {
		r := &curve[i]
		p.Rack = append(p.Rack, r.Rack)
		p.Left.Add(r.Left, r.Missing == "")
		p.Right.Add(r.Right, r.Missing == "")
		ideal, _, ok := r.Ideal()
		p.Ideal.Add(ideal, ok)
		p.Error.Add(r.AckermannError, r.Missing == "" && r.HasError)
		p.ErrorBand = append(p.ErrorBand, r.ErrorBand)
	}
	for i := range was {
		p.Was.Add(was[i].AckermannError, was[i].Missing == "" && was[i].HasError)
	}
	if before != nil {
		p.Past = before.Ways[way].Touch.turn(u)
	}
	for i := range k.Ways {
		if kept := &k.Ways[i].Kept; kept.By == ByObstacle {
			p.Gaps = append(p.Gaps, kept.Rack)
		}
	}
	return p
}

// turn is the circle of an end as drawn; nil for none.
func (e *LockEnd) turn(u units.Unit) *plates.Turn {
	if !e.HasWall {
		return nil
	}
	size := func(mm float64) string {
		return sheet.BandedIf(sheet.Far, mm, e.CircleBand, e.HasCircleBand).Phrase(u)
	}
	return &plates.Turn{Circle: e.Circle, Contact: e.Contact, Steer: [2]float64{e.Left, e.Right},
		Wall: size(e.Circle.WallToWall), Kerb: size(e.Circle.KerbToKerb)}
}

func (k *Lock) noCircle() string {
	switch {
	case k.NoTyre:
		return "no circle: the tyre's size is not known"
	case k.Source.Wheelbase <= 0:
		return "the circle needs the wheelbase"
	}
	return "no circle: the wheels do not turn one way"
}
