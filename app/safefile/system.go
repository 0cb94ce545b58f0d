package safefile

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"time"
)

// System is the file operations that nothing may be lost by, so that a test can
// fail any of them. Disk is the real one.
type System interface {
	EvalSymlinks(path string) (string, error)
	Lstat(path string) (fs.FileInfo, error)
	Stat(path string) (fs.FileInfo, error)
	// ReadFile reads an ordinary file of at most so many bytes; else ErrTooLarge.
	ReadFile(path string, most int64) ([]byte, error)
	Create(path string) (File, error) // fails with fs.ErrExist if it is there
	Rename(from, to string) error     // replaces what is there
	Remove(path string) error
	SyncFolder(path string) error
	// Lock keeps others that lock the same path out until unlock is called. It
	// waits for them, but not for ever: ErrBusy.
	Lock(path string) (unlock func(), err error)
	MakeFolder(path string) error // with those above it; private to the user
	ReadFolder(path string) ([]fs.DirEntry, error)
}

// File is a new file open for writing.
type File interface {
	io.WriteCloser
	Name() string
	Chmod(fs.FileMode) error
	Own(like fs.FileInfo) error // gives it the owner, or at least the group, of a file
	Sync() error
}

// Disk is the computer's own file system.
type Disk struct {
	Patience time.Duration // how long Lock waits; usualPatience if it is nought
}

var _ System = Disk{}

// EvalSymlinks is filepath.EvalSymlinks.
func (Disk) EvalSymlinks(path string) (string, error) { return filepath.EvalSymlinks(path) }

// Lstat is os.Lstat.
func (Disk) Lstat(path string) (fs.FileInfo, error) { return os.Lstat(path) }

// Stat is os.Stat.
func (Disk) Stat(path string) (fs.FileInfo, error) { return os.Stat(path) }

// ReadFile reads no pipe or folder, and never more than one byte beyond the most.
func (Disk) ReadFile(path string, most int64) (data []byte, err error) {
	info, err := os.Stat(path) // before opening: a pipe would wait for its writer
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, ErrFolder
	case !info.Mode().IsRegular():
		return nil, ErrNotFile
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	data, err = io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && int64(len(data)) > most {
		return nil, ErrTooLarge
	}
	return data, err
}

// Create makes a new file for writing, never opening one that is there.
func (Disk) Create(path string) (File, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return nil, err
	}
	return diskFile{f}, nil
}

type diskFile struct{ *os.File }

// Rename is os.Rename, which replaces the target on Windows too.
func (Disk) Rename(from, to string) error { return os.Rename(from, to) }

// Remove is os.Remove.
func (Disk) Remove(path string) error { return os.Remove(path) }

// MakeFolder is os.MkdirAll.
func (Disk) MakeFolder(path string) error { return os.MkdirAll(path, 0o700) }

// ReadFolder is os.ReadDir.
func (Disk) ReadFolder(path string) ([]fs.DirEntry, error) { return os.ReadDir(path) }

// SyncFolder brings a rename to the disk. Windows has no such call and orders
// renames itself.
func (Disk) SyncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	dir, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(dir.Sync(), dir.Close())
}
