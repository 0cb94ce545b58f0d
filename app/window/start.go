package window

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"armscribe/app/document"
	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/recovery"
	"armscribe/app/report"
	"armscribe/assets"
)

// ID names the program to the desktop, and the folder of what it remembers.
const ID = "armscribe"

// firstDemo is what opens when no file is named and none has ever been opened.
const firstDemo = "gravel-estate"

// pictureTimeout is how long the first picture may take: a display without
// OpenGL never shows one, and the toolkit would wait for ever.
const pictureTimeout = 15 * time.Second

const usage = `Usage: armscribe [JOB]

Opens a job file in the window: the one opened last when none is named, or the
demo job at the very first start.
Without a display it prints the readings instead, as armcalc does.

`

// Main runs the program and returns its exit code: 0 fine, 1 the job has a
// problem, 2 wrong usage, 3 a fault of the program itself.
func Main(open func() fyne.App, args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("armscribe", flag.ContinueOnError)
	flags.SetOutput(stderr)
	state := flags.String("state", "", "write what is shown to this `file` after every change, for tests")
	frames := flags.Int("frames", 0, "drag through `N` frames, print how long they took, and quit")
	flags.Usage = func() { fmt.Fprint(stderr, usage); flags.PrintDefaults() }
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return 2
	}
	if flags.NArg() > 1 {
		fmt.Fprintln(stderr, "armscribe: one job file at a time")
		return 2
	}
	path := flags.Arg(0)
	if path == "" {
		path = lastJob()
	}
	d, err := openFirst(path)
	if err != nil {
		fmt.Fprintln(stderr, err)
		if !hasDisplay() {
			return 1
		}
	}
	faulty := err // is shown in the window too: it may not have been started from a terminal
	if d == nil {
		if d, err = openDemo(firstDemo); err != nil {
			fmt.Fprintln(stderr, err)
			return 1
		}
	}
	if !hasDisplay() {
		fmt.Fprintln(stderr, "armscribe: there is no display here (DISPLAY is not set), so no window opens; these are the readings.")
		return printReadings(d, stdout, stderr)
	}
	w, err := makeWindow(open, d)
	if fault := (*programFault)(nil); errors.As(err, &fault) {
		fmt.Fprintf(stderr, "armscribe: %v\n%s", fault, fault.stack)
		return 3
	}
	if err != nil {
		if faulty != nil {
			return 1
		}
		fmt.Fprintf(stderr, "armscribe: no window opens: %v; these are the readings.\n", err)
		return printReadings(d, stdout, stderr)
	}
	w.stateFile, w.stderr = *state, stderr
	w.guardFirstPicture()
	if faulty != nil {
		w.showProblems(path+" does not open; this is the demo job", faulty)
	}
	if *frames > 0 {
		w.measureFrames(*frames, stdout)
	}
	w.run()
	return 0
}

// lastJob is the file opened last that is still there; empty where there is none.
func lastJob() string {
	store, err := recovery.Default()
	if err != nil {
		return "" // the window says so
	}
	list, err := store.Recent()
	if err != nil {
		return "" // likewise
	}
	for _, path := range list {
		if _, err := os.Stat(path); err == nil {
			return path
		}
	}
	return ""
}

// openFirst opens the named file, or the demo.
func openFirst(path string) (*document.Document, error) {
	if path != "" {
		return document.Open(path)
	}
	return openDemo(firstDemo)
}

func openDemo(name string) (*document.Document, error) {
	data, ok := assets.Demo(name)
	if !ok {
		panic("window: no demo job " + name)
	}
	j, err := job.Read("demo "+name, data)
	if err != nil {
		return nil, err
	}
	return document.New(j, "", true), nil
}

// hasDisplay tells whether a window can be hoped for.
func hasDisplay() bool {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		return true
	}
	return os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}

// makeWindow makes the window. The toolkit panics where the display does not
// answer, with an error of its own; any other panic is a fault of the program.
func makeWindow(open func() fyne.App, d *document.Document) (w *Window, err error) {
	defer func() {
		switch p := recover(); {
		case p == nil:
		case isOfDisplay(p):
			err = fmt.Errorf("the display does not answer (%v)", p)
		default:
			err = &programFault{p, debug.Stack()}
		}
	}()
	return New(open(), d), nil
}

// isOfDisplay tells whether a panic came from the library that the toolkit
// opens displays with, which panics with its own type of error.
func isOfDisplay(p any) bool {
	return strings.HasPrefix(strings.TrimLeft(fmt.Sprintf("%T", p), "*"), "glfw.")
}

// programFault is a panic while the window was made.
type programFault struct {
	panicked any
	stack    []byte
}

func (f *programFault) Error() string {
	return fmt.Sprintf("a fault of the program, not of the job, while the window was made: %v", f.panicked)
}

// printReadings is what is left without a window: what armcalc prints.
func printReadings(d *document.Document, stdout, stderr io.Writer) int {
	r, err := report.ReadingsOf(report.SourceOf(d.Job(), d.Current()), figures.Position{})
	if err == nil {
		_, err = io.WriteString(stdout, r.Sheet().String())
	}
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 1
	}
	return 0
}

// guardFirstPicture ends the program when no picture comes.
func (w *Window) guardFirstPicture() {
	time.AfterFunc(pictureTimeout, func() {
		if !w.painted.Load() {
			fmt.Fprintln(w.stderr, "armscribe: the display shows no picture; it needs OpenGL (on Debian: apt-get install libgl1 libgl1-mesa-dri)")
			os.Exit(1)
		}
	})
}
