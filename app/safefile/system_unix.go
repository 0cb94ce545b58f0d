//go:build !windows

package safefile

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// isDiskFull covers the quota, which is full for one user only.
func isDiskFull(err error) bool { return errors.Is(err, syscall.EDQUOT) }

// isInUse: here an open file can be replaced.
func isInUse(error) bool { return false }

// removeLock takes a lock's file away while the lock is held, so that nobody
// can take a lock on a file without a name and think it the one.
func removeLock(path string, unlock func() error) error {
	return errors.Join(os.Remove(path), unlock())
}

// Own gives the file the owner of another, which only some users may do, or at
// least its group.
func (f diskFile) Own(like fs.FileInfo) error {
	was, ok := like.Sys().(*syscall.Stat_t)
	if !ok {
		return nil
	}
	err := f.Chown(int(was.Uid), int(was.Gid))
	if errors.Is(err, fs.ErrPermission) {
		err = f.Chown(-1, int(was.Gid))
	}
	return err
}
