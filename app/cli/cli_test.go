package cli

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
)

func TestWrongUsageAndProblems(t *testing.T) {
	t.Chdir("../..")
	good, err := os.ReadFile(front)
	if err != nil {
		t.Fatal(err)
	}
	written := func(name, text string) string {
		path := filepath.Join(t.TempDir(), name+".armscribe.yaml")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	changed := func(name, from, to string) string {
		text := strings.Replace(string(good), from, to, 1)
		if text == string(good) {
			t.Fatalf("%s is not in the demo job", from)
		}
		return written(name, text)
	}
	const variants = `"as measured", "spacers only", "longer arms"`
	for _, c := range []struct {
		name string
		args []string
		code int
		says []string // one for each line of standard error
	}{
		{"nothing", nil, WrongUsage, []string{"expected one of"}},
		{"no such command", []string{"frobnicate"}, WrongUsage, []string{"unexpected argument frobnicate"}},
		{"no job", []string{"readings"}, WrongUsage, []string{`expected "<job>"`}},
		{"two jobs", []string{"check", front, rear}, WrongUsage, []string{"unexpected argument"}},
		{"no such flag", []string{"check", front, "--frob"}, WrongUsage, []string{"unknown flag --frob"}},
		{"flag without value", []string{"readings", front, "--travel"}, WrongUsage, []string{"--travel"}},
		{"empty value", []string{"sweep", front, "--step="}, WrongUsage, []string{"--step: \"\": nothing is entered"}},
		{"empty variant", []string{"sweep", front, "--variant="}, WrongUsage, []string{`has no ""`}},
		{"unknown format", []string{"readings", front, "--format", "csv"}, WrongUsage, []string{`must be one of "table","json"`}},
		{"unknown sweep", []string{"sweep", front, "--over", "yaw"}, WrongUsage, []string{"--over"}},
		{"unknown shell", []string{"completion", "frobsh"}, WrongUsage, []string{"bash"}},
		{"line break in an argument", []string{"frob\nnicate\x1b[2J"}, WrongUsage, []string{"frob", "nicate\ufffd[2J"}},
		{"unknown variant to check", []string{"check", front, "--variant", "none"}, WrongUsage, []string{`has no "none"; it has ` + variants}},
		{"unknown variant", []string{"readings", front, "--variant", "none"}, WrongUsage, []string{`has no "none"; it has ` + variants}},
		{"travel that is no length", []string{"readings", front, "--travel", "3 stones"}, WrongUsage, []string{`--travel: "3 stones"`}},
		{"rack beyond 10 m", []string{"readings", front, "--rack", "11 m"}, WrongUsage, []string{"--rack"}},
		{"several at once", []string{"sweep", front, "--from", "a", "--to", "b"}, WrongUsage, []string{`--from: "a"`, `--to: "b"`}},
		{"roll that is no angle", []string{"sweep", front, "--over", "roll", "--to", "3 mm"}, WrongUsage, []string{"--to"}},
		{"no step", []string{"sweep", front, "--step", "0"}, WrongUsage, []string{"the step must be above zero"}},
		{"backward step", []string{"sweep", front, "--step", "-5"}, WrongUsage, []string{"the step must be above zero"}},
		{"too many rows", []string{"sweep", front, "--step", "0.0011"}, WrongUsage, []string{"more than 100000 rows"}},
		{"travel held over travel", []string{"sweep", front, "--travel", "3"}, WrongUsage, []string{"--travel is held only while the rack moves; with --over travel"}},
		{"travel held over roll", []string{"sweep", front, "--over", "roll", "--travel", "3"}, WrongUsage, []string{"with --over roll"}},
		{"rack held over rack", []string{"sweep", front, "--over", "rack", "--rack", "3"}, WrongUsage, []string{"--rack is what moves"}},
		{"rack of a rear axle", []string{"readings", rear, "--rack", "3"}, WrongUsage, []string{"rear axle"}},
		{"rack held on a rear axle", []string{"sweep", rear, "--rack", "3"}, WrongUsage, []string{"rear axle"}},
		{"sweep over no rack", []string{"sweep", rear, "--over", "rack"}, WrongUsage, []string{"rear axle"}},

		{"no such file", []string{"check", "no-such.armscribe.yaml"}, JobProblem, []string{"no-such.armscribe.yaml"}},
		{"folder", []string{"compare", "assets"}, JobProblem, []string{"assets: is a folder"}},
		{"empty file", []string{"readings", written("empty", "")}, JobProblem, []string{"empty"}},
		{"binary file", []string{"sweep", written("binary", "\x00\x01\xff\xfe")}, JobProblem, []string{"binary.armscribe.yaml"}},
		{"unknown tyre", []string{"check", changed("tyre", "tyre: 205/65R15", "tyre: round")}, JobProblem, []string{"round"}},
		{"unknown unit", []string{"check", changed("unit", "y: 366", "y: 366 cubits")}, JobProblem, []string{"cubits"}},
		{"two problems", []string{"check", changed("two", "y: 366, z: 534", "y: 366 cubits, z: .nan")}, JobProblem, []string{"y", "z"}},
		{"ball joints in one place", []string{"compare", changed("ball", "ball_joint: {x: 6, y: 678, z: 221}", "ball_joint: {x: -23, y: 600, z: 529}")},
			JobProblem, []string{"ball joint"}},
		{"travel out of reach", []string{"readings", front, "--travel", "350"}, JobProblem, []string{`"as measured": lower arm is 3.5 mm short at travel +350.0 mm`}},
		{"sweep out of reach", []string{"sweep", front, "--from", "-12 in"}, JobProblem, []string{"from −183.1 mm to +346.5 mm of travel"}},
		{"the job's own travel out of reach", []string{"check", changed("reach", "bump: 90, droop: 70", "bump: 360, droop: 70")},
			JobProblem, []string{`"as measured": lower arm is`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, errs bytes.Buffer
			code := Run(c.args, &out, &errs)
			if code != c.code {
				t.Errorf("exit code %d, want %d", code, c.code)
			}
			if out.Len() > 0 {
				t.Errorf("standard output: %s", out.String())
			}
			lines := strings.Split(strings.TrimSuffix(errs.String(), "\n"), "\n")
			if len(lines) != len(c.says) {
				t.Fatalf("%d lines, want %d:\n%s", len(lines), len(c.says), errs.String())
			}
			for i, line := range lines {
				if !strings.HasPrefix(line, "armcalc: ") || !strings.Contains(line, c.says[i]) {
					t.Errorf("%q does not say %q", line, c.says[i])
				}
				if strings.ContainsFunc(line, unicode.IsControl) {
					t.Errorf("%q holds a control character", line)
				}
			}
		})
	}
}

// A target that the variant surely misses is said behind the whole answer, and
// the exit code tells it; one left open is no problem.
func TestMissedTargets(t *testing.T) {
	t.Chdir("../..")
	// The last variant leaves one open and misses none.
	head, rest, _ := strings.Cut(answer(t, []string{"check", aims}), ": fine\n")
	rest, tail, _ := strings.Cut(rest, "wheel of longer arms")
	whole := head + ": NOT fine: see below\n" + rest + "wheel of "
	if tail == "" {
		t.Fatal("no word on the wheel")
	}
	for _, c := range []struct {
		variant string
		says    []string
	}{
		{"spacers only", []string{`variant "spacers only": target not met: scrub radius is to be 0 to 30 mm; it is: 41.4 ± 2.4 mm`}},
		{"as measured", []string{"track is to be 1\u2009530 to 1\u2009545 mm; it is: 1\u2009475.5"}},
	} {
		var out, errs bytes.Buffer
		if code := Run([]string{"check", aims, "--variant", c.variant}, &out, &errs); code != JobProblem || !strings.HasPrefix(out.String(), whole+c.variant) {
			t.Errorf("%s: exit code %d, answer\n%s", c.variant, code, out.String())
		}
		lines := strings.Split(strings.TrimSpace(errs.String()), "\n")
		if len(lines) != len(c.says) {
			t.Fatalf("%s: %q", c.variant, lines)
		}
		for i, want := range c.says {
			if !strings.Contains(lines[i], want) {
				t.Errorf("%q does not say %q", lines[i], want)
			}
		}
	}
}

// What a newer release added is said once, and the job is fine.
func TestCheckSaysWhatIsKeptUnread(t *testing.T) {
	t.Chdir("../..")
	good, err := os.ReadFile(front)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "newer.armscribe.yaml")
	text := strings.Replace(string(good), "armscribe: 1.5\n", "armscribe: 1.99\nballast: 40 kg\n", 1)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if got := answer(t, []string{"check", path}); strings.Count(got, "note: the file has format 1.99, this program knows") != 1 || !strings.Contains(got, ": ballast\n") {
		t.Errorf("it says\n%s", got)
	}
}

func TestVersionAndHelp(t *testing.T) {
	if got := answer(t, []string{"--version"}); got != "armcalc "+Version+"\n" {
		t.Errorf("version %q", got)
	}
	for _, command := range []string{"readings", "sweep", "compare", "check", "completion"} {
		if got := answer(t, []string{command, "--help"}); !strings.HasPrefix(got, "Usage: armcalc "+command) {
			t.Errorf("help of %s:\n%s", command, got)
		}
	}
}

// full fails like a disk without room, after so many bytes.
type full struct{ room int }

var errFull = errors.New("no space left")

func (f *full) Write(p []byte) (int, error) {
	if len(p) > f.room {
		n := f.room
		f.room = 0
		return n, errFull
	}
	f.room -= len(p)
	return len(p), nil
}

func TestAnswerThatCannotBeWritten(t *testing.T) {
	t.Chdir("../..")
	for _, args := range [][]string{
		{"readings", front}, {"sweep", front}, {"sweep", front, "--format", "table"}, {"compare", front, "--format", "json"},
		{"check", aims}, {"completion", "zsh"}, {"--help"}, {"--version"},
	} {
		for _, room := range []int{0, 9} {
			var errs bytes.Buffer
			if code := Run(args, &full{room}, &errs); code != JobProblem {
				t.Errorf("%v: exit code %d", args, code)
			}
			if got := errs.String(); got != "armcalc: cannot write the answer: no space left\n" {
				t.Errorf("%v: %q", args, got)
			}
		}
	}
}

// Lengths of a job in inches, bare and with their own unit, are the same place.
func TestFlagsReadTheJobsUnit(t *testing.T) {
	t.Chdir("../..")
	bare := answer(t, []string{"readings", rear, "--travel", "1 1/4", "--format", "json"})
	for _, text := range []string{"31.75 mm", `1-1/4"`, "1in+1/4in"} {
		if got := answer(t, []string{"readings", rear, "--travel", text, "--format", "json"}); got != bare {
			t.Errorf("--travel %q differs from 1 1/4 in", text)
		}
	}
	if !strings.Contains(bare, `"travel_mm": 31.75,`) {
		t.Errorf("1 1/4 in is not 31.75 mm:\n%s", bare)
	}
	minus := answer(t, []string{"sweep", front, "--from", "-15", "--to", "\u221212.5"})
	if got := answer(t, []string{"sweep", front, "--from=-15", "--to=-12.5"}); got != minus || strings.Count(got, "\r\n") != 3 {
		t.Errorf("a minus sign reads differently:\n%s\n%s", got, minus)
	}
}
