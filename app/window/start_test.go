package window

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"armscribe/app/document"
	"armscribe/app/recovery"
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

// Without a name the job opened last opens, and is no demo; one that is gone is
// passed over, and where none is left it is the demo.
func TestTheLastJobOpens(t *testing.T) {
	t.Setenv("DISPLAY", "") // so that the readings are printed
	t.Setenv("WAYLAND_DISPLAY", "")
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	start := func(args ...string) string {
		t.Helper()
		var stdout, stderr bytes.Buffer
		if code := Main(nil, args, &stdout, &stderr); code != 0 {
			t.Fatalf("exit code %d: %s", code, stderr.String())
		}
		first, _, _ := strings.Cut(stdout.String(), "\n")
		return first
	}
	demo, err := openDemo(firstDemo)
	if err != nil {
		t.Fatal(err)
	}
	if got := start(); !strings.HasPrefix(got, demo.Job().Title()+":") {
		t.Errorf("the very first start: %q", got)
	}
	store, err := recovery.Default()
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	for _, name := range []string{"older", "newer"} {
		j := demo.Job().Clone()
		j.Name, j.Invented = "My "+name+" car", false
		data, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(folder, name+".armscribe.yaml")
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
		if err := store.Opened(path); err != nil {
			t.Fatal(err)
		}
	}
	if got := start(); !strings.HasPrefix(got, "My newer car:") {
		t.Errorf("the last job: %q", got)
	}
	if got := start(filepath.Join(folder, "older.armscribe.yaml")); !strings.HasPrefix(got, "My older car:") {
		t.Errorf("the one named: %q", got)
	}
	if err := os.Remove(filepath.Join(folder, "newer.armscribe.yaml")); err != nil {
		t.Fatal(err)
	}
	if got := start(); !strings.HasPrefix(got, "My older car:") {
		t.Errorf("the last that is there: %q", got)
	}
}

// What is said of a demo does not stand under the job that is opened after it.
func TestOwnJobIsNoDemo(t *testing.T) {
	w := open(t, "flat-teaching")
	if w.status.Text != inventedLine || !strings.HasSuffix(w.win.Title(), "(invented example) (not saved yet) · Armscribe") {
		t.Errorf("of a demo opened as a file it says %q under %q", w.status.Text, w.win.Title())
	}
	w.openDemo(firstDemo)
	if w.status.Text != inventedLine || w.top.name.Text != w.doc.Job().Title() {
		t.Fatalf("of a demo it says %q under %q", w.status.Text, w.top.name.Text)
	}
	own := w.doc.Job().Clone()
	own.Name, own.Invented = "Mine", false
	w.use(document.New(own, "", false))
	if w.status.Text == inventedLine {
		t.Error("a person's own job is called a demo")
	}
}
