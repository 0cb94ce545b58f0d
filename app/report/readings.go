package report

import (
	"fmt"
	"slices"
	"strings"

	"armscribe/app/car"
	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Line is one reading, dressed for people and for files.
type Line struct {
	*figures.Figure
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

	refer figures.Reference
}

// Readings are all readings of one variant in one position.
type Readings struct {
	Source   Source
	Position figures.Position
	Lines    []Line
}

// ReadingsOf computes the readings. The error names the variant and what to
// change: it matches kinematics.ErrGeometry or kinematics.ErrUnreachable.
func ReadingsOf(s Source, at figures.Position) (*Readings, error) {
	v, err := s.solve(at)
	if err != nil {
		return nil, err
	}
	return &Readings{Source: s, Position: at, Lines: v.lines}, nil
}

// solved is a variant in one position: a line for each figure, and how the
// figures move with the coordinates.
type solved struct {
	lines   []Line
	linear  kinematics.Linear
	missing string // why it has no lines
}

func (s *Source) solve(at figures.Position) (*solved, error) {
	base, err := figures.Evaluate(&s.Car, &s.Corner, at)
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
		l := Line{Figure: f.Figure, Known: f.OK, Binds: f.Binds, refer: f.Refer, Estimate: spreads[i].ok, Spread: spreads[i].half}
		l.Lies, l.HasLies = bands[i].lies, bands[i].placed
		if f.OK {
			l.Value = f.V
			l.Band, l.HasBand = bands[i].half, bands[i].ok
			l.Assumed = s.assumedOf(&f, linear.Assumed(i))
			if at, ok := linear.Needs(i); ok {
				_, l.Needs = job.NeedsWords(&s.Corner, at)
			}
			l.SignOpen = l.HasBand && l.Signed() && l.Band > 0 && l.Value > -l.Band && l.Value < l.Band
		} else {
			l.Missing = f.Missing
		}
		lines[i] = l
	}
	markFar(lines)
	return &solved{lines: lines, linear: linear}, nil
}

// keysOf names assumptions by their keys in the job.
func (s *Source) keysOf(list []kinematics.Coordinate) []string {
	var keys []string
	for _, at := range list {
		keys = append(keys, job.KeyIn(&s.Corner, at))
	}
	return keys
}

// assumedOf are the keys of the assumptions that a figure rests on: those by which it
// moves, and the end of the job's travel that it is taken at. One without slopes rests on
// all that shapes the linkage.
func (s *Source) assumedOf(f *figures.Value, list []kinematics.Coordinate) []string {
	if f.Group == figures.Range {
		return s.Rests(0)
	}
	keys := s.keysOf(list)
	if f.Group == figures.Travel {
		end := car.OnDroop
		if f.Refer.MM > 0 {
			end = car.OnBump
		}
		keys = append(keys, s.AssumedEnds(end)...)
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
	m, broken := s.Mechanism()
	if broken != nil {
		return broken
	}
	r, none := m.Range(rack)
	if none != nil {
		return s.Named(err)
	}
	return s.Named(fmt.Errorf("%w; the linkage assembles from %s to %s of travel at rack %s",
		err, units.Place(r.Droop.Travel, s.Unit), units.Place(r.Bump.Travel, s.Unit), units.Place(rack, s.Unit)))
}

// notes explain the marks that the readings carry.
func notes(s *Source, at figures.Position, lines []Line) []string {
	var open, estimate, exact bool
	for i := range lines {
		open = open || lines[i].SignOpen
		estimate = estimate || lines[i].Estimate
		exact = exact || lines[i].Given && lines[i].HasBand && lines[i].Band == 0 && s.Within.Common() > 0
	}
	var list []string
	if text := assumedNote(lines); text != "" {
		list = append(list, text)
	}
	if s.TravelAssumed.Any() {
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

// Sheet is the answer.
func (r *Readings) Sheet() *sheet.Sheet {
	s := &r.Source
	t := &sheet.Table{Key: "readings", Columns: []sheet.Column{
		{Key: "key", On: sheet.InFile},
		{Role: sheet.Name, Key: "name"},
		{Title: "value", Band: "95 % band", Key: "value", UnitKey: "unit", BandKey: "band_95"},
		{Role: sheet.Text, Title: "unit", On: sheet.OnScreens},
		{Role: sheet.Text, Title: "positive when", On: sheet.OnScreens},
		{Key: "positive_when", On: sheet.InFile}, {Key: "sign_open", On: sheet.InFile}, {Key: "estimate", On: sheet.InFile},
		{Key: "assumed", Whole: true, On: sheet.InFile}, {Key: "needs", Whole: true, On: sheet.InFile},
		{Key: "estimate_spread", On: sheet.InFile}, {Key: "note", Whole: true, On: sheet.InFile}, {Key: "reference_mm", Whole: true, On: sheet.InFile},
		{Role: sheet.Text, On: sheet.OnScreens},
	}}
	var limits sheet.Object
	for i := range r.Lines {
		l := &r.Lines[i]
		addRow(t, l.Figure, r.Position, l.row(s.Unit))
		if side, ok := strings.CutSuffix(l.Key, "_limit"); ok {
			limits.Fields = append(limits.Fields, sheet.Field{Key: side + ".travel_mm", Cell: l.Cell()},
				sheet.Field{Key: side + ".link", Cell: sheet.Words(l.Binds.String())})
		}
	}
	limits.Key = "assembled_travel"
	where := "travel " + signedLength(r.Position.Travel, s.Unit) + ", rack " + signedLength(r.Position.Rack, s.Unit)
	return &sheet.Sheet{Job: s.Job, Variant: s.Variant, Rests: s.Rests(restsReadings), Head: []string{where + ", points measured within ±" + s.within()}, Unit: s.Unit,
		Items: append(append([]sheet.Item{
			sheet.Field{Key: "travel_mm", Cell: sheet.Number(sheet.Length, r.Position.Travel)},
			sheet.Field{Key: "rack_mm", Cell: sheet.Number(sheet.Length, r.Position.Rack)}},
			s.withinItems()...), t, limits),
		Notes: func(unit units.Unit) []sheet.Note {
			of := *s
			of.Unit = unit
			return sheet.Notes(notes(&of, r.Position, r.Lines)...)
		}, Caution: Caution}
}

// addRow adds the row of a figure under its heading. Screens leave out what they
// would only say twice, or what symmetry makes nought: slopes here when they are
// those at rest, the place of the roll centre in the centre plane. Files have the
// ends of the travel in a place of their own.
func addRow(t *sheet.Table, f *figures.Figure, at figures.Position, row sheet.Row) {
	on := sheet.Faces(0)
	switch {
	case f.Group == figures.Here && at.AtRest(), f.Of == kinematics.RollCentreY && at.Roll == 0:
		on = sheet.InFile
	case f.Group == figures.Range:
		on = sheet.OnScreens
	}
	name, n := f.Group.String(), len(t.Groups)
	for _, g := range t.Groups {
		if g.Name == name {
			name = ""
		}
	}
	if n == 0 || name != "" || t.Groups[n-1].On != on {
		t.Groups = append(t.Groups, sheet.Group{Name: name, On: on})
		n++
	}
	t.Groups[n-1].Rows = append(t.Groups[n-1].Rows, row)
}

// Cell is the value with its band.
func (l *Line) Cell() sheet.Cell {
	c := sheet.BandedIf(l.Kind, l.Value, l.Band, l.HasBand)
	switch {
	case !l.Known:
		c = sheet.Missing(l.Kind, l.Missing)
	case l.NoBand:
		c = sheet.Number(l.Kind, l.Value)
	}
	if l.Far != kinematics.Near {
		c = c.Said(l.Far.String())
	}
	return c.Needs(l.Needs)
}

func (l *Line) row(unit units.Unit) sheet.Row {
	note := l.note()
	return sheet.Row{
		sheet.Words(l.Key), sheet.Words(l.Name), l.Cell(), sheet.UnitOf(l.Kind), sheet.Words(l.Positive),
		sheet.Words(l.SignWords()), sheet.Flag(l.SignOpen), sheet.Flag(l.Estimate),
		assumedCell(l.Assumed), sheet.Words(l.Needs).If(l.Needs != ""),
		sheet.Number(l.Kind, l.Spread).If(l.Estimate), sheet.Words(note).If(note != ""), sheet.Number(sheet.Length, l.refer.MM).If(l.refer.Words != ""),
		sheet.Words(strings.Join(l.marks(unit), ", ")),
	}
}

// note is what belongs to the value in a file, or why there is none.
func (l *Line) note() string {
	if !l.Known {
		return l.Missing
	}
	list := l.remarks(units.Millimetre)
	if l.Far != kinematics.Near {
		list = append([]string{l.Far.String()}, list...)
	}
	return strings.Join(list, ", ")
}

// remarks are what else belongs to the value.
func (l *Line) remarks(unit units.Unit) []string {
	var list []string
	switch {
	case l.refer.Place:
		list = append(list, l.refer.Words+" "+units.Place(l.refer.MM, unit))
	case l.refer.Words != "":
		list = append(list, l.refer.Words+" "+lengthText(l.refer.MM, unit))
	}
	if text := l.farLimits(unit); text != "" {
		list = append(list, text)
	}
	if l.Binds != kinematics.NoLink {
		list = append(list, l.Binds.String()+" binds")
	}
	return list
}

// marks are the words behind a line.
func (l *Line) marks(unit units.Unit) []string {
	list := l.remarks(unit)
	if len(l.Assumed) > 0 {
		list = append(list, l.assumedMark())
	}
	if l.SignOpen && l.Needs == "" {
		list = append(list, "sign open")
	}
	if l.Estimate {
		list = append(list, "estimate ±"+strings.TrimPrefix(sheet.Banded(l.Kind, 0, l.Spread).Half(unit), "± "))
	}
	return list
}
