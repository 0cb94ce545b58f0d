package report

import (
	"errors"
	"math"

	"armscribe/app/clearance"
	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/widen"

	"gonum.org/v1/gonum/spatial/r3"
)

// WidenSpec says by how much one side of the track is to be wider, mm, and
// what the scrub radius may come to.
type WidenSpec struct {
	By          float64
	ScrubMax    float64 // mm, either way; only if HasScrubMax
	HasScrubMax bool
	Loading     Loading
}

// Widened is both ways of widening one variant, beside it.
type Widened struct {
	Source  Source
	Spec    WidenSpec
	Both    widen.Proposals
	Table   widen.Table
	HasTyre bool // the tyre's size is known
	// Clear are the gaps to the job's obstacles by each way, of spacers and of arms.
	Clear [2]WayClearance
	// Limits hold each way against the largest scrub radius, and Mixed is the
	// way with the thickest spacer that keeps within it, the arms making up the
	// rest; only if asked for. HasMixed tells whether there is one.
	Limits     [2]ScrubLimit
	Mixed      widen.Answer
	MixedLimit ScrubLimit
	HasMixed   bool
	// Refit is how far the rack's end must move from where it is for the longer
	// arms to steer the wheel least, mm; only if HasRefit.
	Refit    kinematics.Vec
	HasRefit bool

	loading loading
	aims    map[widen.Measure]targets.Range // of the job
}

// ScrubLimit is a scrub radius against its limit.
type ScrubLimit struct {
	Value, Band float64 // mm
	Verdict     LimitVerdict
}

// LimitVerdict tells how a value stands to a limit.
type LimitVerdict uint8

// The verdicts. LimitOpen: the band spans the limit.
const (
	LimitKept LimitVerdict = iota + 1
	LimitPassed
	LimitOpen
)

// Places over travel and rack from which the largest are sought, of joints too.
const (
	mostTravels = 9
	mostRacks   = 5
)

// ErrWidenSpec: what was asked for makes no sense, whatever the job.
var ErrWidenSpec = errors.New("the track cannot be changed by that")

// WidenOf makes both proposals from one variant of a job without problems.
// Errors match ErrWidenSpec or widen.ErrWiden, or name the variant and are
// those of its geometry.
func WidenOf(j *job.Job, variant int, spec WidenSpec) (*Widened, error) {
	switch {
	case spec.By == 0:
		return nil, specFault("0 changes nothing; say by how much one side is to be wider")
	case spec.HasScrubMax && !(spec.ScrubMax > 0 && spec.ScrubMax <= widen.MaxBy):
		return nil, scrubFault(spec.ScrubMax)
	}
	v := &j.Variants[variant]
	w := &Widened{Source: SourceOf(j, variant), Spec: spec, loading: spec.Loading.filled(j, v), aims: targetsOf(&j.Targets)}
	s := &w.Source
	setup := widen.Setup{Travel: places(-s.Droop, s.Bump, mostTravels), Rack: places(-s.Stops().Most(), s.Stops().Most(), mostRacks), // of either wheel
		Gear: w.loading.gear(), Conditions: w.loading.conditions(), Within: s.Within}
	setup.Tyre, w.HasTyre = clearance.TyreOf(v)
	var err error
	if w.Both, err = widen.By(s.Corner, spec.By); err == nil {
		w.Table, err = widen.Compare(s.Corner, spec.By, setup)
	}
	if errors.Is(err, kinematics.ErrGeometry) || errors.Is(err, kinematics.ErrUnreachable) {
		return nil, s.Named(err)
	}
	if err != nil {
		return nil, units.Said(err, s.Unit)
	}
	w.clean()
	w.clear(j, variant)
	if fitted, err := widen.WithRods(w.Both.Arms, spec.By, widen.RackEndFitted, setup.Travel); err == nil { // else the table says so
		w.Refit, w.HasRefit = r3.Sub(fitted.TieRod.RackEnd, w.Both.Arms.TieRod.RackEnd), true
	}
	if !spec.HasScrubMax {
		return w, nil
	}
	if err := w.limit(); err != nil {
		return nil, err
	}
	return w, nil
}

// clean takes bands that are rounding for none.
func (w *Widened) clean() {
	for _, p := range widenParts {
		for _, l := range p.lines {
			t := &w.Table[l.measure]
			for _, b := range []*widen.Value{&t.SpacersBand, &t.ArmsBand, &t.BeforeOwn, &t.SpacersOwn, &t.ArmsOwn} {
				if b.Value < l.kind.Rounding() {
					b.Value = 0
				}
			}
		}
	}
}

// places are n places from one to another, both ends included; one alone
// where they are the same.
func places(from, to float64, n int) []float64 {
	if from == to {
		return []float64{from}
	}
	list := make([]float64, n)
	for i := range list {
		list[i] = from + (to-from)*float64(i)/float64(n-1)
	}
	return list
}

// limit holds both ways against the limit, and looks for one between.
func (w *Widened) limit() error {
	var err error
	for _, way := range w.Ways() {
		if w.Limits[way], err = w.limitOf(w.Corner(way)); err != nil {
			return err
		}
	}
	if w.Spec.By < 0 && w.Source.Corner.Wheel.Spacer <= 0 {
		return nil // all is done by the arms
	}
	arms := w.Table[widen.HalfTrack].Arms
	most := max(0, w.Source.Corner.Wheel.Spacer+w.Spec.By)
	list, err := widen.Reach(w.Source.Corner, widen.Wish{To: arms.Value, ScrubMax: w.Spec.ScrubMax, HasScrubMax: true,
		SpacerMin: 0, SpacerMax: most, ArmsMin: min(0, w.Spec.By), ArmsMax: max(0, w.Spec.By), Order: widen.LeastArms, Mark: markOf(w.Source.Unit)},
		[]widen.Choice{{Offset: w.Source.Corner.Wheel.Offset}})
	if err != nil {
		return w.Source.Named(err)
	}
	if len(list) > 0 && list[0].Reaches() {
		w.Mixed, w.HasMixed = list[0], true
		w.MixedLimit, err = w.limitOf(w.Mixed.Corner)
	}
	return err
}

// limitOf holds one corner against the limit.
func (w *Widened) limitOf(c kinematics.Corner) (ScrubLimit, error) {
	s := w.Source
	s.Corner = c
	r, err := ReadingsOf(s, figures.Position{})
	if err != nil {
		return ScrubLimit{}, err
	}
	l := r.Find(kinematics.ScrubRadius.String())
	if l == nil || !l.Known {
		return ScrubLimit{}, s.Named(specFault("the steering axis does not meet the ground: there is no scrub radius to limit"))
	}
	return limitOf(l, w.Spec.ScrubMax), nil
}

func limitOf(l *Line, most float64) ScrubLimit {
	out := ScrubLimit{Value: l.Value, Band: l.Band, Verdict: LimitKept}
	switch over := math.Abs(l.Value) - most; {
	case math.Abs(over) < l.Band:
		out.Verdict = LimitOpen
	case over > 0:
		out.Verdict = LimitPassed
	}
	return out
}
