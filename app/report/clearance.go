package report

import (
	"fmt"

	"armscribe/app/job"
	"armscribe/app/room"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// Clearance is the least gap of one variant's tyre to each obstacle of its job.
type Clearance struct {
	Source    Source
	Obstacles []clearance.Obstacle
	Result    clearance.Result
	Roll      float64 // rad, either way
	Tyre      clearance.Tyre
	Rim       room.Rim
	Judged    room.Judgement
	housings  [3]room.Housing
	onUpright bool // the rim's estimated barrel counts
	moved     bool // the upright stands elsewhere than as measured
}

// ClearanceOf carries the tyre of one variant of a job without problems through
// its travel and rack, and through roll of so many radians either way. What the
// upright carries goes with the hub face, where a variant has moved it. Errors
// match room.ErrNoTyre, or name the variant and are those of its
// geometry and of package clearance.
func ClearanceOf(j *job.Job, variant int, roll float64) (*Clearance, error) {
	c := &Clearance{Source: SourceOf(j, variant), Roll: roll, housings: room.HousingsOf(j)}
	s := &c.Source
	q, err := room.QueryOf(j, variant, &s.Corner, roll)
	if err != nil {
		return nil, s.named(err)
	}
	c.Tyre, c.Obstacles = q.Case.Tyre, q.Case.Obstacles
	m, err := s.mechanism()
	if err != nil {
		return nil, err
	}
	c.moved = room.Carried(j, variant, s.Corner.Hub) != kinematics.Vec{}
	for i := range c.Obstacles {
		c.onUpright = c.onUpright || c.Obstacles[i].Carrier == clearance.OnUpright
	}
	if c.Result, err = clearance.Sweep(m, q.Case, clearance.Fine(q.Span)); err != nil {
		return nil, s.named(err)
	}
	if c.Rim, err = room.RimOf(j, variant, &s.Corner); err != nil {
		return nil, s.named(err)
	}
	c.Judged = c.Rim.Judge(j, q.Answered(&c.Result), c.Result.Unmet)
	return c, nil
}

// Problem is an error for each thing that the wheel touches, for a brake that
// does not pass through the rim, and for a mounting face outside it; nil where
// there is none.
func (c *Clearance) Problem() error { return c.Source.namedEach(c.Judged.Problem()) }

var onNames = map[clearance.Carrier]string{clearance.OnBody: "body", clearance.OnUpright: "upright", clearance.OnDamper: "damper"}

// Table prints the gaps for a person.
func (c *Clearance) Table() string {
	s := &c.Source
	rolled := ""
	if c.Roll > 0 {
		rolled = fmt.Sprintf(", roll ±%s deg", units.SmallAngles.Short(degrees(c.Roll)))
	}
	head := fmt.Sprintf("%s: %s, least gap of the tyre over travel %s to %s, rack %s right to %s left%s\n", oneLine(s.Job), oneLine(s.Variant),
		signedLength(-s.Droop, s.Unit), signedLength(s.Bump, s.Unit), lengthText(s.RackRight, s.Unit), lengthText(s.RackLeft, s.Unit), rolled)
	if len(c.Obstacles) == 0 {
		return head + "\n" + c.rimTable() + "\n" + foot(c.notes())
	}
	g := grid{columns: []align{left, left, point, point, left, left, point, point, point, point}}
	g.row("Obstacle", "on", "gap", "wished", "unit", "", "at travel", "rack", "roll, deg", "at rest")
	for i := range c.Result.Answers {
		a, o := &c.Result.Answers[i], &c.Obstacles[i]
		at := c.where(i)
		g.row("  "+oneLine(o.Name), onNames[o.Carrier], gapCell(a.Gap, s.Unit), gapCell(a.Wish, s.Unit), s.Unit.String(), room.VerdictOf(a).String()+at.wheel(),
			units.Signed(gapCell(at.travel, s.Unit)), units.Signed(gapCell(at.rack, s.Unit)), units.Signed(units.FormatNumber(degrees(at.roll), 1)), gapCell(a.Rest, s.Unit))
	}
	return head + "\n" + g.String() + "\n" + c.rimTable() + "\n" + foot(c.notes())
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
	if c.Obstacles[i].Carrier == clearance.OnUpright {
		return gapPlace{}
	}
	at := gapPlace{travel: a.Travel, roll: a.Roll}
	if at.right, at.rack = c.Source.stops().WheelAt(a.Rack); at.right {
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

// gapCell prints a gap to what a tape shows.
func gapCell(mm float64, u units.Unit) string {
	return units.Taped.Number(mm, u)
}

func (c *Clearance) notes() []string {
	u := c.Source.Unit
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
	list = append(list, c.rimNote())
	if c.Result.Unmet > 0 {
		list = append(list, fmt.Sprintf("%d places of travel, rack and roll are out of the linkage's reach and left out.", c.Result.Unmet))
	}
	return list
}

type gapJSON struct {
	Name   string  `json:"name"`
	On     string  `json:"on"`
	Gap    float64 `json:"gap_mm"`
	Wish   float64 `json:"wished_mm"`
	Kept   bool    `json:"kept"`
	Travel float64 `json:"travel_mm"`
	Rack   float64 `json:"rack_mm"`
	Roll   float64 `json:"roll_deg"`
	Rest   float64 `json:"gap_at_rest_mm"`
	Wheel  string  `json:"wheel"` // left or right
}

type clearanceJSON struct {
	Job       string    `json:"job"`
	Variant   string    `json:"variant"`
	Obstacles []gapJSON `json:"obstacles"`
	InsideRim []rimJSON `json:"inside_the_rim"`
	Verdict   string    `json:"verdict"` // in words
	Unmet     int       `json:"places_out_of_reach"`
	Notes     []string  `json:"notes"`
	Caution   string    `json:"caution"`
}

// JSON prints the gaps for a program: mm and degrees.
func (c *Clearance) JSON() string {
	mm := *c
	mm.Source.Unit = units.Millimetre
	out := clearanceJSON{Job: c.Source.Job, Variant: c.Source.Variant, Unmet: c.Result.Unmet, InsideRim: c.rimLines(), Verdict: mm.Judged.Words(units.Millimetre), Notes: mm.notes(), Caution: Caution}
	out.Obstacles = c.gapLines()
	return encode(out)
}
