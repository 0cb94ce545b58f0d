package safefile_test

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"armscribe/app/safefile"
	"armscribe/app/safefile/faulty"
)

func mustWrite(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o640); err != nil {
		t.Fatal(err)
	}
}

func wantFile(t *testing.T, path, text string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != text {
		t.Errorf("%s holds %q (%v), want %q", filepath.Base(path), got, err, text)
	}
}

func wantNames(t *testing.T, dir string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if strings.Join(got, " ") != strings.Join(names, " ") {
		t.Errorf("the folder holds %q, want %q", got, names)
	}
}

func TestNewFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.txt")
	if err := safefile.Write(safefile.Disk{}, path, []byte("first"), nil); err != nil {
		t.Fatal(err)
	}
	wantFile(t, path, "first")
	wantNames(t, dir, "a.txt")
	plain := filepath.Join(dir, "b.txt")
	f, err := os.Create(plain)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if a, b := mode(t, path), mode(t, plain); a != b {
		t.Errorf("a new file has mode %v, an ordinary one %v", a, b)
	}
}

func mode(t *testing.T, path string) fs.FileMode {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	return info.Mode()
}

func TestReplaceKeepsFormerAndMode(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.txt")
	mustWrite(t, path, "first")
	for _, text := range []string{"second", "third"} {
		if err := safefile.Write(safefile.Disk{}, path, []byte(text), nil); err != nil {
			t.Fatal(err)
		}
	}
	wantFile(t, path, "third")
	wantFile(t, path+".bak", "second")
	wantNames(t, dir, "a.txt", "a.txt.bak")
	if m := mode(t, path).Perm(); m != 0o640 {
		t.Errorf("mode %v, want that of the former file, 0640", m)
	}
}

func TestSameContentKeepsBackup(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.txt")
	mustWrite(t, path, "same")
	mustWrite(t, path+".bak", "older")
	if err := safefile.Write(safefile.Disk{}, path, []byte("same"), nil); err != nil {
		t.Fatal(err)
	}
	wantFile(t, path+".bak", "older")
}

func TestFollowsLink(t *testing.T) {
	dir := t.TempDir()
	target, link := filepath.Join(dir, "target.txt"), filepath.Join(dir, "link.txt")
	mustWrite(t, target, "first")
	if err := os.Symlink("target.txt", link); err != nil {
		t.Fatal(err)
	}
	if err := safefile.Write(safefile.Disk{}, link, []byte("second"), nil); err != nil {
		t.Fatal(err)
	}
	wantFile(t, target, "second")
	if to, err := os.Readlink(link); err != nil || to != "target.txt" {
		t.Errorf("the link leads to %q (%v)", to, err)
	}
	if err := os.Remove(target); err != nil {
		t.Fatal(err)
	}
	if err := safefile.Write(safefile.Disk{}, link, []byte("third"), nil); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a link to nothing: %v, want that the file does not exist", err)
	}
}

func TestRefused(t *testing.T) {
	dir := t.TempDir()
	protected := filepath.Join(dir, "protected.txt")
	mustWrite(t, protected, "keep")
	if err := os.Chmod(protected, 0o444); err != nil {
		t.Fatal(err)
	}
	guarded := filepath.Join(dir, "guarded.txt")
	mustWrite(t, guarded, "keep")
	errGuard := errors.New("not this one")
	guard := func(former []byte) error {
		if string(former) == "keep" {
			return errGuard
		}
		return nil
	}
	for _, c := range []struct {
		path string
		want error
	}{
		{dir, safefile.ErrFolder},
		{protected, safefile.ErrProtected},
		{guarded, errGuard},
		{filepath.Join(dir, "none", "a.txt"), fs.ErrNotExist},
	} {
		if err := safefile.Write(safefile.Disk{}, c.path, []byte("new"), guard); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.path, err, c.want)
		}
	}
	wantFile(t, protected, "keep")
	wantFile(t, guarded, "keep")
	wantNames(t, dir, "guarded.txt", "protected.txt")
}

// TestEveryOperationFails lets each file operation fail in turn, once and for
// good, with and without a former file: the name must lead to a whole file,
// the error must be reported, and nothing else may be left over.
func TestEveryOperationFails(t *testing.T) {
	for _, former := range []string{"", strings.Repeat("former\n", 99)} {
		for _, forever := range []bool{false, true} {
			n := failEach(t, former, forever)
			if least := 7; n < least {
				t.Errorf("only %d operations seen, at least %d expected", n, least)
			}
		}
	}
}

func failEach(t *testing.T, former string, forever bool) int {
	data := strings.Repeat("replacement\n", 77)
	for n := 1; ; n++ {
		dir := t.TempDir()
		path := filepath.Join(dir, "a.txt")
		if former != "" {
			mustWrite(t, path, former)
		}
		sys := &faulty.System{Under: safefile.Disk{}, FailAt: n, Forever: forever, Err: syscall.ENOSPC}
		err := safefile.Write(sys, path, []byte(data), nil)
		if sys.Done < n {
			if err != nil {
				t.Errorf("nothing failed, but: %v", err)
			}
			wantFile(t, path, data)
			return n - 1
		}
		if !errors.Is(err, syscall.ENOSPC) {
			t.Errorf("operation %d failed, and Write says: %v", n, err)
		}
		if !forever && strings.Contains(err.Error(), "remove the temporary file") {
			t.Errorf("operation %d failed, and Write says that removing did: %v", n, err)
		}
		var late *safefile.NotSynced
		want := former
		if errors.As(err, &late) {
			want = data
		}
		got, rerr := os.ReadFile(path)
		if want == "" {
			if !errors.Is(rerr, fs.ErrNotExist) {
				t.Errorf("operation %d failed: there is a file of %d bytes where none was (%v)", n, len(got), rerr)
			}
		} else if rerr != nil || !bytes.Equal(got, []byte(want)) {
			t.Errorf("operation %d failed: the file holds %d bytes (%v), want %d", n, len(got), rerr, len(want))
		}
		if !forever {
			noLeftovers(t, dir, n)
		}
	}
}

// noLeftovers finds temporary files. They cannot be removed when removing
// fails too.
func noLeftovers(t *testing.T, dir string, n int) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), ".tmp") {
			t.Errorf("operation %d failed and left %s behind", n, e.Name())
		}
	}
}

func TestFolderThatCannotBeSynced(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.txt")
	count := &faulty.System{Under: safefile.Disk{}}
	if err := safefile.Write(count, path, []byte("first"), nil); err != nil {
		t.Fatal(err)
	}
	for _, err := range []error{syscall.EINVAL, syscall.ENOTSUP} {
		if e := os.Remove(path); e != nil {
			t.Fatal(e)
		}
		sys := &faulty.System{Under: safefile.Disk{}, FailAt: count.Done, Err: err}
		if got := safefile.Write(sys, path, []byte("first"), nil); got != nil {
			t.Errorf("a file system that does not sync folders (%v): %v", err, got)
		}
	}
}

// A folder that is gone cannot be synced, and a file that cannot be removed is named.
func TestFaultsOfTheFolderAreSaid(t *testing.T) {
	dir := t.TempDir()
	if err := (safefile.Disk{}).SyncFolder(filepath.Join(dir, "none")); !errors.Is(err, fs.ErrNotExist) && runtime.GOOS != "windows" {
		t.Errorf("a folder that is not there: %v", err)
	}
	count := &faulty.System{Under: safefile.Disk{}}
	if err := safefile.Write(count, filepath.Join(dir, "a.txt"), []byte("first"), nil); err != nil {
		t.Fatal(err)
	}
	sys := &faulty.System{Under: safefile.Disk{}, FailAt: count.Done - 1, Forever: true, Err: syscall.EIO} // the rename, and all after it
	if err := safefile.Write(sys, filepath.Join(dir, "b.txt"), []byte("first"), nil); err == nil || !strings.Contains(err.Error(), "remove the temporary file") {
		t.Errorf("a temporary file that cannot be removed: %v", err)
	}
}

func TestExplain(t *testing.T) {
	for _, c := range []struct {
		err  error
		want string
	}{
		{syscall.ENOSPC, "the disk is full"},
		{syscall.EDQUOT, "the disk is full"},
		{syscall.EROFS, "the disk is read-only"},
		{syscall.EACCES, "may not be written to"},
		{syscall.ENOENT, "does not exist"},
		{safefile.ErrProtected, "write-protected"},
		{safefile.ErrTooLarge, "is too large"},
		{safefile.ErrLongName, "the name is too long"},
		{syscall.ENAMETOOLONG, "the name is too long"},
		{safefile.ErrBusy, "another program is saving it"},
		{safefile.ErrChanged, "another program has just changed it"},
		{safefile.ErrFolder, "is a folder"},
		{safefile.ErrNotFile, "is not an ordinary file"},
		{&safefile.NotSynced{Err: syscall.EIO}, "is written, but"},
		{syscall.EIO, "is not saved: input/output error"},
	} {
		what, cure := safefile.Explain(errors.Join(errors.New("step"), c.err))
		if c.err == syscall.EIO {
			what, cure = safefile.Explain(c.err)
		}
		if !strings.Contains(what, c.want) || cure == "" {
			t.Errorf("%v: %q, %q; want %q and a cure", c.err, what, cure, c.want)
		}
	}
}
