package window

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"

	"armscribe/app/clearance"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/panels"
	"armscribe/canvas"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
)

// roomSide is clearance in the window: the panel, the plan under the front
// view, and the gaps that both show. They are coarse while a hand moves; the
// fine ones are worked out behind it when it lets go, and thrown away if the
// corner, the tyre or an obstacle changed meanwhile.
type roomSide struct {
	w     *Window
	panel *panels.Room
	plan  *canvas.PlanView
	stack *fyne.Container // of front view and plan

	live    clearance.Live
	desk    *clearance.Desk
	query   clearance.Query
	answers *clearance.Answers // to the query; nil if nothing is asked
	problem error              // why there are none
	rim     clearance.Rim
	rimErr  error

	judge clearance.Judge // of the document's corner
	cured clearance.Judge // of that with the spacer that the advice offers
	held  *heldObstacle
	shown []scene.Obstacle // of the last frame
}

// heldObstacle is the obstacle in a hand, as it is seen.
type heldObstacle struct {
	index int
	swept.Obstacle
}

// inBackground works beside the window and then goes on in the toolkit's
// goroutine.
var inBackground = func(work, then func()) {
	go func() {
		work()
		fyne.Do(then)
	}()
}

func newRoomSide(w *Window) *roomSide {
	s := &roomSide{w: w, panel: panels.NewRoom(), plan: canvas.NewPlanView()}
	s.desk = clearance.NewDesk(inBackground)
	s.desk.Done = s.take
	p := s.panel
	p.OnEdit = w.editRoom
	p.OnPicked = s.jump
	p.OnRest = w.rest
	p.OnAdd = s.add
	p.OnShow = func(on bool) {
		if on != s.isShown() {
			w.toggleOverlay(scene.Clearance)
		}
	}
	p.OnRoll = func(rad float64) { w.prefs.setRoomRoll(rad); s.show() }
	p.OnHint = w.hintOver()
	for _, e := range []*canvas.Events{&w.view.Events, &s.plan.Events} {
		s.listen(e)
	}
	s.plan.OnStatus, s.plan.OnMessage = w.view.OnStatus, w.view.OnMessage
	s.plan.OnMenu, s.plan.OnTyped = w.view.OnMenu, w.view.OnTyped
	return s
}

// listen hears of obstacles in a view.
func (s *roomSide) listen(e *canvas.Events) {
	e.OnObstacle = func(i int, o swept.Obstacle) {
		s.w.stopPlay()
		s.held = &heldObstacle{i, o}
		s.show()
	}
	e.OnObstacleEnded = func(name string, i int, _, after swept.Obstacle) {
		s.held = nil
		s.place(name, i, &after)
	}
	e.OnObstacleCancelled = func(int, swept.Obstacle) {
		s.held = nil
		s.w.refresh()
	}
	e.OnSelected = func(h scene.Handle) {
		if i, _, ok := h.Obstacle(); ok {
			s.panel.Select(i)
		}
	}
}

// forget lets go of what belongs to another job.
func (s *roomSide) forget() {
	s.held = nil
	s.panel.Select(-1)
}

// place moves an obstacle of the job to where a hand put it.
func (s *roomSide) place(name string, i int, to *swept.Obstacle) {
	run := ""
	if strings.HasPrefix(name, "nudge") {
		run = name
	}
	by := s.by()
	err := s.w.doc.EditJob(name, run, func(j *job.Job) { clearance.SetPlaces(&j.Obstacles[i], to, by) })
	if err != nil {
		s.w.showProblems("This change cannot be kept", err)
	}
	s.w.refresh()
}

// editRoom changes the job from the panel.
func (w *Window) editRoom(name string, change func(j *job.Job)) error {
	w.cancelHand()
	before := len(w.doc.Job().Obstacles)
	err := w.doc.EditJob(name, "", change)
	w.refresh()
	if err == nil {
		w.room.tellOf(len(w.doc.Job().Obstacles) - before)
	}
	return err
}

// tellOf lets views and list have the same obstacle selected, and says what came
// of one more or one less.
func (s *roomSide) tellOf(more int) {
	h := scene.NoHandle
	if i := s.panel.Selected(); i >= 0 && i < scene.MaxObstacles && s.isShown() {
		h = scene.OfObstacle(i, 0)
	}
	if _, _, ok := s.w.view.Selected().Obstacle(); ok || h != scene.NoHandle {
		s.w.view.Select(h)
	}
	switch {
	case more < 0:
		s.w.sayOfNow("Removed. Ctrl+Z brings it back.")
	case more > 0:
		s.w.sayOfNow("Added. Drag it or type where it is; Ctrl+Z takes it back.")
	}
}

// cancelHand abandons the gesture in progress in either view; false if there
// was none.
func (w *Window) cancelHand() bool {
	front := w.view.Cancel()
	return w.room.plan.Cancel() || front
}

func (s *roomSide) isShown() bool { return s.w.overlays&scene.Clearance != 0 }

// judged is how the wheel of the variant shown stands in all, as the document has
// it.
func (s *roomSide) judged() clearance.Judgement {
	j, i := s.w.doc.Job(), s.w.doc.Current()
	c := j.Variants[i].Corner()
	return s.judge.Look(j, i, &c)
}

// mind adds to the advice on a corner what the wheel comes too near to with the
// spacer that it offers, and does not without. A corner in a hand is left alone.
func (s *roomSide) mind(a *frame.Advice, c *kinematics.Corner) {
	j, i := s.w.doc.Job(), s.w.doc.Current()
	if a.Raise == 0 || *c != j.Variants[i].Corner() {
		return
	}
	with := *c
	with.TieRod.OuterEnd.Z += a.Raise
	v, now := s.cured.Look(j, i, &with), s.judged()
	if it := v.Worse(&now); it != nil {
		a.Cure += " With it: " + it.Short(s.w.unit) + "."
	}
}

// isOpen tells whether the panel is seen.
func (s *roomSide) isOpen() bool {
	return s.w.isOpen(check, clearanceSection)
}

// wanted is what is to be known.
func (s *roomSide) wanted() (parts clearance.Parts) {
	if s.isShown() {
		return clearance.AllParts
	}
	if s.isOpen() {
		return clearance.Gaps
	}
	return 0
}

func (s *roomSide) busy() bool { return s.w.view.Busy() || s.plan.Busy() }

// by is where the upright in the view stands off that on the car.
func (s *roomSide) by() kinematics.Vec {
	return clearance.Carried(s.w.doc.Job(), s.w.doc.Current(), s.w.frame.Now.Study.Case.Corner.Hub)
}

// follow answers for the corner in the view, in the hand or not.
func (s *roomSide) follow() {
	parts := s.wanted()
	s.answers, s.problem = nil, nil
	s.shown = s.shown[:0]
	if parts == 0 {
		s.desk.Drop()
		return
	}
	c := &s.w.frame.Now.Study.Case.Corner
	j, i := s.w.doc.Job(), s.w.doc.Current()
	if s.query, s.problem = clearance.QueryOf(j, i, c, s.w.prefs.roomRoll()); s.problem == nil {
		if s.held != nil && s.held.index < len(s.query.Case.Obstacles) {
			s.query.Case.Obstacles[s.held.index] = s.held.Obstacle
		}
		s.answers, s.problem = s.live.Look(&s.query, parts)
	}
	if s.isOpen() {
		s.rim, s.rimErr = clearance.RimOf(j, i, &s.w.frame.Now.Study.Mechanism)
	}
	s.listScene()
	if s.problem == nil && !s.busy() && parts&^s.answers.Fine != 0 {
		s.desk.Ask(&s.query, parts)
	} else {
		s.desk.Drop()
	}
}

// listScene puts obstacles and gaps together for the views.
func (s *roomSide) listScene() {
	j := s.w.doc.Job()
	for i := range j.Obstacles {
		if s.problem != nil {
			s.shown = append(s.shown, scene.ObstacleOf(clearance.ObstacleOf(&j.Obstacles[i], s.by()), nil))
			continue
		}
		g := &s.answers.Gaps[i]
		if g.Err != nil {
			s.shown = append(s.shown, scene.ObstacleOf(g.Obstacle, nil))
		} else {
			s.shown = append(s.shown, scene.ObstacleOf(g.Obstacle, &g.Answer))
		}
	}
}

// into adds to what the views show.
func (s *roomSide) into(in *scene.Input) {
	in.Obstacles = s.shown
	if s.answers != nil {
		in.Swept = s.answers.Swept
	}
}

// take receives fine answers.
func (s *roomSide) take(q *clearance.Query, a *clearance.Answers) {
	if s.answers == nil || s.busy() || !s.live.Take(q, a) {
		return
	}
	s.show()
	s.w.writeState()
}

// show brings views and panel up to date, for the frame as it is.
func (s *roomSide) show() {
	s.follow()
	s.w.showView()
	s.fill()
}

// fill brings the panel up to date, while it is seen.
func (s *roomSide) fill() {
	if !s.isOpen() {
		return
	}
	in := panels.RoomInput{
		Job: s.w.doc.Job(), Unit: s.w.unit, Moving: s.busy(), Answers: s.answers,
		Rim: s.rim, RimErr: s.rimErr, Shown: s.isShown(), AtRest: s.w.position == frame.Position{}, Roll: s.w.prefs.roomRoll(), By: s.by(),
	}
	if s.problem != nil {
		in.Problem = s.problem.Error()
	}
	s.panel.SetInput(in)
}

// jump takes the wheel to the place of an obstacle's least gap: travel and rack
// of this wheel against the body, as the gap is computed. In roll that is the
// travel that heave and roll make together; the window's own roll has no heave,
// so it would show another place.
func (s *roomSide) jump(i int) {
	w := s.w
	w.cancelHand()
	w.stopPlay()
	s.sharpen()
	w.view.Select(scene.NoHandle)
	if s.isShown() && i < scene.MaxObstacles {
		w.view.Select(scene.OfObstacle(i, 0))
	}
	if s.answers == nil || s.answers.Gaps[i].Err != nil {
		w.rest()
		return
	}
	g := s.answers.Gaps[i]
	to := frame.Position{}
	if g.Moves() && g.Verdict() != clearance.Inside {
		to = frame.Position{Travel: g.Travel, Rack: g.CarRack()}
		if g.Right && w.overlays&scene.OtherSide == 0 {
			w.toggleOverlay(scene.OtherSide)
		}
	}
	w.position = to
	w.move()
	if w.frame.Now.Err == nil {
		w.say(g.Jump(&w.frame.Now.Study.Mechanism, w.unit))
	}
}

// sharpen works out fine gaps at once, where the background has none yet.
func (s *roomSide) sharpen() {
	if s.answers == nil || s.answers.Fine&clearance.Gaps != 0 {
		return
	}
	a, err := clearance.Fine(context.Background(), &s.query, clearance.Gaps)
	if err == nil && s.live.Take(&s.query, &a) {
		s.follow()
	}
}

// typeIn takes the keyboard to the fields of an obstacle.
func (s *roomSide) typeIn(i int) {
	s.panel.Select(i)
	s.w.focusIn(check, clearanceSection, func() fyne.Focusable { return s.panel.NameField() })
	s.w.writeState()
}

// menu is what can be done with an obstacle.
func (s *roomSide) menu(i int) []*fyne.MenuItem {
	s.panel.Select(i)
	name := s.w.doc.Job().Obstacles[i].Name
	return []*fyne.MenuItem{
		fyne.NewMenuItem("Go to the least gap of "+name, func() { s.jump(i) }),
		fyne.NewMenuItem("Type the place of "+name+"…", func() { s.typeIn(i) }),
		fyne.NewMenuItemSeparator(),
		fyne.NewMenuItem("Duplicate it", func() { s.panel.Select(i); s.panel.Double() }),
		fyne.NewMenuItem("Remove it", func() { s.panel.Select(i); s.panel.Remove() }),
	}
}

// missing says what keeps the views from showing anything, and how to add it.
func (s *roomSide) missing() string {
	switch {
	case s.problem != nil:
		return "No swept tyre: " + s.problem.Error() + "."
	case len(s.w.doc.Job().Obstacles) == 0:
		return "No obstacles yet: add what the wheel must not touch under Check, Clearance, by Add…"
	}
	return ""
}

// gapState is a gap as a test in a real window reads it: mm and degrees.
type gapState struct {
	Gap     float64 `json:"gap_mm"`
	Travel  float64 `json:"travel_mm"`
	Rack    float64 `json:"rack_mm"`
	Roll    float64 `json:"roll_deg"`
	Verdict string  `json:"verdict"`
	Fine    bool    `json:"fine"`
}

// state adds gaps, and places in the plan.
func (s *roomSide) state(to *state) {
	if s.answers != nil {
		to.Gaps = map[string]gapState{}
		for i := range s.answers.Gaps {
			if g := &s.answers.Gaps[i]; g.Err == nil {
				to.Gaps[g.Obstacle.Name] = gapState{g.Gap, g.Travel, g.CarRack(), degrees(kinematics.Camber, g.Roll), g.Verdict().String(), s.answers.Fine&clearance.Gaps != 0}
			}
		}
	}
	if s.isOpen() {
		to.Lines = map[string][2]float32{"Add": s.middle(s.panel.AddButton())}
		for i := range s.w.doc.Job().Obstacles {
			to.Lines[s.w.doc.Job().Obstacles[i].Name] = s.middle(s.panel.Line(i))
		}
	}
	if !s.isShown() {
		return
	}
	to.Plan = map[string][2]float32{}
	origin := s.w.app.Driver().AbsolutePositionForObject(s.plan)
	out, _ := s.plan.Shown()
	for _, spot := range out.Spots {
		at := s.plan.View().ToScreen(spot.At)
		to.Plan[s.w.handleName(spot.Handle)] = [2]float32{origin.X + at.X, origin.Y + at.Y}
	}
}

// middle is the place of an object in the window.
func (s *roomSide) middle(o fyne.CanvasObject) [2]float32 {
	at := s.w.app.Driver().AbsolutePositionForObject(o)
	return [2]float32{at.X + o.Size().Width/2, at.Y + o.Size().Height/2}
}

// obstacleHandle names an end of an obstacle in the state.
func obstacleHandle(name string, end int) string {
	return name + [...]string{"", ", end", ", between"}[end]
}
