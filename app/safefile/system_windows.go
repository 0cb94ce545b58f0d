package safefile

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// Windows system error codes (winerror.h).
const (
	sharingViolation = syscall.Errno(32)
	lockViolation    = syscall.Errno(33)
	handleDiskFull   = syscall.Errno(39)
	diskFull         = syscall.Errno(112)
)

func isDiskFull(err error) bool {
	return errors.Is(err, handleDiskFull) || errors.Is(err, diskFull)
}

// isInUse tells whether another program has the file open and lets nobody
// replace it.
func isInUse(err error) bool {
	return errors.Is(err, sharingViolation) || errors.Is(err, lockViolation)
}

// removeLock takes a lock's file away once the lock is given up: the system
// refuses while anybody has it open.
func removeLock(path string, unlock func() error) error {
	return errors.Join(unlock(), os.Remove(path))
}

// Own leaves owner and group alone: they follow from the folder.
func (diskFile) Own(fs.FileInfo) error { return nil }
