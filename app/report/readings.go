package report

import (
	"fmt"
	"slices"
	"strings"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Line is one reading, dressed for people and for files.
type Line struct {
	Quantity
	Value float64 // mm, rad, rad/mm or plain; 0 where it does not exist
	Known bool
	// Band is the half-width of the 95 % measuring-error band; only if HasBand.
	Band    float64
	HasBand bool
	// Lies is the 95 % interval itself, only if HasLies. That of an instant centre
	// is lopsided far out, and may go through infinity; then there is no Band.
	Lies    kinematics.Interval
	HasLies bool
	// Estimate: the value rests on an estimated loaded radius, and moves by
	// Spread either way over that radius' likely span.
	Estimate bool
	Spread   float64
	// Assumed are the keys of the assumed values that the value rests on, the one
	// that moves it most first. Its band spans what they may be.
	Assumed []string
	// Needs says which of them it needs measured before it says anything; else empty.
	Needs string
	// SignOpen: the band spans zero, so that the sign is not decidable.
	SignOpen bool
	// Far: the instant centre is at infinity, as far as anyone can tell, and the
	// value, though it may be Known, says nothing.
	Far kinematics.Far
	// Binds is the link that ends the travel, of a travel limit.
	Binds kinematics.Link
	// Missing says why there is no value.
	Missing string

	refer reference
}

// Readings are all readings of one variant in one position.
type Readings struct {
	Source   Source
	Position Position
	Lines    []Line
}

// ReadingsOf computes the readings. The error names the variant and what to
// change: it matches kinematics.ErrGeometry or kinematics.ErrUnreachable.
func ReadingsOf(s Source, at Position) (*Readings, error) {
	v, err := s.solve(at)
	if err != nil {
		return nil, err
	}
	return &Readings{Source: s, Position: at, Lines: v.lines}, nil
}

// solved is a variant in one position: a line for each figure, and how the
// figures move with the coordinates.
type solved struct {
	source *Source
	lines  []Line
	linear kinematics.Linear
}

func (s *Source) solve(at Position) (*solved, error) {
	base, err := evaluate(s, &s.Corner, at)
	if err != nil {
		return nil, s.explain(err, at.Rack)
	}
	linear, err := s.linearise(at)
	if err != nil {
		return nil, s.explain(err, at.Rack)
	}
	bands := bands(&linear, base)
	spreads := s.spreads(at, base, bands)
	lines := make([]Line, len(base))
	for i, f := range base {
		l := Line{Quantity: f.Quantity, Known: f.ok, Binds: f.binds, refer: f.refer, Estimate: spreads[i].ok, Spread: spreads[i].half}
		l.Lies, l.HasLies = bands[i].lies, bands[i].placed
		if f.ok {
			l.Value = f.value
			l.Band, l.HasBand = bands[i].half, bands[i].ok
			l.Assumed = s.keysOf(linear.Assumed(i))
			if at, ok := linear.Needs(i); ok {
				_, l.Needs = job.NeedsWords(&s.Corner, at)
			}
			l.SignOpen = l.HasBand && l.signed() && l.Band > 0 && l.Value > -l.Band && l.Value < l.Band
		} else {
			l.Missing = f.missing
		}
		lines[i] = l
	}
	markFar(lines)
	return &solved{s, lines, linear}, nil
}

// keysOf names assumptions by their keys in the job.
func (s *Source) keysOf(list []kinematics.Coordinate) []string {
	var keys []string
	for _, at := range list {
		keys = append(keys, job.KeyIn(&s.Corner, at))
	}
	return keys
}

// markFar marks the lines that go to infinity with the instant centre.
func markFar(lines []Line) {
	far := kinematics.Near
	for i := range lines {
		if l := &lines[i]; l.Key == kinematics.SwingArm.String() {
			far = kinematics.FarOf(l.Value, l.Known, l.Lies, l.HasLies)
		}
	}
	if far == kinematics.Near {
		return
	}
	for _, q := range [...]kinematics.Quantity{kinematics.InstantCentreY, kinematics.InstantCentreZ, kinematics.SwingArm} {
		for i := range lines {
			if l := &lines[i]; l.Key == q.String() {
				l.Far, l.SignOpen = far, false
			}
		}
	}
}

// farLimits says of a swing arm that may lie on either side how near it can be.
func (l *Line) farLimits(unit units.Unit) string {
	if l.Far != kinematics.FarEither || !l.HasLies || l.Key != kinematics.SwingArm.String() {
		return ""
	}
	var sides []string
	in, out := kinematics.FarLimits(l.Lies)
	for _, side := range [...]struct {
		mm   float64
		name string
	}{{in, "inboard"}, {out, "outboard"}} {
		if side.mm < kinematics.FarArm {
			sides = append(sides, side.name+" beyond "+units.Guessed.Length(side.mm, unit))
		}
	}
	if len(sides) == 0 {
		return "on either side"
	}
	return strings.Join(sides, " or ")
}

// find returns the index of a line, or -1.
func (v *solved) find(key string) int {
	return slices.IndexFunc(v.lines, func(l Line) bool { return l.Key == key })
}

// Find returns the line with the given key, or nil.
func (r *Readings) Find(key string) *Line {
	for i := range r.Lines {
		if r.Lines[i].Key == key {
			return &r.Lines[i]
		}
	}
	return nil
}

// explain names the variant and, where a travel is out of reach, the range
// within which the linkage assembles at that rack position.
func (s *Source) explain(err error, rack float64) error {
	m, broken := s.mechanism()
	if broken != nil {
		return broken
	}
	r, none := m.Range(rack)
	if none != nil {
		return s.named(err)
	}
	return s.named(fmt.Errorf("%w; the linkage assembles from %s to %s of travel at rack %s",
		err, units.Place(r.Droop.Travel, s.Unit), units.Place(r.Bump.Travel, s.Unit), units.Place(rack, s.Unit)))
}

// notes explain the marks that the readings carry.
func notes(s *Source, at Position, lines []Line) []string {
	var open, estimate, exact bool
	for i := range lines {
		open = open || lines[i].SignOpen
		estimate = estimate || lines[i].Estimate
		exact = exact || lines[i].HasBand && lines[i].Band == 0 && s.Within.Common() > 0 &&
			(lines[i].Key == kinematics.Camber.String() || lines[i].Key == kinematics.Toe.String())
	}
	var list []string
	if text := assumedNote(lines); text != "" {
		list = append(list, text)
	}
	if s.TravelAssumed {
		list = append(list, "Over the travel of the job: that is assumed, until it is typed over.")
	}
	if open {
		list = append(list, fmt.Sprintf("sign open: the band spans zero, so the sign is not decidable at ±%s; use a gauge.", s.within()))
	}
	if estimate {
		list = append(list, fmt.Sprintf("estimate: rests on %s, and moves by so much over that span; measure wheel centre to ground and type it.", s.radiusNote()))
	}
	if at.Rack != 0 {
		list = append(list, "roll centre: where this corner's own line from tyre to instant centre crosses the centre plane.")
	}
	if exact {
		list = append(list, "± 0: camber and toe at rest are taken as typed; their band is that of the gauge.")
	}
	return list
}
