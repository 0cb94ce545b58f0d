package report

import (
	"errors"
	"fmt"
	"slices"

	"armscribe/app/car"
	"armscribe/app/clearance"
	"armscribe/app/figures"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Check reports, for a job that reads without problems, what of its own travel
// and rack is out of reach: one error for each variant and position, with the
// range in reach. It matches kinematics.ErrUnreachable.
func Check(sources []Source) error {
	var errs []error
	for i := range sources {
		errs = append(errs, sources[i].check()...)
	}
	return errors.Join(errs...)
}

// check tries the ends of the travel, then the ends of the rack, then both at
// once; what fails alone is not repeated together.
func (s *Source) check() []error {
	m, err := s.Mechanism()
	if err != nil {
		return []error{err}
	}
	var errs []error
	try := func(travel float64, at lock) bool {
		_, err := m.At(travel, at.rack)
		if err == nil {
			return true
		}
		if at.right {
			err = fmt.Errorf("right corner, rack seen in the mirror: %w", err)
		}
		errs = append(errs, s.explain(err, at.rack))
		return false
	}
	travels := []float64{s.Bump, -s.Droop}
	for i, h := range travels {
		if !try(h, lock{}) {
			travels[i] = 0
		}
	}
	for _, at := range s.locks() {
		if !try(0, at) {
			continue
		}
		for _, h := range travels {
			if h != 0 {
				try(h, at)
			}
		}
	}
	return errs
}

// lock is an end of the rack as the corner meets it.
type lock struct {
	rack  float64
	right bool // met by the right corner, the mirror image
}

// locks are the ends of the rack. The right corner meets them with the
// opposite sign, which is new only where the rack goes farther one way.
func (s *Source) locks() []lock {
	if s.Rear {
		return nil
	}
	var list []lock
	for _, at := range []lock{{s.RackLeft, false}, {-s.RackRight, false}, {-s.RackLeft, true}, {s.RackRight, true}} {
		known := func(other lock) bool { return other.rack == at.rack }
		if at.rack != 0 && !slices.ContainsFunc(list, known) {
			list = append(list, at)
		}
	}
	return list
}

// Health is how a job stands that reads and moves.
type Health uint8

// The healths. Doubtful is a gap that is less than wished, not known or small
// only by an assumed housing.
const (
	IsFine Health = iota
	Doubtful
	NotFine // it has a problem
)

var healthWords = [...]string{"fine", "fine but for what its wheel comes near: see below", "NOT fine: see below"}

// HealthOf judges by the wheel and by problems of any kind.
func HealthOf(v *clearance.Judgement, problem error) Health {
	switch {
	case problem != nil:
		return NotFine
	case !v.Fine():
		return Doubtful
	}
	return IsFine
}

// Summary is what is said of a job that reads and moves, with its targets; aims
// may be nil. notes are said above the caution, one a line.
func Summary(sources []Source, health Health, aims *Targets, notes ...string) *sheet.Sheet {
	s := &sources[0]
	axle, lengths := "front axle", "mm"
	if s.Rear {
		axle = "rear axle, fixed toe link"
	}
	if s.Unit == units.Inch {
		lengths = "inches"
	}
	head := fmt.Sprintf("%s, lengths in %s, travel %s to %s", axle, lengths, signedLength(-s.Droop, s.Unit), signedLength(s.Bump, s.Unit)+assumedIf(s.TravelAssumed.Any()))
	if !s.Rear {
		head += fmt.Sprintf(", rack %s right to %s left%s", lengthText(s.RackRight, s.Unit), lengthText(s.RackLeft, s.Unit), assumedIf(s.RackAssumed.Any()))
	}
	t := &sheet.Table{Columns: []sheet.Column{{Role: sheet.Text, Title: "variant"}, {Role: sheet.Text, Title: "measured within"},
		{Title: "assembles from"}, {Role: sheet.Text}, {Title: "to"}, {Role: sheet.Text}, {Role: sheet.Text}}, Groups: sheet.Rows()}
	out := &sheet.Sheet{Job: s.Job, Title: healthWords[health], Head: []string{head}, Unit: s.Unit, Items: []sheet.Item{t}, Caution: Caution}
	var foot []string
	for i := range sources {
		t.Groups[0].Rows = append(t.Groups[0].Rows, sources[i].summary())
		if note := sources[i].radiusNote(); note != "" {
			foot = append(foot, "estimate: "+oneLine(sources[i].Variant)+": "+note)
		}
		if note := sources[i].restsNote(car.OnRoom); note != "" {
			foot = append(foot, note)
		}
	}
	if aims != nil {
		out.Items = append(out.Items, aims.Tables(false)[0])
	}
	out.Notes = func(units.Unit) []sheet.Note { return sheet.Notes(append(foot, notes...)...) }
	return out
}

func (s *Source) summary() sheet.Row {
	row := sheet.Row{sheet.Words(s.Variant), sheet.Words("±" + s.within())}
	m, err := s.Mechanism()
	if err != nil {
		return append(row, sheet.Words("no mechanism"))
	}
	r, err := m.Range(0)
	if err != nil {
		return append(row, sheet.Words(figures.OutOfReach))
	}
	for _, end := range []kinematics.TravelLimit{r.Droop, r.Bump} {
		row = append(row, sheet.Number(sheet.Taped, end.Travel).Signed(), sheet.Words(end.Link.String()+" binds"))
	}
	if len(s.Rests(0)) > 0 {
		row = append(row, sheet.Words("assumed"))
	}
	return row
}
