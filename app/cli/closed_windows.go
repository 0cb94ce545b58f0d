package cli

import "io"

// isClosed: a write to what is closed fails here.
func isClosed(io.Writer) bool { return false }
