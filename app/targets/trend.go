package targets

import (
	"math"

	"armscribe/app/job"
)

// Trend is whether a change leads toward a target.
type Trend uint8

// The trends.
const (
	NoTrend     Trend = iota // both within the range, or equally far off it
	Better                   // nearer to the range, by more than the measuring error
	Worse                    // farther from it, likewise
	UnsureTrend              // the change is smaller than its measuring error
)

// String returns the trend in a word.
func (t Trend) String() string {
	switch t {
	case Better:
		return "better"
	case Worse:
		return "worse"
	case UnsureTrend:
		return "not decidable"
	}
	return "as good"
}

// Trends tells for every target, in the order of Evaluate, whether variant b
// comes nearer to it than a. How well the change is known follows the rule of
// kinematics.ChangeBands: points that both share were measured once. An
// estimated loaded radius counts as shared and known.
func Trends(a, b Source, t *job.Targets) []Trend {
	p := planOf(t)
	if len(p.rows) == 0 {
		return nil
	}
	va, vb := solve(&a, p), solve(&b, p)
	list := make([]Trend, len(p.rows))
	for i, r := range p.rows {
		asked, _ := Asked(t, r.kind)
		list[i] = trend(va, vb, r, asked)
	}
	return list
}

func trend(a, b *solved, r row, asked Range) Trend {
	okA, okB := a.exists(r), b.exists(r)
	switch {
	case !okA && !okB:
		return NoTrend
	case !okA:
		return Better
	case !okB:
		return Worse
	}
	ka, kb := a.worst(r), b.worst(r)
	xa, xb := a.base[ka].value, b.base[kb].value
	signA, signB := 1.0, 1.0
	if over(r.kind) {
		signA, signB = math.Copysign(1, xa), math.Copysign(1, xb)
	}
	if r.kind == SwingArm {
		asked = reciprocal(asked)
	}
	missA, missB := asked.miss(signA*xa), asked.miss(signB*xb)
	if math.Abs(missA-missB) <= rounding*max(math.Abs(xa), math.Abs(xb)) {
		return NoTrend
	}
	sure := a.has[ka] && b.has[kb] && math.Abs(signB*xb-signA*xa) > changeHalf(a, b, ka, kb, signA, signB)
	switch {
	case !sure:
		return UnsureTrend
	case missB < missA:
		return Better
	}
	return Worse
}

// rounding is what two ways to the same figure may leave between them, as a
// share of it: far more than float64 does, far less than can be measured.
const rounding = 1e-9

// exists tells whether every figure of a row exists.
func (v *solved) exists(r row) bool {
	for k := r.at; k < r.at+r.n; k++ {
		if v.err != nil || !v.base[k].ok {
			return false
		}
	}
	return true
}
