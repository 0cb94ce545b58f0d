package widen

import (
	"fmt"
	"slices"

	"armscribe/kinematics"
)

// mostLooks is the most positions, for each travel and rack, at which the linkage
// may be looked at to find those that a comparison asks for: it measures corners
// some 170 times over. Nearly all corners of cars need none, one whose tie rod comes
// in line at the ends of the rack some 20, and one with points at the origin up to
// 500. At the most a comparison assembles the linkage a million times.
const mostLooks = 100

// check refuses a corner on which a comparison would try too much: itself or with
// its arms changed by mm, with their rods arranged in every way that is compared.
func (s *Setup) check(c, arms kinematics.Corner, mm float64) error {
	most := mostLooks * len(s.Travel) * len(s.Rack)
	for _, l := range []struct {
		name   string
		corner kinematics.Corner
		out    float64
	}{{"the corner as it is", c, 0}, {"the corner with its arms changed", arms, mm}} {
		if s.looks(l.corner, l.out) > most {
			return wild(fmt.Sprintf("%s cannot be compared over a travel of %s to %s mm: an arm swings too far there, or a link stays too near full reach; check the points of arms and tie rod, or ask for less travel",
				l.name, num(slices.Min(s.Travel)), num(slices.Max(s.Travel))))
		}
	}
	return nil
}

// looks is at how many positions of a corner, or of one with its rod arranged
// otherwise, measuring it once looks.
func (s *Setup) looks(c kinematics.Corner, out float64) int {
	n := 0
	for _, rods := range []Rods{RodLengthened, RodKept, RackEndFitted} {
		racks := []float64{0}
		if rods == RodLengthened {
			racks = s.Rack
		}
		with, err := WithRods(c, out, rods, s.Travel)
		if err != nil {
			continue // a measure that does not exist
		}
		m, err := kinematics.New(&with)
		if err != nil {
			panic("kinematics: widen: " + err.Error()) // WithRods has made it
		}
		for _, h := range s.Travel {
			for _, k := range racks {
				n += m.Looks(h, k)
			}
		}
	}
	return n
}
