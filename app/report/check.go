package report

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"armscribe/app/room"
	"armscribe/app/units"
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
	m, err := s.mechanism()
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
func HealthOf(v *room.Judgement, problem error) Health {
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
func Summary(sources []Source, health Health, aims *Aims, notes ...string) string {
	s := &sources[0]
	axle := "front axle"
	if s.Rear {
		axle = "rear axle, fixed toe link"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\n", oneLine(s.Job), healthWords[health])
	lengths := "mm"
	if s.Unit == units.Inch {
		lengths = "inches"
	}
	fmt.Fprintf(&b, "%s, lengths in %s, travel %s to %s", axle, lengths, signedLength(-s.Droop, s.Unit), signedLength(s.Bump, s.Unit)+assumedIf(s.TravelAssumed))
	if !s.Rear {
		fmt.Fprintf(&b, ", rack %s right to %s left%s", lengthText(s.RackRight, s.Unit), lengthText(s.RackLeft, s.Unit), assumedIf(s.RackAssumed))
	}
	b.WriteString("\n\n")
	g := grid{columns: []align{left, left, point, left, point, left}}
	g.row("variant", "measured within", "assembles from", "", "to", "")
	for i := range sources {
		g.row(sources[i].summary()...)
	}
	b.WriteString(g.String() + "\n")
	if aims != nil {
		b.WriteString(aims.Table(false) + "\n")
	}
	for i := range sources {
		if note := sources[i].radiusNote(); note != "" {
			fmt.Fprintf(&b, "estimate: %s: %s\n", oneLine(sources[i].Variant), note)
		}
	}
	for _, n := range notes {
		b.WriteString(oneLine(n) + "\n")
	}
	b.WriteString(Caution + "\n")
	return b.String()
}

func (s *Source) summary() []string {
	cells := []string{oneLine(s.Variant), "±" + s.within()}
	m, err := s.mechanism()
	if err != nil {
		return append(cells, "no mechanism", "", "", "")
	}
	r, err := m.Range(0)
	if err != nil {
		return append(cells, outOfReach, "", "", "")
	}
	end := func(mm float64) string { return units.Signed(units.Taped.Number(mm, s.Unit)) }
	return append(cells, end(r.Droop.Travel), r.Droop.Link.String()+" binds", end(r.Bump.Travel), r.Bump.Link.String()+" binds")
}
