package canvas

import (
	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/kinematics/clearance"
)

// obstacleHold is a hand on an obstacle.
type obstacleHold struct {
	v      *board
	index  int
	drag   *grip.ObstacleDrag
	result grip.ObstacleResult
}

// holdObstacle closes the hand on an end of an obstacle.
func (v *board) holdObstacle(index, end int) *obstacleHold {
	o := &v.in.Obstacles[index]
	d := grip.BeginObstacle(o.Obstacle, end, grip.ObstacleJob{
		Carry: v.out.Carries[o.Carrier], Plan: v.plan, Step: v.step, Format: v.in.Format, Levels: v.levels(index, end),
	})
	return &obstacleHold{v, index, d, d.Unchanged()}
}

// levels are the places that an end of an obstacle snaps level with: what other
// handles mark, its own other end too, but no rim of a circle.
func (v *board) levels(index, end int) (list []grip.Level) {
	for _, s := range v.out.Spots {
		i, k, isObstacle := s.Handle.Obstacle()
		isRim := isObstacle && k == 1 && v.in.Obstacles[i].Shape == clearance.Circle
		if s.Handle.IsPlace() && !isRim && !(isObstacle && i == index && k == end) {
			name := v.name(s.Handle)
			if !isObstacle {
				name = v.inWords(name)
			}
			list = append(list, grip.Level{At: s.At, Name: name})
		}
	}
	return list
}

func (g *obstacleHold) from() draw.Point { return g.drag.From() }

func (g *obstacleHold) to(hand grip.Hand) held { return g.take(g.drag.To(hand)) }

func (g *obstacleHold) by(right, up float64) held { return g.take(g.drag.By(right, up)) }

func (g *obstacleHold) back() held { return g.take(g.drag.Unchanged()) }

func (g *obstacleHold) take(r grip.ObstacleResult) held {
	changed := r.Obstacle != g.result.Obstacle
	g.result = r
	return held{changed: changed, guides: r.Guides, note: g.drag.Note(&r), message: r.Message}
}

// gone tells that the owner has taken the obstacle away while it was held.
func (g *obstacleHold) gone() bool { return g.index >= len(g.v.in.Obstacles) }

func (g *obstacleHold) tell() {
	if g.v.OnObstacle != nil && !g.gone() {
		g.v.OnObstacle(g.index, g.result.Obstacle)
	}
}

func (g *obstacleHold) ended(nudged bool) {
	before, after := g.drag.Start(), g.result.Obstacle
	if before == after || g.v.OnObstacleEnded == nil || g.gone() {
		return
	}
	g.v.OnObstacleEnded(g.drag.Deed(nudged), g.index, before, after)
}

func (g *obstacleHold) cancelled() {
	if g.v.OnObstacleCancelled != nil && !g.gone() {
		g.v.OnObstacleCancelled(g.index, g.drag.Start())
	}
}
