package job_test

import (
	"bytes"
	"errors"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"armscribe/app/job"
)

var update = flag.Bool("update", false, "write what is found to the .want files; look at each difference")

const testdata = "../../testdata/job"

// TestBadFiles reads every file that must be refused and compares the whole
// message with the one that was looked at.
func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob(testdata + "/bad/*.yaml")
	if err != nil || len(files) < 40 {
		t.Fatalf("%d files (%v)", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Base(file)
		j, err := job.Read(name, data)
		var problems job.Problems
		if !errors.As(err, &problems) || j != nil {
			t.Errorf("%s is taken: %v", name, err)
			continue
		}
		got := err.Error() + "\n"
		if n := strings.Count(got, "\n"); n != len(problems) {
			t.Errorf("%s: %d problems on %d lines", name, len(problems), n)
		}
		compare(t, strings.TrimSuffix(file, ".yaml")+".want", got)
	}
}

func compare(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Error(err)
		return
	}
	if got != string(want) {
		t.Errorf("%s\n--- got\n%s--- want\n%s", filepath.Base(file), got, want)
	}
}

func TestLoadRefusesWhatIsNoFile(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct {
		path string
		want string
		is   error
	}{
		{dir, "is a folder", nil},
		{filepath.Join(dir, "none.armscribe.yaml"), "does not exist", fs.ErrNotExist},
		{os.DevNull, "is not an ordinary file", nil},
	} {
		_, err := job.Load(c.path)
		if err == nil || !strings.HasPrefix(err.Error(), c.path+": "+c.want+"; ") {
			t.Errorf("%v, want %q", err, c.want)
		}
		if c.is != nil && !errors.Is(err, c.is) {
			t.Errorf("%v does not match %v", err, c.is)
		}
	}
}

// memoryBound is what a hostile file may have allocated by the time it is
// refused, freed or not, in bytes; much less is in use at once.
const memoryBound = 300 << 20

func allocated(do func()) uint64 {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	do()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// Nesting is taken as deep as it may be, the file itself being the first level.
func TestDepthAtItsLimit(t *testing.T) {
	for lists, deep := range map[int]bool{job.MaxDepth - 1: false, job.MaxDepth: true} {
		_, err := job.Read("deep.yaml", []byte("armscribe: 1\nname: "+strings.Repeat("[", lists)+strings.Repeat("]", lists)+"\n"))
		if err == nil || strings.Contains(err.Error(), "nested deeper") != deep {
			t.Errorf("%d lists in each other: %v", lists, err)
		}
	}
}

// TestHostileFiles reads files made to exhaust time or memory.
func TestHostileFiles(t *testing.T) {
	good, err := os.ReadFile(testdata + "/format-1.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	bomb := "armscribe: 1\na: &a [x,x,x,x,x,x,x,x,x]\n"
	for c := 'b'; c < 'k'; c++ {
		p := string(c - 1)
		bomb += string(c) + ": &" + string(c) + " [" + strings.Repeat("*"+p+",", 8) + "*" + p + "]\n"
	}
	for _, c := range []struct{ name, text, want string }{
		{"alias bomb", bomb, "is an alias"},
		{"flow depth 3000", "armscribe: 1\nname: " + strings.Repeat("[", 3000) + strings.Repeat("]", 3000), "nested deeper than 32"},
		{"flow depth 500000", "armscribe: 1\nname: " + strings.Repeat("[", 500000), "is not YAML"},
		{"mapping depth 1400", "armscribe: 1\n" + deepMapping(1400), "nested deeper than 32"},
		{"list depth 100000", "armscribe: 1\nname:\n" + strings.Repeat("- ", 100000), "is not YAML"},
		{"2 MiB", string(good) + strings.Repeat("#\n", 1<<20), "larger than 1 MiB"},
		{"100000 variants", "armscribe: 1\nvariants:\n" + strings.Repeat("  -\n", 100000), "holds 100000 variants"},
		{"100000 unknown keys", "armscribe: 1\n" + manyKeys(100000), "further problems"},
		{"one key 100000 times", "armscribe: 1\n" + strings.Repeat("name: a\n", 100000), "stands here again"},
		{"long key", "armscribe: 1\n? " + strings.Repeat("k", 900000) + "\n: 1\n", "kkk…"},
		{"long value", "armscribe: 1\nmeasured_within: " + strings.Repeat("7", 900000), "more than 400"},
		{"NaN", strings.Replace(string(good), "bump: 70", "bump: .nan", 1), "bump = .nan: is not a number"},
		{"newer format with an alias bomb", strings.Replace(bomb, "armscribe: 1", "armscribe: 1.99", 1), "is an alias"},
		{"newer format with 100000 unknown keys", "armscribe: 1.99\n" + manyKeys(100000), "stands here again"},
	} {
		var err error
		if took := allocated(func() { _, err = job.Read("hostile.yaml", []byte(c.text)) }); took > memoryBound {
			t.Errorf("%s takes %d MiB", c.name, took>>20)
		}
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %.300v, want %q", c.name, err, c.want)
			continue
		}
		if len(err.Error()) > 40000 {
			t.Errorf("%s: a message of %d bytes", c.name, len(err.Error()))
		}
	}
}

func deepMapping(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
		if b.Len() > job.MaxFile-3000 {
			break
		}
	}
	return b.String()
}

func manyKeys(n int) string {
	var b bytes.Buffer
	for i := range n {
		b.WriteString("k")
		b.WriteString(strings.Repeat("x", i%3))
		b.WriteString(strings.ToUpper(strings.TrimLeft(filepath.Ext("."+string(rune('a'+i%26))), ".")))
		b.WriteString(string(rune('a' + i/26%26)))
		b.WriteString(string(rune('a' + i/676%26)))
		b.WriteString(": 1\n")
	}
	return b.String()
}
