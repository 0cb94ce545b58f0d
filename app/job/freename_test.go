package job_test

import (
	"testing"

	"armscribe/app/job"
)

// A name that is free stays; one that is taken gets the first number that is not,
// also where numbers were left out.
func TestFreeName(t *testing.T) {
	j := &job.Job{Variants: []job.Variant{{Name: "arms"}, {Name: "arms 2"}, {Name: "arms 4"}, {Name: "spacer 3"}}}
	for name, want := range map[string]string{"arms": "arms 3", "arms 4": "arms 4 2", "spacer": "spacer", "Arms": "Arms"} {
		if got := j.FreeName(name); got != want {
			t.Errorf("%q becomes %q, want %q", name, got, want)
		}
	}
}
