//go:build !windows

package safefile_test

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"armscribe/app/safefile"
)

// Each of many writers makes its own of what the one before has written.
func TestManyWritersLoseNothing(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "list.txt")
	const writers, rounds = 8, 5
	var wait sync.WaitGroup
	for w := range writers {
		wait.Go(func() {
			for r := range rounds {
				err := safefile.Update(safefile.Disk{}, path, func(former []byte, _ bool) ([]byte, error) {
					return fmt.Appendf(bytes.Clone(former), "writer %d, round %d\n", w, r), nil
				})
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	wait.Wait()
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for w := range writers {
		for r := range rounds {
			if line := fmt.Sprintf("writer %d, round %d\n", w, r); bytes.Count(got, []byte(line)) != 1 {
				t.Errorf("%q is lost, or there twice", line)
			}
		}
	}
	wantNames(t, dir, "list.txt", "list.txt.bak")
}

func TestALockIsWaitedForAndThenSaid(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.txt")
	unlock, err := safefile.Disk{}.Lock(path)
	if err != nil {
		t.Fatal(err)
	}
	hasty := safefile.Disk{Patience: time.Millisecond}
	if err := safefile.Write(hasty, path, []byte("new"), nil); !errors.Is(err, safefile.ErrBusy) {
		t.Errorf("beside a lock: %v", err)
	}
	unlock()
	if err := safefile.Write(hasty, path, []byte("new"), nil); err != nil {
		t.Errorf("after it: %v", err)
	}
	// What a killed program has left behind is no lock.
	if err := os.WriteFile(filepath.Join(filepath.Dir(path), ".a.txt.lock"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := safefile.Write(hasty, path, []byte("newer"), nil); err != nil {
		t.Errorf("beside a file left behind: %v", err)
	}
	wantNames(t, filepath.Dir(path), "a.txt", "a.txt.bak")
}

// editor is a program without locks that writes just before the n-th new file.
type editor struct {
	safefile.Disk
	n    int
	edit func()
}

func (e *editor) Create(path string) (safefile.File, error) {
	if e.n--; e.n == 0 {
		e.edit()
	}
	return e.Disk.Create(path)
}

// What a program without locks does between reading and replacing is noticed.
func TestAnEditorInBetweenIsNoticed(t *testing.T) {
	for _, c := range []struct {
		name, former string
		files        int // that Write makes: backup, temporary
		edit         func(path string) error
		want         string
	}{
		{"changes it", "former", 2, func(p string) error { return os.WriteFile(p, []byte("theirs"), 0o600) }, "theirs"},
		{"removes it", "former", 2, os.Remove, ""},
		{"makes it", "", 1, func(p string) error { return os.WriteFile(p, []byte("theirs"), 0o600) }, "theirs"},
		{"puts a folder there", "former", 2, func(p string) error { return errors.Join(os.Remove(p), os.Mkdir(p, 0o700)) }, ""},
		{"puts a giant there", "former", 2, func(p string) error { return os.Truncate(p, 3<<30) }, ""},
	} {
		for n := 1; n <= c.files; n++ {
			path := filepath.Join(t.TempDir(), "a.txt")
			if c.former != "" {
				mustWrite(t, path, c.former)
			}
			e := &editor{n: n, edit: func() {
				if err := c.edit(path); err != nil {
					t.Fatal(err)
				}
			}}
			if err := safefile.Write(e, path, []byte("ours"), nil); !errors.Is(err, safefile.ErrChanged) {
				t.Errorf("%s before file %d: %v", c.name, n, err)
			}
			if c.want != "" {
				wantFile(t, path, c.want)
			}
			noLeftovers(t, filepath.Dir(path), n)
		}
	}
}

// A file of giant size is refused unread.
func TestAGiantIsNotReplaced(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.txt")
	mustWrite(t, path, "x")
	for size, want := range map[int64]error{safefile.MaxFormer: nil, safefile.MaxFormer + 1: safefile.ErrTooLarge, 3 << 30: safefile.ErrTooLarge} {
		if err := os.Truncate(path, size); err != nil {
			t.Fatal(err)
		}
		if err := safefile.Write(safefile.Disk{}, path, []byte("new"), nil); !errors.Is(err, want) {
			t.Errorf("%d bytes: %v, want %v", size, err, want)
		}
	}
}

// The longest name that can be saved can be saved twice, and no longer one once.
func TestLongNames(t *testing.T) {
	dir := t.TempDir()
	longest := filepath.Join(dir, strings.Repeat("n", 251))
	for _, text := range []string{"first", "second"} {
		if err := safefile.Write(safefile.Disk{}, longest, []byte(text), nil); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
	wantFile(t, longest+".bak", "first")
	if err := safefile.Write(safefile.Disk{}, longest+"n", []byte("new"), nil); !errors.Is(err, safefile.ErrLongName) {
		t.Errorf("a longer name: %v", err)
	}
	what, cure := safefile.Explain(safefile.CheckName(longest + "n"))
	if !strings.Contains(what, "too long") || !strings.Contains(cure, "251") {
		t.Errorf("%q, %q", what, cure)
	}
}

// owned notes what new files are to belong to.
type owned struct {
	safefile.Disk
	err   error
	likes []fs.FileInfo
}

type ownedFile struct {
	safefile.File
	o *owned
}

func (o *owned) Create(path string) (safefile.File, error) {
	f, err := o.Disk.Create(path)
	return ownedFile{f, o}, err
}

func (f ownedFile) Own(like fs.FileInfo) error {
	f.o.likes = append(f.o.likes, like)
	return errors.Join(f.o.err, f.File.Own(like))
}

// File and backup belong to whom the file belonged. Where its group cannot be
// kept, the saver's own group may do no more with it than anybody.
func TestOwnerAndGroup(t *testing.T) {
	for _, c := range []struct {
		err           error
		was, now, bak fs.FileMode
	}{
		{nil, 0o660, 0o660, 0o660},
		{syscall.EPERM, 0o660, 0o600, 0o600},
		{syscall.EPERM, 0o674, 0o644, 0o644},
	} {
		path := filepath.Join(t.TempDir(), "a.txt")
		mustWrite(t, path, "former")
		if os.Geteuid() == 0 { // who may give files away sees it done
			if err := os.Chown(path, 4711, 815); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.Chmod(path, c.was); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		sys := &owned{err: c.err}
		if err := safefile.Write(sys, path, []byte("new"), nil); err != nil {
			t.Fatal(err)
		}
		if len(sys.likes) != 2 || !os.SameFile(sys.likes[0], info) || !os.SameFile(sys.likes[1], info) {
			t.Errorf("made like %v", sys.likes)
		}
		for name, want := range map[string]fs.FileMode{path: c.now, path + ".bak": c.bak} {
			if m := mode(t, name).Perm(); m != want {
				t.Errorf("%v refused %v: %s has mode %v, want %v", c.was, c.err, filepath.Base(name), m, want)
			}
			now, err := os.Stat(name)
			if err != nil {
				t.Fatal(err)
			}
			if a, b := now.Sys().(*syscall.Stat_t), info.Sys().(*syscall.Stat_t); a.Uid != b.Uid || a.Gid != b.Gid {
				t.Errorf("%s is of %d:%d, was of %d:%d", filepath.Base(name), a.Uid, a.Gid, b.Uid, b.Gid)
			}
		}
	}
	path := filepath.Join(t.TempDir(), "a.txt")
	mustWrite(t, path, "former")
	if err := safefile.Write(&owned{err: syscall.EIO}, path, []byte("new"), nil); !errors.Is(err, syscall.EIO) {
		t.Errorf("a fault while keeping the owner: %v", err)
	}
	wantFile(t, path, "former")
}
