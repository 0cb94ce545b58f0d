package window

import (
	"math"
	"strconv"

	"armscribe/app/figures"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/canvas"
	"armscribe/kinematics"
)

// curveWords is one curve that can be chosen.
type curveWords struct {
	curve frame.Curve
	*figures.Figure
}

// steerings are the curves that are no readings of one pose.
var steerings = map[string]frame.Curve{
	"steering_angle_left": frame.SteerLeft, "steering_angle_right": frame.SteerRight, "ackermann_error": frame.AckermannOver,
}

// allCurves is the order in which curves are offered and stand.
var allCurves = func() []curveWords {
	var list []curveWords
	for _, f := range figures.Curves() {
		curve, ok := steerings[f.Key]
		if !ok {
			curve = frame.CurveOf(f.Of)
		}
		list = append(list, curveWords{curve, f})
	}
	return list
}()

// known tells whether every part of the choice exists in this release.
func (c curveChoice) known() bool {
	for _, curve := range c.Curves {
		if _, ok := wordsOf(curve); !ok {
			return false
		}
	}
	return c.Over <= frame.OverRoll
}

func wordsOf(c frame.Curve) (curveWords, bool) {
	for _, w := range allCurves {
		if w.curve == c {
			return w, true
		}
	}
	return curveWords{}, false
}

// existsOver tells whether the curve has a meaning over the variable.
func (w curveWords) existsOver(over frame.Over) bool {
	_, isQuantity := w.curve.Quantity()
	return isQuantity || over == frame.OverRack
}

// scale is how a kind of value shows: what one unit is inside, and its name.
func scale(k sheet.Kind, unit units.Unit) (perUnit float64, name string) {
	of, name := k.In(1, unit)
	return 1 / of, name
}

// leastSpan is the smallest width of a value scale, in units on display: a flat
// curve should look flat.
func leastSpan(k sheet.Kind, perUnit float64) float64 {
	switch k {
	case sheet.Length:
		return 2 // mm, whatever the display
	case sheet.Toe, sheet.Angle:
		return 0.2 * perUnit
	case sheet.Slope:
		return 0.004 * math.Pi / 180
	}
	return 0.05
}

// plots keeps the memory of the curves between frames.
type plots struct {
	now, before []frame.Series
	specs       []canvas.StripSpec
	targets     []canvas.StripTarget
}

// fill makes the strips of a choice.
func (p *plots) fill(f *frame.Frame, choice curveChoice, aims *job.Targets, unit units.Unit) []canvas.StripSpec {
	for len(p.now) < len(choice.Curves) {
		p.now, p.before = append(p.now, frame.Series{}), append(p.before, frame.Series{})
		p.targets = append(p.targets, canvas.StripTarget{})
	}
	p.specs = p.specs[:0]
	for i, c := range choice.Curves {
		w, ok := wordsOf(c)
		if !ok || !w.existsOver(choice.Over) {
			continue
		}
		perUnit, name := scale(w.Kind, unit)
		if w.Curve.Sign != "" && name != "" {
			name += ", "
		}
		f.Now.Fill(&p.now[i], choice.Over, c, f.Position.Travel)
		p.before[i] = emptied(p.before[i])
		if f.HasBefore {
			f.Before.Fill(&p.before[i], choice.Over, c, f.Position.Travel)
		}
		var target *canvas.StripTarget
		if choice.Over == frame.OverTravel {
			target = stripTarget(aims, c, &p.now[i], &p.targets[i])
		}
		title := w.Curve.Title
		if q, ok := c.Quantity(); ok && f.Now.HasBands && f.Now.Bands.Assumed(q) {
			title += ", assumed"
		}
		p.specs = append(p.specs, canvas.StripSpec{
			Title: title, Unit: name + w.Curve.Sign, PerUnit: perUnit, Least: leastSpan(w.Kind, perUnit),
			Now: curveOf(&p.now[i]), Before: curveOf(&p.before[i]), Target: target,
			Format: func(dst []byte, v, half float64) []byte {
				if far := kinematics.FarOf(v, true, kinematics.Interval{}, false); w.curve == frame.CurveOf(kinematics.SwingArm) && far != kinematics.Near {
					return append(dst, far.Sign()...)
				}
				if half > 0 {
					return append(dst, sheet.Banded(w.Kind, v, half).Text(unit)...)
				}
				return append(dst, units.FormatNumber(v/perUnit, 2)...)
			},
		})
	}
	return p.specs
}

func emptied(s frame.Series) frame.Series {
	s.At, s.Value, s.Half, s.OK = s.At[:0], s.Value[:0], s.Half[:0], s.OK[:0]
	return s
}

func curveOf(s *frame.Series) canvas.StripCurve {
	if len(s.At) == 0 {
		return canvas.StripCurve{}
	}
	return canvas.StripCurve{Value: s.Value, OK: s.OK, Half: s.Half}
}

// axisOf is the variable that the curves run over.
func (w *Window) axisOf(over frame.Over) canvas.Axis {
	switch over {
	case frame.OverRack:
		return w.rackAxis()
	case frame.OverRoll:
		return w.rollAxis()
	}
	return w.travelAxis()
}

func (w *Window) travelAxis() canvas.Axis {
	s := &w.frame.Now.Study
	mm, _ := scale(sheet.Length, w.unit)
	a := canvas.Axis{
		Name: "travel", PerUnit: mm, MinName: "droop", MaxName: "bump",
		Min: -s.Case.Span.Droop, Max: s.Case.Span.Bump, Step: w.nudge(), Format: w.signed(mm),
	}
	if s.Clipped {
		a.From, a.To = s.From, s.To
		a.FromWhy, a.ToWhy = s.Range.Droop.Link.String()+" binds", s.Range.Bump.Link.String()+" binds"
	}
	return a
}

func (w *Window) rackAxis() canvas.Axis {
	span := w.frame.Now.Study.Case.Span
	mm, _ := scale(sheet.Length, w.unit)
	return canvas.Axis{Name: "rack", PerUnit: mm, MinName: "right", MaxName: "left",
		Min: -span.Right, Max: span.Left, Step: w.nudge(), Format: w.signed(mm)}
}

func (w *Window) rollAxis() canvas.Axis {
	return canvas.Axis{Name: "roll", PerUnit: math.Pi / 180, MinName: "right side up", MaxName: "left side up",
		Min: -frame.MaxRoll, Max: frame.MaxRoll, Step: 0.1 * math.Pi / 180, Format: signedDegrees}
}

// nudge is the small step of the keys: 1 mm, or 1/32 inch.
func (w *Window) nudge() float64 {
	if w.unit == units.Inch {
		return 25.4 / 32
	}
	return 1
}

// signed returns a formatter with a sign, for positions along an axis.
func (w *Window) signed(perUnit float64) func(dst []byte, v float64) []byte {
	decimals := 1
	if perUnit > 1 {
		decimals = 2
	}
	return func(dst []byte, v float64) []byte { return appendSigned(dst, v/perUnit, decimals) }
}

func signedDegrees(dst []byte, v float64) []byte {
	return append(appendSigned(dst, v*180/math.Pi, 1), "°"...)
}

func appendSigned(dst []byte, v float64, decimals int) []byte {
	unit := math.Pow10(decimals)
	v = math.Round(v*unit) / unit
	switch {
	case v > 0:
		dst = append(dst, '+')
	case v < 0:
		dst, v = append(dst, "−"...), -v
	}
	return strconv.AppendFloat(dst, v, 'f', decimals, 64)
}
