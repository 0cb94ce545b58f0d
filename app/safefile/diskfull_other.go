//go:build !windows

package safefile

import (
	"errors"
	"syscall"
)

// isDiskFull covers the quota, which is full for one user only.
func isDiskFull(err error) bool { return errors.Is(err, syscall.EDQUOT) }
