package targets

import (
	"slices"

	"armscribe/app/car"
	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/kinematics"
)

// Verdict is how a target stands.
type Verdict uint8

// The verdicts.
const (
	Undecided Verdict = iota // the measuring error spans an end of the range
	Met
	Missed
)

// String returns the verdict in words.
func (v Verdict) String() string {
	switch v {
	case Met:
		return "met"
	case Missed:
		return "not met"
	}
	return "not decidable"
}

// Mark is how every face marks it.
func (v Verdict) Mark() sheet.Mark {
	return [...]sheet.Mark{Undecided: sheet.Unsure, Met: sheet.Good, Missed: sheet.Bad}[v]
}

// Result is one target set against one variant.
type Result struct {
	Kind    Kind
	Asked   Range
	Verdict Verdict
	// Value is in mm, rad or rad/mm; only if Known. A swing arm that is not
	// known is at infinity.
	Value float64
	Known bool
	// Low to High is the 95 % interval; a side without Has is open, as with a
	// swing arm that may be infinite.
	Low, High       float64
	HasLow, HasHigh bool
	// Tight: the range is narrower than the interval, so that no value could be
	// told to be within.
	Tight bool
	// Estimate: much of the interval is that of an estimated loaded radius.
	Estimate bool
	// Assumed is what the value rests on that nobody has measured.
	Assumed []kinematics.Coordinate
	// Points is how well they are known.
	Points car.Known
	// Why says what keeps the value from being known; else empty.
	Why string
}

// Evaluate sets every target of the job against a variant, in the order of the
// Kind constants. Without targets there are no results.
func Evaluate(s car.Car, t *job.Targets) []Result {
	p := planOf(t)
	if len(p.rows) == 0 {
		return nil
	}
	return resultsOf(solve(&s, p), t)
}

func resultsOf(v *solved, t *job.Targets) []Result {
	list := make([]Result, len(v.plan.rows))
	for i, r := range v.plan.rows {
		asked, _ := Asked(t, r.kind)
		list[i] = v.result(r, asked)
	}
	return list
}

// Words for what keeps a value from being known.
const (
	whyNoMechanism = "the points make no mechanism"
	whyNoSpring    = "the spring's ends are not measured"
	whyNoReach     = "the linkage does not reach that travel"
	whyInfinite    = "it may be infinite within the measuring error"
	whyEdge        = "on the very edge of reach, so that its error is not known"
)

func whyNot(k Kind, n int) string {
	switch {
	case n > 1:
		return whyNoReach
	case k == MotionRatio:
		return whyNoSpring
	}
	return figures.Of(about[k].Of).Missing
}

func (v *solved) result(r row, asked Range) Result {
	res := Result{Kind: r.kind, Asked: asked, Points: v.known}
	if v.err != nil {
		res.Verdict, res.Why = Missed, whyNoMechanism
		return res
	}
	x, exists := r.size(v.linear.Base)
	if !exists {
		res.Verdict, res.Why = Missed, whyNot(r.kind, r.n)
		if r.kind == MotionRatio {
			res.Verdict = Undecided
		}
		return res
	}
	lies, estimate, known := v.interval(r)
	known = known && !lies.Infinite && !lies.Any
	low, high := lies.Low-estimate, lies.High+estimate
	if about[r.kind].Over {
		low = max(0, low)
	}
	if high-low < 2*exactBand(r.kind) {
		low, high, estimate = x, x, 0
	}
	if r.kind == SwingArm {
		res.swing(asked, x, low, high)
	} else {
		res.Value, res.Known = x, true
		res.Low, res.High, res.HasLow, res.HasHigh = low, high, true, true
		res.Verdict = verdict(asked, low, high)
		if low == high && asked.miss(low) <= exactBand(r.kind) { // rounding may have taken it past an end
			res.Verdict = Met
		}
		res.Tight = asked.HasMin && asked.HasMax && high-low > asked.Max-asked.Min
	}
	for k := r.at; k < r.at+r.n; k++ {
		for _, at := range v.linear.Assumed(k) {
			if !slices.Contains(res.Assumed, at) {
				res.Assumed = append(res.Assumed, at)
			}
		}
	}
	res.Estimate = estimate > estimateShare*(high-low)/2
	if !known {
		res.Verdict, res.Why = Undecided, whyEdge
		if lies.Infinite || lies.Any {
			res.Why = whyInfinite
		}
		res.HasLow, res.HasHigh, res.Low, res.High = false, false, 0, 0
	}
	return res
}

// estimateShare of an interval is less than its last digit shows.
const estimateShare = 0.01

// exactBand is the half-width of an interval below which nothing but rounding is
// left and the value is exact: camber at rest is taken as typed.
func exactBand(k Kind) float64 {
	if k == SwingArm {
		return 1e-13 // 1/mm, of its reciprocal
	}
	return about[k].Kind.Rounding()
}

func verdict(r Range, low, high float64) Verdict {
	switch {
	case r.HasMin && high < r.Min, r.HasMax && low > r.Max:
		return Missed
	case (!r.HasMin || low >= r.Min) && (!r.HasMax || high <= r.Max):
		return Met
	}
	return Undecided
}

// reciprocal turns a range of swing arms into one of their reciprocals: a
// longer arm is a smaller one, and without a longest it goes down to parallel
// arms, nought. A negative one has its instant centre outboard.
func reciprocal(r Range) Range {
	inv := Range{HasMin: true}
	if r.HasMax {
		inv.Min = 1 / r.Max
	}
	if r.HasMin {
		inv.Max, inv.HasMax = 1/r.Min, true
	}
	return inv
}

// swing fills in a swing arm from its reciprocal and that one's interval.
func (res *Result) swing(asked Range, x, low, high float64) {
	inv := reciprocal(asked)
	res.Verdict = verdict(inv, low, high)
	res.Tight = inv.HasMax && high-low > inv.Max-inv.Min
	if x != 0 {
		res.Value, res.Known = 1/x, true
	}
	switch {
	case low > 0:
		res.Low, res.High, res.HasLow, res.HasHigh = 1/high, 1/low, true, true
	case high < 0:
		res.Low, res.High, res.HasLow, res.HasHigh = 1/high, 1/low, true, true
	case high > 0:
		res.Low, res.HasLow = 1/high, true
	}
}

// Tally counts verdicts.
type Tally struct{ Met, Missed, Undecided int }

// TallyOf counts the verdicts of a list.
func TallyOf(list []Result) Tally {
	var n Tally
	for i := range list {
		switch list[i].Verdict {
		case Met:
			n.Met++
		case Missed:
			n.Missed++
		case Undecided:
			n.Undecided++
		}
	}
	return n
}

// Memo keeps the last results, for a view that asks for them in every frame.
type Memo struct {
	source  car.Car
	targets job.Targets
	made    bool
	list    []Result
}

// Results is Evaluate, computed anew only when something has changed. The list
// must not be edited.
func (m *Memo) Results(s car.Car, t *job.Targets) []Result {
	if !m.made || m.source != s || m.targets != *t {
		m.source, m.targets, m.made = s, *t, true
		m.list = Evaluate(s, t)
	}
	return m.list
}
