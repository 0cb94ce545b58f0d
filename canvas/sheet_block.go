package canvas

import (
	"math"

	"armscribe/canvas/chart"
	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
)

// TitleBlock is what stands at the foot of a sheet, so that it can be told later
// what it shows. Empty texts are left out.
type TitleBlock struct {
	Job         string
	Now, Before string // names of the variants
	Caution     string // empty stands for Caution
	Inches      bool   // lengths are in inches: so is the scale bar
}

// Caution is the line that every sheet carries.
const Caution = "Geometry only: strength and road legality are for qualified people."

// Sizes of a title block, points.
const (
	blockRow    = 21 // from line to line
	blockPad    = 12 // inside its edges
	blockSample = 64 // of a line of the legend: a whole period of the double chain
	blockGap    = 8
	blockScale  = 180 // the longest scale bar
)

// blockLine is one line of a title block.
type blockLine struct {
	role   draw.Role
	text   string
	sample draw.Role
	has    bool // a sample of a line stands before the text
}

// legend are the roles of the samples.
type legend struct{ now, before draw.Role }

// lines wraps the block to a width.
func (t TitleBlock) lines(st *draw.Styles, of legend, w float64) []blockLine {
	if t.Caution == "" {
		t.Caution = Caution
	}
	var list []blockLine
	add := func(role draw.Role, text string) {
		const most = 6
		for _, line := range wrapText(st, draw.OnPaper, role, text, w, most) {
			list = append(list, blockLine{role: role, text: line})
		}
	}
	if t.Job != "" {
		add(draw.TextTitle, t.Job)
	}
	for _, v := range [...]struct {
		word, name string
		text, line draw.Role
	}{{"now", t.Now, draw.TextBody, of.now}, {"before", t.Before, draw.TextBefore, of.before}} {
		if v.name != "" {
			name := fitText(st, draw.OnPaper, v.text, v.word+": "+v.name, w-blockSample-blockGap)
			list = append(list, blockLine{v.text, name, v.line, true})
		}
	}
	add(draw.TextQuiet, t.Caution)
	return list
}

// addTo makes room under a sheet and draws the block there; perMM is what a scale
// bar is drawn to, in points for each mm of the car, 0 for none.
func (t TitleBlock) addTo(s *draw.Sheet, of legend, perMM float64, format scene.Formatter) {
	v := &s.View
	list := t.lines(s.Styles, of, v.W-2*blockPad)
	rows := len(list)
	bar := scaleBar(perMM, min(v.W-2*blockPad, blockScale), t.Inches)
	if bar > 0 {
		rows++
	}
	height := float64(rows*blockRow + 2*blockPad)
	foot := v.H
	v.H += height
	v.Centre.Y -= height / 2 / v.Zoom
	// From the top left corner of the sheet, points down.
	at := func(x, y float64) draw.Pos {
		return draw.Pos{At: v.Centre, By: draw.Point{X: x - v.W/2, Y: v.H/2 - y}}
	}
	l := s.List
	l.On(draw.LayerNotes)
	l.Path(draw.Knockout, true, at(0, foot), at(v.W, foot), at(v.W, v.H), at(0, v.H))
	l.LineBy(draw.Axis, at(0, foot), at(v.W, foot))
	y := foot + blockPad + blockRow/2.0
	for _, line := range list {
		x := float64(blockPad)
		if line.has {
			l.LineBy(line.sample, at(x, y), at(x+blockSample, y))
			x += blockSample + blockGap
		}
		l.Text(line.role, at(x, y), draw.Left|draw.Middle, line.text)
		y += blockRow
	}
	if bar > 0 {
		drawScaleBar(l, at, y, bar, perMM, format)
	}
}

// scaleBar returns the longest of 1, 2 or 5 times a power of ten mm that fits
// into w points, or the longest round length of a tape in inches; 0 without a scale.
func scaleBar(perMM, w float64, inch bool) float64 {
	if perMM == 0 {
		return 0
	}
	if inch {
		return mmPerInch * chart.ScaleInches(w/perMM/mmPerInch)
	}
	power := math.Pow10(int(math.Floor(math.Log10(w / perMM))))
	for _, k := range [...]float64{5, 2} {
		if k*power*perMM <= w {
			return k * power
		}
	}
	return power
}

func drawScaleBar(l *draw.List, at func(x, y float64) draw.Pos, y, mm, perMM float64, format scene.Formatter) {
	const tick = 4 // half its height
	if format == nil {
		format = scene.Millimetres
	}
	x0, x1 := float64(blockPad), blockPad+mm*perMM
	l.LineBy(draw.Dimension, at(x0, y), at(x1, y))
	for _, x := range [...]float64{x0, x1} {
		l.LineBy(draw.Dimension, at(x, y-tick), at(x, y+tick))
	}
	l.TextBytes(draw.TextQuiet, at(x1+blockGap, y), draw.Left|draw.Middle, format(nil, mm, 0))
}
