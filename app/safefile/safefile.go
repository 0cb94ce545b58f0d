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
// may leave hidden files behind whose names end with TempSuffix or LockSuffix.
const (
	BackupSuffix = ".bak"
	TempSuffix   = ".tmp"
	LockSuffix   = ".lock"
)

// MaxFormer is the largest file that is replaced, bytes: all of it is read and
// kept, and nothing that this program writes comes near.
const MaxFormer = 8 << 20

// maxName is the longest name of a file that Linux, Windows and macOS all take,
// bytes (from memory).
const maxName = 255

// Errors of Write, for errors.Is, besides those of the system.
var (
	ErrFolder    = errors.New("is a folder")
	ErrNotFile   = errors.New("is not an ordinary file")
	ErrProtected = errors.New("is write-protected")
	ErrTooLarge  = errors.New("is too large")
	ErrLongName  = errors.New("has too long a name")
	ErrBusy      = errors.New("another program is saving it")
	ErrChanged   = errors.New("another program has just changed it")
)

// Write replaces the file at path by data, unless guard refuses what it holds;
// guard may be nil, and is not asked where the file holds data already. See
// Update.
func Write(sys System, path string, data []byte, guard func(former []byte) error) error {
	return Update(sys, path, func(former []byte, there bool) ([]byte, error) {
		if there && guard != nil && !bytes.Equal(former, data) {
			return data, guard(former)
		}
		return data, nil
	})
}

// Update replaces the file at path by what change makes of what it holds; an
// error of change is returned and nothing is written. Of several programs and
// goroutines that do so, one does it at a time, so each makes its own of what
// the one before has written. A writer that knows nothing of that is noticed by
// a last read before the file is replaced: ErrChanged.
//
// A symbolic link is followed, and stays. A file that was there keeps its mode,
// and its owner and group as far as the system lets; its former content goes to
// path + BackupSuffix. Content that is the same already is left alone. A new
// file gets the mode 0666 less the umask. A file without any write permission
// is not replaced.
//
// On an error the file at path is untouched, save for *NotSynced: then it is
// the new one. Errors name the step and wrap the system's, or change's.
func Update(sys System, path string, change func(former []byte, there bool) ([]byte, error)) error {
	if err := CheckName(path); err != nil {
		return err
	}
	real, err := resolve(sys, path)
	if err != nil {
		return err
	}
	unlock, err := sys.Lock(real)
	if err != nil {
		return fmt.Errorf("lock the file: %w", err)
	}
	defer unlock()
	info, err := sys.Stat(real)
	if errors.Is(err, fs.ErrNotExist) {
		info, err = nil, nil
	}
	if err != nil {
		return fmt.Errorf("look at the file: %w", err)
	}
	if err := changeLocked(sys, real, info, change); err != nil {
		return err
	}
	if err := sys.SyncFolder(filepath.Dir(real)); err != nil && !unsupported(err) {
		return &NotSynced{err}
	}
	return nil
}

// CheckName refuses a name under which nothing can be saved, for the backup's
// would be too long: ErrLongName.
func CheckName(path string) error {
	most := maxName - len(BackupSuffix)
	if n := len(filepath.Base(path)); n > most {
		return fmt.Errorf("%w: %d characters of at most %d", ErrLongName, n, most)
	}
	return nil
}

// WritePrivate replaces the file at path by data like Write, but keeps no
// former file and lets no other user read it: for the program's own records.
func WritePrivate(sys System, path string, data []byte) error {
	private := func(f File) error { return f.Chmod(0o600) }
	if err := replace(sys, path, data, private, nil); err != nil {
		return err
	}
	if err := sys.SyncFolder(filepath.Dir(path)); err != nil && !unsupported(err) {
		return &NotSynced{err}
	}
	return nil
}

// changeLocked changes the file, which is locked; info is nil where there is none.
func changeLocked(sys System, real string, info fs.FileInfo, change func([]byte, bool) ([]byte, error)) error {
	there := info != nil
	former, err := formerOf(sys, real, info)
	if err != nil {
		return err
	}
	data, err := change(former, there)
	if err != nil || there && bytes.Equal(former, data) {
		return err
	}
	if there {
		// Copied, not renamed: the old name must lead to a file at every instant.
		if err := replace(sys, real+BackupSuffix, former, like(info), nil); err != nil {
			return fmt.Errorf("keep the former file: %w", err)
		}
	}
	return replace(sys, real, data, like(info), func() error {
		now, err := sys.ReadFile(real, MaxFormer)
		switch {
		case errors.Is(err, fs.ErrNotExist) && !there, err == nil && there && bytes.Equal(now, former):
			return nil
		case err == nil, errors.Is(err, fs.ErrNotExist), errors.Is(err, ErrTooLarge), errors.Is(err, ErrFolder), errors.Is(err, ErrNotFile):
			return ErrChanged
		}
		return fmt.Errorf("read the file again: %w", err)
	})
}

// formerOf reads a file that may be replaced.
func formerOf(sys System, real string, info fs.FileInfo) ([]byte, error) {
	switch {
	case info == nil:
		return nil, nil
	case info.IsDir():
		return nil, ErrFolder
	case !info.Mode().IsRegular():
		return nil, ErrNotFile
	case info.Mode().Perm()&0o222 == 0:
		return nil, ErrProtected
	}
	former, err := sys.ReadFile(real, MaxFormer)
	if err != nil {
		return nil, fmt.Errorf("read the former file: %w", err)
	}
	return former, nil
}

// like makes a new file as one that is there, nil for none, was to other users.
func like(info fs.FileInfo) func(File) error {
	if info == nil {
		return nil
	}
	return func(f File) error {
		mode := info.Mode().Perm()
		err := f.Own(info)
		if errors.Is(err, fs.ErrPermission) {
			// It has the group of whoever saves: that one is let do no more than anybody.
			const groupOf = 3
			mode &^= 0o070 &^ (mode & 0o007 << groupOf)
			err = nil
		}
		if err != nil {
			return fmt.Errorf("keep owner and group: %w", err)
		}
		if err := f.Chmod(mode); err != nil {
			return fmt.Errorf("set the mode: %w", err)
		}
		return nil
	}
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

// replace writes data beside path and renames it over, once still agrees. made
// sets mode and owner. Each may be nil.
func replace(sys System, path string, data []byte, made func(File) error, still func() error) (err error) {
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
	if made != nil {
		if err = made(temp); err != nil {
			return err
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
	if still != nil {
		if err = still(); err != nil {
			return err
		}
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

// hidden is the name of a hidden file beside path, cut where it would be too long.
func hidden(path, suffix string) string {
	dir, base := filepath.Split(path)
	return filepath.Join(dir, "."+base[:min(len(base), maxName-len(".")-len(suffix))]+suffix)
}

// create makes a new hidden file in the folder.
func create(sys System, dir, base string) (File, error) {
	var err error
	for range attempts {
		var f File
		name := hidden(filepath.Join(dir, base), fmt.Sprintf(".%016x%s", rand.Uint64(), TempSuffix))
		if f, err = sys.Create(name); err == nil {
			return f, nil
		}
		if !errors.Is(err, fs.ErrExist) {
			break
		}
	}
	return nil, fmt.Errorf("make a temporary file: %w", err)
}
