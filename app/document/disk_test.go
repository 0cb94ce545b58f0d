package document

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"armscribe/app/safefile"
	"armscribe/app/safefile/faulty"
)

func opened(t *testing.T) (*Document, string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "a.armscribe.yaml")
	if err := New(demo(t), "", false).Save(path); err != nil {
		t.Fatal(err)
	}
	d, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return d, path
}

func wantDisk(t *testing.T, d *Document, want DiskState) {
	t.Helper()
	if got, err := d.OnDisk(); err != nil || got != want {
		t.Errorf("on disk %d (%v), want %d", got, err, want)
	}
}

func TestAFileChangedByAnotherProgramIsNotReplaced(t *testing.T) {
	d, path := opened(t)
	wantDisk(t, d, SameOnDisk)
	if err := d.Edit("raise", "", raise(3)); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	theirs := strings.Replace(string(data), "bump: 70", "bump: 71", 1)
	if err := os.WriteFile(path, []byte(theirs), 0o600); err != nil {
		t.Fatal(err)
	}
	wantDisk(t, d, OtherOnDisk)
	err = d.Save(path)
	if !errors.Is(err, ErrChangedOnDisk) || !strings.Contains(err.Error(), "another program has changed the file") || !d.Changed() {
		t.Fatalf("saved over it: %v", err)
	}
	if now, _ := os.ReadFile(path); string(now) != theirs {
		t.Error("their file is touched")
	}
	if err := d.SaveOver(path); err != nil || d.Changed() {
		t.Fatal(err)
	}
	if kept, _ := os.ReadFile(path + safefile.BackupSuffix); string(kept) != theirs {
		t.Error("their file is not in the backup")
	}
	wantDisk(t, d, SameOnDisk)
	if err := d.Edit("raise", "", raise(3)); err != nil {
		t.Fatal(err)
	}
	if err := d.Save(path); err != nil {
		t.Errorf("the next save: %v", err)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	wantDisk(t, d, GoneOnDisk)
	if err := d.Save(path); err != nil { // nothing is lost by that
		t.Error(err)
	}
}

// Another name is asked about by the window; there is nothing of ours to lose.
func TestSavingUnderAnotherName(t *testing.T) {
	d, path := opened(t)
	other := filepath.Join(filepath.Dir(path), "b.armscribe.yaml")
	if err := os.WriteFile(other, []byte("mine\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := d.Save(other); err != nil || d.Path() != other {
		t.Errorf("%v, path %q", err, d.Path())
	}
	wantDisk(t, d, SameOnDisk)
}

func TestRecoveredKnowsItsFile(t *testing.T) {
	d, path := opened(t)
	if err := d.Edit("raise", "", raise(3)); err != nil {
		t.Fatal(err)
	}
	r := Recovered(d.Job(), path, d.Base())
	if !r.Changed() || r.Path() != path {
		t.Errorf("changed %v, path %q", r.Changed(), r.Path())
	}
	wantDisk(t, r, SameOnDisk)
	if err := os.WriteFile(path, []byte("other\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := r.Save(path); !errors.Is(err, ErrChangedOnDisk) {
		t.Errorf("saved over another file: %v", err)
	}
	wantDisk(t, Recovered(d.Job(), "", [32]byte{}), NoFile)
}

// Whatever file operation fails, the file is old or new and whole, and a
// document that could not be saved says so and can be saved later.
func TestEveryFaultWhileSaving(t *testing.T) {
	errDisk := errors.New("injected")
	for n := 1; ; n++ {
		for _, forever := range []bool{false, true} {
			d, path := opened(t)
			old, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if err := d.Edit("raise", "", raise(3)); err != nil {
				t.Fatal(err)
			}
			sys := &faulty.System{Under: safefile.Disk{}, FailAt: n, Forever: forever, Err: errDisk}
			err = d.SaveOn(sys, path)
			if sys.Done < n {
				if err != nil || n < 15 {
					t.Fatalf("%d file operations, %v", n-1, err)
				}
				return
			}
			now, rerr := os.ReadFile(path)
			if rerr != nil {
				t.Fatalf("fault %d: %v", n, rerr)
			}
			replaced := errors.As(err, new(*safefile.NotSynced))
			if err == nil || d.Changed() != true || (string(now) == string(old)) == replaced {
				t.Errorf("fault %d: %v, changed %v, file replaced %v", n, err, d.Changed(), string(now) != string(old))
			}
			if err := d.Save(path); err != nil || d.Changed() {
				t.Errorf("fault %d: saved later: %v", n, err)
			}
		}
	}
}
