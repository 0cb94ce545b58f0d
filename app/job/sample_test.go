package job_test

import (
	"errors"
	"fmt"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
)

// unitLine is where a job says its unit.
var unitLine = regexp.MustCompile(`(?m)^units: \w+`)

// inUnit is a file in another unit, its numbers as they are.
func inUnit(data []byte, unit string) []byte {
	return unitLine.ReplaceAll(data, []byte("units: "+unit))
}

var (
	quoted = regexp.MustCompile(`'[^']*'|\[[^\]]*\]|\{[^}]*\}`)
	figure = regexp.MustCompile(`-?\d+( \d+/\d+|/\d+|\.\d+)?`)
	metric = regexp.MustCompile(`\d ?(mm|m)\b`)
)

// What a cure asks for is in the job's unit: whatever key is cut from a job, the same
// length is asked for in an inch job as in one in mm, and the message names no mm.
func TestCuresAreInTheJobsUnit(t *testing.T) {
	compared := 0
	for _, name := range []string{"format-1.3", "format-1.5", "bad/empty-stock", "bad/stack", "bad/missing-pivots"} {
		data, err := os.ReadFile(testdata + "/" + name + ".armscribe.yaml")
		if err != nil {
			if data, err = os.ReadFile(testdata + "/" + name + ".yaml"); err != nil {
				t.Fatal(err)
			}
		}
		lines := strings.Split(string(data), "\n")
		texts := [][]byte{data}
		for i := range lines {
			texts = append(texts, []byte(strings.Join(append(append([]string{}, lines[:i]...), lines[i+1:]...), "\n")))
			for _, at := range figureKeys.FindAllStringIndex(lines[i], -1) {
				cut := append([]string{}, lines...)
				cut[i] = lines[i][:at[0]] + lines[i][at[1]:]
				texts = append(texts, []byte(strings.Join(cut, "\n")))
			}
		}
		for _, text := range texts {
			compared += compareCures(t, text)
		}
	}
	if compared < 60 {
		t.Errorf("%d lengths compared", compared)
	}
}

// figureKeys are a key of a mapping on one line and what stands behind it.
var figureKeys = regexp.MustCompile(`\b\w+: [^,{}\[\]]+,? ?`)

// compareCures returns how many lengths the cures of a job's problems name.
func compareCures(t *testing.T, text []byte) (compared int) {
	t.Helper()
	cures := func(unit string) map[string]string {
		found := map[string]string{}
		_, err := job.Read("job", inUnit(text, unit))
		var list job.Problems
		errors.As(err, &list)
		for _, p := range list {
			found[fmt.Sprintf("%d %s %s", p.Line, p.Key, p.What[:min(len(p.What), 12)])] = p.Cure
		}
		return found
	}
	mm := cures("mm")
	for key, cure := range cures("in") {
		was, ok := mm[key]
		if !ok {
			continue
		}
		if metric.MatchString(cure) {
			t.Errorf("%s: %q", key, cure)
		}
		now, then := strings.Join(quoted.FindAllString(cure, -1), " "), strings.Join(quoted.FindAllString(was, -1), " ")
		if now == then {
			continue
		}
		a, b := figure.FindAllString(now, -1), figure.FindAllString(then, -1)
		if len(a) != len(b) {
			t.Errorf("%s: %q, in mm %q", key, cure, was)
			continue
		}
		for i := range a {
			x, err := units.ParseLength(a[i], units.Inch)
			y, err2 := units.ParseLength(b[i], units.Millimetre)
			if err != nil || err2 != nil {
				t.Errorf("%s: %q, in mm %q: %v, %v", key, cure, was, err, err2)
			} else if a[i] != b[i] {
				compared++
				if off := math.Abs(x.MM - y.MM); off > 25.4/32+1e-9 {
					t.Errorf("%s: %q, in mm %q", key, cure, was)
				}
			}
		}
	}
	return compared
}

// A limit that follows from a tyre is said no finer than it could be found.
func TestComputedLimitsAreSaidToAThousandthOfAnInch(t *testing.T) {
	data, err := os.ReadFile(testdata + "/format-1.3.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	radius := regexp.MustCompile(`loaded_radius: [^,}]*`)
	for _, typed := range []string{"7.1 in", "14.7 in", "190.1", "329"} {
		_, err := job.Read("job", inUnit(radius.ReplaceAll(data, []byte("loaded_radius: "+typed)), map[bool]string{true: "in", false: "mm"}[strings.HasSuffix(typed, "in")]))
		if err == nil || !strings.Contains(err.Error(), "loaded_radius") || regexp.MustCompile(`\.\d{4}`).MatchString(err.Error()) {
			t.Errorf("%s: %v", typed, err)
		}
	}
}
