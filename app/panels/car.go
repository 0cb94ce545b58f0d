package panels

import (
	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Car is the panel of what the car has besides points and wheel: how far wheel
// and rack go, the steering, weight, brake and limits of the joints, or that of the
// spring alone; all to be typed. Enter or leaving a field sets it, Esc gives back what
// was there; an empty field that may be empty takes the value away.
//
// All but the spring, and how well this one variant is measured, is of the whole
// job. All methods belong to the toolkit's goroutine.
type Car struct {
	form

	// OnEdit asks the owner for a change of the job, OnVariant for one of the
	// variant shown; both must be set before a hand types.
	OnEdit    func(name string, change func(j *job.Job)) error
	OnVariant Edit

	in     Input
	only   bool // the spring
	spring springFields
	shape  carShape
	lines  []carLine
}

// carShape is which rows there are.
type carShape struct {
	built, rack, steered bool
	axle                 job.Axle
	spring               bool
}

// carLine is a row and what puts the held value into it.
type carLine struct {
	row  row
	fill func()
}

// NewCar returns a panel that shows nothing yet.
func NewCar() *Car { return newCar(false) }

// NewSpring returns the panel of the spring, which shows nothing yet.
func NewSpring() *Car { return newCar(true) }

func newCar(spring bool) *Car {
	c := &Car{only: spring}
	c.form.words = c.words
	c.form.init(c)
	c.spring.init(c)
	return c
}

// SetInput shows a job and the variant of it that is in view. What is being
// typed stays.
func (c *Car) SetInput(in Input) {
	if in.Job == c.in.Job && in.Variant == c.in.Variant && in.Unit == c.in.Unit && !c.spring.moving {
		return // an edit makes a new job
	}
	c.in = in
	steered := in.Job.Axle == job.Front
	shape := carShape{true, steered || in.Job.Rack != job.Rack{}, steered, in.Job.Axle, in.Variant.Spring.CarriedBy != kinematics.NoSpring}
	if shape != c.shape {
		c.shape = shape
		c.build()
	}
	c.fill()
}

// Follow shows the spring's ends of a corner that a hand is moving; SetInput
// ends it. What is being typed stays.
func (c *Car) Follow(corner kinematics.Corner) {
	if c.only && c.shape.built && c.shape.spring {
		c.spring.follow(corner.Spring)
	}
}

// build makes the rows for the present shape.
func (c *Car) build() {
	c.lines = nil
	if c.only {
		for _, r := range c.spring.rows(c.shape.spring) {
			c.add(r, nil)
		}
	} else {
		c.buildCar()
	}
	rows := make([]row, len(c.lines))
	for i := range c.lines {
		rows[i] = c.lines[i].row
	}
	c.setRows(rows)
}

// buildCar makes the rows of all but the spring.
func (c *Car) buildCar() {
	head := func(title string) { c.add(newHead(title, len(c.lines) == 0), nil) }
	head("Travel of the wheel")
	c.length("Bump", "bump travel", "up from rest; travel above zero", func(j *job.Job) *units.Length { return &j.Travel.Bump }, func(j *job.Job) *bool { return &j.Travel.Assumed[0] })
	c.length("Droop", "droop travel", "down from rest; travel below zero", func(j *job.Job) *units.Length { return &j.Travel.Droop }, func(j *job.Job) *bool { return &j.Travel.Assumed[1] })
	if c.shape.rack {
		head("Rack")
		c.length("To the left", "rack travel to the left", "from the middle to the stop; rack above zero", func(j *job.Job) *units.Length { return &j.Rack.Left }, func(j *job.Job) *bool { return &j.Rack.Assumed[0] })
		c.length("To the right", "rack travel to the right", "from the middle to the stop; rack below zero", func(j *job.Job) *units.Length { return &j.Rack.Right }, func(j *job.Job) *bool { return &j.Rack.Assumed[1] })
	}
	if c.shape.steered {
		head("Steering")
		c.optional("Rack for a turn", "rack for a turn", "of the steering wheel", c.assumedTurn, func(j *job.Job) *job.Optional { return &j.Steering.RackPerTurn })
		c.optional("Steering wheel", "steering wheel", "across its rim", c.assumedRim, func(j *job.Job) *job.Optional { return &j.Steering.WheelDiameter })
	}
	head("Car")
	c.optional("Wheelbase", "wheelbase", "from axle to axle", func() string { return "not given: no turning circle" }, func(j *job.Job) *job.Optional { return &j.Wheelbase })
	c.weight()
	c.length("Measured within", "measured within", "every coordinate, either way; the bands follow from it", func(j *job.Job) *units.Length { return &j.MeasuredWithin }, nil)
	c.ownWithin()
	head("Brake in the rim")
	c.optional("Across", "brake diameter", "disc and caliper, about the wheel's axis", func() string { return "not given: not looked at" }, func(j *job.Job) *job.Optional { return &j.Brake.Diameter })
	c.optional("Wished gap", "brake gap", "all round it, to the barrel", c.usualGap, func(j *job.Job) *job.Optional { return &j.Brake.Gap })
	head("Limits of the joints")
	c.limits()
}

func (c *Car) add(r row, fill func()) { c.lines = append(c.lines, carLine{r, fill}) }

// paragraph adds a line of text.
func (c *Car) paragraph(text string) {
	r := newTextRow()
	r.say(c.words(text), look.ColorQuiet)
	c.add(r, nil)
}

// fill puts the held values into the fields.
func (c *Car) fill() {
	for _, l := range c.lines {
		if l.fill != nil {
			l.fill()
		}
	}
	c.spring.fill()
}

// words speaks of a toe link at a rear axle.
func (c *Car) words(text string) string {
	if c.in.Job == nil || c.in.Job.Axle != job.Rear {
		return text
	}
	return rearWords.Replace(text)
}
