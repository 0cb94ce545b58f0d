package bumpsteer

import (
	"context"
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/optimize"

	"armscribe/kinematics"
)

// Sizes of the search.
const (
	starts      = 6   // hollows of the scan from which the search goes on
	simplexRuns = 110 // evaluations of each Nelder-Mead run; it only has to find the valley
	// simplexSize of the first simplex, in widths of the box: half a scan step
	// of three free values.
	simplexSize = 0.08
	// Trust region of the polish, in widths of the box, and its end.
	firstTrust, leastTrust = 0.25, 1e-10
	polishSteps            = 60
	// polishGain is the promised gain, rad, below which the polish ends: a
	// ten-millionth of a degree.
	polishGain = 1e-9
	// difference by which a free value is moved for a derivative, mm.
	difference = 1e-2
)

// scanSteps is the number of places of the scan on each axis, by number of free values.
var scanSteps = [FreedomCount + 1]int{0, 41, 13, 9, 5, 4, 3}

// search is one run: least largest miss over the box.
type search struct {
	ctx    context.Context
	corner kinematics.Corner
	free   []Free
	goal   Goal
	off    float64 // Request.Off
	report func(done float64)
	nearby error // why the best corner found so far, or the first, does not reach
}

// moved returns the corner with its free values moved by x, mm.
func (s *search) moved(x []float64) kinematics.Corner {
	c := s.corner
	for i, f := range s.free {
		c.Shift(f.Freedom.Coordinate(), x[i])
	}
	return c
}

// cost is the largest miss at the given places, rad; a finite penalty out of reach.
func (s *search) cost(x, at, buffer []float64) float64 {
	c := s.moved(x)
	if err := s.goal.misses(&c, at, buffer); err != nil {
		if s.nearby == nil {
			s.nearby = err
		}
		return s.goal.penalty(err)
	}
	return largest(buffer)
}

func largest(r []float64) float64 {
	v := 0.0
	for _, x := range r {
		v = max(v, math.Abs(x))
	}
	return v
}

// box maps 0..1 to the limits.
func (s *search) box(u []float64) []float64 {
	x := make([]float64, len(u))
	for i, f := range s.free {
		x[i] = f.Min + (f.Max-f.Min)*u[i]
	}
	return x
}

// reflect folds any number into 0..1, so that a simplex that steps over a
// limit comes back into the box without losing its size.
func reflect(u float64) float64 {
	return math.Abs(math.Remainder(u, 2))
}

// candidate is a place in the box, in widths of it, and its cost.
type candidate struct {
	u    []float64
	cost float64
}

// best returns the moves with the least largest miss in the box, and all cures
// that were found on the way.
//
// A scan of the box on a coarse grid picks the hollows; from each a short
// Nelder-Mead run (gonum/optimize; J. Nelder, R. Mead, Computer Journal 7,
// 1965) finds its valley, and a successive linear programme with a trust region
// (minimaxStep) goes to its bottom, where the largest miss has a kink that
// methods for smooth functions do not settle on.
func (s *search) best() (candidate, []candidate, error) {
	list, err := s.scan()
	if err != nil {
		return candidate{}, nil, err
	}
	places := s.goal.pick(searchTravel, searchRoll)
	for i := range list {
		s.report(0.3 + 0.4*float64(i)/float64(len(list)))
		if err := s.simplex(&list[i], places); err != nil {
			return candidate{}, nil, err
		}
	}
	at := s.goal.pick(polishTravel, polishRoll)
	var best candidate
	for i := range list {
		s.report(0.7 + 0.15*float64(i)/float64(len(list)))
		if err := s.polish(&list[i], at); err != nil {
			return candidate{}, nil, err
		}
		if best.u == nil || list[i].cost < best.cost {
			best = list[i]
		}
	}
	if best.cost >= outOfReach {
		return candidate{}, nil, fmt.Errorf("nowhere within the limits does the corner reach over the whole range: %w", s.nearby)
	}
	return best, list, nil
}

// scan evaluates the grid and returns its lowest hollows, lowest first, and
// the present place.
func (s *search) scan() ([]candidate, error) {
	n, steps := len(s.free), scanSteps[len(s.free)]
	total := 1
	for range n {
		total *= steps
	}
	at := s.goal.pick(scanTravel, scanRoll)
	buffer := make([]float64, len(at))
	costs := make([]float64, total)
	place := func(index int) []float64 {
		u := make([]float64, n)
		for k := range u {
			u[k] = float64(index%steps) / float64(steps-1)
			index /= steps
		}
		return u
	}
	for i := range costs {
		if i%32 == 0 {
			if err := s.ctx.Err(); err != nil {
				return nil, err
			}
			s.report(0.3 * float64(i) / float64(total))
		}
		costs[i] = s.cost(s.box(place(i)), at, buffer)
	}
	var list []candidate
	for i, c := range costs {
		if hollow(costs, i, n, steps) {
			list = append(list, candidate{place(i), c})
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return list[a].cost < list[b].cost })
	list = list[:min(len(list), starts)]
	now := make([]float64, n)
	for k, f := range s.free {
		now[k] = min(1, max(0, -f.Min/(f.Max-f.Min)))
	}
	return append(list, candidate{now, 0}), nil
}

// hollow tells whether no neighbour along an axis of the grid is lower.
func hollow(costs []float64, i, n, steps int) bool {
	stride := 1
	for range n {
		k := i / stride % steps
		if k > 0 && costs[i-stride] < costs[i] || k < steps-1 && costs[i+stride] < costs[i] {
			return false
		}
		stride *= steps
	}
	return true
}

// stopper ends a run when the context does.
type stopper struct{ ctx context.Context }

func (s stopper) Init() error { return s.ctx.Err() }
func (s stopper) Record(*optimize.Location, optimize.Operation, *optimize.Stats) error {
	return s.ctx.Err()
}

// simplex runs Nelder-Mead from a candidate and moves it to what was found.
func (s *search) simplex(c *candidate, at []float64) error {
	buffer := make([]float64, len(at))
	folded := func(u []float64) []float64 {
		v := make([]float64, len(u))
		for i := range u {
			v[i] = reflect(u[i])
		}
		return v
	}
	problem := optimize.Problem{Func: func(u []float64) float64 { return s.cost(s.box(folded(u)), at, buffer) }}
	settings := optimize.Settings{FuncEvaluations: simplexRuns, Recorder: stopper{s.ctx}}
	result, err := optimize.Minimize(problem, c.u, &settings, &optimize.NelderMead{SimplexSize: simplexSize})
	if cancelled := s.ctx.Err(); cancelled != nil {
		return cancelled
	}
	if result == nil {
		return fmt.Errorf("searching the box: %w", err)
	}
	// Running out of evaluations is the usual end; the polish does the rest.
	c.u = folded(result.X)
	return nil
}

// polish goes down by linear programmes until no step gains.
func (s *search) polish(c *candidate, at []float64) error {
	n := len(s.free)
	r, next := make([]float64, len(at)), make([]float64, len(at))
	c.cost = s.cost(s.box(c.u), at, r)
	if c.cost >= outOfReach {
		return nil
	}
	trust := firstTrust
	var j [][]float64
	for range polishSteps {
		if err := s.ctx.Err(); err != nil {
			return err
		}
		if j == nil {
			j = s.jacobian(s.box(c.u), at, r)
		}
		lo, hi := make([]float64, n), make([]float64, n)
		for k, f := range s.free {
			w := f.Max - f.Min
			lo[k], hi[k] = w*max(-trust, -c.u[k]), w*min(trust, 1-c.u[k])
		}
		d, promised := minimaxStep(r, j, lo, hi)
		if c.cost-promised < polishGain || trust < leastTrust {
			return nil
		}
		u := make([]float64, n)
		for k, f := range s.free {
			u[k] = min(1, max(0, c.u[k]+d[k]/(f.Max-f.Min)))
		}
		cost := s.cost(s.box(u), at, next)
		gain := (c.cost - cost) / (c.cost - promised)
		switch {
		case gain < 0.25:
			trust /= 4
		case gain > 0.75:
			trust = min(1, 2*trust)
		}
		if gain > 0.01 {
			c.u, c.cost, j = u, cost, nil
			r, next = next, r
		}
	}
	return nil
}

// jacobian returns the slope of every miss by every free value, rad/mm, one
// column per free value. Where one side is out of reach the other serves.
func (s *search) jacobian(x, at, r []float64) [][]float64 {
	j := make([][]float64, len(x))
	up, down := make([]float64, len(at)), make([]float64, len(at))
	for k := range x {
		j[k] = make([]float64, len(at))
		y := append([]float64(nil), x...)
		y[k] = x[k] + difference
		a, span := up, 2*difference
		if s.cost(y, at, up) >= outOfReach {
			a, span = r, difference
		}
		y[k] = x[k] - difference
		b := down
		if s.cost(y, at, down) >= outOfReach {
			b, span = r, span-difference
		}
		if span <= 0 {
			continue // neither side reaches: the step leaves this one alone
		}
		for i := range at {
			j[k][i] = (a[i] - b[i]) / span
		}
	}
	return j
}
