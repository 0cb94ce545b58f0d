package kinematics

import (
	"math"
	"testing"
)

// The walk to a travel takes steps of known size, small ones near full reach: it
// looks at so many positions as the lower arm's turn holds, and at none where the
// short way leads there.
func TestLooksAreThoseOfTheWalk(t *testing.T) {
	short, long := 0, 0
	for name, c := range map[string]Corner{"case B": caseB(), "lower arm binds": lowerBinds(), "upper arm binds": upperBinds(), "straight rod": straightRod()} {
		m, err := New(&c)
		if err != nil {
			t.Fatal(err)
		}
		for _, travel := range []float64{-43, -17, 6.5, 29, 51} {
			p, err := m.At(travel, 0)
			if err != nil {
				continue
			}
			turn := math.Abs(math.Atan2(p.driveSine, p.driveCosine))
			switch looks := float64(m.Looks(travel, 0)); {
			case looks == 0:
				short++
				if !m.shortWay(travel, 0, &Pose{}, &motion{}) {
					t.Errorf("%s at %g: no looks on the long way", name, travel)
				}
			default:
				long++
				if looks < turn/walkStep || looks > turn/walkSmallStep+2 {
					t.Errorf("%s at %g: %g looks over %g rad", name, travel, looks, turn)
				}
			}
		}
	}
	if short < 4 || long < 3 {
		t.Errorf("%d short and %d long ways test little", short, long)
	}
}
