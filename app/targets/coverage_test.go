package targets

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/kinematics"
)

// Over random corners the interval of every figure, and the band of its change to
// another corner, hold what cars measured within the error have 95 times in 100.
func TestCoverageOfIntervals(t *testing.T) {
	const seed, cars, spread = 20261209, 30, 18.0
	corners := 150
	if os.Getenv("ARMSCRIBE_LONG") != "" {
		corners = 1500
	}
	t.Logf("seed %d, %d corners", seed, corners)
	rnd := rand.New(rand.NewPCG(seed, 1))
	even := func(half float64) float64 { return half * (2*rnd.Float64() - 1) }
	base := demo(t, "gravel-estate").Variants[2].Corner()
	asked := all()
	p := planOf(&asked)
	var in, of, changeIn, changeOf [Count]int
	for range corners {
		a := car.Car{Corner: base, Within: kinematics.Evenly(1)}
		for _, at := range a.Corner.Coordinates() {
			a.Corner.Shift(at, even(spread))
		}
		b := a
		b.Corner.TieRod.OuterEnd.Z += even(5)
		b.Corner.Upper.Front.Z += even(5)
		b.Corner.Hub.Y += even(5)
		va, vb := solve(&a, p), solve(&b, p)
		if va.err != nil || vb.err != nil {
			continue
		}
		both := pairOf(va, vb)
		list := resultsOf(va, &asked)
		for range cars {
			carA, carB := a.Corner, b.Corner
			for _, at := range a.Corner.Coordinates() {
				e := even(1)
				carA.Shift(at, e)
				if !a.Corner.Shares(&b.Corner, at) {
					e = even(1)
				}
				carB.Shift(at, e)
			}
			fa, errA := p.evaluate(&carA)
			fb, errB := p.evaluate(&carB)
			if errA != nil || errB != nil {
				continue
			}
			for i, r := range p.rows {
				x, ok := r.size(fa)
				y, okB := r.size(fb)
				was, _ := r.size(va.linear.Base)
				now, _ := r.size(vb.linear.Base)
				half, known := both.half(r)
				if !ok || !okB || !known {
					continue
				}
				res := &list[i]
				if r.kind == SwingArm {
					x = 1 / x // as it is told
				}
				if res.HasLow && res.HasHigh {
					of[r.kind]++
					if res.Low <= x && x <= res.High {
						in[r.kind]++
					}
				}
				if r.kind == SwingArm {
					x = 1 / x
				}
				changeOf[r.kind]++
				if math.Abs(y-x-(now-was)) <= half {
					changeIn[r.kind]++
				}
			}
		}
	}
	for k := range Count {
		if k == Camber { // as typed
			continue
		}
		const low, high = 0.93, 0.97
		own, change := float64(in[k])/float64(of[k]), float64(changeIn[k])/float64(changeOf[k])
		t.Logf("%s: %.2f %% of %d, its change %.2f %% of %d", k, 100*own, of[k], 100*change, changeOf[k])
		// One coordinate decides the track of a corner: it cannot leave its band.
		if own < low || own > high && k != Track || change < low || change > high && k != Track && k != Caster {
			t.Errorf("%s: %.2f %% within the interval, %.2f %% of the changes", k, 100*own, 100*change)
		}
	}
}

// Neither memory used again nor a spring left out where no target asks for it changes
// a bit of any interval.
func TestIntervalsHaveTheBitsOfThePlainWay(t *testing.T) {
	a := car.Car{Corner: demo(t, "gravel-estate").Variants[2].Corner(), Within: kinematics.Evenly(1.3)}
	asked := all()
	for range 2 {
		p := planOf(&asked)
		got := solve(&a, p)
		want := &solved{plan: p}
		if want.linear, want.err = kinematics.Linearise(&a.Corner, a.Within, p.evaluate); got.err != nil || want.err != nil {
			t.Fatal(got.err, want.err)
		}
		for _, r := range p.rows {
			i, _, ok := got.interval(r)
			w, _, wantOK := want.interval(r)
			if i != w || ok != wantOK {
				t.Errorf("%s of %d targets: %+v, %v; want %+v, %v", about[r.kind].Name, len(p.rows), i, ok, w, wantOK)
			}
		}
		asked.MotionRatio = job.RatioRange{}
	}
}
