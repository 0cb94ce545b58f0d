//go:build !windows

package recovery

import (
	"errors"
	"syscall"
)

// exists asks with the signal that does nothing. One that may not be signalled
// is there.
func exists(pid int) bool {
	if pid <= 0 {
		return false
	}
	err := syscall.Kill(pid, 0)
	return err == nil || errors.Is(err, syscall.EPERM)
}
