package safefile

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"syscall"
	"time"

	"github.com/gofrs/flock"
)

// usualPatience is how long a lock is waited for: one is held for as long as
// one file takes to be written.
const usualPatience = 30 * time.Second

// lockRetry is how often a lock that another holds is asked for.
const lockRetry = 3 * time.Millisecond

// Lock holds a lock on a hidden file beside path, which goes with the lock; that
// of a killed program is free. A file system without locks, or a lock's file
// that another user has left, keeps nobody from saving: there the last read of
// Update has to do.
func (d Disk) Lock(path string) (unlock func(), err error) {
	patience := d.Patience
	if patience == 0 {
		patience = usualPatience
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	name := hidden(path, LockSuffix)
	for {
		l := flock.New(name, flock.SetPermissions(0o644))
		_, err := l.TryLockContext(ctx, lockRetry)
		switch {
		case errors.Is(err, context.DeadlineExceeded):
			return nil, errors.Join(ErrBusy, l.Close())
		case err != nil && noLocks(err):
			return func() {}, nil
		case err != nil:
			return nil, err
		}
		if stillNamed(l, name) {
			// One that stays behind is in nobody's way.
			return func() { _ = removeLock(name, l.Unlock) }, nil
		}
		if err := l.Unlock(); err != nil {
			return nil, err
		}
	}
}

// stillNamed tells whether a lock's file is the one that others find by name:
// the holder before may have removed it in between.
func stillNamed(l *flock.Flock, name string) bool {
	mine, err := l.Stat()
	if err != nil {
		return false
	}
	found, err := os.Lstat(name)
	return err == nil && os.SameFile(mine, found)
}

func noLocks(err error) bool {
	return unsupported(err) || errors.Is(err, syscall.ENOLCK) || errors.Is(err, syscall.EBADF) || errors.Is(err, fs.ErrPermission)
}
