package cli

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/targets"
)

// elided stands in the README for lines of an answer that it leaves out.
const elided = "…"

// Examples in the README are what the program prints, line for line.
func TestReadmeExamples(t *testing.T) {
	t.Chdir("../..")
	blocks := regexp.MustCompile("(?s)```text\n\\$ bin/armcalc ([^\n]*)\n(.*?)```").FindAllStringSubmatch(readme(t), -1)
	if len(blocks) < 2 {
		t.Fatalf("%d examples in the README", len(blocks))
	}
	word := regexp.MustCompile(`"[^"]*"|\S+`)
	for _, b := range blocks {
		args := word.FindAllString(b[1], -1)
		for i := range args {
			args[i] = strings.Trim(args[i], `"`)
		}
		got := strings.Split(answer(t, args), "\n")
		skip := false
		for _, want := range strings.Split(b[2], "\n") {
			if want == elided {
				skip = true
				continue
			}
			for skip && len(got) > 0 && got[0] != want {
				got = got[1:]
			}
			if len(got) == 0 || got[0] != want {
				t.Errorf("armcalc %s does not print, at its place:\n%s", b[1], want)
				break
			}
			got, skip = got[1:], false
		}
		if len(got) > 0 {
			t.Errorf("armcalc %s prints more: %q", b[1], got[0])
		}
	}
}

// The job file in the README is one that the program reads.
func TestReadmeJobFile(t *testing.T) {
	t.Chdir("../..")
	block := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindStringSubmatch(readme(t))
	if block == nil {
		t.Fatal("no job file in the README")
	}
	file, err := os.ReadFile(short)
	if err != nil {
		t.Fatal(err)
	}
	if block[1] != string(file) {
		t.Errorf("the README's job file is not %s, which the goldens read", short)
	}
}

// The targets in the README are ones that the program reads, all of them.
func TestReadmeTargets(t *testing.T) {
	t.Chdir("../..")
	block := regexp.MustCompile(`(?m)^    targets:\n(?:^      .*\n)+`).FindString(readme(t))
	file, err := os.ReadFile(short)
	if err != nil {
		t.Fatal(err)
	}
	text := regexp.MustCompile(`(?m)^    `).ReplaceAllString(block, "")
	j, err := job.Read("README.md", []byte(strings.Replace(string(file), "variants:", text+"variants:", 1)))
	if err != nil {
		t.Fatal(err)
	}
	for k := range targets.Count {
		if _, ok := targets.Asked(&j.Targets, k); !ok {
			t.Errorf("the README does not show %s", k)
		}
	}
}

// The obstacles in the README are ones that the program reads, of every shape.
func TestReadmeObstacles(t *testing.T) {
	t.Chdir("../..")
	block := regexp.MustCompile(`(?m)^    obstacles:\n(?:^      .*\n)+`).FindString(readme(t))
	file, err := os.ReadFile(short)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer("armscribe: 1 ", "armscribe: 1.5 ", "variants:", regexp.MustCompile(`(?m)^    `).ReplaceAllString(block, "")+"variants:").Replace(string(file))
	j, err := job.Read("README.md", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	shapes := map[job.ObstacleShape]bool{}
	for _, o := range j.Obstacles {
		shapes[o.Shape] = true
	}
	if len(shapes) != 4 {
		t.Errorf("the README shows %d shapes", len(shapes))
	}
}

func readme(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
