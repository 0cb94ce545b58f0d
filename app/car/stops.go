package car

// Stops are how far a car's rack goes to the car's left and right, mm, both at
// least 0. The corner is the left one. The right wheel is its mirror image and
// meets the rack the other way round: where the stops differ it goes farther.
type Stops struct{ Left, Right float64 }

// Stops are those of the car's rack.
func (c *Car) Stops() Stops { return Stops{c.RackLeft, c.RackRight} }

// Most is how far the rack goes either way as one of both wheels sees it.
func (s Stops) Most() float64 { return max(s.Left, s.Right) }

// beyondStop is by how much, mm, a place may lie behind a stop by rounding.
const beyondStop = 1e-6

// WheelAt tells which wheel goes to a place of the rack as the corner sees it,
// and what the rack is then, positive to the car's left: it is the right wheel
// where the left one does not go so far.
func (s Stops) WheelAt(rack float64) (right bool, car float64) {
	if rack > s.Left+beyondStop || rack < -s.Right-beyondStop {
		return true, -rack
	}
	return false, rack
}
