package trackpage

import (
	"math"
	"strings"

	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/kinematics/jointangle"
)

// jointColumns is how many joints stand beside each other.
const jointColumns = 2

// compose draws each joint's stud tilted as far as it goes, in the cone that
// its limit allows. All angles are true.
func (a *joints) compose(l *draw.List, w, h float64) {
	if a.now == nil {
		l.On(draw.LayerNotes)
		l.Text(draw.TextQuiet, draw.At(w/2, h/2), draw.Centre, "no answer")
		return
	}
	const foot = 22
	rows := (int(jointangle.JointCount) + jointColumns - 1) / jointColumns
	cw, ch := w/jointColumns, (h-foot)/float64(rows)
	for i := range a.now.List {
		x, y := cw*float64(i%jointColumns), h-ch*float64(i/jointColumns+1)
		var before *report.JointTilt
		if a.before != nil {
			before = &a.before.List[i]
		}
		a.drawJoint(l, &a.now.List[i], before, draw.Box{Min: draw.Point{X: x, Y: y}, Max: draw.Point{X: x + cw, Y: y + ch}})
	}
	l.On(draw.LayerNotes)
	chain := ""
	if a.before != nil {
		chain = "; double chain: “" + cut(a.before.Source.Variant) + "”"
	}
	text := "stud from rest, either way; shaded: what its limit allows" + chain
	if !a.fits(draw.TextQuiet, text, w) {
		text = "shaded: its limit" + chain
	}
	l.Text(draw.TextQuiet, draw.At(w/2, 8), draw.Centre, text)
}

// Sizes of one joint's picture in points.
const (
	jointHead = 44 // name and one line of figures
	jointLine = 16
	jointBall = 9
	jointAir  = 16
	coneSteps = 24
)

// fits tells whether a text has room in a width.
func (a *joints) fits(role draw.Role, text string, w float64) bool {
	const air = 14
	wide, _, _ := a.picture.Styles.TextSize(role, draw.OnScreen, []byte(text))
	return wide+air <= w
}

// drawJoint draws one joint in its box.
func (a *joints) drawJoint(l *draw.List, t, before *report.JointTilt, box draw.Box) {
	l.On(draw.LayerGrid)
	l.Rect(draw.Frame, box)
	l.On(draw.LayerNotes)
	l.Text(draw.TextBold, draw.At(box.Min.X+8, box.Max.Y-18), draw.Left, pages.UpperFirst(t.Name))
	tilt, limit := figuresOf(t)
	lines := []string{tilt + limit}
	if !a.fits(draw.TextNow, lines[0], box.W()) {
		lines = []string{tilt, strings.TrimLeft(limit, ", ")}
	}
	for i, text := range lines {
		l.Text(draw.TextNow, draw.At(box.Min.X+8, box.Max.Y-35-jointLine*float64(i)), draw.Left, text)
	}
	room := box.H() - jointHead - jointLine*float64(len(lines)-1) - 2*jointAir
	if room < 2*jointBall || box.W() < 4*jointBall {
		return
	}
	foot := draw.Point{X: box.Mid().X, Y: box.Min.Y + jointAir}
	length := min(room, 1.6*box.W())
	tip := func(angle, part float64) draw.Point {
		sin, cos := math.Sincos(angle)
		return foot.Add(draw.Point{X: part * length * sin, Y: part * length * cos})
	}
	if t.HasLimit {
		cone := []draw.Point{foot}
		for i := range coneSteps + 1 {
			cone = append(cone, tip(t.Limit*(2*float64(i)/coneSteps-1), 1))
		}
		l.On(draw.LayerBands)
		l.Polygon(draw.BandTarget, cone...)
		l.On(draw.LayerConstruction)
		l.Line(draw.RollCentreLine, foot, tip(t.Limit, 1))
		l.Line(draw.RollCentreLine, foot, tip(-t.Limit, 1))
	}
	l.On(draw.LayerConstruction)
	l.Line(draw.CentreLine, foot, tip(0, 1))
	if before != nil {
		l.On(draw.LayerCompared)
		l.Line(draw.Compared, foot, tip(before.Tilt, 0.94))
		l.Line(draw.Compared, foot, tip(-before.Tilt, 0.94))
	}
	l.On(draw.LayerLinks)
	role := draw.Upright
	if t.HasLimit && t.Verdict == report.LimitPassed {
		role = draw.ObstacleShort
	}
	l.Line(role, foot, tip(t.Tilt, 0.94))
	l.Line(draw.Mirrored, foot, tip(-t.Tilt, 0.94))
	l.Circle(draw.HandleMoving, draw.On(foot), 0, jointBall)
}

// figuresOf say how far a joint tilts, and how that stands to its limit.
func figuresOf(t *report.JointTilt) (tilt, limit string) {
	tilt = sheet.Banded(sheet.Angle, t.Tilt, t.Band).Text(units.Millimetre) + "°"
	if !t.HasLimit {
		return tilt, ", no limit stated"
	}
	return tilt, " of " + units.Trimmed(t.Limit*pages.Degree, 1) + "°" + map[report.LimitVerdict]string{report.LimitKept: ", kept", report.LimitPassed: ", OVER ITS LIMIT", report.LimitOpen: ", open"}[t.Verdict]
}
