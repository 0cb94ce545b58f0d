package report

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"armscribe/app/figures"
	"armscribe/kinematics"
)

// changeTrials of random measuring errors give a standard deviation to 2 %;
// what is beyond first order comes on top.
const (
	changeTrials    = 2500
	changeTolerance = 0.07
	// secondOrder, as a share of the reading's own band, is left where the
	// first orders cancel.
	secondOrder = 1e-3
)

// A coordinate with the same number in both variants gets one error, any other
// one of its own: what the changes then do is what their bands say.
func TestChangeBandsAgainstRandomErrors(t *testing.T) {
	const seed = 20261125
	rnd := rand.New(rand.NewPCG(seed, 3))
	sources := sourcesOf(t, frontJob)
	// Against the first: spacers share every point; longer arms share the
	// pivots; and a third measured afresh shares few.
	afresh := sources[2]
	afresh.Variant = "measured afresh"
	for i, at := range afresh.Corner.Coordinates() {
		if i%3 != 0 {
			afresh.Corner.Shift(at, 0.25+0.125*float64(i%5))
		}
	}
	sources = append(sources, afresh)
	c := mustCompare(t, sources)
	for i := 1; i < len(sources); i++ {
		a, b := &sources[0], &sources[i]
		sums := map[string]*[3]float64{} // count, sum, sum of squares
		for range changeTrials {
			ca, cb := a.Corner, b.Corner
			jitter(rnd, a, b, &ca, &cb)
			fa, err := figures.Evaluate(&a.Car, &ca, figures.Position{})
			if err != nil {
				t.Fatal(err)
			}
			fb, err := figures.Evaluate(&b.Car, &cb, figures.Position{})
			if err != nil {
				t.Fatal(err)
			}
			for k := range fa {
				s := sums[fa[k].Key]
				if s == nil {
					s = new([3]float64)
					sums[fa[k].Key] = s
				}
				d := fb[k].V - fa[k].V
				*s = [3]float64{s[0] + 1, s[1] + d, s[2] + d*d}
			}
		}
		for r := range c.Rows {
			change := c.Rows[r].Changes[i]
			if !change.HasBand {
				continue
			}
			s := sums[c.Rows[r].Key]
			want := kinematics.Normal95 * math.Sqrt(max(0, s[2]/s[0]-s[1]/s[0]*s[1]/s[0]))
			near(t, fmt.Sprintf("seed %d, %s, change of %s", seed, b.Variant, c.Rows[r].Key), change.Band, want, changeTolerance*want+secondOrder*c.Rows[r].Lines[0].Band+2*c.Rows[r].Kind.Rounding())
		}
	}
}

func jitter(rnd *rand.Rand, a, b *Source, ca, cb *kinematics.Corner) {
	for _, at := range a.Corner.Coordinates() {
		e := 2*rnd.Float64() - 1
		if a.Corner.Shares(&b.Corner, at) {
			e *= max(a.Within.Common(), b.Within.Common())
			ca.Shift(at, e)
			cb.Shift(at, e)
			continue
		}
		ca.Shift(at, e*a.Within.Common())
	}
	for _, at := range b.Corner.Coordinates() {
		if !a.Corner.Shares(&b.Corner, at) {
			cb.Shift(at, b.Within.Common()*(2*rnd.Float64()-1))
		}
	}
}

// The mechanism and the report compute by one rule.
func TestChangeBandsAreThoseOfTheMechanism(t *testing.T) {
	for _, path := range allJobs {
		sources := sourcesOf(t, path)
		c := mustCompare(t, sources)
		for i := 1; i < len(sources); i++ {
			bands, err := kinematics.ChangeBands(mechanism(t, sources[0].Corner), mechanism(t, sources[i].Corner),
				sources[0].Within, sources[i].Within, 0, 0)
			if err != nil {
				t.Fatal(err)
			}
			for r := range c.Rows {
				for q := range kinematics.QuantityCount {
					if q.String() != c.Rows[r].Key || !c.Rows[r].Changes[i].HasBand {
						continue
					}
					half, ok := bands.Of(q)
					if !ok {
						t.Errorf("%s: no band of the change of %s", path, q)
					}
					near(t, path+" "+q.String(), c.Rows[r].Changes[i].Band, half, 1e-3*half+c.Rows[r].Kind.Rounding())
				}
			}
		}
	}
}

// Spacers leave every point where it is: the half track grows by just what
// they are thick, whatever the tape.
func TestAChangeOfWhatWasNotMeasuredIsExact(t *testing.T) {
	c := mustCompare(t, sourcesOf(t, frontJob))
	half := row(t, c, "half_track")
	if first := half.Lines[0].Band; !(first > 0.5) {
		t.Errorf("half track is known to ±%g", first)
	}
	if d := half.Changes[1]; !d.HasBand || d.Band > 0.03 {
		t.Errorf("its change by spacers is known to ±%g only", d.Band)
	}
}
