package report

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/tyre"
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
		{"bump", func(s *Source) { s.Bump = 351 }, []string{"lower arm is 4.5 mm short at travel +351.0 mm"}},
		{"bump and droop", func(s *Source) { s.Bump, s.Droop = 351, 290 }, []string{"travel +351.0 mm", "travel −290.0 mm"}},
		{"left lock", func(s *Source) { s.RackLeft = 143 }, []string{
			"tie rod is 4.3 mm too long at travel 0 mm, rack +143.0 mm",
			"right corner, rack seen in the mirror: tie rod is 52.9 mm short at travel 0 mm, rack −143.0 mm"}},
		{"right lock", func(s *Source) { s.RackRight = 143 }, []string{
			"tie rod is 52.9 mm short at travel 0 mm, rack −143.0 mm",
			"right corner, rack seen in the mirror: tie rod is 4.3 mm too long at travel 0 mm, rack +143.0 mm"}},
		// Either alone is in reach.
		{"lock in droop", func(s *Source) { s.RackRight, s.Droop = 85, 150 }, []string{"travel −150.0 mm, rack −85.0 mm; it binds at "}},
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
	s := Source{car.Car{RackLeft: 61, RackRight: 47}}
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

// What a check says of tyre and wheel, and what of it is a problem.
func TestRoomIsChecked(t *testing.T) {
	j := opened(t, frontJob)
	room := func() (lines []string, health Health, problem error) {
		v, lines, problem := Room(j, 2)
		return lines, HealthOf(&v, problem), problem
	}
	j.Obstacles[2].Gap = job.Given(units.Length{MM: 40})
	lines, health, problem := room()
	if problem != nil || health != Doubtful || len(lines) != 1 || !strings.HasPrefix(lines[0], "wheel of longer arms: TOO NEAR arch lip, 35.6 mm, wished 40, at 90.0 mm bump, rack 60.0 mm left") {
		t.Errorf("%q, %v, %v", lines, health, problem)
	}
	j.Brake.Diameter.MM = 334
	if lines, _, problem = room(); !errors.Is(problem, tyre.ErrFit) || !strings.Contains(lines[0], "does not pass") {
		t.Errorf("a brake of 334 mm: %q, %v", lines, problem)
	}
	j.Brake, j.Obstacles[0].At = job.Brake{}, job.At(kinematics.Vec{X: 11, Y: 779, Z: 400})
	if _, _, problem = room(); problem == nil || !strings.Contains(problem.Error(), j.Obstacles[0].Name) {
		t.Errorf("an obstacle in the middle of the tyre: %v", problem)
	}
	j.Obstacles = nil
	if lines, health, problem = room(); problem != nil || health != IsFine || !strings.Contains(lines[0], "every wished gap is kept") {
		t.Errorf("nothing stated: %q, %v, %v", lines, health, problem)
	}
	// A housing that touches is a problem where it is typed, and a doubt where it is
	// assumed; a tyre of no known size is a doubt too.
	j.Housings.UpperBall = job.Given(units.Length{MM: 61})
	if lines, health, problem = room(); health != NotFine || problem == nil || !strings.Contains(problem.Error(), "upper ball joint touches rim or tyre") || !strings.Contains(lines[0], "TOUCHES upper ball joint") {
		t.Errorf("a large housing: %q, %v, %v", lines, health, problem)
	}
	j.Housings.UpperBall = job.Optional{}
	ball := j.Variants[2].Point(kinematics.UpperBall)
	ball.Z += 11
	j.Variants[2].SetPoint(kinematics.UpperBall, ball)
	if lines, health, problem = room(); health != Doubtful || problem != nil || !strings.Contains(lines[0], "(its housing of 44 mm is assumed)") {
		t.Errorf("a joint near the rim: %q, %v, %v", lines, health, problem)
	}
	j.Variants[2].Wheel.Tyre = ""
	if lines, health, problem = room(); health != Doubtful || problem != nil || !strings.Contains(lines[0], "clearance not known") {
		t.Errorf("no tyre: %q, %v, %v", lines, health, problem)
	}
	j.Variants[2].Wheel.Tyre = j.Variants[0].Wheel.Tyre
	j.Variants[2].Wheel.Offset.MM = -171
	if _, _, problem = room(); !errors.Is(problem, tyre.ErrFit) {
		t.Errorf("an offset of -171 mm: %v", problem)
	}
}
