package cli

import (
	"strings"
	"testing"
)

// A wish typed with seven decimals is answered like any other.
func TestReachTakesManyDecimals(t *testing.T) {
	t.Chdir("../..")
	for _, wish := range [][]string{
		{"--half-track", "760.1234567", "--spacer", "0..25.7654321"},
		{"--face", "880.1234567", "--spacer", "3.1234567..30.7654321"},
	} {
		got := answer(t, append([]string{"reach", "assets/demo/flat-teaching.armscribe.yaml"}, wish...))
		if !strings.Contains(got, "ways to") {
			t.Errorf("%v: %q", wish, got)
		}
	}
}
