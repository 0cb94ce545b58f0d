package report

import (
	"errors"
	"fmt"
	"math"

	"armscribe/app/car"
	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// RackFreedoms are the ways in which a rack is moved, as with another engine or
// other mounts.
var RackFreedoms = []bumpsteer.Freedom{bumpsteer.RackHeight, bumpsteer.RackEndSide, bumpsteer.RackForeAft}

const (
	// rackSteps is how many steps the rack is moved either way.
	rackSteps = 3
	// maxRackStep, mm: three of them are as far as a rack was ever moved.
	maxRackStep = 100
)

// RackMoveStep is the step of a rack's moves unless another is chosen, mm: engine
// mounts move it so.
func RackMoveStep(u units.Unit) float64 { return DefaultStep(u) }

// RackMoved is a family of toe curves with the rack moved one way, from
// downmost, inmost or rearmost on, the present one in the middle.
type RackMoved struct {
	Source  Source
	Setup   tune.Setup
	Freedom bumpsteer.Freedom
	Curves  []bumpsteer.FanCurve
	rests   car.Rest
}

// RackMovedOf moves the rack of one variant of a job without problems, a few steps
// of mm either way, over a travel range that holds rest. Errors match
// bumpsteer.ErrRange, name a step that is none, or name the variant.
func RackMovedOf(j *job.Job, variant int, f bumpsteer.Freedom, step, from, to float64) (*RackMoved, error) {
	m := &RackMoved{Source: SourceOf(j, variant), Setup: tune.SetupOf(j, variant), Freedom: f}
	m.rests = m.Source.Over(from, to)
	if !(step > 0 && step <= maxRackStep) {
		return nil, fmt.Errorf("step of the rack: must be above zero and at most %s", units.ShortLength(maxRackStep, j.Units))
	}
	var moves []float64
	for k := -rackSteps; k <= rackSteps; k++ {
		moves = append(moves, float64(k)*step)
	}
	var err error
	if m.Curves, err = bumpsteer.Fan(m.Source.Corner, f, moves, bumpsteer.Goal{From: from, To: to}); err != nil {
		return nil, m.Source.Named(err)
	}
	return m, nil
}

// InUnit has screens show lengths in another unit than the job's.
func (m *RackMoved) InUnit(u units.Unit) { m.Source.Unit, m.Setup.Unit = u, u }

// By is how far the rack is moved for a curve, mm.
func (m *RackMoved) By(i int) float64 { return m.Curves[i].Moves[m.Freedom] }

// Sheet is the answer.
func (m *RackMoved) Sheet() *sheet.Sheet {
	return m.Source.sheet(m.rests, "toe curve with the "+m.Setup.InnerEnd()+" moved", func(units.Unit) []sheet.Note { return sheet.Notes(rackNote) }, m.table(), rackFile(m))
}

const rackNote = "Moved: the rod is cut each time to keep the resting toe; largest: between full droop and full bump, with its sign."

// what says which way is positive and what it does.
func (m *RackMoved) what() string {
	switch name := m.Setup.FreedomName(m.Freedom); m.Freedom {
	case bumpsteer.RackHeight:
		return name + ", positive up: slopes the curve"
	case bumpsteer.RackEndSide:
		return name + ", positive outboard: bows the curve"
	default:
		return name + ", positive forward"
	}
}

// table has one row for each place of the rack.
func (m *RackMoved) table() *sheet.Table {
	k := m.Setup.Gauge
	on := sheet.OnScreens
	if k.Width == 0 {
		on = 0
	}
	t := &sheet.Table{Title: "Moved: " + m.what(), Above: true, On: sheet.OnScreens, UnitRow: true, Groups: sheet.Rows(), Columns: []sheet.Column{
		{Title: "moved"}, {Title: "full bump"}, {Title: "full droop"}, {Title: "largest"}, {Title: "across " + lengthText(k.Width, m.Source.Unit), On: on}, {Role: sheet.Text}}}
	for i := len(m.Curves) - 1; i >= 0; i-- {
		c := &m.Curves[i]
		bump, droop, largest, across := sheet.Missing(sheet.Toe, figures.OutOfReach), sheet.Missing(sheet.Toe, figures.OutOfReach), sheet.Missing(sheet.Toe, figures.OutOfReach), sheet.Missing(sheet.Length, figures.OutOfReach)
		if toe := c.Curve.Toe; len(toe) > 0 {
			v := farthest(toe)
			largest, across = sheet.Number(sheet.Toe, v).Signed(), sheet.Number(sheet.Length, k.Length(v)).Signed()
			if c.Err == nil {
				bump, droop = sheet.Number(sheet.Toe, toe[len(toe)-1]).Signed(), sheet.Number(sheet.Toe, toe[0]).Signed()
			}
		}
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Number(sheet.Travel, m.By(i)).Signed(), bump, droop, largest, across, sheet.Words(m.placeWords(i))})
	}
	return t
}

func (m *RackMoved) placeWords(i int) string {
	switch err := m.Curves[i].Err; {
	case m.By(i) == 0:
		return "as it stands"
	case errors.Is(err, kinematics.ErrUnreachable):
		return "as far as it reaches"
	case err != nil:
		return err.Error()
	}
	return ""
}

// farthest is the value farthest from nought, with its sign.
func farthest(list []float64) float64 {
	far := 0.0
	for _, v := range list {
		if math.Abs(v) > math.Abs(far) {
			far = v
		}
	}
	return far
}

// rackFile has the curves of some families.
func rackFile(list ...*RackMoved) *sheet.Table {
	t := &sheet.Table{On: sheet.InFile, GroupKey: "if_the_rack_moves", Key: "curves", Columns: []sheet.Column{{Key: "move_mm"}, {Key: "travel_mm"}, {Key: "toe_change_deg"}}}
	for _, m := range list {
		g := sheet.Group{Fields: []sheet.Field{{Key: "name", Cell: sheet.Words(m.Freedom.Key())}}}
		for i := range m.Curves {
			c := &m.Curves[i].Curve
			g.Rows = append(g.Rows, sheet.Row{sheet.Number(sheet.Travel, m.By(i)), sheet.Numbers(sheet.Travel, c.At), sheet.Numbers(sheet.Toe, c.Toe)})
		}
		t.Groups = append(t.Groups, g)
	}
	return t
}
