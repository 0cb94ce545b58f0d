package panels

import (
	"strings"

	"armscribe/canvas/draw"
)

// Sizes of what stands under the table, in points.
const (
	underFrom   = 600 // height of a panel that has room for it
	underStep   = 14
	underGap    = 8 // over the text and under it
	underFewest = 5 // lines of text
	underMost   = 8
	underPer    = 20  // each so many points of height give a line more
	underBase   = 500 // beyond this height
)

// underRows is how many lines of text stand under the table: a matter of the
// height alone, so that the table stands still while the pointer moves.
func underRows(h float64) int {
	if h < underFrom {
		return 0
	}
	return max(underFewest, min(underMost, int((h-underBase)/underPer)))
}

// underHeight is the height under the table, 0 in a short panel.
func underHeight(h float64) float64 {
	if n := underRows(h); n > 0 {
		return float64(n)*underStep + 2*underGap
	}
	return 0
}

// drawUnder draws the sentence of the lit line, or what the marks mean, into the
// room points under the table.
func (r *Readings) drawUnder(l *draw.List, w, room float64) {
	if room <= 0 {
		return
	}
	l.On(draw.LayerNotes)
	l.Rect(roleCover, draw.Box{Max: draw.Point{X: w, Y: room}})
	l.Line(draw.Frame, draw.Point{X: margin, Y: room}, draw.Point{X: w - margin, Y: room})
	y := room - underGap - underStep/2
	for _, line := range r.underText(w-2*margin, underRows(r.table.full)) {
		l.Text(draw.TextQuiet, draw.At(margin, y), draw.Left|draw.Middle, line)
		y -= underStep
	}
}

// underText wraps the sentence to at most rows lines; one that says more ends
// with an ellipsis, and the status line has the rest.
func (r *Readings) underText(w float64, rows int) []string {
	text := r.shown.legend()
	if r.lit != nil {
		text = r.said
	}
	if text == "" {
		return nil
	}
	width := func(x string) float64 { return r.TextWidth(draw.TextQuiet, x) }
	lines := wrap(width, text, w)
	if len(lines) <= rows {
		return lines
	}
	lines = lines[:rows]
	last := lines[rows-1]
	for width(last+" …") > w && strings.Contains(last, " ") {
		last = last[:strings.LastIndex(last, " ")]
	}
	lines[rows-1] = last + " …"
	return lines
}

// legend says what the marks of the table mean, while no line is lit.
func (s *snapshot) legend() string {
	if !s.solved {
		return ""
	}
	var parts []string
	if s.hasRight {
		parts = append(parts, "In roll no bands are computed.")
	} else if s.hasBands {
		parts = append(parts, "±: where the figure lies 95 times in 100, with points measured within ±"+s.withinText()+".")
	}
	if s.compared && !s.hasRight {
		parts = append(parts, "≈: a change that measuring error alone could make.")
	}
	if s.estimated {
		parts = append(parts, "est.: rests on a loaded radius estimated from the tyre.")
	}
	return joined(parts)
}

// withinText is how well the points were measured.
func (s *snapshot) withinText() string {
	return s.within.Text(s.unit)
}
