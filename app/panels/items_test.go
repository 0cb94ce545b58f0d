package panels

import (
	"testing"

	"armscribe/kinematics"
)

// Every quantity has its line among the readings of the window.
func TestEveryQuantityHasALine(t *testing.T) {
	for q := range kinematics.QuantityCount {
		found := false
		for _, it := range items {
			found = found || it.Of == q
		}
		if !found {
			t.Errorf("%s has no line", q)
		}
	}
}
