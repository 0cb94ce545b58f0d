package targets

import (
	"math"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/kinematics"
)

// Trends tells for every target, in the order of Evaluate, whether variant b
// comes nearer to it than a. How well the change is known follows the rule of
// kinematics.ChangeBands: points that both share were measured once. An
// estimated loaded radius counts as shared and known.
func Trends(a, b car.Car, t *job.Targets) []Trend {
	p := planOf(t)
	if len(p.rows) == 0 {
		return nil
	}
	va, vb := solve(&a, p), solve(&b, p)
	both := pairOf(va, vb)
	list := make([]Trend, len(p.rows))
	for i, r := range p.rows {
		asked, _ := Asked(t, r.kind)
		list[i] = trend(va, vb, &both, r, asked)
	}
	return list
}

// pair joins two variants, the figures of b after those of a.
type pair struct {
	linear kinematics.Linear
	second int
}

func pairOf(a, b *solved) pair {
	return pair{kinematics.Beside(&a.linear, &b.linear), len(a.linear.Base)}
}

// half is the half-width of the change of a row's size from a to b.
func (p *pair) half(r row) (half float64, ok bool) {
	from := r.group()
	if !about[r.kind].Over {
		return p.linear.Change(r.at, p.second+r.at)
	}
	to := make([]int, len(from))
	for i := range to {
		to[i] = p.second + from[i]
	}
	return p.linear.LargestChange(from, to)
}

func trend(a, b *solved, both *pair, r row, asked Range) Trend {
	okA, okB := a.exists(r), b.exists(r)
	switch {
	case !okA && !okB:
		return AsGood
	case !okA:
		return Better
	case !okB:
		return Worse
	}
	xa, _ := r.size(a.linear.Base)
	xb, _ := r.size(b.linear.Base)
	if r.kind == SwingArm {
		asked = reciprocal(asked)
	}
	half, sure := both.half(r)
	return toward(asked.miss(xa), asked.miss(xb), sure && math.Abs(xb-xa) > half, rounding*max(math.Abs(xa), math.Abs(xb)))
}

// rounding is what two ways to the same figure may leave between them, as a
// share of it: far more than float64 does, far less than can be measured.
const rounding = 1e-9

// exists tells whether every figure of a row exists.
func (v *solved) exists(r row) bool {
	if v.err != nil {
		return false
	}
	_, ok := r.size(v.linear.Base)
	return ok
}
