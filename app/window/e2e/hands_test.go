//go:build e2e

// Package e2e works the built program in a real window with a real mouse. It
// needs a display and xdotool; .ci/e2e.sh brings both.
package e2e

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"armscribe/assets"
)

// patience is how long the window may take to show what was asked for: far
// more than it needs, on a machine that does other things too.
const patience = 20 * time.Second

// state is what the program writes to its state file.
type state struct {
	Title    string                `json:"title"`
	Variant  string                `json:"variant"`
	Travel   float64               `json:"travel_mm"`
	Undo     string                `json:"undo"`
	Readings map[string]float64    `json:"readings"`
	Handles  map[string][2]float64 `json:"handles"`
	Step     string                `json:"step"`
	Section  string                `json:"section"`
	Scale    [3]float64            `json:"scale"`
	Answer   map[string][2]float64 `json:"answer"`
	Status   string                `json:"status"`
	Advice   string                `json:"advice"`
}

// program is the running window.
type program struct {
	t           *testing.T
	cmd         *exec.Cmd
	window      string
	home        string
	file, state string
	shots       string
	shot        int
}

// bin returns a built program's path.
func bin(name string) string { return filepath.Join(os.Getenv("ARMSCRIBE_BIN"), name) }

// start opens a copy of a demo job in a fresh home, as a new user has it.
func start(t *testing.T, demo string) *program {
	t.Helper()
	dir := t.TempDir()
	p := &program{t: t, file: filepath.Join(dir, "job.armscribe.yaml"), state: filepath.Join(dir, "state.json"), shots: os.Getenv("E2E_SHOTS")}
	data, ok := assets.Demo(demo)
	if !ok {
		t.Fatalf("no demo job %q", demo)
	}
	if err := os.WriteFile(p.file, data, 0o644); err != nil {
		t.Fatal(err)
	}
	p.home = dir
	p.run()
	t.Cleanup(func() {
		if p.cmd.ProcessState == nil {
			_ = p.cmd.Process.Kill()
			_ = p.cmd.Wait()
		}
	})
	return p
}

// run starts the program on its file and waits for its window.
func (p *program) run() {
	p.t.Helper()
	p.cmd = exec.Command(bin("armscribe"), "-state", p.state, p.file)
	p.cmd.Env = append(os.Environ(), "HOME="+p.home, "XDG_CONFIG_HOME="+p.home, "XDG_STATE_HOME="+p.home, "FYNE_SCALE=1", "LANG=en_GB.UTF-8")
	p.cmd.Stderr = os.Stderr
	if err := p.cmd.Start(); err != nil {
		p.t.Fatal(err)
	}
	p.await("a window", func() bool {
		out, err := exec.Command("xdotool", "search", "--onlyvisible", "--pid", fmt.Sprint(p.cmd.Process.Pid)).Output()
		p.window, _, _ = strings.Cut(string(out), "\n")
		return err == nil && p.window != ""
	})
	p.tool("windowactivate", "--sync", p.window)
	p.await("a state file", func() bool { _, err := os.Stat(p.state); return err == nil })
}

// tool runs one xdotool command.
func (p *program) tool(args ...string) {
	p.t.Helper()
	if out, err := exec.Command("xdotool", args...).CombinedOutput(); err != nil {
		p.t.Fatalf("xdotool %v: %v: %s", args, err, out)
	}
}

// await asks until something is so.
func (p *program) await(what string, so func() bool) {
	p.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		if so() {
			return
		}
	}
	p.keep("failed")
	p.t.Fatalf("waited in vain for %s; state %+v", what, p.read())
}

// read returns the present state.
func (p *program) read() (s state) {
	p.t.Helper()
	data, err := os.ReadFile(p.state)
	if err == nil {
		err = json.Unmarshal(data, &s)
	}
	if err != nil {
		p.t.Fatal(err)
	}
	return s
}

// at moves the pointer to a place of the window.
func (p *program) at(x, y float64) {
	p.t.Helper()
	p.tool("mousemove", "--window", p.window, fmt.Sprint(int(x)), fmt.Sprint(int(y)))
	time.Sleep(60 * time.Millisecond)
}

func (p *program) click(x, y float64) {
	p.t.Helper()
	p.at(x, y)
	p.tool("click", "1")
	time.Sleep(150 * time.Millisecond)
}

// drag takes a handle and moves it by points of the screen, in several steps
// as a hand does.
func (p *program) drag(handle string, dx, dy float64) {
	p.t.Helper()
	from, ok := p.read().Handles[handle]
	if !ok {
		p.t.Fatalf("no handle %q in %v", handle, p.read().Handles)
	}
	p.at(from[0], from[1])
	p.tool("mousedown", "1")
	const steps = 8
	for i := 1; i <= steps; i++ {
		p.at(from[0]+dx*float64(i)/steps, from[1]+dy*float64(i)/steps)
	}
	p.tool("mouseup", "1")
}

// press presses what stands in the card or the open answer under its words.
func (p *program) press(word string) {
	p.t.Helper()
	var at [2]float64
	p.await("something to press called "+word, func() bool {
		time.Sleep(400 * time.Millisecond) // what has just come is laid out
		var ok bool
		at, ok = p.read().Answer[word]
		return ok
	})
	p.click(at[0], at[1])
	time.Sleep(300 * time.Millisecond)
}

// key presses keys as a keyboard does; events sent to a window past it lose a chord now and then.
func (p *program) key(keys ...string) {
	p.t.Helper()
	p.tool(append([]string{"key", "--delay", "60"}, keys...)...)
}

// keep takes a picture if pictures are wanted.
func (p *program) keep(name string) {
	if p.shots == "" {
		return
	}
	p.shot++
	path := filepath.Join(p.shots, fmt.Sprintf("%02d-%s.png", p.shot, name))
	if out, err := exec.Command("import", "-window", "root", path).CombinedOutput(); err != nil {
		p.t.Logf("no picture: %v: %s", err, out)
	}
}
