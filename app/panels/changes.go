package panels

import (
	"armscribe/kinematics"
	"armscribe/kinematics/study"
)

// changes keeps the bands of the change against the compared variant: they cost
// more than all else here, and much is shown again and again.
type changes struct {
	now, before  study.Case
	travel, rack float64
	made, ok     bool
	from         kinematics.Linear // the compared variant there, which stays while a hand works
	fromErr      error
	bands        kinematics.Bands
}

// fill puts the bands of the change into a snapshot of the input.
func (c *changes) fill(s *snapshot, in *Input) {
	if !s.compared || s.hasRight {
		return
	}
	now, before := &in.Frame.Now.Study, &in.Frame.Before.Study
	travel, rack := s.now.Travel, s.now.Rack
	if !c.made || c.now != now.Case || c.before != before.Case || c.travel != travel || c.rack != rack {
		if !c.made || c.before != before.Case || c.travel != travel || c.rack != rack {
			c.from, c.fromErr = before.Mechanism.Linear(before.Case.Within, travel, rack)
		}
		c.now, c.before, c.travel, c.rack, c.made = now.Case, before.Case, travel, rack, true
		to, err := now.Mechanism.Linear(now.Case.Within, travel, rack)
		if c.ok = err == nil && c.fromErr == nil; c.ok {
			c.bands = kinematics.BandsOfChange(&c.from, &to)
		}
	}
	s.change, s.hasChange = c.bands, c.ok
}
