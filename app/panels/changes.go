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
		c.now, c.before, c.travel, c.rack, c.made = now.Case, before.Case, travel, rack, true
		var err error
		c.bands, err = kinematics.ChangeBands(&before.Mechanism, &now.Mechanism, before.Case.Within, now.Case.Within, travel, rack)
		c.ok = err == nil
	}
	s.change, s.hasChange = c.bands, c.ok
}
