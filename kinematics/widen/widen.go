// Package widen makes a track wider in the two ways there are, spacers and
// longer arms, and finds which of them reaches a wished track within a limit on
// the scrub radius. It holds maths only; axes, units and signs are those of
// package kinematics.
//
// A spacer pushes the wheel out along its spin axis and leaves the steering
// axis where it is: scrub radius, swing and the lever of every force at the
// tyre grow. Longer arms move the whole upright out with the wheel: scrub
// radius and swing stay, and arms, tie rod and the spring's leverage change.
package widen

import (
	"errors"
	"fmt"
	"math"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/peak"
)

// ErrWiden: a number no track can be widened by; the error names it.
var ErrWiden = errors.New("the track cannot be changed by that")

// MaxBy is the most by which one side is widened or narrowed, mm. It catches a
// number in the wrong unit.
const MaxBy = 500.0

// Proposals are the two ways side by side. There are no Spacers where they would
// have to be thinner than nothing.
type Proposals struct {
	Spacers, Arms kinematics.Corner
	HasSpacers    bool
}

// By returns both ways of making one side of the track wider by mm, measured
// along the spin axis for the spacer and along y for the arms; on an upright
// wheel both are the same. Farther in than the spacer is thick there are only the
// arms. Errors: one that matches ErrWiden, for a number that is none, and those of
// [kinematics.New] for either proposal.
func By(c kinematics.Corner, mm float64) (Proposals, error) {
	if !(math.Abs(mm) <= MaxBy) {
		return Proposals{}, faultOf("%s a side is not within ±%s; check the number and its unit", mm, MaxBy)
	}
	p := Proposals{Arms: Arms(c, mm)}
	if _, err := kinematics.New(&p.Arms); err != nil {
		return Proposals{}, err
	}
	n := Spacers(c, mm)
	if n.Wheel.Spacer < 0 && mm < 0 {
		return p, nil
	}
	if _, err := kinematics.New(&n); err != nil {
		return Proposals{}, err
	}
	p.Spacers, p.HasSpacers = n, true
	return p, nil
}

// Spacers returns the corner with mm more between hub and wheel.
func Spacers(c kinematics.Corner, mm float64) kinematics.Corner {
	c.Wheel.Spacer = sum(c.Wheel.Spacer, mm)
	return c
}

// Arms returns the corner with the whole upright mm farther out along y: both
// ball joints, outer tie-rod end, hub face, and a spring's end that the upright
// carries. Everything inboard stays, a spring's end on an arm too, so that arms
// and tie rod grow by about mm.
func Arms(c kinematics.Corner, mm float64) kinematics.Corner {
	for _, p := range [...]kinematics.Point{kinematics.UpperBall, kinematics.LowerBall, kinematics.OuterEnd, kinematics.HubFace} {
		c.At(p).Y = sum(c.At(p).Y, mm)
	}
	if c.Spring.Carrier == kinematics.OnUpright {
		c.Spring.Moving.Y = sum(c.Spring.Moving.Y, mm)
	}
	return c
}

// Rods is how the steering follows an upright that has moved out.
type Rods uint8

// The ways. RodLengthened is what Arms returns: the old rack, its ends where
// they were, and a longer tie rod. RodKept is the old tie rod with the rack's
// end moved out as far as the upright, by a longer rack or a piece at its end.
// RackEndFitted puts the rack's end where the wheel steers itself least, rod
// length and height following.
const (
	RodLengthened Rods = iota
	RodKept
	RackEndFitted
)

// WithRods returns an upright moved out by mm, as of Arms, with its steering
// arranged. The fit of RackEndFitted is over the given travels, four at least,
// by [kinematics.Mechanism.RackEndSpace]; the others do not look at them.
// Errors are those of kinematics.New and RackEndSpace.
func WithRods(arms kinematics.Corner, mm float64, rods Rods, travel []float64) (kinematics.Corner, error) {
	switch rods {
	case RodLengthened:
	case RodKept:
		arms.TieRod.RackEnd.Y += mm
	case RackEndFitted:
		m, err := kinematics.New(&arms)
		if err != nil {
			return kinematics.Corner{}, err
		}
		at, _, err := m.RackEndSpace(travel)
		if err != nil {
			return kinematics.Corner{}, err
		}
		arms.TieRod.RackEnd = at
	default:
		panic(fmt.Sprintf("kinematics: widen: no way %d of the rods", rods))
	}
	if _, err := kinematics.New(&arms); err != nil {
		return kinematics.Corner{}, err
	}
	return arms, nil
}

// RideToe is how a wheel steers itself over travel.
type RideToe struct {
	Rate float64 // rad per mm at rest, positive: toes in as the wheel rises
	Most float64 // rad, the largest change of toe from rest, as a magnitude
	At   float64 // mm of travel where that is
}

// rideFine is how closely the place of the largest change is sought, mm: toe is
// flat there, so that the change is right to rounding.
const rideFine = 0.01

// RideToeOver returns the ride toe from the first to the last of travels in rising
// order, the rack in the middle; the largest change is found between them, not
// sampled at them. Errors are those of [kinematics.Mechanism.At].
func RideToeOver(m *kinematics.Mechanism, travel []float64) (RideToe, error) {
	rest, err := m.At(0, 0)
	if err != nil {
		return RideToe{}, err
	}
	r := rest.Readings()
	toe0, _ := r.Of(kinematics.Toe) // exists in every pose
	change := func(h float64) float64 {
		p, e := m.At(h, 0)
		if e != nil {
			err = e
			return 0
		}
		r := p.Readings()
		toe, _ := r.Of(kinematics.Toe)
		return math.Abs(toe - toe0)
	}
	var out RideToe
	out.Rate, _ = r.Of(kinematics.RideToe) // none on a dead point, which New refuses
	at := make([]float64, len(travel))
	for i, h := range travel {
		at[i] = change(h)
	}
	for i, h := range travel {
		low, high := max(i-1, 0), min(i+1, len(travel)-1)
		if at[i] < at[low] || at[i] < at[high] {
			continue
		}
		if place, most := peak.About(change, travel[low], h, travel[high], at[i], rideFine); most > out.Most {
			out.Most, out.At = most, place
		}
	}
	if err != nil {
		return RideToe{}, err
	}
	return out, nil
}
