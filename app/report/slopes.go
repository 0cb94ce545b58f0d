package report

import "armscribe/kinematics"

// fact is a value of a corner in mm, rad, N or N mm; ok is false where there is
// none.
type fact struct {
	value float64
	ok    bool
}

// slopes takes how facts move with every measured coordinate of the source's
// corner, which must be a mechanism.
func (s *Source) slopes(of func(m *kinematics.Mechanism) []fact) kinematics.Linear {
	l, err := kinematics.Linearise(&s.Corner, s.Within, func(c *kinematics.Corner) ([]kinematics.Value, error) {
		m, err := kinematics.New(c)
		if err != nil {
			return nil, err
		}
		facts := of(&m)
		list := make([]kinematics.Value, len(facts))
		for k, f := range facts {
			list[k] = kinematics.Number(f.value, f.ok)
		}
		return list, nil
	})
	if err != nil {
		panic("report: no mechanism is linearised: " + err.Error())
	}
	return l
}
