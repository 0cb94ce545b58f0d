package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// pointOf is a measured point of the demos, without its closing bracket.
var pointOf = regexp.MustCompile(`(pivot|ball_joint|rack_end|outer_end|moving_end|body_end|hub): \{[^}]*`)

// saidWithin is how well points are known, wherever an answer says it.
var saidWithin = regexp.MustCompile(`(?:points (?:measured )?within|decidable at) ±([^ ]+(?: to [^ ]+)? (?:mm|in))`)

// Where points carry an error of their own, no face names the job's instead, nor where
// no point has that.
func TestTheMeasuringErrorSaidIsThatOfThePoints(t *testing.T) {
	t.Chdir("../..")
	for _, c := range []struct {
		job, first, others, says string
	}{
		{front, "3", "3", "3 mm"},
		{front, "0.25", "3.5", "0.25 to 3.5 mm"},
		{front, "4", "", "1 to 4 mm"},
		{"assets/demo/rear-toe-link.armscribe.yaml", "1/8", "1/4", "1/8 to 1/4 in"},
		{"assets/demo/rear-toe-link.armscribe.yaml", "1/8", "", "1/32 to 1/8 in"},
	} {
		data, err := os.ReadFile(c.job)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		text := pointOf.ReplaceAllStringFunc(string(data), func(at string) string {
			n++
			if own := map[bool]string{true: c.first, false: c.others}[strings.HasPrefix(at, "outer_end")]; own != "" {
				return at + ", within: " + own
			}
			return at
		})
		path := filepath.Join(t.TempDir(), "own.armscribe.yaml")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil || n < 8 {
			t.Fatal(n, err)
		}
		said := 0
		for _, args := range [][]string{{"readings"}, {"diagnose"}, {"tune"}, {"check"}, {"gauge"}, {"arms", "--lower", "0.5"}, {"joints"}, {"sweep", "--format", "table"}, {"effort"}} {
			args = append([]string{args[0], path, "--variant", "as measured"}, args[1:]...)
			faces := [][]string{args, append(args, "--format", "json")}
			switch { // JSON is in mm; check is of all variants
			case args[0] == "check" && c.others == "":
				continue
			case args[0] == "check", args[0] == "sweep", strings.HasSuffix(c.says, "in"):
				faces = faces[:1]
			}
			if len(faces) == 2 {
				file := asked[struct {
					Points *struct{ Least, Most float64 } `json:"points_within_mm"`
				}](t, args...)
				if least, most, two := strings.Cut(strings.TrimSuffix(c.says, " mm"), " to "); file.Points == nil || fmt.Sprint(file.Points.Least) != least || two && fmt.Sprint(file.Points.Most) != most {
					t.Errorf("%s: %+v in the file", strings.Join(args, " "), file.Points)
				}
			}
			for _, face := range faces {
				for _, m := range saidWithin.FindAllStringSubmatch(answer(t, face), -1) {
					said++
					if m[1] != c.says {
						t.Errorf("%s, own %q and %q: %q", strings.Join(face, " "), c.first, c.others, m[0])
					}
				}
			}
		}
		if said < 7 {
			t.Errorf("%s: said %d times", c.says, said)
		}
	}
}
