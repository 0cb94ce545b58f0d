package report

import (
	"errors"
	"fmt"
	"strings"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/effort"
)

// Efforts are the forces in the steering of one variant in three cases.
type Efforts struct {
	Source  Source
	Cases   []EffortCase
	loading loading
}

// EffortCase is one case and its answer.
type EffortCase struct {
	Key, Name string
	Answer    effort.Answer
	Missing   string // why there is no answer; empty when there is one
}

// EffortsOf works out the cases for one variant of a job without problems:
// parking only where the axle is steered. Errors match effort.ErrInput, or name
// the variant and are those of its geometry. A case whose pose is out of reach,
// or in which the tie rod has no lever, says so in its place.
func EffortsOf(j *job.Job, variant int, l Loading) (*Efforts, error) {
	e := &Efforts{Source: SourceOf(j, variant), loading: l.filled(j, &j.Variants[variant])}
	m, err := e.Source.mechanism()
	if err != nil {
		return nil, err
	}
	c := e.loading.conditions()
	if !e.loading.rear {
		parking, err := effort.Parking(m, c)
		if err != nil {
			return nil, e.Source.named(err)
		}
		if err := e.solve(m, "parking", "Parking, turning left at a standstill", parking); err != nil {
			return nil, err
		}
	}
	braking, err := effort.SplitBraking(c)
	if err != nil {
		return nil, e.Source.named(err)
	}
	bump, err := effort.OneWheelBump(c)
	if err != nil {
		return nil, e.Source.named(err)
	}
	return e, errors.Join(e.solve(m, "braking", "Braking, less grip on the right", braking),
		e.solve(m, "bump", "Bump under the left wheel", bump))
}

func (e *Efforts) solve(m *kinematics.Mechanism, key, name string, c effort.Case) error {
	out := EffortCase{Key: key, Name: name}
	var err error
	out.Answer, err = effort.Solve(m, e.loading.gear(), c)
	switch {
	case errors.Is(err, effort.ErrLever), errors.Is(err, kinematics.ErrUnreachable):
		out.Missing = strings.ReplaceAll(err.Error(), "\n", "; ")
	case err != nil:
		return e.Source.named(err)
	}
	e.Cases = append(e.Cases, out)
	return nil
}

// effortLine is one value of a case.
type effortLine struct {
	key, name, positive string
	amount              amount
	value               float64 // N mm, mm or N
}

// lines are the values of a case that has an answer.
func (e *Efforts) lines(c *EffortCase) []effortLine {
	a := &c.Answer
	rod := "tie rod"
	if e.loading.rear {
		rod = "toe link"
	}
	var list []effortLine
	for _, s := range []struct {
		name string
		part *effort.Part
	}{{"left", &a.Left}, {"right", &a.Right}} {
		list = append(list,
			effortLine{s.name + "_moment", "about the steering axis, " + s.name, "turns the wheel's front outboard", aMoment, s.part.Moment},
			effortLine{s.name + "_rod", rod + ", " + s.name, "is pressed", aForce, s.part.Rod})
	}
	if e.loading.rear {
		return list
	}
	list = append(list, effortLine{"rack", "rack, from both sides", "pushes it to the car's left", aForce, a.Rack})
	if a.HasWheel {
		list = append(list, effortLine{"wheel_torque", "torque at the steering wheel", "turns it to the left", aMoment, a.WheelTorque},
			effortLine{"rim_pull", "pull at its rim", "turns it to the left", aForce, a.RimPull})
	}
	return list
}

// Table prints the cases for a person.
func (e *Efforts) Table() string {
	s := &e.Source
	g := grid{columns: []align{left, point, left, left}}
	g.row("", "value", "unit", "positive when it")
	for i := range e.Cases {
		c := &e.Cases[i]
		g.row(c.Name)
		if c.Missing != "" {
			g.row("  no answer: " + oneLine(c.Missing))
			continue
		}
		for _, l := range e.lines(c) {
			v, unit := l.amount.inUnit(l.value, s.Unit)
			decimals := 0
			if l.amount == aMoment {
				decimals = 1
			}
			g.row("  "+l.name, withSign(units.FormatNumber(v, decimals)), unit, l.positive)
		}
	}
	head := fmt.Sprintf("%s: %s, forces in the steering; INDICATIVE ONLY\n", oneLine(s.Job), oneLine(s.Variant))
	if e.loading.rear {
		head = fmt.Sprintf("%s: %s, forces in the toe links; INDICATIVE ONLY\n", oneLine(s.Job), oneLine(s.Variant))
	}
	return head + "\n" + g.String() + "\n" + foot(e.notes())
}

func (e *Efforts) notes() []string {
	list := e.loading.words(e.Source.Unit)
	if !e.loading.rear {
		list = append(list, "Parking torque: J. J. Taborek, Mechanics of Vehicles (1957), from memory: grip x load x root(tread² / 8 + scrub²); the tread is "+
			lengthText(e.loading.tread, e.Source.Unit)+" wide.")
	}
	if s := e.Source.radiusNote(); s != "" {
		list = append(list, "They rest on "+s+".")
	}
	return list
}

type effortLineJSON struct {
	Key      string  `json:"key"`
	Name     string  `json:"name"`
	Value    float64 `json:"value"`
	Unit     string  `json:"unit"`
	Positive string  `json:"positive_when_it"`
}

type effortCaseJSON struct {
	Key     string           `json:"key"`
	Name    string           `json:"name"`
	Lines   []effortLineJSON `json:"values"`
	Missing string           `json:"missing,omitempty"`
}

type effortJSON struct {
	Job        string           `json:"job"`
	Variant    string           `json:"variant"`
	Indicative bool             `json:"indicative_only"`
	Cases      []effortCaseJSON `json:"cases"`
	Loading    loadingJSON      `json:"conditions"`
	Notes      []string         `json:"notes"`
	Caution    string           `json:"caution"`
}

// JSON prints the cases for a program: N and N m.
func (e *Efforts) JSON() string {
	mm := *e
	mm.Source.Unit = units.Millimetre
	out := effortJSON{Job: e.Source.Job, Variant: e.Source.Variant, Indicative: true, Loading: e.loading.json(), Notes: mm.notes(), Caution: Caution}
	for i := range e.Cases {
		c := &e.Cases[i]
		list := effortCaseJSON{Key: c.Key, Name: c.Name, Lines: []effortLineJSON{}, Missing: c.Missing}
		if c.Missing == "" {
			for _, l := range e.lines(c) {
				v, unit := l.amount.inUnit(l.value, units.Millimetre)
				list.Lines = append(list.Lines, effortLineJSON{l.key, l.name, number12(v), unit, l.positive})
			}
		}
		out.Cases = append(out.Cases, list)
	}
	return encode(out)
}
