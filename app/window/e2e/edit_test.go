//go:build e2e

package e2e

import (
	"encoding/json"
	"math"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// acceptCautions closes what a new user reads first: its button stands under
// the middle of the window.
func (p *program) acceptCautions() {
	p.t.Helper()
	time.Sleep(1500 * time.Millisecond) // the window manager places the window
	p.keep("cautions")
	p.key("Tab", "space")
	time.Sleep(400 * time.Millisecond)
}

func TestDragUndoSaveAndReadBack(t *testing.T) {
	p := start(t, "gravel-estate")
	p.acceptCautions()
	p.keep("start")
	first := p.read()
	if !strings.Contains(first.Advice, "too low") {
		t.Errorf("advice on the demo: %q", first.Advice)
	}

	p.drag("outer tie-rod end", 0, -14)
	p.await("the drag's end", func() bool { return strings.Contains(p.read().Undo, "outer tie-rod end") })
	p.keep("outer-end-up")
	raised := p.read()
	if raised.Readings["ride_toe"] <= first.Readings["ride_toe"]+0.002 {
		t.Errorf("ride toe %g deg/mm before, %g after raising the outer end", first.Readings["ride_toe"], raised.Readings["ride_toe"])
	}
	if !strings.Contains(raised.Title, "*") {
		t.Errorf("the title %q does not show the change", raised.Title)
	}

	p.key("ctrl+z")
	p.await("undo", func() bool { return p.read().Undo == "" })
	if got := p.read(); got.Readings["ride_toe"] != first.Readings["ride_toe"] || strings.Contains(got.Title, "*") {
		t.Errorf("after undo: ride toe %g, title %q", got.Readings["ride_toe"], got.Title)
	}

	p.drag("upright", 24, 0)
	p.await("the upright's drag", func() bool { return strings.Contains(p.read().Undo, "upright") })
	p.keep("upright-out")
	wider := p.read()
	if d := wider.Readings["half_track"] - first.Readings["half_track"]; d < 15 {
		t.Errorf("the upright moved out by %g mm", d)
	}
	if d := wider.Readings["scrub_radius"] - first.Readings["scrub_radius"]; math.Abs(d) > 0.01 {
		t.Errorf("moving the upright out changed the scrub radius by %g mm", d)
	}

	p.key("ctrl+s")
	p.await("the save", func() bool { return !strings.Contains(p.read().Title, "*") })
	p.sameInFile(p.read())
	_ = exec.Command("xdotool", "key", "ctrl+q").Run() // the window may go while the key is let go of
	p.await("the end", func() bool { return p.ended() })
}

// sameInFile reads the saved file with armcalc and compares.
func (p *program) sameInFile(s state) {
	p.t.Helper()
	out, err := exec.Command(bin("armcalc"), "sweep", p.file, "--variant", s.Variant, "--from", "0", "--to", "0", "--format", "json").CombinedOutput()
	if err != nil {
		p.t.Fatalf("armcalc: %v: %s", err, out)
	}
	var rows []map[string]any
	if err := json.Unmarshal(out, &rows); err != nil || len(rows) != 1 {
		p.t.Fatalf("%d rows (%v): %s", len(rows), err, out)
	}
	for name, unit := range map[string]string{"camber": "deg", "toe": "deg", "scrub_radius": "mm", "half_track": "mm",
		"instant_centre_y": "mm", "roll_centre_height": "mm", "caster": "deg"} {
		want, ok := s.Readings[name]
		got, isNumber := rows[0][name+"_"+unit].(float64)
		if !ok || !isNumber || math.Abs(got-want) > 1e-6 {
			p.t.Errorf("%s: the window shows %g (%v), armcalc reads %v", name, want, ok, rows[0][name+"_"+unit])
		}
	}
}

// ended tells whether the program is gone, and well.
func (p *program) ended() bool {
	done := make(chan error, 1)
	go func() { done <- p.cmd.Wait() }()
	select {
	case err := <-done:
		if err != nil {
			p.t.Errorf("the program ended with %v", err)
		}
		return true
	case <-time.After(patience):
		return false
	}
}
