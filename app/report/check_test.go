package report

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"armscribe/kinematics"
)

func TestDemosAreFine(t *testing.T) {
	for _, path := range allJobs {
		if err := Check(sourcesOf(t, path)); err != nil {
			t.Errorf("%s: %v", path, err)
		}
	}
}

func TestCheckFindsWhatIsOutOfReach(t *testing.T) {
	for _, c := range []struct {
		name string
		set  func(*Source)
		want []string // one a line
	}{
		{"bump", func(s *Source) { s.Bump = 311 }, []string{"lower arm is 4.4 mm short at travel +311.0 mm"}},
		{"bump and droop", func(s *Source) { s.Bump, s.Droop = 311, 290 }, []string{"travel +311.0 mm", "travel -290.0 mm"}},
		{"left lock", func(s *Source) { s.RackLeft = 143 }, []string{
			"tie rod is 3.3 mm too long at travel +0.0 mm, rack +143.0 mm",
			"right corner, rack seen in the mirror: tie rod is 12.6 mm short at travel +0.0 mm, rack -143.0 mm"}},
		{"right lock", func(s *Source) { s.RackRight = 143 }, []string{
			"tie rod is 12.6 mm short at travel +0.0 mm, rack -143.0 mm",
			"right corner, rack seen in the mirror: tie rod is 3.3 mm too long at travel +0.0 mm, rack +143.0 mm"}},
		// Either alone is in reach.
		{"lock in droop", func(s *Source) { s.RackRight, s.Droop = 120, 150 }, []string{"travel -150.0 mm, rack -120.0 mm; it binds at -114.4 mm"}},
	} {
		sources := sourcesOf(t, frontJob)[:1]
		c.set(&sources[0])
		err := Check(sources)
		if !errors.Is(err, kinematics.ErrUnreachable) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		lines := strings.Split(err.Error(), "\n")
		if len(lines) != len(c.want) {
			t.Errorf("%s: %d lines, want %d:\n%v", c.name, len(lines), len(c.want), err)
			continue
		}
		for i, want := range c.want {
			if !strings.Contains(lines[i], want) || !strings.HasPrefix(lines[i], `variant "as measured": `) {
				t.Errorf("%s: %q does not say %q", c.name, lines[i], want)
			}
		}
	}
}

func TestLocksOfBothCorners(t *testing.T) {
	s := Source{RackLeft: 61, RackRight: 47}
	if got := s.locks(); !slices.Equal(got, []lock{{61, false}, {-47, false}, {-61, true}, {47, true}}) {
		t.Errorf("locks %v", got)
	}
	s.RackRight = 61
	if got := s.locks(); !slices.Equal(got, []lock{{61, false}, {-61, false}}) {
		t.Errorf("locks %v", got)
	}
	s.Rear = true
	if got := s.locks(); got != nil {
		t.Errorf("a toe link with locks %v", got)
	}
}
