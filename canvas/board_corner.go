package canvas

import (
	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
)

// cornerHold is a hand on the corner.
type cornerHold struct {
	v      *board
	events *Events // who is told
	drag   *grip.Drag
	result grip.Result
}

// holdCorner closes the hand on a handle of the corner.
func (v *board) holdCorner(h scene.Handle) (*cornerHold, error) {
	span := v.in.Now.Study.Case.Span
	j := grip.Job{
		Stance: grip.Stance{Travel: v.out.Travel, Rack: v.out.Rack},
		Bump:   span.Bump, Droop: span.Droop, Locks: v.locks, Step: v.step, Format: v.in.Format,
		Section: v.in.Now.Section, Began: v.in.Began,
	}
	if v.out.Rolled {
		j.Stance = grip.Stance{Rack: v.out.Rack, Roll: v.out.Roll}
	}
	j.Plan = v.plan
	d, err := grip.Begin(*v.corner(), h, j)
	if err != nil {
		return nil, err
	}
	return &cornerHold{v, v.cornerEvents(), d, grip.Result{Corner: d.Start(), At: d.From()}}, nil
}

// cornerEvents are told what becomes of the corner: a view's own, or those of the
// view it is plumb with.
func (v *board) cornerEvents() *Events {
	if v.OnChanged == nil && v.peer != nil {
		return &v.peer.Events
	}
	return &v.Events
}

func (g *cornerHold) from() draw.Point { return g.drag.From() }

func (g *cornerHold) to(hand grip.Hand) held { return g.take(g.drag.To(hand)) }

func (g *cornerHold) by(right, up float64) held { return g.take(g.drag.By(right, up)) }

func (g *cornerHold) back() held {
	return g.take(grip.Result{Corner: g.drag.Start(), At: g.drag.From()})
}

func (g *cornerHold) take(r grip.Result) held {
	changed := r.Corner != g.result.Corner
	g.result = r
	return held{changed: changed, guides: r.Guides, note: g.drag.Note(&r), message: r.Message}
}

func (g *cornerHold) tell() {
	if g.events.OnChanged != nil {
		g.events.OnChanged(g.result.Corner)
	}
}

func (g *cornerHold) ended(nudged bool) {
	before, after := g.drag.Start(), g.result.Corner
	if before == after || g.events.OnChangeEnded == nil {
		return
	}
	g.events.OnChangeEnded(g.v.inWords(g.drag.Deed(nudged)), before, after)
}

func (g *cornerHold) cancelled() {
	if g.events.OnCancelled != nil {
		g.events.OnCancelled(g.drag.Start())
	}
}
