package bumpsteer

import (
	"errors"
	"math"
	"testing"

	"armscribe/kinematics"
)

// The dials touch a real plate: front and rear dial at fixed places of the
// floor meet the plane of the wheel face at some height.
func TestDialsReadThePlate(t *testing.T) {
	g := Gauge{Width: 381, Spacing: 254}
	c := behind()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	plate := func(p *kinematics.Pose, x, z float64) float64 { // y of the plate there
		s := p.Spin
		return p.Hub.Y - (s.X*(x-p.Hub.X)+s.Z*(z-p.Hub.Z))/s.Y
	}
	sheet, err := GaugeSheet(c, kinematics.Evenly(1), []float64{-48, -13, 0, 29, 57}, g)
	if err != nil {
		t.Fatal(err)
	}
	rest, _ := m.At(0, 0)
	zero := plate(&rest, 40-127, 333) - plate(&rest, 40+127, 333)
	for _, line := range sheet {
		p, err := m.At(line.Travel, 0)
		if err != nil {
			t.Fatal(err)
		}
		front, rear := plate(&p, 40+127, 333), plate(&p, 40-127, 333)
		// By the convention a length is the angle times the spacing; a plate follows the tangent.
		bend := math.Abs(line.Toe*line.Toe*line.Toe)/2 + math.Abs(c.Toe*c.Toe*c.Toe)/2 + 1e-12
		if got := g.FromDials(front, rear); math.Abs(got-line.Toe) > bend {
			t.Errorf("travel %g: dials give %.9f rad, the sheet %.9f", line.Travel, got, line.Toe)
		}
		if got := rear - front - zero; math.Abs(got-line.Dials) > bend*g.Spacing {
			t.Errorf("travel %g: dials change by %.9f mm, the sheet says %.9f", line.Travel, got, line.Dials)
		}
		if got := line.Length / 381; math.Abs(got-line.Change.Value) > 1e-15 || math.Abs(g.FromLength(line.Length)-line.Change.Value) > 1e-15 {
			t.Errorf("travel %g: %g mm across the width", line.Travel, line.Length)
		}
		if back := g.FromDials(0, g.Dials(line.Toe)); math.Abs(back-line.Toe) > 1e-15 {
			t.Errorf("there and back: %g from %g", back, line.Toe)
		}
		if (line.Travel == 0) != (line.Change.Half < 1e-12) {
			t.Errorf("travel %g: band %g", line.Travel, line.Change.Half)
		}
	}
}

func TestGaugeRefuses(t *testing.T) {
	for _, g := range []Gauge{{Width: -3}, {Spacing: math.NaN()}, {Width: math.Inf(1)}} {
		if _, err := GaugeSheet(ahead(), kinematics.Evenly(1), []float64{-5, 7}, g); !errors.Is(err, ErrGauge) {
			t.Errorf("%+v: %v", g, err)
		}
	}
	if _, err := GaugeSheet(ahead(), kinematics.Evenly(1), []float64{-5, 700}, Gauge{}); !errors.Is(err, kinematics.ErrUnreachable) {
		t.Error(err)
	}
}

func TestFanMovesTheRack(t *testing.T) {
	c, g := ahead(), Goal{From: -52, To: 61}
	fan, err := Fan(c, RackHeight, []float64{-18, 0, 11}, g)
	if err != nil {
		t.Fatal(err)
	}
	for i, z := range []float64{217, 235, 246} {
		moved := c
		moved.TieRod.RackEnd.Z = z
		m, err := kinematics.New(&moved)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(fan[i].Curve.At); n < 31 || fan[i].Curve.At[0] != -52 || fan[i].Curve.At[n-1] != 61 || fan[i].Err != nil {
			t.Fatalf("curve of %d places from %g, %v", n, fan[i].Curve.At[0], fan[i].Err)
		}
		for k, h := range fan[i].Curve.At {
			p, _ := m.At(h, 0)
			r := p.Readings()
			toe, _ := r.Of(kinematics.Toe)
			if toe-c.Toe != fan[i].Curve.Toe[k] {
				t.Errorf("rack at %g, travel %g: %g, want %g", z, h, fan[i].Curve.Toe[k], toe-c.Toe)
			}
		}
	}
	far, err := FanOf(c, []map[Freedom]float64{{RackEndSide: 300, RackHeight: 3}, {RackEndSide: -9, RackForeAft: 14}}, g)
	if err != nil {
		t.Fatal(err)
	}
	if !errors.Is(far[0].Err, kinematics.ErrUnreachable) || len(far[0].Curve.At) == 0 || len(far[0].Curve.At) >= len(far[1].Curve.At) {
		t.Errorf("a rod of 50 mm: %d places of %d, %v", len(far[0].Curve.At), len(far[1].Curve.At), far[0].Err)
	}
	if _, err := Fan(c, RackHeight, []float64{3}, Goal{From: 5, To: 9}); !errors.Is(err, ErrRange) {
		t.Error(err)
	}
}
