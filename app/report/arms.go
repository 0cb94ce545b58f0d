package report

import (
	"errors"
	"fmt"
	"math"

	"armscribe/app/car"
	"armscribe/app/clearance"
	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// ArmsSpec says what arms to make: by how much they grow from pivot axis to ball
// joint, mm, and the roll angle to find an upper arm for.
type ArmsSpec struct {
	Lower, Upper float64
	KeepRod      bool    // the tie rod as it is, so that toe follows; else cut to keep the toe
	Roll         float64 // rad, above zero; only if HasRoll
	HasRoll      bool
}

// Arms is what other arms on the same upright do to one variant, put together
// again at its ride height.
type Arms struct {
	Source Source
	Spec   ArmsSpec
	Corner kinematics.Corner // with them
	Lines  []ArmsLine
	Rolled []RolledArm         // an upper arm for the roll angle, by either end; only if asked for
	Judged clearance.Judgement // of the wheel with them
}

// ArmsLine is one value before and after.
type ArmsLine struct {
	Key, Name  string
	Kind       sheet.Kind
	Was, Is    kinematics.Value
	Band, More band // of Is, and of the change: both corners rest on the same measuring
	missing    string
}

// RolledArm is an upper arm that keeps the outer wheel's camber in roll.
type RolledArm struct {
	End           kinematics.ArmEnd
	Arm           kinematics.RollArm
	Upper, Lower  float64 // mm, lengths with it
	Band          band    // of the upper
	Now, Rest, In float64 // rad: camber in roll less at rest as it is; camber at rest, and in roll, with it
	Fault         error   // why there is none
}

// ErrArmsSpec: what was asked for makes no sense, whatever the job.
var ErrArmsSpec = errors.New("no arms can be made by that")

// ArmsOf answers for one variant of a job without problems. Errors match
// ErrArmsSpec, or name the variant and are those of kinematics.Reassemble.
func ArmsOf(j *job.Job, variant int, spec ArmsSpec) (*Arms, error) {
	if spec.Lower == 0 && spec.Upper == 0 && !spec.HasRoll {
		return nil, fmt.Errorf("%w: say by how much an arm is to be longer, or for which roll", ErrArmsSpec)
	}
	if spec.HasRoll && !(spec.Roll > 0 && spec.Roll <= kinematics.MaxRoll) {
		return nil, fmt.Errorf("%w: a roll of %s is not above 0 and at most %s; it goes either way", ErrArmsSpec, units.FormatDegrees(spec.Roll, 2), units.FormatDegrees(kinematics.MaxRoll, 0))
	}
	a := &Arms{Source: SourceOf(j, variant), Spec: spec}
	s := &a.Source
	var err error
	if a.Corner, err = kinematics.Reassemble(s.Corner, spec.change()); err != nil {
		return nil, s.Named(err)
	}
	a.Judged = clearance.JudgementOf(j, variant, &a.Corner)
	base := spec.facts(&s.Corner)
	g := s.slopes(func(m *kinematics.Mechanism) []kinematics.Value { c := m.Corner(); return spec.facts(&c) })
	for i, l := range armsLines {
		was, is := base[3*i], base[3*i+1]
		l.Was, l.Is = was, is
		l.Band, l.More = bandAbove(0)(g.Half(3*i+1)), bandAbove(0)(g.Half(3*i+2))
		a.Lines = append(a.Lines, l)
	}
	if spec.HasRoll {
		for _, end := range []kinematics.ArmEnd{kinematics.AtPivot, kinematics.AtBall} {
			a.Rolled = append(a.Rolled, a.rolled(end))
		}
	}
	return a, nil
}

// sameAngle is a rounding of an angle that stays, rad.
const sameAngle = 1e-10

// AnglesAfter are how well camber and toe at rest are known once a variant's corner has
// been put together anew, for the job to hold; as they were where the angle stays.
// Rounded up to a thousandth of a degree.
func AnglesAfter(j *job.Job, variant int, anew func(c kinematics.Corner) (kinematics.Corner, error)) (camber, toe job.Degrees) {
	const digits = 1000
	v, s := &j.Variants[variant], SourceOf(j, variant)
	camber, toe = v.CamberWithin, v.ToeWithin
	now, err := anew(s.Corner)
	if err != nil {
		return camber, toe
	}
	g := s.slopes(func(m *kinematics.Mechanism) []kinematics.Value {
		c, err := anew(m.Corner())
		return []kinematics.Value{kinematics.Number(c.Camber, err == nil), kinematics.Number(c.Toe, err == nil)}
	})
	for i, by := range [...]float64{now.Camber - s.Corner.Camber, now.Toe - s.Corner.Toe} {
		half, ok := g.Half(i)
		if to := [...]*job.Degrees{&camber, &toe}[i]; math.Abs(by) > sameAngle {
			*to = 0
			if ok {
				*to = job.Degrees(math.Ceil(digits*degrees(half)) / digits)
			}
		}
	}
	return camber, toe
}

// Anew puts a corner together with the arms.
func (sp *ArmsSpec) Anew(c kinematics.Corner) (kinematics.Corner, error) {
	return kinematics.Reassemble(c, sp.change())
}

// Anew puts a corner together with the upper arm that was found.
func (r *RolledArm) Anew(sp *ArmsSpec, c kinematics.Corner) (kinematics.Corner, error) {
	next, err := sp.Anew(c)
	if err != nil {
		return next, err
	}
	return kinematics.WithUpperArm(next, r.Arm.Longer, r.End)
}

func (sp *ArmsSpec) change() kinematics.Change {
	return kinematics.Change{Lower: sp.Lower, Upper: sp.Upper, CutRod: !sp.KeepRod}
}

// armsLines are the values of the answer, in its order.
var armsLines = func() []ArmsLine {
	list := []ArmsLine{{Key: "lower_arm", Name: "Lower arm", Kind: sheet.Length}, {Key: "upper_arm", Name: "Upper arm", Kind: sheet.Length}, {Key: "tie_rod", Name: "Tie rod", Kind: sheet.Length}}
	for _, q := range armsQuantities {
		f := figures.Of(q)
		list = append(list, ArmsLine{Key: f.Key, Name: f.Name, Kind: f.Kind, missing: f.Missing})
	}
	return append(list, ArmsLine{Key: "camber_in_roll", Name: "Camber in roll", Kind: sheet.PerAngle, missing: figures.OutOfReach})
}()

var armsQuantities = []kinematics.Quantity{kinematics.Camber, kinematics.Toe, kinematics.Caster, kinematics.SteeringAxisInclination,
	kinematics.ScrubRadius, kinematics.Trail, kinematics.HalfTrack, kinematics.RollCentreHeight, kinematics.CamberGain, kinematics.RideToe}

// facts are each line's value before and after, and the change.
func (sp *ArmsSpec) facts(c *kinematics.Corner) []kinematics.Value {
	before, ok := armsFacts(c, nil)
	after := make([]kinematics.Value, len(before))
	if next, err := kinematics.Reassemble(*c, sp.change()); ok && err == nil {
		after, _ = armsFacts(&next, nil)
	}
	list := make([]kinematics.Value, 0, 3*len(before))
	for i := range before {
		list = append(list, before[i], after[i], kinematics.Number(after[i].Num-before[i].Num, before[i].OK && after[i].OK))
	}
	return list
}

// armsFacts are the values of armsLines on one corner.
func armsFacts(c *kinematics.Corner, list []kinematics.Value) ([]kinematics.Value, bool) {
	m, err := kinematics.New(c)
	if err != nil {
		return make([]kinematics.Value, len(armsLines)), false
	}
	p, err := m.At(0, 0)
	if err != nil {
		return make([]kinematics.Value, len(armsLines)), false
	}
	upper, lower := m.ArmLengths()
	list = append(list, kinematics.Number(lower, true), kinematics.Number(upper, true), kinematics.Number(m.RodLength(), true))
	r := p.Readings()
	for _, q := range armsQuantities {
		v, ok := r.Of(q)
		list = append(list, kinematics.Number(v, ok))
	}
	rates, err := m.RollRates()
	return append(list, kinematics.Number(rates.Camber, err == nil)), true
}

// armBandStep is half the step by which the slope of camber in roll over the
// arm's length is taken, mm.
const armBandStep = 0.05

// rolled finds the upper arm for the roll angle, changed at one end. Its band is
// how far the arm must go to make up for what the measuring leaves open.
func (a *Arms) rolled(end kinematics.ArmEnd) RolledArm {
	s, roll := &a.Source, a.Spec.Roll
	r := RolledArm{End: end}
	if r.Arm, r.Fault = kinematics.UpperArmForRoll(a.Corner, roll, end); r.Fault != nil {
		return r
	}
	left := func(c kinematics.Corner, mm float64) kinematics.Value {
		with, err := kinematics.WithUpperArm(c, mm, end)
		if err != nil {
			return kinematics.Value{}
		}
		m, err := kinematics.New(&with)
		if err != nil {
			return kinematics.Value{}
		}
		v, err := m.OuterCamberInRoll(roll)
		return kinematics.Number(v, err == nil)
	}
	r.Now, r.Rest = left(a.Corner, 0).Num, r.Arm.Corner.Camber
	r.In = r.Rest + r.Arm.Left
	if m, err := kinematics.New(&r.Arm.Corner); err == nil {
		r.Upper, r.Lower = m.ArmLengths()
	}
	of := func(m *kinematics.Mechanism) []kinematics.Value {
		next, err := kinematics.Reassemble(m.Corner(), a.Spec.change())
		if err != nil {
			return []kinematics.Value{{}}
		}
		return []kinematics.Value{left(next, r.Arm.Longer)}
	}
	up, down := left(a.Corner, r.Arm.Longer+armBandStep), left(a.Corner, r.Arm.Longer-armBandStep)
	g := s.slopes(of)
	b := bandAbove(0)(g.Half(0))
	if slope := (up.Num - down.Num) / (2 * armBandStep); r.Arm.Found && b.ok && up.OK && down.OK && slope != 0 {
		r.Band = bandAbove(0)(b.half/math.Abs(slope), true)
	}
	return r
}

// Sheet is the answer.
func (a *Arms) Sheet() *sheet.Sheet {
	t := &sheet.Table{Key: "values", Columns: []sheet.Column{
		{Key: "key", On: sheet.InFile},
		{Role: sheet.Name, Key: "name"},
		{Title: "now", Key: "now", MissingKey: "now_missing"},
		{Title: "then", Band: "95 % band", Key: "then", BandKey: "band_95"},
		{Title: "change", Band: "95 % band", UnitTitle: "unit", Key: "change", BandKey: "change_band_95", UnitKey: "unit"},
	}, Groups: sheet.Rows()}
	for i := range a.Lines {
		t.Groups[0].Rows = append(t.Groups[0].Rows, a.Lines[i].row())
	}
	items := []sheet.Item{
		sheet.Field{Key: "lower_longer_mm", Cell: sheet.Number(sheet.Chosen, a.Spec.Lower)}, sheet.Field{Key: "upper_longer_mm", Cell: sheet.Number(sheet.Chosen, a.Spec.Upper)},
		sheet.Field{Key: "rod_cut", Cell: sheet.Flag(!a.Spec.KeepRod)}, t, a.clearance()}
	if a.Spec.HasRoll {
		items = append(items, a.rollTable(), sheet.Prose{On: sheet.OnScreens, Lines: a.rollWords()})
	}
	return a.Source.sheet(car.OnRoom, a.Name()+", same upright", a.notes, items...)
}

// clearance says what the wheel comes to with the arms.
func (a *Arms) clearance() sheet.Prose {
	mark := sheet.NoMark
	switch {
	case a.Judged.InTheWay():
		mark = sheet.Bad
	case a.Judged.Fine():
		mark = sheet.Good
	}
	return sheet.Prose{Key: "clearance", Title: wheelClearance, Lines: []sheet.Line{{Mark: mark, Text: a.Judged.Words(a.Source.Unit)}}}
}

// Name says in a few words what the arms are.
func (a *Arms) Name() string {
	text := ""
	for _, arm := range []struct {
		name string
		by   float64
	}{{"lower arm ", a.Spec.Lower}, {"upper arm ", a.Spec.Upper}} {
		if arm.by != 0 {
			if text != "" {
				text += ", "
			}
			text += arm.name + signedLength(arm.by, a.Source.Unit)
		}
	}
	if text == "" {
		text = "arms as they are"
	}
	return text
}

func (l *ArmsLine) row() sheet.Row {
	value := func(f kinematics.Value, c sheet.Cell) sheet.Cell {
		if !f.OK {
			return sheet.Missing(l.Kind, l.missing)
		}
		return c
	}
	by := kinematics.Number(l.Is.Num-l.Was.Num, l.Was.OK && l.Is.OK)
	return sheet.Row{sheet.Words(l.Key), sheet.Words(l.Name),
		value(l.Was, sheet.Banded(l.Kind, l.Was.Num, l.Band.half)),
		value(l.Is, sheet.BandedIf(l.Kind, l.Is.Num, l.Band.half, l.Band.ok)),
		sheet.BandedIf(l.Kind, by.Num, l.More.half, l.More.ok).Signed().If(by.OK)}
}

var armEndNames = map[kinematics.ArmEnd]string{
	kinematics.AtPivot: "at its pivot: bracket moved, camber at rest stays",
	kinematics.AtBall:  "on the same pivots: camber at rest follows",
}

var armEndKeys = map[kinematics.ArmEnd]string{kinematics.AtPivot: "pivot", kinematics.AtBall: "ball_joint"}

// armLimits say that an arm stands where what was searched ends, and by what.
var armLimits = map[kinematics.ArmLimit]struct{ key, words string }{
	kinematics.NoArmLimit: {"none", ","},
	kinematics.ArmShare:   {"length", ", the limit of what was searched,"},
	kinematics.RestCamber: {"camber_at_rest", ", the limit of what was searched for its camber at rest,"},
	kinematics.ArmReach:   {"reach", ", the limit of what was searched since the parts go no farther,"},
}

// ArmSearch says which upper arms are searched.
var ArmSearch = fmt.Sprintf("Upper arms are searched from %s to %s of the present length and with camber at rest from %s to %s deg, or as far as it is where that is beyond: farther is another layout, or a camber that is not set.",
	units.Trimmed(kinematics.ShorterArm, 2), units.Trimmed(kinematics.LongerArm, 2), units.Trimmed(degrees(kinematics.LeastRestCamber), 2), units.Signed(units.Trimmed(degrees(kinematics.MostRestCamber), 2)))

// rollTable are the upper arms for the roll angle.
func (a *Arms) rollTable() *sheet.Table {
	t := &sheet.Table{Title: "Upper arm for a roll of " + degreesText(a.Spec.Roll), Key: "upper_arm_for_roll", Columns: []sheet.Column{
		{Key: "changed_at", On: sheet.InFile},
		{Key: "roll_deg", On: sheet.InFile},
		{Key: "found", On: sheet.InFile},
		{Key: "searched_from_mm", On: sheet.InFile},
		{Key: "searched_to_mm", On: sheet.InFile},
		{Key: "limit_of_search", On: sheet.InFile},
		{Role: sheet.Name, Key: "name"},
		{Title: "length", UnitIn: true, Band: "95 % band", Key: "length_mm", BandKey: "band_95"},
		{Title: "longer than now", UnitIn: true, Key: "longer_mm"},
		{Title: "than the lower", UnitIn: true, Key: "than_lower_mm"},
		{Title: "camber at rest", UnitIn: true, Key: "camber_at_rest_deg"},
		{Title: "in roll, outer", UnitIn: true, Key: "outer_camber_in_roll_deg"},
	}, Groups: sheet.Rows()}
	for i := range a.Rolled {
		r := &a.Rolled[i]
		ok := r.Fault == nil
		cell := func(k sheet.Kind, v float64) sheet.Cell { return sheet.Number(k, v).If(ok) }
		length := cell(sheet.Length, r.Upper)
		if r.Arm.Found {
			length = sheet.BandedIf(sheet.Length, r.Upper, r.Band.half, r.Band.ok)
		}
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(armEndKeys[r.End]), sheet.Number(sheet.Stated, a.Spec.Roll), sheet.Flag(ok && r.Arm.Found),
			cell(sheet.Length, r.Arm.Shortest), cell(sheet.Length, r.Arm.Longest), sheet.Words(armLimits[r.Arm.Limit].key).If(ok),
			sheet.Words(armEndNames[r.End]), length,
			cell(sheet.Length, r.Arm.Longer).Signed(), cell(sheet.Length, r.Upper-r.Lower).Signed(),
			cell(sheet.Toe, r.Rest), cell(sheet.Toe, r.In)})
	}
	return t
}

// rollWords say what the upper arms come to.
func (a *Arms) rollWords() (list []sheet.Line) {
	for i := range a.Rolled {
		r := &a.Rolled[i]
		what := upperFirst(armEndNames[r.End]) + ". "
		switch {
		case r.Fault != nil:
			list = append(list, sheet.Line{Mark: sheet.Bad, Text: what + upperFirst(a.Source.Named(r.Fault).Error()) + "."})
		case !r.Arm.Found:
			list = append(list, sheet.Line{Mark: sheet.Bad, Text: what + fmt.Sprintf("No upper arm keeps it: as it is the outer wheel's camber to the ground changes by %s; of arms from %s to %s long the best, %s leaves %s.",
				signedDegrees(r.Now), a.tenth(r.Arm.Shortest), a.tenth(r.Arm.Longest), a.tenth(r.Upper)+armLimits[r.Arm.Limit].words, signedDegrees(r.Arm.Left))})
		default:
			list = append(list, sheet.Line{Mark: sheet.Good, Text: what + fmt.Sprintf("The outer wheel keeps its camber to the ground; as it is, it changes by %s.", signedDegrees(r.Now))})
		}
	}
	return list
}

// tenth is the length of an arm as it is talked of.
func (a *Arms) tenth(mm float64) string { return units.Taped.Length(mm, a.Source.Unit) }

func degreesText(rad float64) string {
	return units.TrimZeros(units.FormatNumber(degrees(rad), 2)) + " deg"
}

func signedDegrees(rad float64) string {
	return units.Signed(units.FormatNumber(degrees(rad), 2)) + " deg"
}

func (a *Arms) notes(units.Unit) []sheet.Note {
	rod := "The tie rod is cut anew so that toe at rest stays."
	if a.Spec.KeepRod {
		rod = "The tie rod is as it was, so that toe follows."
	}
	list := []string{"Lengths are from the pivot axis square to the ball joint. The upright is the same, put together again with the body as high above the ground as it was. " + rod,
		"Signs are those of armcalc readings. The band of a change allows for both corners resting on the same measuring."}
	if a.Spec.HasRoll {
		list = append(list, "In roll the mean travel of both wheels is nought and the rack in the middle; springs and tyres are left out. An arm changed at its pivot keeps the instant centre at rest. "+ArmSearch)
	}
	return sheet.Notes(list...)
}
