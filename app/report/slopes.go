package report

import "armscribe/kinematics"

// slopes takes how values move with every measured coordinate of the source's
// corner, which must be a mechanism.
func (s *Source) slopes(of func(m *kinematics.Mechanism) []kinematics.Value) kinematics.Linear {
	l, err := kinematics.Linearise(&s.Corner, s.Within, func(c *kinematics.Corner) ([]kinematics.Value, error) {
		m, err := kinematics.New(c)
		if err != nil {
			return nil, err
		}
		return of(&m), nil
	})
	if err != nil {
		panic("report: no mechanism is linearised: " + err.Error())
	}
	return l
}
