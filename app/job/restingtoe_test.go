package job_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
)

// toeFile is a job whose first variant has a toe and, if any, a gauge.
func toeFile(t testing.TB, toe, width string) (*job.Job, error) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/job/format-1.1.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	head, rest, ok := strings.Cut(string(data), "variants:")
	first, tail, ok2 := strings.Cut(rest, "toe:")
	_, tail, ok3 := strings.Cut(tail, "\n")
	if !ok || !ok2 || !ok3 {
		t.Fatal("the sample has no toe")
	}
	if width != "" {
		head += "toe_gauge: {width: " + width + "}\n"
	}
	return job.Read("", []byte(head+"variants:"+first+"toe: "+toe+"\n"+tail))
}

// TestToeAsALength against the sum done by hand: 1/16 in across 20 in is an angle of
// 1/320, and across a rim of 15 in of 1/240; a plain number is an angle of its own.
func TestToeAsALength(t *testing.T) {
	for _, c := range []struct {
		toe, width string
		rad        float64
		typed      bool
	}{
		{"1/16 in", "20 in", 1.0 / 320, true},
		{"-2.5 mm", "500 mm", -0.005, true},
		{"1/16 in + 0.5 mm", "20 in", (25.4/16 + 0.5) / 508, true},
		{"0.2", "20 in", 0.2 * math.Pi / 180, false},
		{"1/5 deg", "20 in", 0.2 * math.Pi / 180, false},
	} {
		j, err := toeFile(t, c.toe, c.width)
		if err != nil {
			t.Errorf("%s across %s: %v", c.toe, c.width, err)
			continue
		}
		v := &j.Variants[0]
		if off := math.Abs(v.Toe.Radians() - c.rad); !(off <= 1e-15) || (j.ToeAsTyped(v) != "") != c.typed {
			t.Errorf("%s across %s: %v rad, typed %q", c.toe, c.width, v.Toe.Radians(), j.ToeAsTyped(v))
		}
		if data, err := j.Encode(); err != nil || !strings.Contains(string(data), "toe: "+c.toe+"\n") || strings.Contains(string(data), "armscribe: 1.5") != c.typed {
			t.Errorf("%s across %s is written as %s, %v", c.toe, c.width, data, err)
		}
	}
	j, err := toeFile(t, "1/16 in", "")
	if err != nil {
		t.Fatal(err)
	}
	width, fromRim := j.ToeWidth(&j.Variants[0])
	if v := j.Variants[0]; !fromRim || math.Abs(v.Toe.Radians()-25.4/16/width) > 1e-15 {
		t.Errorf("across the rim: %v rad over %v mm", v.Toe.Radians(), width)
	}
}

// TestToeStaysTheSameAngle through a file, whatever became of gauge, wheel and toe after
// it was typed as a length.
func TestToeStaysTheSameAngle(t *testing.T) {
	const seed = 1915
	rng := rand.New(rand.NewPCG(seed, 0))
	tyres := []string{"205/65R15", "195/65R15", "215/60R16", "155R13"}
	kept := 0
	for n := range 400 {
		toe := []string{"1/16 in", "-3/32 in", fmt.Sprintf("%.2f mm", rng.Float64()*6-3), "0.13 in + 0.2 mm", fmt.Sprintf("%.3f", rng.Float64()-0.5)}[rng.IntN(5)]
		width := []string{"", "20 in", "457.3 mm", "18 1/8 in"}[rng.IntN(4)]
		j, err := toeFile(t, toe, width)
		if err != nil {
			t.Fatalf("seed %d, %d: %v", seed, n, err)
		}
		j.Variants = append(j.Variants, j.Variants[0].Proposal("second"))
		for range rng.IntN(4) {
			v := &j.Variants[rng.IntN(len(j.Variants))]
			switch rng.IntN(5) {
			case 0:
				j.ToeGauge.Width = job.Given(units.Length{MM: 300 + 200*rng.Float64()})
			case 1:
				j.ToeGauge = job.ToeGauge{}
			case 2:
				v.Wheel.SetTyre(tyres[rng.IntN(len(tyres))])
			case 3:
				v.Toe = job.Degrees(rng.Float64() - 0.5)
			case 4:
				width, _ := j.ToeWidth(v)
				v.Toe, v.ToeTyped, _ = job.ParseToe("0.05 in", width)
			}
		}
		for i := range j.Variants {
			j.Variants[i].Wheel.SetRadius(job.Optional{})
		}
		data, err := j.Encode() // reads back and compares
		if err != nil {
			t.Fatalf("seed %d, %d: %v", seed, n, err)
		}
		back, err := job.Read("", data)
		if err != nil {
			t.Fatalf("seed %d, %d: %v", seed, n, err)
		}
		for i := range j.Variants {
			now, was := &back.Variants[i], &j.Variants[i]
			if now.Toe != was.Toe || now.ToeTyped != j.ToeAsTyped(was) {
				t.Fatalf("seed %d, %d: toe %v typed %q reads back as %v typed %q", seed, n, was.Toe, was.ToeTyped, now.Toe, now.ToeTyped)
			}
			if now.ToeTyped != "" {
				kept++
			}
		}
	}
	if kept < 100 {
		t.Errorf("only %d typed lengths were kept", kept)
	}
}
