//go:build race

package window

// The race detector makes everything ten times slower and does not need the
// full length to see a race.
const (
	walkGestures = 300
	dragMoves    = 500
)
