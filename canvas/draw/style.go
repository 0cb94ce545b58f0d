package draw

import "armscribe/canvas/draw/font"

// Style is what a role looks like. Screen lengths are in points, paper lengths
// in millimetres of paper.
type Style struct {
	Name      string // for files
	Stroke    Token  // pen or text colour; None draws no line
	Fill      Token  // None leaves the shape open
	FillAlpha float64

	Pen      float64 // width of the pen on screen
	PaperPen float64 // and on paper
	Dash     Dash
	Round    bool // round ends; joints are always round
	Crisp    bool // upright and level lines are moved onto whole pixels

	Face      font.Face
	Size      float64 // em of a text on screen
	PaperSize float64 // and on paper
}

// Styles gives every role its style.
type Styles [roleCount]Style

// Dash is a line type.
type Dash uint8

// The line types after ISO 128-2.
const (
	Solid       Dash = iota
	Dashed           // hidden, helping
	Chain            // centre lines and planes
	DoubleChain      // the outline before a change, other positions of a moving part
	dashCount
)

// Pattern is a line type as lengths: on, off, on, off, ... N of them; N = 0 is solid.
type Pattern struct {
	N int
	L [6]float64
}

// Period returns the length after which the pattern repeats.
func (p Pattern) Period() float64 {
	s := 0.0
	for _, l := range p.L[:p.N] {
		s += l
	}
	return s
}

// Times returns the pattern with every length multiplied by k.
func (p Pattern) Times(k float64) Pattern {
	for i := range p.L[:p.N] {
		p.L[i] *= k
	}
	return p
}

// paperDash holds the line types of ISO 128-2 in widths of the line: dash 12,
// long dash 24, short dash 6, gap 3 (from memory). The dot of a chain is half a
// width there; on a screen that would vanish.
var paperDash = [dashCount]Pattern{
	Dashed:      {2, [6]float64{12, 3}},
	Chain:       {4, [6]float64{24, 3, 0.5, 3}},
	DoubleChain: {6, [6]float64{24, 3, 6, 3, 6, 3}},
}

// screenDash holds the same line types in points, shorter, for short lines must
// show their type too.
var screenDash = [dashCount]Pattern{
	Dashed:      {2, [6]float64{5, 3.5}},
	Chain:       {4, [6]float64{15, 3.5, 2, 3.5}},
	DoubleChain: {6, [6]float64{13, 3, 3.5, 3, 3.5, 3}},
}

// Medium tells whether screen or paper lengths of a Style count.
type Medium uint8

// The media.
const (
	OnScreen Medium = iota
	OnPaper
)

// PenOn returns the width of the pen in points.
func (s *Style) PenOn(m Medium) float64 {
	if m == OnPaper {
		return s.PaperPen * PerMM
	}
	return s.Pen
}

// SizeOn returns the em of a text in points.
func (s *Style) SizeOn(m Medium) float64 {
	if m == OnPaper {
		return s.PaperSize * PerMM
	}
	return s.Size
}

// DashOn returns the pattern of the line in points.
func (s *Style) DashOn(m Medium) Pattern {
	if m == OnPaper {
		return paperDash[s.Dash].Times(s.PaperPen * PerMM)
	}
	return screenDash[s.Dash]
}

// Pens on paper, mm: narrow, wide and extra wide lines stand 1 : 2 : 4. ISO
// 128-2 sets wide to narrow at 2 : 1 and lists 0.25 and 0.5.
const (
	narrow    = 0.25
	wide      = 0.5
	extraWide = 1.0
)

// Text sizes on paper as the em in mm, so that capitals, 0.714 em high, stand
// 2.5, 1.8 and 3.5 mm: the heights of ISO 3098.
const (
	bodyEm  = 2.5 / font.CapHeight
	quietEm = 1.8 / font.CapHeight
	titleEm = 3.5 / font.CapHeight
)

// HouseStyles returns the table of the house style.
func HouseStyles() *Styles {
	s := &Styles{}
	s.setLines()
	s.setMarks()
	s.setChart()
	s.setTexts()
	return s
}

func line(name string, c Token, pen, paper float64, d Dash) Style {
	return Style{Name: name, Stroke: c, Pen: pen, PaperPen: paper, Dash: d}
}

func (s Style) round() Style { s.Round = true; return s }
func (s Style) crisp() Style { s.Crisp = true; return s }

func (s Style) fill(c Token, alpha float64) Style {
	s.Fill, s.FillAlpha = c, alpha
	return s
}

func (s *Styles) setLines() {
	s[Arm] = line("arm", Ink, 4, extraWide, Solid).round()
	s[Upright] = line("upright", Ink, 3, wide, Solid).round()
	s[TieRod] = line("tie-rod", Now, 3, extraWide, Solid).round()
	s[Outline] = line("outline", Ink, 1.8, wide, Solid)
	s[OutlineInner] = line("outline-inner", Quiet, 1, narrow, Solid)
	s[Construction] = line("construction", Quiet, 0.9, narrow, Solid)
	s[ArmLine] = line("arm-line", Quiet, 0.9, narrow, Solid)
	s[SteeringAxis] = line("steering-axis", Now, 1.2, narrow, Chain)
	s[Dimension] = line("dimension", Ink, 0.9, narrow, Solid)
	s[DimensionNow] = line("dimension-now", Now, 1, narrow, Solid)
	s[Compared] = line("compared", Before, 1.2, narrow, DoubleChain)
	s[TravelGhost] = line("travel-ghost", Hairline, 1.2, narrow, Solid)
	s[CentrePlane] = line("centre-plane", Quiet, 1, narrow, Chain).crisp()
	s[Ground] = line("ground", Ink, 1.2, wide, Solid).crisp()
	s[GroundHatch] = line("ground-hatch", Hairline, 0.9, narrow, Solid)
	s[RollCentreLine] = line("roll-centre-line", Good, 1, narrow, Dashed)
	s[TieRodArc] = line("tie-rod-arc", Now, 1.6, narrow, Dashed) // wider, its dashes would be longer than its sample
	s[FreePath] = line("free-path", Ink, 1.6, wide, Solid)
	s[LowerArmArc] = line("lower-arm-arc", Quiet, 1.1, narrow, Dashed)
	s[LoupeLead] = line("loupe-lead", Hairline, 1, narrow, Solid)
	s[Leader] = line("leader", Quiet, 0.8, narrow, Solid)
	s[Mirrored] = line("mirrored", Quiet, 1.1, narrow, Solid).round()
	s[Guide] = line("guide", Before, 0.9, narrow, Dashed)
	s[Swept] = line("swept", Quiet, 1.1, narrow, DoubleChain)
	s[Obstacle] = line("obstacle", Ink, 1.8, wide, Solid).round().fill(Quiet, 0.25)
	s[ObstacleShort] = line("obstacle-short", Now, 2.4, wide, Solid).round().fill(Now, 0.25)
	s[ObstacleHatch] = line("obstacle-hatch", Now, 1.2, narrow, Solid)
	s[CentreLine] = line("centre-line", Quiet, 0.9, narrow, Chain)
	s[Highlight] = line("highlight", Hairline, 9, wide, Solid).round()
}

func (s *Styles) setMarks() {
	s[RollCentre] = line("roll-centre", Good, 1.4, narrow, Solid).fill(Good, 0.25)
	s[Loupe] = line("loupe", Quiet, 1.2, narrow, Solid).fill(Paper, 1)
	s[LoupeOpen] = line("loupe-open", Quiet, 1.2, narrow, Solid)
	s[HandleFixed] = line("handle-fixed", Ink, 2, narrow, Solid).fill(Paper, 1)
	s[HandleMoving] = line("handle-moving", Ink, 1.6, narrow, Solid).fill(Ink, 1)
	s[HandleFixedNow] = line("handle-fixed-now", Now, 2, narrow, Solid).fill(Paper, 1)
	s[HandleMovingNow] = line("handle-moving-now", Now, 1.6, narrow, Solid).fill(Now, 1)
	s[HandleHeld] = line("handle-held", Now, 1.6, narrow, Solid)
	s[Focus] = line("focus", Before, 2, narrow, Solid)
	s[Arrow] = Style{Name: "arrow", Fill: Ink, FillAlpha: 1}
	s[ArrowNow] = Style{Name: "arrow-now", Fill: Now, FillAlpha: 1}
	s[ArrowQuiet] = Style{Name: "arrow-quiet", Fill: Quiet, FillAlpha: 1}
	s[ArrowGood] = Style{Name: "arrow-good", Fill: Good, FillAlpha: 1}
	s[Tag] = Style{Name: "tag", Fill: Ink, FillAlpha: 1}
	s[Knockout] = Style{Name: "knockout", Fill: Paper, FillAlpha: 1}
}

func (s *Styles) setChart() {
	s[BandNow] = Style{Name: "band-now", Fill: Now, FillAlpha: 0.16}
	s[BandBefore] = Style{Name: "band-before", Fill: Before, FillAlpha: 0.14}
	s[BandTarget] = Style{Name: "band-target", Fill: Good, FillAlpha: 0.14}
	s[BandGood] = Style{Name: "band-good", Fill: Good, FillAlpha: 0.22}
	s[BandQuiet] = Style{Name: "band-quiet", Fill: Quiet, FillAlpha: 0.18}
	s[BandSwept] = Style{Name: "band-swept", Fill: Quiet, FillAlpha: 0.1}
	s[CurveNow] = line("curve-now", Now, 2, wide, Solid)
	s[CurveBefore] = line("curve-before", Before, 1.4, narrow, DoubleChain)
	s[Frame] = line("frame", Hairline, 1, narrow, Solid).crisp()
	s[Grid] = line("grid", Hairline, 1, narrow, Solid).crisp()
	s[Axis] = line("axis", Quiet, 1, narrow, Solid).crisp()
	s[Level] = line("level", Ink, 1, narrow, Solid).crisp()
}

func (s *Styles) setTexts() {
	text := func(name string, c Token, f font.Face, size, em float64) Style {
		return Style{Name: name, Stroke: c, Face: f, Size: size, PaperSize: em}
	}
	s[TextBody] = text("text", Ink, font.Regular, 13, bodyEm)
	s[TextSmall] = text("text-small", Ink, font.Regular, 12.5, bodyEm)
	s[TextQuiet] = text("text-quiet", Quiet, font.Regular, 11, quietEm)
	s[TextBold] = text("text-bold", Ink, font.Bold, 13, bodyEm)
	s[TextTitle] = text("text-title", Ink, font.Bold, 15, titleEm)
	s[TextNow] = text("text-now", NowText, font.Regular, 12.5, bodyEm)
	s[TextBefore] = text("text-before", Before, font.Regular, 12.5, bodyEm)
	s[TextGood] = text("text-good", Good, font.Regular, 12.5, bodyEm)
	s[TextTag] = text("text-tag", Paper, font.Regular, 12.5, bodyEm)
	s[TextTick] = text("text-tick", Quiet, font.Regular, 11, quietEm)
}

// TextSize returns the extent of a text of the role in points: its width, and
// its height above and below the baseline.
func (s *Styles) TextSize(role Role, m Medium, text []byte) (w, up, down float64) {
	st := &s[role]
	em := st.SizeOn(m)
	return st.Face.WidthBytes(text) * em, font.Ascent * em, font.Descent * em
}

// TextOrigin returns the way from the anchor of a text of the role to the start
// of its baseline, in points, y up.
func (s *Styles) TextOrigin(role Role, m Medium, a Align, text []byte) Point {
	st := &s[role]
	em := st.SizeOn(m)
	var o Point
	switch a.Horizontal() {
	case Centre:
		o.X = -st.Face.WidthBytes(text) * em / 2
	case Right:
		o.X = -st.Face.WidthBytes(text) * em
	}
	switch a.Vertical() {
	case Middle:
		o.Y = -font.CapHeight * em / 2
	case Top:
		o.Y = -font.Ascent * em
	case Bottom:
		o.Y = font.Descent * em
	}
	return o
}
