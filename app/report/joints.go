package report

import (
	"fmt"
	"strings"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/jointangle"
)

// Joints are how far the joints of one variant tilt from rest, against what the
// job says that they allow.
type Joints struct {
	Source Source
	List   [jointangle.JointCount]JointTilt
	Poses  int // looked at
	Unmet  int // of them, out of the linkage's reach
}

// JointTilt is the most of one joint. Angles are rad.
type JointTilt struct {
	Joint jointangle.Joint
	Name  string // in the trade's words, of this axle
	jointangle.Most
	// Right tells that only the right wheel goes so far; CarRack is where the rack
	// is, mm, positive to the car's left.
	Right    bool
	CarRack  float64
	Band     float64 // 95 %
	Limit    float64 // either way; only if HasLimit
	HasLimit bool
	Verdict  LimitVerdict // only if HasLimit
}

// Margin is what the limit leaves, rad; below zero over it. Only if
// HasLimit.
func (t *JointTilt) Margin() float64 { return t.Limit - t.Tilt }

// Word says how the tilt stands to the limit.
func (t *JointTilt) Word() string {
	switch {
	case !t.HasLimit:
		return "no limit stated"
	case t.Verdict == LimitPassed:
		return "OVER ITS LIMIT"
	case t.Verdict == LimitOpen:
		return "open: within its band"
	}
	return "kept"
}

// JointsOf carries the corner of one variant of a job without problems through
// its travel and rack. Errors name the variant and are those of its geometry.
func JointsOf(j *job.Job, variant int) (*Joints, error) {
	out := &Joints{Source: SourceOf(j, variant)}
	s := &out.Source
	m, err := s.Mechanism()
	if err != nil {
		return nil, err
	}
	if _, err := m.At(0, 0); err != nil {
		return nil, s.Named(err)
	}
	travel := places(-s.Droop, s.Bump, mostTravels)
	rack := places(-s.Stops().Most(), s.Stops().Most(), mostRacks) // of either wheel
	out.Poses = len(travel) * len(rack)
	var most [jointangle.JointCount]jointangle.Most
	most, out.Unmet = jointangle.Over(m, travel, rack)
	bands := s.tiltBands(m, most, travel, rack)
	limits := [jointangle.JointCount]job.OptionalDegrees{jointangle.UpperBall: j.JointLimits.UpperBall, jointangle.LowerBall: j.JointLimits.LowerBall,
		jointangle.OuterEnd: j.JointLimits.OuterEnd, jointangle.RackEnd: j.JointLimits.RackEnd}
	for k := range jointangle.JointCount {
		t := JointTilt{Joint: k, Name: k.String(), Most: most[k], Band: bands[k]}
		t.Right, t.CarRack = s.Stops().WheelAt(t.Rack)
		if k == jointangle.RackEnd {
			t.Name = "inner tie-rod end"
		}
		if s.Rear {
			t.Name = strings.Replace(t.Name, "tie-rod", "toe-link", 1)
		}
		if l := limits[k]; l.Given {
			t.Limit, t.HasLimit = radians(float64(l.Degrees)), true
			switch over := -t.Margin(); {
			case max(over, -over) < t.Band:
				t.Verdict = LimitOpen
			case over > 0:
				t.Verdict = LimitPassed
			default:
				t.Verdict = LimitKept
			}
		}
		out.List[k] = t
	}
	return out, nil
}

// tiltBands are those of the largest tilts: the place of one moves it by nothing to
// first order, but another may tilt more within the measuring error.
func (s *Source) tiltBands(m *kinematics.Mechanism, most [jointangle.JointCount]jointangle.Most, travel, rack []float64) (bands [jointangle.JointCount]float64) {
	var places []jointangle.Most
	for _, h := range travel {
		for _, r := range rack {
			if _, err := jointangle.Of(m, h, r); err == nil { // else it is left out
				places = append(places, jointangle.Most{Travel: h, Rack: r})
			}
		}
	}
	places = append(places, most[:]...)
	g := s.slopes(func(m *kinematics.Mechanism) []kinematics.Value {
		list := make([]kinematics.Value, 0, len(places)*len(most))
		for _, p := range places {
			tilts, err := jointangle.Of(m, p.Travel, p.Rack)
			for _, tilt := range tilts {
				list = append(list, kinematics.Number(tilt, err == nil))
			}
		}
		return list
	})
	for k := range bands {
		var group []int
		for i := range places {
			if j := i - (len(places) - len(most)); j < 0 || j == k { // its own place, not those of the others
				group = append(group, i*len(most)+k)
			}
		}
		bands[k] = bandAbove(sheet.Angle.Rounding())(g.Largest(group)).half
	}
	return bands
}

func radians(deg float64) float64 { return deg / degrees(1) }

// Sheet is the answer: how far each joint tilts, and how that stands to its limit;
// a window sets it beside that of another variant, if there is one.
func (a *Joints) Sheet(before *Joints) *sheet.Sheet {
	s := &a.Source
	rack := ""
	if !s.Rear {
		rack = fmt.Sprintf(", rack %s right to %s left", lengthText(s.RackRight, s.Unit), lengthText(s.RackLeft, s.Unit))
	}
	t := &sheet.Table{Key: "joints", Columns: []sheet.Column{
		{Key: "joint", On: sheet.InFile},
		{Role: sheet.Name, Key: "name"},
		{Title: "tilt", UnitIn: true, Band: "95 % band", Key: "tilt_deg", BandKey: "band_95"},
		{On: sheet.OnWindow},
		{Title: "at travel", UnitIn: true, Key: "travel_mm", On: sheet.OnText | sheet.InFile},
		{Title: "rack", UnitIn: true, Key: "rack_mm", On: sheet.OnText | sheet.InFile},
		{Role: sheet.Text, Key: "wheel", On: sheet.InFile},
		{Title: "limit", UnitIn: true, Key: "limit_deg"},
		{Title: "margin", UnitIn: true, Key: "margin_deg"},
		{Key: "verdict", On: sheet.InFile},
		{Role: sheet.Text, On: sheet.OnScreens},
	}, Groups: sheet.Rows()}
	if before != nil {
		t.Columns[beforeColumn].Title = oneLine(before.Source.Variant)
	}
	for i := range a.List {
		row := a.List[i].row()
		if before != nil {
			row[beforeColumn] = before.List[i].cell().Marked(sheet.Aside)
		}
		t.Groups[0].Rows = append(t.Groups[0].Rows, row)
	}
	return s.sheet(car.OnTravel|car.OnRack, "most tilt of the joints from rest over travel "+signedLength(-s.Droop, s.Unit)+" to "+signedLength(s.Bump, s.Unit)+rack, a.notes,
		a.sentences(), t, sheet.Field{Key: "places_out_of_reach", Cell: sheet.Number(sheet.Plain, float64(a.Unmet))})
}

// beforeColumn is where the tilts of another variant stand.
const beforeColumn = 3

// cell is the tilt, with the place where it is largest.
func (t *JointTilt) cell() sheet.Cell {
	return sheet.Banded(sheet.Angle, t.Tilt, t.Band)
}

// sentences say which limits are kept.
func (a *Joints) sentences() sheet.Prose {
	p := sheet.Prose{On: sheet.OnWindow}
	say := func(m sheet.Mark, text string) { p.Lines = append(p.Lines, sheet.Line{Mark: m, Text: text}) }
	var kept, free []string
	for i := range a.List {
		t := &a.List[i]
		tilt, limit := t.cell().Phrase(a.Source.Unit), sheet.Number(sheet.Stated, t.Limit).Phrase(a.Source.Unit)
		switch {
		case !t.HasLimit:
			free = append(free, t.Name)
		case t.Verdict == LimitPassed:
			say(sheet.Bad, "The "+t.Name+" would tilt by "+tilt+", past its limit of "+limit+".")
		case t.Verdict == LimitOpen:
			say(sheet.Unsure, "The "+t.Name+" tilts by "+tilt+": its limit of "+limit+" lies within the band, the tape cannot tell.")
		default:
			kept = append(kept, t.Name)
		}
	}
	if len(kept) > 0 {
		say(sheet.Good, "Within the limit: "+strings.Join(kept, ", ")+".")
	}
	if len(free) > 0 {
		say(sheet.NoMark, "No limit stated: "+strings.Join(free, ", ")+". Type it in the table.")
	}
	return p
}

func (t *JointTilt) row() sheet.Row {
	wheel := ""
	if t.Right {
		wheel = ", right wheel"
	}
	marks := map[LimitVerdict]sheet.Mark{LimitKept: sheet.Good, LimitPassed: sheet.Bad, LimitOpen: sheet.Unsure}
	mark := sheet.Aside
	if t.HasLimit {
		mark = marks[t.Verdict]
	}
	return sheet.Row{
		sheet.Words(jointKeys[t.Joint]), sheet.Words(t.Name),
		t.cell().At(sheet.Place{Travel: t.Travel, Rack: t.CarRack}), {},
		sheet.Number(sheet.Travel, t.Travel), sheet.Number(sheet.Travel, t.CarRack), sheet.Words(sideNames[!t.Right]),
		sheet.Number(sheet.Stated, t.Limit).If(t.HasLimit).Typed(jointKeys[t.Joint]), sheet.Banded(sheet.Angle, t.Margin(), t.Band).Signed().If(t.HasLimit),
		sheet.Words(limitWord[t.Verdict]).If(t.HasLimit), sheet.Words(t.Word() + wheel).Marked(mark),
	}
}

// notes say what the numbers rest on.
func (a *Joints) notes(units.Unit) []sheet.Note {
	list := sheet.Notes(
		"Tilt is counted from rest, either way. Studs are taken as parallel to the steering axis, housings as fixed to arm or rod: how the joints were built in is not known here.",
		"To measure a limit: swing the stud in its housing from stop to stop and halve the angle. What the stud stands off the middle at rest takes away from it, one way.",
		"Whether a joint allows the tilt is its maker's to say; wear, bushings that give and the force on the stud are not in it.",
	)
	if a.Unmet > 0 {
		list = append(list, sheet.Note{Text: fmt.Sprintf("%d of %d places of travel and rack are out of the linkage's reach and left out.", a.Unmet, a.Poses)})
	}
	if !a.limited() {
		list = append(list, sheet.Note{On: sheet.OnText | sheet.InFile, Text: "The job states no limits: add them under joint_limits, as '{upper_ball: 25, lower_ball: 25, outer_end: 20, rack_end: 20}', degrees either way."})
	}
	return list
}

func (a *Joints) limited() bool {
	for i := range a.List {
		if a.List[i].HasLimit {
			return true
		}
	}
	return false
}

var jointKeys = [jointangle.JointCount]string{jointangle.UpperBall: "upper_ball", jointangle.LowerBall: "lower_ball", jointangle.OuterEnd: "outer_end", jointangle.RackEnd: "rack_end"}

// JointOf is the joint of a key; another key is a bug.
func JointOf(key string) jointangle.Joint {
	for k, name := range jointKeys {
		if name == key {
			return jointangle.Joint(k)
		}
	}
	panic("report: no joint " + key)
}
