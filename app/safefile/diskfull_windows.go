package safefile

import (
	"errors"
	"syscall"
)

// Windows system error codes for a disk without room (winerror.h).
const (
	handleDiskFull = syscall.Errno(39)
	diskFull       = syscall.Errno(112)
)

func isDiskFull(err error) bool {
	return errors.Is(err, handleDiskFull) || errors.Is(err, diskFull)
}
