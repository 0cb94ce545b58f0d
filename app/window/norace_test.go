//go:build !race

package window

// Sizes of the long tests.
const (
	walkGestures = 5000
	dragMoves    = 10_000
)
