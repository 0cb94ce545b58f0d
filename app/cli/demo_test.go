package cli

import (
	"encoding/json"
	"strings"
	"testing"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/kinematics"
)

// asked is a command's answer as JSON.
func asked[T any](t *testing.T, args ...string) (a T) {
	t.Helper()
	if err := json.Unmarshal([]byte(answer(t, append(args, "--format", "json"))), &a); err != nil {
		t.Fatal(err)
	}
	return a
}

// TestGravelEstateTellsWhatTouches: as measured the tyre keeps its distance from
// everything; farther out on spacers it runs into the footwell at full lock,
// and with longer arms, which leave the swing about the axis as it was, it does not.
func TestGravelEstateTellsWhatTouches(t *testing.T) {
	t.Chdir("../..")
	type gap struct {
		Name   string
		Gap    float64 `json:"gap_mm"`
		Wished float64 `json:"wished_mm"`
		Travel float64 `json:"travel_mm"`
		Rack   float64 `json:"rack_mm"`
	}
	for variant, touches := range map[string]string{"as measured": "", "spacers only": "footwell corner", "longer arms": ""} {
		a := asked[struct {
			Job       string
			Obstacles []gap
		}](t, "clearance", front, "--variant", variant)
		if len(a.Obstacles) != 6 || a.Obstacles[0].Wished != 12 || !strings.HasSuffix(a.Job, " (invented example)") {
			t.Fatalf("%+v", a)
		}
		for _, g := range a.Obstacles {
			if g.Name == touches {
				if g.Gap >= 0 || g.Travel != 90 || g.Rack != 60 {
					t.Errorf("%s: %+v does not touch at full bump and lock", variant, g)
				}
			} else if g.Gap < g.Wished {
				t.Errorf("%s: %+v", variant, g)
			}
		}
	}
}

// TestGravelEstateTellsOfItsJoints: one comes near its limit, none reaches it.
func TestGravelEstateTellsOfItsJoints(t *testing.T) {
	t.Chdir("../..")
	type tilt struct {
		Joint  string
		Margin float64 `json:"margin_deg"`
		Band   float64 `json:"band_95"`
	}
	for _, variant := range []string{"as measured", "spacers only", "longer arms"} {
		for _, j := range asked[struct{ Joints []tilt }](t, "joints", front, "--variant", variant).Joints {
			if near := j.Joint == "upper_ball"; j.Margin <= j.Band || near && variant != "longer arms" && j.Margin > 1 {
				t.Errorf("%s: %+v", variant, j)
			}
		}
	}
}

// TestGravelEstateShowsGreenAndRed: every variant meets targets and misses
// others, and the first stack that the spacers make brings the toe within its
// target.
func TestGravelEstateShowsGreenAndRed(t *testing.T) {
	t.Chdir("../..")
	missed := map[string]string{"as measured": "ride_toe track", "spacers only": "scrub_radius ride_toe", "longer arms": "ride_toe"}
	j, err := job.Load(front)
	if err != nil {
		t.Fatal(err)
	}
	for i := range j.Variants {
		var names []string
		results := targets.Evaluate(car.Of(j, &j.Variants[i]), &j.Targets)
		for _, r := range results {
			if r.Verdict == targets.Missed {
				names = append(names, r.Kind.String())
			} else if r.Verdict != targets.Met {
				t.Errorf("%s: %+v", j.Variants[i].Name, r)
			}
		}
		if got := strings.Join(names, " "); len(results) != 5 || got != missed[j.Variants[i].Name] {
			t.Errorf("%s misses %q of %d", j.Variants[i].Name, got, len(results))
		}
	}
	type stack struct {
		Height float64 `json:"height_mm"`
		Most   float64 `json:"max_toe_change_deg"`
	}
	stacks := asked[struct{ Stacks []stack }](t, "tune", front, "--free=outer_end.z=-14..14").Stacks
	if len(stacks) == 0 || stacks[0].Most > 0.1 {
		t.Fatalf("no stack cures it: %+v", stacks)
	}
	at := j.Variants[0].Point(kinematics.OuterEnd)
	at.Z += stacks[0].Height
	j.Variants[0].SetPoint(kinematics.OuterEnd, at)
	for _, r := range targets.Evaluate(car.Of(j, &j.Variants[0]), &j.Targets) {
		if r.Kind == targets.RideToe && r.Value > r.Asked.Max {
			t.Errorf("with the stack: %+v", r)
		}
	}
}
