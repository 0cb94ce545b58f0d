// Package bumpsteer says what is wrong with a toe curve and which move of the
// tie rod's ends would cure it. Conventions are those of package kinematics.
// Anyone may ask; package tune reads what is asked from a job.
package bumpsteer

import (
	"fmt"
	"math"

	"armscribe/kinematics"
)

// Sizes of the diagnosis.
const (
	// samples of the toe curve: slope and bow need three, the rest shows in
	// more; nine are within a hundredth of the fit from a hundred.
	samples = 9
	// step by which coordinates and ends are moved for derivatives, mm: large
	// against rounding, small against any corner.
	step = 1e-2
)

// Banded is a value with its 95 % half-width from the measuring error.
type Banded struct{ Value, Half float64 }

// Decided tells whether the band leaves zero out, so that the sign is known.
func (b Banded) Decided() bool { return math.Abs(b.Value) > b.Half }

// Diagnosis splits the toe change from rest over a travel range into a slope,
// a bow and a rest:
//
//	toe(h) - toe(0) = Slope h + Bow h^2 + rest(h)
//
// fitted by least squares. A slope comes from an outer or inner end at the
// wrong height; a bow from a tie rod too long or too short, that is a rack end
// too far out or in; the rest no rod of this kind removes.
type Diagnosis struct {
	From, To float64 // mm of travel
	Slope    Banded  // rad/mm, positive: toes in as the wheel rises
	Bow      Banded  // rad/mm^2, positive: toes in both ways
	Rest     float64 // rad, the largest part left over
	Change   float64 // rad, the largest |toe(h) - toe(0)|
	ChangeAt float64 // mm of travel where that is

	// Raise is the move of the outer end, mm up, with which the slope is zero
	// (negative: lower it); only if CanRaise: some height within reach has none.
	Raise    Banded
	CanRaise bool
	// Shift is the move of the rack end, mm outboard, with which the bow is
	// zero; only if CanShift.
	Shift    Banded
	CanShift bool
}

// parts is what one corner's toe curve comes to.
type parts struct{ slope, bow, rest, change, changeAt float64 }

// Diagnose looks at a corner over a travel range that holds rest, with every
// coordinate known within, and finds both moves. It costs about as much as 500 poses.
// Errors are those of kinematics.New and Mechanism.At.
func Diagnose(c kinematics.Corner, within kinematics.Within, from, to float64) (Diagnosis, error) {
	d, err := CurveOf(c, within, from, to)
	if err == nil {
		d.FindRaise(c, within)
		d.FindShift(c, within)
	}
	return d, err
}

// CurveOf is Diagnose without the moves, which FindRaise and FindShift add: each
// costs as much again.
func CurveOf(c kinematics.Corner, within kinematics.Within, from, to float64) (Diagnosis, error) {
	if !(from < 0 && to > 0) {
		panic(fmt.Sprintf("bumpsteer: travel %g to %g does not hold rest", from, to))
	}
	now, err := split(c, from, to)
	if err != nil {
		return Diagnosis{}, err
	}
	d := Diagnosis{From: from, To: to, Rest: now.rest, Change: now.change, ChangeAt: now.changeAt}
	l, err := linearise(c, within, from, to)
	if err != nil {
		return d, err
	}
	d.Slope, d.Bow = banded(&l, slopePart), banded(&l, bowPart)
	return d, nil
}

// Slopes tells whether the slope of the curve moves toe more than its bow does.
func (d *Diagnosis) Slopes() bool {
	reach := math.Max(-d.From, d.To)
	return math.Abs(d.Slope.Value)*reach >= math.Abs(d.Bow.Value)*reach*reach
}

// FindRaise finds the move of the outer end, for the corner that was looked at.
func (d *Diagnosis) FindRaise(c kinematics.Corner, within kinematics.Within) {
	d.Raise, d.CanRaise = d.move(c, within, &slopeRemedy, slopePart)
}

// FindShift finds the move of the rack end, for the corner that was looked at.
func (d *Diagnosis) FindShift(c kinematics.Corner, within kinematics.Within) {
	d.Shift, d.CanShift = d.move(c, within, &bowRemedy, bowPart)
}

// move is what takes a part of the curve out; false where none is in reach.
func (d *Diagnosis) move(c kinematics.Corner, within kinematics.Within, by *remedy, part int) (Banded, bool) {
	cured, r, ok := by.find(c, d.From, d.To)
	if !ok {
		return Banded{}, false
	}
	l, err := linearise(cured, within, d.From, d.To)
	if err != nil {
		return Banded{}, false
	}
	return Banded{r.mm, banded(&l, part).Half / math.Abs(r.rate)}, true
}

// The values that linearise takes of a corner.
const (
	slopePart = iota
	bowPart
)

// linearise takes how slope and bow move with the measuring error. Errors are
// those of split, of a neighbouring corner too.
func linearise(c kinematics.Corner, within kinematics.Within, from, to float64) (kinematics.Linear, error) {
	c.Spring = kinematics.Spring{} // no toe depends on it
	l, err := kinematics.Linearise(&c, within, func(c *kinematics.Corner) ([]kinematics.Value, error) {
		p, err := split(*c, from, to)
		return []kinematics.Value{slopePart: kinematics.Number(p.slope, true), bowPart: kinematics.Number(p.bow, true)}, err
	})
	if err == nil {
		err = l.Edge
	}
	return l, err
}

// banded is a value with its band; none where that is not known.
func banded(l *kinematics.Linear, k int) Banded {
	v, _ := l.Base[k].Of()
	half, _ := l.Half(k)
	return Banded{v, half}
}

// split fits the toe curve of a corner.
func split(c kinematics.Corner, from, to float64) (parts, error) {
	m, err := kinematics.New(&c)
	if err != nil {
		return parts{}, err
	}
	var travel, toe [samples]float64
	rest := c.Toe
	// Normal equations of toe - rest = slope h + bow h^2.
	var h2, h3, h4, th, th2 float64
	for i := range travel {
		f := float64(i) / (samples - 1)
		h := from*(1-f) + to*f
		p, err := m.At(h, 0)
		if err != nil {
			return parts{}, err
		}
		r := p.Readings()
		v, _ := r.Of(kinematics.Toe)
		travel[i], toe[i] = h, v-rest
		h2, h3, h4 = h2+h*h, h3+h*h*h, h4+h*h*h*h
		th, th2 = th+toe[i]*h, th2+toe[i]*h*h
	}
	det := h2*h4 - h3*h3
	p := parts{slope: (th*h4 - th2*h3) / det, bow: (th2*h2 - th*h3) / det}
	for i, h := range travel {
		p.rest = max(p.rest, math.Abs(toe[i]-p.slope*h-p.bow*h*h))
		if math.Abs(toe[i]) > p.change {
			p.change, p.changeAt = math.Abs(toe[i]), h
		}
	}
	return p, nil
}

// Raised returns the corner with its outer end raised by mm (a spacer under
// the joint, or above it when negative), the rod cut to keep the resting toe,
// and the largest toe change, rad, that is then left over the travel.
func Raised(c kinematics.Corner, mm, from, to float64) (kinematics.Corner, float64, error) {
	c.TieRod.OuterEnd.Z += mm
	p, err := split(c, from, to)
	return c, p.change, err
}
