package document

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"armscribe/app/job"
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
	theirs := strings.Replace(string(data), "bump: 90", "bump: 91", 1)
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

// A file under another name is nobody's to replace until the person has been told
// of just what it holds.
func TestSavingUnderAnotherName(t *testing.T) {
	d, path := opened(t)
	other := filepath.Join(filepath.Dir(path), "b.armscribe.yaml")
	write := func(text string) {
		t.Helper()
		if err := os.WriteFile(other, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("mine\n")
	if err := d.Save(other); !errors.Is(err, ErrExists) || d.Path() != path {
		t.Fatalf("%v, path %q", err, d.Path())
	}
	write("changed while the person reads\n")
	if err := d.SaveOver(other); !errors.Is(err, ErrExists) {
		t.Fatalf("replaced what nobody was told of: %v", err)
	}
	if err := d.SaveOver(other); err != nil || d.Path() != other {
		t.Fatalf("%v, path %q", err, d.Path())
	}
	if kept, _ := os.ReadFile(other + safefile.BackupSuffix); string(kept) != "changed while the person reads\n" {
		t.Errorf("the backup holds %q", kept)
	}
	wantDisk(t, d, SameOnDisk)
}

// The document's own file is its own by any name, and has its guard by any name.
func TestOneFileByOtherNames(t *testing.T) {
	d, path := opened(t)
	dir, base := filepath.Split(path)
	link := filepath.Join(dir, "link.armscribe.yaml")
	if err := os.Symlink(base, link); err != nil {
		t.Fatal(err)
	}
	t.Chdir(dir)
	for _, name := range []string{base, filepath.Join(dir, ".", "..", filepath.Base(dir), base), link} {
		if err := d.Edit("raise", "", raise(3)); err != nil {
			t.Fatal(err)
		}
		if err := d.Save(name); err != nil || d.Path() != name {
			t.Errorf("%s: %v, path %q", name, err, d.Path())
		}
		two, err := Open(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(two.Edit("raise", "", raise(1)), two.Save(path), d.Edit("raise", "", raise(3))); err != nil {
			t.Fatal(err)
		}
		for _, save := range []string{base, path, link} {
			if err := d.Save(save); !errors.Is(err, ErrChangedOnDisk) {
				t.Errorf("known as %s, saved as %s over another's work: %v", name, save, err)
			}
		}
		if err := d.SaveOver(name); err != nil {
			t.Fatal(err)
		}
	}
}

// Reloading takes what another program wrote, and undoing it brings one's own back.
func TestReload(t *testing.T) {
	d, path := opened(t)
	if err := d.Edit("raise", "", raise(3)); err != nil {
		t.Fatal(err)
	}
	mine := d.Job()
	other, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	err = errors.Join(other.EditJob("fewer", "", func(j *job.Job) { j.Variants = j.Variants[:1] }), other.Save(path))
	if err != nil {
		t.Fatal(err)
	}
	d.Show(len(mine.Variants) - 1)
	if err := d.Reload(); err != nil || d.Changed() || !d.Job().Equal(other.Job()) || d.Current() != 0 {
		t.Fatalf("%v, changed %v, variant %d", err, d.Changed(), d.Current())
	}
	wantDisk(t, d, SameOnDisk)
	if name, ok := d.Undo(); name != "reload" || !ok || !d.Job().Equal(mine) || !d.Changed() {
		t.Errorf("undoing %q gives another job, or one that is not changed", name)
	}
	if err := d.Save(path); err != nil { // the person has seen what it replaces
		t.Error(err)
	}
	if err := d.Reload(); err != nil || d.UndoName() == "reload" {
		t.Errorf("reloading the same is a gesture: %v", err)
	}
	if err := os.WriteFile(path, []byte("no job\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := d.Reload(); err == nil || !d.Job().Equal(mine) {
		t.Error("a file that is no job is taken")
	}
}

// Of two that save one file at once, each with work of its own, one is told that
// the other has changed it; none is told that it is saved and then is nowhere.
func TestTwoSaveAtOnce(t *testing.T) {
	const rounds = 25
	for range rounds {
		one, path := opened(t)
		two, err := Open(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(one.Edit("raise", "", raise(3)), two.Edit("raise", "", raise(5))); err != nil {
			t.Fatal(err)
		}
		docs := []*Document{one, two}
		errs := make([]error, len(docs))
		var wait sync.WaitGroup
		for i, d := range docs {
			wait.Go(func() { errs[i] = d.Save(path) })
		}
		wait.Wait()
		for i, d := range docs {
			if d.Changed() != errors.Is(errs[i], ErrChangedOnDisk) {
				t.Fatalf("changed %v, told %v", d.Changed(), errs[i])
			}
		}
		if (errs[0] == nil) == (errs[1] == nil) {
			t.Fatalf("both are told %v", errs)
		}
	}
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
