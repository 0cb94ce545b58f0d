package bumpsteer

import (
	"math"
	"sort"

	"armscribe/kinematics"
)

// Sizes of the choice among cures.
const (
	// tellsApart is the share of the tape's own band by which two cures must
	// differ to be told apart: a tenth, which added to the band as errors add
	// makes it half a percent wider. mostApart, rad, is the most that is given
	// away so, however rough the tape: 0.02 degrees, less than a toe gauge reads.
	tellsApart = 0.1
	mostApart  = 0.02 * math.Pi / 180
	// smallestStarts of the cures found are gone on from, the smallest first.
	smallestStarts = 3
	smallestSteps  = 60
	// smallestGain, mm, is the saving at which it ends.
	smallestGain = 1e-4
	// corrections of a step for the bend of the curves.
	corrections = 3
)

// total is the sum of all moves, mm.
func total(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += math.Abs(v)
	}
	return sum
}

// leeway is how much worse than the best a cure may be, rad, without the tape
// telling them apart: a share of the band of its largest miss.
func (s *search) leeway(x []float64, within *kinematics.Within) float64 {
	at := s.goal.pick(searchTravel, searchRoll)
	r := make([]float64, len(at))
	s.cost(x, at, r)
	stays, all, shifted := make([]kinematics.Value, len(r)), make([]int, len(r)), *s
	for i := range r {
		stays[i], all[i] = kinematics.Number(r[i], true), i
	}
	l, err := kinematics.Linearise(&s.corner, *within, func(c *kinematics.Corner) ([]kinematics.Value, error) {
		shifted.corner = *c
		if shifted.cost(x, at, r) >= outOfReach {
			return stays, nil
		}
		list := make([]kinematics.Value, len(r))
		for i := range list {
			list[i] = kinematics.Number(r[i], true)
		}
		return list, nil
	})
	if err != nil {
		panic("kinematics: a miss cannot be linearised: " + err.Error())
	}
	half, _ := l.Largest(all)
	return min(mostApart, tellsApart*half)
}

// smallest returns, of all cures whose largest miss is at most level, one whose
// moves add up to least: from each of the cures found, linear programmes about
// the present place with a trust region. The sum of moves, unlike their squares,
// leaves alone what need not move.
func (s *search) smallest(found []candidate, level float64) ([]float64, error) {
	var starts [][]float64
	for _, c := range found {
		if c.cost <= level {
			starts = append(starts, s.box(c.u))
		}
	}
	sort.SliceStable(starts, func(a, b int) bool { return total(starts[a]) < total(starts[b]) })
	var best []float64
	for _, x := range starts[:min(len(starts), smallestStarts)] {
		x, err := s.shrink(x, level)
		if err != nil {
			return nil, err
		}
		if best == nil || total(x) < total(best)-smallestGain {
			best = x
		}
	}
	return best, nil
}

// shrink makes the moves of one cure smaller while they cure as well.
func (s *search) shrink(x []float64, level float64) ([]float64, error) {
	at := s.goal.pick(polishTravel, polishRoll)
	r, next := make([]float64, len(at)), make([]float64, len(at))
	trust := firstTrust
	var j [][]float64
	for range smallestSteps {
		if err := s.ctx.Err(); err != nil {
			return nil, err
		}
		if j == nil {
			s.cost(x, at, r)
			j = s.jacobian(x, at, r)
		}
		lo, hi := make([]float64, len(x)), make([]float64, len(x))
		for k, f := range s.free {
			w := trust * (f.Max - f.Min)
			lo[k], hi[k] = min(0, max(-w, f.Min-x[k])), max(0, min(w, f.Max-x[k]))
		}
		bent := append([]float64(nil), r...)
		better := false
		for range corrections {
			d, ok := smallestStep(x, bent, j, lo, hi, level)
			if !ok {
				break
			}
			y := append([]float64(nil), x...)
			for k, f := range s.free {
				y[k] = min(f.Max, max(f.Min, x[k]+d[k]))
			}
			if total(y) > total(x)-smallestGain {
				break
			}
			if cost := s.cost(y, at, next); cost <= level {
				x, better = y, true
				break
			} else if cost >= outOfReach {
				break
			}
			// What the step misses beyond the straight line is taken along.
			for i := range bent {
				bent[i] = next[i]
				for k := range d {
					bent[i] -= j[k][i] * d[k]
				}
			}
		}
		if better {
			j, trust = nil, min(1, 2*trust)
			continue
		}
		if trust /= 4; trust < leastTrust {
			break
		}
	}
	return x, nil
}

// smallestStep returns the step d with lo <= d <= hi that makes the sum of
// |x[k] + d[k]| least while every |r[i] + J[i].d| is at most level; false where
// no step does. Each unknown goes either way from a step that keeps the level,
// as two of the programme's, so that the programme starts where all hold.
func smallestStep(x, r []float64, j [][]float64, lo, hi []float64, level float64) (d []float64, ok bool) {
	n, m := len(x), len(r)
	d = make([]float64, n)
	if !(level > 0) {
		return d, false
	}
	if largest(r) > level {
		var reached float64
		if d, reached = minimaxStep(r, j, lo, hi); reached > level {
			return nil, false
		}
	}
	// Columns: for each unknown toward zero, and away from it.
	way, room := make([]float64, 2*n), make([]float64, 2*n)
	t := newTableau(2*n, 2*m+2*n)
	for k := range n {
		now := x[k] + d[k]
		toward := -1.0
		if now < 0 {
			toward = 1
		}
		way[2*k], way[2*k+1] = toward, -toward
		for side := range 2 {
			if way[2*k+side] < 0 {
				room[2*k+side] = d[k] - lo[k]
			} else {
				room[2*k+side] = hi[k] - d[k]
			}
		}
		room[2*k] = min(room[2*k], math.Abs(now))
		t.cost[2*k], t.cost[2*k+1] = -1, 1
	}
	for i := range m {
		v := r[i]
		for k := range n {
			v += j[k][i] * d[k]
		}
		for c := range 2 * n {
			t.a[2*i][c], t.a[2*i+1][c] = j[c/2][i]*way[c]/level, -j[c/2][i]*way[c]/level
		}
		t.b[2*i], t.b[2*i+1] = max(0, 1-v/level), max(0, 1+v/level)
	}
	for c := range 2 * n {
		t.a[2*m+c][c], t.b[2*m+c] = 1, max(0, room[c])
	}
	t.run()
	for i, label := range t.basic {
		if label < 2*n {
			d[label/2] += way[label] * min(room[label], max(0, t.b[i]))
		}
	}
	return d, true
}

// rounded returns the moves in whole multiples of what can be built, each next
// below or above, that miss least; a move at its limit stays there. A multiple
// beyond a limit is none.
func (s *search) rounded(x []float64, to float64) []float64 {
	if !(to > 0) {
		return x
	}
	at := s.goal.pick(polishTravel, polishRoll)
	buffer := make([]float64, len(at))
	choice := make([][]float64, len(x))
	for k, f := range s.free {
		for _, v := range []float64{math.Floor(x[k]/to) * to, math.Ceil(x[k]/to) * to} {
			if v >= f.Min && v <= f.Max {
				choice[k] = append(choice[k], v+0) // no negative nought
			}
		}
		if len(choice[k]) == 0 || x[k]-f.Min < atLimit || f.Max-x[k] < atLimit {
			choice[k] = append(choice[k], x[k])
		}
	}
	tries := 1
	for _, c := range choice {
		tries *= len(c)
	}
	best, least := x, math.Inf(1)
	for n := range tries {
		y := make([]float64, len(x))
		for k, c := range choice {
			y[k] = c[n%len(c)]
			n /= len(c)
		}
		if cost := s.cost(y, at, buffer); cost < least-polishGain || cost < least+polishGain && total(y) < total(best) {
			best, least = y, cost
		}
	}
	return best
}
