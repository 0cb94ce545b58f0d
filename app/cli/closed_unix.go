//go:build !windows

package cli

import (
	"io"
	"os"

	"golang.org/x/sys/unix"
)

// isClosed tells whether the program was started without this output. Then Go
// has opened the null device in its place, for reading too, and what is written
// would be lost without an error. A program that opens it just so to throw an
// answer away cannot be told from that.
func isClosed(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	here, err := f.Stat()
	if err != nil {
		return true
	}
	null, err := os.Stat(os.DevNull)
	if err != nil || !os.SameFile(here, null) {
		return false
	}
	flags, err := unix.FcntlInt(f.Fd(), unix.F_GETFL, 0)
	return err == nil && flags&unix.O_ACCMODE == unix.O_RDWR
}
