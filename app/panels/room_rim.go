package panels

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// rimRows are the lines of what stands inside the rim. They are there without
// any obstacle too.
type rimRows struct {
	r       *Room
	problem *textRow // no rim, or an offset outside it
	joints  [3]*gapRow
	housing [3]*valueRow
	brake   *gapRow
	about   *textRow
}

// jointNames are those of clearance.Rim's joints, in their order.
var jointNames = [...]string{"Outer tie-rod end", "Lower ball joint", "Upper ball joint"}

func (m *rimRows) init(r *Room) {
	m.r, m.problem, m.about, m.brake = r, newTextRow(), newTextRow(), newGapRow("Brake")
	for i, name := range jointNames {
		m.joints[i] = newGapRow(name)
		m.housing[i] = newValueRow(&r.form, "its housing, across", m.housingField(i))
	}
}

// housingField is how large a joint's housing is.
func (m *rimRows) housingField(i int) *field {
	f := newField(jointNames[i] + " housing")
	parse := func(text string) (job.Optional, error) {
		if blank(text) {
			return job.Optional{}, nil
		}
		l, err := units.ParseLength(text, m.r.in.Unit)
		if err == nil && !(l.MM >= kinematics.MinSpan && l.MM <= job.MaxHousing) {
			err = housingError(l.MM, m.r.in.Unit)
		}
		return job.Given(l), err
	}
	f.check = func(text string) (string, error) {
		o, err := parse(text)
		if err != nil || !o.Given {
			return "", err
		}
		return units.FormatBoth(o.MM), nil
	}
	f.hand = func(text string) error {
		o, err := parse(text)
		if err != nil {
			return err
		}
		return m.r.OnEdit("type "+f.name, func(j *job.Job) { *housingOf(&j.Housings, i) = o })
	}
	return f
}

// housingOf is the housing of one of the joints.
func housingOf(h *job.Housings, i int) *job.Optional {
	return [...]*job.Optional{&h.OuterEnd, &h.LowerBall, &h.UpperBall}[i]
}

func (m *rimRows) rows() []row {
	list := []row{newHead("Inside the rim", false), m.problem}
	for i := range m.joints {
		list = append(list, m.joints[i], m.housing[i])
	}
	return append(list, m.brake, m.about)
}

func (m *rimRows) fill() {
	in := &m.r.in
	m.joints[0].name.say(m.r.words(jointNames[0]), theme.ColorNameForeground)
	m.fillProblem(in)
	for i := range m.joints {
		m.joints[i].clear()
		if i < len(in.Rim.Joints) {
			m.joints[i].gap(&in.Rim.Joints[i], in.Unit)
		}
		if !in.Moving {
			m.fillHousing(i, clearance.HousingsOf(in.Job)[i])
		}
	}
	m.brake.clear()
	if in.RimErr == nil {
		m.brake.fit(&in.Rim, in.Unit)
	}
	about := ""
	if in.RimErr == nil {
		keep := "3 to 5 mm"
		if in.Unit == units.Inch {
			keep = "1/8 to 3/16 in"
		}
		about = "Barrel " + units.Built.Length(in.Rim.Barrel, in.Unit) +
			" across inside, estimated from the size code: measure the wheel. Spokes are not in it. Keep " + keep + " at least, more with joints that have play: common practice, no source."
	}
	m.about.say(about, look.ColorQuiet)
}

func (m *rimRows) fillProblem(in *RoomInput) {
	switch {
	case in.RimErr != nil:
		m.problem.say("✕ "+upperFirst(in.RimErr.Error())+".", theme.ColorNameError)
	case in.Rim.OffsetErr != nil:
		m.problem.say("✕ "+upperFirst(in.Rim.OffsetWords(in.Unit))+".", theme.ColorNameError)
	default:
		m.problem.say("", look.ColorQuiet)
	}
}

func (m *rimRows) fillHousing(i int, size clearance.Housing) {
	h := m.housing[i]
	if size.Assumed {
		h.field.hold("", "", "")
		h.field.SetPlaceHolder("≈ " + units.Trimmed(units.In(size.Size, m.r.in.Unit), restDecimals))
		h.explainWith("assumed until typed")
		return
	}
	short, full := lengthTexts(housingOf(&m.r.in.Job.Housings, i).Length, m.r.in.Unit)
	h.field.hold("", short, full)
	h.explainWith("empty: assumed")
}

func housingError(mm float64, u units.Unit) error {
	return &rangeError{units.Built.Length(mm, u), units.Built.Length(kinematics.MinSpan, u), units.Rounded.Length(job.MaxHousing, u)}
}

// rangeError says that a measure is out of range.
type rangeError struct{ value, low, high string }

// Error names value, limits and cure.
func (e *rangeError) Error() string {
	return e.value + " is not between " + e.low + " and " + e.high + "; check the number and its unit"
}

// gapRow is a name and under it how a gap stands.
type gapRow struct {
	*textRow
	name *textRow
}

func newGapRow(name string) *gapRow {
	r := &gapRow{textRow: newTextRow(), name: newTextRow()}
	r.name.note = newNote(name, look.SizeSmall, theme.ColorNameForeground)
	r.name.step = nameHeight
	return r
}

func (r *gapRow) clear() { r.say("", look.ColorQuiet) }

func (r *gapRow) gap(g *clearance.Gap, u units.Unit) {
	if g.Err != nil {
		r.say("✕ "+upperFirst(g.InRim(u))+".", theme.ColorNameError)
		return
	}
	sign, colour := verdictSign(g.Verdict())
	r.say(sign+" "+g.InRim(u), colour)
}

// fit tells how the brake stands in the barrel.
func (r *gapRow) fit(rim *clearance.Rim, u units.Unit) {
	switch {
	case rim.Barrel == 0:
		r.say("not known without a tyre and a rim", look.ColorQuiet)
	case !rim.HasBrake:
		r.say("no size stated; type it on the tab Car", look.ColorQuiet)
	case rim.BrakeErr != nil:
		r.say("✕ "+rim.BrakeWords(u), theme.ColorNameWarning)
	default:
		r.say("✓ "+rim.BrakeWords(u), theme.ColorNameSuccess)
	}
}

func (r *gapRow) objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.name.note, r.note} }

func (r *gapRow) height(w float32) float32 { return nameHeight + r.note.height(w) + rowGap }

func (r *gapRow) place(x, y, w float32) {
	r.name.place(x, y, w)
	r.textRow.place(x, y+nameHeight, w)
}
