package report

import (
	"fmt"

	"armscribe/app/car"
	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
)

// Clearance is the least gap of one variant's tyre to each obstacle of its job.
type Clearance struct {
	Source    Source
	Obstacles []swept.Obstacle
	Result    swept.Result
	Roll      float64 // rad, either way
	Tyre      swept.Tyre
	Rim       clearance.Rim
	Judged    clearance.Judgement
	housings  [3]clearance.Housing
	onUpright bool // the rim's estimated barrel counts
	moved     bool // the upright stands elsewhere than as measured
}

// ClearanceOf carries the tyre of one variant of a job without problems through
// its travel and rack, and through roll of so many radians either way. What the
// upright carries goes with the hub face, where a variant has moved it. Errors
// match clearance.ErrNoTyre, or name the variant and are those of its
// geometry and of kinematics/clearance.
func ClearanceOf(j *job.Job, variant int, roll float64) (*Clearance, error) {
	c := &Clearance{Source: SourceOf(j, variant), Roll: roll, housings: clearance.HousingsOf(j)}
	s := &c.Source
	q, err := clearance.QueryOf(j, variant, &s.Corner, roll)
	if err != nil {
		return nil, s.Named(err)
	}
	c.Tyre, c.Obstacles = q.Case.Tyre, q.Case.Obstacles
	m, err := s.Mechanism()
	if err != nil {
		return nil, err
	}
	c.moved = clearance.Carried(j, variant, s.Corner.Hub) != kinematics.Vec{}
	for i := range c.Obstacles {
		c.onUpright = c.onUpright || c.Obstacles[i].Carrier == swept.OnUpright
	}
	if c.Result, err = swept.Sweep(m, q.Case, swept.Fine(q.Span)); err != nil {
		return nil, s.Named(err)
	}
	if c.Rim, err = clearance.RimOf(j, variant, m); err != nil {
		return nil, s.Named(err)
	}
	c.Judged = c.Rim.Judge(j, q.Answered(&c.Result), c.Result.Unmet)
	return c, nil
}

// Problem is an error for each thing that the wheel touches, for a brake that
// does not pass through the rim, and for a mounting face outside it; nil where
// there is none.
func (c *Clearance) Problem() error { return c.Source.namedEach(c.Judged.Problem()) }

var onNames = map[swept.Carrier]string{swept.OnBody: "body", swept.OnUpright: "upright", swept.OnDamper: "damper"}

// Sheet is the answer: the gaps, and what stands inside the rim.
func (c *Clearance) Sheet() *sheet.Sheet {
	s := &c.Source
	rolled := ""
	if c.Roll > 0 {
		rolled = ", roll ±" + sheet.Number(sheet.Toe, c.Roll).Phrase(s.Unit)
	}
	title := fmt.Sprintf("least gap of the tyre over travel %s to %s, rack %s right to %s left%s",
		signedLength(-s.Droop, s.Unit), signedLength(s.Bump, s.Unit), lengthText(s.RackRight, s.Unit), lengthText(s.RackLeft, s.Unit), rolled)
	return &sheet.Sheet{Job: s.Job, Variant: s.Variant, Rests: s.Rests(car.OnRoom), Title: title, Unit: s.Unit, Notes: c.notes, Caution: Caution, Items: []sheet.Item{c.gaps("obstacles", 0), c.inRim(),
		sheet.Field{Key: "verdict", Cell: sheet.Words(c.Judged.Words(units.Millimetre))}, sheet.Field{Key: "places_out_of_reach", Cell: sheet.Number(sheet.Plain, float64(c.Result.Unmet))}}}
}

// gaps are the least gaps to the job's obstacles; null in a file without any.
func (c *Clearance) gaps(key string, on sheet.Faces) sheet.Item {
	if len(c.Result.Answers) == 0 {
		return sheet.Field{Key: key, Cell: sheet.Cell{}.If(false)}
	}
	t := &sheet.Table{Title: "Obstacle", On: on, Key: key, Columns: []sheet.Column{
		{Role: sheet.Name, Key: "name"},
		{Title: "on", Role: sheet.Text, Key: "on"},
		{Title: "gap", Key: "gap_mm"},
		{Title: "wished", UnitTitle: "unit", Key: "wished_mm"},
		{Key: "kept", On: sheet.InFile},
		{Role: sheet.Text, On: sheet.OnScreens},
		{Title: "at travel", Key: "travel_mm"},
		{Title: "rack", Key: "rack_mm"},
		{Title: "roll", UnitIn: true, Key: "roll_deg"},
		{Title: "at rest", Key: "gap_at_rest_mm"},
		{Key: "wheel", On: sheet.InFile}, // left or right
	}, Groups: sheet.Rows()}
	length := func(mm float64) sheet.Cell { return sheet.Number(sheet.Taped, mm) }
	for i := range c.Result.Answers {
		a, o, at := &c.Result.Answers[i], &c.Obstacles[i], c.where(i)
		verdict := clearance.VerdictOf(a)
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(o.Name), sheet.Words(onNames[o.Carrier]), length(a.Gap), length(a.Wish), sheet.Flag(a.Keeps()),
			sheet.Words(verdict.String() + at.wheel()).Marked(gapMark(verdict == clearance.Kept)), length(at.travel).Signed(), length(at.rack).Signed(), sheet.Number(sheet.Angle, at.roll).Signed(),
			length(a.Rest), sheet.Words(sideNames[!at.right])})
	}
	return t
}

func gapMark(kept bool) sheet.Mark {
	return map[bool]sheet.Mark{true: sheet.Good, false: sheet.Bad}[kept]
}

// gapPlace is the pose of a least gap, rack and roll those of the car.
type gapPlace struct {
	travel, rack, roll float64
	right              bool // of the right wheel
}

// where is the pose of the least gap; what the upright carries has one gap in
// all, which is given at rest.
func (c *Clearance) where(i int) gapPlace {
	a := &c.Result.Answers[i]
	if c.Obstacles[i].Carrier == swept.OnUpright {
		return gapPlace{}
	}
	at := gapPlace{travel: a.Travel, roll: a.Roll}
	if at.right, at.rack = c.Source.Stops().WheelAt(a.Rack); at.right {
		at.roll = -at.roll
	}
	return at
}

// wheel names the wheel where it is not the left one.
func (p gapPlace) wheel() string {
	if p.right {
		return ", right wheel"
	}
	return ""
}

func (c *Clearance) notes(u units.Unit) []sheet.Note {
	list := []string{fmt.Sprintf("Tyre by its size code: %s across, %s wide on this rim, %s of tread, shoulders rounded; real ones differ, and grow with speed. Measure yours.",
		lengthText(2*c.Tyre.Radius, u), lengthText(c.Tyre.Section, u), lengthText(c.Tyre.Tread, u)),
		"A gap below zero is how deep they meet. Travel is this wheel's own; compliance, wear and the tyre's own give are not in it."}
	if c.onUpright {
		list = append(list, "On the upright: against rim and tyre, the barrel's inside diameter estimated from the size code; measure the wheel. Spokes are not in it.")
	}
	if c.moved {
		list = append(list, "What the upright carries goes with this variant's hub face.")
	}
	if c.Source.RackLeft != c.Source.RackRight {
		list = append(list, "The rack goes farther one way, and so does one wheel: the right one, with what stands around it, is taken as the mirror image of the left one, and named where only it goes so far.")
	}
	if len(c.Obstacles) == 0 {
		list = append(list, "The job states no obstacles around the wheel: add them under obstacles, as '- {name: inner wing, shape: point, at: {y: 560, z: 610}}'.")
	}
	list = append(list, c.rimNote(u))
	if c.Result.Unmet > 0 {
		list = append(list, fmt.Sprintf("%d places of travel, rack and roll are out of the linkage's reach and left out.", c.Result.Unmet))
	}
	return sheet.Notes(list...)
}
