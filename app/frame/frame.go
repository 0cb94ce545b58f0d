// Package frame solves everything the window shows at one moment: the present
// and the compared variant over their travel, both at the present position,
// their readings and bands, and the one sentence of advice. A drag makes one
// frame for every movement of the hand, so curves and poses keep their memory;
// the diagnosis alone takes some 40 kB anew.
package frame

import (
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
	"armscribe/kinematics/study"
)

// Position is where the car stands: mm, mm, rad.
type Position struct{ Travel, Rack, Roll float64 }

// Side is one variant at the present position.
type Side struct {
	Study    study.Study
	Readings kinematics.Readings // in roll, of the left corner
	Bands    kinematics.Bands    // at the same travel and rack; roll is left out
	HasBands bool
	// Right is the right corner in roll; without roll it is the mirror image and
	// HasRight is false.
	Right    kinematics.Readings
	HasRight bool
	// Err says why the variant does not reach the position; then Readings are
	// those at the nearest travel that it reaches, with the rack straight ahead
	// and no roll if need be.
	Err error

	key    study.Case
	ok     bool
	sweeps [OverRoll + 1]sweep
}

// Frame is the whole of what is shown.
type Frame struct {
	Position  Position
	Now       Side
	Before    Side
	HasBefore bool
	Diagnosis bumpsteer.Diagnosis
	HasAdvice bool // Diagnosis holds
	diagnosed study.Case
}

// Update solves the present case, and the compared one if before is not nil,
// at a position. The error is that of a present corner that makes no
// mechanism; the frame then keeps what it held.
func (f *Frame) Update(now study.Case, before *study.Case, at Position) error {
	if err := f.Now.update(now, at); err != nil {
		return err
	}
	f.Position = at
	f.HasBefore = before != nil && f.Before.update(*before, at) == nil
	f.diagnose()
	return nil
}

// update solves one variant; what did not change since the last frame is kept.
func (s *Side) update(c study.Case, at Position) error {
	s.Err = nil
	rack := at.Rack
	if !s.ok || s.key != c || s.Study.Rack != rack {
		err := s.Study.Update(c, rack)
		if err != nil && rack != 0 { // perhaps only the rack is out of reach
			s.Err, rack = err, 0
			err = s.Study.Update(c, 0)
		}
		if err != nil {
			return err
		}
		s.key, s.ok = c, s.Err == nil
	}
	s.read(at, rack)
	return nil
}

// read takes the readings at the position, or at the nearest travel in reach.
func (s *Side) read(at Position, rack float64) {
	m := &s.Study.Mechanism
	s.Right, s.HasRight = kinematics.Readings{}, false
	if at.Roll != 0 && s.Err == nil {
		ax, err := m.Roll(at.Roll, rack)
		if err == nil {
			s.Readings, s.Right = ax.Readings()
			s.HasRight = true
			s.Bands, s.HasBands = kinematics.Bands{}, false
			return
		}
		s.Err = err
	}
	travel := at.Travel
	pose, err := m.At(travel, rack)
	if err != nil {
		if s.Err == nil {
			s.Err = err
		}
		travel = max(s.Study.From, min(travel, s.Study.To))
		if pose, err = m.At(travel, rack); err != nil {
			return
		}
	}
	s.Readings = pose.Readings()
	s.Bands, err = m.Bands(s.Study.Case.Within, travel, rack)
	s.HasBands = err == nil
}

// edgeShares of the travel in reach are tried in turn.
var edgeShares = [...]float64{0.98, 0.9, 0.7}

// diagnose looks at the toe curve of the present variant, rack straight ahead.
func (f *Frame) diagnose() {
	c := f.Now.Study.Case
	if f.HasAdvice && f.diagnosed == c {
		return
	}
	f.HasAdvice = false
	if f.Now.Study.From >= 0 || f.Now.Study.To <= 0 {
		return
	}
	d, err := bumpsteer.CurveOf(c.Corner, c.Within, f.Now.Study.From, f.Now.Study.To)
	// Where the linkage binds within the travel, a corner measured a little wrong
	// binds earlier: the curve is judged over as much as all of them reach.
	for _, share := range edgeShares {
		if err == nil || !f.Now.Study.Clipped {
			break
		}
		d, err = bumpsteer.CurveOf(c.Corner, c.Within, share*f.Now.Study.From, share*f.Now.Study.To)
	}
	if f.HasAdvice = err == nil; f.HasAdvice {
		// Only the move that is spoken of: each costs as much as the curve.
		switch {
		case d.Change < smallToe:
		case d.Slopes():
			d.FindRaise(c.Corner, c.Within)
		default:
			d.FindShift(c.Corner, c.Within)
		}
		f.Diagnosis, f.diagnosed = d, c
	}
}
