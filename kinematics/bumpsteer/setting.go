package bumpsteer

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"armscribe/kinematics"
)

// Wish is a quantity at rest and the value it shall have.
type Wish struct {
	Quantity kinematics.Quantity // one of Adjusted
	Value    float64             // rad or mm
}

// Setting is the answer to wishes.
type Setting struct {
	Units      []float64 // turns or mm for each adjuster, from the present
	Limits     []AtLimit
	Engagement [][]Engagement    // of each adjuster's threads at this setting
	Corner     kinematics.Corner // so set
	Reached    []float64         // what each wish came to
	// Met tells that every wish is met within MetAngle and MetLength; else the
	// setting is the nearest that limits and adjusters allow.
	Met bool
	// Built is the nearest setting with every adjuster in its own steps, those
	// without steps making up for the rest; nil where none has steps.
	Built *Setting
}

// Advised is the setting that can be made.
func (s *Setting) Advised() *Setting {
	if s.Built != nil {
		return s.Built
	}
	return s
}

// How near counts as met: a thousandth of a degree, a hundredth of a mm.
const (
	MetAngle  = 0.001 * math.Pi / 180
	MetLength = 0.01
)

// Sizes of the search for a setting.
const (
	settingSteps = 40
	settingEnd   = 1e-12 // gain in the sum of squares, rad^2, below which it ends
	settingHalve = 30
	// settingRank is the share of the largest singular value below which the
	// adjusters count as doing the same: one of a hundredth of the other's
	// effect still counts.
	settingRank = 1e-6
)

// Settle returns the setting of the adjusters, within their limits, that meets
// all wishes together: camber and caster, for instance, with two rod ends.
// Where more adjusters than wishes are given, those movements are taken that
// are least as a whole, in mm; where the wishes cannot all be met, the least
// sum of squares, weighted as in Order. Newton steps on the exact mechanism,
// each solved by singular values with the adjusters that reach their limits
// held there. Errors match ErrAdjuster or are those of kinematics.Reassemble.
func Settle(c kinematics.Corner, adjusters []Adjuster, wishes []Wish) (Setting, error) {
	if err := checkAdjusters(&c, adjusters); err != nil {
		return Setting{}, err
	}
	s := settling{c, adjusters, wishes}
	if err := s.check(); err != nil {
		return Setting{}, err
	}
	n := len(adjusters)
	x := make([]float64, n)
	for i, a := range adjusters {
		x[i] = min(a.Max, max(a.Min, 0))
	}
	x, r, err := s.solve(x)
	if err != nil {
		return Setting{}, err
	}
	out, err := s.result(x, r)
	if err != nil {
		return Setting{}, err
	}
	out.Built, err = s.built(x)
	return out, err
}

// solve goes from a setting to the nearest to the wishes.
func (s *settling) solve(x []float64) (setting, miss []float64, err error) {
	r, err := s.misses(x)
	if err != nil {
		return nil, nil, err
	}
	for range settingSteps {
		j, err := s.slopes(x)
		if err != nil {
			return nil, nil, err
		}
		next, miss, ok := s.downhill(x, r, s.step(j, r, x))
		if !ok {
			break
		}
		gain := square(r) - square(miss)
		x, r = next, miss
		if gain < settingEnd*settingEnd {
			break
		}
	}
	return x, r, nil
}

// mostStepped adjusters are tried with both of their neighbouring steps; more
// take the nearer one.
const mostStepped = 6

// built returns the setting nearest to the wishes with the adjusters that have
// steps on one of the two beside x and the others free; nil without steps.
func (s *settling) built(x []float64) (*Setting, error) {
	held := *s
	held.adjusters = append([]Adjuster(nil), s.adjusters...)
	var stepped []int
	for k := range s.adjusters {
		if s.adjusters[k].Step > 0 {
			stepped = append(stepped, k)
		}
	}
	if len(stepped) == 0 {
		return nil, nil
	}
	tries := 1
	if len(stepped) <= mostStepped {
		tries = 1 << len(stepped)
	}
	var best *Setting
	least := math.Inf(1)
	var first error
	for n := range tries {
		y := append([]float64(nil), x...)
		for i, k := range stepped {
			a := &held.adjusters[k]
			*a = s.adjusters[k]
			y[k] = a.beside(x[k], tries == 1, n>>i&1 == 1)
			a.Min, a.Max = y[k], y[k]
		}
		y, r, err := held.solve(y)
		if err != nil {
			if first == nil {
				first = err
			}
			continue
		}
		if sum := square(r); best == nil || sum < least-settingEnd {
			t, err := s.result(y, r)
			if err != nil {
				return nil, err
			}
			best, least = &t, sum
		}
	}
	if best == nil {
		return nil, first
	}
	return best, nil
}

// beside is the step of an adjuster next below or above a setting, or the
// nearest, that its range holds; the present setting is one.
func (a *Adjuster) beside(x float64, nearest, above bool) float64 {
	n := math.Floor(x / a.Step)
	if above || nearest && x/a.Step-n >= 0.5 {
		n++
	}
	n = min(math.Floor(a.Max/a.Step+stepSlack), max(math.Ceil(a.Min/a.Step-stepSlack), n))
	return n*a.Step + 0 // no negative nought
}

// stepSlack, steps, keeps rounding from losing the last step of a range.
const stepSlack = 1e-9

// settling is one run.
type settling struct {
	corner    kinematics.Corner
	adjusters []Adjuster
	wishes    []Wish
}

func (s *settling) check() error {
	if len(s.wishes) == 0 {
		return fmt.Errorf("nothing is wished for: give camber, caster or another reading: %w", ErrAdjuster)
	}
	for _, w := range s.wishes {
		listed := false
		for _, q := range adjusted {
			listed = listed || q == w.Quantity
		}
		if !listed {
			return fmt.Errorf("%s is not set by adjusters: %w", w.Quantity, ErrAdjuster)
		}
		if !(math.Abs(w.Value) <= kinematics.MaxLength) {
			return fmt.Errorf("%s %g is not a value it can have: %w", w.Quantity, w.Value, ErrAdjuster)
		}
	}
	return nil
}

// misses returns what each wish lacks, weighted.
func (s *settling) misses(x []float64) ([]float64, error) {
	var ch kinematics.Change
	for i, a := range s.adjusters {
		ch = ch.Plus(a.Per.Times(x[i]))
	}
	read, err := restOf(s.corner, ch)
	if err != nil {
		return nil, err
	}
	r := make([]float64, len(s.wishes))
	for i, w := range s.wishes {
		v, ok := read.Of(w.Quantity)
		if !ok {
			return nil, fmt.Errorf("this corner has no %s: %w", w.Quantity, ErrAdjuster)
		}
		r[i] = (w.Value - v) * weight(w.Quantity)
	}
	return r, nil
}

// slopes returns by how much each miss falls for each mm of each adjuster.
func (s *settling) slopes(x []float64) (*mat.Dense, error) {
	j := mat.NewDense(len(s.wishes), len(x), nil)
	for k, a := range s.adjusters {
		units := effectStep / a.Per.Size()
		y := append([]float64(nil), x...)
		y[k] = x[k] + units
		up, err := s.misses(y)
		if err != nil {
			return nil, err
		}
		y[k] = x[k] - units
		down, err := s.misses(y)
		if err != nil {
			return nil, err
		}
		for i := range up {
			j.Set(i, k, (down[i]-up[i])/(2*effectStep))
		}
	}
	return j, nil
}

// step is the least-squares step, units of each adjuster: the smallest in mm,
// with adjusters that would leave their limits held at them.
func (s *settling) step(j *mat.Dense, r, x []float64) []float64 {
	n := len(x)
	held, d := make([]bool, n), make([]float64, n)
	for range n + 1 {
		// What the held ones do is taken from the misses first.
		b := mat.NewDense(len(r), 1, append([]float64(nil), r...))
		a := mat.DenseCopyOf(j)
		for k := range n {
			if !held[k] {
				continue
			}
			mm := d[k] * s.adjusters[k].Per.Size()
			for i := range r {
				b.Set(i, 0, b.At(i, 0)-j.At(i, k)*mm)
				a.Set(i, k, 0)
			}
		}
		var svd mat.SVD
		var mm mat.Dense
		if !svd.Factorize(a, mat.SVDThin) {
			return d
		}
		rank := svd.Rank(settingRank)
		if rank == 0 {
			return d
		}
		svd.SolveTo(&mm, b, rank)
		worst, by := -1, 0.0
		for k, adj := range s.adjusters {
			if held[k] {
				continue
			}
			d[k] = mm.At(k, 0) / adj.Per.Size()
			over := max(x[k]+d[k]-adj.Max, adj.Min-x[k]-d[k]) * adj.Per.Size()
			if over > by {
				worst, by = k, over
			}
		}
		if worst < 0 {
			return d
		}
		held[worst] = true
		a2 := s.adjusters[worst]
		d[worst] = min(a2.Max, max(a2.Min, x[worst]+d[worst])) - x[worst]
	}
	return d
}

// downhill takes the step, or half of it and so on, until the misses shrink.
func (s *settling) downhill(x, r, d []float64) (next, miss []float64, ok bool) {
	for range settingHalve {
		next = make([]float64, len(x))
		for k, a := range s.adjusters {
			next[k] = min(a.Max, max(a.Min, x[k]+d[k]))
			d[k] /= 2
		}
		miss, err := s.misses(next)
		if err == nil && square(miss) < square(r) {
			return next, miss, true
		}
	}
	return nil, nil, false
}

func square(r []float64) float64 {
	sum := 0.0
	for _, v := range r {
		sum += v * v
	}
	return sum
}

func (s *settling) result(x, r []float64) (Setting, error) {
	out := Setting{Units: x, Met: true, Limits: make([]AtLimit, len(x))}
	for k, a := range s.adjusters {
		size := a.Per.Size()
		switch {
		case (x[k]-a.Min)*size < atLimit:
			out.Limits[k] = AtMin
		case (a.Max-x[k])*size < atLimit:
			out.Limits[k] = AtMax
		}
		out.Engagement = append(out.Engagement, a.Engagements(x[k]))
	}
	for i, w := range s.wishes {
		miss := r[i] / weight(w.Quantity)
		out.Reached = append(out.Reached, w.Value-miss)
		limit := MetAngle
		switch w.Quantity.Kind() {
		case kinematics.Length:
			limit = MetLength
		case kinematics.Slope:
			limit = MetAngle / slopeTravel
		}
		out.Met = out.Met && math.Abs(miss) <= limit
	}
	var err error
	out.Corner, err = Set(s.corner, s.adjusters, x)
	return out, err
}
