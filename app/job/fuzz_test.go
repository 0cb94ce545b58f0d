package job_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"testing"

	"armscribe/app/job"
	"armscribe/kinematics"
)

// FuzzLoad feeds bytes to the reader. It must not panic, and what it takes
// must be finite, be free of problems, make a mechanism, and come back from
// its own file equal, which then stays as it is.
func FuzzLoad(f *testing.F) {
	for _, pattern := range []string{testdata + "/*.yaml", testdata + "/bad/*.yaml", "../../assets/demo/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			f.Fatalf("no seeds %s (%v)", pattern, err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := job.Read("fuzz", data)
		if err != nil {
			if j != nil || err.Error() == "" {
				t.Fatalf("a job and an error: %v", err)
			}
			return
		}
		if p := j.Problems(); p != nil {
			t.Fatalf("taken with problems: %v", p)
		}
		for i := range j.Variants {
			wantSound(t, &j.Variants[i])
		}
		first, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		back, err := job.Read("back", first)
		if err != nil || !back.Equal(j) {
			t.Fatalf("it reads back otherwise: %v\n%s", err, first)
		}
		second, err := back.Encode()
		if err != nil || !bytes.Equal(first, second) {
			again, err2 := job.Read("again", second)
			if err != nil || err2 != nil || !again.Equal(j) {
				t.Fatalf("the second file differs: %v %v\n%s\n%s", err, err2, first, second)
			}
		}
	})
}

func wantSound(t *testing.T, v *job.Variant) {
	t.Helper()
	corner := v.Corner()
	for _, p := range corner.Points() {
		at := v.Point(p)
		if !(math.Abs(at.X)+math.Abs(at.Y)+math.Abs(at.Z) <= 3*kinematics.MaxLength) {
			t.Fatalf("%s at %v", p, at)
		}
	}
	if _, err := kinematics.New(&corner); err != nil {
		t.Fatalf("taken, but: %v", err)
	}
}
