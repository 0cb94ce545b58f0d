package units

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"armscribe/kinematics"
)

// An error's lengths are said in the unit of the job, wherever it is wrapped or
// joined, and what it matches stays.
func TestSaidInInches(t *testing.T) {
	reach := &kinematics.ReachError{Link: kinematics.UpperArm, Short: 12.7, Travel: -63.5, Rack: 25.4, Limit: -50.8, HasLimit: true}
	parts := &kinematics.AssemblyError{Link: kinematics.UpperArm, Short: 2.54}
	err := fmt.Errorf("car: %w", errors.Join(reach, errors.New("2 mm of paint"), parts))
	got := Said(err, Inch)
	for _, want := range []string{"is 0.500 in short at travel −2 1/2 in, rack +1 in; it binds at −2 in", "upper arm is 0.100 in short", "2 mm of paint", "car: "} {
		if !strings.Contains(got.Error(), want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
	if strings.Count(got.Error(), "mm") != 1 || !errors.Is(got, kinematics.ErrUnreachable) {
		t.Errorf("%q", got)
	}
	if Said(err, Millimetre) != err || Said(nil, Inch) != nil {
		t.Error("mm are said anew")
	}
}
