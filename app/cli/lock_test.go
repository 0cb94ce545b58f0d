package cli

import (
	"strings"
	"testing"
)

// limits is a job that states what each joint allows.
const limits = "testdata/job/format-1.4.armscribe.yaml"

func TestLockWrongUsageAndProblems(t *testing.T) {
	t.Chdir("../..")
	wrongs(t, []wrongCase{
		{"no job", []string{"lock"}, WrongUsage, []string{`expected "<job>"`}},
		{"no such job", []string{"lock", "none.armscribe.yaml"}, JobProblem, []string{"none.armscribe.yaml"}},
		{"unknown variant", []string{"lock", front, "--variant", "x"}, WrongUsage, []string{`has no "x"`}},
		{"a rear axle", []string{"lock", rear}, WrongUsage, []string{rear + ": this is a rear axle with a fixed toe link: it does not steer"}},
		{"no step", []string{"lock", front, "--step", "0"}, WrongUsage, []string{`--step: "0" is not above zero`}},
		{"backward step", []string{"lock", front, "--step=-5"}, WrongUsage, []string{`--step: "-5" is not above zero`}},
		{"step in words", []string{"lock", front, "--step", "fine"}, WrongUsage, []string{`--step: "fine"`}},
		{"too many rows", []string{"lock", front, "--step", "0.0001"}, WrongUsage, []string{"more than 100000 rows"}},
		{"unknown format", []string{"lock", front, "--format", "yaml"}, WrongUsage, []string{"--format"}},
	})
}

func TestJointsWrongUsageAndProblems(t *testing.T) {
	t.Chdir("../..")
	wrongs(t, []wrongCase{
		{"no job", []string{"joints"}, WrongUsage, []string{`expected "<job>"`}},
		{"no such job", []string{"joints", "none.armscribe.yaml"}, JobProblem, []string{"none.armscribe.yaml"}},
		{"unknown variant", []string{"joints", limits, "--variant", "x"}, WrongUsage, []string{`has no "x"`}},
		{"unknown format", []string{"joints", limits, "--format", "csv"}, WrongUsage, []string{"--format"}},
	})
}

// The caution stands under every table.
func TestLockAndJointsCloseWithTheCaution(t *testing.T) {
	t.Chdir("../..")
	for _, command := range []string{"lock", "joints"} {
		text := answer(t, []string{command, front})
		if !strings.HasSuffix(text, "road legality are for qualified people and local codes.\n") {
			t.Errorf("%s ends with\n%s", command, text)
		}
	}
}
