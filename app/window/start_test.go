package window

import (
	"bytes"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
)

// A panic while the window is made is said as it is and fails: it is no missing
// display, and readings on the terminal would hide it.
func TestPanicAtStartIsNoMissingDisplay(t *testing.T) {
	t.Setenv("DISPLAY", ":1") // where no window is asked of it
	var stdout, stderr bytes.Buffer
	code := Main(func() fyne.App { panic("units: cannot print NaN") }, nil, &stdout, &stderr)
	said := stderr.String()
	if code != 3 || stdout.Len() > 0 || !strings.Contains(said, "units: cannot print NaN") || !strings.Contains(said, "start_test.go") {
		t.Errorf("exit code %d, %q, %q", code, stdout.String(), said)
	}
	if strings.Contains(said, "display") {
		t.Errorf("it blames the display: %q", said)
	}
}
