// Package safefile replaces a file whole or not at all, and keeps the former
// one beside it. Whatever fails, and at whatever instant the program is killed,
// the name leads to the old file or to the new one, each complete.
package safefile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"path/filepath"
	"syscall"
)

// BackupSuffix is added to a file's name for the former one. A killed program
// may leave a hidden file behind whose name ends with TempSuffix.
const (
	BackupSuffix = ".bak"
	TempSuffix   = ".tmp"
)

// Errors of Write, for errors.Is, besides those of the system.
var (
	ErrFolder    = errors.New("is a folder")
	ErrNotFile   = errors.New("is not an ordinary file")
	ErrProtected = errors.New("is write-protected")
)

// Write replaces the file at path by data. A symbolic link is followed, and
// stays. A file that was there keeps its mode, and its former content goes to
// path + BackupSuffix; content that is the same already is left alone. A new
// file gets the mode 0666 less the umask.
//
// A file without any write permission is not replaced, nor one whose content
// guard refuses; guard may be nil. On an error the file at path is untouched,
// save for *NotSynced: then it is the new one. Errors name the step and wrap
// the system's, or guard's.
func Write(sys System, path string, data []byte, guard func(former []byte) error) error {
	real, err := resolve(sys, path)
	if err != nil {
		return err
	}
	info, err := sys.Stat(real)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		err = replace(sys, real, data, nil)
	case err != nil:
		return fmt.Errorf("look at the file: %w", err)
	default:
		err = keepAndReplace(sys, real, data, info, guard)
	}
	if err != nil {
		return err
	}
	if err := sys.SyncFolder(filepath.Dir(real)); err != nil && !unsupported(err) {
		return &NotSynced{err}
	}
	return nil
}

// WritePrivate replaces the file at path by data like Write, but keeps no
// former file and lets no other user read it: for the program's own records.
func WritePrivate(sys System, path string, data []byte) error {
	mode := fs.FileMode(0o600)
	if err := replace(sys, path, data, &mode); err != nil {
		return err
	}
	if err := sys.SyncFolder(filepath.Dir(path)); err != nil && !unsupported(err) {
		return &NotSynced{err}
	}
	return nil
}

// keepAndReplace replaces a file that is there.
func keepAndReplace(sys System, real string, data []byte, info fs.FileInfo, guard func([]byte) error) error {
	switch {
	case info.IsDir():
		return ErrFolder
	case !info.Mode().IsRegular():
		return ErrNotFile
	case info.Mode().Perm()&0o222 == 0:
		return ErrProtected
	}
	former, err := sys.ReadFile(real)
	if err != nil {
		return fmt.Errorf("read the former file: %w", err)
	}
	if bytes.Equal(former, data) {
		return nil
	}
	if guard != nil {
		if err := guard(former); err != nil {
			return err
		}
	}
	mode := info.Mode().Perm()
	// Copied, not renamed: the old name must lead to a file at every instant.
	if err := replace(sys, real+BackupSuffix, former, &mode); err != nil {
		return fmt.Errorf("keep the former file: %w", err)
	}
	return replace(sys, real, data, &mode)
}

// resolve follows symbolic links, so that the link is not replaced by a file.
func resolve(sys System, path string) (string, error) {
	real, err := sys.EvalSymlinks(path)
	if err == nil {
		return real, nil
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return "", fmt.Errorf("follow the link: %w", err)
	}
	info, lerr := sys.Lstat(path)
	switch {
	case lerr == nil && info.Mode()&fs.ModeSymlink != 0: // to a file that is gone
		return "", fmt.Errorf("follow the link: %w", err)
	case lerr != nil && !errors.Is(lerr, fs.ErrNotExist):
		return "", fmt.Errorf("look at the file: %w", lerr)
	}
	return path, nil
}

// replace writes data beside path and renames it over. A nil mode leaves the
// mode to the system.
func replace(sys System, path string, data []byte, mode *fs.FileMode) (err error) {
	temp, err := create(sys, filepath.Dir(path), filepath.Base(path))
	if err != nil {
		return err
	}
	open := true
	defer func() {
		if err == nil {
			return
		}
		if open {
			err = errors.Join(err, temp.Close())
		}
		if rerr := sys.Remove(temp.Name()); rerr != nil {
			err = errors.Join(err, fmt.Errorf("remove the temporary file: %w", rerr))
		}
	}()
	if _, err = io.Copy(temp, bytes.NewReader(data)); err != nil {
		return fmt.Errorf("write: %w", err)
	}
	if mode != nil {
		if err = temp.Chmod(*mode); err != nil {
			return fmt.Errorf("set the mode: %w", err)
		}
	}
	// Sync before the rename: after a power cut the name must not lead to a
	// file whose content never reached the disk.
	if err = temp.Sync(); err != nil {
		return fmt.Errorf("bring it to the disk: %w", err)
	}
	open = false
	if err = temp.Close(); err != nil {
		return fmt.Errorf("close: %w", err)
	}
	if err = sys.Rename(temp.Name(), path); err != nil {
		return fmt.Errorf("put it in place: %w", err)
	}
	return nil
}

// NotSynced: the file is in its place, but whether it would outlast a power
// cut just now is not known.
type NotSynced struct{ Err error }

// Error says so in one line.
func (e *NotSynced) Error() string {
	return fmt.Sprintf("it is written, but the folder could not be synced: %v", e.Err)
}

// Unwrap returns the system's error.
func (e *NotSynced) Unwrap() error { return e.Err }

// unsupported tells whether a file system just does not sync folders.
func unsupported(err error) bool {
	return errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.EINVAL)
}

// attempts to find a free name for a temporary file; a clash of two random
// 64-bit numbers does not happen, a folder that lies might.
const attempts = 5

// create makes a new hidden file in the folder.
func create(sys System, dir, base string) (File, error) {
	var err error
	for range attempts {
		var f File
		name := filepath.Join(dir, fmt.Sprintf(".%s.%016x%s", base, rand.Uint64(), TempSuffix))
		if f, err = sys.Create(name); err == nil {
			return f, nil
		}
		if !errors.Is(err, fs.ErrExist) {
			break
		}
	}
	return nil, fmt.Errorf("make a temporary file: %w", err)
}
