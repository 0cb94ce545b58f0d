package clearance

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// Span is what the car uses, all as magnitudes: mm of travel and rack, rad of
// roll. Without rack (a rear axle) Left and Right are 0.
type Span struct {
	Bump, Droop float64
	Left, Right float64
	Roll        float64
}

// Grid is the set of poses a sweep looks at: every travel with every rack and
// every roll.
//
// The body does not see roll as such: an obstacle on the body meets the wheel
// where its own travel has brought it. A pose in roll is the body's heave, as
// of Travel, with the travel that the roll adds to this wheel; where the two
// together pass the stops there is no such pose.
type Grid struct {
	Travel, Rack, Roll []float64
	Bump, Droop        float64 // stops, as magnitudes
	// Polish looks between the poses of the grid for the least gap of all.
	Polish bool
}

// Numbers of poses in the grids.
const (
	fineTravels, fineRacks     = 41, 21
	coarseTravels, coarseRacks = 11, 7
)

// Fine is the grid for a result: 41 travels by 21 racks, and between them.
func Fine(s Span) Grid { return s.grid(fineTravels, fineRacks, true) }

// Coarse is the grid for a hand that still moves: 11 travels by 7 racks.
func Coarse(s Span) Grid { return s.grid(coarseTravels, coarseRacks, false) }

func (s Span) grid(travels, racks int, polish bool) Grid {
	g := Grid{Travel: spread(-s.Droop, s.Bump, travels), Rack: spread(-s.Right, s.Left, racks), Roll: []float64{0},
		Bump: s.Bump, Droop: s.Droop, Polish: polish}
	if s.Roll > 0 {
		g.Roll = []float64{0, -s.Roll, -s.Roll / 2, s.Roll / 2, s.Roll}
	}
	return g
}

// spread returns n numbers from a to b, both exact; one if they are the same.
func spread(a, b float64, n int) []float64 {
	if a == b {
		return []float64{a + 0}
	}
	list := make([]float64, n)
	for i := range list {
		f := float64(i) / float64(n-1)
		list[i] = a*(1-f) + b*f
	}
	return list
}

// Case is what a sweep is about.
type Case struct {
	Tyre      Tyre
	Ring      Ring // zero if not known; needed for what the upright carries
	Obstacles []Obstacle
}

// Answer is the least gap to one obstacle.
type Answer struct {
	Gap          float64 // mm; below zero by the depth of the overlap
	Travel, Rack float64 // of this wheel, mm: where it happens
	Roll         float64 // rad
	At           Vec     // the place on the obstacle's point or line, in that pose
	Rest         float64 // the gap at rest, mm
	Wish         float64 // mm, as asked for

	name string
}

// Keeps tells whether the gap is as large as wished.
func (a *Answer) Keeps() bool { return a.Gap >= a.Wish }

// Err returns an *[InsideError] when the obstacle stands inside the tyre at
// rest already, and nil otherwise.
func (a *Answer) Err() error {
	if a.Rest < 0 {
		return &InsideError{a.name, -a.Rest}
	}
	return nil
}

// Result is a sweep's.
type Result struct {
	Answers []Answer // one for each obstacle, in their order
	Poses   int      // looked at, those of the polish left out
	Unmet   int      // poses of the grid at which the linkage does not assemble
}

// pose is one place of the wheel in a sweep.
type pose struct {
	stand
	travel, rack, roll float64
	damper             Vec // body end to moving end
}

// Sweep finds the least gap to each obstacle over a grid and at rest. What the
// upright carries does not move against the wheel, and its gap is that at rest.
//
// A gap is exact in its pose: the distance of a point to the tyre, and of a
// line or circle to 0.01 mm along it. Grid.Polish goes on from the worst pose
// of the grid to the worst between its neighbours, to 0.001 mm about; a worst
// pose of its own between two that look harmless is not seen. Poses that the
// linkage does not reach are left out and counted.
//
// Errors: *TyreError, *RingError, and *ObstacleError for each thing wrong with
// an obstacle, joined.
func Sweep(m *kinematics.Mechanism, c Case, g Grid) (Result, error) {
	w, err := newWork(m, c)
	if err != nil {
		return Result{}, err
	}
	rest, err := w.solve(0, 0, 0)
	if err != nil {
		return Result{}, err
	}
	var r Result
	poses := append(make([]pose, 0, 1+len(g.Travel)*len(g.Rack)*len(g.Roll)), rest)
	poses, r.Unmet = w.poses(poses, g)
	r.Poses = len(poses)
	r.Answers = make([]Answer, len(c.Obstacles))
	for i := range c.Obstacles {
		r.Answers[i] = w.answer(i, poses, g)
	}
	return r, nil
}

// work is a case made ready.
type work struct {
	m       *kinematics.Mechanism
	corner  kinematics.Corner
	c       Case
	profile profile
	curves  []curve
	damper0 Vec // body end to moving end at rest
}

func newWork(m *kinematics.Mechanism, c Case) (*work, error) {
	if err := c.Tyre.Validate(); err != nil {
		return nil, err
	}
	w := &work{m: m, corner: m.Corner(), c: c, profile: c.Tyre.profile(), curves: make([]curve, len(c.Obstacles))}
	hasRing := c.Ring != Ring{}
	if hasRing {
		if err := c.Ring.Validate(c.Tyre); err != nil {
			return nil, err
		}
	}
	var errs []error
	for i := range c.Obstacles {
		errs = append(errs, c.Obstacles[i].check(i, &w.corner, hasRing)...)
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	for i := range c.Obstacles {
		w.curves[i] = c.Obstacles[i].curve()
	}
	w.damper0 = r3.Sub(w.corner.Spring.Moving, w.corner.Spring.Body)
	return w, nil
}

func (w *work) solve(travel, rack, roll float64) (pose, error) {
	p, err := w.m.At(travel, rack)
	if err != nil {
		return pose{}, err
	}
	return pose{standOf(&p), travel, rack, roll, r3.Sub(p.SpringMoving, p.SpringBody)}, nil
}

// poses adds those of a grid that the linkage reaches.
func (w *work) poses(list []pose, g Grid) (_ []pose, unmet int) {
	for _, roll := range g.Roll {
		added := 0.0
		if roll != 0 {
			ax, err := w.m.Roll(roll, 0)
			if err != nil {
				unmet += len(g.Travel) * len(g.Rack)
				continue
			}
			added = ax.Left.Travel
		}
		for _, heave := range g.Travel {
			travel := heave + added
			if roll != 0 && (travel > g.Bump || travel < -g.Droop) {
				continue
			}
			for _, rack := range g.Rack {
				p, err := w.solve(travel, rack, roll)
				if err != nil {
					unmet++
					continue
				}
				list = append(list, p)
			}
		}
	}
	return list, unmet
}

// answer finds the least gap of one obstacle; the first of poses is that at rest.
func (w *work) answer(i int, poses []pose, g Grid) Answer {
	o := &w.c.Obstacles[i]
	a := Answer{Wish: o.Wish, name: o.Name}
	if o.Carrier == OnUpright {
		a.Gap, a.At = w.onUpright(&w.curves[i], &poses[0].stand)
		a.Rest = a.Gap
		return a
	}
	a.Rest, _ = w.gap(i, &poses[0], math.Inf(1))
	a.Gap = math.Inf(1)
	for k := range poses {
		p := &poses[k]
		if gap, at := w.gap(i, p, a.Gap); gap < a.Gap {
			a.Gap, a.At, a.Travel, a.Rack, a.Roll = gap, at, p.travel, p.rack, p.roll
		}
	}
	if g.Polish {
		w.polish(i, &a, g)
	}
	return a
}

// gap is the least gap of an obstacle in a pose, if it is below a bound.
func (w *work) gap(i int, p *pose, below float64) (float64, Vec) {
	c := &w.curves[i]
	if w.c.Obstacles[i].Carrier == OnDamper {
		turned := c.turned(w.corner.Spring.Body, w.damper0, p.damper)
		c = &turned
	}
	return c.least(&w.profile, &p.stand, below)
}

// Sizes of the polish.
const (
	// polishFinest, mm of travel and rack: at a touch that is not square the
	// gap changes by less than that.
	polishFinest = 1e-3
	polishSteps  = 400 // of one obstacle; a few dozen are the rule
)

// polish walks from the worst pose of a grid to lesser gaps: one step of
// travel or rack either way or both, halved when none helps, within the grid's
// ends.
func (w *work) polish(i int, a *Answer, g Grid) {
	step := func(list []float64) float64 {
		if len(list) < 2 {
			return 0
		}
		return math.Abs(list[len(list)-1]-list[0]) / float64(len(list)-1)
	}
	dt, dr := step(g.Travel), step(g.Rack)
	inside := func(list []float64, x float64) bool {
		return len(list) > 0 && x >= min(list[0], list[len(list)-1]) && x <= max(list[0], list[len(list)-1])
	}
	allowed := func(travel float64) bool {
		if a.Roll != 0 {
			return travel >= -g.Droop && travel <= g.Bump
		}
		return inside(g.Travel, travel)
	}
	for n := 0; n < polishSteps && max(dt, dr) > polishFinest; n++ {
		better := false
		for _, d := range [...][2]float64{{dt, 0}, {-dt, 0}, {0, dr}, {0, -dr}, {dt, dr}, {dt, -dr}, {-dt, dr}, {-dt, -dr}} {
			travel, rack := a.Travel+d[0], a.Rack+d[1]
			if d == ([2]float64{}) || !inside(g.Rack, rack) || !allowed(travel) {
				continue
			}
			p, err := w.solve(travel, rack, a.Roll)
			if err != nil {
				continue // past the end of the assembled range, as in the grid
			}
			if gap, at := w.gap(i, &p, a.Gap); gap < a.Gap {
				a.Gap, a.At, a.Travel, a.Rack, better = gap, at, travel, rack, true
				break
			}
		}
		if !better {
			dt, dr = dt/2, dr/2
		}
	}
}

// ringStep, mm: how densely a curve on the upright is looked at before the
// search between neighbours.
const ringStep = 0.5

// onUpright is the least gap of a curve to the ring, at rest. A ring is hollow
// and the gap along a line may have several least values, so the line is
// looked at densely; between two places it changes by half a step at most.
func (w *work) onUpright(c *curve, s *stand) (float64, Vec) {
	gapAt := func(t float64) float64 {
		u, v := s.polar(c.at(t))
		return w.c.Ring.distance(&w.profile, u, v) - c.thick
	}
	if c.shape == Point {
		return gapAt(0), c.from
	}
	to, length := 1.0, c.length
	if c.shape == Circle || c.shape == Arc {
		to, length = c.round.Sweep, c.round.Sweep*c.round.Radius
	}
	n := int(math.Ceil(length / ringStep))
	best := 0
	for k := 1; k <= n; k++ {
		if gapAt(to*float64(k)/float64(n)) < gapAt(to*float64(best)/float64(n)) {
			best = k
		}
	}
	lo, hi := to*max(0, float64(best-1))/float64(n), to*min(float64(n), float64(best+1))/float64(n)
	t := to * float64(best) / float64(n)
	for (hi-lo)*length/to > alongTolerance {
		x1, x2 := hi-golden*(hi-lo), lo+golden*(hi-lo)
		if gapAt(x1) <= gapAt(x2) {
			hi = x2
		} else {
			lo = x1
		}
		if x := (lo + hi) / 2; gapAt(x) < gapAt(t) {
			t = x
		}
	}
	return gapAt(t), c.at(t)
}

// GapAt returns the gap of each obstacle in one position of travel and rack.
// Errors are those of Sweep and of [kinematics.Mechanism.At].
func GapAt(m *kinematics.Mechanism, c Case, travel, rack float64) ([]float64, error) {
	w, err := newWork(m, c)
	if err != nil {
		return nil, err
	}
	p, err := w.solve(travel, rack, 0)
	if err != nil {
		return nil, fmt.Errorf("the gap at travel %s mm, rack %s mm: %w", kinematics.Placed(travel), kinematics.Placed(rack), err)
	}
	gaps := make([]float64, len(c.Obstacles))
	for i := range gaps {
		if c.Obstacles[i].Carrier == OnUpright {
			gaps[i], _ = w.onUpright(&w.curves[i], &p.stand)
			continue
		}
		gaps[i], _ = w.gap(i, &p, math.Inf(1))
	}
	return gaps, nil
}
