package panels

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Room is the panel of what stands around the wheel: the least gap to each
// obstacle, to be clicked for the place where it happens; the fields of the
// selected one; and what stands inside the rim.
//
// All methods belong to the toolkit's goroutine.
type Room struct {
	form

	// OnEdit asks the owner for a change of the job; it must be set before a hand
	// types.
	OnEdit func(name string, change func(j *job.Job)) error
	// OnPicked is told which obstacle a click or key chose: it is selected, and the
	// car is to go to where its gap is least.
	OnPicked func(index int)
	// OnRest asks to go back to rest.
	OnRest func()
	// OnAdd asks for a new obstacle.
	OnAdd func(d clearance.Draft)
	// OnShow asks for the swept tyre in the views, or for none.
	OnShow func(on bool)
	// OnRoll sets how far the body rolls either way, rad.
	OnRoll func(rad float64)
	// OnHint is told what the line under the pointer does; it may be nil.
	OnHint func(text string)

	in       RoomInput
	selected int    // of the obstacles; -1 for none
	remark   string // about its places; see Remark
	setting  bool
	shape    roomShape

	shown        *keyed.Check
	roll         *valueRow
	state, about *textRow
	lines        []*roomLine
	rest         *keyed.Button
	deeds        *deedsRow
	one          obstacleFields
	rim          rimRows
}

// RoomInput is what the panel shows. Nothing of it is kept but until the next
// call.
type RoomInput struct {
	Job  *job.Job
	Unit units.Unit
	// Moving tells that a hand is moving something: fields wait.
	Moving bool
	// Answers to the gaps; without them Problem says why, and how to help it.
	Answers *clearance.Answers
	Problem string
	Rim     clearance.Rim
	RimErr  error
	// Shown tells whether the views show the swept tyre.
	Shown bool
	// AtRest tells that the car is shown at rest.
	AtRest bool
	Roll   float64        // rad, either way
	By     kinematics.Vec // see clearance.Carried
}

// fine tells whether the gaps are worked out finely.
func (in *RoomInput) fine() bool { return in.Answers != nil && in.Answers.Fine&clearance.Gaps != 0 }

// roomShape is which rows there are.
type roomShape struct {
	built    bool
	lines    int
	selected job.ObstacleShape // 0 for none
	centred  bool              // an arc about its centre
	brake    bool
}

// NewRoom returns a panel that shows nothing yet.
func NewRoom() *Room {
	r := &Room{selected: -1}
	r.form.words = r.words
	r.form.init(r)
	r.shown = keyed.NewCheck("Swept tyre in the views", func(on bool) {
		if !r.setting {
			r.OnShow(on)
		}
	})
	r.roll = newValueRow(&r.form, "Roll, either way", r.rollField())
	r.roll.explainWith("0 for none; roll brings no new place of the wheel, it says how it gets there")
	r.state, r.about = newTextRow(), newTextRow()
	r.rest = keyed.NewButton("Back to rest", func() { r.OnRest() })
	r.deeds = newDeedsRow(r)
	r.one.init(r)
	r.rim.init(r)
	return r
}

// rollMost is the largest roll that can be asked for, rad.
const rollMost = kinematics.MaxRoll

func (r *Room) rollField() *field {
	f := newField("roll")
	f.check = func(text string) (string, error) {
		_, err := parseRoll(text)
		return "", err
	}
	f.hand = func(text string) error {
		rad, err := parseRoll(text)
		if err == nil {
			r.OnRoll(rad)
		}
		return err
	}
	return f
}

func parseRoll(text string) (float64, error) {
	rad, err := units.ParseAngle(text)
	switch {
	case err != nil:
		return 0, err
	case rad < 0:
		return 0, fmt.Errorf("roll of %s goes either way: type it without a sign", units.FormatDegrees(rad, 1))
	case rad > rollMost:
		return 0, fmt.Errorf("roll of %s is more than %s; type what the car does", units.FormatDegrees(rad, 1), units.FormatDegrees(rollMost, 0))
	}
	return rad, nil
}

// words speaks of a toe link at a rear axle.
func (r *Room) words(text string) string {
	if r.in.Job == nil || r.in.Job.Axle != job.Rear {
		return text
	}
	return rearWords.Replace(text)
}

// Select selects an obstacle by its index, -1 for none, without asking for
// anything.
func (r *Room) Select(index int) {
	if index == r.selected {
		return
	}
	r.selected, r.remark = index, ""
	if r.shape.built {
		r.show()
	}
}

// Remark says something about the places of the selected obstacle, until one of
// them is typed or another is selected: as that they are not measured.
func (r *Room) Remark(text string) {
	r.remark = text
	if r.shape.built {
		r.show()
	}
}

// Line is what stands for an obstacle in the list, and AddButton what asks for
// a new one; for a test in a real window.
func (r *Room) Line(i int) fyne.CanvasObject { return r.lines[i] }

// AddButton: see Line.
func (r *Room) AddButton() fyne.CanvasObject { return r.deeds.add }

// NameField is the field of the selected obstacle's name, for the keyboard.
func (r *Room) NameField() fyne.Focusable { return r.one.name.field }

// Selected returns the index of the selected obstacle, -1 for none.
func (r *Room) Selected() int { return r.selected }

// SetInput shows gaps and obstacles. What is being typed stays.
func (r *Room) SetInput(in RoomInput) {
	r.in = in
	r.show()
}

func (r *Room) show() {
	in := &r.in
	if r.selected >= len(in.Job.Obstacles) {
		r.selected = -1
	}
	shape := roomShape{built: true, lines: len(in.Job.Obstacles), brake: in.Rim.HasBrake}
	if r.selected >= 0 {
		shape.selected, shape.centred = in.Job.Obstacles[r.selected].Shape, in.Job.Obstacles[r.selected].Centred()
	}
	if shape != r.shape {
		r.shape = shape
		r.build()
	}
	r.fill()
	r.follow()
}

// build makes the rows for the present shape; lines and fields that stay keep
// the keyboard.
func (r *Room) build() {
	for len(r.lines) < r.shape.lines {
		r.lines = append(r.lines, newRoomLine(r, len(r.lines)))
	}
	rows := []row{newHead("Clearance", true), &objectRow{r.shown}, r.roll, newHead("Obstacles", false), r.state}
	for _, l := range r.lines[:r.shape.lines] {
		rows = append(rows, l.row())
	}
	rows = append(rows, &objectRow{r.rest}, r.deeds)
	rows = append(rows, r.one.rows(r.shape.selected, r.shape.centred)...)
	rows = append(rows, r.rim.rows()...)
	r.setRows(append(rows, r.about))
}

func (r *Room) fill() {
	in := &r.in
	r.setting = true
	r.shown.SetChecked(in.Shown)
	r.setting = false
	r.state.say(r.stateText())
	for i, l := range r.lines[:r.shape.lines] {
		l.fill(in, i == r.selected)
	}
	if !in.Moving {
		text := units.Trimmed(float64(job.DegreesOf(in.Roll)), 2) + "°"
		r.roll.field.hold("", text, text)
		able(r.rest, !in.AtRest)
		r.deeds.follow(r.selected >= 0, len(in.Job.Obstacles) < job.MaxObstacles)
		r.one.fill()
	}
	r.rim.fill()
	r.about.say(aboutTyre, look.ColorQuiet)
}

// aboutTyre says what the answers leave out.
const aboutTyre = "The tyre is a round-shouldered body by its size code; real ones differ, and grow with speed. Compliance, wear and the tyre's own give are not in it. A gap on the screen is no gap on the car: measure before you drive."

// stateText sums list and rim up, or says what is missing and how to add it.
func (r *Room) stateText() (string, fyne.ThemeColorName) {
	in := &r.in
	if in.Problem != "" {
		return "✕ " + upperFirst(in.Problem) + ".", theme.ColorNameError
	}
	if in.Answers == nil || in.Answers.Parts&clearance.Gaps == 0 {
		return "", look.ColorQuiet
	}
	v := in.Rim.Judge(in.Job, in.Answers.Gaps, in.Answers.Unmet)
	var parts []string
	colour := theme.ColorNameSuccess
	about := "≈ "
	if in.fine() {
		about = ""
	}
	switch row := v.Row(in.Unit); {
	case row != "":
		parts, colour = append(parts, "✕ "+about+row+"."), theme.ColorNameWarning
	case len(in.Job.Obstacles) == 0:
		parts, colour = append(parts, "✓ Joints and brake keep their gaps in the rim."), look.ColorQuiet
	default:
		parts = append(parts, "✓ "+about+"Every gap is kept.")
	}
	if len(in.Job.Obstacles) == 0 {
		parts = append(parts, "No obstacles yet. Add what the wheel must not touch: inner wing, chassis rail, wing lip, bump stop; on the upright the caliper, a damper body.")
	}
	for _, err := range in.Answers.SweptErr {
		if err != nil {
			parts, colour = append(parts, "✕ No swept outline: "+units.Said(err, in.Unit).Error()+"."), theme.ColorNameWarning
		}
	}
	return strings.Join(parts, " "), colour
}

// textRow is a paragraph; an empty one takes no room.
type textRow struct{ *note }

func newTextRow() *textRow { return &textRow{quietNote("")} }

func (r *textRow) objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.note} }

func (r *textRow) height(w float32) float32 {
	if r.text == "" {
		return 0
	}
	return r.note.height(w) + rowGap
}

func (r *textRow) place(x, y, w float32) {
	r.Move(fyne.NewPos(x, y))
	r.Resize(fyne.NewSize(w, r.note.height(w)))
}

// objectRow is one object over the whole width.
type objectRow struct{ fyne.CanvasObject }

func (r *objectRow) objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.CanvasObject} }

func (r *objectRow) height(float32) float32 { return fieldHeight + rowGap }

func (r *objectRow) place(x, y, w float32) {
	r.Move(fyne.NewPos(x, y))
	r.Resize(fyne.NewSize(w, fieldHeight))
}
