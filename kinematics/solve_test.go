package kinematics

import (
	"math"
	"testing"
)

func deg(r float64) float64 { return r * 180 / math.Pi }

// caseB is a general corner with inclined axes, rack ahead of the axle.
func caseB() Corner {
	return Corner{
		Lower:  Arm{Front: Vec{X: 150, Y: 300, Z: 190}, Rear: Vec{X: -170, Y: 310, Z: 185}, Ball: Vec{X: 10, Y: 690, Z: 180}},
		Upper:  Arm{Front: Vec{X: 110, Y: 340, Z: 420}, Rear: Vec{X: -150, Y: 350, Z: 410}, Ball: Vec{X: -15, Y: 650, Z: 455}},
		TieRod: TieRod{RackEnd: Vec{X: 130, Y: 330, Z: 235}, OuterEnd: Vec{X: 140, Y: 680, Z: 230}},
		Hub:    Vec{Y: 750, Z: 310},
		Wheel:  Wheel{LoadedRadius: 310},
		Spring: Spring{Carrier: OnLowerArm, Moving: Vec{Y: 550, Z: 195}, Body: Vec{X: -10, Y: 420, Z: 600}},
	}
}

func TestTry(t *testing.T) {
	c := caseB()
	m, err := New(&c)
	if err != nil {
		t.Fatal(err)
	}
	for h := -60.0; h <= 60; h += 20 {
		p, err := m.At(h, 0)
		if err != nil {
			t.Fatal(err)
		}
		r := p.Readings()
		for q := range QuantityCount {
			v, ok := r.Of(q)
			switch q.About().Kind {
			case Angle, Slope:
				v = deg(v)
			}
			t.Log(h, q, v, ok)
		}
	}
	rg, err := m.Range(0)
	t.Log(rg, err, m.fast)
	_, err = m.At(200, 0)
	t.Log(err)
	_, err = m.At(-250, 0)
	t.Log(err)
	_, err = m.At(0, 200)
	t.Log(err)
}

func BenchmarkSweep161(b *testing.B) {
	c := caseB()
	m, err := New(&c)
	if err != nil {
		b.Fatal(err)
	}
	travel := make([]float64, 161)
	for i := range travel {
		travel[i] = float64(i-80) * 0.75
	}
	dst := make([]Readings, 161)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.SweepTravel(dst, travel, 0); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNew(b *testing.B) {
	c := caseB()
	b.ReportAllocs()
	for b.Loop() {
		m, _ := New(&c)
		if m.rod == 0 {
			b.Fatal()
		}
	}
}

func BenchmarkBands(b *testing.B) {
	c := caseB()
	m, err := New(&c)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.Bands(1, 20, 0); err != nil {
			b.Fatal(err)
		}
	}
}
func TestPlanar(t *testing.T) {
	c := Corner{
		Lower:  FlatArm(Vec{Y: 250, Z: 200}, Vec{Y: 690, Z: 180}),
		Upper:  FlatArm(Vec{Y: 320, Z: 430}, Vec{Y: 640, Z: 460}),
		TieRod: TieRod{RackEnd: Vec{X: 120, Y: 265.564995, Z: 246.582309}, OuterEnd: Vec{X: 120, Y: 670, Z: 240}},
		Hub:    Vec{Y: 750, Z: 310}, Wheel: Wheel{LoadedRadius: 310},
	}
	m, err := New(&c)
	if err != nil {
		t.Fatal(err)
	}
	t.Log(m.RackEndFlat())
	var tr []float64
	for h := -60.0; h <= 60; h += 10 {
		tr = append(tr, h)
		p, _ := m.At(h, 0)
		r := p.Readings()
		v, _ := r.Of(Toe)
		t.Log(h, deg(v))
	}
	t.Log(m.RackEndSpace(tr))
	ax, err := m.Roll(0.03, 0)
	t.Log(err)
	l, r := ax.Readings()
	for q := range QuantityCount {
		a, ok := l.Of(q)
		b, ok2 := r.Of(q)
		t.Log(q, a, ok, b, ok2)
	}
	t.Log(m.Steering(10, 2500))
	t.Log(m.RollRates())
}
