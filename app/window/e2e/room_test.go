//go:build e2e

package e2e

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"armscribe/app/job"
)

// roomState is what the state file says of clearance.
type roomState struct {
	Rack float64 `json:"rack_mm"`
	Gaps map[string]struct {
		Gap    float64 `json:"gap_mm"`
		Travel float64 `json:"travel_mm"`
		Rack   float64 `json:"rack_mm"`
		Fine   bool    `json:"fine"`
	} `json:"gaps"`
	Lines map[string][2]float64 `json:"lines"`
	Plan  map[string][2]float64 `json:"plan"`
}

func (p *program) room() (s roomState) {
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

// menuItem opens the menu of a handle and takes its n-th item, from 1.
func (p *program) menuItem(handle string, n int) {
	p.t.Helper()
	at, ok := p.read().Handles[handle]
	if !ok {
		p.t.Fatalf("no handle %q in %v", handle, p.read().Handles)
	}
	p.at(at[0], at[1])
	p.tool("click", "3")
	p.pickItem(n)
}

// pickItem takes the n-th item of the menu that has just opened.
func (p *program) pickItem(n int) {
	p.t.Helper()
	time.Sleep(400 * time.Millisecond) // the menu opens
	for range n {
		p.key("Down")
	}
	p.key("Return")
}

// showsRoom turns clearance on and waits for its fine gaps.
func (p *program) showsRoom() {
	p.t.Helper()
	p.key("ctrl+g")
	p.await("fine gaps and a plan", func() bool {
		s := p.room()
		return s.Gaps["arch lip"].Fine && len(s.Plan) > 0
	})
}

// opensTab waits for the tab Room, and has its places told once it is laid out.
func (p *program) opensTab() {
	p.t.Helper()
	p.await("the tab", func() bool { return len(p.room().Lines) > 6 })
	time.Sleep(400 * time.Millisecond)
	p.key("ctrl+r")
	time.Sleep(400 * time.Millisecond)
}

// standsAt waits for the place of an obstacle's least gap.
func (p *program) standsAt(name string) {
	p.t.Helper()
	p.await("the place of the least gap to "+name, func() bool {
		g, travel, rack := p.room().Gaps[name], p.read().Travel, p.room().Rack
		return g.Fine && travel == g.Travel && rack == g.Rack && (travel != 0 || rack != 0)
	})
}

func TestAJumpToALeastGapAndBack(t *testing.T) {
	p := start(t, "gravel-estate")
	p.acceptCautions()
	p.showsRoom()
	p.keep("clearance")
	p.menuItem("arch lip", 1)
	p.standsAt("arch lip")
	p.keep("arch lip")
	p.key("ctrl+r")
	p.await("rest", func() bool { return p.read().Travel == 0 && p.room().Rack == 0 })
	p.menuItem("arch lip", 2)
	p.opensTab()
	line := p.room().Lines["subframe rail"]
	p.click(line[0], line[1])
	p.standsAt("subframe rail")
	p.keep("subframe rail")
}

func TestAnObstacleIsDrawnMovedAndTakenBack(t *testing.T) {
	p := start(t, "gravel-estate")
	p.acceptCautions()
	p.showsRoom()
	p.menuItem("arch lip", 2)
	p.opensTab()
	add := p.room().Lines["Add"]
	p.click(add[0], add[1])
	p.pickItem(2)
	h := p.read().Handles
	hub, ball := h["hub face"], h["upper ball joint"]
	p.click(ball[0]-61, ball[1]-43)
	p.click(ball[0]-17, ball[1]-52)
	p.await("the new obstacle", func() bool { return p.room().Gaps["obstacle"].Fine })
	p.keep("drawn")
	p.key("ctrl+s")
	p.await("a saved file", func() bool { return !strings.Contains(p.read().Title, "*") })
	j, err := job.Load(p.file)
	if err != nil {
		t.Fatal(err)
	}
	v, o := &j.Variants[len(j.Variants)-1], &j.Obstacles[len(j.Obstacles)-1]
	// Scale by two handles whose places are known.
	scale := (v.Hub.Y.MM - v.UpperArm.Ball.Y.MM) / (hub[0] - ball[0])
	for _, d := range []struct{ got, want float64 }{
		{o.At.Y.MM, v.UpperArm.Ball.Y.MM - 61*scale}, {o.At.Z.MM, v.UpperArm.Ball.Z.MM + 43*scale},
		{o.To.Y.MM, v.UpperArm.Ball.Y.MM - 17*scale}, {o.To.Z.MM, v.UpperArm.Ball.Z.MM + 52*scale},
	} {
		if math.Abs(d.got-d.want) > 3*scale {
			t.Errorf("drawn at %g, clicked at %g mm", d.got, d.want)
		}
	}
	gap := p.room().Gaps["obstacle"].Gap
	p.drag("obstacle", 66, 0) // past the other end, which is the nearer one as drawn
	p.await("a lesser gap", func() bool { g := p.room().Gaps["obstacle"]; return g.Fine && g.Gap < gap })
	p.key("ctrl+z")
	p.await("the former gap", func() bool { g := p.room().Gaps["obstacle"]; return g.Fine && g.Gap == gap })
	p.key("ctrl+z")
	p.await("no obstacle", func() bool { _, is := p.room().Gaps["obstacle"]; return !is && len(p.room().Gaps) > 0 })
}
