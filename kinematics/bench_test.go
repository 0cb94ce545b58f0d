package kinematics

import "testing"

// sweepTravel is the sweep of the benchmarks: 161 poses over ±60 mm.
func sweepTravel() []float64 {
	travel := make([]float64, 161)
	for i := range travel {
		travel[i] = float64(i-80) * 0.75
	}
	return travel
}

// BenchmarkSweep161 solves 161 poses with all readings, in one operation.
func BenchmarkSweep161(b *testing.B) {
	m, travel, dst := mustNew(b, caseB()), sweepTravel(), make([]Readings, 161)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.SweepTravel(dst, travel, 0); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/161, "ns/pose")
}

// BenchmarkGeneralSolve solves one pose an operation, of the same corner and
// the same travels, by the six-equation solution to 1e-9 mm: every pose from
// rest, like the mechanism, and without any readings.
func BenchmarkGeneralSolve(b *testing.B) {
	c := caseB()
	g, travel, i := newGeneral(&c, 0), sweepTravel(), 0
	b.ReportAllocs()
	for b.Loop() {
		g.rest(&c)
		if err := g.solve(travel[i%len(travel)], 1e-9); err != nil {
			b.Fatal(err)
		}
		i++
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N), "ns/pose")
}

// BenchmarkGeneralSolveOnward is BenchmarkGeneralSolve with each pose begun
// from its neighbour, the best case for a general solver.
func BenchmarkGeneralSolveOnward(b *testing.B) {
	c := caseB()
	g, travel, i := newGeneral(&c, 0), sweepTravel(), 0
	for b.Loop() {
		k := i % len(travel)
		if k == 0 {
			g.rest(&c)
		}
		if err := g.solve(travel[k], 1e-9); err != nil {
			b.Fatal(err)
		}
		i++
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N), "ns/pose")
}

// BenchmarkBands computes the bands of all readings at one pose.
func BenchmarkBands(b *testing.B) {
	m := mustNew(b, caseB())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.Bands(Evenly(1), 20, 0); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkNew makes a mechanism of a corner.
func BenchmarkNew(b *testing.B) {
	c := caseB()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := New(&c); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRoll solves an axle in roll.
func BenchmarkRoll(b *testing.B) {
	m := mustNew(b, caseB())
	for b.Loop() {
		if _, err := m.Roll(0.03, 4); err != nil {
			b.Fatal(err)
		}
	}
}

// TestNoAllocation: sweeps and bands take no memory while all is in reach.
func TestNoAllocation(t *testing.T) {
	m, travel, dst := mustNew(t, caseB()), sweepTravel(), make([]Readings, 161)
	bands, few := make([]Bands, 3), []float64{-31, 7, 52}
	for _, run := range []struct {
		what string
		f    func() error
	}{
		{"SweepTravel", func() error { _, err := m.SweepTravel(dst, travel, 3); return err }},
		{"SweepRack", func() error { _, err := m.SweepRack(dst, 12, travel[20:140]); return err }},
		{"SweepBands", func() error { return m.SweepBands(bands, Evenly(0.7), few, -5) }},
	} {
		var err error
		if n := testing.AllocsPerRun(20, func() { err = run.f() }); n != 0 || err != nil {
			t.Errorf("%s allocates %g times (%v), want 0", run.what, n, err)
		}
	}
}
