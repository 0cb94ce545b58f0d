package report

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"armscribe/app/job"
)

const aimsJob = "../../testdata/armcalc/front-targets.armscribe.yaml"

func loaded(t *testing.T, path string) *job.Job {
	t.Helper()
	j, err := job.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func TestNoTargetsAskedNone(t *testing.T) {
	if a := TargetsOf(loaded(t, flatJob)); a != nil {
		t.Errorf("aims of a job without targets: %+v", a)
	}
}

func TestMissedNamesVariantAndTarget(t *testing.T) {
	a := TargetsOf(loaded(t, aimsJob))
	if err := a.Missed(2); err != nil {
		t.Errorf("longer arms: %v", err)
	}
	err := a.Missed(1)
	if !errors.Is(err, ErrMissed) || !strings.Contains(err.Error(), `variant "spacers only": target not met: scrub radius is to be 0 to 30 mm; it is: 41.4 ± 2.4 mm`) {
		t.Errorf("spacers: %v", err)
	}
}

// The targets' values in a file are those of the readings beside them.
func TestTargetsJSON(t *testing.T) {
	j := loaded(t, aimsJob)
	c := mustCompare(t, SourcesOf(j))
	c.Targets = TargetsOf(j)
	var got struct {
		Targets []struct {
			Key, Unit string
			Min, Max  *float64
			Bump      float64 `json:"over_bump_mm"`
			Variants  []struct {
				Variant       string
				Value         *float64
				Low           *float64 `json:"low_95"`
				High          *float64 `json:"high_95"`
				Stands, Trend string
				Best          bool
			}
		}
	}
	if err := json.Unmarshal([]byte(c.Sheet().JSON()), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Targets) != 5 {
		t.Fatalf("%d targets", len(got.Targets))
	}
	scrub, gain := got.Targets[0], got.Targets[1]
	if scrub.Key != "scrub_radius" || *scrub.Min != 0 || *scrub.Max != 30 || scrub.Unit != "mm" ||
		scrub.Variants[1].Stands != "not met" || scrub.Variants[1].Trend != "worse" || scrub.Variants[0].Trend != "" ||
		!scrub.Variants[0].Best || scrub.Variants[1].Best || !scrub.Variants[2].Best {
		t.Errorf("%+v", scrub)
	}
	if gain.Max != nil || gain.Unit != "deg/mm" {
		t.Errorf("%+v", gain)
	}
	for v := range c.Sources {
		l := row(t, c, "scrub_radius").Lines[v]
		near(t, "scrub", *scrub.Variants[v].Value, l.Value, 1e-9)
		near(t, "its band", *scrub.Variants[v].High-*scrub.Variants[v].Low, 2*l.Band, 1e-4)
		near(t, "gain", *gain.Variants[v].Value, row(t, c, "camber_gain_at_rest").Lines[v].Value*deg, 1e-9)
	}
	if ride := got.Targets[2]; ride.Key != "ride_toe" || ride.Bump != 60 || *ride.Max != 0.55 {
		t.Errorf("%+v", ride)
	}
}
