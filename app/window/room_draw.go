package window

import (
	"fmt"
	"math"

	"armscribe/app/clearance"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/canvas"
	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// add makes a new obstacle: drawn in the views, or one to be typed over.
func (s *roomSide) add(d clearance.Draft) {
	if d.Drawn {
		s.draw(d)
		return
	}
	a := s.besideTyre()
	b := kinematics.Vec{X: a.X + typedSize, Y: a.Y, Z: a.Z}
	s.keep(d, a, b)
	s.panel.Remark("Placed beside the tyre, not measured: type its place.")
}

// typedSize, mm, of a line or circle that begins to be typed.
const typedSize = 100.0

// besideTyre is where an obstacle to be typed begins.
func (s *roomSide) besideTyre() kinematics.Vec {
	m := &s.w.frame.Now.Study.Mechanism
	c := m.Corner()
	body, ok := clearance.TyreOf(s.w.doc.Variant())
	p, err := m.At(0, 0)
	if !ok || err != nil {
		return c.Hub
	}
	return clearance.Beside(&p, body)
}

// keep adds an obstacle to the job, selects it and asks for its name.
func (s *roomSide) keep(d clearance.Draft, a, b kinematics.Vec) {
	w := s.w
	j := w.doc.Job()
	o := d.Obstacle(clearance.FreeName(j, "obstacle"), a, b)
	n := len(j.Obstacles)
	if err := w.doc.EditJob("add "+o.Name, "", func(j *job.Job) { j.Obstacles = append(j.Obstacles, o) }); err != nil {
		w.showProblems("This makes no obstacle", err)
		return
	}
	w.refresh()
	s.typeIn(n)
	if s.isShown() && n < scene.MaxObstacles {
		w.view.Select(scene.OfObstacle(n, 0))
	}
}

// draw asks for the places of an obstacle in either view, with the car at rest.
// What one view does not show is taken over: from the first place, and for that
// from the hub face.
func (s *roomSide) draw(d clearance.Draft) {
	w := s.w
	w.stopPlay()
	if !s.isShown() {
		w.toggleOverlay(scene.Clearance)
	}
	if w.position != (frame.Position{}) {
		w.position = frame.Position{}
		w.move()
	}
	s.ask(d, s.w.frame.Now.Study.Case.Corner.Hub, nil)
}

// asksFor are the places of a shape, in words.
var asksFor = map[job.ObstacleShape][2]string{
	job.PointShape:  {"the point"},
	job.LineShape:   {"one end of the line", "its other end"},
	job.CircleShape: {"the circle's centre", "a point that it goes through"},
	job.ArcShape:    {"the arc's centre, about that of the wheel", "a point that it goes through, as the top of the lip"},
}

// ask asks for the next place; from gives what the view does not show.
func (s *roomSide) ask(d clearance.Draft, from kinematics.Vec, first *kinematics.Vec) {
	n := 0
	if first != nil {
		n = 1
	}
	pulled := d.Shape != job.PointShape && first == nil
	text := fmt.Sprintf("Click %s, in the front view or in the plan%s. Esc leaves.", asksFor[d.Shape][n], map[bool]string{true: ", or pull from it to the other"}[pulled])
	got := func(at kinematics.Vec, lacks string) {
		s.stopAsking()
		if d.Shape != job.PointShape && first == nil {
			s.ask(d, at, &at)
			return
		}
		a := at
		if first != nil {
			a = *first
		}
		s.keep(d, a, at)
		s.panel.Remark(s.lackWords(at, lacks))
	}
	left := func() {
		s.stopAsking()
		s.w.say("Left: nothing is changed.")
	}
	plan := &canvas.Pick{Text: text, Pulled: pulled, Joined: d.Shape == job.LineShape, Left: left, Picked: func(at draw.Point) {
		got(kinematics.Vec{X: -at.Y, Y: at.X, Z: from.Z}, "height")
	}}
	front := &canvas.Pick{Text: text, Pulled: pulled, Joined: plan.Joined, Left: left, Picked: func(at draw.Point) {
		got(kinematics.Vec{X: from.X, Y: at.X, Z: at.Y}, "x")
	}}
	if first != nil {
		plan.Marks = []draw.Point{{X: first.Y, Y: -first.X}}
		front.Marks = []draw.Point{{X: first.Y, Y: first.Z}}
	}
	s.plan.Ask(plan)
	s.w.view.Ask(front) // has the keyboard
}

// stopAsking ends the question in both views.
func (s *roomSide) stopAsking() {
	s.plan.Ask(nil)
	s.w.view.Ask(nil)
}

// lackWords say what a view did not tell of the last place.
func (s *roomSide) lackWords(at kinematics.Vec, lacks string) string {
	mm, where := at.X, "the front view does not show it. Drag it in the plan, or type it"
	if lacks != "x" {
		mm, where = at.Z, "the plan does not show it. Drag it in the front view, or type it"
	}
	return fmt.Sprintf("Drawn, not measured. Its %s is taken as %s, that of the hub face or of the place before: %s.", lacks, units.Rounded.Length(math.Round(mm*10)/10, s.w.unit), where)
}
