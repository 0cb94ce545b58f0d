package report

import (
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

type threadJSON struct {
	Diameter float64 `json:"diameter_mm"`
	Pitch    float64 `json:"pitch_mm"`
	Engaged  float64 `json:"engaged_mm"`
	Out      float64 `json:"engaged_fully_out_mm"`
	Least    float64 `json:"least_mm"`
	Short    bool    `json:"too_short"`
	ShortOut bool    `json:"too_short_fully_out"`
}

type effectJSON struct {
	Key   string   `json:"key"`
	Value *float64 `json:"per_unit"`
	Unit  string   `json:"unit"`
}

type adjusterJSON struct {
	Name    string       `json:"name"`
	Kind    string       `json:"kind"`
	Unit    string       `json:"unit"`
	Min     float64      `json:"min"`
	Max     float64      `json:"max"`
	Sets    string       `json:"sets"`
	Effects []effectJSON `json:"effects"`
	Threads []threadJSON `json:"threads"`
}

type wishJSON struct {
	Key     string  `json:"key"`
	Wished  float64 `json:"wished_deg"`
	Reached float64 `json:"reached_deg"`
	AsSet   float64 `json:"as_set_deg"`
	Left    float64 `json:"left_deg"`
}

type setJSON struct {
	Name    string   `json:"name"`
	By      float64  `json:"by"`
	Set     float64  `json:"set_by"`
	Unit    string   `json:"unit"`
	StandAt string   `json:"stands_at"`
	Short   bool     `json:"thread_too_short"`
	Bolt    *float64 `json:"bolt_from_middle_deg"`
}

type settingJSON struct {
	Met    bool       `json:"met"`
	Wishes []wishJSON `json:"wishes"`
	Sets   []setJSON  `json:"sets"`
	Room   roomJSON   `json:"clearance"`
}

type adjustJSON struct {
	Job       string         `json:"job"`
	Variant   string         `json:"variant"`
	Adjusters []adjusterJSON `json:"adjusters"`
	Order     []string       `json:"order"`
	Setting   *settingJSON   `json:"setting"`
	Notes     []string       `json:"notes"`
	Caution   string         `json:"caution"`
}

// JSON prints the effects for a program: mm and degrees.
func (a *Adjusted) JSON() string {
	out := adjustJSON{Job: a.Source.Job, Variant: a.Source.Variant, Order: []string{}, Notes: a.notes(), Caution: Caution}
	for i := range a.Setup.Adjusters {
		adj := &a.Setup.Adjusters[i]
		j := adjusterJSON{Name: adj.Name, Kind: adj.Kind.String(), Unit: unitWord(adj.Unit), Min: number12(adj.Min), Max: number12(adj.Max), Threads: []threadJSON{}}
		if adj.HasSets {
			j.Sets = adj.Sets.String()
		}
		for _, q := range bumpsteer.Adjusted() {
			kind := Quantity{Kind: q.Kind()}
			v, ok := a.Effects[i].Of(q)
			v, unit := kind.inUnit(v, units.Millimetre)
			j.Effects = append(j.Effects, effectJSON{q.String(), bandOrNull(v, ok), unit})
		}
		now, ends := adj.Engagements(0), adj.Engagements(adj.Max)
		for k, t := range adj.Threads {
			j.Threads = append(j.Threads, threadJSON{t.Diameter, t.Pitch, number12(now[k].Engaged), number12(max(0, ends[k].Engaged)), number12(now[k].Least), now[k].Short, ends[k].Short})
		}
		out.Adjusters = append(out.Adjusters, j)
	}
	for _, i := range a.Order {
		out.Order = append(out.Order, a.Setup.Adjusters[i].Name)
	}
	if a.Setting != nil {
		out.Setting = a.settingJSON()
	}
	return encode(out)
}

func (a *Adjusted) settingJSON() *settingJSON {
	exact, s := a.Setting, a.Setting.Advised()
	out := &settingJSON{Met: exact.Met, Room: roomOf(a.Clear)}
	for i, w := range a.Wishes {
		out.Wishes = append(out.Wishes, wishJSON{w.Quantity.String(), number12(degrees(w.Value)), number12(degrees(exact.Reached[i])),
			number12(degrees(s.Reached[i])), number12(degrees(w.Value - s.Reached[i]))})
	}
	for k, i := range a.Used {
		adj := &a.Setup.Adjusters[i]
		j := setJSON{Name: adj.Name, By: number12(exact.Units[k]), Set: number12(s.Units[k]), Unit: unitWord(adj.Unit), StandAt: limitKeys[s.Limits[k]]}
		for _, e := range s.Engagement[k] {
			j.Short = j.Short || e.Short
		}
		angle, ok := adj.BoltTurn(adj.Now() + s.Units[k])
		j.Bolt = orNull(degrees(angle), ok)
		out.Sets = append(out.Sets, j)
	}
	return out
}
