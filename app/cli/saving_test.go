package cli

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"armscribe/app/job"
)

// asArmcalc makes a test's second process armcalc itself.
const asArmcalc = "ARMCALC_TEST_PROCESS"

func TestMain(m *testing.M) {
	if os.Getenv(asArmcalc) != "" {
		os.Exit(Run(os.Args[1:], os.Stdout, os.Stderr))
	}
	os.Exit(m.Run())
}

// armcalc is a command line in a process of its own.
func armcalc(args ...string) *exec.Cmd {
	c := exec.Command(os.Args[0], args...)
	c.Env = append(os.Environ(), asArmcalc+"=1")
	return c
}

// Many programs that write to one file at once, be it the job's own or another
// that holds the job: each variant that was said to be written is there.
func TestManyProgramsWriteToOneFile(t *testing.T) {
	t.Chdir("../..")
	good, err := os.ReadFile(front)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	own, other := filepath.Join(dir, "own.armscribe.yaml"), filepath.Join(dir, "other.armscribe.yaml")
	if err := os.WriteFile(own, good, 0o600); err != nil {
		t.Fatal(err)
	}
	const programs = 20
	for from, to := range map[string]string{own: own, front: other} {
		had, err := job.Load(from)
		if err != nil {
			t.Fatal(err)
		}
		var running []*exec.Cmd
		var said [programs]bytes.Buffer
		for i := range programs {
			c := armcalc("tune", from, fmt.Sprintf("--free=outer_end.z=-1..%d", 5+i), "-o", to)
			c.Stdout, c.Stderr = &said[i], os.Stderr
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
			running = append(running, c)
		}
		for _, c := range running {
			if err := c.Wait(); err != nil {
				t.Error(err)
			}
		}
		j, err := job.Load(to)
		if err != nil {
			t.Fatal(err)
		}
		if len(j.Variants) != len(had.Variants)+programs {
			t.Errorf("%s: %d variants of %d", filepath.Base(to), len(j.Variants)-len(had.Variants), programs)
		}
		for i := range said {
			_, name, ok := strings.Cut(said[i].String(), `written, with variant "`)
			if name, _, _ = strings.Cut(name, `"`); !ok || !slices.Contains(j.Names(), name) {
				t.Errorf("%q is said to be written, and is not", name)
			}
		}
	}
}

// What is not this job is replaced only when that is asked for, and kept then.
func TestWritingOverSomethingElse(t *testing.T) {
	t.Chdir("../..")
	dir := t.TempDir()
	args := []string{"widen", front, "--by", "20", "-o"}
	put := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	flatJob, err := os.ReadFile(flat)
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"letter.txt": "Dear Kim,\n", "empty.txt": "", "flat.armscribe.yaml": string(flatJob), "large.txt": strings.Repeat("#", job.MaxFile+1)} {
		path := put(name, text)
		var out, errs bytes.Buffer
		if code := Run(append(args, path), &out, &errs); code != JobProblem || out.Len() > 0 ||
			!strings.Contains(errs.String(), path+": is not written: the file there ") || !strings.Contains(errs.String(), "--force") {
			t.Errorf("%s: exit code %d: %s", name, code, errs.String())
		}
		if now, _ := os.ReadFile(path); string(now) != text {
			t.Errorf("%s is touched", name)
		}
		answer(t, append(args, path, "--force"))
		if _, err := job.Load(path); err != nil {
			t.Error(err)
		}
		if bak, err := os.ReadFile(path + ".bak"); err != nil || string(bak) != text {
			t.Errorf("%s: what was there is lost: %v", name, err)
		}
	}
	newer := put("newer.armscribe.yaml", strings.Replace(string(flatJob), "armscribe: 1", "armscribe: 9", 1))
	var out, errs bytes.Buffer
	if code := Run(append(args, newer, "--force"), &out, &errs); code != JobProblem || !strings.Contains(errs.String(), "newer format") {
		t.Errorf("a newer format: exit code %d: %s", code, errs.String())
	}
	errs.Reset()
	if code := Run(append(args, filepath.Join(dir, strings.Repeat("n", 260))), &out, &errs); code != JobProblem || !strings.Contains(errs.String(), "the name is too long") {
		t.Errorf("a long name: exit code %d: %s", code, errs.String())
	}
}

// An answer that nobody can read is no success.
func TestClosedOutput(t *testing.T) {
	t.Chdir("../..")
	run := func(redirect string) (int, string) {
		c := exec.Command("sh", "-c", `exec "$0" check `+flat+" "+redirect, os.Args[0])
		c.Env = append(os.Environ(), asArmcalc+"=1")
		var errs bytes.Buffer
		c.Stderr = &errs
		_ = c.Run() // the exit code tells
		return c.ProcessState.ExitCode(), errs.String()
	}
	if code, errs := run(">&-"); code != JobProblem || !strings.Contains(errs, "cannot write the answer: standard output is closed") {
		t.Errorf("closed: exit code %d: %q", code, errs)
	}
	for _, open := range []string{">/dev/null", "<&- >/dev/null", ">/dev/full"} {
		if code, errs := run(open); (code != Fine) != (open == ">/dev/full") {
			t.Errorf("%s: exit code %d: %q", open, code, errs)
		}
	}
}
