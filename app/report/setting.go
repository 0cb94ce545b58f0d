package report

import (
	"math"

	"armscribe/app/figures"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// WishLine is what one wish comes to, in words, deg.
type WishLine struct {
	Name                   string
	Wished, Nearest, AsSet string
	Left                   string // what the setting that can be made lacks; empty for nothing
}

// WishLines are the wishes, each beside what is reached.
func (a *Adjusted) WishLines() []WishLine {
	list := make([]WishLine, len(a.Wishes))
	for i, w := range a.Wishes {
		set := a.Setting.Advised().Reached[i]
		list[i] = WishLine{Name: figures.Of(w.Quantity).Name, Wished: toeText(w.Value), Nearest: toeText(a.Setting.Reached[i]), AsSet: toeText(set)}
		if math.Abs(w.Value-set) > bumpsteer.MetAngle {
			list[i].Left = toeText(w.Value-set) + " deg left"
		}
	}
	return list
}

// SetLine is what to do with one adjuster, in words.
type SetLine struct {
	Name         string
	Exactly, Set string // by how much, in the unit
	Unit         string // turns, mm
	Marks        []string
	Short        bool // a thread is too short
}

// SetLines are the adjusters to set.
func (a *Adjusted) SetLines() []SetLine {
	s := a.Setting.Advised()
	list := make([]SetLine, len(a.Used))
	for k, i := range a.Used {
		adj, u := &a.Setup.Adjusters[i], a.Source.Unit
		l := SetLine{Name: adj.Name, Exactly: moveCell(a.Setting.Units[k], units.Millimetre), Set: moveCell(s.Units[k], units.Millimetre), Unit: "mm"}
		if adj.Step > 0 {
			l.Set = units.Signed(units.FormatNumber(s.Units[k], 1))
		}
		if adj.Unit == bumpsteer.Turn {
			l.Unit = "turns"
		}
		if w := limitWords[s.Limits[k]]; w != "" {
			l.Marks = append(l.Marks, w)
		}
		for _, e := range s.Engagement[k] {
			if e.Short {
				l.Short = true
				l.Marks = append(l.Marks, "thread TOO SHORT: "+lengthText(max(0, e.Engaged), u)+" engaged, "+lengthText(e.Least, u)+" least")
			}
		}
		if angle, ok := adj.BoltTurn(adj.Now() + s.Units[k]); ok {
			l.Marks = append(l.Marks, "bolt "+units.FormatNumber(degrees(angle), 0)+" deg from the middle")
		}
		list[k] = l
	}
	return list
}
