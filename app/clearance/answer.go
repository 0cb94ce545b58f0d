package clearance

import (
	"context"
	"errors"

	"gonum.org/v1/gonum/spatial/r2"

	"armscribe/app/car"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// Parts is a set of what can be asked for.
type Parts uint8

// The parts.
const (
	Gaps  Parts = 1 << iota
	Front       // the swept outline from the front
	Plan        // the swept outline from above

	AllParts = Gaps | Front | Plan
)

// Answers are those to one query.
type Answers struct {
	Parts Parts // which of the following are known
	// Fine tells which of them are worked out finely. Of the others, gaps may be a
	// mm too large and outlines some mm off.
	Fine Parts

	Gaps []Gap // one for each obstacle, in their order
	// Unmet counts the places of travel and rack that the linkage does not reach.
	Unmet int
	// Swept are the outlines of the swept tyre by clearance.View; nil where there
	// is none, and SweptErr says why.
	Swept    [2][]r2.Vec
	SweptErr [2]error
}

var partOf = [...]Parts{clearance.FrontView: Front, clearance.PlanView: Plan}

// answer works out what is missing of the parts asked for.
func (a *Answers) answer(ctx context.Context, m *kinematics.Mechanism, q *Query, parts Parts, fine bool) error {
	missing := parts &^ a.Parts
	known := func(part Parts) {
		a.Parts |= part
		if fine {
			a.Fine |= part
		}
	}
	if missing&Gaps != 0 {
		a.Gaps, a.Unmet = gaps(m, q, fine)
		known(Gaps)
	}
	for view, part := range partOf {
		if missing&part == 0 {
			continue
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		a.Swept[view], a.SweptErr[view] = clearance.Outline(m, q.Case.Tyre, q.Span, clearance.View(view), fine)
		known(part)
	}
	return nil
}

// take replaces parts by those of others.
func (a *Answers) take(b *Answers) {
	if b.Parts&Gaps != 0 {
		a.Gaps, a.Unmet = b.Gaps, b.Unmet
	}
	for view, part := range partOf {
		if b.Parts&part != 0 {
			a.Swept[view], a.SweptErr[view] = b.Swept[view], b.SweptErr[view]
		}
	}
	a.Parts, a.Fine = a.Parts|b.Parts, a.Fine&^b.Parts|b.Fine
}

func (g *Gap) set(a clearance.Answer, s car.Stops) {
	g.Answer = a
	g.Right, _ = s.WheelAt(a.Rack)
}

// Answered are the gaps of a sweep of the query's own obstacles.
func (q *Query) Answered(r *clearance.Result) []Gap {
	list := make([]Gap, len(q.Case.Obstacles))
	for i := range list {
		list[i].Obstacle = q.Case.Obstacles[i]
		list[i].set(r.Answers[i], q.Stops)
	}
	return list
}

// gaps sweeps all obstacles at once. Those that are wrong get their own errors,
// and the rest are swept without them.
func gaps(m *kinematics.Mechanism, q *Query, fine bool) (list []Gap, unmet int) {
	list = make([]Gap, len(q.Case.Obstacles))
	for i := range list {
		list[i].Obstacle = q.Case.Obstacles[i]
	}
	grid := clearance.Coarse(q.Span)
	if fine {
		grid = clearance.Fine(q.Span)
	}
	r, err := clearance.Sweep(m, q.Case, grid)
	if err == nil {
		return q.Answered(&r), r.Unmet
	}
	if wrong := faulty(err); len(wrong) > 0 {
		for i, e := range wrong {
			list[i].Err = e
		}
		return sweepOthers(m, q, grid, list)
	}
	for i := range list {
		list[i].Err = err
	}
	return list, 0
}

// sweepOthers sweeps the obstacles without an error.
func sweepOthers(m *kinematics.Mechanism, q *Query, grid clearance.Grid, list []Gap) ([]Gap, int) {
	others := q.Case
	others.Obstacles = nil
	var at []int
	for i := range list {
		if list[i].Err == nil {
			others.Obstacles, at = append(others.Obstacles, list[i].Obstacle), append(at, i)
		}
	}
	r, err := clearance.Sweep(m, others, grid)
	for k, i := range at {
		if list[i].Err = err; err == nil {
			list[i].set(r.Answers[k], q.Stops)
		}
	}
	return list, r.Unmet
}

// faulty lists the errors of single obstacles by their index, several of one
// joined; none if the error is about something else.
func faulty(err error) map[int]error {
	list := []error{err}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		list = joined.Unwrap()
	}
	by := map[int]error{}
	for _, e := range list {
		var o *clearance.ObstacleError
		if errors.As(e, &o) {
			by[o.Index] = errors.Join(by[o.Index], e)
		}
	}
	return by
}

// Live answers coarsely, for a hand that still moves, and keeps the answers
// while the query stays: a frame in which only the shown pose moves costs
// nothing. Ten obstacles and both outlines take about 2 ms anew.
// The zero value is ready.
type Live struct {
	query   Query
	has     bool
	answers Answers
}

// Look returns the parts asked for; more may be there. They belong to Live
// until the next call. The error is that of a corner that makes no mechanism;
// the former answers stay.
func (l *Live) Look(q *Query, parts Parts) (*Answers, error) {
	if l.has && l.query.Same(q) && parts&^l.answers.Parts == 0 {
		return &l.answers, nil
	}
	m, err := kinematics.New(&q.Corner)
	if err != nil {
		return &l.answers, err
	}
	if !l.has || !l.query.Same(q) {
		l.query, l.has, l.answers = q.Clone(), true, Answers{}
	}
	return &l.answers, l.answers.answer(context.Background(), &m, q, parts, false)
}

// Take replaces the parts that finer answers to a query have, if that is still
// the one that was last looked at; false if not.
func (l *Live) Take(q *Query, a *Answers) bool {
	if !l.has || !l.query.Same(q) {
		return false
	}
	l.answers.take(a)
	return true
}

// Fine works out the parts finely: gaps in some 10 ms, each outline in some
// 100. A cancelled context ends it before the next of them, with the context's
// error.
func Fine(ctx context.Context, q *Query, parts Parts) (Answers, error) {
	var a Answers
	m, err := kinematics.New(&q.Corner)
	if err != nil {
		return a, err
	}
	return a, a.answer(ctx, &m, q, parts, true)
}
