package clearance

import (
	"slices"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// Query is what is asked about: a corner, what stands around it, and what the
// car uses of travel, rack and roll.
type Query struct {
	Corner kinematics.Corner
	Case   clearance.Case
	Span   clearance.Span
	Stops  car.Stops
}

// QueryOf asks about one variant of a job without problems, its corner as the
// variant states it or as a hand holds it, and with so many radians of roll
// either way. Errors are those of CaseOf.
func QueryOf(j *job.Job, variant int, c *kinematics.Corner, roll float64) (Query, error) {
	around, err := CaseOf(j, variant, c.Hub)
	of := car.Of(j, &j.Variants[variant]).With(c)
	s := of.Stops()
	return Query{Corner: of.Corner, Case: around, Stops: s, Span: clearance.Span{
		Bump: of.Bump, Droop: of.Droop, Left: s.Most(), Right: s.Most(), Roll: roll,
	}}, err
}

// Same tells whether both ask the same.
func (q *Query) Same(o *Query) bool {
	return q.Corner == o.Corner && q.Span == o.Span && q.Stops == o.Stops && q.Case.Tyre == o.Case.Tyre && q.Case.Ring == o.Case.Ring &&
		slices.Equal(q.Case.Obstacles, o.Case.Obstacles)
}

// Clone returns the query with obstacles of its own.
func (q *Query) Clone() Query {
	own := *q
	own.Case.Obstacles = slices.Clone(q.Case.Obstacles)
	return own
}

// Gap is the answer for one obstacle.
type Gap struct {
	clearance.Answer
	Obstacle clearance.Obstacle
	// Right tells that it is the right wheel's gap, to the mirror image of the
	// obstacle: the left wheel does not go so far. Rack is then as that wheel's own
	// corner sees it.
	Right bool
	// Err says why there is no answer: what is wrong with the obstacle, or why
	// the linkage has no pose. Then Answer is empty.
	Err error
}

// Verdict judges the gap; there must be no Err.
func (g *Gap) Verdict() Verdict { return VerdictOf(&g.Answer) }

// CarRack is where the rack is, mm, positive to the car's left.
func (g *Gap) CarRack() float64 {
	if g.Right {
		return -g.Rack
	}
	return g.Rack
}

// Moves tells whether the obstacle moves against the wheel, so that the gap has
// a place in travel and rack; what the upright carries goes with the wheel.
func (g *Gap) Moves() bool { return g.Obstacle.Carrier != clearance.OnUpright }

// Heave is the body's own part, mm, of the travel at which the gap is least:
// the rest is what roll adds to this wheel. Without roll it is the travel.
func (g *Gap) Heave(m *kinematics.Mechanism) float64 {
	if g.Roll == 0 {
		return g.Travel
	}
	ax, err := m.Roll(g.Roll, 0)
	if err != nil {
		return g.Travel // the sweep has met that roll, so this does not come
	}
	return g.Travel - ax.Left.Travel
}
