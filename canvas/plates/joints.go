package plates

import (
	"math"

	"armscribe/canvas/draw"
)

// Joints shows the stud of each joint tilted as far as it goes, in the cone that its
// limit allows. All angles are true.
type Joints struct {
	List   []Joint
	Before string // the measured variant; empty for none
}

// Joint is one of them. Angles are rad from rest; Before only if HasBefore.
type Joint struct {
	Name, Figures       string
	Tilt, Before, Limit float64
	HasBefore, HasLimit bool
	Over                bool // its limit
}

// Draw draws the joints, two beside each other.
func (a *Joints) Draw(l *draw.List, w, h float64) {
	const columns = 2
	b := draw.Box{Max: draw.Point{X: w, Y: h}}
	chain := ""
	if a.Before != "" {
		chain = "; double chain: “" + a.Before + "”"
	}
	foot(l, &b, draw.TextQuiet, first(draw.TextQuiet, w-2*edge, "stud from rest, either way; shaded: what its limit allows"+chain, "shaded: its limit"+chain), &Note{})
	rows := (len(a.List) + columns - 1) / columns
	wide, high := b.W()/columns, b.H()/float64(rows)
	for i := range a.List {
		at := draw.Point{X: b.Min.X + wide*float64(i%columns), Y: b.Max.Y - high*float64(i/columns+1)}
		a.List[i].draw(l, draw.Box{Min: at, Max: at.Add(draw.Point{X: wide, Y: high})})
	}
}

// draw draws one joint in its box.
func (t *Joint) draw(l *draw.List, box draw.Box) {
	const ball, air, steps, reach = 9.0, 16.0, 24, 0.94
	l.On(draw.LayerGrid)
	l.Rect(draw.Frame, box)
	box.Max.Y -= 2
	words(l, draw.TextBold, &box, t.Name)
	words(l, draw.TextNow, &box, t.Figures)
	room := box.H() - air - 10
	if room < 2*ball || box.W() < 4*ball {
		return
	}
	base := draw.Point{X: box.Mid().X, Y: box.Min.Y + air}
	length := min(room, 1.6*box.W())
	tip := func(angle, part float64) draw.Point {
		sin, cos := math.Sincos(angle)
		return base.Add(draw.Point{X: part * length * sin, Y: part * length * cos})
	}
	if t.HasLimit {
		cone := []draw.Point{base}
		for i := range steps + 1 {
			cone = append(cone, tip(t.Limit*(2*float64(i)/steps-1), 1))
		}
		l.On(draw.LayerBands)
		l.Polygon(draw.BandTarget, cone...)
		l.On(draw.LayerConstruction)
		l.Line(draw.RollCentreLine, base, tip(t.Limit, 1))
		l.Line(draw.RollCentreLine, base, tip(-t.Limit, 1))
	}
	l.On(draw.LayerConstruction)
	l.Line(draw.CentreLine, base, tip(0, 1))
	if t.HasBefore {
		l.On(draw.LayerCompared)
		l.Line(draw.Compared, base, tip(t.Before, reach))
		l.Line(draw.Compared, base, tip(-t.Before, reach))
	}
	l.On(draw.LayerLinks)
	role := draw.Upright
	if t.Over {
		role = draw.ObstacleShort
	}
	l.Line(role, base, tip(t.Tilt, reach))
	l.Line(draw.Mirrored, base, tip(-t.Tilt, reach))
	l.Circle(draw.HandleMoving, draw.On(base), 0, ball)
}
