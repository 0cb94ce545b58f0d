//go:build e2e

package e2e

import (
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// rounds is how often the program is killed: E2E_KILLS, or a few.
func rounds(t *testing.T) int {
	t.Helper()
	n, err := strconv.Atoi(os.Getenv("E2E_KILLS"))
	if err != nil {
		return 3
	}
	return n
}

// kill ends the program as a power cut would.
func (p *program) kill() {
	p.t.Helper()
	if err := p.cmd.Process.Kill(); err != nil {
		p.t.Fatal(err)
	}
	_ = p.cmd.Wait()
}

// A program killed at any instant loses at most the gesture in progress: the
// next start offers the rest.
func TestKilledAtAnyInstant(t *testing.T) {
	const seed = 27182
	t.Logf("seed %d, %d rounds", seed, rounds(t))
	r := rand.New(rand.NewPCG(seed, 3))
	p := start(t, "gravel-estate")
	p.acceptCautions()
	for i := range rounds(t) {
		key, sign := "Up", 1.0 // up and down in turn, so that it stays where it is
		if i%2 == 1 {
			key, sign = "Down", -1
		}
		before := p.read().Readings["ride_toe"]
		p.killWhileNudging(r, key, 4)
		done := p.read() // the last gesture that was finished, or the one before
		p.restart()
		p.recoverWork()
		got := p.read().Readings["ride_toe"]
		if got == before {
			p.keep("lost")
			t.Fatalf("everything is lost: ride toe %g before, %g finished", before, done.Readings["ride_toe"])
		}
		if step := 0.002; sign*got < sign*done.Readings["ride_toe"]-step {
			p.keep("lost")
			t.Fatalf("recovered ride toe %g, finished was %g", got, done.Readings["ride_toe"])
		}
		p.saveAll()
	}
}

// killWhileNudging moves the outer end by n presses of a key and kills the program
// at a random instant after the first has been kept.
func (p *program) killWhileNudging(r *rand.Rand, key string, n int) {
	p.t.Helper()
	p.await("the first nudge", func() bool { // a window that has just come may miss a click
		at := p.read().Handles["outer tie-rod end"]
		p.click(at[0], at[1])
		p.key(key)
		time.Sleep(400 * time.Millisecond)
		return strings.Contains(p.read().Undo, "nudge")
	})
	time.Sleep(300 * time.Millisecond) // promised within 5 s; written at once
	typing := exec.Command("xdotool", "key", "--window", p.window, "--delay", "40", "--repeat", strconv.Itoa(n), key)
	if err := typing.Start(); err != nil {
		p.t.Fatal(err)
	}
	time.Sleep(time.Duration(r.IntN(40*n+200)) * time.Millisecond)
	p.kill()
	_ = typing.Wait() // its window is gone
}

// restart opens the same file in the same home again.
func (p *program) restart() {
	p.t.Helper()
	if err := os.Remove(p.state); err != nil {
		p.t.Fatal(err)
	}
	p.run()
	time.Sleep(1200 * time.Millisecond) // the window manager places the window
}

// recoverWork chooses 'Recover it' by keyboard.
func (p *program) recoverWork() {
	p.t.Helper()
	p.keep("offered")
	p.key("space") // it has the keyboard
	p.await("the recovered job", func() bool { return strings.Contains(p.read().Title, "*") })
	p.keep("recovered")
}

// saveAll puts the recovered job into its file, for the next round.
func (p *program) saveAll() {
	p.t.Helper()
	p.key("ctrl+s")
	p.await("the save", func() bool { return !strings.Contains(p.read().Title, "*") })
	if left, err := filepath.Glob(filepath.Join(filepath.Dir(p.file), "*.tmp*")); err != nil || len(left) > 0 {
		p.t.Errorf("left beside the file: %v, %v", left, err)
	}
}
