package panels

import (
	"armscribe/app/look"
	"armscribe/canvas"
	"armscribe/canvas/draw"
)

// pane is the one raster of a drawn panel, in the colours of the theme.
type pane struct{ canvas.Pane }

func (p *pane) init(back draw.Token, compose func(l *draw.List, w, h float64)) {
	p.Init(back, look.Current, compose)
}

// wrap breaks a text between words into lines of at most w points. A word wider
// than that stands alone on its line.
func wrap(width func(string) float64, text string, w float64) []string {
	var lines []string
	line, last := "", 0
	for i := 0; i <= len(text); i++ {
		if i < len(text) && text[i] != ' ' {
			continue
		}
		word := text[last:i]
		last = i + 1
		switch {
		case line == "":
			line = word
		case width(line+" "+word) <= w:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	return append(lines, line)
}
