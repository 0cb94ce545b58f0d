package bumpsteer

import (
	"context"
	"errors"
	"fmt"
	"math"

	"armscribe/kinematics"
)

// AtLimit tells whether a cure stands at one of its limits.
type AtLimit uint8

// Where a move can stand.
const (
	Inside AtLimit = iota
	AtMin
	AtMax
)

// atLimit is how near a limit counts as at it, mm.
const atLimit = 1e-3

// Move is one free value of a cure.
type Move struct {
	Free     Free
	From, To float64 // mm, the coordinate before and after
	Limit    AtLimit
	// Band is the 95 % half-width, mm, of the move that the measuring error
	// leaves: how much the advice would change if the points were measured
	// again. It is zero at a limit, where the limit and not the measurement
	// decides.
	Band float64
	// Extra is how much the largest distance from the wanted line grows, rad,
	// with the part built 1 mm too high (out, forward) or too low (in,
	// rearward), the resting toe set again; only if it still reaches.
	ExtraPlus, ExtraMinus       float64
	HasExtraPlus, HasExtraMinus bool
}

// By is the move, mm.
func (m *Move) By() float64 { return m.To - m.From }

// Request is what Cure is asked for.
type Request struct {
	Corner kinematics.Corner
	Within float64 // mm, measuring error of each coordinate
	Free   []Free
	Goal   Goal
	// Progress, if not nil, is called now and then on the caller's goroutine
	// with the share done, 0 to 1, never falling.
	Progress func(done float64)
}

// Result is a cure.
type Result struct {
	Corner         kinematics.Corner // with the moves made; the rod is cut to keep the resting toe
	Moves          []Move            // in the order freed
	RodFrom, RodTo float64           // mm, tie-rod length
	Before, After  Measure
	// Left is the diagnosis of what is left, over the travel; over roll, the
	// travel that the rolling body gives this wheel, about. Only if HasLeft: a
	// cure at the very end of what reaches has no neighbours to compare with.
	Left    Diagnosis
	HasLeft bool
}

// Cure finds the moves within their limits that bring the toe curve nearest
// to the goal: the least largest distance from the wanted line, over the whole
// box. The rod is cut to keep the resting toe. The same request gives the same
// bits.
//
// Poses out of reach inside the box are avoided. Errors: ErrNothingFreed,
// *LimitError, *RangeError, those of kinematics.New and of reaching the range
// with the present corner, an error matching kinematics.ErrUnreachable when no
// place of the box reaches, and ctx.Err() when cancelled. Within that is not a
// length is a caller's bug.
func Cure(ctx context.Context, q Request) (Result, error) {
	if !(q.Within >= 0 && q.Within <= kinematics.MaxLength) {
		panic(fmt.Sprintf("kinematics: measured within %g mm", q.Within))
	}
	if err := checkFree(q.Free); err != nil {
		return Result{}, err
	}
	res := Result{}
	var err error
	if res.Before, err = Measured(q.Corner, q.Goal); err != nil {
		return Result{}, err
	}
	s := search{ctx: ctx, corner: q.Corner, free: q.Free, goal: q.Goal, report: q.Progress}
	if s.report == nil {
		s.report = func(float64) {}
	}
	x, err := s.best()
	if err != nil {
		return Result{}, err
	}
	res.Corner = s.moved(x)
	if res.After, err = Measured(res.Corner, q.Goal); err != nil {
		return Result{}, err
	}
	res.Moves = s.moves(x, res.After.Largest)
	res.RodFrom, res.RodTo = rodLength(&q.Corner), rodLength(&res.Corner)
	if err := s.bands(x, res.Moves, q.Within); err != nil {
		return Result{}, err
	}
	from, to := q.Goal.From, q.Goal.To
	if q.Goal.Over == OverRoll {
		from, to = rollTravel(&res.Corner, q.Goal)
	}
	if res.Left, err = Diagnose(res.Corner, q.Within, from, to); err != nil && !errors.Is(err, kinematics.ErrUnreachable) {
		return Result{}, err
	}
	res.HasLeft = err == nil
	s.report(1)
	return res, nil
}

func rodLength(c *kinematics.Corner) float64 {
	a, b := c.TieRod.RackEnd, c.TieRod.OuterEnd
	return math.Sqrt((a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) + (a.Z-b.Z)*(a.Z-b.Z))
}

// rollTravel is the travel of the left wheel over a range of roll: it droops
// where the left side lifts.
func rollTravel(c *kinematics.Corner, g Goal) (from, to float64) {
	return -c.Hub.Y * math.Tan(g.To), -c.Hub.Y * math.Tan(g.From)
}

// moves fills in the moves and what 1 mm of building error costs each.
func (s *search) moves(x []float64, reached float64) []Move {
	at := s.goal.pick(curveTravel, curveRoll)
	buffer := make([]float64, len(at))
	list := make([]Move, len(x))
	for k, f := range s.free {
		from := f.Freedom.of(&s.corner)
		m := Move{Free: f, From: from, To: from + x[k]}
		switch {
		case x[k]-f.Min < atLimit:
			m.Limit = AtMin
		case f.Max-x[k] < atLimit:
			m.Limit = AtMax
		}
		off := func(mm float64) (float64, bool) {
			y := append([]float64(nil), x...)
			y[k] += mm
			cost := s.cost(y, at, buffer)
			if cost >= outOfReach {
				return 0, false
			}
			return cost - reached, true
		}
		m.ExtraPlus, m.HasExtraPlus = off(+1)
		m.ExtraMinus, m.HasExtraMinus = off(-1)
		list[k] = m
	}
	return list
}

// bands sets the measuring-error band of every move. With one coordinate of
// the measured corner wrong by a little, the misses at the cure shift, and one
// linear programme about the cure says which moves would be best then; root
// sum of squares over all coordinates as in Mechanism.SweepBands. A coordinate
// whose neighbour is out of reach is left out.
func (s *search) bands(x []float64, moves []Move, within float64) error {
	at := s.goal.pick(polishTravel, polishRoll)
	r := make([]float64, len(at))
	s.cost(x, at, r)
	j := s.jacobian(x, at, r)
	lo, hi := make([]float64, len(x)), make([]float64, len(x))
	for k, f := range s.free {
		if moves[k].Limit == Inside {
			lo[k], hi[k] = f.Min-x[k], f.Max-x[k]
		}
	}
	shifted := *s
	sum := make([]float64, len(x))
	for _, c := range s.corner.Coordinates() {
		if err := s.ctx.Err(); err != nil {
			return err
		}
		var best [2][]float64
		for side, mm := range []float64{difference, -difference} {
			shifted.corner = s.corner
			shifted.corner.Shift(c, mm)
			if shifted.cost(x, at, r) < outOfReach {
				best[side], _ = minimaxStep(r, j, lo, hi)
			}
		}
		if best[0] == nil || best[1] == nil {
			continue
		}
		for k := range sum {
			d := (best[0][k] - best[1][k]) / (2 * difference)
			sum[k] += d * d
		}
	}
	for k := range moves {
		moves[k].Band = normal95 * within / math.Sqrt(3) * math.Sqrt(sum[k])
	}
	return nil
}
