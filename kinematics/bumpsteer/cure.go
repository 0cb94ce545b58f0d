package bumpsteer

import (
	"context"
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

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

// leastBand is the band of a move below which it is rounding, mm.
const leastBand = 1e-6

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
	// with the part built as much as Request.Off too high (out, forward) or too low (in,
	// rearward), the resting toe set again; only if it still reaches.
	ExtraPlus, ExtraMinus       float64
	HasExtraPlus, HasExtraMinus bool
	// Exact is the move before it was rounded to what can be built, mm.
	Exact float64
	// OneMore is the largest distance from the wanted line, rad, that would be
	// left with as much as Request.Off more room beyond the limit; only at a limit, if HasOneMore.
	OneMore    float64
	HasOneMore bool
}

// By is the move, mm.
func (m *Move) By() float64 { return m.To - m.From }

// Request is what Cure is asked for.
type Request struct {
	Corner kinematics.Corner
	Within kinematics.Within // measuring error of each coordinate
	Free   []Free
	Goal   Goal
	// Build is what can be built to, mm: the moves are whole multiples of it; 0
	// for any move.
	Build float64
	// Off is the building error, mm, of which the moves say what it costs; 0 for 1 mm.
	Off float64
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
	// Least is the largest distance, rad, of the best cure within the limits,
	// however far its moves.
	Least float64
	// Left is the diagnosis of what is left, over the travel; over roll, the
	// travel that the rolling body gives this wheel, about. Only if HasLeft: a
	// cure at the very end of what reaches has no neighbours to compare with.
	Left    Diagnosis
	HasLeft bool
}

// Cure finds the moves within their limits that bring the toe curve to the goal:
// the least largest distance from the wanted line, over the whole box, and among
// the cures that the tape cannot tell from that one the smallest moves, rounded
// to what can be built. With Within and Build zero it is the best itself. The
// rod is cut to keep the resting toe. The same request gives the same bits.
//
// Poses out of reach inside the box are avoided. Errors: ErrNothingFreed,
// *LimitError, *RangeError, those of kinematics.New and of reaching the range
// with the present corner, an error matching kinematics.ErrUnreachable when no
// place of the box reaches, and ctx.Err() when cancelled.
func Cure(ctx context.Context, q Request) (Result, error) {
	if !(q.Build >= 0 && q.Build <= kinematics.MaxLength) {
		panic(fmt.Sprintf("kinematics: built to %g mm", q.Build))
	}
	if err := checkFree(q.Free); err != nil {
		return Result{}, err
	}
	res := Result{}
	var err error
	if res.Before, err = Measured(q.Corner, q.Goal); err != nil {
		return Result{}, err
	}
	s := search{ctx: ctx, corner: q.Corner, free: q.Free, goal: q.Goal, report: q.Progress, off: q.Off}
	if s.off == 0 {
		s.off = 1
	}
	if s.report == nil {
		s.report = func(float64) {}
	}
	best, found, err := s.best()
	if err != nil {
		return Result{}, err
	}
	exact, leeway := s.box(best.u), 0.0
	if q.Within != (kinematics.Within{}) {
		leeway = s.leeway(exact, &q.Within)
		if exact, err = s.smallest(found, best.cost+leeway); err != nil {
			return Result{}, err
		}
	}
	x := s.rounded(exact, q.Build)
	res.Corner, res.Least = s.moved(x), best.cost
	if res.After, err = Measured(res.Corner, q.Goal); err != nil {
		return Result{}, err
	}
	res.Moves = s.moves(x, res.After.Largest)
	res.RodFrom, res.RodTo = rodLength(&q.Corner), rodLength(&res.Corner)
	for k := range res.Moves {
		res.Moves[k].Exact = exact[k]
	}
	if err := s.bands(exact, res.Moves, &q.Within, leeway); err != nil {
		return Result{}, err
	}
	if err := s.oneMore(x, res.Moves); err != nil {
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
	return r3.Norm(r3.Sub(c.TieRod.OuterEnd, c.TieRod.RackEnd))
}

// rollTravel is the travel of the left wheel over a range of roll: it droops
// where the left side lifts.
func rollTravel(c *kinematics.Corner, g Goal) (from, to float64) {
	return -c.Hub.Y * math.Tan(g.To), -c.Hub.Y * math.Tan(g.From)
}

// moves fills in the moves and what a building error costs each.
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
		m.ExtraPlus, m.HasExtraPlus = off(+s.off)
		m.ExtraMinus, m.HasExtraMinus = off(-s.off)
		list[k] = m
	}
	return list
}

// oneMore says of every move at a limit what a little more room would leave.
func (s *search) oneMore(x []float64, moves []Move) error {
	at := s.goal.pick(polishTravel, polishRoll)
	for k := range moves {
		wider := *s
		wider.free = append([]Free(nil), s.free...)
		switch f := &wider.free[k]; moves[k].Limit {
		case AtMin:
			f.Min -= s.off
		case AtMax:
			f.Max += s.off
		default:
			continue
		}
		c := candidate{u: make([]float64, len(x))}
		for i, f := range wider.free {
			c.u[i] = (x[i] - f.Min) / (f.Max - f.Min)
		}
		if err := wider.polish(&c, at); err != nil {
			return err
		}
		if moves[k].HasOneMore = c.cost < outOfReach; moves[k].HasOneMore {
			moves[k].OneMore = c.cost
		}
	}
	return nil
}

// bands sets the measuring-error band of every move. With one coordinate of
// the measured corner wrong by a little, the misses at the cure shift, and
// linear programmes about the cure say which moves would be best then and, the
// same leeway given, smallest; see kinematics.Linearise. A neighbour out of reach
// moves nothing.
func (s *search) bands(x []float64, moves []Move, within *kinematics.Within, leeway float64) error {
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
	best := func(r []float64) []float64 {
		d, reached := minimaxStep(r, j, lo, hi)
		if leeway > 0 {
			d, _ = smallestStep(x, r, j, lo, hi, reached+leeway)
		}
		return d
	}
	shifted := *s
	stays := best(r)
	l, err := kinematics.Linearise(&s.corner, *within, func(c *kinematics.Corner) ([]kinematics.Value, error) {
		shifted.corner = *c
		moved := stays
		if shifted.cost(x, at, r) < outOfReach {
			moved = best(r)
		}
		list := make([]kinematics.Value, len(x))
		for k := range list {
			list[k] = kinematics.Number(moved[k], true)
		}
		return list, s.ctx.Err()
	})
	if err == nil {
		err = l.Edge
	}
	if err != nil {
		return err
	}
	for k := range moves {
		if moves[k].Band, _ = l.Half(k); moves[k].Band < leastBand {
			moves[k].Band = 0 // the limit, or standing still, decides, and this is rounding
		}
	}
	return nil
}
