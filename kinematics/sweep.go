package kinematics

// SweepTravel solves the corner at each travel, the rack held, and writes the
// readings to dst, which must be as long as travel. It stops at the first
// travel that is out of reach and returns how many were solved, with the
// *ReachError. It allocates nothing while all is in reach.
func (m *Mechanism) SweepTravel(dst []Readings, travel []float64, rack float64) (int, error) {
	var p Pose
	for i, h := range travel {
		if err := m.solve(h, rack, &p); err != nil {
			return i, err
		}
		p.read(&dst[i])
	}
	return len(travel), nil
}

// SweepRack is SweepTravel over rack positions, the travel held.
func (m *Mechanism) SweepRack(dst []Readings, travel float64, rack []float64) (int, error) {
	var p Pose
	for i, x := range rack {
		if err := m.solve(travel, x, &p); err != nil {
			return i, err
		}
		p.read(&dst[i])
	}
	return len(rack), nil
}
