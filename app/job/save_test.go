package job_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"armscribe/app/job"
	"armscribe/app/safefile"
	"armscribe/app/safefile/faulty"
)

// saved puts the sample into a folder of its own.
func saved(t *testing.T) (path string, j *job.Job, text string) {
	t.Helper()
	j, text = sample(t)
	path = filepath.Join(t.TempDir(), "car.armscribe.yaml")
	if err := job.Save(path, j); err != nil {
		t.Fatal(err)
	}
	return path, j, text
}

func fileText(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestSaveAndLoad(t *testing.T) {
	path, j, text := saved(t)
	if got := fileText(t, path); got != text {
		t.Errorf("saved\n%s--- want\n%s", got, text)
	}
	back, err := job.Load(path)
	if err != nil || !back.Equal(j) {
		t.Fatalf("loaded otherwise: %v", err)
	}
	back.Variants[1].Toe = 0.125
	if err := job.Save(path, back); err != nil {
		t.Fatal(err)
	}
	if got := fileText(t, path+".bak"); got != text {
		t.Errorf("the former file has become\n%s", got)
	}
	third, err := job.Load(path)
	if err != nil || !third.Equal(back) || third.Equal(j) {
		t.Errorf("loaded otherwise: %v", err)
	}
}

// TestEveryFileOperationFails: whichever operation fails, once or for good,
// the old job is there whole, and the message says that it is not saved.
func TestEveryFileOperationFails(t *testing.T) {
	for _, forever := range []bool{false, true} {
		for n := 1; ; n++ {
			path, j, text := saved(t)
			changed := j.Clone()
			changed.Variants[0].Toe = 0.125
			sys := &faulty.System{Under: safefile.Disk{}, FailAt: n, Forever: forever, Err: syscall.ENOSPC}
			err := job.SaveOn(sys, path, changed)
			if sys.Done < n {
				if err != nil || n < 12 {
					t.Errorf("%d operations and no failure: %v", n-1, err)
				}
				break
			}
			got, lerr := job.Load(path)
			if lerr != nil {
				t.Fatalf("operation %d failed and left no job: %v", n, lerr)
			}
			var late *safefile.NotSynced
			switch {
			case !errors.Is(err, syscall.ENOSPC) || strings.Contains(err.Error(), "\n"):
				t.Errorf("operation %d failed: %v", n, err)
			case errors.As(err, &late):
				if !got.Equal(changed) {
					t.Errorf("operation %d failed, and the job is not the new one", n)
				}
			case !got.Equal(j) || fileText(t, path) != text:
				t.Errorf("operation %d failed, and the old file is not whole", n)
			case err.Error() != path+": is not saved: the disk is full; make room or choose another disk; the former file is untouched":
				t.Errorf("operation %d failed: %v", n, err)
			}
		}
	}
}

// TestFolderThatMayNotBeWrittenTo injects the refusal: an administrator may
// write anywhere.
func TestFolderThatMayNotBeWrittenTo(t *testing.T) {
	path, j, text := saved(t)
	changed := j.Clone()
	changed.Name = "other"
	const create = 4 // after following the link, looking, and reading the former file
	sys := &faulty.System{Under: safefile.Disk{}, FailAt: create, Err: &fs.PathError{Op: "open", Path: path, Err: syscall.EACCES}}
	err := job.SaveOn(sys, path, changed)
	want := path + ": is not saved: the folder may not be written to; ask its owner for permission or choose another folder"
	if err == nil || err.Error() != want || fileText(t, path) != text {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

func TestSaveRefuses(t *testing.T) {
	path, j, text := saved(t)
	dir := filepath.Dir(path)
	newer := filepath.Join(dir, "newer.armscribe.yaml")
	if err := os.WriteFile(newer, []byte("armscribe: 2\nnews: yes\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	bad := j.Clone()
	bad.Variants[1].Name = bad.Variants[0].Name
	for _, c := range []struct {
		path string
		j    *job.Job
		want string
	}{
		{dir, j, "is a folder; choose a file name in it"},
		{filepath.Join(dir, "none", "a.yaml"), j, "is not saved: its folder does not exist; make the folder or choose another"},
		{newer, j, "is not saved: the file there has a newer format; save under another name, or use a newer Armscribe"},
		{path, bad, "variants[1].name = as measured: is the name of variants[0] too; give each variant its own name"},
	} {
		if err := job.Save(c.path, c.j); err == nil || err.Error() != c.path+": "+c.want {
			t.Errorf("got  %v\nwant %s: %s", err, c.path, c.want)
		}
	}
	if got := fileText(t, newer); !strings.HasPrefix(got, "armscribe: 2\n") {
		t.Errorf("the newer file has become %q", got)
	}
	if fileText(t, path) != text {
		t.Error("the old file has changed")
	}
}

// TestSaveOverWhatIsNoJob: a broken file may be saved over, and is kept.
func TestSaveOverWhatIsNoJob(t *testing.T) {
	path, j, text := saved(t)
	if err := os.WriteFile(path, []byte("name: [broken\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := job.Save(path, j); err != nil {
		t.Fatal(err)
	}
	if fileText(t, path) != text || fileText(t, path+".bak") != "name: [broken\n" {
		t.Error("the job or the broken file is lost")
	}
}

// TestVariantsAreAddedToWhatIsThere: the file keeps what it has got meanwhile, new
// variants get free names, and no other job's file is touched.
func TestVariantsAreAddedToWhatIsThere(t *testing.T) {
	path, j, _ := saved(t)
	more := j.Clone()
	more.Variants = append(more.Variants, more.Variants[0])
	more.Variants[len(more.Variants)-1].Name = "by another hand"
	if names, err := job.Add(path, "", j, more.Variants[len(j.Variants):], false); err != nil || len(names) != 1 || names[0] != "by another hand" {
		t.Fatalf("to the job alone: %q, %v", names, err)
	}
	found := []job.Variant{j.Variants[1], j.Variants[0]}
	found[0].Name, found[0].Toe, found[1].Name = "by another hand", 0.175, "found"
	names, err := job.Add(path, "", j, found, false)
	if err != nil || len(names) != 2 || names[0] == "by another hand" || names[1] != "found" {
		t.Fatalf("%q, %v", names, err)
	}
	want := more.Clone()
	found[0].Name = names[0]
	want.Variants = append(want.Variants, found...)
	if now, err := job.Load(path); err != nil || !now.Equal(want) {
		t.Errorf("the file holds %+v, %v", now, err)
	}

	other := j.Clone()
	other.Name = "another car"
	text := fileText(t, path)
	if names, err := job.Add(path, "", other, found, false); !errors.Is(err, job.ErrExists) || names != nil || fileText(t, path) != text {
		t.Errorf("over another job: %q, %v", names, err)
	}
	if _, err := job.Add(path, "", other, found, true); err != nil || fileText(t, path+".bak") != text {
		t.Errorf("by force: %v", err)
	}
	if now, err := job.Load(path); err != nil || now.Name != "another car" || len(now.Variants) != len(j.Variants)+2 {
		t.Errorf("by force it holds %+v, %v", now, err)
	}
}
