package report

import (
	"testing"

	"armscribe/app/job"
)

// BenchmarkLock is what a page asks for when it shows the lock: two variants
// among the demo's obstacles.
func BenchmarkLock(b *testing.B) {
	j, err := job.Load(frontJob)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		for variant := range 2 {
			if _, err := LockOf(j, variant, 0); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkLockCurve is the chart's curve with its bands.
func BenchmarkLockCurve(b *testing.B) {
	j, err := job.Load(frontJob)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := LockCurve(j, 1, 48); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkEfforts are the forces of two variants with their bands.
func BenchmarkEfforts(b *testing.B) {
	j, err := job.Load(frontJob)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := EffortsBesideOf(j, 1, 0, Loading{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkJoints are the tilts of one variant.
func BenchmarkJoints(b *testing.B) {
	j, err := job.Load(frontJob)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := JointsOf(j, 1); err != nil {
			b.Fatal(err)
		}
	}
}
