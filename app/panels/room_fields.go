package panels

import (
	"errors"
	"fmt"
	"math"
	"strconv"
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

// obstacleFields are the fields of the selected obstacle.
type obstacleFields struct {
	r                     *Room
	head                  *headRow
	name                  *valueRow
	shape, on, told       *choiceRow
	at, to, via, facing   *pointRow
	from, until           *valueRow // of an arc about its centre
	radius, diameter, gap *valueRow
	remark, moved         *textRow
}

var (
	shapeChoices = []job.ObstacleShape{job.PointShape, job.LineShape, job.ArcShape, job.CircleShape}
	onChoices    = []job.ObstacleOn{job.OnBody, job.OnUpright, job.OnDamper}
)

func (o *obstacleFields) init(r *Room) {
	o.r = r
	o.head = newHead("", false)
	o.name = newValueRow(&r.form, "Name", o.nameField())
	o.name.wide = true
	o.shape = newChoiceRow("Shape", wordsOf(shapeChoices), func(i int) error { return o.setShape(shapeChoices[i]) })
	o.on = newChoiceRow("Carried by", wordsOf(onChoices), func(i int) error { return o.setOn(onChoices[i]) })
	place := func(label string, of func(o *job.Obstacle) *job.Position) *pointRow {
		var fields [3]*field
		for axis, letter := range "xyz" {
			fields[axis] = o.lengthField(label+" "+string(letter), func(o *job.Obstacle) *units.Length { return coordinate(of(o), axis) })
		}
		return newPointRow(&r.form, label, fields)
	}
	o.told = newChoiceRow("Told by", []string{"centre and angles", "three places"}, func(i int) error {
		return o.edit("how it is told", func(o *job.Obstacle) { clearance.SetCentred(o, i == 0) })
	})
	o.via = place("via", func(o *job.Obstacle) *job.Position { return &o.Via })
	o.from = newValueRow(&r.form, "From angle", o.angleField("from", func(o *job.Obstacle) *job.Degrees { return &o.Angles.From }))
	o.until = newValueRow(&r.form, "To angle", o.angleField("to", func(o *job.Obstacle) *job.Degrees { return &o.Angles.To }))
	o.until.explainWith("facing outboard: 0 forward, 90 above, 180 behind")
	o.at = place("at", func(o *job.Obstacle) *job.Position { return &o.At })
	o.to = place("to", func(o *job.Obstacle) *job.Position { return &o.To })
	var facing [3]*field
	for axis, letter := range "xyz" {
		facing[axis] = o.facingField("facing "+string(letter), axis)
	}
	o.facing = newPointRow(&r.form, "facing", facing)
	o.radius = newValueRow(&r.form, "Radius", o.lengthField("radius", func(o *job.Obstacle) *units.Length { return &o.Radius }))
	o.diameter = newValueRow(&r.form, "Thickness", o.lengthField("diameter", func(o *job.Obstacle) *units.Length { return &o.Diameter }))
	o.diameter.explainWith("across the tube, damper or joint; 0 is an edge")
	o.gap = newValueRow(&r.form, "Wished gap", o.gapField())
	o.remark, o.moved = newTextRow(), newTextRow()
}

func wordsOf[T fmt.Stringer](list []T) []string {
	text := make([]string, len(list))
	for i, v := range list {
		text[i] = v.String()
	}
	return text
}

// rows are those of a shape; none where nothing is selected.
func (o *obstacleFields) rows(shape job.ObstacleShape, centred bool) []row {
	if shape == 0 {
		return nil
	}
	list := []row{o.head, o.remark, o.name, o.shape, o.on}
	if shape == job.ArcShape {
		list = append(list, o.told)
	}
	list = append(list, newAxes(), o.at)
	switch {
	case shape == job.LineShape:
		list = append(list, o.to)
	case shape == job.CircleShape:
		list = append(list, o.facing, o.radius)
	case centred:
		list = append(list, o.facing, o.radius, o.from, o.until)
	case shape == job.ArcShape:
		list = append(list, o.via, o.to)
	}
	return append(list, o.moved, o.diameter, o.gap)
}

// selected is the obstacle shown; nil for none.
func (o *obstacleFields) selected() *job.Obstacle {
	if o.r.selected < 0 {
		return nil
	}
	return &o.r.in.Job.Obstacles[o.r.selected]
}

// edit asks for a change of the selected obstacle.
func (o *obstacleFields) edit(what string, change func(o *job.Obstacle)) error {
	i := o.r.selected
	if i < 0 {
		return errors.New("no obstacle is selected; choose one of the list")
	}
	return o.r.OnEdit("type "+o.selected().Name+" "+what, func(j *job.Job) { change(&j.Obstacles[i]) })
}

func (o *obstacleFields) nameField() *field {
	f := newField("name")
	f.check = func(text string) (string, error) {
		if blank(text) {
			return "", errors.New("an obstacle needs a name; type what it is, such as inner wing")
		}
		for i := range o.r.in.Job.Obstacles {
			if i != o.r.selected && o.r.in.Job.Obstacles[i].Name == strings.TrimSpace(text) {
				return "", fmt.Errorf("another obstacle is called %q; give each its own name", strings.TrimSpace(text))
			}
		}
		return "", nil
	}
	f.hand = func(text string) error {
		return o.edit("name", func(o *job.Obstacle) { o.Name = strings.TrimSpace(text) })
	}
	return f
}

func (o *obstacleFields) lengthField(what string, of func(o *job.Obstacle) *units.Length) *field {
	f := newField(what)
	f.check = func(text string) (string, error) { return echoLength(text, o.r.in.Unit) }
	f.hand = func(text string) error {
		l, err := units.ParseLength(text, o.r.in.Unit)
		if err != nil {
			return err
		}
		o.r.remark = ""
		return o.edit(what, func(o *job.Obstacle) { *of(o) = l })
	}
	return f
}

// angleField is an end of an arc about its centre, degrees.
func (o *obstacleFields) angleField(what string, of func(o *job.Obstacle) *job.Degrees) *field {
	f := newField(what + " angle")
	f.check = func(text string) (string, error) {
		_, err := job.ParseDegrees(text)
		return "", err
	}
	f.hand = func(text string) error {
		d, err := job.ParseDegrees(text)
		if err != nil {
			return err
		}
		o.r.remark = ""
		return o.edit(what+" angle", func(o *job.Obstacle) { *of(o) = d })
	}
	return f
}

// facingField is a part of a direction: a plain number.
func (o *obstacleFields) facingField(what string, axis int) *field {
	f := newField(what)
	f.check = func(text string) (string, error) {
		_, err := parsePlain(text)
		return "", err
	}
	f.hand = func(text string) error {
		v, err := parsePlain(text)
		if err != nil {
			return err
		}
		return o.edit(what, func(o *job.Obstacle) { *facingPart(&o.Facing, axis) = v })
	}
	return f
}

func facingPart(d *job.Direction, axis int) *float64 { return [...]*float64{&d.X, &d.Y, &d.Z}[axis] }

// parsePlain reads a number without a unit.
func parsePlain(text string) (float64, error) {
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), "−", "-", 1), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is no plain number; a direction needs no unit, such as 1", text)
	}
	return v, nil
}

// gapField is the wished gap; an empty one asks for the usual.
func (o *obstacleFields) gapField() *field {
	f := newField("wished gap")
	f.check = func(text string) (string, error) {
		if blank(text) {
			return "the usual one", nil
		}
		return echoLength(text, o.r.in.Unit)
	}
	f.hand = func(text string) error {
		if blank(text) {
			return o.edit("gap", func(o *job.Obstacle) { o.Gap = job.Optional{} })
		}
		l, err := units.ParseLength(text, o.r.in.Unit)
		if err != nil {
			return err
		}
		return o.edit("gap", func(o *job.Obstacle) { o.Gap = job.Given(l) })
	}
	return f
}

func (o *obstacleFields) setShape(s job.ObstacleShape) error {
	return o.edit("shape", func(o *job.Obstacle) { clearance.SetShape(o, s) })
}

// setOn changes the carrier and leaves the obstacle where it is seen.
func (o *obstacleFields) setOn(on job.ObstacleOn) error {
	by := o.r.in.By
	return o.edit("carrier", func(o *job.Obstacle) { clearance.SetOn(o, on, by) })
}

// fill puts the selected obstacle's values into its fields.
func (o *obstacleFields) fill() {
	s := o.selected()
	if s == nil {
		return
	}
	unit := o.r.in.Unit
	owner := o.r.in.Job.Name + "\x00" + strconv.Itoa(o.r.selected)
	hold := func(f *field, l units.Length) {
		short, full := lengthTexts(l, unit)
		f.hold(owner, short, full)
	}
	o.head.title.say(s.Name, theme.ColorNameForeground)
	o.name.field.hold(owner, s.Name, s.Name)
	o.shape.choose(indexOf(shapeChoices, s.Shape))
	o.on.choose(indexOf(onChoices, s.On))
	if o.told.choose(1); s.Centred() {
		o.told.choose(0)
	}
	for f, d := range map[*field]job.Degrees{o.from.field: s.Angles.From, o.until.field: s.Angles.To} {
		text := units.Trimmed(float64(d), editDecimals)
		f.hold(owner, text, text)
	}
	for axis := range 3 {
		hold(o.at.fields[axis], *coordinate(&s.At, axis))
		hold(o.to.fields[axis], *coordinate(&s.To, axis))
		hold(o.via.fields[axis], *coordinate(&s.Via, axis))
		text := units.Trimmed(*facingPart(&s.Facing, axis), editDecimals)
		o.facing.fields[axis].hold(owner, text, text)
	}
	hold(o.radius.field, s.Radius)
	hold(o.diameter.field, s.Diameter)
	o.fillGap(s, owner)
	o.remark.say(o.r.remark, theme.ColorNameForeground)
	o.moved.say(o.movedText(s), look.ColorQuiet)
}

func (o *obstacleFields) fillGap(s *job.Obstacle, owner string) {
	usual := *s
	usual.Gap = job.Optional{}
	text := units.Rounded.Length(clearance.WishOf(&usual), o.r.in.Unit)
	o.gap.explainWith("empty: " + text + ", common practice")
	if !s.Gap.Given {
		o.gap.field.hold(owner, "", "")
		o.gap.field.SetPlaceHolder("usual")
		return
	}
	short, full := lengthTexts(s.Gap.Length, o.r.in.Unit)
	o.gap.field.hold(owner, short, full)
}

// movedText says that what the upright carries stands elsewhere in a proposal.
func (o *obstacleFields) movedText(s *job.Obstacle) string {
	by := o.r.in.By
	switch {
	case s.On == job.OnDamper:
		return "Measured at rest; swings with the damper about its body end."
	case s.On != job.OnUpright:
		return "Measured on the car; fixed to the body."
	case by == kinematics.Vec{}:
		return "Measured on the car at rest; goes with the hub face."
	}
	way := func(mm float64, plus, minus string) string {
		if mm < 0 {
			plus = minus
		}
		return units.Built.Length(math.Abs(mm), o.r.in.Unit) + " " + plus
	}
	var parts []string
	for _, p := range []struct {
		mm          float64
		plus, minus string
	}{{by.X, "forward", "rearward"}, {by.Y, "outboard", "inboard"}, {by.Z, "up", "down"}} {
		if p.mm != 0 {
			parts = append(parts, way(p.mm, p.plus, p.minus))
		}
	}
	return "As measured on the car; with this variant's hub face it stands " + strings.Join(parts, ", ") + "."
}

func indexOf[T comparable](list []T, v T) int {
	for i, x := range list {
		if x == v {
			return i
		}
	}
	return -1
}

// choiceRow is a name and one of a few words.
type choiceRow struct {
	label   *note
	list    *keyed.Select
	under   *textRow
	options []string
	setting bool
}

func newChoiceRow(label string, options []string, chosen func(i int) error) *choiceRow {
	c := &choiceRow{label: newNote(label, look.SizeSmall, theme.ColorNameForeground), under: newTextRow(), options: options}
	c.label.step = fieldHeight
	c.list = keyed.NewSelect(options, func(string) {
		i := c.list.SelectedIndex()
		if c.setting || i < 0 {
			return
		}
		if err := chosen(i); err != nil {
			c.under.say(crossed(err), theme.ColorNameError)
		} else {
			c.under.say("", look.ColorQuiet)
		}
	})
	return c
}

// choose shows an option without asking for it.
func (c *choiceRow) choose(i int) {
	if i != c.list.SelectedIndex() {
		c.setting = true
		c.list.SetSelectedIndex(i)
		c.setting = false
	}
}

func (c *choiceRow) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{c.label, c.list, c.under.note}
}

func (c *choiceRow) height(w float32) float32 { return fieldHeight + c.under.height(w) + rowGap }

func (c *choiceRow) place(x, y, w float32) {
	fw := max(w/2, 110)
	c.label.Move(fyne.NewPos(x, y))
	c.label.Resize(fyne.NewSize(w-fw, fieldHeight))
	c.list.Move(fyne.NewPos(x+w-fw, y))
	c.list.Resize(fyne.NewSize(fw, fieldHeight))
	c.under.place(x, y+fieldHeight, w)
}
